//! Section 12, *Files*: in force at once, waiting, replaced, adopted.

use super::*;
use crate::office::LOCK;
use crate::reference::{Closure, File};

/// The shop's calendar, changed.
fn calendar(change: impl FnOnce(&mut Calendar)) -> Calendar {
    let mut calendar = shop().calendar;
    change(&mut calendar);
    calendar
}

/// Mondays until 19:00.
fn longer() -> Calendar {
    calendar(|calendar| calendar.timetables[0][0][1].to = 1_140)
}

fn narrower() -> Calendar {
    calendar(|calendar| calendar.timetables[0][0].truncate(1))
}

fn file(version: u32, calendar: Calendar) -> File {
    File { lock: LOCK, generation: 1, version, calendar }
}

/// A steward loads a file and confirms it.
fn load(bench: &mut Bench, version: u32, calendar: Calendar) {
    bench.task(4, "2", STEWARD).contact(Input::File(Box::new(file(version, calendar))));
    bench.ok();
}

/// "Adopted at *OK*": what opens nothing wider, in one write; the session says
/// first which file it is.
#[test]
fn a_narrower_file_is_in_force_at_once() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    bench.task(4, "2", STEWARD);
    assert_eq!(bench.shows(), "form files session");
    bench.contact(Input::File(Box::new(file(1, narrower()))));
    assert_eq!(bench.seen.link.as_deref(), Some("file 1"));
    assert_eq!(bench.shows(), "form files confirm version=1");
    bench.look();
    assert_eq!(bench.ok().shows(), "done files");
    assert_eq!(bench.look_at_writes(), ["record file-loaded 40 =1"]);
    assert_eq!(bench.enter(COUNTER).shows(), "refused closed until=2027-03-02T08:30");
}

/// What is no file for this lock, now: no session, another lock or key, not
/// newer than the one in force or the one that waits.
#[test]
fn a_file_that_is_not_meant_is_refused_whole() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.contact(Input::File(Box::new(file(1, longer()))));
    assert_eq!(bench.seen.link.as_deref(), Some("refused not-asked"));
    load(&mut bench, 5, longer());
    bench.task(4, "2", STEWARD);
    for (other, answer) in [
        (File { lock: LOCK + 1, ..file(6, longer()) }, "refused other-lock"),
        (File { generation: 2, ..file(6, longer()) }, "refused other-key"),
        (file(5, longer()), "refused not-newer"),
        (file(6, longer()), "file 6"),
    ] {
        bench.contact(Input::File(Box::new(other)));
        assert_eq!(bench.seen.link.as_deref(), Some(answer));
    }
    assert_eq!(bench.wait(599).seen.screen, "form files confirm version=6");
    assert_eq!(bench.wait(1).shows(), "secured", "10 min after it began");
}

/// "Else it waits until each timetable that it opens wider has begun a window";
/// "while it waits only what both files open is open"; adopted "by nobody".
#[test]
fn a_wider_file_waits_for_a_window() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    bench.look();
    load(&mut bench, 1, longer());
    assert_eq!(bench.shows(), "done files from=2027-03-02T08:30");
    assert_eq!(bench.look_at_writes().last().expect("written"), "record file-waits 40 =1");
    bench.wait(4 * 3_600);
    assert_eq!(bench.enter(COUNTER).shows(), "refused closed until=2027-03-02T08:30", "18:00");
    bench.cut(60).look();
    bench.wait(14 * 3_600 + 1_800 - 61);
    assert!(bench.look_at_writes().is_empty());
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record file-loaded =1"]);
    bench.wait(6 * 86_400 + 9 * 3_600);
    assert_eq!(bench.enter(COUNTER).shows(), "released", "next Monday at 17:30");
}

/// "One with another zone opens all of them wider": A and B must have begun.
#[test]
fn another_zone_opens_everything_wider() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    load(&mut bench, 1, Calendar { zone: "EET-2".to_owned(), ..shop().calendar });
    assert_eq!(bench.shows(), "done files from=2027-03-07T22:00");
    bench.wait(86_400 - 3 * 3_600);
    // 11:00 by the old zone and 13:00 by the new one: at lunch in one of them.
    assert!(bench.enter(COUNTER).shows().starts_with("refused closed"));
}

/// "For one without a start ahead, until any other has": C opens for the first
/// time, A is the next that begins.
#[test]
fn a_new_timetable_waits_for_any_other() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    let whole_day = vec![Window { from: 0, to: 1_440 }];
    load(&mut bench, 1, calendar(|calendar| calendar.timetables[2][0] = whole_day));
    assert_eq!(bench.shows(), "done files from=2027-03-02T08:30");
}

/// "Until the older one's instant, or its own if that is later"; "a file that
/// opens nothing wider is adopted at *OK*", also over one that waits.
#[test]
fn a_newer_file_replaces_one_that_waits() {
    let wider_at_night = || calendar(|calendar| calendar.timetables[1][6][0].to = 180);
    let mut bench = Bench::new(&shop(), monday(14, 0));
    load(&mut bench, 1, wider_at_night());
    assert_eq!(bench.shows(), "done files from=2027-03-07T22:00");
    load(&mut bench, 2, longer());
    assert_eq!(bench.shows(), "done files from=2027-03-07T22:00", "not sooner than the older");
    load(&mut bench, 3, narrower());
    assert_eq!(bench.shows(), "done files");
    assert!(bench.model.setup().file.is_none());
    assert_eq!(bench.model.setup().version, 3);
}

/// "When the lock is opened, everything that waits applies", but "the adoption
/// of a file … waits while a dialogue stands at its last page".
#[test]
fn a_drawn_bolt_adopts_a_file_when_no_dialogue_is_at_its_end() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    load(&mut bench, 1, longer());
    bench.enter(COUNTER).task(1, "1", COUNTER_TOO);
    assert!(bench.shows().starts_with("form hold-shut confirm"));
    bench.look();
    bench.contact(Input::Bolt(true));
    assert_eq!(
        bench.look_at_writes(),
        ["record opened".to_owned(), format!("tally brought ={}", monday(14, 0))]
    );
    bench.key(Key::Back);
    assert_eq!(bench.look_at_writes(), ["record file-loaded =1"]);
}

/// A file past due waits for the last page, and no wake-up is asked for it.
#[test]
fn a_file_that_falls_due_at_a_last_page_waits() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    load(&mut bench, 1, longer());
    bench.wait(18 * 3_600 + 1_800 - 40).task(3, "1", OPEN_ALWAYS).field("12").look();
    bench.wait(59);
    assert!(bench.look_at_writes().is_empty());
    bench.ok();
    assert_eq!(
        bench.look_at_writes(),
        ["record removed 01 of 12", "record file-loaded =1"],
        "each under its own record"
    );
}

/// Steady time: setting the clock does not bring a waiting file forward.
#[test]
fn a_clock_set_forward_adopts_nothing() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    load(&mut bench, 1, longer());
    bench.task(4, "3", STEWARD).field("02032027").field("0900").enter(OPEN_ALWAYS).ok().look();
    bench.wait(18 * 3_600 + 1_799);
    assert_eq!(bench.look_at_writes(), ["tally settled"]);
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record file-loaded =1"]);
}

/// "In service … nothing that waits is applied."
#[test]
fn in_service_no_file_is_adopted() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    load(&mut bench, 1, longer());
    bench.contact(Input::DriveFault).look();
    bench.wait(86_400);
    assert!(bench.look_at_writes().is_empty());
    bench.cut(1);
    assert!(bench.look_at_writes().contains(&"record file-loaded =1".to_owned()));
}

/// "Where its own is unknown, it is refused": the clock is invalid.
#[test]
fn without_a_clock_a_wider_file_takes_an_opened_lock() {
    let mut bench = Bench::new(&shop(), monday(14, 0));
    bench.step(&Step::ChipLost);
    load(&mut bench, 1, longer());
    assert_eq!(bench.shows(), "form files confirm version=1 refused=draw-bolt");
    bench.key(Key::Back).open(OPEN_ALWAYS);
    load(&mut bench, 1, longer());
    assert_eq!(bench.shows(), "done files");
}

/// "On one of 400 local dates from yesterday on": of 28 February 2027 that is
/// until Sunday, 2 April 2028.
#[test]
fn a_lifted_closure_opens_wider_within_400_dates() {
    for (closed, shows) in
        [(date(2028, 3, 31), "done files from=2027-03-02T08:30"), (date(2028, 4, 3), "done files")]
    {
        let closure = Closure { from: closed, to: closed, timetables: [true; 8] };
        let setup = shop_with(|setup| setup.calendar.closures.push(closure));
        let mut bench = Bench::new(&setup, monday(14, 0));
        load(&mut bench, 1, shop().calendar);
        assert_eq!(bench.shows(), shows, "{closed}");
    }
}

/// "Or in the plain week far behind them": a special day on each date that the
/// two differ on hides nothing.
#[test]
fn the_plain_week_counts_too() {
    let special = |date| crate::reference::Special {
        date,
        timetables: [true, false, false, false, false, false, false, false],
        windows: vec![Window { from: 510, to: 600 }],
    };
    let mondays: Vec<_> =
        (0..60).map(|week| date(2027, 2, 22) + jiff::ToSpan::weeks(week)).map(special).collect();
    let setup = shop_with(|setup| setup.calendar.specials.clone_from(&mondays));
    let mut bench = Bench::new(&setup, monday(14, 0));
    let mut longer = longer();
    longer.specials = mondays;
    load(&mut bench, 1, longer);
    assert_eq!(bench.shows(), "done files from=2027-03-02T08:30");
}

/// A narrower file ends a wait that it refuses.
#[test]
fn a_narrower_file_ends_a_wait() {
    let setup = shop_with(|setup| setup.policy.delay_s = 600);
    let mut bench = Bench::new(&setup, monday(14, 0));
    bench.enter(COUNTER).look();
    load(&mut bench, 1, narrower());
    assert!(bench.look_at_writes().ends_with(&[
        "record file-loaded 40 =1".to_owned(),
        "record cancelled (changed)".to_owned()
    ]));
}
