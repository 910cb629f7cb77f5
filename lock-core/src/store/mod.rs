//! What outlives a power cut: settings, tally and audit, in NOR flash.
//!
//! Three regions of whole pages ([`Layout`]): the settings in two banks, the
//! tally as a log with a checkpoint at the head of each page, and the audit in
//! two rings. Everything lies in blocks of fixed length whose check value comes
//! last; the byte tables stand in the modules and in `docs/flash-layout.md`.
//! What is in flash is programmed once between two erases, so that flash with
//! a check code a word serves too.
//!
//! *`Ok` means durable and read back.* After a failure the store looks at the
//! flash anew before the next write, because a write that failed may have
//! reached it all the same.
//!
//! *A release never waits for an erase.* A page that is used up has the page
//! after it erased already. That page becomes due when a page is begun, and is
//! erased at the end of the first write that is no release, after that write is
//! durable, or by the next mount. Every try writes the tally before it is
//! judged, so no lock releases twice without such a write in between; a store
//! that is made to all the same erases first and programs then.
//!
//! What a power cut tears is not answered for yet: a cut may fall between two
//! words or two erases, not within one.

mod audit_log;
mod bank;
mod bytes;
mod layout;
mod pages;
mod record_slot;
mod ring;
mod rows;
mod tally_log;
mod tally_slot;
#[cfg(test)]
mod tests;

use embedded_storage::nor_flash::NorFlash;

use self::audit_log::{AuditLog, Findings};
use self::bank::Bank;
use self::layout::Which;
use self::pages::Pages;
use self::tally_log::TallyLog;
use crate::audit::{Event, Record, Seq};
use crate::holder::{HolderRow, Number};
use crate::port::{Fault, Reads, Store, StoreFault, Write};
use crate::recovered::Recovered;
use crate::rules::{Days, Unreadable};
use crate::settings::Settings;
use crate::tally::TallyState;
use crate::time::{Date, Zone};
use crate::timetable::{Day, TimetableId};

pub use self::audit_log::Records;
pub use self::layout::{Layout, OPENINGS_KEPT, REFUSALS_KEPT, SLOT};

/// The store in a flash.
pub struct FlashStore<F> {
    pages: Pages<F>,
    layout: Layout,
    bank: Option<Bank>,
    audit: AuditLog,
    tally: Option<TallyLog>,
    footing: Footing,
}

/// Whether what the store remembers of the flash can be built on.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Footing {
    Sound,
    /// A write failed: look at the flash first.
    Stale,
    /// The layout does not fit the flash; nothing is ever written.
    Misfit,
}

/// Why a store could not be formatted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FormatError {
    /// The layout does not fit the flash; see [`Layout::fits`].
    Layout,
    /// A value of the policy is out of bounds.
    Policy(crate::policy::OutOfBounds),
    /// The zone rule cannot be read.
    Zone,
    /// Somebody is enrolled under 00.
    NumberZero,
    /// The flash failed.
    Flash,
}

impl From<StoreFault> for FormatError {
    fn from(_: StoreFault) -> Self {
        Self::Flash
    }
}

impl<F: NorFlash> FlashStore<F> {
    /// Commissions a lock: erases everything, begins an empty audit and tally,
    /// and writes `settings`. Until the very last word is programmed the store
    /// mounts as not commissioned.
    ///
    /// # Errors
    /// [`FormatError`]; nothing was erased unless it is
    /// [`FormatError::Flash`].
    pub fn format(flash: F, layout: Layout, settings: &Settings) -> Result<Self, FormatError> {
        if !layout.fits(F::ERASE_SIZE, flash.capacity()) {
            return Err(FormatError::Layout);
        }
        settings.policy.check().map_err(FormatError::Policy)?;
        Zone::parse(&settings.zone).map_err(|_| FormatError::Zone)?;
        if let [Some(_), ..] = &settings.holders {
            return Err(FormatError::NumberZero);
        }
        let mut pages = Pages(flash);
        pages.erase_all(layout.bank(Which::First))?;
        pages.erase_all(layout.bank(Which::Second))?;
        pages.erase_all(layout.tally())?;
        pages.erase_all(layout.openings())?;
        pages.erase_all(layout.refusals())?;
        let tally = TallyLog::commission(&mut pages, &layout)?;
        let bank = Bank::commission(&mut pages, &layout, settings)?;
        Ok(Self {
            pages,
            layout,
            bank: Some(bank),
            audit: AuditLog::empty(&layout),
            tally: Some(tally),
            footing: Footing::Sound,
        })
    }

    /// Takes up what lies in the flash, whatever it is (R7).
    ///
    /// A store whose settings or tally cannot be read is left as it is; in one
    /// that works, pages that are due are erased.
    pub fn mount(flash: F, layout: Layout) -> (Self, Recovered) {
        let footing = if layout.fits(F::ERASE_SIZE, flash.capacity()) {
            Footing::Stale
        } else {
            Footing::Misfit
        };
        let mut store = Self {
            pages: Pages(flash),
            layout,
            bank: None,
            audit: AuditLog::empty(&layout),
            tally: None,
            footing,
        };
        if footing == Footing::Misfit {
            return (store, Recovered::nothing(Fault::Settings));
        }
        let findings = store.look();
        let bank = Bank::find(&mut store.pages, &store.layout);
        store.bank = bank.ok();
        let known = bank.and_then(|bank| {
            let known = bank.known(&mut store.pages).map_err(|Unreadable| Fault::Settings)?;
            // Wrong counts that were lost are no reason to begin at zero.
            if store.tally.is_some() { Ok(known) } else { Err(Fault::Settings) }
        });
        if known.is_ok() {
            store.erase_ahead();
        }
        let tally = store.tally.as_ref().map_or(TallyState::NEW, |log| log.state().clone());
        let recovered = Recovered {
            known,
            tally,
            floor: findings.floor,
            newest_outcome: findings.newest_outcome(),
            last_word: findings.last_word(),
        };
        (store, recovered)
    }

    /// Gives the flash back.
    pub fn into_flash(self) -> F {
        self.pages.0
    }

    /// The flash, to look at or to have it fail.
    pub const fn flash_mut(&mut self) -> &mut F {
        &mut self.pages.0
    }

    /// The records from number `from` on, in order.
    pub fn records(&mut self, from: Seq) -> Records<'_, F> {
        self.audit.records(&mut self.pages, from)
    }

    /// The newest record.
    pub fn newest(&mut self) -> Option<(Seq, Record)> {
        self.audit.newest(&mut self.pages)
    }

    /// Finds audit and tally in the flash.
    fn look(&mut self) -> Findings {
        let (audit, findings) = AuditLog::scan(&mut self.pages, &self.layout);
        self.audit = audit;
        self.tally = TallyLog::scan(&mut self.pages, &self.layout);
        self.footing = Footing::Sound;
        findings
    }

    /// Erases the pages that are due. One that cannot be erased stays due: what
    /// was written is durable all the same, and whoever needs the page tries
    /// again and fails.
    fn erase_ahead(&mut self) {
        let _tried_again_when_needed = self.audit.erase_ahead(&mut self.pages);
        if let Some(tally) = &mut self.tally {
            let _tried_again_when_needed = tally.erase_ahead(&mut self.pages);
        }
    }
}

impl<F: NorFlash> Days for FlashStore<F> {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.bank.ok_or(Unreadable)?.day(&mut self.pages, id, date)
    }
}

impl<F: NorFlash> Reads for FlashStore<F> {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        self.bank.ok_or(Unreadable)?.holder(&mut self.pages, n)
    }
}

impl<F: NorFlash> Store for FlashStore<F> {
    fn write(&mut self, write: &Write) -> Result<(), StoreFault> {
        match self.footing {
            Footing::Sound => {}
            Footing::Stale => {
                self.look();
            }
            Footing::Misfit => return Err(StoreFault),
        }
        let written = match write {
            Write::Tally(entry) => match &mut self.tally {
                Some(tally) => tally.push(&mut self.pages, *entry),
                None => Err(StoreFault),
            },
            Write::Record(record) => self.audit.push(&mut self.pages, record),
        };
        match written {
            Ok(()) if drive_follows(write) => {}
            Ok(()) => self.erase_ahead(),
            Err(StoreFault) => self.footing = Footing::Stale,
        }
        written
    }
}

/// Whether somebody waits at the door for what follows this write.
const fn drive_follows(write: &Write) -> bool {
    matches!(write, Write::Record(Record { event: Event::Released { .. }, .. }))
}
