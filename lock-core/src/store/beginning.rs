//! A lock begins: formatted with settings by a host, or by its first warden.

use embedded_storage::nor_flash::NorFlash;

use super::audit_log::AuditLog;
use super::bank::Bank;
use super::filing::Filing;
use super::layout::Which;
use super::memo::Memo;
use super::pages::{Ahead, Pages};
use super::rows::CALENDARS;
use super::staging::Staging;
use super::tally_log::TallyLog;
use super::{FlashStore, Layout, MountState};
use crate::code::{Keeper, KeyInFlash, LockKey};
use crate::port::{Fault, StoreFault};
use crate::settings::Settings;
use crate::tally::SetUp;
use crate::time::Zone;

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
        erase_regions(&mut pages, &layout)?;
        let bank = Bank::commission(&mut pages, &layout, settings)?;
        let enrolled = settings.holders.iter().any(Option::is_some);
        let set_up = if enrolled { SetUp::Done } else { SetUp::Going };
        let tally = TallyLog::commission(&mut pages, &layout, set_up)?;
        bank.mark(&mut pages)?;
        let mut store = Self {
            pages,
            keeper: KeyInFlash,
            layout,
            bank: Ok(bank),
            audit: AuditLog::empty(&layout),
            tally: Some(tally),
            memo: Memo::NEW,
            spare: Ahead::Blank,
            staging: Staging::nothing(layout.staging()),
            filing: Filing::NOTHING,
            mount_state: MountState::Sound,
        };
        store.see_file();
        Ok(store)
    }
}

impl<F: NorFlash, K: Keeper> FlashStore<F, K> {
    /// Before a first warden: what is no lock, or one that cannot be read, becomes
    /// one in which nobody is enrolled.
    pub(super) fn begin(&mut self, key: &LockKey) -> Result<(), StoreFault> {
        if self.mount_state == MountState::Misfit {
            return Err(StoreFault);
        }
        let readable = match self.bank {
            Err(Fault::Blank) => return self.begin_blank(key),
            Err(_) => false,
            Ok(bank) => self.known(bank).is_ok(),
        };
        if readable {
            return Ok(());
        }
        self.mount_state = MountState::Stale;
        Bank::take_over(&mut self.pages, &self.layout)?;
        self.begin_blank(key)
    }

    /// A flash without a commissioned lock becomes a lock in which nobody is
    /// enrolled. Until the very last word is programmed it mounts as blank, so
    /// that whoever was cut short begins again.
    #[inline(never)] // own frame
    fn begin_blank(&mut self, key: &LockKey) -> Result<(), StoreFault> {
        self.mount_state = MountState::Stale;
        let layout = self.layout;
        // The tally first, since a first bank that is neither erased nor whole
        // is a lock's if it has one. The second bank is erased already, and an
        // erase of it that is cut short would look like somebody's settings.
        for region in
            [layout.tally(), layout.bank(Which::First), layout.openings(), layout.refusals()]
        {
            self.pages.erase_all(region)?;
        }
        erase_files(&mut self.pages, &layout)?;
        self.write_blank(key)?;
        self.audit = AuditLog::empty(&self.layout);
        self.memo = Memo::NEW;
        self.spare = Ahead::Blank;
        self.see_file();
        self.mount_state = MountState::Sound;
        Ok(())
    }

    #[inline(never)] // own frame
    fn write_blank(&mut self, key: &LockKey) -> Result<(), StoreFault> {
        let bank = Bank::blank(&mut self.pages, &self.layout, key)?;
        self.tally = Some(TallyLog::commission(&mut self.pages, &self.layout, SetUp::Going)?);
        bank.mark(&mut self.pages)?;
        self.bank = Ok(bank);
        Ok(())
    }
}

fn erase_regions<F: NorFlash>(pages: &mut Pages<F>, layout: &Layout) -> Result<(), StoreFault> {
    for region in [
        layout.bank(Which::First),
        layout.bank(Which::Second),
        layout.tally(),
        layout.openings(),
        layout.refusals(),
    ] {
        pages.erase_all(region)?;
    }
    erase_files(pages, layout)
}

fn erase_files<F: NorFlash>(pages: &mut Pages<F>, layout: &Layout) -> Result<(), StoreFault> {
    pages.erase_all(layout.staging())?;
    (0..CALENDARS).try_for_each(|region| pages.erase_all(layout.calendar(region)))
}
