//! Invariants 4 and 5: wrong counts and penalties, from the durable entries of
//! the tally.
//!
//! What the entries add up to is kept here by the sentences of
//! docs/behaviour.md, sections 3 and 4, not by the code that the lock has for
//! it.

use emulated_board::trace::{Durable, Line, Told, What};
use lock_core::audit::{Change, Event, People, Refusal};
use lock_core::holder::Number;
use lock_core::port::{Effect, Sound, Tally, Write};
use lock_core::screen::{Form, Screen};
use lock_core::tally::{ClockMark, PenaltyMark, SetUp, Settling, TallyState};
use lock_core::time::{Seconds, Steady, Uptime};

use super::release::Service;
use super::{Invariant, Terms, Violation};
use crate::memory::Look;

/// So long a wrong try weighs, and the step stays after a penalty (sections 3 and 4).
const FADE: Seconds = Seconds::from_hours(24);

/// How long a clock settles that two people set, and after how long corrections
/// are forgotten (section 9).
const SETTLING: Seconds = Seconds::from_hours(8);
const CORRECTIONS: Seconds = Seconds::from_hours(30 * 24);

/// More doubtful entries than that are never between two looks: a write that
/// fails puts the lock into service.
const DOUBTS: usize = 8;

/// Counts and penalty, as far as the trace has come.
#[derive(Clone, Debug, Default)]
pub(super) struct Counts {
    sums: Sums,
    /// Entries since the last look of which nobody knows whether they are
    /// durable, with all that came after the first of them.
    doubts: Vec<(Tally, Durable)>,
    /// The number whose try was counted and not yet told.
    counted: Option<Number>,
    /// The number that a durable record said a right code of.
    right: Option<Number>,
    /// Until when no code may be taken.
    penalty: Option<Uptime>,
    /// The tries that weigh, and since when in this run.
    tries: Vec<(Number, Uptime)>,
    /// The end of the last penalty of this run, or its start.
    last_penalty: Uptime,
    /// When a way out may have come.
    way_out: Option<Uptime>,
    /// The lock was reset in this run.
    resets: bool,
    /// A dialogue asks for something, or says what it is about to do.
    leads: bool,
    /// A change was recorded in this step.
    changed: bool,
    /// The policy was changed to a limit that the count had reached: a penalty
    /// waits for the next wrong try, or a boot.
    excused: bool,
    /// When a clock that two people set may have settled.
    settles: Option<Uptime>,
    /// The last correction of this run, or its start.
    corrected: Uptime,
}

/// What durable entries add up to.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Sums {
    totals: Box<[u8; Number::COUNT]>,
    /// The numbers of the tries that weigh, oldest first.
    weights: Vec<Number>,
    step: u8,
    running: bool,
    held: Option<Steady>,
    doubted: bool,
    /// Where steady time stood at the last doubt.
    doubted_at: Option<Steady>,
    shift: i32,
    settling: bool,
    corrected: u32,
    collected: u32,
    brought: Option<Steady>,
    set_up: bool,
    way_out: Option<People>,
    power_ups: u32,
}

impl Default for Sums {
    fn default() -> Self {
        Self {
            totals: Box::new([0; Number::COUNT]),
            weights: Vec::new(),
            step: 0,
            running: false,
            held: None,
            doubted: false,
            doubted_at: None,
            shift: 0,
            settling: false,
            corrected: 0,
            collected: 0,
            brought: None,
            set_up: true,
            way_out: None,
            power_ups: 0,
        }
    }
}

impl Sums {
    fn take(&mut self, entry: Tally) {
        match entry {
            Tally::Counted(n) => {
                let total = &mut self.totals[usize::from(n.get())];
                *total = (*total + 1).min(100);
                self.weights.push(n);
            }
            Tally::Cleared(n) => {
                self.totals[usize::from(n.get())] = 0;
                self.weights.retain(|other| *other != n);
            }
            Tally::Penalty => {
                self.weights.clear();
                self.step = self.step.saturating_add(1);
                self.running = true;
            }
            Tally::Served => self.running = false,
            Tally::Faded(n) => {
                if let Some(oldest) = self.weights.iter().position(|other| *other == n) {
                    self.weights.remove(oldest);
                }
            }
            Tally::Eased => self.step = 0,
            Tally::HeldShut(until) => self.held = Some(until),
            Tally::ClockDoubt(at) => (self.doubted, self.doubted_at) = (true, at),
            Tally::Corrected { by, shift } => {
                (self.doubted, self.shift) = (false, shift.as_secs());
                self.corrected = self.corrected.saturating_add(by.get());
            }
            Tally::CorrectionsOver => self.corrected = 0,
            Tally::ClockSet(shift) => {
                (self.doubted, self.shift, self.settling) = (false, shift.as_secs(), true);
            }
            Tally::Settled => self.settling = false,
            Tally::Collected(upto) => self.collected = self.collected.max(upto.0),
            Tally::Brought(at) => self.brought = Some(at),
            Tally::SettingUp => (self.set_up, self.way_out) = (false, None),
            Tally::SetUp => self.set_up = true,
            Tally::PoweredUp => self.power_ups += 1,
            Tally::WayOut(people) => self.way_out = Some(people),
            Tally::WayOutOver => self.way_out = None,
        }
    }

    fn count(&self) -> u32 {
        u32::try_from(self.weights.len()).unwrap_or(u32::MAX)
    }

    fn of(found: &TallyState) -> Self {
        Self {
            totals: Box::new(found.totals),
            weights: found.weights.to_vec(),
            step: found.step,
            running: found.penalty == PenaltyMark::Running,
            held: found.held_until,
            doubted: found.clock == ClockMark::Doubted,
            doubted_at: found.doubted_at,
            shift: found.shift.as_secs(),
            settling: found.settling == Settling::Yes,
            corrected: found.corrected.get(),
            collected: found.collected.0,
            brought: found.brought,
            set_up: found.set_up == SetUp::Done,
            way_out: found.way_out,
            power_ups: found.power_ups,
        }
    }

    /// What differs from what a flash has, and what that violates.
    fn differs(&self, found: &Self) -> Violation {
        let wrong = |of, what| Violation::new(of, what);
        for n in 0..Number::COUNT {
            if self.totals[n] != found.totals[n] {
                let (total, other) = (self.totals[n], found.totals[n]);
                let what = format!("number {n:02} has {total} failures; the flash has {other}");
                return wrong(Invariant::CountedFirst, what);
            }
        }
        if self.weights != found.weights {
            let numbers = |of: &Self| of.weights.iter().map(|n| n.get()).collect::<Vec<u8>>();
            let what =
                format!("tries on {:?} weigh; the flash has {:?}", numbers(self), numbers(found));
            return wrong(Invariant::CountedFirst, what);
        }
        if (self.step, self.running) != (found.step, found.running) {
            let what = format!(
                "the penalty stands at step {}, running: {}; the flash has step {}, running: {}",
                self.step, self.running, found.step, found.running
            );
            return wrong(Invariant::PenaltyServed, what);
        }
        let marks = |of: &Self| {
            format!(
                "hold-shut {:?}, clock doubt {} at {:?}, shift {}, settling {}, corrected {}, \
                 collected {}, brought {:?}, set up {}, way out {:?}, power-ups {}",
                of.held,
                of.doubted,
                of.doubted_at,
                of.shift,
                of.settling,
                of.corrected,
                of.collected,
                of.brought,
                of.set_up,
                of.way_out,
                of.power_ups
            )
        };
        let what = format!("{} were committed; the flash has {}", marks(self), marks(found));
        wrong(Invariant::Committed, what)
    }
}

impl Counts {
    pub(super) fn line(&mut self, line: &Line, terms: &Terms) -> Result<(), Violation> {
        match line.what {
            What::PowerOn | What::PowerCut => {
                self.counted = None;
                self.right = None;
                self.penalty = None;
                self.last_penalty = Uptime::ZERO;
                (self.leads, self.changed) = (false, false);
                self.corrected = Uptime::ZERO;
            }
            What::Told(told) => {
                self.changed = false;
                if told == Told::Ok {
                    self.counted = None;
                }
            }
            What::Tended(_) => {}
            What::Wrote(Write::Tally(entry), durable) => {
                self.may_enter(entry, line.uptime, terms)?;
                self.enter(entry, durable, line.uptime, terms);
            }
            What::Wrote(Write::Record(record) | Write::Edit(record), durable) => {
                self.kept_first(&record.event)?;
                let change = matches!(record.event, Event::Changed { .. });
                self.changed |= change && durable == Durable::Yes;
                return self.recorded(&record.event, durable);
            }
            What::Did(Effect::Sound(sound @ (Sound::Refused | Sound::Accepted))) => {
                // Of what was typed into a dialogue, and of what it did.
                let other = if sound == Sound::Refused { self.leads } else { self.changed };
                if self.counted.is_none() && !other {
                    let what = format!("the sound {sound:?} told a verdict before its count");
                    return Err(Violation::new(Invariant::CountedFirst, what));
                }
            }
            What::Did(Effect::Show(screen)) => {
                self.leads =
                    matches!(screen, Screen::Form(Form::Ask { .. } | Form::Confirm { .. }));
            }
            What::Did(Effect::SetClock(_)) if !self.sums.doubted => {
                let what = "the clock chip was set before that it is doubted was durable";
                return Err(Violation::new(Invariant::Committed, what));
            }
            What::Did(_) => {}
        }
        Ok(())
    }

    /// Whether that entry may be written now.
    fn may_enter(&self, entry: Tally, at: Uptime, terms: &Terms) -> Result<(), Violation> {
        let wrong = |of, what: String| Err(Violation::new(of, what));
        let served = self.penalty.is_none_or(|until| at >= until);
        match entry {
            Tally::Counted(n) if !served => {
                let what = format!("a try on {:02} was taken in a penalty", n.get());
                wrong(Invariant::PenaltyServed, what)
            }
            Tally::Served if !served => {
                wrong(Invariant::PenaltyServed, "a penalty ended before its time".to_owned())
            }
            Tally::Cleared(n) if self.right != Some(n) => {
                let what = format!("{:02} was cleared without the record of a right code", n.get());
                wrong(Invariant::CountedFirst, what)
            }
            Tally::Penalty if self.sums.count() < u32::from(terms.settings.policy.wrong_codes) => {
                let what = format!("shares of {} fell for a penalty", self.sums.count());
                wrong(Invariant::CountedFirst, what)
            }
            Tally::Settled if self.settles.is_none_or(|settles| at < settles) => {
                wrong(Invariant::WaitWaited, "a clock settled before its time".to_owned())
            }
            Tally::CorrectionsOver if at < self.corrected.after(CORRECTIONS) => {
                let what = "corrections were forgotten before their time".to_owned();
                wrong(Invariant::WaitWaited, what)
            }
            Tally::Faded(n) if !self.has_weighed(n, at) => {
                let what = format!("a try on {:02} faded before its time", n.get());
                wrong(Invariant::CountedFirst, what)
            }
            Tally::Eased if at < self.last_penalty.after(FADE) => {
                wrong(Invariant::PenaltyServed, "the step fell before its time".to_owned())
            }
            Tally::SettingUp if self.way_out.is_some_and(|due| at < due) && !self.resets => {
                wrong(Invariant::WaitWaited, "a way out came before its time".to_owned())
            }
            Tally::Counted(_)
            | Tally::Cleared(_)
            | Tally::Penalty
            | Tally::Served
            | Tally::Faded(_)
            | Tally::Eased
            | Tally::HeldShut(_)
            | Tally::ClockDoubt(_)
            | Tally::Corrected { .. }
            | Tally::CorrectionsOver
            | Tally::ClockSet(_)
            | Tally::Settled
            | Tally::Collected(_)
            | Tally::Brought(_)
            | Tally::SettingUp
            | Tally::SetUp
            | Tally::PoweredUp
            | Tally::WayOut(_)
            | Tally::WayOutOver => Ok(()),
        }
    }

    fn enter(&mut self, entry: Tally, durable: Durable, at: Uptime, terms: &Terms) {
        if durable == Durable::Yes && self.doubts.is_empty() {
            self.sums.take(entry);
        } else {
            self.doubts.push((entry, durable));
        }
        if durable != Durable::Yes {
            return;
        }
        match entry {
            Tally::Counted(number) => {
                self.counted = Some(number);
                self.tries.push((number, at));
            }
            Tally::Penalty => {
                self.tries.clear();
                self.penalty = Some(at.after(length(self.sums.step, terms)));
            }
            Tally::Served => {
                self.last_penalty = self.penalty.unwrap_or(at);
                self.penalty = None;
            }
            Tally::Cleared(number) => {
                self.right = None;
                self.tries.retain(|(other, _)| *other != number);
            }
            Tally::Faded(number) => {
                if let Some(oldest) = self.tries.iter().position(|(other, _)| *other == number) {
                    self.tries.remove(oldest);
                }
            }
            Tally::WayOut(people) => self.way_out = Some(at.after(way_out(people))),
            Tally::SettingUp | Tally::WayOutOver => self.way_out = None,
            Tally::ClockSet(_) => self.settles = Some(at.after(SETTLING)),
            Tally::Settled => self.settles = None,
            Tally::Corrected { by, .. } if by.get() > 0 => self.corrected = at,
            Tally::Eased
            | Tally::HeldShut(_)
            | Tally::ClockDoubt(_)
            | Tally::Corrected { .. }
            | Tally::CorrectionsOver
            | Tally::Collected(_)
            | Tally::Brought(_)
            | Tally::SetUp
            | Tally::PoweredUp => {}
        }
    }

    /// Whether the oldest try on that number has weighed for its whole time.
    fn has_weighed(&self, number: Number, at: Uptime) -> bool {
        let oldest = self.tries.iter().find(|(other, _)| *other == number);
        oldest.is_none_or(|(_, since)| at >= since.after(FADE))
    }

    /// A hold-shut and a doubted clock are in the tally before they are on
    /// record (section 9): a boot goes by the tally. A clock that is set is believed only
    /// after its record.
    fn kept_first(&self, event: &Event) -> Result<(), Violation> {
        let entered = |is: fn(&Tally) -> bool| self.doubts.iter().any(|(other, _)| is(other));
        let kept = match event {
            Event::HeldShut { .. } => {
                self.sums.held.is_some() || entered(|entry| matches!(entry, Tally::HeldShut(_)))
            }
            Event::ClockInvalid
            | Event::Changed { change: Change::ClockSet(_) | Change::ClockCorrected(_), .. } => {
                self.sums.doubted || entered(|entry| matches!(entry, Tally::ClockDoubt(_)))
            }
            _ => true,
        };
        if kept {
            return Ok(());
        }
        let what = format!("{} is on record and not in the tally", event.kind());
        Err(Violation::new(Invariant::Committed, what))
    }

    /// A record that tells a verdict needs the count before it.
    fn recorded(&mut self, event: &Event, durable: Durable) -> Result<(), Violation> {
        if let Event::Changed { change, .. } = event
            && durable == Durable::Yes
        {
            // A new code by somebody else's hand ends the failures of a number.
            match change {
                Change::Enrolled(who, _) | Change::Restored(who) | Change::Commissioned(who) => {
                    self.right = Some(*who);
                }
                Change::Reset => self.resets = true,
                _ => {}
            }
        }
        let Some(who) = told(event) else { return Ok(()) };
        if self.counted != Some(who) {
            let kind = event.kind();
            let what = format!("{kind} tells the verdict on {:02} before its count", who.get());
            return Err(Violation::new(Invariant::CountedFirst, what));
        }
        match event {
            Event::WrongCode { .. } | Event::Refused { why: Refusal::Barred, .. } => {
                self.excused = false;
            }
            _ if durable == Durable::Yes => self.right = Some(who),
            _ => {}
        }
        Ok(())
    }

    /// A boot: what it finds is what entries add up to, with or without those
    /// in doubt. The penalty that it finds is served anew.
    pub(super) fn boot(&mut self, look: &Look, terms: &Terms) -> Result<(), Violation> {
        let Some(found) = &look.tally else { return Ok(()) };
        self.sums = self.resolved(found)?;
        self.doubts.clear();
        self.excused = false;
        let settling = self.sums.settling;
        self.settles = settling.then(|| Uptime::ZERO.after(SETTLING));
        self.tries = self.sums.weights.iter().map(|number| (*number, Uptime::ZERO)).collect();
        self.way_out = self.sums.way_out.map(|people| Uptime::ZERO.after(way_out(people)));
        (self.last_penalty, self.resets) = (Uptime::ZERO, false);
        self.penalty = self.sums.running.then(|| Uptime::ZERO.after(length(self.sums.step, terms)));
        Ok(())
    }

    /// Another policy is in force.
    pub(super) fn policy_changed(&mut self, terms: &Terms) {
        self.excused = self.sums.count() >= u32::from(terms.settings.policy.wrong_codes);
    }

    /// What a boot would find; it settles nothing, since that boot never was.
    pub(super) fn look(&self, look: &Look) -> Result<(), Violation> {
        look.tally.as_ref().map_or(Ok(()), |found| self.resolved(found).map(drop))
    }

    /// What the entries add up to, with those in doubt that the flash has.
    fn resolved(&self, found: &TallyState) -> Result<Sums, Violation> {
        let found = Sums::of(found);
        let doubts: Vec<usize> = (self.doubts.iter().enumerate())
            .filter(|(_, (_, durable))| *durable != Durable::Yes)
            .map(|(place, _)| place)
            .collect();
        let doubts = &doubts[..doubts.len().min(DOUBTS)];
        for taken in 0..1_u32 << doubts.len() {
            let mut sums = self.sums.clone();
            for (place, (entry, durable)) in self.doubts.iter().enumerate() {
                let doubt = doubts.iter().position(|doubt| *doubt == place);
                let counts = doubt.map_or(*durable == Durable::Yes, |n| taken >> n & 1 == 1);
                if counts {
                    sums.take(*entry);
                }
            }
            if sums == found {
                return Ok(sums);
            }
        }
        Err(self.sums.differs(&found))
    }

    /// The lock rests: whoever has reached the limit is in a penalty.
    pub(super) fn rest(&mut self, service: Service, terms: &Terms) -> Result<(), Violation> {
        self.counted = None;
        let due = self.sums.count() >= u32::from(terms.settings.policy.wrong_codes);
        if due
            && !self.excused
            && self.penalty.is_none()
            && service == Service::No
            && self.doubts.is_empty()
        {
            let what = format!("{} wrong codes, and no penalty runs", self.sums.count());
            return Err(Violation::new(Invariant::PenaltyServed, what));
        }
        Ok(())
    }
}

/// How long a way out takes (section 13).
const fn way_out(people: People) -> Seconds {
    match people.second {
        Some(_) => Seconds::from_hours(72),
        None => Seconds::from_hours(14 * 24),
    }
}

/// How long the penalty lasts that made the step that (section 4).
fn length(step: u8, terms: &Terms) -> Seconds {
    let doublings = u32::from(step.saturating_sub(1)).min(31);
    let length = u64::from(terms.settings.policy.penalty.get()) << doublings;
    Seconds::new(u32::try_from(length).unwrap_or(u32::MAX)).min(terms.settings.policy.penalty_cap)
}

/// On whose code a record tells a verdict.
fn told(event: &Event) -> Option<Number> {
    match event {
        // Within a penalty nothing is counted, and nothing is told.
        Event::Refused { why: Refusal::Penalty, .. } => None,
        Event::Released { people, .. } | Event::DelayStarted { people, .. } => {
            Some(people.second.unwrap_or(people.first))
        }
        Event::FirstOfTwo { who, .. }
        | Event::WrongCode { who }
        | Event::Refused { who, .. }
        | Event::Status { who, .. }
        | Event::Asked { who, .. } => Some(*who),
        _ => None,
    }
}

#[cfg(test)]
mod dialogues;
#[cfg(test)]
mod tests;
