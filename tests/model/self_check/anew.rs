//! Section 6: waits decided anew, releases that end at once, first of two.

use super::*;

fn delayed() -> Setup {
    shop_with(|setup| setup.policy.delay_s = 600)
}

/// "If one of them is refused": suspended while they wait; nothing follows
/// where nobody of the wait is concerned.
#[test]
fn a_change_ends_the_wait_of_whom_it_refuses() {
    for (number, written) in [
        ("12", vec!["record suspended 03 of 12", "record cancelled (changed)"]),
        ("14", vec!["record suspended 03 of 14"]),
    ] {
        let mut bench = Bench::new(&delayed(), monday(9, 0));
        bench.enter(COUNTER).task(2, "2", DEPUTY).field(number).look();
        bench.ok();
        assert_eq!(bench.look_at_writes(), written);
    }
}

/// "If the delay is by now longer than that of the wait, or if it takes two
/// people by now and the wait has one."
#[test]
fn a_stricter_policy_ends_a_wait() {
    for (value, ends) in [("11", true), ("10", false)] {
        let mut bench = Bench::new(&delayed(), monday(9, 0));
        bench.enter(COUNTER).task(5, "1", OPEN_ALWAYS).ok().digits("2").field(value).look();
        bench.ok();
        let cancelled = bench.look_at_writes().contains(&"record cancelled (changed)".to_owned());
        assert_eq!(cancelled, ends, "{value} min");
    }
    let mut bench = Bench::new(&delayed(), monday(9, 0));
    bench.enter(COUNTER).task(5, "1", OPEN_ALWAYS).ok().ok().ok().digits("3").field("2").look();
    bench.ok();
    assert_eq!(
        bench.look_at_writes(),
        ["record policy-set 01 =2 (dual_control)", "record cancelled (changed)"]
    );
}

/// "Two who began it: both, … whatever dual control says by then."
#[test]
fn two_who_began_a_wait_claim_it_together() {
    let setup = shop_with(|setup| {
        setup.policy.delay_s = 60 * 60;
        setup.policy.dual_control = true;
    });
    // The old values end on Monday at 08:30, within the wait.
    let sunday = utc(date(2027, 3, 7).at(21, 0, 0, 0));
    let mut bench = Bench::new(&setup, sunday);
    for (number, code) in [(61, "528406"), (62, "917350")] {
        let row = Holder {
            number,
            code: code.to_owned(),
            role: Role::Keyholder,
            ..bench.model.setup().holders[&1].clone()
        };
        bench.model.kept.settings.holders.insert(number, row);
    }
    bench.task(5, "1", OPEN_ALWAYS).ok().ok().ok().digits("3").field("1").enter(STEWARD).ok();
    bench.wait(10 * 3_600 + 50 * 60);
    assert_eq!(bench.enter((61, "528406")).enter((62, "917350")).shows(), "waiting 60");
    bench.wait(3_600);
    assert!(!bench.model.in_force().dual_control);
    assert_eq!(bench.enter((61, "528406")).shows(), "second person after 61");
    assert_eq!(bench.enter((62, "917350")).shows(), "released");
}

/// "Else the permit ends when it would now": a file that shortens the window of
/// those who wait, though it is open yet.
#[test]
fn the_permit_of_a_wait_ends_when_it_would_now() {
    let setup = shop_with(|setup| setup.policy.delay_s = 3_600);
    for (shortened, ends) in [(true, "record cancelled (window-end)"), (false, "record lapsed")] {
        let mut bench = Bench::new(&setup, monday(9, 0));
        bench.enter(COUNTER);
        if shortened {
            let mut calendar = shop().calendar;
            calendar.timetables[0][0][0].to = 590;
            let file = crate::reference::File {
                lock: crate::office::LOCK,
                generation: 1,
                version: 1,
                calendar,
            };
            bench.task(4, "2", STEWARD).contact(Input::File(Box::new(file))).ok().look();
            bench.wait(3_000 - 1);
            assert!(bench.look_at_writes().is_empty(), "until 09:50");
        }
        bench.look();
        bench.wait(3_600 + 180);
        assert_eq!(bench.look_at_writes().first().expect("written"), ends);
    }
}

/// "At once where it would be refused `closed`": a release whose person's row has
/// come to wait ends its permit, so that the lock is left open when it is drawn;
/// what was brought forward by the same opening opens again.
#[test]
fn a_row_that_waits_ends_the_permit_of_a_release() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter(COUNTER);
    let row = bench.model.kept.settings.holders.get_mut(&12).expect("a row");
    row.waits = Some(crate::reference::RowWaits { until: monday(13, 30), made: 0, held: None });
    bench.model.decide_people_anew();
    assert_eq!(
        bench.model.permit_now(&[12], crate::reference::Permit::Endless).end(),
        Some(monday(9, 0))
    );
}

/// "Of a release and of an opened lock, too, the permit ends when it would now:
/// at once where it would be refused `closed`."
#[test]
fn an_opened_lock_is_left_open_when_its_person_gets_a_narrower_timetable() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.open(COUNTER).task(3, "3", OPEN_ALWAYS).field("12").digits("2").look();
    bench.ok();
    assert_eq!(bench.look_at_writes(), ["record timetable-chosen 01 of 12 =2", "record left-open"]);
    // "As before for somebody who has no row any more."
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.open(COUNTER).task(3, "1", OPEN_ALWAYS).field("12").ok().look();
    bench.wait(3 * 3_600 + 1_799);
    assert!(bench.look_at_writes().is_empty());
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record left-open"]);
}

/// "When inhibit is set …: the same at once. Ajar within 2 s (exclusive) after
/// a release ended is open and recorded `opened`."
#[test]
fn inhibit_ends_a_release_but_not_a_hand_that_was_faster() {
    for (late, kind, alarm) in [(1, "record opened", "quiet"), (2, "record forced", "tamper")] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.enter(COUNTER).look();
        bench.contact(Input::Inhibit(true));
        let (writes, _, drive) = bench.look();
        assert_eq!((writes, drive), (vec!["record not-drawn".to_owned()], vec!["block"]));
        bench.wait(late).contact(Input::Bolt(true));
        let (writes, _, drive) = bench.look();
        assert_eq!((&*writes[0], drive.len()), (kind, 0));
        assert_eq!(bench.seen.alarm, alarm);
    }
    // Also after a release that ran its length.
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter(COUNTER).wait(7).contact(Input::Bolt(true));
    assert_eq!(bench.seen.alarm, "quiet");
}

/// The first of two is decided anew: suspended meanwhile, "the second is
/// refused `first-refused`".
#[test]
fn a_first_of_two_who_was_suspended_meanwhile() {
    let pairs = shop_with(|setup| setup.policy.dual_control = true);
    let mut bench = Bench::new(&pairs, monday(9, 0));
    bench.enter(COUNTER).task(2, "2", DEPUTY).field("12").ok().key(Key::Back);
    assert_eq!(bench.enter(COUNTER_TOO).shows(), "refused first-refused");
}

/// "Recorded after the penalty that the same code starts": a hundredth wrong
/// try on the number of the one who waits.
#[test]
fn the_wait_of_somebody_barred_ends_after_the_penalty() {
    let setup = shop_with(|setup| {
        setup.policy.delay_s = 99 * 60;
        setup.policy.wrong_codes = 10;
        (setup.policy.penalty_s, setup.policy.penalty_cap_s) = (60, 60);
    });
    let mut bench = Bench::new(&setup, monday(9, 0));
    bench.enter(OPEN_ALWAYS).step(&Step::Siege { number: 1, short_of: 1 }).look();
    assert_eq!(bench.seen.access, "waiting");
    bench.enter((1, "111222"));
    let writes = bench.look_at_writes();
    let tail: Vec<&str> = writes.iter().map(String::as_str).skip(1).collect();
    assert_eq!(
        tail,
        [
            "record wrong-code 01",
            "tally penalty",
            "record penalty =60",
            "record cancelled (barred)"
        ]
    );
}
