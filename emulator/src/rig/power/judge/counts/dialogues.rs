//! The wording of invariants 4, 6 and 11 for what dialogues do, each broken once.

use super::super::forge::*;
use super::*;
use lock_core::policy::Policy;
use lock_core::port::Sound;
use lock_core::screen::{Field, Shown, Topic, Typed};
use lock_core::task::Task;

use crate::memory::Print;

const ACCEPTED: Effect = Effect::Sound(Sound::Accepted);
const SETTLED: Write = Write::Tally(Tally::Settled);
const OVER: Write = Write::Tally(Tally::CorrectionsOver);
const HOURS: u32 = 3_600;
const THEN: Utc = Utc::from_secs(1_803_890_700);
const SETS: Effect = Effect::SetClock(THEN);

const TOPIC: Topic = Topic::Task(Task::Suspend);

const ASKS: Effect = Effect::Show(Screen::Form(Form::Ask {
    topic: TOPIC,
    field: Field::Number,
    shown: Shown::Dots(0),
    trouble: None,
}));

const SECOND: Effect = Effect::Show(Screen::Form(Form::Second {
    topic: TOPIC,
    role: lock_core::role::Role::Steward,
    typed: Typed::Nothing,
}));

fn changed(change: Change) -> Write {
    record(Event::Changed { by: None, change })
}

/// A code is judged in a dialogue too; a field is not a code.
#[test]
fn a_field_is_refused_without_a_count_and_a_second_person_is_not() {
    for (shown, violated) in [(ASKS, None), (SECOND, Some(Invariant::CountedFirst))] {
        let mut story = Forge::booted();
        story.did(shown).told_digit().did(REFUSED);
        assert_eq!(story.violated(), violated);
    }
    let mut story = Forge::booted();
    story.did(ASKS).told_digit().did(SAYS_SERVICE).did(REFUSED);
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
    let mut story = Forge::booted();
    story.did(ASKS).cut().on().boot().did(REFUSED);
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
}

#[test]
fn nothing_is_granted_before_its_change_is_durable() {
    for (durable, violated) in [
        (Durable::Yes, None),
        (Durable::No, Some(Invariant::CountedFirst)),
        (Durable::Unknown, Some(Invariant::CountedFirst)),
    ] {
        let mut story = Forge::booted();
        story.did(ASKS).told_digit();
        story.edited(print(2), durable, durable == Durable::Yes).did(ACCEPTED);
        // The forged record of an edit is no change; one that is says so.
        assert_eq!(story.violated(), Some(Invariant::CountedFirst));
        let mut story = Forge::booted();
        story.wrote_so(changed(Change::AlarmTested), durable).did(ACCEPTED);
        assert_eq!(story.violated(), violated, "{durable:?}");
    }
    let mut story = Forge::booted();
    story.wrote(changed(Change::ResetCancelled)).told_digit().did(ACCEPTED);
    assert_eq!(story.violated(), Some(Invariant::CountedFirst));
}

#[test]
fn a_clock_is_doubted_for_good_before_it_is_set() {
    let mut story = Forge::booted();
    story.wrote(DOUBT).did(SETS);
    assert_eq!(story.violated(), None);
    for durable in [Durable::No, Durable::Unknown] {
        let mut story = Forge::booted();
        story.wrote_so(DOUBT, durable).did(SETS);
        assert_eq!(story.violated(), Some(Invariant::Committed), "{durable:?}");
    }
    let mut story = Forge::booted();
    let believed = Write::Tally(Tally::Corrected(Seconds::new(60)));
    story.wrote(DOUBT).wrote(believed).did(SETS);
    assert_eq!(story.violated(), Some(Invariant::Committed));
}

#[test]
fn a_set_clock_is_believed_before_that_is_on_record() {
    for (entry, change) in [
        (Tally::ClockSet(THEN), Change::ClockSet(_)),
        (Tally::Corrected(Seconds::new(60)), Change::ClockCorrected(-60)),
    ] {
        let mut story = Forge::booted();
        story.wrote(DOUBT).did(SETS).wrote(Write::Tally(entry)).wrote(changed(change));
        assert_eq!(story.violated(), None);
        let mut story = Forge::booted();
        story.wrote(DOUBT).did(SETS).wrote(changed(change));
        assert_eq!(story.violated(), Some(Invariant::Committed));
    }
}

/// Eight hours of uptime, and a boot begins them anew.
#[test]
fn a_clock_settles_in_its_time() {
    let set = Write::Tally(Tally::ClockSet(THEN));
    for (seconds, violated) in [(8 * HOURS - 1, Some(Invariant::WaitWaited)), (8 * HOURS, None)] {
        let mut story = Forge::booted();
        story.wrote(DOUBT).wrote(set).later(seconds).wrote(SETTLED);
        assert_eq!(story.violated(), violated);
        let mut story = Forge::booted();
        story.wrote(DOUBT).wrote(set).later(8 * HOURS).cut().on().boot().rest();
        story.later(seconds).wrote(SETTLED);
        assert_eq!(story.violated(), violated);
    }
    let mut story = Forge::booted();
    story.later(9 * HOURS).wrote(SETTLED);
    assert_eq!(story.violated(), Some(Invariant::WaitWaited));
}

/// Thirty days of uptime, and a boot begins them anew.
#[test]
fn corrections_are_forgotten_in_their_time() {
    let corrected = Write::Tally(Tally::Corrected(Seconds::new(300)));
    let days = 30 * 24 * HOURS;
    for (seconds, violated) in [(days - 1, Some(Invariant::WaitWaited)), (days, None)] {
        let mut story = Forge::booted();
        story.later(HOURS).wrote(DOUBT).wrote(corrected).later(seconds).wrote(OVER);
        assert_eq!(story.violated(), violated);
        let mut story = Forge::booted();
        story.wrote(DOUBT).wrote(corrected).later(days).cut().on().boot().rest();
        story.later(seconds).wrote(OVER);
        assert_eq!(story.violated(), violated);
    }
}

/// What entries of the clock add up to is what a boot finds.
#[test]
fn the_marks_of_the_clock_are_found_by_a_boot() {
    let forgotten: [fn(&mut TallyState); 4] = [
        |tally| tally.settling = None,
        |tally| tally.corrected = Seconds::ZERO,
        |tally| tally.collected = lock_core::audit::Seq(0),
        |tally| tally.clock = ClockMark::Doubted,
    ];
    for forget in forgotten {
        let mut story = Forge::booted();
        story.wrote(DOUBT).wrote(Write::Tally(Tally::Corrected(Seconds::new(60))));
        story.wrote(Write::Tally(Tally::ClockSet(THEN)));
        story.wrote(Write::Tally(Tally::Collected(lock_core::audit::Seq(1)))).cut();
        forget(story.tally());
        story.on().boot();
        assert_eq!(story.violated(), Some(Invariant::Committed));
    }
}

/// A limit that is lowered to what was counted waits for the next wrong code.
#[test]
fn a_lower_limit_waits_for_the_next_wrong_code() {
    let policy = Policy { wrong_codes: 3, ..Policy::DEFAULT };
    let lower = Print { policy, ..print(2) };
    let lowered = || {
        let mut story = Forge::booted();
        story.wrong(12).rest().wrong(12).rest().wrong(12).rest();
        story.edited(lower, Durable::Yes, true).rest();
        story.look.settings = Ok(lower);
        story
    };
    assert_eq!(lowered().violated(), None);
    let mut unpunished = lowered();
    unpunished.wrong(12).rest();
    assert_eq!(unpunished.violated(), Some(Invariant::PenaltyServed));
    let mut rebooted = lowered();
    rebooted.cut().on().boot().rest();
    assert_eq!(rebooted.violated(), Some(Invariant::PenaltyServed));
}
