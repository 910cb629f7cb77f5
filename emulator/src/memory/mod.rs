//! The lock's flash on the emulated board, and the store in it.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | the store in a flash that shares the board's power |
//! | `look.rs` | [`Look`]: what a boot finds in a flash |

mod look;

use emulated_board::flash::{Chip, RamFlash};
use lock_core::port::Store;
use lock_core::recovered::Recovered;
use lock_core::settings::{Edit, Settings};
use lock_core::store::{FlashStore, FormatError, Layout};

pub use look::{Entry, Look, Print, Wear};

use crate::world::Mains;

/// Word and page of the emulated flash, as many small microcontrollers have
/// them (from memory).
pub const WORD: usize = 8;
/// See [`WORD`].
pub const PAGE: usize = 2_048;

/// Flash in RAM, on the power of the board.
pub type Flash<const W: usize = WORD, const P: usize = PAGE> = RamFlash<W, P, Vec<u8>, Mains>;

/// The store in it.
pub type Memory<const W: usize = WORD, const P: usize = PAGE> = FlashStore<Flash<W, P>>;

/// The cells of that flash.
pub type Cells<const W: usize = WORD, const P: usize = PAGE> = Chip<W, P, Vec<u8>>;

/// How much room a store has.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Room {
    /// As a lock has it.
    Full,
    /// As little as can be, so that every region turns over soon.
    Least,
}

impl Room {
    /// The layout in pages of `page` bytes; `None` for sizes that no store
    /// takes.
    #[must_use]
    pub const fn layout(self, page: usize) -> Option<Layout> {
        match self {
            Self::Full => Layout::for_pages_of(page),
            Self::Least => Layout::smallest(page),
        }
    }
}

/// A part of the flash.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Part {
    /// One of the settings banks.
    Settings,
    /// The tally.
    Tally,
    /// One of the rings of records.
    Rings,
    /// Where a timetable file is staged, and waits.
    Staging,
}

/// A store that outlives a power cut, and the flash that it is in.
pub trait Lasting: Store + Sized {
    /// The flash.
    type Flash;

    /// Takes up what lies in a flash, as a boot does.
    fn mount(flash: Self::Flash) -> (Self, Recovered);

    /// The power is gone: what remains is the flash.
    fn into_flash(self) -> Self::Flash;

    /// The flash, to look at.
    fn flash(&mut self) -> &Self::Flash;

    /// The flash, to have something done to it.
    fn flash_mut(&mut self) -> &mut Self::Flash;

    /// The power that a flash is on.
    fn mains(flash: &Self::Flash) -> Mains;

    /// Where the rings of records lie in a flash, from and to.
    fn rings(flash: &Self::Flash) -> (u32, u32);

    /// What lies at `address`.
    fn part(flash: &Self::Flash, address: u32) -> Part;

    /// What this boot found, with the records that it lists.
    fn found(&mut self, found: &Recovered) -> Look;

    /// What a boot at this moment would find: nothing is changed.
    fn look(flash: &Self::Flash) -> Look;

    /// The settings as they would be after `edit`; `None` if those before it
    /// cannot be read. Nothing is changed.
    fn after(flash: &Self::Flash, edit: &Edit) -> Option<Print>;
}

/// A flash that was formatted with `settings`, on that power.
///
/// # Errors
/// [`FormatError`] if the settings cannot be stored.
pub fn commission<const W: usize, const P: usize>(
    settings: &Settings,
    room: Room,
    mains: Mains,
) -> Result<Flash<W, P>, FormatError> {
    let layout = room.layout(P).ok_or(FormatError::Layout)?;
    FlashStore::format(erased(room, mains)?, layout, settings).map(FlashStore::into_flash)
}

/// A flash in which nothing was ever written, on that power.
///
/// # Errors
/// [`FormatError`] if no store takes pages of that size.
pub fn erased<const W: usize, const P: usize>(
    room: Room,
    mains: Mains,
) -> Result<Flash<W, P>, FormatError> {
    let layout = room.layout(P).ok_or(FormatError::Layout)?;
    let bytes = layout.bytes(P).and_then(|bytes| usize::try_from(bytes).ok());
    Ok(Flash::new(Chip::erased(vec![0; bytes.ok_or(FormatError::Layout)?]), mains))
}

/// The layout of a flash of that many bytes: the one of the two [`Room`]s that
/// fills it.
fn layout<const P: usize>(bytes: usize) -> Layout {
    let fills = |room: Room| {
        let layout = room.layout(P)?;
        let size = layout.bytes(P).and_then(|size| usize::try_from(size).ok());
        (size == Some(bytes)).then_some(layout)
    };
    let none = Layout {
        bank_pages: 0,
        tally_pages: 0,
        openings_pages: 0,
        refusals_pages: 0,
        staging_pages: 0,
        calendar_pages: 0,
    };
    // A layout of nothing fits no flash: the store mounts it as a misfit.
    fills(Room::Full).or_else(|| fills(Room::Least)).unwrap_or(none)
}

/// The first page behind the rings.
const fn behind_rings(layout: &Layout) -> u32 {
    let rings = layout.openings_pages + layout.refusals_pages;
    2 * layout.bank_pages + layout.tally_pages + rings
}

impl<const W: usize, const P: usize> Lasting for Memory<W, P> {
    type Flash = Flash<W, P>;

    fn mount(flash: Flash<W, P>) -> (Self, Recovered) {
        let layout = layout::<P>(flash.chip().capacity());
        FlashStore::mount(flash, layout)
    }

    fn into_flash(self) -> Flash<W, P> {
        self.into_flash()
    }

    fn flash(&mut self) -> &Flash<W, P> {
        self.flash_mut()
    }

    fn flash_mut(&mut self) -> &mut Flash<W, P> {
        self.flash_mut()
    }

    fn mains(flash: &Flash<W, P>) -> Mains {
        flash.power().clone()
    }

    fn part(flash: &Flash<W, P>, address: u32) -> Part {
        let layout = layout::<P>(flash.chip().capacity());
        let page = usize::try_from(address).unwrap_or(usize::MAX) / P;
        let page = u32::try_from(page).unwrap_or(u32::MAX);
        let tally = layout.bank_pages * 2;
        if page < tally {
            Part::Settings
        } else if page < tally + layout.tally_pages {
            Part::Tally
        } else if page < behind_rings(&layout) {
            Part::Rings
        } else {
            Part::Staging
        }
    }

    fn rings(flash: &Flash<W, P>) -> (u32, u32) {
        let layout = layout::<P>(flash.chip().capacity());
        let page = u32::try_from(P).unwrap_or(u32::MAX);
        let first = layout.bank_pages * 2 + layout.tally_pages;
        (first * page, behind_rings(&layout) * page)
    }

    fn found(&mut self, found: &Recovered) -> Look {
        let layout = layout::<P>(self.flash_mut().chip().capacity());
        Look::of(self, found, &layout)
    }

    fn look(flash: &Flash<W, P>) -> Look {
        let (mut store, found) =
            <Self as Lasting>::mount(Flash::new(flash.chip().clone(), Mains::new()));
        store.found(&found)
    }

    fn after(flash: &Flash<W, P>, edit: &Edit) -> Option<Print> {
        let (mut store, found) =
            <Self as Lasting>::mount(Flash::new(flash.chip().clone(), Mains::new()));
        look::print_after(found.known.as_ref().ok()?, &mut store, Some(edit)).ok()
    }
}
