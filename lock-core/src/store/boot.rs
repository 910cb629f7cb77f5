//! What a boot finds in the flash, part after part.
//!
//! Each part is a function of its own: a small machine has no room for the stack of all
//! of them at once.

use embedded_storage::nor_flash::NorFlash;

use super::FlashStore;
use super::audit_log::AuditLog;
use super::bank::Bank;
use super::memo::Memo;
use super::pages::Ahead;
use super::tally_log::TallyLog;
use crate::code::Keeper;
use crate::port::{Fault, Reads, StoreFault};
use crate::recovered::{Known, Recovered};
use crate::rules::Unreadable;
use crate::tally::TallyState;

impl<F: NorFlash, K: Keeper> FlashStore<F, K> {
    #[inline(never)] // own frame
    pub(super) fn recovered(
        &mut self,
        ground: Result<Result<Bank, Fault>, StoreFault>,
    ) -> Recovered {
        let known = match ground {
            Ok(Ok(bank)) => self.known(bank),
            Ok(Err(fault)) => Err(fault),
            Err(StoreFault) => Err(Fault::Store),
        };
        // Where no settings are in force, a first warden begins with a new tally.
        let log = self.tally.as_ref().filter(|_| self.bank.is_ok());
        let tally = log.map_or(TallyState::NEW, |log| log.state().clone());
        Recovered {
            known,
            tally,
            floor: self.memo.floor,
            newest_outcome: self.memo.outcome,
            last_word: self.memo.last_word(),
            supply: self.memo.supply,
            powered_up_twice: self.memo.power_ups == 2,
        }
    }

    /// What a mount does to the flash; the bank in force.
    #[inline(never)] // own frame
    pub(super) fn take_up(&mut self) -> Result<Result<Bank, Fault>, StoreFault> {
        self.look()?;
        let bank = match self.bank {
            Ok(bank) => bank,
            // What is there may be somebody else's: hands off.
            Err(fault) => {
                self.see_newest();
                return Ok(Err(fault));
            }
        };
        self.settle()?;
        Ok(Ok(bank))
    }

    pub(super) fn known(&mut self, bank: Bank) -> Result<Known, Fault> {
        let file = self.file_state();
        let known = file.and_then(|file| bank.known(&mut self.pages, file));
        let known = known.map_err(|Unreadable| Fault::Settings);
        // Wrong counts that were lost are no reason to begin at zero.
        if self.tally.is_some() { known } else { Err(Fault::Settings) }
    }

    /// Finds everything in the flash, and touches nothing.
    pub(super) fn look(&mut self) -> Result<(), StoreFault> {
        self.look_for_bank()?;
        self.spare = Ahead::Due;
        self.see_file();
        self.look_at_audit()?;
        let memo = self.look_at_tally()?;
        self.memo = self.audit.conclude(&mut self.pages, memo);
        Ok(())
    }

    #[inline(never)] // own frame
    fn look_for_bank(&mut self) -> Result<(), StoreFault> {
        self.bank = Bank::find(&mut self.pages, &self.layout)?;
        Ok(())
    }

    #[inline(never)] // own frame
    fn look_at_audit(&mut self) -> Result<(), StoreFault> {
        self.audit = AuditLog::scan(&mut self.pages, &self.layout)?;
        Ok(())
    }

    #[inline(never)] // own frame
    fn look_at_tally(&mut self) -> Result<Memo, StoreFault> {
        let newest = self.audit.tally();
        let memo = TallyLog::scan(&mut self.pages, &self.layout, &mut self.tally)?;
        let behind = |tally: &TallyLog| newest.is_some_and(|newest| tally.is_behind(newest));
        if self.tally.as_ref().is_some_and(behind) {
            self.tally = None;
        }
        Ok(memo)
    }
}
