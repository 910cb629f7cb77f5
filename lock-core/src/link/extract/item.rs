//! What an extract tells, item after item, 20 bytes each.
//!
//! ```text
//!     record                          gap           left out    sum
//!  0  u8   1                          2             3           4
//!  1  u8   time known: 0 no, 1 yes    0             0           0
//!  2  u8   kind                       0             0           0
//!  3  u8   who                        0             0           0
//!  4  u8   second                     0             0           0
//!  5  u8   detail                     0             0           0
//!  6  u8   outcome                    0             0           0
//!  7  u8   0                          0             0           0
//!  8  u32  its number                 the first     the first   items so far
//! 12  u32  time, UTC seconds, or 0    the last      the last    the last number told
//! 16  u32  value                      how many lost 0           0
//! ```
//!
//! Kind, who, second, detail, outcome and value are those of a slot in flash
//! (`docs/flash-layout.md`).

use crate::audit::{Fields, Gap, Record, Seq};
use crate::byte_table::{Take, table};
use crate::time::Utc;

/// Bytes of an item.
pub(super) const ITEM: usize = 20;

/// What is told of a number, or of several in a row.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Item {
    /// A record, under its number.
    Record(Seq, Record),
    /// The lock has no records under these numbers.
    Gap(Gap),
    /// The lock has records under these numbers that the scope does not ask for.
    LeftOut {
        /// The first of them.
        from: Seq,
        /// The last of them.
        to: Seq,
    },
}

impl Item {
    pub(super) const fn gap(from: Seq, to: Seq, lost: u32) -> Self {
        Self::Gap(Gap { from, to, lost })
    }

    /// The first number that it tells of.
    #[must_use]
    pub const fn first(&self) -> Seq {
        match self {
            Self::Record(seq, _) => *seq,
            Self::Gap(gap) => gap.from,
            Self::LeftOut { from, .. } => *from,
        }
    }

    /// The last number that it tells of.
    #[must_use]
    pub const fn last(&self) -> Seq {
        match self {
            Self::Record(seq, _) => *seq,
            Self::Gap(gap) => gap.to,
            Self::LeftOut { to, .. } => *to,
        }
    }

    pub(super) fn write(&self) -> [u8; ITEM] {
        match self {
            Self::Record(seq, record) => {
                let fields = Fields::of(&record.event);
                let Fields { kind, who, second, detail, outcome, value } = fields;
                let known = u8::from(record.at.is_some());
                let head = [1, known, kind, who, second, detail, outcome, 0];
                put(head, [seq.0, record.at.map_or(0, Utc::as_secs), value])
            }
            Self::Gap(gap) => put(head(2), [gap.from.0, gap.to.0, gap.lost]),
            Self::LeftOut { from, to } => put(head(3), [from.0, to.0, 0]),
        }
    }

    pub(super) fn read(bytes: &[u8; ITEM]) -> Option<Self> {
        let mut take = Take::from(bytes);
        let [what, known, kind, who, second, detail, outcome, zero] = take.array();
        let (one, two, three) = (take.u32(), take.u32(), take.u32());
        let item = match what {
            1 => {
                let fields = Fields { kind, who, second, detail, outcome, value: three };
                let at = (known == 1).then_some(Utc::from_secs(two));
                Self::Record(Seq(one), Record { at, event: fields.event()? })
            }
            2 => Self::gap(Seq(one), Seq(two), three),
            3 => Self::LeftOut { from: Seq(one), to: Seq(two) },
            _ => return None,
        };
        // Every item has one form: what else is set in another was never written.
        (zero == 0 && item.write() == *bytes).then_some(item)
    }
}

/// What was told so far.
pub(super) struct Sum {
    pub(super) items: u32,
    pub(super) told: Seq,
}

impl Sum {
    pub(super) fn write(&self) -> [u8; ITEM] {
        put(head(4), [self.items, self.told.0, 0])
    }

    pub(super) fn read(bytes: &[u8; ITEM]) -> Option<Self> {
        let mut take = Take::from(bytes);
        let _: [u8; 8] = take.array();
        let sum = Self { items: take.u32(), told: Seq(take.u32()) };
        (sum.write() == *bytes).then_some(sum)
    }
}

const fn head(what: u8) -> [u8; 8] {
    [what, 0, 0, 0, 0, 0, 0, 0]
}

fn put(head: [u8; 8], numbers: [u32; 3]) -> [u8; ITEM] {
    table(|put| {
        put.bytes(&head);
        for number in numbers {
            put.u32(number);
        }
    })
}
