//! Sections 10 to 12: the policy at the keypad, deputies, stricter values.

use super::*;
use crate::reference::{Deputies, KEYS};

/// From rest to the value of a key, which the list shows three a page.
fn pick(bench: &mut Bench, key: &str) {
    let place = KEYS.iter().position(|each| *each == key).expect("a key");
    bench.task(5, "1", OPEN_ALWAYS);
    bench.step(&Step::Keys(vec![Key::Ok; place / 3]));
    bench.digits(&(place % 3 + 1).to_string());
}

fn set(bench: &mut Bench, key: &str, value: &str) {
    pick(bench, key);
    bench.field(value).ok();
}

/// The bounds of the table, one inside and one outside at each end.
#[test]
fn every_number_of_the_policy_has_its_bounds() {
    let bounds = [
        ("code_digits", 6, 8),
        ("wrong_codes", 3, 10),
        ("penalty", 1, 40),
        ("penalty_cap", 5, 1_440),
        ("delay", 0, 99),
        ("claim", 1, 15),
        ("dual_limit", 10, 300),
        ("alarm_hold", 10, 600),
        ("release", 3, 20),
        ("supply_low", 4_400, 9_000),
        ("supply_spent", 2_500, 4_600),
        ("dual_control", 1, 2),
        ("duress", 0, 1),
        ("deputies", 1, 3),
    ];
    assert_eq!(bounds.map(|(key, ..)| key), KEYS);
    for (key, low, high) in bounds {
        for (value, fits) in [(low, true), (high, true), (low - 1, false), (high + 1, false)] {
            let mut bench = Bench::new(&shop(), monday(9, 0));
            pick(&mut bench, key);
            let present = &shop().policy;
            let as_it_is = || {
                let value = u64::try_from(value).expect("a bound");
                present.with(key, value) == *present
            };
            let shown = if fits && as_it_is() {
                format!("form set-policy value of {key} refused=already")
            } else if fits {
                "form set-policy confirm".to_owned()
            } else {
                format!("form set-policy value of {key} refused=out-of-bounds")
            };
            if value >= 0 {
                assert_eq!(bench.field(&value.to_string()).shows(), shown, "{key} {value}");
            }
        }
    }
}

/// Each value counts, in the units of the table; record `policy-set`.
#[test]
fn a_value_of_the_policy_counts_at_once_where_it_widens_nothing() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.look();
    set(&mut bench, "delay", "10");
    assert_eq!(
        bench.look_at_writes().last().expect("written"),
        "record policy-set 01 =600 (delay)"
    );
    assert_eq!(bench.enter(COUNTER).shows(), "waiting 10");
    set(&mut bench, "code_digits", "7");
    bench.task(1, "3", COUNTER_TOO).field("528406");
    assert_eq!(bench.shows(), "form change-code code refused=digits", "at the next change");
    bench.key(Key::Back);
    set(&mut bench, "duress", "0");
    assert_eq!(bench.enter((14, "520847")).shows(), "wrong code left=3");
}

/// "The old values hold as well until every timetable that has a window within
/// the horizon has begun one": B's, on Sunday at 22:00.
#[test]
fn a_shorter_delay_waits_for_every_timetable() {
    let setup = shop_with(|setup| setup.policy.delay_s = 600);
    let sunday = utc(date(2027, 3, 7).at(22, 0, 0, 0));
    let mut bench = Bench::new(&setup, monday(9, 0));
    set(&mut bench, "delay", "5");
    assert_eq!(bench.shows(), "done set-policy from=2027-03-07T22:00");
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "waiting 10");
    let left = u64::try_from(sunday - monday(9, 0)).expect("ahead");
    bench.wait(left - 1).enter(OPEN_ALWAYS);
    assert_eq!(bench.shows(), "waiting 10");
    bench.wait(3_600).enter(OPEN_ALWAYS);
    assert_eq!(bench.shows(), "waiting 5");
}

/// "Undoing a change that waits restores what held, at once": and then there is
/// nothing that waits; "a stricter policy, until the later of both instants".
#[test]
fn a_policy_undone_waits_no_more() {
    let setup = shop_with(|setup| setup.policy.delay_s = 600);
    let mut bench = Bench::new(&setup, monday(9, 0));
    set(&mut bench, "delay", "5");
    set(&mut bench, "delay", "10");
    assert_eq!(bench.shows(), "done set-policy");
    assert!(bench.model.setup().stricter.is_none());
    set(&mut bench, "delay", "7");
    assert_eq!(bench.shows(), "done set-policy from=2027-03-07T22:00");
}

/// "When the lock is opened, everything that waits applies"; "a forced bolt
/// brings nothing forward"; tally `brought` with the steady time.
#[test]
fn a_drawn_bolt_brings_forward_what_waits() {
    let setup = shop_with(|setup| setup.policy.dual_control = true);
    for (forced, shows) in [(false, "released"), (true, "second person after 12")] {
        let mut bench = Bench::new(&setup, monday(9, 0));
        pick(&mut bench, "dual_control");
        bench.field("1").enter(STEWARD).ok();
        // What was made to wait at that very second goes on waiting.
        bench.wait(1);
        if !forced {
            bench.enter(COUNTER).enter(COUNTER_TOO);
        }
        bench.look();
        bench.contact(Input::Bolt(true));
        let writes = bench.look_at_writes();
        let brought = format!("tally brought ={}", monday(9, 0) + 1);
        assert_eq!(writes.contains(&brought), !forced);
        bench.contact(Input::Bolt(false)).wait(70);
        assert_eq!(bench.enter(COUNTER).shows(), shows);
    }
}

/// Tally `brought` "at the first such opening after a boot and at the first one
/// after a change that waits".
#[test]
fn an_opening_tells_once_that_it_brought_forward() {
    let brought = |writes: Vec<String>| {
        writes.iter().filter(|write| write.starts_with("tally brought")).count()
    };
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for expected in [1, 0] {
        bench.open(COUNTER);
        assert_eq!(brought(bench.look_at_writes()), expected);
        bench.contact(Input::Bolt(false));
    }
    bench.task(3, "3", OPEN_ALWAYS).field("14").digits("2").ok();
    bench.open(COUNTER).contact(Input::Bolt(false));
    assert_eq!(brought(bench.look_at_writes()), 1);
    bench.cut(1).open(COUNTER);
    assert_eq!(brought(bench.look_at_writes()), 1);
}

/// What a boot finds opened brings nothing forward "but for changes made from
/// then on".
#[test]
fn a_boot_at_an_opened_lock_brings_nothing_forward() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter(COUNTER);
    let mut kept = bench.model.power_cut();
    let row = kept.settings.holders.get_mut(&14).expect("a row");
    let until = monday(13, 30);
    row.waits = Some(crate::reference::RowWaits { until, made: 0, held: None });
    let mut walk = Walk::new(monday(9, 5));
    walk.sensors.bolt_drawn = true;
    let mut found = Bench::booted(walk, kept);
    assert_eq!(found.seen.writes, ["record powered-up =0", "record opened"]);
    found.task(3, "3", OPEN_ALWAYS).field("12").digits("9");
    assert_eq!(found.ok().shows(), "done choose-timetable 12", "at once");
    found.contact(Input::Bolt(false));
    assert!(found.enter(COUNTER_TOO).shows().starts_with("refused closed"));
}

/// "Where no such start is known (… the clock invalid or settling), the change
/// is refused until the lock is opened."
#[test]
fn without_a_clock_what_widens_takes_an_opened_lock() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.step(&Step::ChipLost).task(3, "3", OPEN_ALWAYS).field("12");
    assert_eq!(bench.digits("2").shows(), "form choose-timetable confirm 12");
    assert_eq!(bench.ok().shows(), "form choose-timetable confirm 12 refused=draw-bolt");
    bench.key(Key::Back).open(OPEN_ALWAYS);
    bench.task(3, "3", OPEN_ALWAYS).field("12").digits("2");
    assert_eq!(bench.ok().shows(), "done choose-timetable 12");
}

/// Section 11: what deputies may, by the policy; "more for deputies" waits.
#[test]
fn deputies_may_what_the_policy_lets_them() {
    for (deputies, enrols, removes) in [
        (Deputies::Suspend, false, false),
        (Deputies::Remove, false, true),
        (Deputies::Enrol, true, true),
    ] {
        let setup = shop_with(|setup| setup.policy.deputies = deputies);
        for (page, place, may) in [(2, "1", enrols), (3, "1", removes), (2, "2", true)] {
            let mut bench = Bench::new(&setup, monday(9, 0));
            let shown = bench.task(page, place, DEPUTY).shows().to_owned();
            assert_eq!(shown.starts_with("form"), may, "{deputies:?}: {shown}");
        }
    }
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(2, "1", DEPUTY).field("60");
    assert_eq!(bench.digits("1").shows(), "form enrol role refused=not-yours");
    let strict = shop_with(|setup| setup.policy.deputies = Deputies::Suspend);
    let mut bench = Bench::new(&strict, monday(9, 0));
    set(&mut bench, "deputies", "3");
    assert_eq!(bench.shows(), "done set-policy from=2027-03-07T22:00");
    assert_eq!(bench.task(2, "1", DEPUTY).shows(), "refused right");
}
