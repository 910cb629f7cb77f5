//! From when on a change holds (R3): what widens opening waits for a start of a window
//! unless the lock is opened, and until then the stricter values hold as well.

use super::bolt::Moment;
use super::step::Machine;
use crate::holder::{HolderRow, Pending};
use crate::policy::{Control, Deputies, Stricter};
use crate::port::Reads;
use crate::rules::{Unreadable, opening_time, pending};
use crate::screen::Trouble;
use crate::time::{Seconds, Steady, Utc};
use crate::timetable::{Follows, TimetableId};

/// When something that widens opening applies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Applies {
    /// At once.
    Now,
    /// From then on.
    From(Steady),
    /// Nobody can say: the lock must be opened.
    Never,
}

impl Machine {
    /// What holds besides the policy at this moment.
    pub(super) fn stricter_now(&self, at: Moment) -> Option<Stricter> {
        self.in_force
            .stricter()
            .filter(|stricter| !self.holds_by_now(stricter.made, stricter.until, at))
    }

    /// What a row waits for at this moment.
    pub(super) fn waits(&self, row: &HolderRow, at: Moment) -> Option<Pending> {
        row.pending.filter(|pending| !self.holds_by_now(pending.made, pending.from, at))
    }

    /// Whether what was made to wait then holds by now: its time has come, or the lock
    /// was opened since.
    fn holds_by_now(&self, made: Steady, from: Steady, at: Moment) -> bool {
        pending::holds(made, from, at.steady, self.counts.brought())
    }

    /// The delay that holds at this moment.
    pub(super) fn delay(&self, at: Moment) -> Seconds {
        let besides = self.stricter_now(at);
        besides.map_or(self.in_force.policy().delay, |besides| {
            self.in_force.policy().delay.max(besides.delay)
        })
    }

    /// How many people an opening takes at this moment.
    pub(super) fn control(&self, at: Moment) -> Control {
        let besides = self.stricter_now(at).map(|besides| besides.control);
        match (self.in_force.policy().control, besides) {
            (Control::Dual, _) | (_, Some(Control::Dual)) => Control::Dual,
            (Control::Single, Some(Control::Single) | None) => Control::Single,
        }
    }

    /// What deputies may do at this moment.
    pub(super) fn deputies(&self, at: Moment) -> Deputies {
        let besides = self.stricter_now(at);
        besides.map_or(self.in_force.policy().deputies, |b| {
            self.in_force.policy().deputies.min(b.deputies)
        })
    }

    /// When a row that widens what follows `follows` applies: at once with the
    /// bolt drawn, else at the next start of a window (for none: of any
    /// timetable).
    pub(super) fn widened(
        &self,
        follows: Follows,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Applies, Unreadable> {
        let mut earliest: Option<Utc> = None;
        for id in TimetableId::ALL {
            let own = match follows {
                Follows::Always => true,
                Follows::Timetable(own) => own == id,
            };
            if own && let Some(start) = self.next_start(id, at, reads)? {
                earliest = Some(earliest.map_or(start, |e| e.min(start)));
            }
        }
        Ok(self.at_or_by_hand(earliest))
    }

    /// When a policy that widens opening for everybody applies: once every
    /// timetable that has a window ahead has begun one.
    pub(super) fn widened_for_all(
        &self,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Applies, Unreadable> {
        let mut latest = None;
        for id in TimetableId::ALL {
            latest = latest.max(self.next_start(id, at, reads)?);
        }
        Ok(self.at_or_by_hand(latest))
    }

    pub(super) fn at_or_by_hand(&self, start: Option<Utc>) -> Applies {
        if self.bolt.access().is_opened() || self.is_being_set_up() {
            return Applies::Now;
        }
        match start {
            Some(start) => Applies::From(self.counts.shift().steady(start)),
            None => Applies::Never,
        }
    }

    /// Why what would wait for a start of a window cannot.
    pub(super) fn no_start(&self, at: Moment) -> Trouble {
        match (at.utc, self.clock.settles()) {
            (Some(_), None) => Trouble::NoStart,
            (Some(_), Some(_)) | (None, _) => Trouble::ClockUnsure,
        }
    }

    pub(super) fn next_start(
        &self,
        id: TimetableId,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Utc>, Unreadable> {
        // While a clock settles nobody can say when a window starts.
        match (at.utc, self.clock.settles()) {
            (Some(now), None) => opening_time::next_start(reads, self.in_force.zone(), id, now),
            (Some(_), Some(_)) | (None, _) => Ok(None),
        }
    }
}
