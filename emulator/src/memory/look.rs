//! A look into a flash: what a boot finds there, as far as somebody outside
//! the store can tell.

use lock_core::audit::{self, Gap, Record, Seq};
use lock_core::holder::Number;
use lock_core::port::{Fault, Reads};
use lock_core::recovered::{Known, Recovered};
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
pub struct Print(pub u64);

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

/// Takes in the policy, the zone, the key and every row of holders.
fn print(known: &Known, reads: &mut impl Reads) -> Result<Print, Fault> {
    let mut digest = Fnv::new();
    // Neither has a secret in it.
    digest.take(format!("{:?} {:?}", known.policy, known.zone).as_bytes());
    digest.take(known.key.as_bytes());
    for number in (0..=99).filter_map(Number::new) {
        let Some(row) = reads.holder(number).map_err(|_| Fault::Settings)? else { continue };
        let plain = (number, row.role, row.opens, row.standing, row.follows, row.salt);
        digest.take(format!("{plain:?}").as_bytes());
        digest.take(row.digest.as_bytes());
    }
    Ok(Print(digest.0))
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
}
