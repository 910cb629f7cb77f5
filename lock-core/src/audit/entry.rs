//! What a list of the audit consists of: records, and what is missing between
//! them.

use serde::{Deserialize, Serialize};

use super::record::{Record, Seq};

/// An item of a list. The numbers of consecutive items follow one another.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Entry {
    /// A record, under its number.
    Record(Seq, Record),
    /// Numbers under which no record is listed.
    Gap(Gap),
}

/// Numbers under which no record is listed.
///
/// A full ring overwrites its oldest records, and the two rings fill at
/// different paces, so a range may be missing for no other reason. What is
/// *lost* besides was being written when the power failed, or cannot be read
/// any more.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Gap {
    /// The first of them.
    pub from: Seq,
    /// The last of them.
    pub to: Seq,
    /// How many of them are lost; the others were overwritten.
    pub lost: u32,
}

impl Entry {
    /// The number of the record, or the last number of the gap.
    #[must_use]
    pub const fn last(&self) -> Seq {
        match self {
            Self::Record(seq, _) => *seq,
            Self::Gap(gap) => gap.to,
        }
    }

    /// The record, if it is one.
    #[must_use]
    pub const fn record(&self) -> Option<(Seq, Record)> {
        match self {
            Self::Record(seq, record) => Some((*seq, *record)),
            Self::Gap(_) => None,
        }
    }
}
