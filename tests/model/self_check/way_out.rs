//! Section 13, R11: no dead end.

use super::*;
use crate::office::LOCK;
use crate::reference::File;

fn empty_file() -> Input {
    let calendar = Calendar::empty("UTC0");
    Input::File(Box::new(File { lock: LOCK, generation: 1, version: 1, calendar }))
}

/// Nobody follows `always` but the wardens, who do not open.
fn by_windows() -> Setup {
    shop_with(|setup| {
        for holder in setup.holders.values_mut() {
            holder.opens = false;
        }
        setup.holders.remove(&50);
    })
}

/// A lock in which nobody could open, and nobody may enrol.
fn stuck() -> Setup {
    let mut setup = by_windows();
    setup.calendar = Calendar::empty("UTC0");
    setup
}

/// "*The bolt is thrown:* a change that makes a lock stuck is refused, with the
/// reason"; "*the bolt is drawn*: it asks once more"; not where `always` opens.
#[test]
fn a_file_without_windows_is_refused_or_asked_about() {
    let mut bench = Bench::new(&by_windows(), monday(9, 0));
    bench.task(4, "2", STEWARD).contact(empty_file());
    assert_eq!(bench.ok().shows(), "form files confirm version=1 refused=stuck");
    bench.key(Key::Back).open(COUNTER).task(4, "2", STEWARD).contact(empty_file());
    assert_eq!(bench.ok().shows(), "form files confirm once more");
    bench.look();
    assert_eq!(bench.ok().shows(), "done files");
    assert!(bench.look_at_writes().contains(&"record file-loaded 40 =1".to_owned()));
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(4, "2", STEWARD).contact(empty_file());
    assert_eq!(bench.ok().shows(), "done files");
}

/// "Unless it was stuck before": what makes nothing worse is not refused.
#[test]
fn a_stuck_lock_may_be_changed() {
    let mut bench = Bench::new(&stuck(), monday(9, 0));
    bench.task(3, "1", OPEN_ALWAYS).field("12");
    assert_eq!(bench.ok().shows(), "done remove 12");
}

/// Policy: dual control with one privileged person and one opener; "or somebody
/// is suspended: it asks once more".
#[test]
fn a_policy_or_a_suspension_that_makes_it_stuck() {
    let small = shop_with(|setup| {
        setup.holders.retain(|number, _| [2, 12].contains(number));
    });
    let mut bench = Bench::new(&small, monday(9, 0));
    bench.task(5, "1", WARDEN_TOO).ok().ok().ok().digits("3").field("2");
    assert_eq!(bench.ok().shows(), "form set-policy confirm refused=stuck");
    // Two openers in pairs, one privileged person: with one opener fewer it is
    // stuck. That this takes the opened lock is said first.
    let pairs = shop_with(|setup| {
        setup.holders.retain(|number, _| [2, 12, 14].contains(number));
        setup.policy.dual_control = true;
    });
    let mut bench = Bench::new(&pairs, monday(9, 0));
    bench.task(3, "1", WARDEN_TOO);
    assert_eq!(bench.field("12").ok().shows(), "form remove confirm 12 refused=draw-bolt");
    bench.key(Key::Back).task(2, "2", WARDEN_TOO).field("12");
    assert_eq!(bench.ok().shows(), "form suspend confirm once more");
    assert_eq!(bench.ok().shows(), "done suspend 12");
}

/// "Somebody could open … for longer than the delay": a window of 10 min and a
/// delay of 10 min make no opening.
#[test]
fn a_window_must_be_longer_than_the_delay() {
    for (minutes, refused) in [("10", true), ("9", false)] {
        let setup = shop_with(|setup| {
            for holder in setup.holders.values_mut() {
                holder.opens = false;
            }
            setup.holders.remove(&50);
            setup.calendar = Calendar::empty("UTC0");
            setup.calendar.timetables[0][2] = vec![Window { from: 600, to: 610 }];
        });
        let mut bench = Bench::new(&setup, monday(9, 0));
        bench.task(5, "1", WARDEN_TOO).ok().digits("2").field(minutes).ok();
        assert_eq!(bench.shows().ends_with("refused=stuck"), refused, "{minutes} min");
    }
}

/// "With an invalid clock only `always` counts, unless a warden and a steward
/// are able, who may set it."
#[test]
fn with_an_invalid_clock_it_takes_who_may_set_it() {
    for (steward, able) in [(true, true), (false, false)] {
        let setup = shop_with(|setup| {
            setup
                .holders
                .retain(|number, _| [2, 12, 14].contains(number) || (steward && *number == 40));
        });
        let mut bench = Bench::new(&setup, monday(9, 0));
        bench.step(&Step::ChipLost);
        assert_eq!(!bench.model.is_stuck(bench.model.setup()), able);
    }
}

/// "From the first warden … until somebody could open, what widens opening
/// applies at once"; "then being set up is over for good (tally `set-up`)".
#[test]
fn being_set_up_ends_with_the_first_who_could_open() {
    let walk = Walk::new(monday(9, 0));
    let mut bench = Bench::booted(walk, Durable::new(Setup::factory("UTC0"), Flash::Erased));
    bench.contact(Input::Bolt(true)).contact(Input::Switch(true)).ok();
    bench.field("02").field("615928").field("615928").ok();
    bench.contact(Input::Bolt(false)).key(Key::Back);
    assert_eq!(bench.shows(), "being set up");
    bench.task(2, "1", WARDEN_TOO).field("12").digits("39").field("739204").field("739204").look();
    assert_eq!(bench.ok().shows(), "done enrol 12", "at once, with the bolt thrown");
    assert_eq!(
        bench.look_at_writes(),
        ["record enrolled 02 of 12 =3", "tally cleared 12", "tally set-up"]
    );
    assert_eq!(bench.enter(COUNTER).shows(), "released");
    bench.wait(10).task(2, "1", WARDEN_TOO).field("14").digits("39").field("520846");
    bench.field("520846").ok();
    assert_eq!(bench.shows(), "form enrol confirm 14 refused=draw-bolt", "for good");
}

/// "For `pair`, and for second persons that are missing, the drawn bolt is not
/// needed."
#[test]
fn while_being_set_up_no_drawn_bolt_is_needed() {
    let mut kept = Durable::new(stuck(), Flash::Ours);
    kept.setting_up = true;
    kept.settings.holders.retain(|number, _| *number == 2);
    let mut bench = Bench::booted(Walk::new(monday(9, 0)), kept);
    bench.task(2, "1", WARDEN_TOO).field("40").digits("5").field("294713").field("294713");
    assert_eq!(bench.ok().shows(), "done enrol 40");
    bench.task(5, "3", WARDEN_TOO).enter(STEWARD);
    for group in crate::reference::Office::pairing_code(&crate::office::OwnOffice, LOCK, 2) {
        bench.field(&group);
    }
    assert_eq!(bench.ok().shows(), "done pair");
}

/// "Refused with the reason if the lock is not stuck", while it is being set up,
/// and while one runs.
#[test]
fn a_way_out_is_for_a_stuck_lock() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(6, "2", OPEN_ALWAYS).enter(STEWARD);
    assert_eq!(bench.ok().shows(), "form way-out confirm refused=not-stuck");
    let mut bench = Bench::new(&stuck(), monday(9, 0));
    bench.task(6, "2", OPEN_ALWAYS).enter(STEWARD).ok();
    bench.task(6, "2", OPEN_ALWAYS).enter(STEWARD);
    assert_eq!(bench.ok().shows(), "form way-out confirm refused=already");
}

/// "Record `way-out-begun`, tally `way-out` … After 72 h of uptime …: record
/// `way-out`, tally `setting-up`"; "a boot begins the 72 h anew"; the screen
/// tells the hours.
#[test]
fn a_way_out_takes_seventy_two_hours() {
    let mut bench = Bench::new(&stuck(), monday(9, 0));
    bench.task(6, "2", OPEN_ALWAYS);
    assert_eq!(bench.shows(), "form way-out second");
    bench.enter(STEWARD).look();
    assert_eq!(bench.ok().shows(), "done way-out");
    assert_eq!(bench.look_at_writes(), ["record way-out-begun 01 40", "tally way-out"]);
    assert_eq!(bench.key(Key::Back).shows(), "way out 72");
    bench.wait(72 * 3_600 - 1).look();
    bench.cut(10);
    assert_eq!(bench.shows(), "way out 72");
    bench.wait(3_600);
    assert_eq!(bench.shows(), "way out 71");
    bench.wait(71 * 3_600 - 1).look();
    assert_eq!(bench.shows(), "way out 1");
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record way-out", "tally setting-up"]);
    assert_eq!(bench.shows(), "being set up");
}

/// "*OK* where the second person is asked for goes on without one: then it takes
/// 14 days"; a lock with no other able person takes 72 h.
#[test]
fn a_way_out_alone_takes_fourteen_days() {
    let mut bench = Bench::new(&stuck(), monday(9, 0));
    bench.task(6, "2", OPEN_ALWAYS).ok();
    assert_eq!(bench.ok().shows(), "done way-out");
    assert_eq!(bench.key(Key::Back).shows(), "way out 336");
    bench.cut(1).wait(14 * 86_400 - 1).look();
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record way-out", "tally setting-up"]);
    let mut only = stuck();
    only.holders.retain(|number, _| *number == 2);
    let mut bench = Bench::new(&only, monday(9, 0));
    bench.task(6, "2", WARDEN_TOO);
    assert_eq!(bench.shows(), "form way-out confirm");
    assert_eq!(bench.ok().key(Key::Back).shows(), "way out 72");
}

/// "The right or duress code of any other privileged person …, also one in a
/// penalty, ends it: tally `way-out-over`, record `way-out-ended` by them."
#[test]
fn any_other_privileged_person_ends_a_way_out() {
    for (person, ends) in
        [(WARDEN_TOO, true), ((2, "615929"), true), (OPEN_ALWAYS, false), (COUNTER, false)]
    {
        let mut bench = Bench::new(&stuck(), monday(9, 0));
        bench.task(6, "2", OPEN_ALWAYS).enter(STEWARD).ok().look();
        bench.enter(person);
        let ended = ["tally way-out-over".to_owned(), "record way-out-ended 02".to_owned()];
        assert_eq!(bench.look_at_writes().ends_with(&ended), ends, "{person:?}");
        assert_eq!(bench.wait(60).shows().starts_with("way out"), !ends);
    }
    let mut bench = Bench::new(&stuck(), monday(9, 0));
    bench.task(6, "2", OPEN_ALWAYS).enter(STEWARD).ok();
    for _ in 0..4 {
        bench.enter((77, "111222"));
    }
    bench.look();
    bench.enter(WARDEN_TOO);
    assert_eq!(
        bench.look_at_writes(),
        ["record refused-penalty 02 plain", "tally way-out-over", "record way-out-ended 02"]
    );
}

/// "So does the 72nd hour if the lock is no longer stuck, by nobody."
#[test]
fn a_way_out_that_is_not_needed_any_more_ends() {
    let mut bench = Bench::new(&stuck(), monday(9, 0));
    bench.task(6, "2", OPEN_ALWAYS).enter(STEWARD).ok();
    bench.model.kept.settings.calendar = shop().calendar;
    bench.look();
    bench.wait(72 * 3_600);
    assert_eq!(bench.look_at_writes(), ["tally way-out-over", "record way-out-ended"]);
}

/// The whole way out of a lock that was shut for good by an empty file: no
/// drawn bolt, no clock change, two people and three days.
#[test]
fn a_stuck_lock_opens_again() {
    let mut bench = Bench::new(&stuck(), monday(9, 0));
    bench.task(6, "2", OPEN_ALWAYS).enter(STEWARD).ok().wait(72 * 3_600);
    bench.task(3, "3", OPEN_ALWAYS).field("12").digits("9").look();
    assert_eq!(bench.ok().shows(), "done choose-timetable 12");
    assert_eq!(bench.look_at_writes().last().expect("written"), "tally set-up");
    assert_eq!(bench.enter(COUNTER).shows(), "released");
}
