//! The rows of a settings bank and of a calendar, at their slots: `docs/flash-layout.md` has
//! the tables.
//!
//! Times of day are minutes since midnight. Every row is written, also where nobody is
//! enrolled or nothing is set, so that a lost row is never taken for an empty one (S12).

use super::bytes::{ERASED, Put, Take};
use super::layout::SLOT;
use crate::code::{Digest, LockKey, Salt};
use crate::holder::{HolderRow, Number, Opens, Pending, Standing};
use crate::pairing::{LockNumber, Pairing};
use crate::role::Role;
use crate::settings::{Waiting, ZONE_TEXT};
use crate::time::{Date, Steady, Weekday};
use crate::timetable::{
    Closure, FEW, Few, Follows, Special, TIMETABLES, TimetableId, Timetables, Window, Windows,
};

/// Bytes of a long row.
pub(super) const LONG: usize = 64;
/// The version of the whole layout of the flash.
pub(super) const VERSION: u8 = 4;
/// Slots of a bank.
pub(super) const BANK_SLOTS: u32 = 213;
/// Slots of a calendar.
pub(super) const CALENDAR_SLOTS: u32 = 106;
/// Regions in which a calendar can lie: one in force, one that waits, and one that
/// is newer than both.
pub(super) const CALENDARS: u8 = 3;
/// The slot of the change's record.
pub(super) const CHANGE_SLOT: u32 = 3;
/// Where the long rows begin that an edit copies, and where they end.
pub(super) const LONG_ROWS: core::ops::Range<u32> = 4..212;
/// The same of the short rows.
pub(super) const SHORT_ROWS: core::ops::Range<u32> = 212..BANK_SLOTS;
/// Rows of days.
pub(super) const DAY_ROWS: u8 = 56;

const _: () = assert!(TIMETABLES * 7 == 56, "every day has a row");

/// The kind of a header, in this layout and every other.
pub(super) const HEADER_KIND: u8 = 128;

/// A row's kind and its index among its kind.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct RowName {
    pub(super) kind: Kind,
    pub(super) index: u8,
}

/// What a row is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Kind {
    Header,
    Mark,
    Policy,
    Zone,
    Key,
    Pairing,
    Holder,
    Day,
    Closures,
    Special,
    /// The zone rule of a calendar that is not in force yet.
    CalendarZone,
    File,
}

/// Whether a row of a kind that may be empty has something in it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Filled {
    Yes,
    Vacant,
}

impl RowName {
    /// The row that its kind has only one of.
    pub(super) const fn only(kind: Kind) -> Self {
        Self { kind, index: 0 }
    }

    /// The row of the windows of `weekday` in timetable `id`.
    pub(super) fn day(id: TimetableId, weekday: Weekday) -> Self {
        let index = id.index().saturating_mul(7).saturating_add(weekday.index());
        Self { kind: Kind::Day, index: u8::try_from(index).unwrap_or(u8::MAX) }
    }

    /// The slot of its bank or calendar at which the row begins.
    pub(super) fn slot(self) -> u32 {
        let (first, stride) = match self.kind {
            Kind::Header => (0, 0),
            Kind::Mark => (2, 0),
            Kind::Policy => (4, 0),
            Kind::Zone => (6, 0),
            Kind::Key => (8, 0),
            Kind::Pairing => (10, 0),
            Kind::Holder => (12, 2),
            Kind::File => (212, 0),
            Kind::Day => (0, 1),
            Kind::Closures => (56, 1),
            Kind::Special => (72, 1),
            Kind::CalendarZone => (104, 0),
        };
        u32::from(self.index).saturating_mul(stride).saturating_add(first)
    }

    /// Begins the row.
    pub(super) fn put(self, filled: Filled, generation: u32, put: &mut Put<'_>) {
        put.u8(self.kind.number(filled));
        put.u8(self.index);
        put.u16(low_half(generation));
    }

    /// Whether it is this row that begins so, and whether it is vacant;
    /// `None` if it is another one.
    pub(super) fn take(self, generation: u32, take: &mut Take<'_>) -> Option<Filled> {
        let (kind, index) = (take.u8(), take.u8());
        if index != self.index || take.u16() != low_half(generation) {
            return None;
        }
        // Both are looked at, so that it takes the same work (R5).
        let (yes, vacant) =
            (self.kind.number(Filled::Yes) == kind, self.kind.number(Filled::Vacant) == kind);
        (yes | vacant).then_some(if yes { Filled::Yes } else { Filled::Vacant })
    }
}

impl Kind {
    /// Bytes of a row of that kind.
    pub(super) const fn length(self) -> usize {
        match self {
            Self::Header
            | Self::Policy
            | Self::Zone
            | Self::CalendarZone
            | Self::Key
            | Self::Pairing
            | Self::Holder => LONG,
            Self::Mark | Self::Day | Self::Closures | Self::Special | Self::File => SLOT,
        }
    }

    const fn number(self, filled: Filled) -> u8 {
        match (self, filled) {
            (Self::Header, _) => HEADER_KIND,
            (Self::Policy, _) => 129,
            (Self::Zone, _) => 130,
            (Self::Key, _) => 131,
            (Self::Holder, Filled::Yes) => 132,
            (Self::Holder, Filled::Vacant) => 133,
            (Self::Day, _) => 134,
            (Self::Closures, _) => 135,
            (Self::Special, Filled::Yes) => 136,
            (Self::Special, Filled::Vacant) => 137,
            (Self::Mark, _) => 138,
            (Self::Pairing, Filled::Yes) => 139,
            (Self::Pairing, Filled::Vacant) => 140,
            (Self::File, _) => 141,
            // 142 is a piece of a sealed file.
            (Self::CalendarZone, _) => 143,
        }
    }
}

pub(super) fn low_half(generation: u32) -> u16 {
    let [a, b, _, _] = generation.to_le_bytes();
    u16::from_le_bytes([a, b])
}

/// The text of the zone rule. Its length is the row's index.
pub(super) fn take_zone(length: u8, take: &mut Take<'_>) -> Option<heapless::String<ZONE_TEXT>> {
    let mut text = heapless::String::new();
    for _ in 0..length {
        text.push(char::from(take.u8())).ok()?;
    }
    Some(text)
}

pub(super) fn take_key(take: &mut Take<'_>) -> LockKey {
    LockKey::from_bytes(take.array())
}

pub(super) fn put_pairing(pairing: &Pairing, put: &mut Put<'_>) {
    put.u32(pairing.generation());
    put.bytes(pairing.key());
    put.u16(pairing.lock().get());
}

/// The last generation of the pairing key, where there is none any more.
pub(super) fn put_last_generation(generation: u32, put: &mut Put<'_>) {
    put.u32(if generation == 0 { u32::MAX } else { generation });
}

/// The same, taken back; 0: there never was one. In a row with a key it stands at
/// the same place.
pub(super) fn take_last_generation(take: &mut Take<'_>) -> u32 {
    match take.u32() {
        u32::MAX => 0,
        generation => generation,
    }
}

pub(super) fn take_pairing(take: &mut Take<'_>) -> Option<Pairing> {
    let (generation, key) = (take.u32(), take.array());
    Some(Pairing::new(LockNumber::new(take.u16())?, generation, key))
}

pub(super) fn put_holder(row: &HolderRow, put: &mut Put<'_>) {
    put.u8(match row.role {
        Role::Warden => 1,
        Role::Deputy => 2,
        Role::Keyholder => 3,
        Role::Courier => 4,
        Role::Steward => 5,
    });
    put.u8(match row.opens {
        Opens::No => 0,
        Opens::Yes => 1,
    });
    put.u8(match row.standing {
        Standing::Suspended => 0,
        Standing::Active => 1,
    });
    put.u8(row.follows.number());
    put.bytes(row.salt.as_bytes());
    put.bytes(row.digest.as_bytes());
    put.u32(row.counter);
    put.u8(u8::from(row.pending.is_some()));
    let Pending { made, from, held } =
        row.pending.unwrap_or(Pending { made: NEVER, from: NEVER, held: None });
    put.u32(from.as_secs());
    put.u32(made.as_secs());
    put.u8(held.map_or(ERASED, Follows::number));
}

/// What stands where no time does.
const NEVER: Steady = Steady::from_secs(u32::MAX);

/// Where the counter lies in a row of a holder, from its fields on.
const BEFORE_COUNTER: usize = 36;

/// The counter of one-time codes that a vacant row keeps.
pub(super) fn put_spent(counter: u32, put: &mut Put<'_>) {
    put.bytes(&[ERASED; BEFORE_COUNTER]);
    put.u32(counter);
}

/// The counter that a vacant row keeps; erased: none was used.
pub(super) fn take_spent(take: &mut Take<'_>) -> u32 {
    let _: [u8; BEFORE_COUNTER] = take.array();
    match take.u32() {
        u32::MAX => 0,
        counter => counter,
    }
}

/// The fields of a row that nobody has: read in place of a vacant row, so that it
/// takes the same work whether a number is somebody's (R5).
pub(super) const NOBODY: [u8; 50] = {
    let mut fields = [0; 50];
    fields[0] = 3;
    // Nothing held before, as in a row behind which nothing waits.
    fields[49] = ERASED;
    fields
};

pub(super) fn take_holder(take: &mut Take<'_>) -> Option<HolderRow> {
    // Looked up and not asked for one by one: the same work for everybody (R5).
    let [role, opens, standing, follows] = take.array().map(usize::from);
    Some(HolderRow {
        role: *Role::ALL.get(role.checked_sub(1)?)?,
        opens: *[Opens::No, Opens::Yes].get(opens)?,
        standing: *[Standing::Suspended, Standing::Active].get(standing)?,
        follows: *Follows::ALL.get(follows)?,
        salt: Salt::from_bytes(take.array()),
        digest: Digest::from_bytes(take.array()),
        counter: take.u32(),
        pending: take_pending(take)?,
    })
}

fn take_pending(take: &mut Take<'_>) -> Option<Option<Pending>> {
    let (waits, from, made) = (take.u8(), take.u32(), take.u32());
    let held = match take.u8() {
        ERASED => None,
        follows => Some(*Follows::ALL.get(usize::from(follows))?),
    };
    let pending = Pending { made: Steady::from_secs(made), from: Steady::from_secs(from), held };
    match waits {
        0 => Some(None),
        1 => Some(Some(pending)),
        _ => None,
    }
}

pub(super) fn put_windows(windows: &Windows, put: &mut Put<'_>) {
    // At most five, so never more than a byte holds.
    put.u8(u8::try_from(windows.len()).unwrap_or(0));
    for window in windows {
        put.bytes(&window.to_bytes());
    }
}

/// Reads windows behind those that are there.
pub(super) fn take_windows(take: &mut Take<'_>, windows: &mut Windows) -> Option<()> {
    for _ in 0..take.u8() {
        windows.push(Window::from_bytes(take.array())?).ok()?;
    }
    Some(())
}

pub(super) fn put_closures(closures: &[Closure], put: &mut Put<'_>) {
    for closure in closures {
        put.u16(closure.from.days());
        put.u16(closure.to.days());
        put.u8(closure.timetables.bits());
        put.u8(1);
    }
    for _ in closures.len()..FEW {
        put.bytes(&[ERASED; 5]);
        put.u8(0);
    }
}

/// Reads the closures of a row; fewer than a row holds means that they end here.
pub(super) fn take_closures(take: &mut Take<'_>, closures: &mut Few) -> Option<()> {
    for _ in 0..FEW {
        let (from, to) = (Date::from_days(take.u16()), Date::from_days(take.u16()));
        let timetables = Timetables::from_bits(take.u8());
        match take.u8() {
            0 => break,
            1 => closures.push(Closure { from, to, timetables }).ok()?,
            _ => return None,
        }
    }
    Some(())
}

pub(super) fn put_special(special: &Special, put: &mut Put<'_>) {
    put.u16(special.date.days());
    put.u8(special.timetables.bits());
    put_windows(&special.windows, put);
}

pub(super) fn take_special(
    take: &mut Take<'_>,
    windows: &mut Windows,
) -> Option<(Date, Timetables)> {
    let date = Date::from_days(take.u16());
    let timetables = Timetables::from_bits(take.u8());
    take_windows(take, windows)?;
    Some((date, timetables))
}

/// What the bank says of timetable files.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct FileRow {
    /// The version in force; 0 for none.
    pub(super) version: u32,
    /// The calendar in force; without one nothing is open by any timetable.
    pub(super) calendar: Option<CalendarAt>,
    pub(super) staged: Staged,
}

/// Where a calendar lies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct CalendarAt {
    /// Which of the regions for calendars, below [`CALENDARS`].
    pub(super) region: u8,
    /// The generation of its rows.
    pub(super) generation: u32,
}

impl CalendarAt {
    fn of(region: u8, generation: u32) -> Option<Self> {
        (region < CALENDARS).then_some(Self { region, generation })
    }
}

/// What the bank says of the file that is to come.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Staged {
    /// Nothing.
    Nothing,
    /// It waits.
    Waits {
        waiting: Waiting,
        /// Where its calendar lies.
        at: CalendarAt,
    },
    /// That version waited, and no longer can.
    Lost(u32),
}

impl FileRow {
    /// No file ever came, and no calendar.
    pub(super) const NONE: Self = Self { version: 0, calendar: None, staged: Staged::Nothing };

    /// The file that waits, and where.
    pub(super) const fn waits(&self) -> Option<(Waiting, CalendarAt)> {
        match self.staged {
            Staged::Waits { waiting, at } => Some((waiting, at)),
            Staged::Nothing | Staged::Lost(_) => None,
        }
    }

    /// Whether a calendar in that region counts.
    pub(super) fn names(&self, region: u8) -> bool {
        let waits = self.waits().map(|(_, at)| at.region);
        waits == Some(region) || self.calendar.is_some_and(|at| at.region == region)
    }
}

pub(super) fn put_file(row: &FileRow, put: &mut Put<'_>) {
    put.u32(row.version);
    let (waits, version, until) = match row.staged {
        Staged::Nothing => (0, u32::MAX, u32::MAX),
        Staged::Waits { waiting, .. } => (1, waiting.version, waiting.until.as_secs()),
        Staged::Lost(version) => (2, version, u32::MAX),
    };
    let nowhere = CalendarAt { region: ERASED, generation: u32::MAX };
    let at = row.calendar.unwrap_or(nowhere);
    let to_come = row.waits().map_or(nowhere, |(_, at)| at);
    put.bytes(&[at.region, waits, to_come.region, ERASED]);
    put.u32(version);
    put.u32(until);
    put.u32(at.generation);
    put.u32(to_come.generation);
}

pub(super) fn take_file(take: &mut Take<'_>) -> Option<FileRow> {
    let version = take.u32();
    let [region, waits, to_come, _] = take.array();
    let (other, until) = (take.u32(), take.u32());
    let calendar = CalendarAt::of(region, take.u32());
    let staged = match waits {
        0 => Staged::Nothing,
        1 => {
            let waiting = Waiting { version: other, until: Steady::from_secs(until) };
            Staged::Waits { waiting, at: CalendarAt::of(to_come, take.u32())? }
        }
        2 => Staged::Lost(other),
        _ => return None,
    };
    Some(FileRow { version, calendar, staged })
}

/// The index of the row of holder `number`.
pub(super) const fn holder_row(number: Number) -> RowName {
    RowName { kind: Kind::Holder, index: number.get() }
}

const _: () = assert!(SLOT * 2 == LONG);
