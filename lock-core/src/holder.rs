//! Who holds a code: numbers, and the row that the lock keeps for each.

use serde::{Deserialize, Serialize};

use crate::code::{Digest, Kept, Salt};
use crate::policy::Deputies;
use crate::role::{Grant, Right, Role, grant};
use crate::time::Steady;
use crate::timetable::Follows;

/// A number as typed before a code: 00 to 99.
///
/// Holders are numbered 01 to 99 (ours: two digits). 00 can be
/// typed and its wrong tries are counted like any other number's, but nobody
/// is ever enrolled under it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct Number(u8);

impl Number {
    /// How many numbers can be typed: 00 to 99.
    pub const COUNT: usize = 100;

    /// The number `n`, or `None` above 99.
    #[must_use]
    pub const fn new(n: u8) -> Option<Self> {
        if n <= 99 { Some(Self(n)) } else { None }
    }

    /// The number itself, 0 to 99.
    #[must_use]
    pub const fn get(self) -> u8 {
        self.0
    }

    /// The number as an index below [`Number::COUNT`].
    #[must_use]
    pub fn index(self) -> usize {
        usize::from(self.0)
    }
}

/// A number above 99 arrived from outside.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotANumber;

impl core::fmt::Display for NotANumber {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("numbers go from 00 to 99")
    }
}

impl TryFrom<u8> for Number {
    type Error = NotANumber;

    fn try_from(n: u8) -> Result<Self, NotANumber> {
        Self::new(n).ok_or(NotANumber)
    }
}

impl From<Number> for u8 {
    fn from(n: Number) -> Self {
        n.0
    }
}

/// Whether a holder may act at all.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Standing {
    /// As the role says.
    Active,
    /// Nothing, until a warden restores them.
    Suspended,
}

/// What the row of a warden or deputy says about opening.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Opens {
    /// May not open.
    No,
    /// May open.
    Yes,
}

/// A row that waits: its holder opens nothing before then, or before the lock is
/// opened (R3).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pending {
    /// When the row was made to wait.
    pub made: Steady,
    /// It holds from then on.
    pub from: Steady,
    /// What the holder's openings followed before; `None` for somebody who could
    /// not open. A change back to that waits for nothing.
    pub held: Option<Follows>,
}

/// What the lock keeps of one holder: never a name, never a code.
///
/// No `Debug`: the digest is derived from a code.
#[derive(Clone)]
pub struct HolderRow {
    /// What the holder is to the lock.
    pub role: Role,
    /// Whether the row grants opening, where the role leaves it to the row.
    pub opens: Opens,
    /// Whether the holder may act at all.
    pub standing: Standing,
    /// What the holder's openings follow.
    pub follows: Follows,
    /// The salt of the code's digest.
    pub salt: Salt,
    /// The code's digest.
    pub digest: Digest,
    /// What the row waits for, if it widened what its holder may do while the bolt
    /// was thrown (R3). `None`: it holds as it stands.
    pub pending: Option<Pending>,
    /// The counter of the next one-time code (a courier's; RFC 4226). It never
    /// falls: a number that was a courier's keeps it, also while nobody has it.
    pub counter: u32,
}

silent!(HolderRow);

impl HolderRow {
    /// Whether this holder has that right, by role, row and what deputies may do.
    #[must_use]
    pub fn may(&self, right: Right, deputies: Deputies) -> bool {
        match grant(self.role, right) {
            Grant::Never => false,
            Grant::IfRowSays => self.opens == Opens::Yes,
            Grant::IfDeputies(least) => deputies >= least,
            Grant::Always => true,
        }
    }

    /// Whether this holder may open, by role and row.
    #[must_use]
    pub fn may_open(&self) -> bool {
        // Whatever deputies may do to others, nobody opens by it.
        self.may(Right::Open, Deputies::Suspend)
    }
}

/// The row of a number as it is read to judge a code: somebody's, or what stands
/// in for it where nobody has the number.
///
/// There is a row in any case, so that it takes the same work whether anybody is
/// enrolled (R5). Nobody acts by it before the code was judged.
///
/// No `Debug`: it holds a row.
#[derive(Clone)]
pub struct Claimed {
    row: HolderRow,
    enrolled: bool,
}

silent!(Claimed);

impl Claimed {
    /// Nobody has the number. Neither salt nor digest is secret: what comes of
    /// them is void and shows nowhere.
    pub const NOBODY: Self = Self {
        row: HolderRow {
            role: Role::Keyholder,
            opens: Opens::No,
            standing: Standing::Suspended,
            follows: Follows::Always,
            salt: Salt::from_bytes([0; Salt::LEN]),
            digest: Digest::from_bytes([0; Digest::LEN]),
            pending: None,
            counter: 0,
        },
        enrolled: false,
    };

    /// A row, and whether it is somebody's.
    #[must_use]
    pub const fn new(row: HolderRow, enrolled: bool) -> Self {
        Self { row, enrolled }
    }

    /// The row, whether it is anybody's or not.
    #[must_use]
    pub const fn row(&self) -> &HolderRow {
        &self.row
    }

    /// What a code is judged by.
    #[must_use]
    pub const fn kept(&self) -> Kept<'_> {
        Kept { salt: &self.row.salt, digest: &self.row.digest, enrolled: self.enrolled }
    }

    /// Whether it is somebody's of that role.
    #[must_use]
    pub fn is(&self, role: Role) -> bool {
        // Not cut short, so that it takes the same work.
        self.enrolled & (self.row.role == role)
    }

    /// The row, if it is somebody's.
    #[must_use]
    pub fn holder(&self) -> Option<&HolderRow> {
        self.enrolled.then_some(&self.row)
    }

    /// The same, for good.
    #[must_use]
    pub fn into_holder(self) -> Option<HolderRow> {
        self.enrolled.then_some(self.row)
    }
}

impl From<Option<HolderRow>> for Claimed {
    fn from(row: Option<HolderRow>) -> Self {
        row.map_or(Self::NOBODY, |row| Self::new(row, true))
    }
}
