//! What the machine and the judges ask of a store, and what they tell it.

use embedded_storage::nor_flash::NorFlash;

use super::filing::narrow;
use super::{FlashStore, MountState, bank};
use crate::audit::{Entry, Record, Seq};
use crate::code::{Claim, Digest, Keeper, LockKey, Message};
use crate::holder::{Claimed, HolderRow, Number};
use crate::link::{FileFault, Fingerprint, Version};
use crate::pairing::Pairing;
use crate::port::{Reads, Store, StoreFault, Upkeep, Write};
use crate::rules::{Days, Unreadable};
use crate::seal::CHUNK;
use crate::settings::{Edit, FileState};
use crate::time::{Date, Zone};
use crate::timetable::{Day, TimetableId};

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
        self.ensure_mounted()?;
        self.push(write)
    }

    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
        bank::check(edit)?;
        if let Edit::Commission(key, _, _) = edit {
            self.begin(key)?;
        }
        self.ensure_mounted()?;
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
        match self.mount_state {
            MountState::Sound if self.is_due() => {
                let done = self.erase_due().and(self.clear_files());
                if done.is_err() {
                    // A page of the tally may be begun and not count.
                    self.mount_state = MountState::Stale;
                }
                done.map(|()| Upkeep::Done)
            }
            // Nothing can be due where the ground is to be looked at first.
            MountState::Sound | MountState::Stale | MountState::Misfit => Ok(Upkeep::None),
        }
    }
}
