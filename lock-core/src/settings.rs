//! The settings of one lock, whole and in memory: what a store is formatted
//! with, and what a laptop prepares.
//!
//! A lock itself reads its settings row by row from its store; this form is
//! about 12 KB and meant for machines that have the room.

use crate::code::LockKey;
use crate::holder::{HolderRow, Number};
use crate::pairing::Pairing;
use crate::policy::{Policy, Stricter};
use crate::time::Steady;
use crate::timetable::Calendar;

/// Bytes of the longest zone rule that a lock can keep. The longest rule of the
/// IANA database (2026) has 45.
pub const ZONE_TEXT: usize = 48;

/// Everything that commissioning a lock sets.
///
/// No `Debug`: it holds the lock's key and digests of codes.
pub struct Settings {
    /// The policy, within its bounds.
    pub policy: Policy,
    /// The zone rule, as a POSIX TZ string that [`crate::time::Zone::parse`]
    /// accepts.
    pub zone: heapless::String<ZONE_TEXT>,
    /// The key of the digests.
    pub key: LockKey,
    /// The pairing key, once there is one.
    pub pairing: Option<Pairing>,
    /// The rows of the enrolled, indexed by number; 00 stays empty.
    pub holders: [Option<HolderRow>; Number::COUNT],
    /// The timetables, closures and special days.
    pub calendar: Calendar,
}

silent!(Settings);

/// One change of the settings: it applies whole or not at all (R6).
///
/// No `Debug`: some of them hold secrets.
pub enum Edit {
    /// A holder's row: enrolled, changed, or removed. 00 is never enrolled.
    Holder(Number, Option<HolderRow>),
    /// One-time codes are used up: the counters of one or two couriers.
    Spend([Option<(Number, u32)>; 2]),
    /// The policy, within its bounds, and what holds besides for a while.
    Policy(Policy, Option<Stricter>),
    /// A new generation of the pairing key.
    Pairing(Pairing),
    /// First commissioning: everything as from the factory, with this key of the
    /// digests, and one warden. Works on settings that were never formatted.
    Commission(LockKey, Number, HolderRow),
    /// Everybody and everything is forgotten but the audit, the zone and the last
    /// generation of the pairing key; from now on with this key of the digests (R7).
    Reset(LockKey),
    /// The timetable file of that version, which is staged or waits, is in force from
    /// now on: zone, weeks, closures and special days. If it is the staged one, an
    /// older one that waits does so no more.
    Adopt(u32),
    /// The timetable file of that version, which is staged or waits already, waits
    /// until then, and an older one no more: meanwhile windows are open only where
    /// both the timetables in force and the new ones are (R3).
    Wait(u32, Steady),
}

silent!(Edit);

/// What a lock knows of timetable files.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct FileState {
    /// The version in force; 0 before the first file.
    pub version: u32,
    /// A staged file that waits.
    pub waits: Option<Waiting>,
    /// The version of a file that waited and no longer can: it cannot be read
    /// back any more, or a new pairing key retired the one that it was sealed
    /// under. Said until another file comes.
    pub lost: Option<u32>,
}

impl FileState {
    /// No file ever came.
    pub const NONE: Self = Self { version: 0, waits: None, lost: None };
}

/// A timetable file that waits.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Waiting {
    /// Its version.
    pub version: u32,
    /// It may be adopted from then on.
    pub until: Steady,
}
