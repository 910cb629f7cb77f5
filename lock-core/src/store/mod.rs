//! What outlives a power cut: settings, tally and audit, in NOR flash.
//!
//! Regions of whole pages ([`Layout`]): the settings in two banks, the tally as a
//! log with a checkpoint at the head of each page, the audit in two rings, room for
//! one sealed timetable file, and three calendars. Everything lies in blocks of fixed length whose check value comes
//! last; the byte tables stand in the modules and in `docs/flash-layout.md`.
//! What is in flash is programmed once between two erases, so that flash with
//! a check code a word serves too.
//!
//! *`Ok` means durable and read back.* After a failure the store looks at the
//! flash anew before the next write, because a write that failed may have
//! reached it all the same.
//!
//! *A write to the audit never erases.* A page that is used up has the page
//! after it erased already: that is done by [`Store::tend`], when nothing is
//! left to do for anybody. Until it is done, a write that would need the page
//! is refused, and with it the opening.
//!
//! # What a power cut cannot do
//! Whatever it tears, and wherever it falls again during the boots that follow
//! (`docs/power-loss.md` has the fault model and what was tried): a boot finds
//! all that was reported durable, and the one write that was under way whole or
//! not at all; what one boot has found and acted upon, every later boot finds.
//! The reasons stand where they are used: `pages.rs` (looks that agree, touched
//! stays touched), `ring.rs` (the newest record is written again), `tally_log.rs`
//! and `bank.rs` (a page or bank counts once something stands behind it).

mod audit_log;
mod bank;
mod bank_rows;
mod beginning;
mod boot;
mod bytes;
mod calendar;
mod filing;
mod layout;
mod memo;
mod pages;
mod policy_row;
mod ram;
mod record_slot;
mod ring;
mod rows;
mod staging;
mod tally_log;
mod tally_slot;
#[cfg(test)]
mod tests;
mod walk;

use embedded_storage::nor_flash::NorFlash;

use self::audit_log::AuditLog;
use self::bank::{Bank, Rewrite};
use self::calendar::CalendarRows;
use self::filing::{Filing, narrow};
use self::memo::Memo;
use self::pages::{Ahead, Pages};
use self::record_slot::Kept;
use self::ring::TallyStands;
use self::staging::Staging;
use self::tally_log::TallyLog;
use crate::audit::{Entry, Record, Seq};
use crate::code::{Claim, Digest, Keeper, KeyInFlash, LockKey, Message};
use crate::holder::{Claimed, HolderRow, Number};
use crate::link::{FileFault, Fingerprint, Version};
use crate::pairing::Pairing;
use crate::port::{Fault, Reads, Store, StoreFault, Upkeep, Write};
use crate::recovered::Recovered;
use crate::rules::{Days, Unreadable};
use crate::seal::CHUNK;
use crate::settings::{Edit, FileState};
use crate::time::{Date, Zone};
use crate::timetable::{Day, TimetableId};

pub use self::audit_log::Records;
pub use self::beginning::FormatError;
pub use self::layout::{Layout, OPENINGS_KEPT, REFUSALS_KEPT, SLOT};
pub use self::ram::{Ram, RamStore};

/// The store in a flash, and with it whatever keeps the lock key.
pub struct FlashStore<F, K = KeyInFlash> {
    pages: Pages<F>,
    keeper: K,
    layout: Layout,
    bank: Result<Bank, Fault>,
    audit: AuditLog,
    tally: Option<TallyLog>,
    memo: Memo,
    /// The bank that is not in force.
    spare: Ahead,
    staging: Staging,
    filing: Filing,
    footing: Footing,
}

/// Whether what the store remembers of the flash can be built on.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Footing {
    Sound,
    /// A write failed, or a mount found no settings and left all as it was:
    /// look at the flash first.
    Stale,
    /// The layout does not fit the flash; nothing is ever written.
    Misfit,
}

impl<F: NorFlash> FlashStore<F> {
    /// Takes up what lies in the flash, whatever it is (R7).
    ///
    /// In a lock that was commissioned, what was found is made to hold for good
    /// before this returns ([`Layout::boot_steps`] bounds the work). A flash
    /// without a commissioned lock is left as it is.
    pub fn mount(flash: F, layout: Layout) -> (Self, Recovered) {
        let mut store = Self::at_rest(flash, layout);
        let found = store.remount();
        (store, found)
    }

    /// A store that has not looked at its flash yet: [`FlashStore::remount`] it
    /// first. For machines that have no room for a store on their stack, to build
    /// it where it is to stay.
    pub fn at_rest(flash: F, layout: Layout) -> Self {
        Self::at_rest_with(flash, layout, KeyInFlash)
    }
}

impl<F: NorFlash, K: Keeper> FlashStore<F, K> {
    /// As [`FlashStore::at_rest`], of a lock whose key is kept elsewhere. Such a lock is
    /// commissioned at its keypad.
    pub fn at_rest_with(flash: F, layout: Layout, keeper: K) -> Self {
        Self {
            pages: Pages(flash),
            keeper,
            layout,
            bank: Err(Fault::Settings),
            audit: AuditLog::empty(&layout),
            tally: None,
            memo: Memo::NEW,
            spare: Ahead::Due,
            staging: Staging::nothing(layout.staging()),
            filing: Filing::NOTHING,
            footing: Footing::Misfit,
        }
    }

    /// As [`FlashStore::mount`] does, in place.
    pub fn remount(&mut self) -> Recovered {
        if !self.layout.fits(F::ERASE_SIZE, self.pages.0.capacity()) {
            return Recovered::nothing(Fault::Settings);
        }
        self.footing = Footing::Stale;
        let ground = self.take_up();
        self.recovered(ground)
    }

    /// Gives the flash back.
    pub fn into_flash(self) -> F {
        self.pages.0
    }

    /// The flash, to look at or to have it fail.
    pub const fn flash_mut(&mut self) -> &mut F {
        &mut self.pages.0
    }

    /// The audit from number `from` on, in order, gaps included.
    pub fn records(&mut self, from: Seq) -> Records<'_, F> {
        self.audit.records(&mut self.pages, from)
    }

    /// The newest record.
    pub fn newest(&mut self) -> Option<(Seq, Record)> {
        self.audit.newest()
    }

    /// Makes what was found hold for good, before anybody acts on it.
    fn settle(&mut self) -> Result<(), StoreFault> {
        // The newest record is not in the memo yet, which is right: nothing
        // may be concluded from it before it was written again.
        self.save_memo()?;
        // The newest record says again which page of the tally is in force, and
        // before another one may be begun: so it is never far behind, however
        // many boots come to nothing else.
        let fill = self.tally.as_ref().and_then(TallyLog::fill);
        let stands = TallyStands { tally: self.said_of_tally(), fill };
        self.audit.settle(&mut self.pages, stands)?;
        if let Some(tally) = &mut self.tally {
            tally.settle(&mut self.pages, &self.memo)?;
        }
        self.see_newest();
        let change = match self.bank {
            Ok(bank) => bank.change(&mut self.pages)?,
            Err(_) => None,
        };
        // The power failed between a change and its record in the ring.
        let newest = self.audit.newest().map_or(Seq(0), |(seq, _)| seq);
        let change = change.filter(|change| change.seq > newest);
        if let Some(change) = change {
            self.memo.next = change.seq;
        }
        self.erase_due()?;
        if let Some(change) = change {
            // Under the numbers it was to have: a torn slot behind the newest
            // record is its own.
            self.record(&Kept { tally: self.said_of_tally(), ..change })?;
        }
        self.memo.next = self.memo.next.max(self.audit.next());
        self.footing = Footing::Sound;
        Ok(())
    }

    /// Takes the newest record into account, and the numbers behind it.
    fn see_newest(&mut self) {
        if let Some((seq, record)) = self.audit.newest()
            && seq >= self.memo.next
        {
            self.memo.see(seq, &record);
        }
        self.memo.next = self.memo.next.max(self.audit.next());
    }

    /// Has a checkpoint keep the memo, if what is due to be erased is still
    /// needed to conclude it.
    fn save_memo(&mut self) -> Result<(), StoreFault> {
        if let Some(tally) = &mut self.tally
            && self.audit.would_lose(&mut self.pages, tally.saved())?
        {
            tally.turn(&mut self.pages, &self.memo)?;
        }
        Ok(())
    }

    /// A record under its numbers, which are then given.
    fn numbered(&self, seq: Seq, record: &Record) -> Result<Kept, StoreFault> {
        // The last number is never given: none could follow it.
        if seq.0 == u32::MAX {
            return Err(StoreFault);
        }
        let ordinal = self.audit.next_ordinal(record.event.ring()).ok_or(StoreFault)?;
        let (tally, record) = (self.said_of_tally(), *record);
        Ok(Kept { seq, ordinal, generation: 0, tally, copied: None, record })
    }

    /// What a record says of the tally. Of one that is lost each says again what
    /// it was, so that an older page is not believed at a later boot.
    fn said_of_tally(&self) -> u8 {
        match &self.tally {
            Some(log) => log.generation().low_byte(),
            None => self.audit.tally().unwrap_or(0),
        }
    }

    fn record(&mut self, kept: &Kept) -> Result<(), StoreFault> {
        self.audit.push(&mut self.pages, kept)?;
        self.memo.see(kept.seq, &kept.record);
        Ok(())
    }

    fn erase_due(&mut self) -> Result<(), StoreFault> {
        self.save_memo()?;
        let audit = self.audit.tend(&mut self.pages);
        let tally = match &mut self.tally {
            Some(tally) => tally.tend(&mut self.pages),
            None => Ok(()),
        };
        let bank = match (self.bank, self.spare) {
            (Ok(bank), Ahead::Due) => bank.clear_other(&mut self.pages, &self.layout),
            (Ok(_), Ahead::Blank) | (Err(_), _) => Ok(()),
        };
        if bank.is_ok() {
            self.spare = Ahead::Blank;
        }
        audit.and(tally).and(bank)
    }

    fn is_due(&self) -> bool {
        let tally = self.tally.as_ref().is_some_and(TallyLog::is_due);
        let bank = self.bank.is_ok() && self.spare == Ahead::Due;
        self.audit.is_due() || tally || bank || (self.bank.is_ok() && self.is_filing_due())
    }

    /// The ground is firm, or is made so.
    fn stand(&mut self) -> Result<(), StoreFault> {
        match self.footing {
            Footing::Sound => Ok(()),
            Footing::Stale => {
                self.look()?;
                // What is there may be somebody else's, or nothing is: hands off.
                if matches!(self.bank, Err(Fault::Blank | Fault::Layout)) {
                    return Err(StoreFault);
                }
                self.settle()
            }
            Footing::Misfit => Err(StoreFault),
        }
    }

    /// Makes a write durable on sound ground.
    #[inline(never)] // own frame
    fn push(&mut self, write: &Write) -> Result<(), StoreFault> {
        if let Write::Record(record) = write
            && !self.audit.has_room::<F>(record.event.ring())
        {
            return Err(StoreFault);
        }
        self.footing = Footing::Stale;
        match write {
            Write::Tally(entry) => {
                let tally = self.tally.as_mut().ok_or(StoreFault)?;
                tally.push(&mut self.pages, *entry, &self.memo)?;
            }
            Write::Record(record) => self.record(&self.numbered(self.memo.next, record)?)?,
            // Comes with its edit only.
            Write::Edit(_) => return Err(StoreFault),
        }
        self.footing = Footing::Sound;
        Ok(())
    }

    /// Makes an edit durable on sound ground.
    #[inline(never)] // own frame
    fn rewrite(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
        let bank = self.bank.map_err(|_| StoreFault)?;
        if !self.audit.has_room::<F>(record.event.ring()) {
            return Err(StoreFault);
        }
        let change = self.numbered(self.memo.next, record)?;
        let file = self.row_after(edit)?;
        let adopted = file.and_then(|row| row.calendar);
        let adopted = adopted.map(|at| CalendarRows::at(&self.layout, at));
        let rewrite = Rewrite { edit, file, adopted };
        self.footing = Footing::Stale;
        self.spare = Ahead::Due;
        self.bank = Ok(bank.edit(&mut self.pages, &self.layout, &rewrite, &change)?);
        self.filed_anew(edit, file);
        self.record(&change)?;
        self.footing = Footing::Sound;
        Ok(())
    }
}

impl<F: NorFlash, K: Keeper> Days for FlashStore<F, K> {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        let mut day = self.day_held(id, date)?;
        if self.to_come().is_some() {
            narrow(&mut day, &self.day_to_come(id, date)?);
        }
        Ok(day)
    }
}

impl<F: NorFlash, K: Keeper> Reads for FlashStore<F, K> {
    #[inline(never)] // one copy
    fn digest(&mut self, key: &LockKey, claim: Claim<'_>) -> Result<Digest, Unreadable> {
        let message = Message::of(claim.salt, claim.number, claim.code);
        self.keeper.mac(key, &message).map(Digest::cut).map_err(|_| Unreadable)
    }

    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        self.claimed(n).map(Claimed::into_holder)
    }

    fn claimed(&mut self, n: Number) -> Result<Claimed, Unreadable> {
        self.bank.map_err(|_| Unreadable)?.claimed(&mut self.pages, n)
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        self.bank.map_err(|_| Unreadable)?.enrolled(&mut self.pages)
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        self.bank.map_err(|_| Unreadable)?.pairing(&mut self.pages)
    }

    fn newest_seq(&mut self) -> Option<Seq> {
        self.audit.newest().map(|(seq, _)| seq)
    }

    fn zone(&mut self) -> Result<Zone, Unreadable> {
        self.bank.map_err(|_| Unreadable)?.zone(&mut self.pages)
    }

    fn last_generation(&mut self) -> Result<u32, Unreadable> {
        self.bank.map_err(|_| Unreadable)?.last_generation(&mut self.pages)
    }

    fn file_state(&mut self) -> Result<FileState, Unreadable> {
        self.filed()
    }

    fn day_to_come(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        match self.to_come() {
            Some(rows) => rows.day(&mut self.pages, id, date),
            None => self.day_held(id, date),
        }
    }

    fn day_in_force(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.day_held(id, date)
    }

    fn zone_to_come(&mut self) -> Result<Zone, Unreadable> {
        match self.to_come() {
            Some(rows) => rows.zone(&mut self.pages),
            None => self.zone(),
        }
    }
}

impl<F: NorFlash, K: Keeper> Store for FlashStore<F, K> {
    fn write(&mut self, write: &Write) -> Result<(), StoreFault> {
        self.stand()?;
        self.push(write)
    }

    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
        bank::check(edit)?;
        if let Edit::Commission(key, _, _) = edit {
            self.begin(key)?;
        }
        self.stand()?;
        self.rewrite(edit, record)
    }

    fn stage(&mut self, index: u8, bytes: &[u8]) -> Result<(), StoreFault> {
        self.push_piece(index, bytes)
    }

    fn staged_chunk(&mut self, index: u8, buf: &mut [u8; CHUNK]) -> Option<usize> {
        self.staging.read(&mut self.pages, index, buf)
    }

    fn staged(&mut self) -> Result<(Version, Fingerprint), FileFault> {
        self.open_staged()
    }

    fn staged_day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.opened().ok_or(Unreadable)?.day(&mut self.pages, id, date)
    }

    fn staged_zone(&mut self) -> Result<Zone, Unreadable> {
        self.opened().ok_or(Unreadable)?.zone(&mut self.pages)
    }

    fn entry(&mut self, from: Seq) -> Option<Entry> {
        self.records(from).next()
    }

    fn tend(&mut self) -> Result<Upkeep, StoreFault> {
        match self.footing {
            Footing::Sound if self.is_due() => {
                let done = self.erase_due().and(self.clear_files());
                if done.is_err() {
                    // A page of the tally may be begun and not count.
                    self.footing = Footing::Stale;
                }
                done.map(|()| Upkeep::Done)
            }
            // Nothing can be due where the ground is to be looked at first.
            Footing::Sound | Footing::Stale | Footing::Misfit => Ok(Upkeep::None),
        }
    }
}
