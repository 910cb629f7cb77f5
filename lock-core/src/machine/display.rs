//! What the screen shows: a function of the state, in one order of precedence.
//!
//! Nothing in it knows of duress, so no screen can tell of it (R4).

use super::bolt::{Access, Moment};
use super::keypad::{Attempt, Purpose, Session};
use super::step::Machine;
use crate::dialog::Dialogue;
use crate::screen::{ClockSeen, Form, Screen, Stamp, Typed};
use crate::time::{Seconds, Uptime, Utc};

/// How long a notice is shown. Ours: long enough for somebody who looked away;
/// e-paper keeps it for nothing.
const NOTICE: Seconds = Seconds::new(60);

/// Something said once.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Notice {
    screen: Screen,
    until: Uptime,
}

/// The region of the screen.
#[derive(Default)]
pub(super) struct Display {
    notice: Option<Notice>,
    shown: Option<Screen>,
}

impl Display {
    /// Says something for a while.
    #[inline(never)] // one copy
    pub(super) fn say(&mut self, screen: Screen, at: Uptime) {
        self.notice = Some(Notice { screen, until: at.after(NOTICE) });
    }

    /// What was said is over.
    pub(super) const fn hush(&mut self) {
        self.notice = None;
    }

    /// What was said is over, unless a dialogue just said it.
    pub(super) fn hush_but(&mut self, of_dialogue: bool) {
        let stays = |screen| matches!(screen, Screen::Form(_) | Screen::HoldSet { .. });
        self.notice = self.notice.filter(|notice| of_dialogue && stays(notice.screen));
    }

    /// When what was said is over.
    pub(super) fn until(&self) -> Option<Uptime> {
        self.notice.map(|notice| notice.until)
    }

    /// The screen is that one from now on; whether it was another.
    pub(super) fn turn_to(&mut self, screen: Screen) -> bool {
        self.shown.replace(screen) != Some(screen)
    }
}

impl Machine {
    /// What the screen shows at this moment.
    pub(super) fn face(&self, at: Moment) -> Screen {
        if let Session::Form(dialogue) = self.keypad.session() {
            return Screen::Form(dialogue.form());
        }
        if let Some(fault) = self.service.fault() {
            return Screen::Service(fault);
        }
        if let Some(until) = self.counts.penalty_until() {
            return Screen::Penalty { minutes: minutes_left(until, at.uptime) };
        }
        match self.keypad.session() {
            // What was said of too many digits stands there as a notice.
            Session::Rest | Session::Over(_) => {}
            Session::Entry(typing) => return Screen::Entry(typing.seen()),
            Session::List { page, .. } => return Screen::List { page: *page },
            Session::Who(task, typing) => return Screen::Who(*task, typing.seen()),
            Session::Judging(attempt) => return judging(attempt),
            Session::Form(dialogue) => return Screen::Form(dialogue.form()),
            // The screen stays as it was typed until the verdict is there.
            Session::Second(attempt, dialogue) => return second(attempt, dialogue),
        }
        match self.display.notice {
            Some(notice) => notice.screen,
            None => self.resting_face(at),
        }
    }

    fn resting_face(&self, at: Moment) -> Screen {
        match self.bolt.access() {
            Access::Released(_) => return Screen::Released { supply: self.supply.level() },
            Access::Open(open) => return Screen::Open { late: open.late },
            Access::Secured | Access::Blocked(_) | Access::Waiting(_) | Access::Claimable(_) => {}
        }
        if let Some((first, _)) = self.pair.first() {
            return Screen::SecondPerson { first };
        }
        match self.bolt.access() {
            Access::Waiting(waiting) => {
                return Screen::Waiting { minutes: minutes_left(waiting.ready, at.uptime) };
            }
            Access::Claimable(claim) => {
                return Screen::Claimable { minutes: minutes_left(claim.until, at.uptime) };
            }
            Access::Secured | Access::Blocked(_) | Access::Released(_) | Access::Open(_) => {}
        }
        if let Some(until) = self.counts.held_until() {
            let until = self.counts.shift().utc(until);
            return Screen::HeldShut { until: at.utc.map(|_| self.stamp(until)) };
        }
        if let Some(due) = self.countdowns.way_out() {
            return Screen::WayOut { hours: hours_left(due, at.uptime) };
        }
        if self.is_being_set_up() {
            return Screen::SettingUp;
        }
        let clock = if at.utc.is_some() { ClockSeen::Valid } else { ClockSeen::Invalid };
        Screen::Secured { supply: self.supply.level(), clock }
    }

    /// Local date and time of an instant.
    pub(super) fn stamp(&self, at: Utc) -> Stamp {
        self.in_force.zone().local(at).into()
    }

    /// When a countdown on the screen changes next.
    pub(super) fn countdown_changes(&self, at: Moment) -> Option<Uptime> {
        let until = match self.display.shown? {
            Screen::Penalty { .. } => self.counts.penalty_until(),
            Screen::Waiting { .. } | Screen::Claimable { .. } => match self.bolt.access() {
                Access::Waiting(waiting) => Some(waiting.ready),
                Access::Claimable(claim) => Some(claim.until),
                Access::Secured | Access::Blocked(_) | Access::Released(_) | Access::Open(_) => {
                    None
                }
            },
            Screen::WayOut { .. } => {
                let due = self.countdowns.way_out()?;
                let whole = u64::from(hours_left(due, at.uptime)).saturating_sub(1);
                let left = whole.saturating_mul(HOUR_MILLIS);
                return Some(Uptime::from_millis(due.as_millis().saturating_sub(left)));
            }
            Screen::SettingUp
            | Screen::Secured { .. }
            | Screen::Entry(_)
            | Screen::List { .. }
            | Screen::Form(_)
            | Screen::Who(..)
            | Screen::TooShort
            | Screen::TooLong
            | Screen::WrongCode { .. }
            | Screen::Refused { .. }
            | Screen::Released { .. }
            | Screen::Open { .. }
            | Screen::SecondPerson { .. }
            | Screen::HeldShut { .. }
            | Screen::HoldSet { .. }
            | Screen::Status { .. }
            | Screen::Service(_) => None,
        }?;
        let whole = u64::from(minutes_left(until, at.uptime)).saturating_sub(1);
        let left = whole.saturating_mul(MINUTE_MILLIS);
        Some(Uptime::from_millis(until.as_millis().saturating_sub(left)))
    }
}

const MINUTE_MILLIS: u64 = 60_000;
const HOUR_MILLIS: u64 = 3_600_000;

/// Hours from `now` to `until`, rounded up.
fn hours_left(until: Uptime, now: Uptime) -> u16 {
    minutes_left(until, now).div_ceil(60)
}

/// Minutes from `now` to `until`, rounded up.
#[inline(never)] // one copy
fn minutes_left(until: Uptime, now: Uptime) -> u16 {
    u16::try_from(now.minutes_until(until)).unwrap_or(u16::MAX)
}

fn second(attempt: &Attempt, dialogue: &Dialogue) -> Screen {
    let digits = u8::try_from(attempt.code.len()).unwrap_or(u8::MAX);
    match dialogue.form() {
        Form::Second { topic, whom, .. } => {
            let typed = Typed::Number(attempt.number, digits);
            Screen::Form(Form::Second { topic, whom, typed })
        }
        form @ (Form::Ask { .. }
        | Form::Confirm { .. }
        | Form::Numbers { .. }
        | Form::Files
        | Form::Done { .. }) => Screen::Form(form),
    }
}

/// A try is shown as it was typed until its verdict is there.
fn judging(attempt: &Attempt) -> Screen {
    let digits = u8::try_from(attempt.code.len()).unwrap_or(u8::MAX);
    let typed = Typed::Number(attempt.number, digits);
    match attempt.purpose {
        Purpose::Open | Purpose::Second => Screen::Entry(typed),
        Purpose::Task(task) => Screen::Who(task, typed),
    }
}
