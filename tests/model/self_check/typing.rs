//! Sections 2 to 4 and 7: keys, tries, penalties, the alarm.

use super::*;

const WRONG: &str = "111222";

/// "The first digit starts an entry; each further digit extends it", the
/// number in clear, the code as dots; "*back* in an entry wipes it".
#[test]
fn an_entry_shows_its_number_and_dots_and_back_wipes_it() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(bench.digits("1").shows(), "entry 1 dots=0");
    assert_eq!(bench.digits("2739").shows(), "entry 12 dots=3");
    assert_eq!(bench.key(Key::Back).shows(), "secured");
    let (writes, sounds, _) = bench.look();
    assert!(writes.is_empty());
    assert_eq!(sounds, ["key"; 6], "every key that does something sounds");
    bench.key(Key::Back);
    assert!(bench.look().1.is_empty(), "a key that does nothing is silent");
}

/// "20 s after its last key an entry is wiped."
#[test]
fn an_entry_pauses_out_twenty_seconds_after_its_last_key() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.digits("1").wait(19);
    assert_eq!(bench.digits("2").wait(19).shows(), "entry 12 dots=0");
    assert_eq!(bench.wait(1).shows(), "secured");
}

/// "More than 10 digits: … *too long*", "*OK* with fewer than 2 + 6 digits: …
/// *too short*. Neither of these is a try", and a notice "ends after 60 s".
#[test]
fn an_entry_too_long_or_too_short_is_no_try() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(bench.digits("12345678901").shows(), "too long");
    assert_eq!(bench.wait(59).shows(), "too long");
    assert_eq!(bench.wait(1).shows(), "secured");
    bench.key(Key::Back);
    assert_eq!(bench.digits("1273920").key(Key::Ok).shows(), "too short");
    assert_eq!(bench.key(Key::Back).shows(), "secured", "back ends a notice");
    assert!(bench.look_at_writes().is_empty());
}

/// "The try is counted durably", "record `wrong-code n`, sound *refused*",
/// "notice *wrong code* with the tries left".
#[test]
fn a_wrong_code_is_counted_recorded_and_leaves_fewer_tries() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(bench.enter((12, WRONG)).shows(), "wrong code left=3");
    assert_eq!(bench.enter((77, WRONG)).shows(), "wrong code left=2", "unenrolled counts");
    let (writes, sounds, _) = bench.look();
    assert_eq!(
        writes,
        ["tally counted 12", "record wrong-code 12", "tally counted 77", "record wrong-code 77"]
    );
    assert_eq!(sounds.last(), Some(&"refused"));
}

/// "total and share of *n* become 0", and only of *n*: a holder's own code
/// never washes a guesser clean.
#[test]
fn a_right_code_clears_only_its_own_share() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter((77, WRONG)).enter((12, WRONG)).enter(COUNTER).wait(6).look();
    assert_eq!(bench.enter((78, WRONG)).shows(), "wrong code left=2");
    assert_eq!(bench.model.total(12), 0);
    assert_eq!(bench.model.total(77), 1);
}

/// "If the lock's count has reached `wrong_codes`, a penalty starts at once",
/// "tally `penalty`, record `penalty` with its length", and minutes left
/// rounded up are refreshed when they change.
#[test]
fn the_fourth_wrong_code_starts_five_minutes() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for _ in 0..3 {
        bench.enter((12, WRONG));
    }
    bench.look();
    assert_eq!(bench.enter((13, WRONG)).shows(), "penalty 5");
    assert_eq!(
        bench.look_at_writes(),
        ["tally counted 13", "record wrong-code 13", "tally penalty", "record penalty =300"]
    );
    assert_eq!(bench.wait(59).shows(), "penalty 5");
    assert_eq!(bench.wait(1).shows(), "penalty 4");
    assert_eq!(bench.wait(239).shows(), "penalty 1");
    assert_eq!(bench.wait(1).shows(), "secured");
    assert_eq!(bench.look_at_writes(), ["tally served"]);
}

/// "A code typed at the very second a penalty … ends is taken."
#[test]
fn a_code_at_the_very_end_of_a_penalty_is_taken() {
    for (waited, shows) in [(299, "penalty 1"), (300, "released")] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        for _ in 0..4 {
            bench.enter((12, WRONG));
        }
        assert_eq!(bench.wait(waited).enter(COUNTER).shows(), shows, "after {waited} s");
    }
}

/// "min(penalty × 2^step, penalty_cap)"; "doubling from 5 min reaches it with
/// the fourth penalty"; "totals stay".
#[test]
fn penalties_double_to_the_cap() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for minutes in [5, 10, 20, 40, 40] {
        for _ in 0..4 {
            bench.enter((12, WRONG));
        }
        assert_eq!(bench.shows(), format!("penalty {minutes}"));
        bench.wait(minutes * 60);
    }
    assert_eq!(bench.model.total(12), 20);
}

/// "Each wrong or barred try weighs for 24 h of uptime after it, on its own
/// number; then its share falls by one (tally `faded n`…; lowest number first)."
#[test]
fn a_wrong_try_weighs_for_a_day_on_its_own_number() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.enter((77, WRONG)).enter((12, WRONG)).wait(3_600).enter((77, WRONG)).look();
    bench.wait(86_400 - 3_601);
    assert!(bench.look_at_writes().is_empty());
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["tally faded 12", "tally faded 77"]);
    assert_eq!(bench.enter((13, WRONG)).shows(), "wrong code left=2", "one of 77 still weighs");
    bench.look();
    bench.wait(3_600);
    assert_eq!(bench.look_at_writes(), ["tally faded 77"]);
    assert_eq!(bench.model.total(77), 2, "totals stay");
}

/// "24 h of uptime after the end of a penalty in which no other one began the
/// step falls to 0 (tally `eased`…)".
#[test]
fn the_step_eases_a_day_after_the_end_of_a_penalty() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    let guess = |bench: &mut Bench| {
        for _ in 0..4 {
            bench.enter((12, WRONG));
        }
    };
    guess(&mut bench);
    bench.wait(300 + 86_399).look();
    guess(&mut bench);
    assert_eq!(bench.shows(), "penalty 10", "another one began in time");
    bench.wait(600 + 86_399).look();
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["tally eased"]);
    guess(&mut bench);
    assert_eq!(bench.shows(), "penalty 5");
}

/// "The first eight well-formed entries of a penalty are judged … recorded
/// `refused-penalty n` …; they are not counted, never open"; "keys are silent
/// and show nothing"; "later ones are ignored"; the list cannot be reached.
#[test]
fn a_penalty_looks_at_eight_entries_and_says_nothing() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for _ in 0..4 {
        bench.enter((77, WRONG));
    }
    bench.look();
    bench.key(Key::Ok).digits("1").key(Key::Back);
    for _ in 0..10 {
        bench.enter(COUNTER);
    }
    let (writes, sounds, drive) = bench.look();
    assert_eq!(writes, ["record refused-penalty 12 plain"; 8]);
    assert!(sounds.is_empty() && drive.is_empty());
    assert_eq!(bench.shows(), "penalty 5");
}

/// "A duress code raises the alarm" in a penalty too, and the screen is that
/// of the countdown.
#[test]
fn duress_in_a_penalty_raises_the_alarm_only() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for _ in 0..4 {
        bench.enter((77, WRONG));
    }
    bench.look();
    bench.enter((12, "739205"));
    assert_eq!(bench.look_at_writes(), ["record refused-penalty 12 duress"]);
    assert_eq!((bench.shows(), bench.seen.alarm), ("penalty 5", "duress"));
}

/// *Duress* "opens as usual and raises the silent alarm", last digit plus one
/// modulo ten, for `alarm_hold` after the last judged try within that time.
#[test]
fn duress_opens_and_is_held_by_every_judged_try() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.look();
    assert_eq!(bench.enter((12, "739205")).shows(), "released");
    let (writes, sounds, drive) = bench.look();
    assert_eq!(writes, ["tally counted 12", "record released 12 duress", "tally cleared 12"]);
    assert_eq!((sounds.last(), drive.as_slice()), (Some(&"accepted"), &["free"][..]));
    assert_eq!(bench.seen.alarm, "duress");
    bench.wait(59).enter((77, WRONG)).wait(59);
    assert_eq!(bench.seen.alarm, "duress");
    assert_eq!(bench.wait(1).seen.alarm, "quiet");
}

/// "Only while the policy has duress on, otherwise *wrong*"; nine turns to
/// nought.
#[test]
fn duress_off_makes_the_variant_wrong_and_nine_wraps() {
    let setup = shop_with(|setup| setup.policy.duress = false);
    let mut bench = Bench::new(&setup, monday(9, 0));
    assert_eq!(bench.enter((12, "739205")).shows(), "wrong code left=3");
    assert_eq!(bench.seen.alarm, "quiet");
    assert_eq!(crate::reference::duress_variant("520849"), "520840");
}

/// `suspended` and `right` refuse, "sound *refused*", and clear the share.
#[test]
fn suspended_and_steward_are_refused_and_cleared() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(bench.enter(SUSPENDED).shows(), "refused suspended");
    assert_eq!(bench.enter(STEWARD).shows(), "refused right");
    assert_eq!(
        bench.look_at_writes(),
        [
            "tally counted 50",
            "record refused-suspended 50 plain",
            "tally cleared 50",
            "tally counted 40",
            "record refused-right 40 plain",
            "tally cleared 40",
        ]
    );
}

/// "Before this try the total of *n* stood at 100": other roles are barred,
/// "there the try stays counted" and a penalty starts at the limit.
#[test]
fn a_hundred_failures_bar_a_keyholder() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.step(&Step::Siege { number: 12, short_of: 1 }).look();
    bench.wait(90_000);
    assert_eq!(bench.model.total(12), 99);
    let kept = bench.model.power_cut();
    let walk = Walk::new(monday(9, 0) + 7 * 86_400);
    let mut one_better = Bench::booted(walk, kept);
    assert_eq!(one_better.enter(COUNTER).shows(), "released", "99 do not bar");
    bench.enter((12, WRONG)).look();
    assert_eq!(bench.enter(COUNTER).shows(), "refused barred");
    assert_eq!(bench.look_at_writes(), ["tally counted 12", "record refused-barred 12 plain"]);
    bench.enter(COUNTER).enter(COUNTER);
    assert_eq!(bench.shows(), "penalty 5");
}

/// A warden is barred "only from the fifth try on *n* within the current day of
/// uptime", and "in the first day after a boot a barred warden has no tries".
#[test]
fn a_barred_warden_has_four_tries_a_day_after_the_first() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.step(&Step::Siege { number: 1, short_of: 0 });
    bench.step(&Step::PowerCut { off_s: 0, chip_lost: false }).wait(3_000).look();
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "refused barred", "the first day");
    bench.wait(86_400);
    for _ in 0..4 {
        bench.enter((1, WRONG));
    }
    bench.wait(2_400);
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "refused barred", "the fifth try of the day");
    bench.wait(86_400);
    for _ in 0..3 {
        bench.enter((1, WRONG));
    }
    assert_eq!(bench.enter(OPEN_ALWAYS).shows(), "released", "the fourth try of the day");
}

/// "*OK* at rest leads to the list; `1` asks for hold-shut, `2` for status";
/// "*back* leaves; other keys do nothing".
#[test]
fn the_list_asks_who_and_tells_the_status() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(bench.key(Key::Ok).shows(), "list 0");
    bench.look();
    assert_eq!(bench.digits("7").shows(), "list 0");
    assert!(bench.look().1.is_empty());
    assert_eq!(bench.digits("1").shows(), "who hold-shut");
    assert_eq!(bench.key(Key::Back).shows(), "secured");
    bench.contact(Input::SupplyMv(5_900));
    assert_eq!(bench.key(Key::Ok).digits("2").shows(), "who status");
    bench.look();
    assert_eq!(
        bench.enter(STEWARD).shows(),
        "status supply=4/4 full clock=2027-03-01T09:00 unread=1"
    );
    assert_eq!(
        bench.look_at_writes(),
        ["tally counted 40", "record status 40 plain", "tally cleared 40"]
    );
}
