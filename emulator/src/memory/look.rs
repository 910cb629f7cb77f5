//! A look into a flash: what a boot finds there, as far as somebody outside
//! the store can tell.

use lock_core::audit::{self, Gap, Record, Seq};
use lock_core::holder::{HolderRow, Number};
use lock_core::policy::{Policy, Stricter};
use lock_core::port::{Fault, Store};
use lock_core::recovered::{Known, Recovered};
use lock_core::settings::{Edit, FileState, Waiting};
use lock_core::store::Layout;
use lock_core::tally::TallyState;

use super::Memory;

/// What a boot finds.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Look {
    /// Which settings, or what is wrong with them or with a row of them.
    pub settings: Result<Print, Fault>,
    /// What the tally adds up to; `None` if the boot goes by none, and into
    /// service.
    pub tally: Option<TallyState>,
    /// The list of records, in order.
    pub list: Vec<Entry>,
    /// What the flash has been through.
    pub wear: Wear,
}

/// One entry of the list of records.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Entry {
    /// A record under its number.
    Record(u32, Record),
    /// Numbers under which none is listed, inclusive.
    Gap {
        /// The first number.
        from: u32,
        /// The last one.
        to: u32,
        /// How many of them are lost; the others were overwritten.
        lost: u32,
    },
}

impl From<audit::Entry> for Entry {
    fn from(entry: audit::Entry) -> Self {
        match entry {
            audit::Entry::Record(Seq(number), record) => Self::Record(number, record),
            audit::Entry::Gap(Gap { from: Seq(from), to: Seq(to), lost }) => {
                Self::Gap { from, to, lost }
            }
        }
    }
}

/// Tells settings apart: equal for equal settings, and for others only by
/// chance.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Print {
    /// Of everything that is a secret or long.
    pub digest: u64,
    /// The policy.
    pub policy: Policy,
    /// What holds besides for a while.
    pub stricter: Option<Stricter>,
    /// How many are enrolled: with nobody a lock asks to be commissioned.
    pub enrolled: u8,
    /// What is known of timetable files.
    pub file: FileState,
}

/// What the flash has been through.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Wear {
    /// Erases of each page of the ring of openings and changes.
    pub openings: Vec<u32>,
    /// Erases of each page of the ring of refusals.
    pub refusals: Vec<u32>,
    /// How often it was asked for what its data sheet forbids.
    pub violations: u32,
}

impl Look {
    pub(super) fn of<const W: usize, const P: usize>(
        store: &mut Memory<W, P>,
        found: &Recovered,
        layout: &Layout,
    ) -> Self {
        let settings = match &found.known {
            Ok(known) => print(known, store),
            Err(fault) => Err(*fault),
        };
        let list = store.records(Seq(0)).map(Entry::from).collect();
        let chip = store.flash_mut().chip();
        let pages = |first: u32, count: u32| {
            let page = |n| usize::try_from(n).unwrap_or(usize::MAX);
            chip.erases().iter().skip(page(first)).take(page(count)).copied().collect()
        };
        let openings = layout.bank_pages * 2 + layout.tally_pages;
        let violations = chip.violations();
        let wear = Wear {
            openings: pages(openings, layout.openings_pages),
            refusals: pages(openings + layout.openings_pages, layout.refusals_pages),
            violations: violations.raised.saturating_add(violations.over_limit),
        };
        let tally = found.known.is_ok().then(|| found.tally.clone());
        Self { settings, tally, list, wear }
    }
}

/// Takes in the policy, the zone, the keys and every row of holders.
fn print(known: &Known, reads: &mut impl Store) -> Result<Print, Fault> {
    print_after(known, reads, None)
}

/// The settings after `edit`, from those before it: read, and changed here by
/// the words of [`Edit`], not by the store. Calendars are left out, and so is the
/// zone of a file that is adopted without having waited: no boot finds it staged.
pub(super) fn print_after(
    known: &Known,
    reads: &mut impl Store,
    edit: Option<&Edit>,
) -> Result<Print, Fault> {
    let (mut policy, mut stricter) = (known.policy, known.stricter);
    let (mut zone, mut key) = (known.zone, &known.key);
    let pairing = reads.pairing().map_err(|_| Fault::Settings)?;
    let mut pairing = pairing.as_ref();
    let mut whose: Option<(Number, Option<&HolderRow>)> = None;
    let mut everybody = true;
    let mut spent = [None; 2];
    let mut file = known.file;
    match edit {
        Some(Edit::Holder(number, row)) => whose = Some((*number, row.as_ref())),
        Some(Edit::Policy(new, besides)) => (policy, stricter) = (*new, *besides),
        Some(Edit::Pairing(new)) => {
            pairing = Some(new);
            let waited = file.waits.take().map(|waiting| waiting.version);
            file.lost = waited.or(file.lost);
        }
        Some(Edit::Commission(new, number, row)) => {
            (policy, stricter, pairing, key) = (Policy::DEFAULT, None, None, new);
            (everybody, whose) = (false, Some((*number, Some(row))));
            file = FileState::default();
        }
        Some(Edit::Reset(new)) => {
            (policy, stricter, pairing, key) = (Policy::DEFAULT, None, None, new);
            everybody = false;
            file = FileState::default();
        }
        Some(Edit::Adopt(version)) => {
            if known.file.waits.is_some_and(|waiting| waiting.version == *version) {
                zone = reads.zone_to_come().map_err(|_| Fault::Settings)?;
            }
            file = FileState { version: *version, ..FileState::default() };
        }
        Some(Edit::Wait(version, until)) => {
            let waits = Some(Waiting { version: *version, until: *until });
            file = FileState { waits, lost: None, ..file };
        }
        Some(Edit::Spend(couriers)) => spent = *couriers,
        None => {}
    }
    let mut digest = Fnv::new();
    digest.take(format!("{zone:?}").as_bytes());
    digest.take(key.as_bytes());
    if let Some(pairing) = pairing {
        digest.take(&pairing.generation().to_le_bytes());
        digest.take(pairing.key());
    }
    let mut enrolled = 0;
    for number in (0..=99).filter_map(Number::new) {
        let row = match whose {
            Some((own, row)) if own == number => row.cloned(),
            _ if everybody => reads.holder(number).map_err(|_| Fault::Settings)?,
            _ => None,
        };
        let Some(mut row) = row else { continue };
        for (_, counter) in spent.iter().flatten().filter(|(who, _)| *who == number) {
            row.counter = row.counter.max(*counter);
        }
        enrolled += 1;
        digest.take_row(number, &row);
    }
    Ok(Print { digest: digest.0, policy, stricter, enrolled, file })
}

/// FNV-1a, 64 bits (IETF draft `draft-eastlake-fnv`; constants from memory).
struct Fnv(u64);

impl Fnv {
    const fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    fn take(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }

    fn take_row(&mut self, number: Number, row: &HolderRow) {
        let HolderRow { role, opens, standing, follows, salt, digest, pending, counter } = row;
        // None of these is a secret.
        let plain = (number, role, opens, standing, follows, salt, pending, counter);
        self.take(format!("{plain:?}").as_bytes());
        self.take(digest.as_bytes());
    }
}
