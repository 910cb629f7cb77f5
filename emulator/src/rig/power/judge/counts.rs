//! Invariants 4 and 5: wrong counts and penalties, from the durable entries of
//! the tally.
//!
//! What the entries add up to is kept here by the sentences of
//! docs/behaviour.md, sections 3 and 4, not by the code that the lock has for
//! it.

use emulated_board::trace::{Durable, Line, Told, What};
use lock_core::audit::{Change, Event, People, Refusal};
use lock_core::holder::Number;
use lock_core::policy::Stricter;
use lock_core::port::{Chip, Effect, Sound, Tally, Write};
use lock_core::screen::{Form, Screen};
use lock_core::tally::TallyState;
use lock_core::time::{Seconds, Shift, Steady, Uptime};

use super::release::Service;
use super::{Invariant, Terms, Violation};
use crate::memory::Look;

mod sums;

use sums::Sums;

/// So long a wrong try weighs, and the step stays after a penalty (sections 3 and 4).
const FADE: Seconds = Seconds::from_hours(24);

/// How long a clock settles that two people set, and after how long corrections
/// are forgotten (section 9).
const SETTLING: Seconds = Seconds::from_hours(8);
const CORRECTIONS: Seconds = Seconds::from_hours(30 * 24);

/// So much a steward corrects alone, in sum (section 9).
const ALONE: Seconds = Seconds::new(300);

/// So many failures bar a number (section 10).
const LIMIT: u8 = 100;

/// How long a reset without a code takes (section 12).
const SLOW_RESET: Seconds = Seconds::from_hours(24);

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
    /// It goes back to being set up: it was reset, or the time of its way out came.
    resets: bool,
    /// When a reset without a code may come.
    slow_reset: Option<Uptime>,
    /// The bolt was opened in this step, and not by a boot.
    opened: bool,
    /// The setting of the clock that is on record and not believed yet.
    set: Option<Change>,
    /// The lock boots, and has not come to rest since.
    boots: bool,
    /// How many power-ups this boot found counted, where it could read that.
    power_ups: Option<u32>,
    /// Where steady time stood, and when that was.
    steady: Option<(Steady, Uptime)>,
    /// The moment of the last line.
    now: Uptime,
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

impl Counts {
    /// A lock that was commissioned with somebody is set up.
    pub(super) fn of(terms: &Terms) -> Self {
        let set_up = terms.settings.enrolled > 0;
        Self { sums: Sums { set_up, ..Sums::default() }, ..Self::default() }
    }

    pub(super) fn line(&mut self, line: &Line, terms: &Terms) -> Result<(), Violation> {
        self.now = line.uptime;
        self.keep_time(line);
        match line.what {
            What::PowerOn | What::PowerCut => {
                self.counted = None;
                self.right = None;
                self.penalty = None;
                self.last_penalty = Uptime::ZERO;
                (self.leads, self.changed, self.opened) = (false, false, false);
                self.corrected = Uptime::ZERO;
                (self.slow_reset, self.set, self.steady) = (None, None, None);
                self.boots = true;
            }
            What::Told(told) => {
                (self.changed, self.opened) = (false, false);
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
                let change = matches!(record.event, Event::Changed { .. } | Event::HeldShut { .. });
                self.changed |= change && durable == Durable::Yes;
                return self.recorded(&record.event, durable, line.uptime);
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
            Tally::Faded(n) if !self.has_weighed(n, at) => {
                let what = format!("a try on {:02} faded before its time", n.get());
                wrong(Invariant::CountedFirst, what)
            }
            Tally::Eased if self.penalty.is_some() || at < self.last_penalty.after(FADE) => {
                wrong(Invariant::PenaltyServed, "the step fell before its time".to_owned())
            }
            Tally::Settled if self.settles.is_none_or(|settles| at < settles) => {
                wrong(Invariant::WaitWaited, "a clock settled before its time".to_owned())
            }
            Tally::CorrectionsOver if at < self.corrected.after(CORRECTIONS) => {
                let what = "corrections were forgotten before their time".to_owned();
                wrong(Invariant::WaitWaited, what)
            }
            Tally::Corrected { by, .. } => self.may_correct(by),
            Tally::ClockSet(_) if !matches!(self.set, Some(Change::ClockSet(_))) => {
                let what = "the clock was believed before its setting was on record".to_owned();
                wrong(Invariant::Committed, what)
            }
            Tally::SettingUp if !self.resets && terms.settings.enrolled > 0 => {
                let what = "the lock is being set up, and nothing led to that".to_owned();
                wrong(Invariant::WaitWaited, what)
            }
            Tally::Brought(_) if !self.opened => {
                let what = "what waits was brought forward, and no hand opened the lock".to_owned();
                wrong(Invariant::WaitWaited, what)
            }
            Tally::Counted(_)
            | Tally::Cleared(_)
            | Tally::Penalty
            | Tally::Served
            | Tally::Faded(_)
            | Tally::Eased
            | Tally::HeldShut(_)
            | Tally::ClockDoubt(_)
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

    /// A correction is believed behind its record, and counts for what it is. It takes
    /// two people once the sum is more than a steward's, and then counts for nothing.
    fn may_correct(&self, by: Seconds) -> Result<(), Violation> {
        let two = match self.set {
            Some(Change::ClockCorrected(secs)) if by.get() == secs.unsigned_abs() => false,
            // Two people set it while the lock was opened.
            Some(Change::ClockSet(_)) if by.get() == 0 => true,
            _ => {
                let what = "a correction was believed that is not on record so";
                return Err(Violation::new(Invariant::Committed, what));
            }
        };
        let sum = self.sums.corrected.saturating_add(by.get());
        if !two && sum > ALONE.get() {
            let what = format!("a steward corrected the clock by {sum} s in sum");
            return Err(Violation::new(Invariant::WaitWaited, what));
        }
        Ok(())
    }

    fn enter(&mut self, entry: Tally, durable: Durable, at: Uptime, terms: &Terms) {
        if durable == Durable::Yes && self.doubts.is_empty() {
            self.sums.take(entry);
        } else {
            self.doubts.push((entry, durable));
        }
        if let Tally::Counted(number) = entry {
            // In doubt, too: the lock goes on as if it were there.
            self.tries.push((number, at));
        }
        if durable != Durable::Yes {
            return;
        }
        match entry {
            Tally::Counted(number) => self.counted = Some(number),
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
            Tally::SettingUp => (self.way_out, self.resets) = (None, false),
            Tally::WayOutOver => self.way_out = None,
            Tally::ClockSet(_) => {
                (self.settles, self.set) = (Some(at.after(SETTLING)), None);
            }
            Tally::Settled => self.settles = None,
            Tally::Corrected { by, .. } => {
                // Whoever stands at the opened lock need not open it by its clock: one that
                // two people set there is believed at once.
                if matches!(self.set, Some(Change::ClockSet(_))) {
                    self.settles = self.settles.map(|_| at);
                }
                self.set = None;
                if by.get() > 0 {
                    self.corrected = at;
                }
            }
            Tally::Eased
            | Tally::HeldShut(_)
            | Tally::ClockDoubt(_)
            | Tally::CorrectionsOver
            | Tally::Collected(_)
            | Tally::Brought(_)
            | Tally::SetUp
            | Tally::PoweredUp => {}
        }
    }

    /// Whether the oldest try on that number has weighed for its whole time, and none on a
    /// lower one has as long.
    fn has_weighed(&self, number: Number, at: Uptime) -> bool {
        let oldest = |of: Number| self.tries.iter().find(|(other, _)| *other == of);
        oldest(number).is_some_and(|(_, since)| {
            let lower = self.tries.iter().any(|(n, other)| *n < number && other == since);
            at >= since.after(FADE) && !lower
        })
    }

    /// Steady time (section 1), as far as it is known.
    pub(super) fn steady(&self) -> Option<Steady> {
        let (stood, then) = self.steady?;
        Some(stood.after(if self.doubts() { self.now.since(then) } else { Seconds::ZERO }))
    }

    /// What holds besides the policy now: neither has its time come, nor was the lock
    /// opened since it was made to wait (sections 6 and 12).
    pub(super) fn stricter(&self, terms: &Terms) -> Option<Stricter> {
        let steady = self.steady();
        let brought = self.sums.brought;
        terms.settings.stricter.filter(|stricter| {
            let come = steady.is_some_and(|steady| steady >= stricter.until);
            !come && brought.is_none_or(|brought| stricter.made >= brought)
        })
    }

    /// Whether the clock is not believed.
    fn doubts(&self) -> bool {
        self.sums.doubted
            || self.doubts.iter().any(|(entry, _)| matches!(entry, Tally::ClockDoubt(_)))
    }

    /// Steady time goes on with a clock that is believed, and by uptime otherwise.
    fn keep_time(&mut self, line: &Line) {
        match (line.what, line.chip) {
            (What::Wrote(Write::Tally(Tally::ClockDoubt(at)), _), _) => {
                self.steady = at.map(|at| (at, line.uptime));
            }
            (_, Chip::At(utc)) if !self.doubts() => {
                let now = Shift::from_secs(self.sums.shift).steady(utc);
                let stood = self.steady.map_or(now, |(stood, _)| stood.max(now));
                self.steady = Some((stood, line.uptime));
            }
            _ => {}
        }
    }

    /// A hold-shut and a doubted clock are in the tally before they are on
    /// record (section 9): a boot goes by the tally. A clock that is set is believed only
    /// after its record.
    fn kept_first(&self, event: &Event) -> Result<(), Violation> {
        let entered = |is: fn(&Tally) -> bool| self.doubts.iter().any(|(other, _)| is(other));
        let kept = match event {
            Event::HeldShut { until, .. } => {
                self.sums.held == Some(Shift::from_secs(self.sums.shift).steady(*until))
                    || entered(|entry| matches!(entry, Tally::HeldShut(_)))
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
    fn recorded(&mut self, event: &Event, durable: Durable, at: Uptime) -> Result<(), Violation> {
        self.opened |= *event == Event::Opened && durable == Durable::Yes && !self.boots;
        if let Event::Changed { by, change } = event {
            self.in_its_time(*change, by.is_some(), at)?;
            if durable == Durable::Yes {
                self.has_changed(*change, at);
            }
        }
        if let (Event::PoweredUp { unrecorded }, Some(counted)) = (event, self.power_ups)
            && *unrecorded != counted
        {
            let what = format!("{unrecorded} power-ups are said to be unrecorded; {counted} are");
            return Err(Violation::new(Invariant::Committed, what));
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

    /// What takes time has had it.
    fn in_its_time(&self, change: Change, by_hand: bool, at: Uptime) -> Result<(), Violation> {
        let due = match change {
            Change::WayOut => self.way_out,
            Change::WayOutEnded if !by_hand => self.way_out,
            Change::Reset if !by_hand => self.slow_reset,
            _ => return Ok(()),
        };
        if due.is_some_and(|due| at >= due) {
            return Ok(());
        }
        let what = format!("{} came before its time", change.kind());
        Err(Violation::new(Invariant::WaitWaited, what))
    }

    fn has_changed(&mut self, change: Change, at: Uptime) {
        match change {
            // A new code by somebody else's hand ends the failures of a number.
            Change::Enrolled(who, _) | Change::Commissioned(who) => self.right = Some(who),
            Change::Restored(who) if self.sums.totals[usize::from(who.get())] == LIMIT => {
                self.right = Some(who);
            }
            Change::Reset => (self.resets, self.slow_reset) = (true, None),
            Change::WayOut => self.resets = true,
            Change::ResetBegun => self.slow_reset = Some(at.after(SLOW_RESET)),
            Change::ResetCancelled => self.slow_reset = None,
            Change::ClockSet(_) | Change::ClockCorrected(_) => self.set = Some(change),
            _ => {}
        }
    }

    /// The lock has had a life before.
    #[cfg(test)]
    pub(super) fn begin_with(&mut self, tally: &TallyState) {
        self.sums = Sums::of(tally);
    }

    /// A boot: what it finds is what entries add up to, with or without those
    /// in doubt. The penalty that it finds is served anew.
    pub(super) fn boot(&mut self, look: &Look, terms: &Terms) -> Result<(), Violation> {
        self.power_ups = None;
        let Some(found) = &look.tally else { return Ok(()) };
        self.sums = self.resolved(found)?;
        self.power_ups = look.settings.is_ok().then_some(self.sums.power_ups);
        self.doubts.clear();
        self.excused = false;
        let settling = self.sums.settling;
        self.settles = settling.then(|| Uptime::ZERO.after(SETTLING));
        self.tries = self.sums.weights.iter().map(|number| (*number, Uptime::ZERO)).collect();
        self.way_out = self.sums.way_out.map(|people| Uptime::ZERO.after(way_out(people)));
        (self.last_penalty, self.resets) = (Uptime::ZERO, false);
        let stood = if self.sums.doubted { self.sums.doubted_at } else { None };
        self.steady = stood.map(|stood| (stood, Uptime::ZERO));
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
        self.boots = false;
        if service == Service::No && self.doubts.is_empty() {
            self.nothing_is_late()?;
        }
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

/// What a lock at rest has left undone.
impl Counts {
    /// The tally says what time has brought.
    fn nothing_is_late(&self) -> Result<(), Violation> {
        let come = |at: Uptime| self.now >= at;
        let late = [
            (self.penalty.is_some_and(come), "a penalty was served, and the tally says no word"),
            (
                self.tries.iter().any(|(_, since)| come(since.after(FADE))),
                "a try has weighed for its time, and weighs on",
            ),
            (
                self.sums.step > 0 && self.penalty.is_none() && come(self.last_penalty.after(FADE)),
                "a day without a penalty has passed, and the step stands",
            ),
            (self.settles.is_some_and(come), "a clock has settled, and the tally says no word"),
            (
                self.sums.corrected > 0 && come(self.corrected.after(CORRECTIONS)),
                "corrections are older than a month, and count on",
            ),
            (self.set.is_some(), "a clock was set, and is not believed"),
        ];
        match late.iter().find(|(is, _)| *is) {
            Some((_, what)) => Err(Violation::new(Invariant::Committed, *what)),
            None => Ok(()),
        }
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
