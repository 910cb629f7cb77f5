//! Invariants 4 and 5: wrong counts and penalties, from the durable entries of
//! the tally.
//!
//! What the entries add up to is kept here by the sentences of
//! docs/behaviour.md, sections 3 and 4, not by the code that the lock has for
//! it.

use emulated_board::trace::{Durable, Line, Told, What};
use lock_core::audit::{Event, Refusal};
use lock_core::holder::Number;
use lock_core::port::{Effect, Sound, Tally, Write};
use lock_core::tally::{ClockMark, PenaltyMark, TallyState};
use lock_core::time::{Seconds, Uptime, Utc};

use super::release::Service;
use super::{Invariant, Terms, Violation};
use crate::memory::Look;

/// After so long without a wrong try the lock's count falls (section 3).
const FADE: Seconds = Seconds::from_hours(24);

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
    /// The last wrong or barred try of this run, or its start.
    wrong: Uptime,
}

/// What durable entries add up to.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Sums {
    totals: Box<[u8; Number::COUNT]>,
    shares: Box<[u8; Number::COUNT]>,
    step: u8,
    running: bool,
    held: Option<Utc>,
    doubted: bool,
}

impl Default for Sums {
    fn default() -> Self {
        let none = || Box::new([0; Number::COUNT]);
        Self { totals: none(), shares: none(), step: 0, running: false, held: None, doubted: false }
    }
}

impl Sums {
    fn take(&mut self, entry: Tally) {
        match entry {
            Tally::Counted(n) => {
                let n = usize::from(n.get());
                self.totals[n] = (self.totals[n] + 1).min(100);
                // Four bits of flash (docs/flash-layout.md).
                self.shares[n] = (self.shares[n] + 1).min(15);
            }
            Tally::Cleared(n) => {
                let n = usize::from(n.get());
                (self.totals[n], self.shares[n]) = (0, 0);
            }
            Tally::Penalty => {
                self.shares.fill(0);
                self.step = self.step.saturating_add(1);
                self.running = true;
            }
            Tally::Served => self.running = false,
            Tally::Faded => {
                self.shares.fill(0);
                self.step = 0;
            }
            Tally::HeldShut(until) => self.held = Some(until),
            Tally::ClockDoubt => self.doubted = true,
        }
    }

    fn count(&self) -> u32 {
        self.shares.iter().map(|share| u32::from(*share)).sum()
    }

    fn of(found: &TallyState) -> Self {
        Self {
            totals: Box::new(found.totals),
            shares: Box::new(found.shares),
            step: found.step,
            running: found.penalty == PenaltyMark::Running,
            held: found.held_until,
            doubted: found.clock == ClockMark::Doubted,
        }
    }

    /// What differs from what a flash has, and what that violates.
    fn differs(&self, found: &Self) -> Violation {
        let wrong = |of, what| Violation::new(of, what);
        for n in 0..Number::COUNT {
            let (total, share) = (self.totals[n], self.shares[n]);
            if (total, share) != (found.totals[n], found.shares[n]) {
                let what = format!(
                    "number {n:02} has {total} failures and a share of {share}; the flash has {} \
                     and {}",
                    found.totals[n], found.shares[n]
                );
                return wrong(Invariant::CountedFirst, what);
            }
        }
        if (self.step, self.running) != (found.step, found.running) {
            let what = format!(
                "the penalty stands at step {}, running: {}; the flash has step {}, running: {}",
                self.step, self.running, found.step, found.running
            );
            return wrong(Invariant::PenaltyServed, what);
        }
        let what = format!(
            "hold-shut {:?} and clock doubt {} were committed; the flash has {:?} and {}",
            self.held, self.doubted, found.held, found.doubted
        );
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
                self.wrong = Uptime::ZERO;
            }
            What::Told(Told::Ok) => self.counted = None,
            What::Told(_) | What::Tended(_) => {}
            What::Wrote(Write::Tally(entry), durable) => {
                self.may_enter(entry, line.uptime, terms)?;
                self.enter(entry, durable, line.uptime, terms);
            }
            What::Wrote(Write::Record(record), durable) => {
                return self.recorded(&record.event, durable, line.uptime);
            }
            What::Did(Effect::Sound(sound @ (Sound::Refused | Sound::Accepted))) => {
                if self.counted.is_none() {
                    let what = format!("the sound {sound:?} told a verdict before its count");
                    return Err(Violation::new(Invariant::CountedFirst, what));
                }
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
            Tally::Penalty if self.sums.count() < u32::from(terms.policy.wrong_codes) => {
                let what = format!("shares of {} fell for a penalty", self.sums.count());
                wrong(Invariant::CountedFirst, what)
            }
            Tally::Faded if at < self.wrong.after(FADE) => {
                wrong(Invariant::CountedFirst, "counts faded before their time".to_owned())
            }
            Tally::Counted(_)
            | Tally::Cleared(_)
            | Tally::Penalty
            | Tally::Served
            | Tally::Faded
            | Tally::HeldShut(_)
            | Tally::ClockDoubt => Ok(()),
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
            Tally::Counted(number) => self.counted = Some(number),
            Tally::Penalty => self.penalty = Some(at.after(length(self.sums.step, terms))),
            Tally::Served => self.penalty = None,
            Tally::Cleared(_) => self.right = None,
            Tally::Faded | Tally::HeldShut(_) | Tally::ClockDoubt => {}
        }
    }

    /// A record that tells a verdict needs the count before it.
    fn recorded(&mut self, event: &Event, durable: Durable, at: Uptime) -> Result<(), Violation> {
        let Some(who) = told(event) else { return Ok(()) };
        if self.counted != Some(who) {
            let kind = event.kind();
            let what = format!("{kind} tells the verdict on {:02} before its count", who.get());
            return Err(Violation::new(Invariant::CountedFirst, what));
        }
        match event {
            Event::WrongCode { .. } | Event::Refused { why: Refusal::Barred, .. } => {
                self.wrong = at;
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
        self.penalty = self.sums.running.then(|| Uptime::ZERO.after(length(self.sums.step, terms)));
        Ok(())
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
        let due = self.sums.count() >= u32::from(terms.policy.wrong_codes);
        if due && self.penalty.is_none() && service == Service::No && self.doubts.is_empty() {
            let what = format!("{} wrong codes, and no penalty runs", self.sums.count());
            return Err(Violation::new(Invariant::PenaltyServed, what));
        }
        Ok(())
    }
}

/// How long the penalty lasts that made the step that (section 4).
fn length(step: u8, terms: &Terms) -> Seconds {
    let doublings = u32::from(step.saturating_sub(1)).min(31);
    let length = u64::from(terms.policy.penalty.get()) << doublings;
    Seconds::new(u32::try_from(length).unwrap_or(u32::MAX)).min(terms.policy.penalty_cap)
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
        | Event::HeldShut { who, .. }
        | Event::Status { who, .. } => Some(*who),
        _ => None,
    }
}

/// The wording of invariants 4 and 5, each broken once.
#[cfg(test)]
mod tests {
    use super::super::forge::*;
    use super::*;
    use lock_core::audit::Outcome;
    use lock_core::policy::Policy;

    const PENALTY: Write = Write::Tally(Tally::Penalty);
    const SERVED: Write = Write::Tally(Tally::Served);
    const FADED: Write = Write::Tally(Tally::Faded);

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
        story.wrong(12).rest().later(86_400).wrote(FADED).looked().rest();
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
        story.wrong(12).rest().later(86_399).wrote(FADED);
        assert_eq!(story.violated(), Some(Invariant::CountedFirst));
    }

    #[test]
    fn a_count_that_a_boot_does_not_find_is_seen() {
        for (total, share) in [(0, 1), (1, 0), (2, 1)] {
            let mut story = Forge::booted();
            story.wrong(12).cut();
            story.tally().totals[12] = total;
            story.tally().shares[12] = share;
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
        assert_eq!(length(40, &Terms { policy, ..TERMS }).get(), 86_400);
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
    fn a_hold_shut_or_a_doubt_that_a_boot_forgets_is_seen() {
        for entry in [Tally::HeldShut(Utc::from_secs(99)), Tally::ClockDoubt] {
            let mut story = Forge::booted();
            story.wrote(Write::Tally(entry)).cut();
            *story.tally() = TallyState::NEW;
            story.on().boot();
            assert_eq!(story.violated(), Some(Invariant::Committed), "{entry:?}");
        }
    }
}
