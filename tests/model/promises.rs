//! R1, R2 and R4 as promises about every step of every story, also where the
//! store refuses to write. Source: `docs/behaviour.md`, sections 3, 6 and 7.

use std::collections::BTreeMap;

use lock_core::audit::{Event as Happened, Outcome, Refusal};
use lock_core::device::Progress;
use lock_core::holder::Number;
use lock_core::port::{Alarm, Drive, Effect, Sound, Tally, Write};
use lock_core::screen::Screen;

use crate::adapter::{Core, Memory};
use crate::seeds;
use crate::walk::{Event, Walk};

/// What the steps since the last boot allow, and the counts over all boots.
#[derive(Default)]
struct Watch {
    /// The record of an opening became durable, and no release used it yet.
    authorised: bool,
    /// The number whose try was counted, durably, since the lock last slept.
    counted: Option<Number>,
    /// What the durable entries of the tally add up to, by number.
    totals: BTreeMap<u8, u8>,
    /// A write failed.
    failed: bool,
    /// A duress code was on its way to the store since the lock last slept.
    duress: bool,
    alarm: Option<Alarm>,
    releases: u32,
    /// Whether a dialogue stands on the screen.
    leads: bool,
    /// Whether a change was recorded since the lock slept.
    changed: bool,
    tries: u32,
    alarms_without_record: u32,
}

impl Watch {
    fn reboot(&mut self) {
        let Self { releases, tries, alarms_without_record, .. } = *self;
        let totals = std::mem::take(&mut self.totals);
        *self = Self { totals, releases, tries, alarms_without_record, ..Self::default() };
    }

    fn step(&mut self, progress: &Progress, memory: &mut Memory) {
        match progress {
            Progress::Wrote(write, result) => self.wrote(write, result.is_ok(), memory),
            Progress::Did(Effect::Drive(Drive::Free)) => {
                assert!(self.authorised, "R1: released without a durable record");
                assert!(!self.failed, "R1: released after a write had failed");
                self.authorised = false;
                self.releases += 1;
            }
            // In a dialogue something given may be refused, and a change granted.
            Progress::Did(Effect::Sound(Sound::Refused)) => {
                let heard = self.counted.is_some() || self.leads;
                assert!(heard, "R2: a verdict is heard before its count");
            }
            Progress::Did(Effect::Sound(Sound::Accepted)) => {
                let heard = self.counted.is_some() || self.changed;
                assert!(heard, "R2, R6: granted before its count or its change");
            }
            Progress::Did(Effect::Show(screen)) => {
                self.leads = matches!(screen, Screen::Form(_));
            }
            Progress::Did(Effect::Alarm(level)) => self.alarm = Some(*level),
            Progress::Did(Effect::Drive(Drive::Block) | Effect::Sound(_) | Effect::SetClock(_))
            | Progress::Tended(_)
            | Progress::Took(_) => {}
            Progress::Asleep(_) => {
                if self.duress {
                    assert_eq!(self.alarm, Some(Alarm::Duress), "R4: duress raises the alarm");
                }
                (self.counted, self.duress, self.changed) = (None, false, false);
            }
        }
    }

    fn wrote(&mut self, write: &Write, durable: bool, memory: &mut Memory) {
        self.failed |= !durable;
        match write {
            Write::Tally(Tally::Counted(number)) if durable => {
                let total = self.totals.entry(number.get()).or_default();
                *total = (*total + 1).min(100);
                let found = memory.if_cut_now().tally.total(*number);
                assert_eq!(found, *total, "R2: a cut now would forget the try");
                self.counted = Some(*number);
                self.tries += 1;
            }
            Write::Tally(Tally::Cleared(number)) if durable => {
                self.totals.remove(&number.get());
            }
            Write::Tally(_) => {}
            Write::Record(record) | Write::Edit(record) => {
                if let Some(number) = verdict_on(&record.event) {
                    assert_eq!(self.counted, Some(number), "R2: told before it was counted");
                }
                if matches!(record.event, Happened::Changed { .. }) {
                    self.changed |= durable;
                }
                if record.event.outcome() == Some(Outcome::Duress) {
                    self.duress = true;
                    self.alarms_without_record += u32::from(!durable);
                }
                if matches!(record.event, Happened::Released { .. }) && durable {
                    assert!(!self.authorised, "R1: a record authorises one release");
                    self.authorised = true;
                }
            }
        }
    }
}

/// The number on whose code a record tells a verdict.
fn verdict_on(event: &Happened) -> Option<Number> {
    match event {
        // In a penalty nothing is counted, and nothing is told.
        Happened::Refused { why: Refusal::Penalty, .. } => None,
        Happened::Released { people, .. } | Happened::DelayStarted { people, .. } => {
            Some(people.second.unwrap_or(people.first))
        }
        Happened::FirstOfTwo { who, .. }
        | Happened::WrongCode { who }
        | Happened::Refused { who, .. }
        | Happened::HeldShut { who, .. }
        | Happened::Status { who, .. }
        | Happened::Asked { who, .. } => Some(*who),
        _ => None,
    }
}

#[test]
fn no_step_of_any_story_breaks_a_promise_part_1() {
    watch(0);
}

#[test]
fn no_step_of_any_story_breaks_a_promise_part_2() {
    watch(1);
}

fn watch(part: u32) {
    let mut watch = Watch::default();
    for name in seeds::names(part, 2) {
        let story = name.story();
        println!("story {name}; {}", seeds::repeat(name, "promise"));
        let mut walk = Walk::new(&story.setup, story.start_utc);
        let (mut model, _) = walk.boot(None);
        let mut events = Vec::new();
        for step in &story.steps {
            walk.play(&mut model, step, &mut |event, _| events.push(*event));
        }
        watch.totals.clear();
        watch.reboot();
        let start = Walk::new(&story.setup, story.start_utc);
        let (mut core, _) =
            Core::boot_heard(&story.setup, start.now, start.sensors, &mut |_, progress, memory| {
                watch.step(progress, memory);
            });
        // In every other story the store gives up somewhere.
        let gives_up = (name.pick(4, 2) == 0).then(|| name.pick(5, 400));
        for (at, event) in events.iter().enumerate() {
            if gives_up.is_some_and(|when| usize::try_from(when) == Ok(at)) {
                core.store_fails_after(name.pick(6, 6));
            }
            if matches!(event, Event::Reboot(..)) {
                watch.reboot();
            }
            core.live_heard(event, &mut |_, progress, memory| watch.step(progress, memory));
        }
    }
    println!(
        "{} tries, {} releases, {} duress records that could not be written",
        watch.tries, watch.releases, watch.alarms_without_record
    );
    assert!(watch.tries > 0 && watch.releases > 0);
}
