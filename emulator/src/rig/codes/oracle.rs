//! The rules on tries once more, written from the contract and not from the
//! lock: what must become of an entry?
//!
//! Source: docs/behaviour.md, sections 3 and 4. Time here is the true time; the
//! lock counts uptime.

use std::fmt;

use lock_core::holder::Number;
use lock_core::policy::Policy;
use lock_core::role::Role;

use crate::world::Millis;

/// What an entry is to the enrolled code.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// Neither the code nor its duress variant, or nobody holds the number.
    Wrong,
    /// The code, or its duress variant where the policy has duress on, of
    /// somebody of that role.
    Right(Role),
}

/// What becomes of an entry.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fate {
    /// Nothing: a penalty that has been looked at often enough.
    Ignored,
    /// Recorded in a penalty; it opens nothing.
    InPenalty,
    /// Counted and judged.
    Judged {
        /// Whether it was right.
        right: bool,
        /// Whether it was right and refused for the number's failures.
        barred: bool,
        /// The length of the penalty that it starts, in seconds.
        penalty: Option<u32>,
    },
}

impl fmt::Display for Fate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ignored => f.write_str("ignored"),
            Self::InPenalty => f.write_str("recorded in a penalty"),
            Self::Judged { right, barred, penalty } => {
                f.write_str(match (right, barred) {
                    (false, _) => "judged wrong",
                    (true, false) => "judged right",
                    (true, true) => "judged right and barred",
                })?;
                match penalty {
                    Some(seconds) => write!(f, " with a penalty of {seconds} s"),
                    None => Ok(()),
                }
            }
        }
    }
}

const DAY: Millis = 86_400_000;
const LIMIT: u8 = 100;
const LOOKS: u8 = 8;
const WARDEN_TRIES: u8 = 4;

/// The counts as they must be.
pub struct Oracle {
    policy: Policy,
    totals: [u8; 100],
    /// Each wrong or barred try since the last penalty, and until when it weighs.
    weighs: Vec<(usize, Millis)>,
    step: u32,
    eases: Millis,
    /// When each privileged person last typed a code that was taken for one.
    vouched: [Option<Millis>; 100],
    penalty: Option<Penalty>,
    booted: Millis,
    day: Millis,
    today: [u8; 100],
}

#[derive(Clone, Copy)]
struct Penalty {
    until: Millis,
    lasts: u32,
    looks: u8,
}

impl Oracle {
    /// A lock that is powered up for the first time.
    #[must_use]
    pub fn new(policy: &Policy, now: Millis) -> Self {
        Self {
            policy: *policy,
            totals: [0; 100],
            weighs: Vec::new(),
            step: 0,
            eases: now + DAY,
            vouched: [None; 100],
            penalty: None,
            booted: now,
            day: 0,
            today: [WARDEN_TRIES; 100],
        }
    }

    /// The lock boots.
    pub fn boot(&mut self, now: Millis) {
        self.booted = now;
        self.day = 0;
        self.today = [WARDEN_TRIES; 100];
        self.vouched = [None; 100];
        for (_, until) in &mut self.weighs {
            *until = now + DAY;
        }
        if let Some(penalty) = &mut self.penalty {
            penalty.until = now + Millis::from(penalty.lasts) * 1_000;
            penalty.looks = LOOKS;
        }
        self.eases = self.penalty_until().unwrap_or(now) + DAY;
    }

    /// Time has come to `now`, the lock powered.
    pub fn pass(&mut self, now: Millis) {
        self.penalty = self.penalty.filter(|penalty| now < penalty.until);
        self.weighs.retain(|(_, until)| now < *until);
        if now >= self.eases {
            self.step = 0;
        }
        let day = (now - self.booted) / DAY;
        if day != self.day {
            self.day = day;
            self.today = [0; 100];
        }
    }

    /// When the running penalty ends.
    #[must_use]
    pub fn penalty_until(&self) -> Option<Millis> {
        self.penalty.map(|penalty| penalty.until)
    }

    /// The lock's count: the wrong codes that weigh.
    #[must_use]
    pub fn count(&self) -> usize {
        self.weighs.len()
    }

    /// Whether a right code of that role on `number` would be refused for the
    /// failures of the number, were it typed now, the bolt thrown.
    #[must_use]
    pub fn bars(&self, now: Millis, number: Number, role: Role) -> bool {
        let n = number.index();
        let limit = Millis::from(self.policy.dual_limit.get()) * 1_000;
        let beside =
            |(who, at): (usize, &Option<Millis>)| who != n && at.is_some_and(|at| now < at + limit);
        let way_in = role == Role::Warden
            && (self.today[n] < WARDEN_TRIES || self.vouched.iter().enumerate().any(beside));
        self.totals[n] >= LIMIT && !way_in
    }

    /// An entry on `number` at `now`.
    pub fn entry(&mut self, now: Millis, number: Number, kind: Kind) -> Fate {
        self.pass(now);
        let n = number.index();
        if let Some(penalty) = &mut self.penalty {
            if penalty.looks == 0 {
                return Fate::Ignored;
            }
            penalty.looks -= 1;
            return Fate::InPenalty;
        }
        let barred = match kind {
            Kind::Wrong => false,
            Kind::Right(role) => self.bars(now, number, role),
        };
        self.today[n] = self.today[n].saturating_add(1);
        self.totals[n] = LIMIT.min(self.totals[n] + 1);
        self.weighs.push((n, now + DAY));
        if let (Kind::Right(role), false) = (kind, barred) {
            self.totals[n] = 0;
            self.weighs.retain(|(who, _)| *who != n);
            if matches!(role, Role::Warden | Role::Steward) {
                self.vouched[n] = Some(now);
            }
            return Fate::Judged { right: true, barred, penalty: None };
        }
        let full = self.count() >= usize::from(self.policy.wrong_codes);
        let right = kind != Kind::Wrong;
        Fate::Judged { right, barred, penalty: full.then(|| self.start_penalty(now)) }
    }

    fn start_penalty(&mut self, now: Millis) -> u32 {
        let doubled = u64::from(self.policy.penalty.get()) << self.step.min(20);
        let lasts = u32::try_from(doubled).unwrap_or(u32::MAX).min(self.policy.penalty_cap.get());
        self.weighs.clear();
        self.step += 1;
        let until = now + Millis::from(lasts) * 1_000;
        self.eases = until + DAY;
        self.penalty = Some(Penalty { until, lasts, looks: LOOKS });
        lasts
    }
}
