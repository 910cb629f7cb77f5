//! The wording of invariants 1 and 8 to 11 on lists of records, each broken
//! once.

use lock_core::audit::Refusal;

use super::super::forge::*;
use super::*;
use crate::memory::Part;
use crate::world::Spoilt;

/// A record that says nothing of the bolt.
const OTHER: Event = Event::LeftOpen;

fn duress() -> Write {
    refused(12, Refusal::Closed, Outcome::Duress)
}

/// The numbers 1 powered-up, 2 wrong-code, 3 released, 4 left-open, 5 refused
/// under duress; all were listed once.
fn story() -> Forge {
    let mut story = Forge::booted();
    story.wrong(13).opening(12).wrote(record(OTHER));
    story.try_on(12).wrote(duress()).did(SILENT).did(REFUSED).wrote(cleared(12)).rest();
    story.looked();
    assert_eq!(story.violated(), None);
    story
}

fn without(number: u32) -> impl Fn(&Entry) -> bool {
    move |entry| !matches!(entry, Entry::Record(other, _) if *other == number)
}

#[test]
fn a_list_that_goes_on_is_fine() {
    let mut story = story();
    story.cut().on().boot().did(SILENT).rest().wrote(record(Event::NotDrawn)).looked();
    assert_eq!(story.violated(), None);
}

/// Two power-ups in a row are recorded, the third is counted, and the next record says how
/// many were.
#[test]
fn power_ups_do_not_wash_the_list_out() {
    let counted = Write::Tally(Tally::PoweredUp);
    let recorded = |unrecorded| record(Event::PoweredUp { unrecorded });
    // The first of `story` is behind other records: two more fill the row.
    let rows: [(&[Write], Option<Invariant>); 6] = [
        (&[recorded(0), recorded(0), counted, counted], None),
        (&[recorded(0), recorded(0), recorded(0)], Some(Invariant::Kept)),
        (&[recorded(0), counted], Some(Invariant::Kept)),
        (&[counted], Some(Invariant::Kept)),
        (&[recorded(0), recorded(0), counted, recorded(1)], Some(Invariant::Kept)),
        (&[recorded(1)], Some(Invariant::Committed)),
    ];
    for (place, (writes, violated)) in rows.into_iter().enumerate() {
        let mut story = story();
        for write in writes {
            story.cut().on().mounted_in(9).wrote(*write).did(SILENT).rest();
        }
        assert_eq!(story.violated(), violated, "row {place}");
    }
    for (unrecorded, violated) in [(2, None), (1, Some(Invariant::Committed))] {
        let mut story = story();
        for write in [recorded(0), recorded(0), counted, counted] {
            story.cut().on().mounted_in(9).wrote(write).did(SILENT).rest();
        }
        story.wrote(record(OTHER)).cut().on().mounted_in(9).wrote(recorded(unrecorded));
        assert_eq!(story.violated(), violated, "{unrecorded}");
    }
}

#[test]
fn what_was_committed_and_is_not_there_is_seen() {
    for (write, of) in [
        (released(12), Invariant::RecordedRelease),
        (record(OTHER), Invariant::Committed),
        (duress(), Invariant::Committed),
    ] {
        let mut story = story();
        story.try_on(12).wrote(write);
        story.look.list.pop();
        story.looked();
        assert_eq!(story.violated(), Some(of), "{write:?}");
        let mut story = self::story();
        story.try_on(12).wrote(write).wrote(record(OTHER)).lose(6).looked();
        assert_eq!(story.violated(), Some(of), "{write:?}");
    }
}

#[test]
fn what_was_listed_and_is_lost_is_seen() {
    for (number, unsaid, said) in [
        // The oldest of its ring may be overwritten, if enough are kept.
        (2, Invariant::Kept, Invariant::NumbersRise),
        (3, Invariant::RecordedRelease, Invariant::RecordedRelease),
        (4, Invariant::NumbersRise, Invariant::NumbersRise),
        (5, Invariant::DuressHeard, Invariant::DuressHeard),
    ] {
        let mut story = story();
        story.wrote(record(OTHER)).wrong(12).looked();
        story.look.list.retain(without(number));
        story.looked();
        assert_eq!(story.violated(), Some(unsaid), "{number}");
        let mut story = self::story();
        story.wrote(record(OTHER)).wrong(12).looked().lose(number).looked();
        assert_eq!(story.violated(), Some(said), "{number}");
    }
}

#[test]
fn a_number_with_two_contents_is_seen() {
    for place in 0..5 {
        let mut story = story();
        let Some(Entry::Record(_, other)) = story.look.list.get_mut(place) else { panic!() };
        other.event = Event::Lapsed;
        story.looked();
        assert_eq!(story.violated(), Some(Invariant::NumbersRise), "{place}");
    }
}

#[test]
fn lists_that_cannot_be_are_seen() {
    let gap = |from, to, lost| Entry::Gap { from, to, lost };
    type Spoil<'s> = &'s dyn Fn(&mut Vec<Entry>);
    let spoils: [Spoil; 8] = [
        &|list| list.swap(1, 2),
        &|list| list.insert(1, list[0]),
        &|list| list.retain(without(3)),
        &|list| list[2] = gap(4, 3, 0),
        &|list| list[2] = gap(3, 3, 2),
        &|list| list.insert(3, gap(3, 3, 0)),
        &|list| list[2] = gap(3, 4, 0),
        &|list| list.push(Entry::Record(6, Record { at: None, event: Event::Lapsed })),
    ];
    for (place, spoil) in spoils.into_iter().enumerate() {
        let mut story = story();
        spoil(&mut story.look.list);
        story.lost = None;
        story.looked();
        assert_eq!(story.violated(), Some(Invariant::NumbersRise), "{place}");
    }
}

#[test]
fn a_number_left_out_stands_in_a_gap() {
    let burnt = |lost: &[u32]| {
        let mut story = story();
        story.burn().burn().wrote(record(OTHER));
        story.lost = Some(lost.to_vec());
        story.looked();
        story.violated()
    };
    assert_eq!(burnt(&[]), Some(Invariant::NumbersRise));
    assert_eq!(burnt(&[6]), Some(Invariant::NumbersRise));
    assert_eq!(burnt(&[6, 7]), None);
}

#[test]
fn what_is_in_doubt_is_there_or_not_and_stays_so() {
    for durable in [Durable::No, Durable::Unknown] {
        for there in [false, true] {
            let torn = || {
                let mut story = story();
                story.wrote_so(record(Event::Lapsed), durable);
                if there {
                    story.reached(record(Event::Lapsed));
                }
                story.cut().on().boot().did(SILENT).rest().looked().cut();
                assert_eq!(story.violated(), None);
                story
            };
            let mut same = torn();
            same.on().boot().did(SILENT).rest();
            assert_eq!(same.violated(), None);
            let mut changed = torn();
            if there {
                changed.look.list.retain(without(6));
            } else {
                changed.reached(record(Event::Lapsed));
            }
            changed.on().boot();
            assert_eq!(changed.violated(), Some(Invariant::NumbersRise), "{durable:?} {there}");
        }
    }
}

/// Two equal records of which one is in doubt, and one of them listed.
#[test]
fn doubt_does_not_hide_a_loss() {
    for (first, second, listed, violated) in [
        (Durable::Unknown, Durable::Yes, 1, None),
        (Durable::Yes, Durable::Unknown, 1, None),
        (Durable::Yes, Durable::Unknown, 2, None),
        (Durable::Yes, Durable::Unknown, 0, Some(Invariant::Committed)),
        (Durable::Yes, Durable::Yes, 1, Some(Invariant::Committed)),
        (Durable::Unknown, Durable::Unknown, 3, Some(Invariant::NumbersRise)),
    ] {
        let mut story = story();
        story.wrote_so(record(OTHER), first).wrote_so(record(OTHER), second);
        story.look.list.truncate(5);
        for number in 6..6 + listed {
            let Write::Record(other) = record(OTHER) else { panic!() };
            story.look.list.push(Entry::Record(number, other));
        }
        story.looked();
        assert_eq!(story.violated(), violated, "{first:?} {second:?} {listed}");
    }
}

/// A ring that overwrites its oldest records, and one that keeps too few.
#[test]
fn fewer_than_promised_are_seen() {
    for (kept, cuts, violated) in [
        // A look counts as one cut: the boot that sees it has made its copy.
        (11, 0, None),
        (10, 0, Some(Invariant::Kept)),
        (10, 1, None),
        (9, 1, Some(Invariant::Kept)),
        (9, 2, None),
    ] {
        let mut story = Forge::booted();
        // Cuts that are older than all that is promised cost nothing any more.
        story.cut().on().boot().rest();
        for _ in 0..20 {
            story.wrote(record(OTHER)).looked();
        }
        for _ in 0..cuts {
            story.cut().on().boot().rest();
        }
        for _ in 0..5 {
            story.wrote(record(OTHER)).looked();
        }
        let end = story.look.list.len();
        story.look.list.drain(..end - kept);
        story.looked();
        assert_eq!(story.violated(), violated, "{kept} {cuts}");
    }
}

#[test]
fn what_was_overwritten_never_comes_back() {
    let mut story = Forge::booted();
    for _ in 0..30 {
        story.wrote(record(OTHER)).looked();
    }
    let whole = story.look.list.clone();
    story.look.list.drain(..10);
    story.cut().on().boot().rest();
    assert_eq!(story.violated(), None);
    story.look.list = whole;
    story.looked();
    assert_eq!(story.violated(), Some(Invariant::NumbersRise));
}

/// The rings are overwritten apart from each other: a number of the one may be
/// gone where the other still lists older ones.
#[test]
fn rings_are_overwritten_apart() {
    let mut story = Forge::booted();
    story.wrong(12).looked();
    for _ in 0..30 {
        story.wrote(record(OTHER)).looked();
    }
    story.look.list.drain(2..15);
    story.look.list.remove(0);
    story.looked();
    assert_eq!(story.violated(), None);
    story.look.list.remove(6);
    story.looked();
    assert_eq!(story.violated(), Some(Invariant::NumbersRise));
}

#[test]
fn a_spoilt_slot_costs_one_record_and_stands_in_a_gap() {
    for (lost, violated) in [
        (&[4][..], None),
        (&[3], None),
        (&[2], None),
        (&[2, 4], Some(Invariant::NumbersRise)),
        (&[3, 4], Some(Invariant::NumbersRise)),
    ] {
        let mut story = story();
        story.wrote(record(OTHER)).wrong(12).looked().spoilt(Spoilt::Content(Part::Rings, 0));
        for number in lost {
            story.lose(*number);
        }
        story.cut().on().boot();
        assert_eq!(story.violated(), violated, "{lost:?}");
    }
    let mut story = story();
    story.wrote(record(OTHER)).looked().spoilt(Spoilt::Content(Part::Rings, 0));
    story.look.list.retain(without(4));
    story.cut().on().boot();
    assert_eq!(story.violated(), Some(Invariant::NumbersRise));
}
