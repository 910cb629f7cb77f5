//! Sections 3, 6 and 12: one-time codes, and pairing.

use super::*;
use crate::office::{LOCK, OwnOffice};
use crate::reference::{Office, duress_variant};

/// The courier's `nth` code from the first on, counters that both sides leave
/// out not counted.
fn code(bench: &Bench, nth: usize) -> String {
    let kept = (0..100).filter(|counter| !bench.model.is_left_out(1, COURIER, *counter));
    let counter = kept.into_iter().nth(nth).expect("most are kept");
    OwnOffice.one_time_code(1, COURIER, counter)
}

fn give(bench: &mut Bench, nth: usize) -> String {
    let code = code(bench, nth);
    bench.enter((COURIER, &code)).shows().to_owned()
}

/// "Used up with the record of `delay-started` or `released`"; not by a
/// refusal, nor "for the status".
#[test]
fn a_one_time_code_opens_once() {
    let mut bench = Bench::new(&shop(), monday(8, 0));
    assert_eq!(give(&mut bench, 0), "refused closed until=2027-03-01T08:30");
    bench.wait(3_600);
    let first = code(&bench, 0);
    assert!(bench.task(1, "2", (COURIER, &first)).shows().starts_with("status"));
    assert_eq!(give(&mut bench, 0), "released");
    bench.wait(10).cut(10);
    assert_eq!(give(&mut bench, 0), "wrong code left=3");
    assert_eq!(give(&mut bench, 1), "released");
}

/// "The lock takes the code, or the variant, of its counter or one of the nine
/// behind it, and goes on behind that one."
#[test]
fn the_lock_looks_ten_counters_ahead() {
    let at = |counter: u32| OwnOffice.one_time_code(1, COURIER, counter);
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert!((0..=11).all(|counter| !bench.model.is_left_out(1, COURIER, counter)));
    assert_eq!(bench.enter((COURIER, &at(10))).shows(), "wrong code left=3");
    assert_eq!(bench.enter((COURIER, &at(9))).shows(), "released");
    bench.wait(10);
    assert_eq!(bench.enter((COURIER, &at(5))).shows(), "wrong code left=3");
    assert_eq!(bench.enter((COURIER, &duress_variant(&at(11)))).shows(), "released");
    assert_eq!(bench.seen.alarm, "duress");
}

/// "A courier claims with the code that began the wait or its duress variant,
/// which stays right while the wait lasts."
#[test]
fn a_courier_claims_with_the_code_that_began_the_wait() {
    let setup = shop_with(|setup| setup.policy.delay_s = 600);
    for (next, variant, shows) in
        [(1, false, "wrong code left=3"), (0, false, "released"), (0, true, "released")]
    {
        let mut bench = Bench::new(&setup, monday(9, 0));
        assert_eq!(give(&mut bench, 0), "waiting 10");
        assert_eq!(give(&mut bench, 0), "refused waiting");
        bench.wait(600);
        let mut typed = code(&bench, next);
        if variant {
            typed = duress_variant(&typed);
        }
        assert_eq!(bench.enter((COURIER, &typed)).shows(), shows);
    }
}

/// "As the first of two … it is not used up"; "both people's if both are
/// couriers".
#[test]
fn a_courier_who_was_first_keeps_the_code_if_nobody_comes() {
    let setup = shop_with(|setup| {
        setup.policy.dual_control = true;
        let row = Holder { number: 31, ..setup.holders[&COURIER].clone() };
        setup.holders.insert(31, row);
    });
    let mut bench = Bench::new(&setup, monday(9, 0));
    assert_eq!(give(&mut bench, 0), "second person after 30");
    bench.wait(60);
    assert_eq!(give(&mut bench, 0), "second person after 30");
    let other = OwnOffice.one_time_code(1, 31, 0);
    assert_eq!(bench.enter((31, &other)).shows(), "released");
    let counters = bench.model.setup().counters.clone();
    assert_eq!((counters[&30], counters[&31]), (1, 1));
}

/// "A courier's code has seven digits, whatever `code_digits` says"; a plainly
/// wrong one is wrong; a courier does nothing but open and read the status.
#[test]
fn a_couriers_code_has_seven_digits() {
    let setup = shop_with(|setup| setup.policy.code_digits = 8);
    let mut bench = Bench::new(&setup, monday(9, 0));
    assert_eq!(code(&bench, 0).len(), 7);
    assert_eq!(bench.enter((COURIER, "111222")).shows(), "wrong code left=3");
    let first = code(&bench, 0);
    assert_eq!(bench.task(1, "1", (COURIER, &first)).shows(), "refused right");
    assert_eq!(give(&mut bench, 0), "released");
}

/// "A courier's are one-time codes, and need a pairing key"; enrolled without a
/// code, and with a timetable, never `always`.
#[test]
fn a_courier_is_enrolled_without_a_code() {
    let unpaired = shop_with(|setup| setup.key = None);
    let mut bench = Bench::new(&unpaired, monday(9, 0));
    bench.task(2, "1", OPEN_ALWAYS).field("41");
    assert_eq!(bench.digits("4").shows(), "form enrol role refused=no-key");
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(2, "1", OPEN_ALWAYS).field("41").digits("49");
    assert_eq!(bench.shows(), "form enrol timetable refused=no-choice");
    assert_eq!(bench.digits("1").shows(), "form enrol confirm 41");
    bench.look();
    bench.ok();
    assert_eq!(bench.look_at_writes(), ["record enrolled 01 of 41 =4", "tally cleared 41"]);
}

/// Pairing: "bolt drawn; a warden and a steward, whoever begins"; a slip is told
/// at once; "for this lock and of a higher generation".
#[test]
fn a_warden_and_a_steward_pair() {
    for (first, second) in [(OPEN_ALWAYS, STEWARD), (STEWARD, OPEN_ALWAYS)] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.open(COUNTER).task(5, "3", first);
        assert_eq!(bench.shows(), "form pair second");
        bench.enter(second);
        let groups = OwnOffice.pairing_code(LOCK, 2);
        let slip = format!("{}{}", &groups[0][..5], (groups[0].as_bytes()[5] - b'0' + 1) % 10);
        assert_eq!(bench.field(&slip).shows(), "form pair group 1 refused=mistyped");
        for group in &groups {
            bench.field(group);
        }
        assert_eq!(bench.shows(), "form pair confirm");
        bench.look();
        assert_eq!(bench.ok().shows(), "done pair");
        let record = format!("record paired {:02} {:02} =2", first.0, second.0);
        assert_eq!(bench.look_at_writes(), [record]);
        bench.contact(Input::Bolt(false));
        assert_eq!(give(&mut bench, 0), "wrong code left=3", "old codes are void");
    }
}

/// The second person for `pair` is of the other role; another lock's code, or
/// one of an old generation, is refused; the bolt must be drawn at the last OK.
#[test]
fn a_pairing_that_is_not_meant_is_refused() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(bench.task(5, "3", OPEN_ALWAYS).enter(WARDEN_TOO).shows(), "refused right");
    for (lock, generation, shows) in [
        (LOCK, 1, "form pair group 1 refused=not-newer"),
        (LOCK + 1, 2, "form pair group 1 refused=other-lock"),
        (LOCK, 2, "form pair confirm refused=draw-bolt"),
    ] {
        bench.wait(60).task(5, "3", OPEN_ALWAYS).enter(STEWARD);
        for group in OwnOffice.pairing_code(lock, generation) {
            bench.field(&group);
        }
        assert_eq!(bench.shows(), shows);
        if generation == 2 && lock == LOCK {
            assert_eq!(bench.ok().shows(), "form pair confirm refused=draw-bolt");
        }
        bench.key(Key::Back);
    }
}

/// "The last generation of the pairing key" outlives a reset: no old key comes
/// back.
#[test]
fn no_old_key_comes_back_after_a_reset() {
    let mut setup = Setup::factory("UTC0");
    setup.last_generation = 5;
    setup.holders = shop().holders;
    let mut bench = Bench::new(&setup, monday(9, 0));
    bench.task(5, "3", OPEN_ALWAYS).enter(STEWARD);
    for group in OwnOffice.pairing_code(LOCK, 5) {
        bench.field(&group);
    }
    assert_eq!(bench.shows(), "form pair group 1 refused=not-newer");
}
