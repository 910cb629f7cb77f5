//! The one judge (section 5), and how people are decided anew (section 6).

use super::access::{Access, Hand, Permit};
use super::lock::{Level, Model};
use super::policy::Stricter;
use super::seen::Record;
use super::setup::{Follows, Holder};

/// Why a right code gets nothing, and until when (in UTC) if that is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Refusal {
    pub(crate) why: &'static str,
    pub(crate) until: Option<i64>,
}

pub(crate) fn because(why: &'static str) -> Refusal {
    Refusal { why, until: None }
}

impl Model {
    /// Delay, dual control and deputies' rights as they are in force.
    pub(crate) fn in_force(&self) -> Stricter {
        let setup = self.setup();
        let stricter = setup.stricter.as_ref().filter(|stricter| !self.has_come(stricter.until));
        setup.policy.held(stricter)
    }

    /// Section 3's `closed`: the row waits for the start of a window.
    pub(crate) fn row_waits(&self, holder: &Holder) -> Result<(), Refusal> {
        match holder.waits {
            Some(waits) if !self.has_come(waits.until) => {
                Err(Refusal { why: "closed", until: Some(self.to_utc(waits.until)) })
            }
            Some(_) | None => Ok(()),
        }
    }

    /// May this holder be released now, and until when?
    pub(crate) fn judge(&self, holder: &Holder) -> Result<Permit, Refusal> {
        if self.sensors.inhibit {
            return Err(because("inhibit"));
        }
        if let Some(end) = self.held() {
            return Err(Refusal { why: "held-shut", until: Some(self.to_utc(end)) });
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
        if self.kept.settling {
            let left_ms = self.settles_ms.map(|at| at.saturating_sub(self.now.uptime_ms));
            let left_s = left_ms.and_then(|left| i64::try_from(left / 1_000 + 1).ok());
            let until = self.utc().zip(left_s).map(|(utc, left)| utc + left);
            return Err(Refusal { why: "settling", until });
        }
        if !self.hours().is_open(timetable, utc) {
            let until = self.hours().next_open(timetable, utc);
            return Err(Refusal { why: "closed", until });
        }
        let end = self.hours().open_until(timetable, utc);
        Ok(end.map_or(Permit::Endless, Permit::Until))
    }

    /// Somebody who has been let through before, once more: section 3's
    /// suspended, barred as a next try would be, right and closed; section 5.
    pub(crate) fn decide_again(&self, number: u8) -> Result<Permit, Refusal> {
        let Some(holder) = self.setup().holder(number) else {
            return Err(because("right"));
        };
        if self.is_barred(number) {
            Err(because("barred"))
        } else if holder.suspended {
            Err(because("suspended"))
        } else if !holder.may_open() {
            Err(because("right"))
        } else {
            self.row_waits(holder)?;
            self.judge(holder)
        }
    }

    /// After a durable change of the settings, or a setting of the clock.
    pub(crate) fn decide_people_anew(&mut self) {
        match self.access.clone() {
            Access::Waiting(wait) | Access::Claimable(wait) => {
                let in_force = self.in_force();
                let longer = in_force.delay_s > wait.delay_s;
                let alone = in_force.dual_control && wait.people.len() == 1;
                match self.permit_of_all(&wait.numbers()) {
                    Ok(permit) if !longer && !alone => {
                        if let Access::Waiting(wait) | Access::Claimable(wait) = &mut self.access {
                            wait.permit = permit;
                        }
                    }
                    Ok(_) | Err(_) => {
                        self.go(Access::Secured);
                        self.record(Record::of("cancelled").why("changed"));
                    }
                }
            }
            Access::Released { people, permit, .. } => {
                let now = self.permit_now(&people, permit);
                if let Access::Released { permit, .. } = &mut self.access {
                    *permit = now;
                }
            }
            Access::Open { people, left: Some(left), .. } => {
                let now = self.permit_now(&people, left.permit);
                if let Access::Open { left: Some(left), .. } = &mut self.access {
                    left.permit = now;
                }
            }
            Access::Open { left: None, .. } | Access::Secured => (),
        }
        if let Some(hand) = self.hand.clone() {
            let permit = self.permit_now(&hand.people, hand.permit);
            self.hand = Some(Hand { permit, ..hand });
        }
    }

    fn permit_of_all(&self, numbers: &[u8]) -> Result<Permit, Refusal> {
        let mut all = Permit::Endless;
        for number in numbers {
            all = all.earlier(self.decide_again(*number)?);
        }
        Ok(all)
    }

    /// The permit of a release or an opened lock as it would end now; as
    /// before for somebody who has no row any more, and while the clock is
    /// invalid or settles.
    pub(crate) fn permit_now(&self, people: &[u8], before: Permit) -> Permit {
        let Some(utc) = self.utc().filter(|_| !self.kept.settling) else {
            return before;
        };
        let mut all = Permit::Endless;
        for number in people {
            let permit = match self.setup().holder(*number) {
                None => before,
                Some(holder) if self.row_waits(holder).is_err() => Permit::Until(utc),
                Some(Holder { follows: Follows::Always, .. }) => Permit::Endless,
                Some(Holder { follows: Follows::Timetable(timetable), .. }) => {
                    if self.hours().is_open(*timetable, utc) {
                        let end = self.hours().open_until(*timetable, utc);
                        end.map_or(Permit::Endless, Permit::Until)
                    } else {
                        Permit::Until(utc)
                    }
                }
            };
            all = all.earlier(permit);
        }
        all
    }
}
