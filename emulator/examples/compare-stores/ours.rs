//! Subject one: `lock_core::store::FlashStore`.
//!
//! A record is one of the ring of refusals, of [`RECORD_PAGES`] pages; all else
//! is as small as the store allows. A setting is a holder's row, changed with
//! [`FlashStore::edit`]; the record that belongs to every change lies in the
//! other ring and is not looked at. After each write the lock rests: that is
//! when the store erases ahead.
//!
//! Its promise is `Layout::refusals_kept`, where cuts and boots may use up a
//! slot each.

use emulated_board::flash::Limits;
use emulator::rig::store::chip::{self, Cells, Kept, Size};
use lock_core::audit::{Entry, Event, Outcome, Record, Refusal, Ring, Seq};
use lock_core::code::Digest;
use lock_core::holder::{HolderRow, Number};
use lock_core::port::{Fault as Service, Reads, Store, Write};
use lock_core::settings::Edit;
use lock_core::store::{FlashStore, Layout};
use lock_core::time::Utc;

use crate::subject::{Bus, Fault, Listed, Promise, RECORD_PAGES, Shape, Subject};

pub(crate) struct Ours<const WORD: usize, const PAGE: usize> {
    store: FlashStore<Bus<WORD, PAGE>>,
    service: Option<Service>,
}

fn layout(page: usize) -> Layout {
    Layout { refusals_pages: RECORD_PAGES, ..chip::layout(page, Size::Smallest) }
}

/// The record `n`, all of it made from `n`.
fn record(n: u32) -> Record {
    let why = Refusal::ALL.get(usize::try_from(n).unwrap_or(0) % Refusal::ALL.len());
    let why = why.copied().unwrap_or(Refusal::Closed);
    let outcome = if n.is_multiple_of(3) { Outcome::Duress } else { Outcome::Plain };
    let who = number(u8::try_from(n % 99).unwrap_or(0));
    Record {
        at: Some(Utc::from_secs(1_800_000_000 + n)),
        event: Event::Refused { who, why, outcome },
    }
}

/// The record that goes with a change.
const CHANGE: Record = Record { at: None, event: Event::Opened };

fn number(key: u8) -> Number {
    Number::new(key + 1).unwrap_or_else(|| panic!("{key} is no number"))
}

/// The row that is setting `key` at `n`.
fn row(key: u8, n: u32) -> HolderRow {
    let mut digest = [0; Digest::LEN];
    for (to, from) in digest.iter_mut().zip(n.to_le_bytes().iter().cycle()) {
        *to = *from;
    }
    HolderRow { digest: Digest::from_bytes(digest), ..chip::holder(key, n) }
}

impl<const WORD: usize, const PAGE: usize> Subject<WORD, PAGE> for Ours<WORD, PAGE> {
    const NAME: &'static str = "FlashStore";

    fn promise(_: &Shape) -> Promise {
        let newest = usize::try_from(layout(PAGE).refusals_kept(PAGE)).unwrap_or(0);
        Promise { newest, boot_costs: true }
    }

    fn commission(_: &Shape) -> Result<Cells<WORD, PAGE>, Fault> {
        Ok(chip::commissioned(layout(PAGE)).with_limits(Limits::default()))
    }

    fn boot(chip: Cells<WORD, PAGE>, shape: &Shape) -> Self {
        let (store, found) = FlashStore::mount(Bus::new(chip, shape), layout(PAGE));
        Self { store, service: found.known.err() }
    }

    fn off(self) -> Cells<WORD, PAGE> {
        self.store.into_flash().into_chip()
    }

    fn acts(&mut self) -> Vec<Kept> {
        self.store.flash_mut().acts()
    }

    fn list(&mut self) -> Result<Listed, Fault> {
        let mut listed = Listed::default();
        for entry in self.store.records(Seq(0)) {
            match entry {
                Entry::Gap(gap) => listed.lost += gap.lost,
                Entry::Record(_, found) if found.event.ring() == Ring::Refusals => {
                    let n = found.at.map(|at| at.as_secs().wrapping_sub(1_800_000_000));
                    listed.records.push(n.filter(|n| record(*n) == found));
                }
                Entry::Record(..) => {}
            }
        }
        Ok(listed)
    }

    fn setting(&mut self, key: u8) -> Result<Option<u32>, Fault> {
        if let Some(service) = self.service {
            return Err(Fault(format!("service: {service:?}")));
        }
        let found = self.store.holder(number(key)).map_err(|_| Fault("unreadable".into()))?;
        Ok(found.map(|found| {
            let whole = found.digest == row(key, found.counter).digest;
            if whole { found.counter } else { u32::MAX }
        }))
    }

    fn record(&mut self, n: u32) -> Result<(), Fault> {
        self.store.write(&Write::Record(record(n))).map_err(|why| Fault(format!("{why:?}")))
    }

    fn set(&mut self, key: u8, n: u32) -> Result<(), Fault> {
        let edit = Edit::Holder(number(key), Some(row(key, n)));
        self.store.edit(&edit, &CHANGE).map_err(|why| Fault(format!("{why:?}")))
    }

    fn rest(&mut self) -> Result<(), Fault> {
        self.store.tend().map(drop).map_err(|why| Fault(format!("{why:?}")))
    }
}
