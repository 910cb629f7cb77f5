//! What outlives a power cut: settings, tally and audit, in NOR flash.
//!
//! This page specifies the store: its words, what always holds (S1 to S16), what each call
//! guarantees when it returns, and what a failure does. Which byte lies where is in
//! `docs/flash-layout.md`; the fault model and what was tried, in `docs/power-loss.md`;
//! the reasons, in `docs/decisions/006-what-stands-behind.md`.
//!
//! # Words
//!
//! | word | meaning |
//! | --- | --- |
//! | word, page | What the flash programs, and what it erases, at once. Programming clears bits, erasing a page sets all of them. |
//! | region | A run of whole pages ([`Layout`]): two settings banks, the tally, two rings, staging, three calendars. |
//! | slot | [`SLOT`] bytes. A page is slots; words divide a slot. |
//! | block | One or more slots of fixed fields whose last four bytes are a check value over the rest: a record, an entry, a checkpoint, a row, a piece of a file. It is programmed in rising order, its check value last. |
//! | look | One read. *Looks agree* if all of three read alike. |
//! | blank, touched | Nothing was ever programmed there since the erase; anything was, be it a part. Where it decides something, sixteen looks in a row must find a block blank. |
//! | whole, torn | Three looks agree and the check value is right, perhaps once one flipped bit is mended; touched and not whole. |
//! | generation | Of a page or a bank: how often one was begun in its region. The highest that counts is in force. |
//! | sequence number | Of a record, over both rings, from 1. |
//! | ordinal | Of a record, in its ring, from 1. It tells what is lost from what was overwritten. |
//! | ring | The records of openings and changes, or of refusals. Slots fill one behind the other, page after page; the page behind the newest is erased ahead. |
//! | original, copy | A record as it was written, and the same numbers and content once more, which a boot writes behind it. |
//! | gap | Sequence numbers in a list under which it has no record: overwritten, or *lost*, which were being written when the power failed or cannot be read any more. |
//! | tally page | A checkpoint, then entries under an index that rises by one. |
//! | checkpoint | All entries before its page, added up, and what must be known of records although they are overwritten (the *memo*). |
//! | bank | All settings but calendars, every row of them, also the vacant ones. Then the header, and the mark, which is written last. |
//! | change | The record of a change of the settings, as it stands in the bank that the change made. |
//! | file row | The row of a bank that names the calendar in force and the one that waits. |
//! | due | To be done when nobody waits ([`Store::tend`](crate::port::Store::tend)): an erase of the page ahead, of the bank that is not in force, of a file that does not count. |
//!
//! # What always holds
//!
//! At every moment, so wherever the power is cut, however often, and whatever a cut leaves.
//!
//! - **S1 One program.** A word is programmed once between two erases, so that flash with a
//!   check code a word serves too. Test: `agree::boots_agree_after_two_cuts`.
//! - **S2 Touched stays touched.** The first four bytes of a block have eight bits or more to
//!   clear: what was begun is not taken for blank later.
//!   Test: `round_trip::the_first_four_bytes_clear_eight_bits_or_more`.
//! - **S3 One look proves nothing.** A block is believed only if it is whole, and none of
//!   its bits wavers. Test: `looks::a_byte_that_does_not_stay_makes_it_torn`.
//! - **S4 `Ok` means durable and read back.** Every later boot finds it, until it is
//!   overwritten by what is newer. Tests: `durable::a_flash_that_fails_lies_or_denies_is_found_out`,
//!   `looks::a_byte_that_reads_otherwise_than_programmed_is_a_fault`.
//! - **S5 Whole or not at all** (R6). So is the one write that was under way when the power
//!   failed. Tests: `cuts::a_cut_at_any_step_leaves_before_or_after`,
//!   `edits::a_reset_is_whole_at_every_cut_and_takes_every_secret`.
//! - **S6 Boots agree.** What one boot has found and acted upon, every later one finds.
//!   Tests: `agree::boots_agree_after_two_cuts`, `agree::boots_agree_after_three_cuts`.
//! - **S7 In a ring and in a tally page a slot counts only if its number is below that of
//!   every slot behind it.** So a copy takes its original, and whatever is torn between the
//!   two, out of the list. Test: `agree::a_copy_that_was_cut_is_not_taken_for_good`.
//! - **S8 A tally page counts once its first entry is touched, a bank once its mark is.**
//!   Those are begun only when all that stands before them was read back. Tests:
//!   `cuts::a_cut_in_commissioning_leaves_a_lock_that_is_not_commissioned`,
//!   `edits::a_cut_at_any_step_leaves_a_blank_lock_or_one_with_its_warden`.
//! - **S9 No sequence number has two contents.** A list rises by one, gaps included; a
//!   number that may have been given is not given again. Tests:
//!   `spoiled::a_record_that_cannot_be_read_leaves_a_gap`,
//!   `agree::nor_is_one_in_the_ring_of_refusals`.
//! - **S10 The promised records are listed:** [`Layout::openings_kept`] and
//!   [`Layout::refusals_kept`] of the newest, less a slot for each boot and one for each cut
//!   until their pages are erased. Refusals push no opening out.
//!   Test: `durable::the_promised_records_are_listed_at_every_moment`.
//! - **S11 Lost counts are said** (R2). If an index is missing, or the newest record names a
//!   later tally page than there is, the tally is lost, and stays so. Tests:
//!   `spoiled::lost_counts_are_no_reason_to_begin_at_zero`,
//!   `spoiled::an_older_tally_does_not_come_back`.
//! - **S12 Replaced settings do not come back,** also if those in force cannot be read, and a
//!   row that cannot be read is never taken for an empty one. Tests:
//!   `edits::a_lock_that_lost_its_settings_is_not_blank`,
//!   `round_trip::a_row_that_reads_erased_is_unreadable`.
//! - **S13 A write to the audit never erases** (R1), unless a write failed before it: then
//!   the mount that it makes up for may. If the page that it needs is not erased yet it is
//!   refused, and with it the opening.
//!   Test: `durable::a_release_never_waits_for_an_erase`.
//! - **S14 A calendar counts only if the file row of the bank in force names it,** and none is
//!   named before all its rows were read back and checked. Tests:
//!   `files::a_newer_file_takes_the_place_of_one_that_waits_and_only_by_its_edit`,
//!   `files::a_waiting_file_that_is_damaged_is_said_to_be_lost`.
//! - **S15 Every image of flash boots** (R7), and a mount changes nothing in a flash in which
//!   no bank counts. Tests: `images::every_image_boots`,
//!   `edits::flash_of_another_layout_is_neither_blank_nor_lost`.
//! - **S16 Duress shows in one field** (R4): of a record, byte 5 and the check value.
//!   Test: `round_trip::duress_shows_in_the_outcome_and_the_check_value_only`.
//!
//! # What each call guarantees
//!
//! | call | when it returns `Ok` | it erases |
//! | --- | --- | --- |
//! | [`mount`](FlashStore::mount), [`remount`](FlashStore::remount) | All that [`Recovered`] says is durable for good; below | at most what [`Layout::boot_steps`] counts |
//! | [`format`](FlashStore::format) | The settings are in force, audit and tally are empty. Until the mark is touched it mounts as not commissioned | every region |
//! | [`write`](crate::port::Store::write) of a tally entry | It is counted. Where its page was full, the next one was begun: checkpoint, then entry | nothing; in pages of 256 bytes, two of which one input can fill, the page ahead if it must |
//! | `write` of a record | It is listed, under the next number | nothing (S13) |
//! | [`edit`](crate::port::Store::edit) | The change and its record are durable in one | the other bank, first; for a first warden what [`Edit::Commission`] ends |
//! | [`stage`](crate::port::Store::stage) | The piece can be read back until the power goes | staging, whatever it reads, at piece 0 |
//! | [`staged`](crate::port::Store::staged) | The file was opened into a calendar that no bank names, and checked as it reads back | that calendar, first |
//! | [`tend`](crate::port::Store::tend) | What was due is done | that |
//!
//! An edit copies every row into the other bank, the changed one in its place; then come the
//! change, the header, the mark. From there on it holds (S8), and the record goes into its
//! ring. A reset is such an edit: of the old rows it keeps the zone, and the last generation
//! of the pairing key. What it forgot is gone from the flash after the next `tend`.
//!
//! A first warden begins on a blank flash. Another layout's, or settings that cannot be read,
//! are ended before that: however often it is cut short, the flash is what it was or blank.
//!
//! ## What a mount does
//!
//! 1. It looks for the bank in force. Without one it changes nothing, and says
//!    [`Fault::Layout`] (a whole header of another version), [`Fault::Blank`] (there never
//!    were settings: the second bank is erased, and so is the first, or the power went while
//!    it was written) or [`Fault::Settings`].
//! 2. It finds the newest page and the newest record of each ring, the tally and its entries,
//!    and the records that the checkpoint does not know.
//! 3. It writes the newest record of each ring again, then the newest entry of the tally:
//!    a cut may have fallen into them (S6). A copy says how far the tally page was filled,
//!    which a boot fills only behind its copies: once it is filled further, the copy is there
//!    to the end. A record is not copied if nobody can doubt it: a newer one lies in the other
//!    ring, nothing torn behind it, and it is an original or such a copy.
//! 4. It erases the page behind the newest one in each ring and in the tally, whatever it
//!    reads, and the bank that is not in force unless that is blank.
//! 5. It adds the change to its ring, if the ring does not have it.
//! 6. It reads policy, zone, key and file row, and every row of a calendar that waits.
//!
//! # What a failure does
//!
//! | failure | what comes of it |
//! | --- | --- |
//! | the power is cut, between two steps or within one, and again during the boots after it | S1 to S16. Only the write that was under way may be missing |
//! | a read fails | It is tried three times more. Then the call is a [`StoreFault`], or the answer [`Unreadable`](crate::rules::Unreadable) |
//! | a program fails, or does not read back twice | [`StoreFault`]. The flash may have taken it: before the next write the store does again what a mount does. So it does after a `tend` that failed |
//! | a slot for a record or an entry is not blank: a cell failed | It is passed over |
//! | a page does not erase: it is worn | [`StoreFault`], and it stays due. What has room yet is written; what needs that page is refused. At a mount: [`Fault::Store`] |
//! | one flipped bit in a block | Mended by the check value, at every look |
//! | two in a row of the bank in force | That row is unreadable. If the lock needs it at boot: [`Fault::Settings`] |
//! | two in a row of a calendar that waits | The file is lost, which is said until another one comes |
//! | two in a record | A gap, which counts it as lost |
//! | two in a tally entry or a checkpoint | The tally is lost: [`Fault::Settings`] (S11) |
//! | the keeper does not answer | `Unreadable`; nothing was written |
//! | the layout does not fit the flash | [`Fault::Settings`], and nothing is ever written |
//! | words or pages are of a size that no store takes | It does not compile |
//!
//! ## What it cannot tell
//!
//! - Two flipped bits in the newest record or in the newest entry of the tally look like a
//!   write that a power cut tore. One entry is the most that is lost so.
//! - An erase of the replaced bank, or of a file that no longer counts, that a power cut ended
//!   and that reads blank all the same is done again only before something is written there.
//!   Nothing counts by what may be left; codes and keys may be.
//! - A record that is lost at the very beginning of a ring looks like one that was
//!   overwritten; and of records lost where the other ring's are overwritten, those right
//!   before its oldest one.

mod answers;
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
use self::filing::Filing;
use self::memo::Memo;
use self::pages::{Ahead, Pages};
use self::record_slot::Kept;
use self::ring::TallyStands;
use self::staging::Staging;
use self::tally_log::TallyLog;
use crate::audit::{Record, Seq};
use crate::code::{Keeper, KeyInFlash};
use crate::port::{Fault, StoreFault, Write};
use crate::recovered::Recovered;
use crate::settings::Edit;

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
    mount_state: MountState,
}

/// Whether what the store remembers of the flash can be built on.
#[derive(Clone, Copy, PartialEq, Eq)]
enum MountState {
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
            mount_state: MountState::Misfit,
        }
    }

    /// As [`FlashStore::mount`] does, in place.
    pub fn remount(&mut self) -> Recovered {
        if !self.layout.fits(F::ERASE_SIZE, self.pages.0.capacity()) {
            return Recovered::nothing(Fault::Settings);
        }
        self.mount_state = MountState::Stale;
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
        self.mount_state = MountState::Sound;
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
    fn ensure_mounted(&mut self) -> Result<(), StoreFault> {
        match self.mount_state {
            MountState::Sound => Ok(()),
            MountState::Stale => {
                self.look()?;
                // What is there may be somebody else's, or nothing is: hands off.
                if matches!(self.bank, Err(Fault::Blank | Fault::Layout)) {
                    return Err(StoreFault);
                }
                self.settle()
            }
            MountState::Misfit => Err(StoreFault),
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
        self.mount_state = MountState::Stale;
        match write {
            Write::Tally(entry) => {
                let tally = self.tally.as_mut().ok_or(StoreFault)?;
                tally.push(&mut self.pages, *entry, &self.memo)?;
            }
            Write::Record(record) => self.record(&self.numbered(self.memo.next, record)?)?,
            // Comes with its edit only.
            Write::Edit(_) => return Err(StoreFault),
        }
        self.mount_state = MountState::Sound;
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
        self.mount_state = MountState::Stale;
        self.spare = Ahead::Due;
        self.bank = Ok(bank.edit(&mut self.pages, &self.layout, &rewrite, &change)?);
        self.filed_anew(edit, file);
        self.record(&change)?;
        self.mount_state = MountState::Sound;
        Ok(())
    }
}
