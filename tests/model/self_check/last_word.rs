//! Section 9: what a boot finds, and what the audit's last word on the bolt
//! was; power-ups; nobody enrolled.

use super::*;

fn boot_with(bench: &Bench, drawn: bool, later_s: i64) -> Bench {
    let Some(utc) = bench.model.utc() else { panic!("a valid clock") };
    let mut walk = Walk::new(utc + later_s);
    walk.sensors.bolt_drawn = drawn;
    Bench::booted(walk, bench.model.power_cut())
}

/// "Thrown and `opened`: `found-thrown` with the seconds since then"; only then
/// is a drawn bolt forced.
#[test]
fn an_opened_lock_found_thrown_says_so() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.open(COUNTER);
    let found = boot_with(&bench, false, 90);
    assert_eq!(found.seen.writes, ["record powered-up =0", "record found-thrown =90"]);
    let forced = boot_with(&found, true, 10);
    assert_eq!(forced.seen.writes, ["record powered-up =0", "record forced"]);
    assert_eq!(forced.seen.alarm, "tamper");
    // "Ajar and `forced`: still forced, with the alarm, without a record."
    let still = boot_with(&forced, true, 10);
    assert_eq!((still.seen.writes.len(), still.seen.alarm), (1, "tamper"));
}

/// "Thrown and `released`: `not-drawn`"; "ajar and `released`: `opened`".
#[test]
fn a_release_cut_short_is_told_by_the_bolt() {
    for (drawn, kind) in [(false, "record not-drawn"), (true, "record opened")] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.enter(COUNTER);
        let found = boot_with(&bench, drawn, 10);
        assert_eq!(found.seen.writes, ["record powered-up =0", kind]);
        assert_eq!(found.seen.alarm, "quiet");
    }
}

/// "Its permit is decided anew": left open past 12:30, though the boot lies
/// between.
#[test]
fn an_opened_lock_is_still_left_open_after_a_boot() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.open(COUNTER);
    let mut found = boot_with(&bench, true, 60);
    found.look();
    found.wait(3 * 3_600 + 1_739);
    assert!(found.look_at_writes().is_empty());
    found.wait(1);
    assert_eq!(found.look_at_writes(), ["record left-open"]);
    found.contact(Input::Bolt(false));
    assert_eq!(found.look_at_writes(), ["record secured =12600"], "from `opened` on");
}

/// "Where the two newest records but for `supply-…` are both `powered-up`, no
/// record but tally `powered-up`"; the next one says "how often".
#[test]
fn power_ups_behind_power_ups_are_counted() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.cut(1).look();
    bench.contact(Input::SupplyMv(4_700)).cut(1).cut(1);
    assert_eq!(
        bench.look_at_writes(),
        ["record supply-low =4700", "tally powered-up", "tally powered-up"]
    );
    bench.enter(COUNTER).wait(10).look();
    bench.cut(1);
    assert_eq!(bench.look_at_writes(), ["record powered-up =2"]);
    bench.cut(1).cut(1).look();
    bench.enter(COUNTER).wait(10).look();
    bench.cut(1);
    assert_eq!(bench.look_at_writes(), ["record powered-up =3"], "in its life");
}

/// "A level other than the one recorded last (good at first) is recorded."
#[test]
fn a_supply_level_is_not_recorded_twice() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.contact(Input::SupplyMv(4_700)).look();
    bench.cut(1).contact(Input::SupplyMv(4_700));
    assert_eq!(bench.look_at_writes(), ["record powered-up =0"]);
    bench.cut(1).contact(Input::SupplyMv(6_000));
    assert!(bench.look_at_writes().ends_with(&["record supply-good =6000".to_owned()]));
}

/// "After a boot that finds a record with an outcome field, whichever, the lock
/// wakes once `alarm_hold` later."
#[test]
fn a_boot_wakes_once_whatever_the_outcome() {
    for (code, wakes) in [(Some("739204"), true), (Some("739205"), true), (None, false)] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        if let Some(code) = code {
            bench.enter((12, code));
        }
        let found = boot_with(&bench, false, 100);
        assert_eq!(found.model.next_wake() == Some(60_000), wakes, "{code:?}");
    }
}

fn from_the_factory(flash: Flash) -> Bench {
    let walk = Walk::new(monday(9, 0));
    Bench::booted(walk, Durable::new(Setup::factory("UTC0"), flash))
}

/// "With the bolt drawn and the switch on, *OK* begins the first warden's
/// dialogue", on erased flash, too; another layout "says before its last *OK*
/// that everything on it is erased"; record `commissioned`.
#[test]
fn the_first_warden_is_enrolled_at_an_open_safe() {
    for (flash, shows, confirm) in [
        (Flash::Ours, "not in use yet", "form first-warden confirm 01"),
        (Flash::Erased, "not in use yet", "form first-warden confirm 01"),
        (
            Flash::OtherLayout,
            "call service other layout",
            "form first-warden confirm everything is erased",
        ),
    ] {
        let mut bench = from_the_factory(flash);
        assert_eq!(bench.ok().shows(), shows);
        bench.contact(Input::Bolt(true)).ok();
        assert_eq!(bench.shows(), shows, "the switch is off");
        bench.contact(Input::Switch(true)).ok();
        assert_eq!(bench.shows(), "form first-warden number");
        bench.field("01").field("123456");
        assert_eq!(bench.shows(), "form first-warden code refused=easy");
        bench.field("480317").field("480317");
        assert_eq!(bench.shows(), confirm);
        bench.look();
        assert_eq!(bench.ok().shows(), "done first-warden 01");
        assert_eq!(bench.look_at_writes(), ["record commissioned of 01", "tally cleared 01"]);
        assert_eq!(bench.key(Key::Back).shows(), "open");
        bench.contact(Input::Bolt(false));
        assert_eq!(bench.shows(), "being set up");
        assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "refused right", "they do not open");
    }
}

/// "While nobody is enrolled nothing is forced: open without a record or an
/// alarm, and when a hand closes it, it is not blocked and nothing is
/// recorded." Keys do nothing else.
#[test]
fn nothing_is_forced_while_nobody_is_enrolled() {
    let mut bench = from_the_factory(Flash::Ours);
    bench.look();
    bench.contact(Input::Bolt(true)).wait(10).contact(Input::Bolt(false));
    bench.enter(OPEN_ALWAYS).contact(Input::Switch(true)).ok();
    let (writes, sounds, drive) = bench.look();
    assert_eq!((writes.len(), sounds.len(), drive.len()), (0, 0, 0));
    assert_eq!(bench.seen.alarm, "quiet");
    assert_eq!(bench.shows(), "not in use yet");
}

/// Reset: "bolt drawn and switch on"; "everybody and everything is forgotten
/// but audit, sequence, counts, zone and the last generation of the pairing
/// key, then tally `setting-up`".
#[test]
fn a_reset_forgets_everybody() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter((12, "111222")).open(OPEN_ALWAYS).task(6, "1", OPEN_ALWAYS);
    assert_eq!(bench.ok().shows(), "form reset confirm refused=switch-on");
    bench.contact(Input::Switch(true)).look();
    assert_eq!(bench.ok().shows(), "not in use yet");
    assert_eq!(bench.look_at_writes(), ["record reset 01", "tally setting-up"]);
    let setup = bench.model.setup();
    assert_eq!((setup.holders.len(), setup.key, setup.last_generation), (0, None, 1));
    assert_eq!(bench.model.total(12), 1, "counts stay");
    assert_eq!(bench.cut(1).shows(), "not in use yet");
}

/// "*OK* where *reset* asks who you are, then *OK* (record `reset-begun`);
/// after 24 h of uptime …, `reset`. Throwing the one or turning the other:
/// `reset-cancelled`."
#[test]
fn a_reset_without_a_code_takes_a_day() {
    let begin = || {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.open(OPEN_ALWAYS).contact(Input::Switch(true));
        bench.step(&Step::Keys(vec![Key::Ok; 6]));
        bench.digits("1").ok().look();
        bench.ok();
        assert_eq!(bench.look_at_writes(), ["record reset-begun"]);
        bench
    };
    let mut bench = begin();
    bench.wait(86_399);
    assert!(bench.look_at_writes().is_empty());
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["record reset", "tally setting-up"]);
    let mut bench = begin();
    bench.wait(86_000).contact(Input::Switch(false));
    assert_eq!(bench.look_at_writes(), ["record reset-cancelled"]);
    let mut bench = begin();
    bench.contact(Input::Bolt(false));
    assert!(bench.look_at_writes().ends_with(&["record reset-cancelled".to_owned()]));
    let mut bench = begin();
    bench.cut(1).look();
    bench.wait(90_000);
    assert!(!bench.look_at_writes().iter().any(|write| write.starts_with("record reset")));
}

/// "The end of a reset without a code … wait[s] while a dialogue stands at its
/// last page."
#[test]
fn a_reset_waits_for_a_dialogue_at_its_last_page() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.open(OPEN_ALWAYS).contact(Input::Switch(true));
    bench.step(&Step::Keys(vec![Key::Ok; 6]));
    bench.digits("1").ok().ok().wait(86_400 - 30);
    bench.task(3, "1", OPEN_ALWAYS).field("12").look();
    bench.wait(40);
    assert!(bench.look_at_writes().is_empty());
    bench.ok();
    assert_eq!(
        bench.look_at_writes(),
        ["record removed 01 of 12", "record reset", "tally setting-up"]
    );
}
