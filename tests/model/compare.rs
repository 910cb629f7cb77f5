//! The lock and the model live through the same stories, and everything that
//! somebody outside could see of the two is compared, moment by moment.
//! Source of every expectation: `docs/behaviour.md`, by way of the model.
//!
//! `STORIES` says how many stories are told; a failure prints the command that
//! tells one again, and the story cut down to the steps that matter.

use std::fmt::Write as _;

use crate::adapter::Core;
use crate::generator::Story;
use crate::reference::{Follows, Role, Seen};
use crate::seeds::{self, Name};
use crate::walk::{Event, Step, Walk, typed};

/// Steps in which something may break.
const EARLY: u32 = 150;

/// What breaks in a story, and before which step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Breaks {
    Nothing,
    /// The store refuses to write, after so many more writes.
    Store(usize, u32),
    /// The drive does not move any more.
    Drive(usize),
}

impl Breaks {
    /// The same after the step `at` was left out.
    fn without(self, at: usize) -> Self {
        let sooner = |step| if at < step { step - 1 } else { step };
        match self {
            Self::Nothing => Self::Nothing,
            Self::Store(step, more) => Self::Store(sooner(step), more),
            Self::Drive(step) => Self::Drive(sooner(step)),
        }
    }
}

#[test]
fn both_sides_agree_in_every_story_part_1() {
    agree_in_part(0);
}

#[test]
fn both_sides_agree_in_every_story_part_2() {
    agree_in_part(1);
}

fn agree_in_part(part: u32) {
    for name in seeds::names(part, 2) {
        let (story, breaks) = (name.story(), breaks(name));
        if let Err(found) = tell(&story, breaks) {
            let (steps, found) = shorten(&story, breaks, found);
            panic!(
                "the lock and the model differ in story {name}; {breaks:?} breaks\n\
                 {found}\nsteps:\n{}\nset-up: {:?}\nstart: {}\n{}",
                steps.iter().map(|step| format!("    {step:?}\n")).collect::<String>(),
                story.setup,
                story.start_utc,
                seeds::repeat(name, "agree"),
            );
        }
    }
}

/// In one story in eight something breaks.
fn breaks(name: Name) -> Breaks {
    let step = usize::try_from(name.pick(1, EARLY)).expect("small");
    match name.pick(2, 16) {
        0 => Breaks::Store(step, name.pick(3, 7)),
        1 => Breaks::Drive(step),
        _ => Breaks::Nothing,
    }
}

/// Tells a story to both; the first difference, if there is one.
fn tell(story: &Story, breaks: Breaks) -> Result<(), String> {
    let mut walk = Walk::new(&story.setup, story.start_utc);
    let (mut model, expected) = walk.boot(None);
    let (mut core, seen) = Core::boot(&story.setup, walk.now, walk.sensors);
    let mut result = compare("the first boot", &[(0, expected)], &[(0, seen)]);
    for (at, step) in story.steps.iter().enumerate() {
        match breaks {
            Breaks::Store(when, more) if when == at => {
                model.store_fails_after(more);
                core.store_fails_after(more);
            }
            Breaks::Drive(when) if when == at => {
                model.drive_sticks();
                core.drive_sticks();
            }
            Breaks::Store(..) | Breaks::Drive(_) | Breaks::Nothing => (),
        }
        walk.play(&mut model, step, &mut |event: &Event, expected| {
            if result.is_ok() {
                let seen = core.live(event);
                result = compare(&format!("step {at}, {event:?}"), expected, &seen);
            }
        });
        result.clone()?;
    }
    result
}

fn compare(when: &str, model: &[(u64, Seen)], core: &[(u64, Seen)]) -> Result<(), String> {
    let wake_up = model.len() != 1 || core.len() != 1;
    let alike = model.len() == core.len()
        && model.iter().zip(core).all(|(one, other)| one.0 == other.0 && same(&one.1, &other.1));
    if alike {
        return Ok(());
    }
    let mut text = format!("{when}{}:", if wake_up { " (moments)" } else { "" });
    let rows = model.len().max(core.len());
    for row in 0..rows {
        for (side, moments) in [("model", model), ("lock ", core)] {
            match moments.get(row) {
                Some((at_ms, seen)) => {
                    let _ = write!(text, "\n{side} at {at_ms} ms: {}", told(seen));
                }
                None => text.push_str(&format!("\n{side} shows nothing")),
            }
        }
    }
    Err(text)
}

/// Timers that are due in the same millisecond may run in any order.
fn same(one: &Seen, other: &Seen) -> bool {
    one == other
}

fn told(seen: &Seen) -> String {
    let times: Vec<Option<i64>> = seen.records.iter().map(|record| record.utc).collect();
    format!(
        "{} | {:?} | {:?} | {} | {} | {:?} {times:?}",
        seen.screen, seen.sounds, seen.drive, seen.alarm, seen.access, seen.writes
    )
}

/// Leaves out steps as long as the two still differ.
fn shorten(story: &Story, breaks: Breaks, found: String) -> (Vec<Step>, String) {
    let (mut short, mut breaks, mut found) = (story.clone(), breaks, found);
    for at in (0..story.steps.len()).rev() {
        let mut shorter = short.clone();
        shorter.steps.remove(at);
        let sooner = breaks.without(at);
        if let Err(still) = tell(&shorter, sooner) {
            (short, breaks, found) = (shorter, sooner, still);
        }
    }
    (short.steps, found)
}

/// "Waiting and claimable end … as soon as one of the people is barred", also a
/// warden: a hundred wrong codes on the number of the one who waits. No story
/// told by chance gets there.
#[test]
fn both_sides_agree_that_a_barred_warden_waits_no_longer() {
    let mut story = seeds::names(0, 1)[0].story();
    let policy = &mut story.setup.policy;
    (policy.wrong_codes, policy.penalty_s, policy.penalty_cap_s) = (10, 60, 60);
    (policy.delay_s, policy.claim_s, policy.dual_control) = (99 * 60, 900, false);
    let warden = &mut story.setup.holders[0];
    (warden.role, warden.follows) = (Role::Warden, Follows::Always);
    (warden.opens, warden.suspended) = (true, false);
    let (number, code) = (warden.number, warden.code.clone());
    story.steps = vec![Step::Keys(typed(number, &code)), Step::Siege { number, short_of: 1 }];
    let (before, after) = (states(&story), {
        story.steps.push(Step::Siege { number, short_of: 0 });
        states(&story)
    });
    assert_eq!((before, after), ("waiting", "secured"));
    if let Err(found) = tell(&story, Breaks::Nothing) {
        panic!("{found}");
    }
}

/// The state of the lock's bolt at the end of a story.
fn states(story: &Story) -> &'static str {
    let mut walk = Walk::new(&story.setup, story.start_utc);
    let (mut model, _) = walk.boot(None);
    let (mut core, seen) = Core::boot(&story.setup, walk.now, walk.sensors);
    let mut state = seen.access;
    for step in &story.steps {
        walk.play(&mut model, step, &mut |event: &Event, _| {
            if let Some((_, seen)) = core.live(event).last() {
                state = seen.access;
            }
        });
    }
    state
}
