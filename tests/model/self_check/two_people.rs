//! Section 12, *Two people are two*, and the second person's try.

use super::*;

/// Removing a warden "takes another privileged person, of either role".
#[test]
fn a_warden_is_removed_by_two() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(3, "1", OPEN_ALWAYS);
    assert_eq!(bench.field("02").shows(), "form remove second");
    bench.digits("40294").look();
    assert_eq!(bench.ok().shows(), "form remove second 40 dots=3");
    assert!(bench.look().1.is_empty(), "OK does nothing where the code is not complete");
    bench.key(Key::Back).look();
    assert_eq!(bench.enter(STEWARD).shows(), "form remove confirm 02");
    assert_eq!(
        bench.look_at_writes(),
        ["tally counted 40", "record asked 40 plain (remove)", "tally cleared 40"]
    );
    bench.ok();
    assert_eq!(bench.look_at_writes(), ["record removed 01 40 of 02"]);
}

/// "Neither who asks nor whom it is about"; "a wrong code, and a right one that
/// is refused … end the dialogue".
#[test]
fn nobody_is_their_own_second_person() {
    for (person, shows) in [
        (OPEN_ALWAYS, "refused same-person"),
        (WARDEN_TOO, "refused right"),
        (COUNTER, "refused right"),
        (SUSPENDED, "refused suspended"),
        ((40, "111222"), "wrong code left=3"),
    ] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.task(3, "1", OPEN_ALWAYS).field("02").enter(person);
        assert_eq!(bench.shows(), shows);
        assert_eq!(bench.wait(60).shows(), "secured");
        assert!(bench.model.setup().holder(2).is_some());
    }
}

/// "While the lock has no such person who is able, it takes the opened lock
/// instead": a forced one will not do.
#[test]
fn without_another_person_it_takes_the_opened_lock() {
    let two = shop_with(|setup| setup.holders.retain(|number, _| ![40].contains(number)));
    let mut bench = Bench::new(&two, monday(9, 0));
    bench.task(3, "1", OPEN_ALWAYS);
    assert_eq!(bench.field("02").shows(), "form remove confirm 02 refused=draw-bolt");
    assert_eq!(bench.ok().shows(), "form remove confirm 02 refused=draw-bolt");
    bench.key(Key::Back).contact(Input::Bolt(true));
    bench.task(3, "1", OPEN_ALWAYS).field("02").ok();
    assert_eq!(bench.shows(), "form remove confirm 02 refused=draw-bolt");
    bench.key(Key::Back).contact(Input::Bolt(false)).open(OPEN_ALWAYS);
    bench.task(3, "1", OPEN_ALWAYS).field("02");
    assert_eq!(bench.ok().shows(), "done remove 02");
}

/// *Able*: not suspended, "and whose total is below 100; of wardens also those
/// above".
#[test]
fn a_barred_steward_is_not_able_and_a_barred_warden_is() {
    for (barred, third, page) in [(40, 2, "confirm"), (2, 40, "second")] {
        let setup = shop_with(|setup| {
            setup.holders.remove(&third);
            let row = Holder { number: 60, ..setup.holders[&1].clone() };
            setup.holders.insert(60, row);
        });
        let mut bench = Bench::new(&setup, monday(9, 0));
        bench.step(&Step::Siege { number: barred, short_of: 0 });
        bench.wait(60).task(3, "1", OPEN_ALWAYS);
        assert!(bench.field("60").shows().starts_with(&format!("form remove {page}")));
    }
}

/// "With dual control in force somebody who may open, or is to": but "to
/// suspend, only for the privileged".
#[test]
fn with_dual_control_it_takes_two_about_openers() {
    let pairs = shop_with(|setup| setup.policy.dual_control = true);
    for (setup, page, place, shown) in [
        (&shop(), 3, "1", "form remove confirm 12"),
        (&pairs, 3, "1", "form remove second"),
        (&pairs, 2, "2", "form suspend confirm 12"),
    ] {
        let mut bench = Bench::new(setup, monday(9, 0));
        assert_eq!(bench.task(page, place, OPEN_ALWAYS).field("12").shows(), shown);
    }
}

/// Enrolling a steward, who is to be privileged; a role that makes somebody so.
#[test]
fn whoever_is_to_be_privileged_takes_two() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(2, "1", OPEN_ALWAYS).field("60").digits("5").field("528406");
    assert_eq!(bench.field("528406").shows(), "form enrol second");
    bench.enter(WARDEN_TOO).ok();
    assert_eq!(bench.look_at_writes()[6..], ["record enrolled 01 02 of 60 =5", "tally cleared 60"]);
    bench.wait(60).task(3, "2", OPEN_ALWAYS).field("12");
    assert_eq!(bench.digits("5").shows(), "form change-role second");
}

/// "dual control off: another able privileged person".
#[test]
fn dual_control_off_takes_another_person() {
    let pairs = shop_with(|setup| setup.policy.dual_control = true);
    let mut bench = Bench::new(&pairs, monday(9, 0));
    bench.task(5, "1", OPEN_ALWAYS).ok().ok().ok().digits("3");
    assert_eq!(bench.shows(), "form set-policy value of dual_control");
    assert_eq!(bench.field("1").shows(), "form set-policy second");
    assert_eq!(bench.enter(STEWARD).ok().shows(), "done set-policy from=2027-03-07T22:00");
}

/// A barred warden's ways in: "while the bolt is drawn; within `dual_limit`
/// (exclusive) after the judgement of another privileged person's right or
/// duress code".
#[test]
fn a_barred_wardens_ways_in() {
    let barred = || {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.step(&Step::Siege { number: 1, short_of: 0 });
        bench.cut(0).wait(3_000).look();
        bench
    };
    assert_eq!(barred().enter(OPEN_ALWAYS).shows(), "refused barred");
    // The steward may not open, but says who they are.
    assert_eq!(barred().enter(STEWARD).wait(59).enter(OPEN_ALWAYS).shows(), "released");
    assert_eq!(barred().enter(STEWARD).wait(60).enter(OPEN_ALWAYS).shows(), "refused barred");
    assert_eq!(barred().enter(COUNTER).wait(7).enter(OPEN_ALWAYS).shows(), "refused barred");
    let mut drawn = barred();
    drawn.open(COUNTER);
    assert!(drawn.task(2, "1", OPEN_ALWAYS).shows().starts_with("form enrol"));
}

/// "Where the total stood at 100 before this try, the notice of `barred`: past
/// the limit the keypad does not tell whose number it is."
#[test]
fn past_the_limit_a_wrong_code_reads_as_barred() {
    for number in [1, 12, 77] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.step(&Step::Siege { number, short_of: 0 });
        bench.wait(86_400 * 2);
        assert_eq!(bench.enter((number, "111222")).shows(), "refused barred");
        assert!(bench.look_at_writes().ends_with(&[format!("record wrong-code {number:02}")]));
    }
}
