//! The chips that are swept: several geometries, as small as a store can be,
//! so that every region is turned over soon, and one of full size.

use std::cell::RefCell;

use emulated_board::flash::{Chip, Limits, PerWord, RamFlash};
use emulated_board::fuse::{Act, Power, Step};
use lock_core::code::{Digest, LockKey, Salt};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::policy::Policy;
use lock_core::role::Role;
use lock_core::settings::Settings;
use lock_core::store::{FlashStore, Layout};
use lock_core::timetable::{Calendar, Follows, TimetableId};

/// A chip with words of `WORD` bytes and pages of `PAGE`.
pub type Cells<const WORD: usize, const PAGE: usize> = Chip<WORD, PAGE, Vec<u8>>;

/// What a geometry is called, and how large it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Size {
    /// As small as a store can be.
    Smallest,
    /// As a lock has it.
    Full,
}

/// The layout of pages of `page` bytes.
///
/// # Panics
/// If no store takes such pages: a mistake in the list of geometries.
#[must_use]
pub fn layout(page: usize, size: Size) -> Layout {
    let layout = match size {
        Size::Smallest => Layout::smallest(page),
        Size::Full => Layout::for_pages_of(page),
    };
    layout.unwrap_or_else(|| panic!("no store takes pages of {page} bytes"))
}

/// A chip of a lock that was just commissioned. Each word of it takes one
/// program between two erases.
///
/// # Panics
/// If it cannot be commissioned: without faults it always can.
#[must_use]
pub fn commissioned<const WORD: usize, const PAGE: usize>(layout: Layout) -> Cells<WORD, PAGE> {
    let bytes = layout.bytes(PAGE).and_then(|bytes| usize::try_from(bytes).ok()).unwrap_or(0);
    let limits = Limits { programs: PerWord::Once, endurance: None };
    let chip = Cells::<WORD, PAGE>::erased(vec![0; bytes]).with_limits(limits);
    let flash = RamFlash::new(chip, Mains::default());
    match FlashStore::format(flash, layout, &settings()) {
        Ok(store) => store.into_flash().into_chip(),
        Err(why) => panic!("a sound chip was not commissioned: {why:?}"),
    }
}

/// The zone rule of every such lock.
pub const ZONE: &str = "GMT0IST,M3.5.0/1,M10.5.0";
/// The key of the digests that it begins with.
pub const KEY: [u8; LockKey::LEN] = [0x5A; LockKey::LEN];

/// What the store is commissioned with: holders 1 and 2, all else as it comes.
fn settings() -> Settings {
    let mut holders = [const { None }; Number::COUNT];
    for (n, row) in (0..).zip(&mut holders).skip(1).take(2) {
        *row = Some(holder(n, 0));
    }
    Settings {
        policy: Policy::DEFAULT,
        zone: heapless::String::try_from(ZONE).unwrap_or_default(),
        key: LockKey::from_bytes(KEY),
        pairing: None,
        holders,
        calendar: Calendar::default(),
    }
}

/// The row of holder `n` with that counter.
#[must_use]
pub fn holder(n: u8, counter: u32) -> HolderRow {
    HolderRow {
        role: Role::Keyholder,
        opens: Opens::Yes,
        standing: Standing::Active,
        follows: Follows::Timetable(TimetableId::A),
        salt: Salt::from_bytes([n; Salt::LEN]),
        digest: Digest::from_bytes([n ^ 0xC3; Digest::LEN]),
        pending: None,
        counter,
    }
}

/// One act on a chip, kept.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kept {
    /// A word programmed.
    Program {
        /// Its address.
        address: u32,
        /// Its bytes; so many of them as a word has.
        word: [u8; 32],
        /// How many.
        length: usize,
    },
    /// A page erased.
    Erase {
        /// Its number.
        page: u32,
    },
}

impl Kept {
    /// The act.
    #[must_use]
    pub fn act(&self) -> Act<'_> {
        match self {
            Self::Program { address, word, length } => {
                Act::Program { address: *address, word: word.get(..*length).unwrap_or(word) }
            }
            Self::Erase { page } => Act::Erase { page: *page },
        }
    }
}

/// Power that lasts, and keeps the acts.
#[derive(Default)]
pub struct Mains {
    acts: RefCell<Vec<Kept>>,
}

impl Mains {
    /// How many acts there were so far.
    #[must_use]
    pub fn count(&self) -> usize {
        self.acts.borrow().len()
    }

    /// The acts since the last call.
    #[must_use]
    pub fn take(&self) -> Vec<Kept> {
        self.acts.take()
    }
}

impl Power for Mains {
    fn step(&self, act: Act<'_>) -> Step {
        let kept = match act {
            Act::Program { address, word } => {
                let mut bytes = [0; 32];
                for (to, from) in bytes.iter_mut().zip(word) {
                    *to = *from;
                }
                Some(Kept::Program { address, word: bytes, length: word.len() })
            }
            Act::Erase { page } => Some(Kept::Erase { page }),
            Act::Effect => None,
        };
        self.acts.borrow_mut().extend(kept);
        Step::Whole
    }

    fn is_on(&self) -> bool {
        true
    }

    fn returns(&self) -> u64 {
        0
    }
}
