//! Sections 4, 7 and 9: power cuts, boots, faults.

use super::*;

/// "Boot: record `powered-up` … Bolt thrown and door closed: drive *block*
/// first."
#[test]
fn a_boot_blocks_and_says_so() {
    let bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(
        (&bench.seen.drive[..], &bench.seen.writes[..]),
        (&["block"][..], &["record powered-up =0".to_owned()][..])
    );
}

/// "Ajar and `opened`: still opened, without a record"; "counts the seconds it is
/// open from `opened`"; "the last word is none of `released`, `opened` and
/// `forced`: `forced`"; "Ajar: the drive is not moved."
#[test]
fn a_boot_with_the_bolt_drawn_asks_the_audit() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter(COUNTER).contact(Input::Bolt(true)).look();
    bench.cut(60);
    let (writes, _, drive) = bench.look();
    assert_eq!((writes, drive.len()), (vec!["record powered-up =0".to_owned()], 0));
    bench.wait(30).contact(Input::Bolt(false));
    assert_eq!(bench.look_at_writes(), ["record secured =90"], "from `opened`, the cut included");

    let mut walk = Walk::new(monday(9, 0));
    walk.sensors.bolt_drawn = true;
    let bench = Bench::booted(walk, bench.model.power_cut());
    assert_eq!(bench.seen.alarm, "tamper");
    assert_eq!(bench.seen.writes[..2], ["record powered-up =0", "record forced"]);
}

/// "A boot during a penalty restarts it at full length (same step as it had)."
#[test]
fn a_power_cut_never_shortens_a_penalty() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for _ in 0..8 {
        bench.enter((12, "111222")).wait(300);
    }
    assert_eq!(bench.shows(), "penalty 5");
    bench.wait(200).look();
    assert_eq!(bench.cut(7_000).shows(), "penalty 10");
    assert_eq!(bench.look_at_writes(), ["record powered-up =0"]);
    assert_eq!(bench.wait(599).shows(), "penalty 1");
    assert_eq!(bench.wait(1).shows(), "secured");
}

/// "A boot that finds the lock's count at the limit starts one (tally and
/// record as above)."
#[test]
fn a_boot_at_the_limit_starts_the_penalty() {
    let mut kept = Durable::new(shop(), Flash::Ours);
    kept.shares.insert(12, 4);
    let mut bench = Bench::booted(Walk::new(monday(9, 0)), kept);
    assert_eq!(bench.seen.writes, ["record powered-up =0", "tally penalty", "record penalty =300"]);
    assert_eq!(bench.wait(300).enter((12, "111222")).shows(), "wrong code left=3");
}

/// "A power cut cancels without a record of its own"; a first of two does not
/// survive either.
#[test]
fn no_wait_survives_a_power_cut() {
    let setup = shop_with(|setup| setup.policy.delay_s = 600);
    let mut bench = Bench::new(&setup, monday(9, 0));
    bench.enter(COUNTER).look();
    assert_eq!(bench.cut(5).shows(), "secured");
    assert_eq!(bench.look_at_writes(), ["record powered-up =0"]);
}

/// "If the newest record with an outcome field says duress, the alarm is raised
/// again"; a plain one since then calms it.
#[test]
fn a_boot_raises_the_newest_duress_again() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter((12, "739205")).wait(4_000).cut(1);
    assert_eq!(bench.seen.alarm, "duress");
    assert_eq!(bench.wait(60).seen.alarm, "quiet");
    bench.enter(COUNTER).wait(6).cut(1);
    assert_eq!(bench.seen.alarm, "quiet");
}

/// "Invalid if the chip … reads below the newest record's time (the floor)";
/// "it stays so, also over boots".
#[test]
fn a_clock_below_the_floor_is_in_doubt_for_good() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.wait(100).enter(COUNTER).wait(6).look();
    let kept = bench.model.power_cut();
    let earlier = Bench::booted(Walk::new(monday(9, 0)), kept);
    assert_eq!(
        earlier.seen.writes,
        [
            "record powered-up =0".to_owned(),
            format!("tally clock-doubt ={}", monday(9, 0) + 106),
            "record clock-invalid".to_owned(),
        ]
    );
    assert!(earlier.seen.records.iter().all(|record| record.utc.is_none()));
    let kept = earlier.model.power_cut();
    let later = Bench::booted(Walk::new(monday(11, 0)), kept);
    assert_eq!(later.seen.writes, ["record powered-up =0"]);
    assert_eq!(later.shows(), "secured clock=invalid");
}

/// A hold-shut outlives a power cut: its end is fixed in UTC.
#[test]
fn a_hold_shut_outlives_a_power_cut() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(1, "1", COUNTER).ok();
    assert_eq!(bench.cut(3_600).shows(), "held until=2027-03-01T13:30");
    assert_eq!(bench.cut(3 * 3_600 + 1_800).shows(), "secured");
}

/// "If that cannot be written: service; no verdict"; "a write that fails …:
/// service until the next boot. In service keys do nothing"; R1: nothing opens
/// unrecorded.
#[test]
fn a_store_that_fails_opens_nothing() {
    for writes_that_work in 0..2 {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.look();
        bench.model.store_fails_after(writes_that_work);
        assert_eq!(bench.enter((12, "739205")).shows(), "call service store");
        assert!(bench.look().2.is_empty());
        let alarm = if writes_that_work == 0 { "quiet" } else { "duress" };
        assert_eq!(bench.seen.alarm, alarm, "the alarm follows the result, well or not");
        bench.enter(COUNTER);
        assert!(bench.look().1.is_empty());
        assert_eq!(bench.cut(1).enter(COUNTER).shows(), "released");
    }
}

/// "Bolt and door are still followed, an open lock is still blocked when
/// closed."
#[test]
fn service_still_blocks_a_lock_that_is_closed() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter(COUNTER).contact(Input::Bolt(true)).contact(Input::DriveFault).look();
    assert_eq!(bench.shows(), "call service drive");
    bench.contact(Input::Bolt(false));
    let (writes, _, drive) = bench.look();
    assert_eq!((writes, drive), (vec!["record secured =0".to_owned()], vec!["block"]));
}

/// "A boot begins the 24 h of every share anew."
#[test]
fn a_boot_begins_the_weight_of_wrong_tries_anew() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter((12, "111222")).wait(80_000).cut(60).look();
    bench.wait(86_399);
    assert!(bench.look_at_writes().is_empty());
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["tally faded 12"]);
}
