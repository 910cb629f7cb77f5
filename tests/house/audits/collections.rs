//! Extracts of one lock that overlap, follow one another or leave numbers out.

use emulator::audit::extract::Broken;
use emulator::audit::reading::{FileNote, Problem, read};
use lock_core::audit::{Entry, Event, Gap, Seq};
use lock_core::holder::Number;
use lock_core::link::extract::{Item, Scope};
use proptest::prelude::*;

use super::shelf::{Shelf, item, record};

fn wrong(seq: u32) -> Entry {
    record(seq, seq * 60, Event::WrongCode { who: Number::new(12).unwrap() })
}

fn wrongs(numbers: std::ops::RangeInclusive<u32>) -> Vec<Entry> {
    numbers.map(wrong).collect()
}

fn gap(from: u32, to: u32, lost: u32) -> Entry {
    Entry::Gap(Gap { from: Seq(from), to: Seq(to), lost })
}

fn told(shelf: &Shelf) -> (Vec<Entry>, Vec<FileNote>) {
    let mut entries = Vec::new();
    let notes = read(shelf, &shelf.files(), &mut |entry| entries.push(*entry));
    (entries, notes)
}

proptest! {
    /// However often somebody collects, and however far back each extract
    /// reaches, every record is told once, in order.
    #[test]
    fn overlapping_extracts_tell_each_record_once(
        last in 1_u32..60,
        mut cuts in proptest::collection::vec((1_u32..60, 0_u32..20), 0..6),
    ) {
        cuts.sort();
        cuts.push((last, 20));
        let (mut extracts, mut reached) = (Vec::new(), 0_u32);
        for (to, back) in cuts {
            let to = to.min(last);
            let from = (reached + 1).saturating_sub(back).max(1);
            if to >= from {
                extracts.push(wrongs(from..=to));
                reached = reached.max(to);
            }
        }
        let (entries, notes) = told(&Shelf::whole(&extracts));
        prop_assert_eq!(entries, wrongs(1..=last));
        for note in notes {
            prop_assert_eq!(note.problems, vec![]);
        }
    }
}

/// What a later extract has lost, an earlier one may still tell; what nobody
/// collected in time is named.
#[test]
fn overwritten_is_only_what_nobody_collected() {
    let first = wrongs(1..=10);
    let later = [vec![gap(1, 14, 0)], wrongs(15..=20)].concat();
    let (entries, notes) = told(&Shelf::whole(&[first.clone(), later.clone()]));
    assert_eq!(entries, [wrongs(1..=10), vec![gap(11, 14, 0)], wrongs(15..=20)].concat());
    let Entry::Gap(left) = gap(11, 14, 0) else { unreachable!() };
    assert_eq!(notes[1].problems, [Problem::NotCollected(left)]);
    assert!(notes[1].problems[0].is_finding());
    // Alone, the later one is as a full ring is: no finding.
    let (_, notes) = told(&Shelf::whole(&[later]));
    let Entry::Gap(all) = gap(1, 14, 0) else { unreachable!() };
    assert_eq!(notes[0].problems, [Problem::Overwritten(all)]);
    assert!(!notes[0].problems[0].is_finding());
}

/// A gap that ends where the last extract ended hides nothing.
#[test]
fn what_was_collected_up_to_the_gap_is_not_missed() {
    let later = [vec![gap(1, 10, 0)], wrongs(11..=12)].concat();
    let (entries, notes) = told(&Shelf::whole(&[wrongs(1..=10), later]));
    assert_eq!(entries, wrongs(1..=12));
    assert_eq!(notes[1].problems, []);
}

/// An extract of what is new that starts later than the last one ended.
#[test]
fn numbers_between_two_extracts_are_missed() {
    let (entries, notes) = told(&Shelf::whole(&[wrongs(1..=10), wrongs(13..=15)]));
    assert_eq!(entries, [wrongs(1..=10), vec![gap(11, 12, 0)], wrongs(13..=15)].concat());
    let Entry::Gap(left) = gap(11, 12, 0) else { unreachable!() };
    assert_eq!(notes[1].problems, [Problem::NotCollected(left)]);
}

#[test]
fn lost_records_are_a_finding_and_counted() {
    let extract = [wrongs(1..=3), vec![gap(4, 5, 2)], wrongs(6..=7)].concat();
    let (_, notes) = told(&Shelf::whole(&[extract]));
    let Entry::Gap(left) = gap(4, 5, 2) else { unreachable!() };
    assert_eq!(notes[0].problems, [Problem::Lost(left)]);
    assert!(notes[0].problems[0].is_finding() && !notes[0].problems[0].is_broken());
    assert_eq!((notes[0].records, notes[0].span), (5, Some((Seq(1), Seq(7)))));
}

/// Two locks under one number, or a lock whose flash was copied.
#[test]
fn extracts_that_contradict_one_another_are_named() {
    let other: Vec<_> = (1..=12).map(|seq| record(seq, seq * 60, Event::Opened)).collect();
    let (_, notes) = told(&Shelf::whole(&[wrongs(1..=10), other]));
    assert_eq!(notes[1].problems, [Problem::Contradicts(Seq(1), 10)]);
    assert!(notes[1].problems[0].is_broken());
}

/// The rest of a file that goes wrong is not read; what came before it is.
#[test]
fn a_file_that_goes_wrong_is_read_up_to_there() {
    let items = |entries: &[Entry]| entries.iter().map(|e| Ok(item(e))).collect::<Vec<_>>();
    let mut first = items(&wrongs(1..=4));
    first.push(Err(Broken::Altered));
    let shelf = Shelf(vec![(Scope::All, first), (Scope::All, items(&wrongs(1..=6)))]);
    let (entries, notes) = told(&shelf);
    assert_eq!(entries, wrongs(1..=6));
    assert_eq!(notes[0].problems, [Problem::Broken(Broken::Altered)]);
    assert_eq!(notes[1].problems, []);
    let (entries, notes) = told(&Shelf::whole(&[[wrongs(1..=2), wrongs(4..=5)].concat()]));
    assert_eq!(entries, wrongs(1..=2));
    assert_eq!(notes[0].problems, [Problem::OutOfOrder(Seq(4))]);
}

/// Extracts of some records add what lies behind those of everything, each once
/// and in order, and what they leave out is counted and hides nothing.
#[test]
fn extracts_of_some_records_add_to_those_of_everything() {
    let left_out = |from, to| Ok(Item::LeftOut { from: Seq(from), to: Seq(to) });
    let told_of = |seq: u32| Ok(item(&wrong(seq)));
    let all = wrongs(1..=4).iter().map(|entry| Ok(item(entry))).collect();
    let odd =
        vec![left_out(1, 2), told_of(3), left_out(4, 4), told_of(5), left_out(6, 6), told_of(7)];
    let even = vec![left_out(1, 5), told_of(6), left_out(7, 7), told_of(8)];
    let shelf = Shelf(vec![(Scope::All, all), (Scope::Alarms, odd), (Scope::Changes, even)]);
    let (entries, notes) = told(&shelf);
    assert_eq!(entries, wrongs(1..=8));
    assert_eq!(notes.iter().map(|note| note.left_out).collect::<Vec<_>>(), [0, 4, 6]);
    assert!(notes.iter().all(|note| note.problems.is_empty()));
}
