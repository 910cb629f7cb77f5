//! From permit to released and back to secured (section 6).

use super::durable::Tally;
use super::lock::{Level, Model, Notice};
use super::seen::Record;
use super::setup::Follows;
use super::typing::NOTICE_MS;

/// How long a hand may have been faster than the blocker.
const HAND_MS: u64 = 2_000;

/// Until when somebody may be released.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Permit {
    Until(i64),
    Endless,
}

impl Permit {
    pub(crate) fn end(self) -> Option<i64> {
        match self {
            Permit::Until(end) => Some(end),
            Permit::Endless => None,
        }
    }

    pub(crate) fn earlier(self, other: Self) -> Self {
        match (self, other) {
            (Permit::Until(one), Permit::Until(two)) => Permit::Until(one.min(two)),
            (Permit::Endless, permit) | (permit, Permit::Endless) => permit,
        }
    }
}

/// Somebody whose code was right; a courier's with its counter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Person {
    pub(crate) number: u8,
    pub(crate) counter: Option<u32>,
}

/// The first of two people.
#[derive(Clone, Debug)]
pub(crate) struct First {
    pub(crate) person: Person,
    pub(crate) until_ms: u64,
    pub(crate) outcome: &'static str,
}

/// A wait, or a claim.
#[derive(Clone, Debug)]
pub(crate) struct Wait {
    pub(crate) people: Vec<Person>,
    pub(crate) permit: Permit,
    pub(crate) until_ms: u64,
    pub(crate) delay_s: u64,
}

impl Wait {
    pub(crate) fn numbers(&self) -> Vec<u8> {
        self.people.iter().map(|person| person.number).collect()
    }
}

/// A release that has just ended.
#[derive(Clone, Debug)]
pub(crate) struct Hand {
    pub(crate) until_ms: u64,
    pub(crate) people: Vec<u8>,
    pub(crate) permit: Permit,
}

#[derive(Clone, Debug)]
pub(crate) enum Access {
    Secured,
    Waiting(Wait),
    Claimable(Wait),
    Released {
        people: Vec<u8>,
        permit: Permit,
        until_ms: u64,
    },
    /// `opened`: after a release, or while nobody was enrolled. `left` is
    /// there for an opening that began with a release. `since_ms` is below 0
    /// for what was open before the boot.
    Open {
        since_ms: i64,
        opened: bool,
        people: Vec<u8>,
        left: Option<Left>,
    },
}

/// Whether an open lock has been left open past its permit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Left {
    pub(crate) permit: Permit,
    pub(crate) told: bool,
}

impl Access {
    pub(crate) fn opened_by_nobody(since_ms: i64) -> Self {
        Access::Open { since_ms, opened: true, people: Vec::new(), left: None }
    }

    pub(crate) fn name(&self) -> &'static str {
        match self {
            Access::Secured => "secured",
            Access::Waiting(_) => "waiting",
            Access::Claimable(_) => "claimable",
            Access::Released { .. } => "released",
            Access::Open { .. } => "open",
        }
    }

    pub(crate) fn wait(&self) -> Option<&Wait> {
        match self {
            Access::Waiting(wait) | Access::Claimable(wait) => Some(wait),
            Access::Secured | Access::Released { .. } | Access::Open { .. } => None,
        }
    }

    pub(crate) fn is_wait(&self) -> bool {
        self.wait().is_some()
    }

    pub(crate) fn is_released_or_open(&self) -> bool {
        matches!(self, Access::Released { .. } | Access::Open { .. })
    }

    pub(crate) fn until_ms(&self) -> Option<u64> {
        match self {
            Access::Waiting(wait) | Access::Claimable(wait) => Some(wait.until_ms),
            Access::Released { until_ms, .. } => Some(*until_ms),
            Access::Secured | Access::Open { .. } => None,
        }
    }

    /// The end of a permit that will still change something.
    pub(crate) fn permit_end(&self) -> Option<i64> {
        match self {
            Access::Waiting(wait) | Access::Claimable(wait) => wait.permit.end(),
            Access::Open { left: Some(left), .. } if !left.told => left.permit.end(),
            Access::Secured | Access::Released { .. } | Access::Open { .. } => None,
        }
    }
}

impl Model {
    pub(crate) fn now_ms(&self) -> i64 {
        i64::try_from(self.now.uptime_ms).expect("a sensible uptime")
    }

    /// Ajar after a release, or while nobody was enrolled.
    pub(crate) fn is_opened(&self) -> bool {
        matches!(self.access, Access::Open { opened: true, .. }) && self.ajar()
    }

    /// What time and the contacts do to the state of access.
    pub(crate) fn settle_access(&mut self) {
        let now_ms = self.now.uptime_ms;
        if let Some(why) = self.wait_is_over() {
            self.go(Access::Secured);
            if why == "forced" {
                // What caused it is written first.
                self.force();
            }
            self.record(Record::of("cancelled").why(why));
        }
        match self.access.clone() {
            Access::Waiting(wait) if wait.until_ms <= now_ms => {
                let until_ms = wait.until_ms + self.setup().policy.claim_s * 1_000;
                self.go(Access::Claimable(Wait { until_ms, ..wait }));
            }
            Access::Claimable(wait) if wait.until_ms <= now_ms => {
                self.go(Access::Secured);
                self.record(Record::of("lapsed"));
            }
            Access::Released { people, permit, until_ms }
                if until_ms <= now_ms
                    || (!self.ajar() && (self.sensors.inhibit || self.held().is_some())) =>
            {
                self.seen.drive.push("block");
                self.go(Access::Secured);
                self.record(Record::of("not-drawn"));
                self.hand = Some(Hand { until_ms: now_ms + HAND_MS, people, permit });
            }
            _ => (),
        }
        if self.ajar() {
            self.first = None;
        }
        if self.first.as_ref().is_some_and(|first| first.until_ms <= now_ms) {
            self.first = None;
            self.record(Record::of("lapsed"));
        }
        self.hand = self.hand.take().filter(|hand| hand.until_ms > now_ms);
        self.follow_bolt_and_door();
        self.tell_left_open();
    }

    fn wait_is_over(&self) -> Option<&'static str> {
        let wait = self.access.wait()?;
        let numbers = wait.numbers();
        let reached = |end| self.utc().is_some_and(|utc| utc >= end);
        let follows_timetable = |number: &u8| {
            let holder = self.setup().holder(*number);
            holder.is_none_or(|holder| holder.follows != Follows::Always)
        };
        if wait.permit.end().is_some_and(reached) {
            Some("window-end")
        } else if self.sensors.inhibit {
            Some("inhibit")
        } else if self.held().is_some() {
            Some("held-shut")
        } else if self.ajar() {
            Some("forced")
        } else if numbers.iter().any(|number| self.is_barred(*number)) {
            Some("barred")
        } else if self.utc().is_none() && numbers.iter().any(follows_timetable) {
            Some("clock")
        } else {
            None
        }
    }

    fn follow_bolt_and_door(&mut self) {
        match self.access.clone() {
            Access::Released { people, permit, .. } if self.ajar() => {
                self.open_after_release(people, permit);
            }
            Access::Secured if self.ajar() => match self.hand.take() {
                Some(hand) => self.open_after_release(hand.people, hand.permit),
                None if self.nobody_is_enrolled() => {
                    self.go(Access::opened_by_nobody(self.now_ms()));
                }
                None => self.force(),
            },
            Access::Open { .. } if !self.ajar() && self.nobody_is_enrolled() => {
                self.go(Access::Secured);
            }
            Access::Open { since_ms, .. } if !self.ajar() => {
                let seconds = (self.now_ms() - since_ms) / 1_000;
                self.seen.drive.push("block");
                self.go(Access::Secured);
                self.record(Record::of("secured").value(seconds));
            }
            _ => (),
        }
    }

    pub(crate) fn open_after_release(&mut self, people: Vec<u8>, permit: Permit) {
        let left = Some(Left { permit, told: false });
        self.go(Access::Open { since_ms: self.now_ms(), opened: true, people, left });
        self.record(Record::of("opened"));
        self.bring();
    }

    /// When the lock is opened, everything that waits applies: told at the first
    /// opening after a boot, and at the first one after a change that waits.
    fn bring(&mut self) {
        let Some(steady) = self.steady() else { return };
        let Some(from) = self.brings.filter(|_| self.fault.is_none()) else { return };
        if steady >= from {
            self.brings = None;
        }
        if self.tally(&Tally::Brought(steady)) {
            self.file_brought = self.setup().file.is_some();
        }
    }

    /// Ajar without a release.
    pub(crate) fn force(&mut self) {
        self.stay_forced();
        self.record(Record::of("forced"));
    }

    pub(crate) fn stay_forced(&mut self) {
        let since_ms = self.now_ms();
        self.go(Access::Open { since_ms, opened: false, people: Vec::new(), left: None });
        let hold_ms = self.setup().policy.alarm_hold_s * 1_000;
        self.tamper_until_ms = Some(self.now.uptime_ms + hold_ms);
    }

    fn tell_left_open(&mut self) {
        let utc = self.utc();
        let Access::Open { left: Some(left), .. } = &mut self.access else {
            return;
        };
        let ended = left.permit.end().is_some_and(|end| utc.is_some_and(|utc| utc >= end));
        if ended && !left.told {
            left.told = true;
            self.record(Record::of("left-open"));
            // Of what one step sounds the last is heard; that a clock is set is heard
            // in a later one, once it is believed.
            if self.seen.clock_set.is_empty() {
                self.seen.sounds.retain(|sound| *sound != "accepted");
                self.seen.sounds.push("warning");
            } else {
                self.seen.sounds.insert(0, "warning");
            }
        }
    }

    /// Changes the state of access: a notice ends, and with a wait its first
    /// person.
    pub(crate) fn go(&mut self, access: Access) {
        let to_claimable = matches!(access, Access::Claimable(_));
        let ends_a_wait = self.access.is_wait() && !to_claimable;
        if ends_a_wait || access.is_released_or_open() || matches!(access, Access::Waiting(_)) {
            self.first = None;
        }
        if matches!(access, Access::Waiting(_) | Access::Released { .. }) {
            self.hand = None;
        }
        // What a dialogue did is said, also where it ended a wait or a release.
        let now_ms = self.now.uptime_ms;
        let said = |notice: &Notice| {
            notice.text.starts_with("done ") && notice.until_ms == now_ms + NOTICE_MS
        };
        let at_the_keys = self.at_the_keys;
        self.notice = self.notice.take().filter(|notice| at_the_keys && said(notice));
        self.access = access;
    }

    pub(crate) fn warns_of_supply(&self) -> bool {
        self.level == Level::Low
    }
}
