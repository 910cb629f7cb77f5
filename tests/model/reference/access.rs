//! From permit to released and back to secured (sections 5 and 6).

use super::attempt::{Refusal, because};
use super::lock::{Level, Model};
use super::seen::Record;
use super::setup::{Follows, may_open};

/// Until when somebody may be released.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Permit {
    Until(i64),
    Endless,
}

impl Permit {
    fn end(self) -> Option<i64> {
        match self {
            Permit::Until(end) => Some(end),
            Permit::Endless => None,
        }
    }

    fn earlier(self, other: Self) -> Self {
        match (self, other) {
            (Permit::Until(one), Permit::Until(two)) => Permit::Until(one.min(two)),
            (Permit::Endless, permit) | (permit, Permit::Endless) => permit,
        }
    }
}

/// The first of two people.
#[derive(Clone, Debug)]
pub(crate) struct First {
    pub(crate) number: u8,
    pub(crate) until_ms: u64,
    pub(crate) outcome: &'static str,
}

#[derive(Clone, Debug)]
pub(crate) enum Access {
    Secured,
    Waiting {
        people: Vec<u8>,
        permit: Permit,
        until_ms: u64,
    },
    Claimable {
        people: Vec<u8>,
        permit: Permit,
        until_ms: u64,
    },
    Released {
        permit: Permit,
        until_ms: u64,
    },
    /// `left` is there for an opening that began with a release.
    Open {
        since_ms: u64,
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
    pub(crate) fn name(&self) -> &'static str {
        match self {
            Access::Secured => "secured",
            Access::Waiting { .. } => "waiting",
            Access::Claimable { .. } => "claimable",
            Access::Released { .. } => "released",
            Access::Open { .. } => "open",
        }
    }

    pub(crate) fn is_wait(&self) -> bool {
        matches!(self, Access::Waiting { .. } | Access::Claimable { .. })
    }

    pub(crate) fn is_released_or_open(&self) -> bool {
        matches!(self, Access::Released { .. } | Access::Open { .. })
    }

    pub(crate) fn until_ms(&self) -> Option<u64> {
        match self {
            Access::Waiting { until_ms, .. }
            | Access::Claimable { until_ms, .. }
            | Access::Released { until_ms, .. } => Some(*until_ms),
            Access::Secured | Access::Open { .. } => None,
        }
    }

    /// The end of a permit that will still change something.
    pub(crate) fn permit_end(&self) -> Option<i64> {
        match self {
            Access::Waiting { permit, .. } | Access::Claimable { permit, .. } => permit.end(),
            Access::Open { left: Some(left), .. } if !left.told => left.permit.end(),
            Access::Secured | Access::Released { .. } | Access::Open { .. } => None,
        }
    }
}

impl Model {
    /// The one judge: may this holder be released now, and until when?
    fn judge(&self, number: u8) -> Result<Permit, Refusal> {
        let holder = self.setup.holder(number).expect("a code was right");
        if self.sensors.inhibit {
            return Err(because("inhibit"));
        }
        if self.held_until.is_some() {
            return Err(Refusal { why: "held-shut", until: self.held_until });
        }
        if self.level == Level::Spent {
            return Err(because("supply"));
        }
        let Follows::Timetable(timetable) = holder.follows else {
            return Ok(Permit::Endless);
        };
        let Some(utc) = self.utc() else {
            return Err(because("clock"));
        };
        if !self.hours().is_open(timetable, utc) {
            let until = self.hours().next_open(timetable, utc);
            return Err(Refusal { why: "closed", until });
        }
        let end = self.hours().open_until(timetable, utc);
        Ok(end.map_or(Permit::Endless, Permit::Until))
    }

    /// A right code of a holder whom section 3 lets ask.
    pub(crate) fn ask_to_open(&mut self, number: u8, outcome: &'static str) {
        match self.decide(number) {
            Err(refusal) => self.refuse(number, outcome, refusal),
            Ok(Decision::First) => {
                if self.record_code("first-of-two", &[number], outcome, None) {
                    let limit_ms = self.setup.policy.dual_limit_s * 1_000;
                    let until_ms = self.now.uptime_ms + limit_ms;
                    self.first = Some(First { number, until_ms, outcome });
                    // Heard once the record is written, whatever comes next.
                    self.seen.sounds.push("key");
                    self.clear(number);
                }
            }
            Ok(Decision::Delay(people, permit)) => {
                let outcome = self.of_both(outcome);
                if self.record_code("delay-started", &people, outcome, None) {
                    let delay_ms = self.setup.policy.delay_s * 1_000;
                    let until_ms = self.now.uptime_ms + delay_ms;
                    self.seen.sounds.push("accepted");
                    self.go(Access::Waiting { people, permit, until_ms });
                    self.clear(number);
                }
            }
            Ok(Decision::Release(people, permit)) => {
                let outcome = self.of_both(outcome);
                if self.record_code("released", &people, outcome, None) {
                    self.seen.drive.push("free");
                    let low = self.level == Level::Low;
                    self.seen.sounds.push(if low { "warning" } else { "accepted" });
                    let release_ms = self.setup.policy.release_s * 1_000;
                    let until_ms = self.now.uptime_ms + release_ms;
                    self.go(Access::Released { permit, until_ms });
                    self.clear(number);
                }
            }
        }
    }

    /// "One of two people says *duress* if either of the two codes was."
    fn of_both(&self, outcome: &'static str) -> &'static str {
        let first = self.first.as_ref().map(|first| first.outcome);
        if first == Some("duress") { "duress" } else { outcome }
    }

    fn decide(&self, number: u8) -> Result<Decision, Refusal> {
        let mut permit = self.judge(number)?;
        let mut people = vec![number];
        match &self.access {
            Access::Waiting { .. } => return Err(because("waiting")),
            Access::Claimable { people, .. } if !people.contains(&number) => {
                return Err(because("other-person"));
            }
            _ => (),
        }
        if self.setup.policy.dual_control {
            let Some(first) = &self.first else {
                return Ok(Decision::First);
            };
            if first.number == number {
                return Err(because("same-person"));
            }
            permit = permit.earlier(self.judge_again(first.number)?);
            people.insert(0, first.number);
        }
        let delay_s = self.setup.policy.delay_s;
        let claim = matches!(self.access, Access::Claimable { .. });
        if delay_s == 0 || claim {
            return Ok(Decision::Release(people, permit));
        }
        let delay_s = i64::try_from(delay_s).expect("at most 99 minutes");
        match (permit, self.utc()) {
            (Permit::Until(end), Some(utc)) if utc + delay_s >= end => Err(because("late")),
            _ => Ok(Decision::Delay(people, permit)),
        }
    }

    /// The first person, when the second has been permitted.
    fn judge_again(&self, number: u8) -> Result<Permit, Refusal> {
        let holder = self.setup.holder(number).expect("was admitted");
        if self.is_barred(number) {
            Err(because("barred"))
        } else if holder.suspended {
            Err(because("suspended"))
        } else if !may_open(holder) {
            Err(because("right"))
        } else {
            self.judge(number)
        }
    }

    /// What time and the contacts do to the state of access.
    pub(crate) fn settle_access(&mut self) {
        let now_ms = self.now.uptime_ms;
        if let Some(why) = self.wait_is_over() {
            self.go(Access::Secured);
            self.record(Record::of("cancelled").why(why));
        }
        match self.access.clone() {
            Access::Waiting { people, permit, until_ms } if until_ms <= now_ms => {
                let until_ms = until_ms + self.setup.policy.claim_s * 1_000;
                self.go(Access::Claimable { people, permit, until_ms });
            }
            Access::Claimable { until_ms, .. } if until_ms <= now_ms => {
                self.go(Access::Secured);
                self.record(Record::of("lapsed"));
            }
            Access::Released { until_ms, .. } if until_ms <= now_ms => {
                self.seen.drive.push("block");
                self.go(Access::Secured);
                self.record(Record::of("not-drawn"));
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
        self.follow_bolt_and_door();
        self.tell_left_open();
    }

    fn wait_is_over(&self) -> Option<&'static str> {
        let (Access::Waiting { people, permit, .. } | Access::Claimable { people, permit, .. }) =
            &self.access
        else {
            return None;
        };
        let reached = |end| self.utc().is_some_and(|utc| utc >= end);
        let gone = |number: &u8| {
            self.is_barred(*number)
                || self.setup.holder(*number).is_none_or(|holder| holder.suspended)
        };
        let follows_timetable = |number: &u8| {
            let holder = self.setup.holder(*number);
            holder.is_none_or(|holder| holder.follows != Follows::Always)
        };
        if permit.end().is_some_and(reached) {
            Some("permit")
        } else if self.sensors.inhibit {
            Some("inhibit")
        } else if self.held_until.is_some() {
            Some("held-shut")
        } else if self.ajar() {
            Some("ajar")
        } else if people.iter().any(gone) {
            Some("person")
        } else if self.utc().is_none() && people.iter().any(follows_timetable) {
            Some("clock")
        } else {
            None
        }
    }

    fn follow_bolt_and_door(&mut self) {
        match self.access {
            Access::Released { permit, .. } if self.ajar() => {
                let left = Some(Left { permit, told: false });
                self.go(Access::Open { since_ms: self.now.uptime_ms, left });
                self.record(Record::of("opened"));
            }
            Access::Secured if self.ajar() => self.force(),
            Access::Open { since_ms, .. } if !self.ajar() => {
                let seconds = (self.now.uptime_ms - since_ms) / 1_000;
                self.seen.drive.push("block");
                self.go(Access::Secured);
                self.record(Record::of("secured").value(seconds));
            }
            _ => (),
        }
    }

    /// Ajar without a release.
    pub(crate) fn force(&mut self) {
        self.go(Access::Open { since_ms: self.now.uptime_ms, left: None });
        let hold_ms = self.setup.policy.alarm_hold_s * 1_000;
        self.tamper_until_ms = Some(self.now.uptime_ms + hold_ms);
        self.record(Record::of("forced"));
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
            self.seen.sounds.push("warning");
        }
    }

    /// Changes the state of access: a notice ends, and with a wait its first
    /// person.
    fn go(&mut self, access: Access) {
        let to_claimable = matches!(access, Access::Claimable { .. });
        if self.access.is_wait() && !to_claimable || access.is_released_or_open() {
            self.first = None;
        }
        if matches!(access, Access::Waiting { .. }) {
            self.first = None;
        }
        self.notice = None;
        self.access = access;
    }
}

enum Decision {
    First,
    Delay(Vec<u8>, Permit),
    Release(Vec<u8>, Permit),
}
