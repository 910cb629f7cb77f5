//! A lock and the model live through the same stories, and everything that
//! somebody outside could see of the two is compared, moment by moment.
//! Source of every expectation: `docs/behaviour.md`, by way of the model.
//!
//! `STORIES` says how many stories are told; a failure prints the command that
//! tells one again, and the story cut down to the steps that matter.

use std::fmt::Write as _;
use std::rc::Rc;

use crate::dice::Dice;
use crate::foretold::{self, Foretold};
use crate::generator::Story;
use crate::office::OwnOffice;
use crate::reference::{Durable, Make, Model, Now, Office, Seen, Sensors};
use crate::seeds::{self, Name};
use crate::walk::{Event, Step, Walk, apply};
use crate::way_back::{self, Way};

/// What is held against the model: a lock that is given the same events.
pub(crate) trait OtherLock: Sized {
    /// What its laptop knows: the model is given the same.
    fn office() -> Rc<dyn Office> {
        Rc::new(OwnOffice)
    }

    /// A lock whose flash holds that, as it was just set up, at its first boot.
    fn boot(make: &Make, kept: &Durable, now: Now, sensors: Sensors) -> (Self, Seen);

    /// The kind of the record that a right code of that number would leave now; `None`
    /// if it would leave none.
    fn foretells(&mut self, number: u8) -> Option<&'static str>;

    /// What is to be seen of an event, moment by moment; moments at which
    /// nothing is to be seen may be left out.
    fn live(&mut self, event: &Event) -> Vec<(u64, Seen)>;
}

/// Tells stories to both, and how the people of the lock get in at last: the ways
/// of all of them.
pub(crate) fn agree<L: OtherLock>(names: Vec<Name>, test: &str) -> (Vec<Way>, Foretold) {
    let (mut ways, mut foretold) = (Vec::new(), Foretold::new());
    for name in names {
        let story = name.story();
        match tell::<L>(&story, &mut foretold) {
            Ok(way) => ways.push(way),
            Err(found) => {
                let (steps, found) = shorten::<L>(&story, found);
                panic!(
                    "the lock and the model differ in story {name}\n\
                     {found}\nsteps:\n{}\nset-up: {:?}, {:?}\nstart: {}\n{}",
                    steps.iter().map(|step| format!("    {step:?}\n")).collect::<String>(),
                    story.flash,
                    story.setup,
                    story.start_utc,
                    seeds::repeat(name, test),
                )
            }
        }
    }
    (ways, foretold)
}

/// Tells a story to both, and the way back from its end; the first difference, if
/// there is one.
fn tell<L: OtherLock>(story: &Story, foretold: &mut Foretold) -> Result<Way, String> {
    let mut walk = Walk::new(story.start_utc);
    walk.make.office = L::office();
    let (mut model, expected) = walk.boot(&story.setup, story.flash);
    let kept = Durable::new(story.setup.clone(), story.flash);
    let (mut lock, seen) = L::boot(&walk.make, &kept, walk.now, walk.sensors);
    let mut shown = (expected.clone(), seen.clone());
    let mut result = compare("the first boot", &[(0, expected)], &[(0, seen)], &mut shown);
    let mut live = |lock: &mut L, when: &str, event: &Event, expected: &[(u64, Seen)]| {
        if result.is_ok() {
            let seen = lock.live(event);
            result = compare(&format!("{when}, {event:?}"), expected, &seen, &mut shown);
        }
        result.is_ok()
    };
    let seed = story.start_utc.unsigned_abs();
    let mut dice = Dice::new(seed);
    for (at, step) in story.steps.iter().enumerate() {
        let when = format!("step {at}");
        let mut agree = true;
        walk.play(&mut model, step, &mut |_, event, expected| {
            agree = live(&mut lock, &when, event, expected);
        });
        if agree {
            foretold::hold(&mut walk, &model, &mut lock, &mut dice, foretold)
                .map_err(|found| format!("{when}: {found}"))?;
        }
    }
    let way = way_back::lead(seed, &mut walk, &mut model, &mut |_, event, expected| {
        live(&mut lock, "the way back", event, expected);
    });
    result.and(way)
}

/// `shown`: what either showed last, before these moments.
fn compare(
    when: &str,
    model: &[(u64, Seen)],
    lock: &[(u64, Seen)],
    shown: &mut (Seen, Seen),
) -> Result<(), String> {
    let (model, lock) = (joined(model, &mut shown.0), joined(lock, &mut shown.1));
    if model == lock {
        return Ok(());
    }
    let mut text = format!("{when}:");
    for row in 0..model.len().max(lock.len()) {
        for (side, moments) in [("model", &model), ("lock ", &lock)] {
            match moments.get(row) {
                Some((at_ms, seen)) => {
                    let _ = write!(text, "\n{side} at {at_ms} ms: {}", told(seen));
                }
                None => {
                    let _ = write!(text, "\n{side} shows nothing");
                }
            }
        }
    }
    Err(text)
}

/// Steps at one moment are one: how a lock divides what it does at a moment
/// into steps is its own affair, the order is not. Moments that show nothing new
/// are left out.
fn joined(moments: &[(u64, Seen)], shown: &mut Seen) -> Vec<(u64, Seen)> {
    let mut out: Vec<(u64, Seen)> = Vec::new();
    for (at_ms, seen) in moments {
        match out.last_mut() {
            Some((last_ms, last)) if last_ms == at_ms => {
                let earlier = std::mem::replace(last, seen.clone());
                last.sounds.splice(0..0, earlier.sounds);
                last.drive.splice(0..0, earlier.drive);
                last.records.splice(0..0, earlier.records);
                last.tallies.splice(0..0, earlier.tallies);
                last.writes.splice(0..0, earlier.writes);
                last.clock_set.splice(0..0, earlier.clock_set);
                last.link = last.link.take().or(earlier.link);
            }
            Some(_) | None => out.push((*at_ms, seen.clone())),
        }
    }
    out.retain(|(_, seen)| {
        let news = seen.is_news_after(shown) || seen.link.is_some();
        shown.clone_from(seen);
        news
    });
    out
}

fn told(seen: &Seen) -> String {
    let times: Vec<Option<i64>> = seen.records.iter().map(|record| record.utc).collect();
    format!(
        "{} | {:?} | {:?} | {} | {} | {:?} {times:?} {:?} {:?}",
        seen.screen,
        seen.sounds,
        seen.drive,
        seen.alarm,
        seen.access,
        seen.writes,
        seen.clock_set,
        seen.link
    )
}

/// Leaves out steps as long as the two still differ.
fn shorten<L: OtherLock>(story: &Story, found: String) -> (Vec<Step>, String) {
    let (mut short, mut found) = (story.clone(), found);
    for at in (0..story.steps.len()).rev() {
        let mut shorter = short.clone();
        shorter.steps.remove(at);
        if let Err(still) = tell::<L>(&shorter, &mut Foretold::new()) {
            (short, found) = (shorter, still);
        }
    }
    (short.steps, found)
}

/// The model itself as the other lock, perhaps with a slip.
struct Twin<const SLIPS: bool> {
    make: Make,
    model: Model,
}

impl<const SLIPS: bool> OtherLock for Twin<SLIPS> {
    fn boot(make: &Make, kept: &Durable, now: Now, sensors: Sensors) -> (Self, Seen) {
        let mut kept = kept.clone();
        if SLIPS {
            kept.settings.policy.alarm_hold_s += 1;
        }
        let (model, seen) = Model::boot(make, kept, now, sensors);
        (Self { make: make.clone(), model }, seen)
    }

    /// Its decisions are the door's own.
    fn foretells(&mut self, _: u8) -> Option<&'static str> {
        None
    }

    fn live(&mut self, event: &Event) -> Vec<(u64, Seen)> {
        apply(&self.make, &mut self.model, event)
    }
}

/// The comparison itself: the same lock differs in nothing, one whose alarm is
/// held a second longer is found out.
#[test]
fn a_comparison_finds_a_slip_of_a_second_and_nothing_else() {
    agree::<Twin<false>>(seeds::names(0, 50), "a_comparison_finds");
    let names = || (0..10).map(seeds::named);
    let found = names()
        .filter(|name| tell::<Twin<true>>(&name.story(), &mut Foretold::new()).is_err())
        .count();
    assert!(found > 3, "{found} of 10");
}
