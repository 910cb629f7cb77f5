//! Sections 5, 6 and 9: the judge, delays, pairs, bolt and door, supply,
//! hold-shut.

use super::*;

fn with_delay(minutes: u64) -> Setup {
    shop_with(|setup| setup.policy.delay_s = minutes * 60)
}

fn in_pairs() -> Setup {
    shop_with(|setup| setup.policy.dual_control = true)
}

/// "Released for `release`: … at the end: drive *block*, record `not-drawn`";
/// "a release that ends at that second is over".
#[test]
fn a_release_not_used_ends_blocked() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter(COUNTER).look();
    assert_eq!(bench.wait(5).shows(), "released");
    assert_eq!(bench.wait(1).shows(), "secured");
    let (writes, _, drive) = bench.look();
    assert_eq!((writes, drive), (vec!["record not-drawn".to_owned()], vec!["block"]));
    bench.wait(2).contact(Input::Bolt(true));
    assert_eq!(bench.look_at_writes(), ["record forced"]);
    assert_eq!((bench.seen.alarm, bench.seen.access), ("tamper", "open"));
    assert_eq!(bench.wait(60).seen.alarm, "quiet");
}

/// "When ajar: open, record `opened`"; "when no longer ajar: drive *block*,
/// record `secured` with the seconds it was open"; ajar is bolt or door.
#[test]
fn an_opening_lasts_until_bolt_and_door_are_shut() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter(COUNTER).contact(Input::Bolt(true)).look();
    bench.wait(100).contact(Input::Door(true)).contact(Input::Bolt(false)).wait(20);
    assert!(bench.look_at_writes().is_empty());
    assert_eq!(bench.enter(COUNTER).shows(), "refused already-open");
    bench.look();
    bench.contact(Input::Door(false));
    let (writes, _, drive) = bench.look();
    assert_eq!((writes, drive), (vec!["record secured =120".to_owned()], vec!["block"]));
}

/// "At the permit's end, still ajar, clock valid: record `left-open`, sound
/// *warning*, once."
#[test]
fn an_opening_past_the_window_is_left_open_once() {
    let mut bench = Bench::new(&shop(), monday(12, 29));
    bench.enter(COUNTER).contact(Input::Bolt(true)).look();
    assert_eq!(bench.wait(59).shows(), "open");
    assert_eq!(bench.wait(1).shows(), "open left");
    bench.wait(100_000);
    let (writes, sounds, drive) = bench.look();
    assert_eq!((writes, sounds), (vec!["record left-open".to_owned()], vec!["warning"]));
    assert!(drive.is_empty(), "nobody is trapped");
}

/// "`closed` (outside the timetable's windows; until the next instant inside
/// one)": lunch, the evening, and the last second of a window.
#[test]
fn closed_says_when_it_opens() {
    for (start, until) in [
        (monday(12, 30), "2027-03-01T13:30"),
        (monday(17, 0), "2027-03-02T08:30"),
        (monday(8, 29), "2027-03-01T08:30"),
    ] {
        let mut bench = Bench::new(&shop(), start);
        assert_eq!(bench.enter(COUNTER).shows(), format!("refused closed until={until}"));
    }
    let mut bench = Bench::new(&shop(), monday(12, 30) - 1);
    assert_eq!(bench.enter(COUNTER).shows(), "released");
}

/// The judge's order: `inhibit`, `held-shut`, `supply`, `clock`, `closed`.
#[test]
fn the_first_refusal_in_order_is_told() {
    let mut bench = Bench::new(&shop(), monday(18, 0));
    bench.contact(Input::SupplyMv(4_000)).contact(Input::Inhibit(true));
    assert_eq!(bench.enter(COUNTER).shows(), "refused inhibit");
    bench.contact(Input::Inhibit(false));
    assert_eq!(bench.enter(COUNTER).shows(), "refused supply");
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "refused supply");
    bench.contact(Input::SupplyMv(6_000)).step(&Step::ChipLost);
    assert_eq!(bench.enter(COUNTER).shows(), "refused clock");
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "released");
}

/// "Record `delay-started` … At the end of the delay: claimable, for `claim`",
/// "waiting: refused `waiting`", "anyone else is refused `other-person`".
#[test]
fn a_delay_is_waited_for_and_claimed_by_the_same_person() {
    let mut bench = Bench::new(&with_delay(10), monday(9, 0));
    bench.look();
    assert_eq!(bench.enter(COUNTER).shows(), "waiting 10");
    let (writes, sounds, drive) = bench.look();
    assert_eq!(writes[1], "record delay-started 12 plain");
    assert_eq!((sounds.last(), drive.len()), (Some(&"accepted"), 0));
    assert_eq!(bench.wait(599).enter(COUNTER).shows(), "refused waiting");
    assert_eq!(bench.wait(1).shows(), "claimable 3", "and the notice is over");
    assert_eq!(bench.enter(COUNTER_TOO).shows(), "refused other-person");
    assert_eq!(bench.enter(COUNTER).shows(), "released");
}

/// "A claim … that ends at that second is over": record `lapsed`.
#[test]
fn a_claim_lapses_at_its_end() {
    let mut bench = Bench::new(&with_delay(10), monday(9, 0));
    bench.enter(COUNTER).wait(600 + 179).look();
    assert_eq!(bench.shows(), "claimable 1");
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record lapsed"]);
    assert_eq!(bench.enter(COUNTER).shows(), "waiting 10");
}

/// "If now + delay is not before the permit's end: refused `late`."
#[test]
fn a_delay_that_cannot_finish_in_the_window_is_late() {
    let mut bench = Bench::new(&with_delay(10), monday(12, 20));
    assert_eq!(bench.enter(COUNTER).shows(), "refused late");
    let mut bench = Bench::new(&with_delay(10), monday(12, 20) - 1);
    bench.enter(COUNTER).wait(600).look();
    assert_eq!(bench.shows(), "claimable 3");
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record cancelled (window-end)"]);
}

/// "End with record `cancelled` as soon as … inhibit is set", or ajar, which
/// is a forced opening too.
#[test]
fn inhibit_and_force_cancel_a_wait() {
    let mut bench = Bench::new(&with_delay(10), monday(9, 0));
    bench.enter(COUNTER).look();
    bench.contact(Input::Inhibit(true));
    assert_eq!(bench.look_at_writes(), ["record cancelled (inhibit)"]);
    bench.contact(Input::Inhibit(false)).enter(COUNTER).look();
    bench.contact(Input::Door(true));
    assert_eq!(bench.look_at_writes(), ["record forced", "record cancelled (forced)"]);
}

/// "Or the clock becomes invalid (unless all follow `always`)"; "becoming
/// invalid: tally `clock-doubt`, record `clock-invalid`", without a time.
#[test]
fn a_lost_clock_cancels_unless_all_follow_always() {
    let mut bench = Bench::new(&with_delay(10), monday(9, 0));
    bench.enter(COUNTER).look();
    bench.step(&Step::ChipLost);
    assert_eq!(bench.seen.records[0].utc, None);
    assert_eq!(
        bench.look_at_writes(),
        [
            format!("tally clock-doubt ={}", monday(9, 0)),
            "record clock-invalid".to_owned(),
            "record cancelled (clock)".to_owned(),
        ]
    );
    assert_eq!(bench.shows(), "secured clock=invalid");
    let mut bench = Bench::new(&with_delay(10), monday(9, 0));
    bench.enter(OPEN_ALWAYS).step(&Step::ChipLost);
    assert_eq!(bench.seen.access, "waiting");
}

/// "More than 2 s + 1/4096 of the elapsed time": 4096 s allow 3 s, 86,399 s
/// allow 23.09 s.
#[test]
fn the_chip_may_drift_so_far_and_no_further() {
    for (elapsed, jump, doubted) in [
        (1, 2, false),
        (1, -3, true),
        (4_096, 3, false),
        (4_096, -3, false),
        (4_096, 4, true),
        (86_399, 23, false),
        (86_399, 24, true),
        // The point moves on every 24 h.
        (86_401, 3, true),
    ] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.wait(elapsed).look();
        bench.step(&Step::ChipJump(jump));
        let found = !bench.look_at_writes().is_empty();
        assert_eq!(found, doubted, "{jump} s after {elapsed} s");
    }
}

/// Dual control: "recorded `first-of-two`", "the same holder again: refused
/// `same-person`", "the people are the two".
#[test]
fn two_different_people_open_together() {
    let mut bench = Bench::new(&in_pairs(), monday(9, 0));
    bench.look();
    assert_eq!(bench.enter(COUNTER).shows(), "second person after 12");
    assert_eq!(bench.look_at_writes()[1], "record first-of-two 12 plain");
    assert_eq!(bench.enter(COUNTER).shows(), "refused same-person");
    bench.enter((77, "111222")).look();
    assert_eq!(bench.enter(COUNTER_TOO).shows(), "released");
    assert_eq!(
        bench.look_at_writes(),
        ["tally counted 14", "record released 12 14 plain", "tally cleared 14"]
    );
}

/// "A permit of two ends when the earlier ends": at 12:30 for A, though the
/// other follows `always`, whoever comes first.
#[test]
fn a_permit_of_two_ends_when_the_earlier_ends() {
    let long = shop_with(|setup| {
        setup.policy.dual_control = true;
        setup.holders.get_mut(&14).expect("a row").follows = Follows::Timetable(2);
        setup.calendar.timetables[2][0] = vec![Window { from: 0, to: 1_440 }];
    });
    for pair in [[COUNTER, COUNTER_TOO], [COUNTER_TOO, COUNTER], [OPEN_ALWAYS, COUNTER]] {
        let mut bench = Bench::new(&long, monday(12, 29));
        bench.enter(pair[0]).enter(pair[1]).contact(Input::Bolt(true)).look();
        bench.wait(59);
        assert!(bench.look_at_writes().is_empty());
        bench.wait(1);
        assert_eq!(bench.look_at_writes(), ["record left-open"]);
    }
}

/// "At the limit record `lapsed`"; a pair limit "that ends at that second is
/// over".
#[test]
fn a_first_person_lapses_at_the_limit() {
    let mut bench = Bench::new(&in_pairs(), monday(9, 0));
    bench.enter(COUNTER).look();
    assert_eq!(bench.wait(59).shows(), "second person after 12");
    assert_eq!(bench.wait(1).shows(), "secured");
    assert_eq!(bench.look_at_writes(), ["record lapsed"]);
}

/// "When the second is permitted the first is judged again … if now refused,
/// the second is refused `first-refused`, without an instant, and nobody
/// waits any more."
#[test]
fn a_first_person_whose_window_is_over_bars_the_pair() {
    let mut bench = Bench::new(&in_pairs(), monday(12, 29) + 30);
    bench.enter(COUNTER).wait(40).look();
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "refused first-refused");
    assert_eq!(bench.look_at_writes()[1], "record refused-first-refused 01 plain");
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "second person after 01", "nobody waits any more");
}

/// Claimable with dual control: "both, in any order, the first recorded
/// `first-of-two`".
#[test]
fn both_claim_in_any_order() {
    let setup = shop_with(|setup| {
        setup.policy.dual_control = true;
        setup.policy.delay_s = 60;
    });
    let mut bench = Bench::new(&setup, monday(9, 0));
    assert_eq!(bench.enter(COUNTER).enter(COUNTER_TOO).shows(), "waiting 1");
    assert_eq!(bench.wait(60).shows(), "claimable 3");
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "refused other-person");
    assert_eq!(bench.enter(COUNTER_TOO).shows(), "second person after 14");
    assert_eq!(bench.enter(COUNTER).shows(), "released");
}

/// Supply: "good → low below `supply_low`, → spent below `supply_spent`; back
/// up only at the threshold plus 200 mV"; low warns at each opening.
#[test]
fn supply_has_hysteresis_and_warns() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for mv in [4_800, 4_799, 4_999, 4_200, 4_199, 4_399, 4_400, 5_000] {
        bench.contact(Input::SupplyMv(mv));
    }
    assert_eq!(
        bench.look_at_writes(),
        [
            "record supply-low =4799",
            "record supply-spent =4199",
            "record supply-low =4400",
            "record supply-good =5000",
        ]
    );
    bench.contact(Input::SupplyMv(4_500)).look();
    assert_eq!(bench.enter(COUNTER).shows(), "released supply=low");
    assert_eq!(bench.look().1.last(), Some(&"warning"));
}
