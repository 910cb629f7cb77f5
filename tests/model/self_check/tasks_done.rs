//! Section 12: each task's dialogue to its end, and what it refuses.

use super::*;

/// "A new code, twice"; "neither it nor its variant is the present one or its
/// variant"; record `code-changed`.
#[test]
fn a_holder_changes_their_own_code() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(1, "3", COUNTER);
    for (typed, reason) in [
        ("739204", "own"),
        ("739205", "own"),
        // Its variant is the present code.
        ("739203", "own"),
        ("1234567", "digits"),
        ("111111", "easy"),
        // Its variant is easy.
        ("135790", "easy"),
    ] {
        bench.field(typed);
        assert_eq!(bench.shows(), format!("form change-code code refused={reason}"), "{typed}");
    }
    assert_eq!(
        bench.field("528406").field("528407").shows(),
        "form change-code code refused=not-twice"
    );
    bench.look();
    assert_eq!(bench.digits("5284").shows(), "form change-code code dots=4");
    assert_eq!(
        bench.key(Key::Back).field("528406").field("528406").shows(),
        "form change-code confirm"
    );
    assert!(bench.look_at_writes().is_empty(), "nothing is changed before the last OK");
    assert_eq!(bench.ok().shows(), "done change-code 12");
    let (writes, sounds, _) = bench.look();
    assert_eq!(
        (writes, sounds),
        (vec!["record code-changed 12 of 12".to_owned()], vec!["accepted"])
    );
    assert_eq!(bench.enter(COUNTER).shows(), "wrong code left=3");
    assert_eq!(bench.enter((12, "528406")).shows(), "released");
}

/// Enrol: "a free number; role; … timetable; a code, twice"; "After the change
/// of `enrol` … tally `cleared n`"; the row waits for "the next start of a
/// window of what it follows now".
#[test]
fn a_warden_enrols_a_keyholder_who_waits_for_a_window() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter((15, "111222")).task(2, "1", OPEN_ALWAYS);
    assert_eq!(bench.field("12").shows(), "form enrol number refused=taken");
    assert_eq!(bench.field("00").shows(), "form enrol number refused=no-choice");
    assert_eq!(bench.field("15").shows(), "form enrol role");
    assert_eq!(bench.digits("3").shows(), "form enrol timetable");
    assert_eq!(bench.digits("3").shows(), "form enrol timetable refused=no-start");
    bench.digits("1").field("528406").field("528406");
    assert_eq!(bench.shows(), "form enrol confirm 15");
    bench.look();
    assert_eq!(bench.ok().shows(), "done enrol 15 from=2027-03-01T13:30");
    assert_eq!(bench.look_at_writes(), ["record enrolled 01 of 15 =3", "tally cleared 15"]);
    assert_eq!(bench.model.total(15), 0);
    assert_eq!(bench.enter((15, "528406")).shows(), "refused closed until=2027-03-01T13:30");
    bench.wait(4 * 3_600 + 1_799);
    assert_eq!(bench.enter((15, "528406")).shows(), "refused closed until=2027-03-01T13:30");
    assert_eq!(bench.wait(1).enter((15, "528406")).shows(), "released");
}

/// "*back* … where nothing does, it leaves"; "60 s after the last key that did
/// something"; "a dialogue never survives a boot"; nothing is changed.
#[test]
fn a_dialogue_left_changes_nothing() {
    for leave in 0..3 {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.task(2, "1", OPEN_ALWAYS).field("15").digits("31").field("528406").field("528406");
        bench.look();
        match leave {
            0 => bench.key(Key::Back),
            1 => bench.wait(60),
            _ => bench.cut(1),
        };
        assert_eq!(bench.shows(), "secured");
        assert!(!bench.look_at_writes().iter().any(|write| write.contains("enrolled")));
        assert!(bench.model.setup().holder(15).is_none());
    }
}

/// Suspend and restore: "a number that is suspended or whose total is 100";
/// "Restoring somebody who may open is such a change": it waits.
#[test]
fn suspending_holds_at_once_and_restoring_waits() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(2, "2", DEPUTY);
    assert_eq!(bench.field("01").shows(), "form suspend number refused=not-yours");
    assert_eq!(bench.field("50").shows(), "form suspend number refused=already");
    bench.field("12").look();
    assert_eq!(bench.ok().shows(), "done suspend 12");
    assert_eq!(bench.look_at_writes(), ["record suspended 03 of 12"]);
    assert_eq!(bench.enter(COUNTER).shows(), "refused suspended");
    bench.task(2, "3", OPEN_ALWAYS);
    assert_eq!(bench.field("14").shows(), "form restore number refused=already");
    bench.field("12").look();
    assert_eq!(bench.ok().shows(), "done restore 12 from=2027-03-01T13:30");
    assert_eq!(bench.look_at_writes(), ["record restored 01 of 12"]);
    assert_eq!(bench.enter(COUNTER).shows(), "refused closed until=2027-03-01T13:30");
}

/// Restore with a code: "for the latter … a new code, twice"; "tally `cleared
/// n`": barred no longer, once the window has begun.
#[test]
fn a_barred_number_is_restored_with_a_new_code() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.step(&Step::Siege { number: 12, short_of: 0 }).wait(86_400 - 60).look();
    bench.task(2, "3", OPEN_ALWAYS);
    assert_eq!(bench.field("12").shows(), "form restore code");
    bench.field("528406").field("528406").look();
    bench.ok();
    assert_eq!(bench.look_at_writes(), ["record restored 01 of 12", "tally cleared 12"]);
    assert_eq!(bench.model.total(12), 0);
    assert!(bench.enter((12, "528406")).shows().starts_with("refused closed"));
}

/// "Nobody suspends, removes or re-roles themselves"; record `removed`.
#[test]
fn a_keyholder_is_removed_and_nobody_removes_themselves() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(3, "1", OPEN_ALWAYS);
    assert_eq!(bench.field("01").shows(), "form remove number refused=yourself");
    assert_eq!(bench.field("77").shows(), "form remove number refused=nobody");
    assert_eq!(bench.field("12").shows(), "form remove confirm 12");
    bench.look();
    assert_eq!(bench.ok().shows(), "done remove 12");
    assert_eq!(bench.look_at_writes(), ["record removed 01 of 12"]);
    assert_eq!(bench.enter(COUNTER).shows(), "wrong code left=3");
}

/// Change of role: "never from or to courier"; the same timetable opens no
/// wider, so nothing waits; a role that may not open narrows at once.
#[test]
fn a_role_is_changed() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(3, "2", OPEN_ALWAYS);
    assert_eq!(bench.field("30").shows(), "form change-role number refused=courier");
    assert_eq!(bench.field("12").digits("4").shows(), "form change-role role refused=courier");
    assert_eq!(bench.digits("2").shows(), "form change-role opens");
    bench.digits("1").digits("1").look();
    assert_eq!(bench.ok().shows(), "done change-role 12");
    assert_eq!(bench.look_at_writes(), ["record role-changed 01 of 12 =2"]);
    assert_eq!(bench.enter(COUNTER).shows(), "released");
    bench.wait(10).task(3, "2", OPEN_ALWAYS).field("12").digits("22").ok();
    assert_eq!(bench.enter(COUNTER).shows(), "refused right");
}

/// "From a timetable to `always`: of what it followed before"; "undoing a
/// change that waits restores what held, at once"; "a row that is changed anew
/// while it waits waits for its new start only".
#[test]
fn a_timetable_waits_and_its_undoing_does_not() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(3, "3", OPEN_ALWAYS);
    assert_eq!(bench.field("40").shows(), "form choose-timetable number refused=not-yours");
    bench.field("12").digits("2").look();
    assert_eq!(bench.ok().shows(), "done choose-timetable 12 from=2027-03-07T22:00");
    assert_eq!(bench.look_at_writes(), ["record timetable-chosen 01 of 12 =2"]);
    assert_eq!(bench.enter(COUNTER).shows(), "refused closed until=2027-03-07T22:00");
    bench.task(3, "3", OPEN_ALWAYS).field("12").digits("9");
    assert_eq!(bench.ok().shows(), "done choose-timetable 12 from=2027-03-01T13:30");
    bench.task(3, "3", OPEN_ALWAYS).field("12").digits("1");
    assert_eq!(bench.ok().shows(), "done choose-timetable 12");
    assert_eq!(bench.enter(COUNTER).shows(), "released");
    bench.wait(10).task(3, "3", OPEN_ALWAYS).field("30").digits("9");
    assert_eq!(bench.shows(), "form choose-timetable timetable refused=no-choice");
}

/// "From a timetable to `always`: of what it followed before", B here.
#[test]
fn from_a_timetable_to_always_it_waits_for_that_timetable() {
    let setup = shop_with(|setup| {
        setup.holders.get_mut(&12).expect("a row").follows = Follows::Timetable(1);
    });
    let mut bench = Bench::new(&setup, monday(9, 0));
    bench.task(3, "3", OPEN_ALWAYS).field("12").digits("9");
    assert_eq!(bench.ok().shows(), "done choose-timetable 12 from=2027-03-07T22:00");
}

/// Numbers: "shows which are taken, three at a time".
#[test]
fn the_numbers_are_shown_three_at_a_time() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(4, "1", DEPUTY);
    assert_eq!(bench.shows(), "form numbers shows 01 02 03");
    assert_eq!(bench.ok().shows(), "form numbers shows 12 14 30");
    assert_eq!(bench.ok().shows(), "form numbers shows 40 50");
    assert_eq!(bench.ok().shows(), "form numbers shows 01 02 03");
    assert_eq!(bench.key(Key::Back).shows(), "secured");
}

/// "Bolt drawn"; record `alarm-tested`; "the line says duress for
/// `alarm_hold`"; "no boot raises that again".
#[test]
fn the_alarm_is_tested_with_the_bolt_drawn() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(5, "2", OPEN_ALWAYS);
    assert_eq!(bench.ok().shows(), "form test-alarm confirm refused=draw-bolt");
    assert_eq!(bench.seen.alarm, "quiet");
    bench.key(Key::Back).open(OPEN_ALWAYS).task(5, "2", OPEN_ALWAYS).look();
    assert_eq!(bench.ok().shows(), "done test-alarm");
    assert_eq!(bench.look_at_writes(), ["record alarm-tested 01"]);
    assert_eq!(bench.wait(59).seen.alarm, "duress");
    assert_eq!(bench.wait(1).seen.alarm, "quiet");
    assert_eq!(bench.cut(1).seen.alarm, "quiet");
}

/// Status: "the supply in quarters with a word": 4,800 and 4,200 mV give
/// thresholds at 5,100 and 5,700.
#[test]
fn status_tells_the_supply_in_quarters() {
    for (mv, words) in [
        (4_100, "0/4 change soon"),
        (4_700, "1/4 change soon"),
        (4_800, "2/4 half"),
        (5_099, "2/4 half"),
        (5_100, "3/4 half"),
        (5_699, "3/4 half"),
        (5_700, "4/4 full"),
    ] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.contact(Input::SupplyMv(mv)).task(1, "2", COUNTER);
        let shown = format!("status supply={words} clock=2027-03-01T09:00");
        assert!(bench.shows().starts_with(&shown), "{mv}: {}", bench.shows());
    }
}

/// "A duress code leads a dialogue just as the plain one does; the alarm goes
/// out with its `asked`."
#[test]
fn duress_leads_a_dialogue_to_its_end() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(3, "1", (1, "480318"));
    assert_eq!(bench.seen.alarm, "duress");
    assert_eq!(bench.look_at_writes()[1], "record asked 01 duress (remove)");
    assert_eq!(bench.field("12").ok().shows(), "done remove 12");
}
