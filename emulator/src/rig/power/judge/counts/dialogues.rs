//! The wording of invariants 4, 6 and 11 for what dialogues do, each broken once.

use super::super::forge::*;
use super::*;
use lock_core::policy::Policy;
use lock_core::port::Sound;
use lock_core::screen::{Field, Shown, Topic, Typed, Whom};
use lock_core::tally::{ClockMark, Settling};
use lock_core::task::Task;
use lock_core::time::Utc;

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
    whom: Whom::Steward,
    typed: Typed::Nothing,
}));

/// Two people set the clock.
const SET: Write = Write::Tally(Tally::ClockSet(Shift::NONE));

fn corrected(by: u32) -> Write {
    Write::Tally(Tally::Corrected { by: Seconds::new(by), shift: Shift::NONE })
}

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
    story.wrote(DOUBT).wrote(changed(Change::ClockCorrected(60))).wrote(corrected(60)).did(SETS);
    assert_eq!(story.violated(), Some(Invariant::Committed));
}

/// The chip is set, then that is on record, then the clock is believed.
#[test]
fn a_set_clock_is_on_record_before_it_is_believed() {
    for (entry, change) in [
        (SET, Change::ClockSet(None)),
        (corrected(0), Change::ClockSet(None)),
        (corrected(60), Change::ClockCorrected(-60)),
    ] {
        let mut story = Forge::booted();
        story.wrote(DOUBT).did(SETS).wrote(changed(change)).wrote(entry).rest();
        assert_eq!(story.violated(), None, "{change:?}");
        let mut story = Forge::booted();
        story.wrote(DOUBT).did(SETS).wrote(entry);
        assert_eq!(story.violated(), Some(Invariant::Committed), "{change:?}");
        let mut story = Forge::booted();
        story.did(SETS).wrote(changed(change));
        assert_eq!(story.violated(), Some(Invariant::Committed), "{change:?}");
        let mut story = Forge::booted();
        story.wrote(DOUBT).did(SETS).wrote(changed(change)).rest();
        assert_eq!(story.violated(), Some(Invariant::Committed), "{change:?}");
    }
}

/// Five minutes in sum, forward and back added up.
#[test]
fn a_steward_alone_corrects_by_no_more() {
    for (second, violated) in [(-100, None), (-101, Some(Invariant::WaitWaited))] {
        let mut story = Forge::booted();
        for secs in [200_i32, second] {
            let by = secs.unsigned_abs();
            story.wrote(DOUBT).did(SETS).wrote(changed(Change::ClockCorrected(secs)));
            story.wrote(corrected(by));
        }
        assert_eq!(story.violated(), violated);
    }
    let mut story = Forge::booted();
    story.wrote(DOUBT).did(SETS).wrote(changed(Change::ClockCorrected(60))).wrote(corrected(59));
    assert_eq!(story.violated(), Some(Invariant::Committed));
}

/// What takes its time: a reset without a code, and a way out.
#[test]
fn what_takes_days_is_not_there_before() {
    let asked = People { first: number(1), second: None };
    let both = People { second: Some(number(2)), ..asked };
    for (begins, people, ends, hours) in [
        (Change::ResetBegun, None, Change::ResetCancelled, 24),
        (Change::WayOutBegun, Some(asked), Change::WayOut, 14 * 24),
        (Change::WayOutBegun, Some(both), Change::WayOut, 72),
        (Change::WayOutBegun, Some(both), Change::WayOutEnded, 72),
    ] {
        for (early, violated) in [(1, Some(Invariant::WaitWaited)), (0, None)] {
            let mut story = Forge::booted();
            story.wrote(changed(begins));
            if let Some(people) = people {
                story.wrote(Write::Tally(Tally::WayOut(people)));
            }
            story.later(hours * HOURS - early);
            match ends {
                Change::ResetCancelled => story.reset(),
                _ => story.wrote(changed(ends)),
            };
            assert_eq!(story.violated(), violated, "{begins:?} {people:?}");
        }
    }
    let mut story = Forge::booted();
    story.wrote(Write::Tally(Tally::SettingUp));
    assert_eq!(story.violated(), Some(Invariant::WaitWaited));
    let mut story = Forge::booted();
    story.wrote(changed(Change::ResetBegun)).wrote(changed(Change::ResetCancelled));
    story.later(24 * HOURS).reset();
    assert_eq!(story.violated(), Some(Invariant::WaitWaited));
}

/// What waits is brought forward by a hand that opens, not by a boot, and not by force.
#[test]
fn only_an_opened_lock_brings_forward() {
    let brought = Write::Tally(Tally::Brought(lock_core::time::Steady::from_secs(9)));
    let opened = || {
        let mut story = Forge::booted();
        story.opening(12).told_bolt().wrote(record(Event::Opened));
        story
    };
    assert_eq!(opened().wrote(brought).violated(), None);
    assert_eq!(opened().told_bolt().wrote(brought).violated(), Some(Invariant::WaitWaited));
    let mut story = Forge::booted();
    story.told_bolt().wrote(record(Event::Forced)).wrote(brought);
    assert_eq!(story.violated(), Some(Invariant::WaitWaited));
    let mut story = Forge::booted();
    story.opening(12).cut().on().boot().wrote(record(Event::Opened)).wrote(brought);
    assert_eq!(story.violated(), Some(Invariant::WaitWaited));
}

/// What time has brought is in the tally before the lock rests.
#[test]
fn what_is_late_is_seen() {
    let mut story = Forge::booted();
    story.wrong(12).later(24 * HOURS).told_bolt().rest();
    assert_eq!(story.violated(), Some(Invariant::Committed));
    let mut story = Forge::booted();
    story.wrote(DOUBT).did(SETS).wrote(changed(Change::ClockSet(None))).wrote(SET);
    story.later(8 * HOURS).told_bolt().rest();
    assert_eq!(story.violated(), Some(Invariant::Committed));
}

/// Eight hours of uptime, and a boot begins them anew.
#[test]
fn a_clock_settles_in_its_time() {
    let set = |story: &mut Forge| {
        story.wrote(DOUBT).did(SETS).wrote(changed(Change::ClockSet(None))).wrote(SET);
    };
    for (seconds, violated) in [(8 * HOURS - 1, Some(Invariant::WaitWaited)), (8 * HOURS, None)] {
        let mut story = Forge::booted();
        set(&mut story);
        story.later(seconds).wrote(SETTLED);
        assert_eq!(story.violated(), violated);
        let mut story = Forge::booted();
        set(&mut story);
        story.later(8 * HOURS).cut().on().boot().rest();
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
    let correct = |story: &mut Forge| {
        story.wrote(DOUBT).did(SETS).wrote(changed(Change::ClockCorrected(300)));
        story.wrote(corrected(300));
    };
    let days = 30 * 24 * HOURS;
    for (seconds, violated) in [(days - 1, Some(Invariant::WaitWaited)), (days, None)] {
        let mut story = Forge::booted();
        correct(story.later(HOURS));
        story.later(seconds).wrote(OVER);
        assert_eq!(story.violated(), violated);
        let mut story = Forge::booted();
        correct(&mut story);
        story.later(days).cut().on().boot().rest();
        story.later(seconds).wrote(OVER);
        assert_eq!(story.violated(), violated);
    }
}

/// What entries of the clock add up to is what a boot finds.
#[test]
fn the_marks_of_the_clock_are_found_by_a_boot() {
    let forgotten: [fn(&mut TallyState); 4] = [
        |tally| tally.settling = Settling::No,
        |tally| tally.corrected = Seconds::ZERO,
        |tally| tally.collected = lock_core::audit::Seq(0),
        |tally| tally.clock = ClockMark::Doubted,
    ];
    for forget in forgotten {
        let mut story = Forge::booted();
        story.wrote(DOUBT).wrote(changed(Change::ClockCorrected(60))).wrote(corrected(60));
        story.wrote(DOUBT).wrote(changed(Change::ClockSet(None))).wrote(SET);
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
