//! What a lock is set up with, as plain data.

use jiff::civil::Date;

/// One of the four timetables A–D, as 0–3.
pub(crate) type Timetable = usize;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    Warden,
    Deputy,
    Keyholder,
    Courier,
    Steward,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Follows {
    Always,
    Timetable(Timetable),
}

/// A window in minutes of local wall time, half-open; `to < from` runs past
/// midnight, `to` may be 1440.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Window {
    pub(crate) from: u32,
    pub(crate) to: u32,
}

/// Seven days, Monday first.
pub(crate) type Week = [Vec<Window>; 7];

#[derive(Clone, Debug)]
pub(crate) struct Holder {
    pub(crate) number: u8,
    pub(crate) role: Role,
    pub(crate) code: String,
    pub(crate) follows: Follows,
    /// Read for wardens and deputies only.
    pub(crate) opens: bool,
    pub(crate) suspended: bool,
}

/// Dates `from` to `to`, both inclusive.
#[derive(Clone, Debug)]
pub(crate) struct Closure {
    pub(crate) from: Date,
    pub(crate) to: Date,
    pub(crate) timetables: [bool; 4],
}

#[derive(Clone, Debug)]
pub(crate) struct Special {
    pub(crate) date: Date,
    pub(crate) timetables: [bool; 4],
    pub(crate) windows: Vec<Window>,
}

/// Section 10; `_s` is seconds, `_mv` millivolts.
#[derive(Clone, Debug)]
pub(crate) struct Policy {
    pub(crate) wrong_codes: u32,
    pub(crate) penalty_s: u64,
    pub(crate) penalty_cap_s: u64,
    pub(crate) delay_s: u64,
    pub(crate) claim_s: u64,
    pub(crate) dual_control: bool,
    pub(crate) dual_limit_s: u64,
    pub(crate) duress: bool,
    pub(crate) alarm_hold_s: u64,
    pub(crate) release_s: u64,
    pub(crate) supply_low_mv: u32,
    pub(crate) supply_spent_mv: u32,
}

impl Default for Policy {
    fn default() -> Self {
        Self {
            wrong_codes: 4,
            penalty_s: 5 * 60,
            penalty_cap_s: 40 * 60,
            delay_s: 0,
            claim_s: 3 * 60,
            dual_control: false,
            dual_limit_s: 60,
            duress: true,
            alarm_hold_s: 60,
            release_s: 6,
            supply_low_mv: 4_800,
            supply_spent_mv: 4_200,
        }
    }
}

#[derive(Clone, Debug)]
pub(crate) struct Setup {
    pub(crate) policy: Policy,
    /// A POSIX TZ rule.
    pub(crate) zone: String,
    pub(crate) holders: Vec<Holder>,
    pub(crate) timetables: [Week; 4],
    pub(crate) closures: Vec<Closure>,
    pub(crate) specials: Vec<Special>,
}

impl Setup {
    pub(crate) fn holder(&self, number: u8) -> Option<&Holder> {
        self.holders.iter().find(|holder| holder.number == number)
    }

    /// The windows that start on `date`: none on a closure, a special day's
    /// instead of the weekday's.
    pub(crate) fn windows_starting_on(&self, timetable: Timetable, date: Date) -> &[Window] {
        if self.is_closure(timetable, date) {
            return &[];
        }
        let special = self
            .specials
            .iter()
            .find(|special| special.date == date && special.timetables[timetable]);
        match special {
            Some(special) => &special.windows,
            None => {
                let weekday = date.weekday().to_monday_zero_offset();
                &self.timetables[timetable][usize::try_from(weekday).expect("0 to 6")]
            }
        }
    }

    pub(crate) fn is_closure(&self, timetable: Timetable, date: Date) -> bool {
        self.closures.iter().any(|closure| {
            closure.from <= date && date <= closure.to && closure.timetables[timetable]
        })
    }
}

/// The table of section 11, for opening.
pub(crate) fn may_open(holder: &Holder) -> bool {
    match holder.role {
        Role::Warden | Role::Deputy => holder.opens,
        Role::Keyholder | Role::Courier => true,
        Role::Steward => false,
    }
}

/// The table of section 11, for the tasks of the list.
pub(crate) fn may(role: Role, task: &str) -> bool {
    let roles: &[Role] = match task {
        "status" => return true,
        "hold-shut" => &[Role::Warden, Role::Deputy, Role::Keyholder],
        "change-code" => &[Role::Warden, Role::Deputy, Role::Keyholder, Role::Steward],
        "suspend" | "remove" | "numbers" => &[Role::Warden, Role::Deputy],
        "files" | "set-clock" => &[Role::Steward],
        "pair" => &[Role::Warden, Role::Steward],
        "enrol" | "restore" | "change-role" | "choose-timetable" | "set-policy" | "test-alarm"
        | "reset" => &[Role::Warden],
        unknown => panic!("no such task: {unknown}"),
    };
    roles.contains(&role)
}
