//! What a dialogue shows: what it is about, what is asked, what stands there,
//! and what is wrong with what was given.

use serde::{Deserialize, Serialize};

use super::{Stamp, Typed};
use crate::audit::Change;
use crate::code::Guessable;
use crate::holder::{Number, Opens};
use crate::role::Role;
use crate::task::Task;
use crate::timetable::Follows;

/// What a dialogue is about.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Topic {
    /// A task of the list.
    Task(Task),
    /// The first warden of a lock that is not in use yet.
    FirstWarden,
    /// A reset that no warden asks for.
    SlowReset,
}

/// Who a second person must be.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Whom {
    /// A warden.
    Warden,
    /// A steward.
    Steward,
    /// Either of them.
    Privileged,
}

impl Whom {
    /// Whether somebody of that role is meant.
    #[must_use]
    pub const fn admits(self, role: Role) -> bool {
        match self {
            Self::Warden => matches!(role, Role::Warden),
            Self::Steward => matches!(role, Role::Steward),
            Self::Privileged => role.is_privileged(),
        }
    }
}

/// What a dialogue asks for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Field {
    /// Whose number.
    Number,
    /// Which role; a numbered choice.
    Role,
    /// Whether a warden or deputy opens; a numbered choice.
    Opens,
    /// Which timetable; a numbered choice.
    Timetable,
    /// A new code.
    NewCode,
    /// The same code again.
    Again,
    /// A local date: day, month, year.
    Date,
    /// A local time: hour, minute.
    Time,
    /// Which of two instants of that local time; a numbered choice.
    Which,
    /// Which value of the policy; a numbered choice, a page at a time.
    Key {
        /// The page, from 0.
        page: u8,
    },
    /// The value, in the unit in which it is typed.
    Value {
        /// Its place in [`crate::policy::KEYS`].
        key: u8,
    },
    /// A group of the pairing code.
    Group {
        /// Which, from 0.
        index: u8,
    },
}

/// What stands in a field.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shown {
    /// Digits in clear.
    Digits {
        /// Their value.
        value: u32,
        /// How many they are, leading zeros included; 0: nothing was typed.
        count: u8,
    },
    /// Digits of a secret, as a count.
    Dots(u8),
}

/// Why something that was given cannot be.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Trouble {
    /// The number is taken.
    Taken,
    /// Nobody has the number.
    Free,
    /// Only a warden may change that holder.
    NotYours,
    /// A steward follows no timetable.
    NeverOpens,
    /// Nobody does that to themselves.
    Yourself,
    /// It is so already.
    Already,
    /// A code must have so many digits.
    CodeLength(u8),
    /// The code is easy to guess.
    Guessable(Guessable),
    /// The code's duress variant is easy to guess.
    VariantGuessable,
    /// The code is the present one, or its duress variant.
    Unchanged,
    /// The code was not typed alike twice.
    Differ,
    /// The value is out of bounds.
    OutOfBounds,
    /// Within its bounds, but another value of the policy stands against it.
    AgainstAnother,
    /// There is no such date.
    NoDate,
    /// There is no such time on that date.
    NoTime,
    /// The time is before the firmware was built, or too long after that.
    NotInItsLife,
    /// A group of the pairing code is mistyped.
    Group,
    /// The pairing code is not newer than any key that the lock had.
    OldKey,
    /// Nobody knows when a window starts: the lock must be opened first.
    NoStart,
    /// It would wait for a start of a window, which nobody knows while the clock is
    /// invalid or settling.
    ClockUnsure,
    /// It takes two people, or the opened lock.
    OpenFirst,
    /// That timetable starts no window ahead.
    NoWindow,
    /// Then nobody could ever open.
    Stuck,
    /// Somebody can open, or enrol somebody who can.
    NotStuck,
    /// The bolt must be drawn.
    DrawBolt,
    /// The service switch must be on.
    SwitchOn,
    /// A courier needs a pairing key first.
    NotPaired,
    /// A courier's role is given at enrolment only.
    Courier,
    /// There is no such choice.
    NoChoice,
    /// The pairing code is another lock's.
    OtherLock,
}

/// What is about to be done.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Gist {
    /// Nothing that needs more words than the title.
    Plain,
    /// A way out that one of several asks for alone.
    Alone,
    /// Nobody could open after that.
    Stuck,
    /// A hold-shut until then.
    Hold(Stamp),
    /// Everything on the lock is erased first.
    Erase,
    /// Something to that holder.
    Holder(Number),
    /// That holder with that role; whether they open, where the row says so (of wardens
    /// and deputies only: keyholders and couriers always do, stewards never),
    /// and what they follow, where they open.
    Row {
        /// The holder.
        number: Number,
        /// The role.
        role: Role,
        /// Whether they open.
        opens: Opens,
        /// What they follow.
        follows: Follows,
    },
    /// That holder follows that timetable.
    Follows(Number, Follows),
    /// The clock is set to that.
    Clock(Stamp),
    /// A value of the policy, in the unit in which it is typed.
    Value {
        /// Its place in [`crate::policy::KEYS`].
        key: u8,
        /// The value.
        value: u32,
    },
    /// A timetable file.
    File {
        /// Its version.
        version: u32,
        /// Its fingerprint, eight digits.
        fingerprint: u32,
    },
}

/// A line of the list of taken numbers.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Row {
    /// The number.
    pub number: Number,
    /// The holder's role.
    pub role: Role,
    /// Whether they are suspended.
    pub suspended: bool,
}

/// Holders on one page of the list of taken numbers.
pub const ROWS_A_PAGE: usize = 3;

/// What a dialogue shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// Something is asked for.
    Ask {
        /// What for.
        topic: Topic,
        /// What.
        field: Field,
        /// What stands there.
        shown: Shown,
        /// What was wrong with what was given before.
        trouble: Option<Trouble>,
    },
    /// A second person is asked for.
    Second {
        /// What for.
        topic: Topic,
        /// Who they must be.
        whom: Whom,
        /// What stands there.
        typed: Typed,
    },
    /// *OK* does it.
    Confirm {
        /// What for.
        topic: Topic,
        /// What is about to be done.
        gist: Gist,
        /// What stands against it.
        trouble: Option<Trouble>,
    },
    /// Which numbers are taken.
    Numbers {
        /// Some of them, in order.
        rows: [Option<Row>; ROWS_A_PAGE],
    },
    /// Files may be loaded and collected.
    Files,
    /// Something was changed.
    Done {
        /// What.
        change: Change,
        /// From when on it opens, if not at once.
        from: Option<Stamp>,
    },
}
