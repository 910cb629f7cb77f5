//! The settings in one bank: written whole, header last, and read row by row.
//!
//! There are two banks, so that changed settings are written beside those in
//! force. Every row carries its name, the low half of its generation and a
//! check value, so that no row is ever taken for another or for an older one.
//!
//! A bank counts once its mark is touched (S8). Of two that count, the higher generation is
//! in force, and the other one is erased: replaced settings do not come back (S12).
//!
//! The record of a change stands in the new bank beside what was changed, so
//! that both become durable in one: a boot that finds it there and not in the
//! ring adds it to the ring.

use embedded_storage::nor_flash::NorFlash;
use zeroize::Zeroizing;

use super::bytes::{ERASED, Put, Take, fill, mend, seal};
use super::calendar::CalendarRows;
use super::layout::{Layout, Region, SLOT, Which};
use super::pages::{Pages, Place, Sight};
use super::policy_row;
use super::record_slot::{self, Kept};
use super::rows::{
    self, CHANGE_SLOT, FileRow, Filled, HEADER_KIND, Kind, LONG, LONG_ROWS, RowName, SHORT_ROWS,
    VERSION,
};
use super::tally_log::TallyLog;
use crate::code::LockKey;
use crate::holder::{Claimed, HolderRow, Number};
use crate::pairing::Pairing;
use crate::policy::Policy;
use crate::port::{Fault, StoreFault};
use crate::recovered::Known;
use crate::role::Role;
use crate::rules::Unreadable;
use crate::settings::{Edit, FileState, Settings};
use crate::time::Zone;

/// The bank whose settings are in force.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Bank {
    region: Region,
    generation: u32,
}

/// What an edit comes to.
pub(super) struct Rewrite<'e> {
    pub(super) edit: &'e Edit,
    /// What is said of timetable files from then on, if that changes.
    pub(super) file: Option<FileRow>,
    /// The calendar that is adopted.
    pub(super) adopted: Option<CalendarRows>,
}

impl Bank {
    /// Writes `settings` into the first bank, which must be erased. It counts
    /// once it is marked.
    pub(super) fn commission<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
        settings: &Settings,
    ) -> Result<Self, StoreFault> {
        let bank = Self { region: layout.bank(Which::First), generation: 1 };
        bank.write_rows(pages, layout, settings)?;
        bank.write_header(pages)?;
        Ok(bank)
    }

    /// Writes settings as from the factory into the first bank, which must be
    /// erased: nobody is enrolled. It counts once it is marked.
    pub(super) fn blank<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
        key: &LockKey,
    ) -> Result<Self, StoreFault> {
        let bank = Self { region: layout.bank(Which::First), generation: 1 };
        bank.forget(pages, key, None, 0)?;
        bank.write_zone(pages, Kind::Zone, FACTORY_ZONE)?;
        bank.write_file(pages, &FileRow::NONE)?;
        bank.write_header(pages)?;
        Ok(bank)
    }

    /// The bank in force, or [`Fault::Blank`] if there never was one, or
    /// [`Fault::Layout`] if it is another layout's, or [`Fault::Settings`].
    ///
    /// There never was one if both banks are erased, or if the power went while
    /// the first was written: then the second is erased, and the first has no
    /// tally beside it until its header is whole, and no mark until it has.
    pub(super) fn find<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
    ) -> Result<Result<Self, Fault>, StoreFault> {
        let [first, second] = [layout.bank(Which::First), layout.bank(Which::Second)];
        let found = [Self::header(pages, first)?, Self::header(pages, second)?];
        if let Some(bank) = found.into_iter().flatten().max_by_key(|bank| bank.generation) {
            return Ok(Ok(bank));
        }
        let unfinished = Self::unmarked(pages, first)?.is_some_and(|bank| bank.generation == 1);
        // First of all, since another layout has its tally somewhere else.
        if Self::is_of_another_layout(pages, first)? || Self::is_of_another_layout(pages, second)? {
            return Ok(Err(Fault::Layout));
        }
        let blank = pages.is_erased(second)?
            && (pages.is_erased(first)? || unfinished || !TallyLog::ever_began(pages, layout)?);
        Ok(Err(if blank { Fault::Blank } else { Fault::Settings }))
    }

    /// The bank in `region`, if it counts.
    fn header<F: NorFlash>(
        pages: &mut Pages<F>,
        region: Region,
    ) -> Result<Option<Self>, StoreFault> {
        if !pages.touched(region, place(MARK))? {
            return Ok(None);
        }
        Self::unmarked(pages, region)
    }

    /// The bank that a header in `region` speaks of, whether it counts or not.
    fn unmarked<F: NorFlash>(
        pages: &mut Pages<F>,
        region: Region,
    ) -> Result<Option<Self>, StoreFault> {
        let mut row = [0; LONG];
        if pages.look(region, place(HEADER), &mut row)? != Sight::Whole {
            return Ok(None);
        }
        let mut whole = Take::from(&row);
        whole.u32();
        let generation = whole.u32();
        let taken = HEADER.take(generation, &mut Take::from(&row));
        Ok(taken.map(|_| Self { region, generation }))
    }

    /// Rows of that generation that lie elsewhere, read and written as a bank's.
    pub(super) const fn of_rows(region: Region, generation: u32) -> Self {
        Self { region, generation }
    }

    /// Where it lies.
    pub(super) const fn region(self) -> Region {
        self.region
    }

    /// Its generation: rises with every edit.
    pub(super) const fn generation(self) -> u32 {
        self.generation
    }

    /// The other bank's region.
    const fn other(self, layout: &Layout) -> Region {
        let [first, second] = [layout.bank(Which::First), layout.bank(Which::Second)];
        if self.region.first == first.first { second } else { first }
    }

    /// Erases the bank that is not in force, if anything is in it.
    pub(super) fn clear_other<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        layout: &Layout,
    ) -> Result<(), StoreFault> {
        let other = self.other(layout);
        if pages.is_erased(other)? { Ok(()) } else { pages.erase_all(other) }
    }

    /// Writes the settings with one change into the other bank, beside the
    /// record of it. That bank is then in force, and returned.
    pub(super) fn edit<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        layout: &Layout,
        rewrite: &Rewrite<'_>,
        change: &Kept,
    ) -> Result<Self, StoreFault> {
        let generation = self.generation.checked_add(1).ok_or(StoreFault)?;
        let next = Self { region: self.other(layout), generation };
        // Erased whatever it reads: the power may have gone while it was.
        pages.erase_all(next.region)?;
        let outlives = match rewrite.edit {
            Edit::Holder(number, _) => self.spent(pages, *number),
            Edit::Commission(..) | Edit::Reset(_) => self.last_generation(pages).unwrap_or(0),
            Edit::Policy(..)
            | Edit::Pairing(_)
            | Edit::Adopt(_)
            | Edit::Wait(..)
            | Edit::Spend(_) => 0,
        };
        next.apply(pages, rewrite, outlives)?;
        if let Edit::Spend(couriers) = rewrite.edit {
            self.spend(pages, next, couriers)?;
        }
        for slot in LONG_ROWS.step_by(LONG / SLOT) {
            self.copy(pages, next, slot, LONG)?;
        }
        for slot in SHORT_ROWS {
            self.copy(pages, next, slot, SLOT)?;
        }
        let slot = Place { page: 0, slot: CHANGE_SLOT };
        pages.program(next.region, slot, &record_slot::encode(change)?)?;
        next.write_header(pages)?;
        next.mark(pages)?;
        Ok(next)
    }

    /// Writes the rows of couriers whose codes are used up into the bank `next`.
    fn spend<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        next: Self,
        couriers: &[Option<(Number, u32)>],
    ) -> Result<(), StoreFault> {
        for (number, counter) in couriers.iter().flatten() {
            let row = self.claimed(pages, *number).map_err(|Unreadable| StoreFault)?;
            let mut row = row.into_holder().ok_or(StoreFault)?;
            row.counter = row.counter.max(*counter);
            next.write_holder(pages, number.get(), Some(&row), 0)?;
        }
        Ok(())
    }

    /// Makes settings of another layout, or such as cannot be read, end, so that a
    /// first warden can be enrolled: however often it is cut short, they are what
    /// they were, or another layout's, until the second bank is erased. From then on
    /// the first one alone says so, and nothing does once that is erased.
    pub(super) fn take_over<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
    ) -> Result<(), StoreFault> {
        let [first, second] = [layout.bank(Which::First), layout.bank(Which::Second)];
        pages.erase_all(layout.tally())?;
        if !Self::is_of_another_layout(pages, first)? {
            pages.erase_all(first)?;
            let mut row = [ERASED; LONG];
            RowName { kind: Kind::Header, index: NO_LAYOUT }.put(
                Filled::Yes,
                0,
                &mut Put::into(&mut row),
            );
            seal(&mut row);
            pages.program(first, place(HEADER), &row)?;
        }
        pages.erase_all(second)
    }

    /// Whether a header of another layout stands in `region`.
    fn is_of_another_layout<F: NorFlash>(
        pages: &mut Pages<F>,
        region: Region,
    ) -> Result<bool, StoreFault> {
        let mut row = [0; LONG];
        let whole = pages.look(region, place(HEADER), &mut row)? == Sight::Whole;
        let [kind, version, ..] = row;
        Ok(whole && kind == HEADER_KIND && version != VERSION)
    }

    /// Copies a row into the bank `next`, unless it is there already. A row
    /// that cannot be read stays so: it is not made good by being copied.
    fn copy<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        next: Self,
        slot: u32,
        length: usize,
    ) -> Result<(), StoreFault> {
        let place = Place { page: 0, slot };
        if pages.touched(next.region, place)? {
            return Ok(());
        }
        let mut row = Zeroizing::new([0; LONG]);
        let row = row.get_mut(..length).ok_or(StoreFault)?;
        pages.read(self.region, place, row)?;
        if mend(row) {
            if let Some([_, _, low, high]) = row.first_chunk_mut::<4>() {
                [*low, *high] = rows::low_half(next.generation).to_le_bytes();
            }
            seal(row);
        }
        pages.program(next.region, place, row)
    }

    /// Writes the rows that an edit is about. What outlives it is how far one-time
    /// codes of that holder are used up, or the last generation of the pairing key.
    fn apply<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        rewrite: &Rewrite<'_>,
        outlives: u32,
    ) -> Result<(), StoreFault> {
        if let Some(row) = &rewrite.file {
            self.write_file(pages, row)?;
        }
        match rewrite.edit {
            Edit::Holder(number, Some(row)) => {
                let row = HolderRow { counter: row.counter.max(outlives), ..row.clone() };
                self.write_holder(pages, number.get(), Some(&row), outlives)
            }
            Edit::Holder(number, None) => self.write_holder(pages, number.get(), None, outlives),
            Edit::Policy(policy, stricter) => {
                let name = RowName::only(Kind::Policy);
                self.write(pages, name, Filled::Yes, |put| {
                    policy_row::put(policy, stricter.as_ref(), put);
                })
            }
            Edit::Pairing(pairing) => self.write_pairing(pages, Some(pairing), 0),
            Edit::Commission(key, number, row) => {
                self.forget(pages, key, Some((*number, row)), outlives)
            }
            Edit::Reset(key) => self.forget(pages, key, None, outlives),
            // The rest of it stays where it is, and the file's row names it.
            Edit::Adopt(_) => {
                let adopted = rewrite.adopted.ok_or(StoreFault)?;
                let text = adopted.zone_text(pages).map_err(|Unreadable| StoreFault)?;
                self.write_zone(pages, Kind::Zone, &text)
            }
            // All of it is in the file's row.
            Edit::Wait(..) => Ok(()),
            // Those rows are read where they stand: see `spend`.
            Edit::Spend(_) => Ok(()),
        }
    }

    /// Writes every row as from the factory, but zone and file row and, if there is
    /// to be one, the first warden.
    fn forget<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        key: &LockKey,
        warden: Option<(Number, &HolderRow)>,
        last_generation: u32,
    ) -> Result<(), StoreFault> {
        self.write(pages, RowName::only(Kind::Policy), Filled::Yes, |put| {
            policy_row::put(&Policy::DEFAULT, None, put);
        })?;
        self.write_key(pages, key)?;
        self.write_pairing(pages, None, last_generation)?;
        for number in (0..=99).filter_map(Number::new) {
            let row = warden.and_then(|(who, row)| (who == number).then_some(row));
            self.write_holder(pages, number.get(), row, 0)?;
        }
        Ok(())
    }

    /// How many holders are enrolled. A row that cannot be read is somebody's.
    fn count_enrolled<F: NorFlash>(self, pages: &mut Pages<F>) -> u8 {
        (1..=99).filter_map(Number::new).fold(0, |enrolled: u8, number| {
            let vacant = self.claimed(pages, number).is_ok_and(|row| row.holder().is_none());
            enrolled.saturating_add(u8::from(!vacant))
        })
    }

    /// How many holders are enrolled, as the header says.
    pub(super) fn enrolled<F: NorFlash>(self, pages: &mut Pages<F>) -> Result<u8, Unreadable> {
        self.read(pages, HEADER, |_, take| {
            take.u32();
            Some(take.u8())
        })
    }

    fn write_header<F: NorFlash>(self, pages: &mut Pages<F>) -> Result<(), StoreFault> {
        let (generation, enrolled) = (self.generation, self.count_enrolled(pages));
        self.write(pages, HEADER, Filled::Yes, |put| {
            put.u32(generation);
            put.u8(enrolled);
        })
    }

    /// The bank counts from here on.
    pub(super) fn mark<F: NorFlash>(self, pages: &mut Pages<F>) -> Result<(), StoreFault> {
        self.write(pages, MARK, Filled::Yes, |_| ())
    }

    /// The record of the change that made this bank, if one did.
    pub(super) fn change<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
    ) -> Result<Option<Kept>, StoreFault> {
        let (place, mut slot) = (Place { page: 0, slot: CHANGE_SLOT }, [0; SLOT]);
        let sight = pages.look(self.region, place, &mut slot)?;
        Ok(if sight == Sight::Whole { record_slot::decode(&slot) } else { None })
    }

    /// The pairing key, once there is one.
    pub(super) fn pairing<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
    ) -> Result<Option<Pairing>, Unreadable> {
        let name = RowName::only(Kind::Pairing);
        self.read(pages, name, |filled, take| match filled {
            Filled::Vacant => Some(None),
            Filled::Yes => rows::take_pairing(take).map(Some),
        })
    }

    /// The highest generation that a pairing key of this lock ever had, 0 if it had
    /// none: files and one-time codes of an old one do not come back.
    pub(super) fn last_generation<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
    ) -> Result<u32, Unreadable> {
        let name = RowName::only(Kind::Pairing);
        self.read(pages, name, |_, take| Some(rows::take_last_generation(take)))
    }

    /// What is said of timetable files.
    pub(super) fn file<F: NorFlash>(self, pages: &mut Pages<F>) -> Result<FileRow, Unreadable> {
        let name = RowName::only(Kind::File);
        self.read(pages, name, |_, take| rows::take_file(take))
    }

    /// The zone rule.
    pub(super) fn zone<F: NorFlash>(self, pages: &mut Pages<F>) -> Result<Zone, Unreadable> {
        let text = self.zone_text(pages, Kind::Zone)?;
        Zone::parse(&text).map_err(|_| Unreadable)
    }

    /// What the machine keeps in memory.
    pub(super) fn known<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        file: FileState,
    ) -> Result<Known, Unreadable> {
        let (policy, stricter) =
            self.read(pages, RowName::only(Kind::Policy), |_, take| policy_row::take(take))?;
        let zone = self.zone(pages)?;
        let key =
            self.read(pages, RowName::only(Kind::Key), |_, take| Some(rows::take_key(take)))?;
        let enrolled = self.enrolled(pages)?;
        Ok(Known { policy, stricter, enrolled, zone, key, file })
    }

    /// The zone rule as it was set. The length of the text is the row's index.
    pub(super) fn zone_text<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        kind: Kind,
    ) -> Result<heapless::String<{ crate::settings::ZONE_TEXT }>, Unreadable> {
        let at = place(RowName::only(kind));
        let mut row = [0; LONG];
        if pages.look(self.region, at, &mut row) != Ok(Sight::Whole) {
            return Err(Unreadable);
        }
        let [_, length, ..] = row;
        let name = RowName { kind, index: length };
        self.read(pages, name, |_, take| rows::take_zone(length, take))
    }

    /// The row of `number`. It takes the same work whether it is somebody's (R5).
    #[inline(never)] // one copy
    pub(super) fn claimed<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        number: Number,
    ) -> Result<Claimed, Unreadable> {
        self.read(pages, rows::holder_row(number), |filled, take| {
            let enrolled = filled == Filled::Yes;
            let mut nobody = Take::from(&rows::NOBODY);
            let fields = if enrolled { take } else { &mut nobody };
            Some(Claimed::new(rows::take_holder(fields)?, enrolled))
        })
    }

    /// How far one-time codes of that number are used up, by whoever has it or had
    /// it before: a courier who is removed and enrolled anew begins there, so that
    /// no code is good twice. Of a row that cannot be read nobody can say.
    fn spent<F: NorFlash>(self, pages: &mut Pages<F>, number: Number) -> u32 {
        let row = self.read(pages, rows::holder_row(number), |filled, take| match filled {
            Filled::Vacant => Some(rows::take_spent(take)),
            Filled::Yes => rows::take_holder(take).map(|row| row.counter),
        });
        row.unwrap_or(0)
    }

    /// Reads a row, checks that it is that one, and takes its fields. Some
    /// rows are secret, so what was read is wiped.
    pub(super) fn read<F: NorFlash, T>(
        self,
        pages: &mut Pages<F>,
        name: RowName,
        fields: impl FnOnce(Filled, &mut Take<'_>) -> Option<T>,
    ) -> Result<T, Unreadable> {
        let mut row = Zeroizing::new([0; LONG]);
        let (filled, mut take) = self.row(pages, name, &mut *row)?;
        fields(filled, &mut take).ok_or(Unreadable)
    }

    /// Reads a row into `row`, which has its length at least: whether it is vacant, and
    /// its fields.
    #[inline(never)] // one copy
    pub(super) fn row<'r, F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        name: RowName,
        row: &'r mut [u8],
    ) -> Result<(Filled, Take<'r>), Unreadable> {
        let row = row.get_mut(..name.kind.length()).ok_or(Unreadable)?;
        pages.read(self.region, place(name), row).map_err(|_| Unreadable)?;
        if !mend(row) {
            return Err(Unreadable);
        }
        let mut take = Take::from(row);
        let filled = name.take(self.generation, &mut take).ok_or(Unreadable)?;
        Ok((filled, take))
    }

    /// Writes a row and reads it back.
    pub(super) fn write<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        name: RowName,
        filled: Filled,
        fields: impl FnOnce(&mut Put<'_>),
    ) -> Result<(), StoreFault> {
        let mut row = Zeroizing::new([ERASED; LONG]);
        let row = row.get_mut(..name.kind.length()).ok_or(StoreFault)?;
        fill(row, |put| {
            name.put(filled, self.generation, put);
            fields(put);
        })?;
        pages.program(self.region, place(name), row)
    }
}

/// The zone of a lock that was never given one.
const FACTORY_ZONE: &str = "UTC0";

/// What the header of a layout that never was has for its version.
const NO_LAYOUT: u8 = 0;

/// The header; its index is the version of the layout.
const HEADER: RowName = RowName { kind: Kind::Header, index: VERSION };

/// Whether the settings would still be sensible.
pub(super) fn check(edit: &Edit) -> Result<(), StoreFault> {
    let sensible = match edit {
        Edit::Holder(number, row) => number.get() != 0 || row.is_none(),
        Edit::Policy(policy, _) => policy.check().is_ok(),
        Edit::Pairing(_) | Edit::Spend(_) => true,
        Edit::Commission(_, number, row) => number.get() != 0 && row.role == Role::Warden,
        // Whether it is the staged file's version, the store sees.
        Edit::Reset(_) | Edit::Adopt(_) | Edit::Wait(..) => true,
    };
    if sensible { Ok(()) } else { Err(StoreFault) }
}

/// What makes the header count.
const MARK: RowName = RowName { kind: Kind::Mark, index: 0 };

/// A bank's slots count on through its pages.
fn place(name: RowName) -> Place {
    Place { page: 0, slot: name.slot() }
}
