//! The alarm line: which level it has, and until when (R4, R9).
//!
//! The line must not tell by its timing what it hides from the front: after
//! *every* judged code the lock wakes once, when an alarm raised by that code
//! would end, whether it was raised or not.

use crate::port::Alarm;
use crate::time::Uptime;

/// The region of the alarm line.
pub(super) struct AlarmLine {
    duress: Duress,
    /// The hold time after the last judged code.
    settles: Option<Uptime>,
    tamper: Option<Uptime>,
    /// Until when a test raises the line as duress does.
    test: Option<Uptime>,
    /// The level that the line has.
    signalled: Alarm,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Duress {
    Quiet,
    Raised,
}

impl AlarmLine {
    pub(super) const QUIET: Self = Self {
        duress: Duress::Quiet,
        settles: None,
        tamper: None,
        test: None,
        signalled: Alarm::Quiet,
    };

    /// A code was judged: an alarm lasts until `until`, raised or not. A hold that was
    /// longer when it began ends no sooner.
    pub(super) fn judged(&mut self, until: Uptime) {
        self.settles = self.settles.max(Some(until));
    }

    /// The record of a duress code came back from the store.
    pub(super) fn duress(&mut self) {
        self.duress = Duress::Raised;
    }

    /// The lock was found open without a release.
    pub(super) fn tamper(&mut self, until: Uptime) {
        self.tamper = Some(until);
    }

    /// A warden tries the line.
    pub(super) fn test(&mut self, until: Uptime) {
        self.test = Some(until);
    }

    /// Ends what is over.
    pub(super) fn look(&mut self, at: Uptime) {
        if self.settles.is_some_and(|until| at >= until) {
            self.settles = None;
            self.duress = Duress::Quiet;
        }
        if self.tamper.is_some_and(|until| at >= until) {
            self.tamper = None;
        }
        if self.test.is_some_and(|until| at >= until) {
            self.test = None;
        }
    }

    /// The level that the line is to have, if it has another.
    pub(super) fn signal(&mut self) -> Option<Alarm> {
        let level = self.level();
        (core::mem::replace(&mut self.signalled, level) != level).then_some(level)
    }

    fn level(&self) -> Alarm {
        match (self.duress, self.test, self.tamper) {
            (Duress::Raised, _, _) | (Duress::Quiet, Some(_), _) => Alarm::Duress,
            (Duress::Quiet, None, Some(_)) => Alarm::Tamper,
            (Duress::Quiet, None, None) => Alarm::Quiet,
        }
    }

    /// The next moment at which something ends.
    pub(super) fn changes(&self) -> Option<Uptime> {
        self.settles.into_iter().chain(self.tamper).chain(self.test).min()
    }
}
