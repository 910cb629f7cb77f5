//! The wording of invariants 4 and 5, each broken once.

use super::super::forge::*;
use super::*;
use lock_core::audit::Outcome;
use lock_core::policy::Policy;
use lock_core::tally::PenaltyMark;
use lock_core::time::Utc;

use crate::memory::Print;

const PENALTY: Write = Write::Tally(Tally::Penalty);
const SERVED: Write = Write::Tally(Tally::Served);

fn faded(n: u8) -> Write {
    Write::Tally(Tally::Faded(number(n)))
}

fn counted(n: u8) -> Write {
    Write::Tally(Tally::Counted(number(n)))
}

/// Four wrong codes, and the penalty for them.
fn punished() -> Forge {
    let mut story = Forge::booted();
    for _ in 0..3 {
        story.wrong(12).rest();
    }
    story.wrong(12).wrote(PENALTY);
    story.wrote(record(Event::Penalty { lasts: Seconds::new(300) })).rest();
    story
}

#[test]
fn tries_penalty_and_fading_as_they_should_be_are_fine() {
    let mut story = punished();
    story.later(300).wrote(SERVED).rest();
    story.wrong(12).rest().later(86_400).wrote(faded(12));
    story.wrote(Write::Tally(Tally::Eased)).looked().rest();
    story.opening(12).cut().on().boot().rest();
    assert_eq!(story.violated(), None);
}

#[test]
fn a_verdict_before_its_count_is_seen() {
    let verdicts = [
        record(Event::WrongCode { who: number(12) }),
        released(12),
        refused(12, Refusal::Closed, Outcome::Plain),
        record(Event::Status { who: number(12), outcome: Outcome::Plain }),
    ];
    for verdict in verdicts {
        for counted in [None, Some(13)] {
            let mut story = Forge::booted();
            if let Some(n) = counted {
                story.try_on(n);
            }
            story.wrote(verdict);
            assert_eq!(story.violated(), Some(Invariant::CountedFirst), "{verdict:?}");
        }
        let mut story = Forge::booted();
        story.wrote_so(counted(12), Durable::No).wrote(verdict);
        assert_eq!(story.violated(), Some(Invariant::CountedFirst), "{verdict:?}");
    }
    let mut story = Forge::booted();
    story.did(REFUSED);
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
}

#[test]
fn a_count_tells_one_verdict() {
    let mut story = Forge::booted();
    story.wrong(12).rest().did(REFUSED);
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
}

#[test]
fn counts_fall_only_by_a_rule() {
    let mut story = Forge::booted();
    story.wrong(12).wrote(cleared(12));
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
    let mut story = Forge::booted();
    story.try_on(12).wrote(released(12)).did(FREE).wrote(cleared(13));
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
    let mut story = Forge::booted();
    let barred = refused(12, Refusal::Barred, Outcome::Plain);
    story.try_on(12).wrote(barred).did(REFUSED).wrote(cleared(12));
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
    let mut story = Forge::booted();
    story.wrong(12).wrote(PENALTY);
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
    let mut story = Forge::booted();
    story.wrong(12).rest().later(86_399).wrote(faded(12));
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
}

/// What falls at the same moment falls lowest number first, and nothing that never weighed.
#[test]
fn tries_fade_lowest_number_first() {
    let weighing = || {
        let mut story = Forge::booted();
        story.wrong(13).rest().wrong(12).rest().later(86_400);
        story
    };
    let mut story = weighing();
    story.wrote(faded(12)).wrote(faded(13)).rest();
    assert_eq!(story.violated(), None);
    for other in [13, 14] {
        let mut story = weighing();
        story.wrote(faded(other));
        assert_eq!(story.violated(), Some(Invariant::CountedFirst), "{other}");
    }
}

/// A penalty of a whole day is served before the step falls.
#[test]
fn the_step_stays_while_a_penalty_runs() {
    let eased = Write::Tally(Tally::Eased);
    let mut story = punished();
    story.cut().on().boot().rest().later(86_400).wrote(eased);
    assert_eq!(story.violated(), Some(Invariant::PenaltyServed));
    let mut story = punished();
    story.later(300).wrote(SERVED).later(86_400).wrote(eased).rest();
    assert_eq!(story.violated(), None);
}

/// A new code ends the failures of a number; who is only restored keeps theirs.
#[test]
fn a_restored_number_is_cleared_where_it_was_barred() {
    for (failures, violated) in [(99, Some(Invariant::CountedFirst)), (100, None)] {
        let mut story = Forge::booted();
        story.tally().totals[12] = failures;
        story.sees_the_tally();
        let by = None;
        let restored =
            Event::Changed { by, change: lock_core::audit::Change::Restored(number(12)) };
        let Write::Record(restored) = record(restored) else { panic!() };
        story.made(restored).wrote(cleared(12));
        assert_eq!(story.violated(), violated, "{failures}");
    }
}

#[test]
fn a_count_that_a_boot_does_not_find_is_seen() {
    for (total, share) in [(0, 1), (1, 0), (2, 1)] {
        let mut story = Forge::booted();
        story.wrong(12).cut();
        story.tally().totals[12] = total;
        if share == 0 {
            story.tally().weights.clear();
        }
        story.on().boot();
        assert_eq!(story.violated(), Some(Invariant::CountedFirst));
    }
}

#[test]
fn a_count_in_flight_is_there_or_not_and_stays_so() {
    let torn = |there: bool| {
        let mut story = Forge::booted();
        story.wrong(12).wrote_so(counted(12), Durable::Unknown).cut();
        if there {
            story.reached(counted(12));
        }
        story.on().boot().rest();
        assert_eq!(story.violated(), None);
        story.cut();
        story
    };
    for there in [true, false] {
        let mut story = torn(there);
        story.tally().totals[12] = if there { 1 } else { 2 };
        story.on().boot();
        assert_eq!(story.violated(), Some(Invariant::CountedFirst), "{there}");
    }
}

#[test]
fn a_try_in_a_penalty_is_seen() {
    for seconds in [0, 299] {
        let mut story = punished();
        story.later(seconds).try_on(12);
        assert_eq!(story.violated(), Some(Invariant::PenaltyServed));
        let mut story = punished();
        story.later(seconds).wrote(SERVED);
        assert_eq!(story.violated(), Some(Invariant::PenaltyServed));
    }
    // What is judged for duress alone is no try.
    let mut story = punished();
    story.later(1).wrote(refused(12, Refusal::Penalty, Outcome::Plain)).rest();
    assert_eq!(story.violated(), None);
}

#[test]
fn a_cut_shortens_no_penalty() {
    let again = |seconds| {
        let mut story = punished();
        story.later(299).cut().later(9_999).on().boot().rest();
        story.later(seconds).wrote(SERVED).try_on(12);
        story.violated()
    };
    assert_eq!((again(299), again(300)), (Some(Invariant::PenaltyServed), None));
}

#[test]
fn a_penalty_doubles_up_to_its_cap() {
    let lengths = [1, 2, 3, 4, 5, 255].map(|step| length(step, &TERMS).get());
    assert_eq!(lengths, [300, 600, 1_200, 2_400, 2_400, 2_400]);
    let policy = Policy { penalty_cap: Seconds::new(86_400), ..Policy::DEFAULT };
    let settings = Print { policy, ..TERMS.settings };
    assert_eq!(length(40, &Terms { settings, ..TERMS }).get(), 86_400);
}

#[test]
fn a_penalty_that_a_boot_forgets_is_seen() {
    let mut story = punished();
    story.cut();
    story.tally().penalty = PenaltyMark::Served;
    story.on().boot();
    assert_eq!(story.violated(), Some(Invariant::PenaltyServed));
    let mut story = punished();
    story.cut();
    story.tally().step = 0;
    story.on().boot();
    assert_eq!(story.violated(), Some(Invariant::PenaltyServed));
}

#[test]
fn a_limit_without_a_penalty_is_seen() {
    let mut story = Forge::booted();
    for _ in 0..4 {
        story.wrong(12).rest();
    }
    assert_eq!(story.violated(), Some(Invariant::PenaltyServed));
    let mut story = Forge::booted();
    for _ in 0..3 {
        story.wrong(12).rest();
    }
    story.wrong(12).cut().on().boot().rest();
    assert_eq!(story.violated(), Some(Invariant::PenaltyServed));
}

#[test]
fn a_hold_shut_or_a_doubt_that_is_only_on_record_is_seen() {
    let held = record(Event::HeldShut { who: number(12), until: Utc::from_secs(99) });
    let hold = |until| Write::Tally(Tally::HeldShut(Steady::from_secs(until)));
    let mut story = Forge::booted();
    story.try_on(12).wrote(hold(99)).wrote(held).wrote(DOUBT).wrote(record(Event::ClockInvalid));
    assert_eq!(story.violated(), None);
    for write in [held, record(Event::ClockInvalid)] {
        let mut story = Forge::booted();
        story.try_on(12).wrote(write);
        assert_eq!(story.violated(), Some(Invariant::Committed), "{write:?}");
    }
    let mut story = Forge::booted();
    story.try_on(12).wrote(hold(98)).wrote(held);
    assert_eq!(story.violated(), Some(Invariant::Committed));
}

#[test]
fn a_hold_shut_or_a_doubt_that_a_boot_forgets_is_seen() {
    for entry in [Tally::HeldShut(Steady::from_secs(99)), Tally::ClockDoubt(None)] {
        let mut story = Forge::booted();
        story.wrote(Write::Tally(entry)).cut();
        *story.tally() = tally();
        story.on().boot();
        assert_eq!(story.violated(), Some(Invariant::Committed), "{entry:?}");
    }
}
