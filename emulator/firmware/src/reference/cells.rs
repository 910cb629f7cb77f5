//! Memory that stands in for flash: a few regions, each as large as the store.

use core::cell::UnsafeCell;
use core::sync::atomic::{AtomicU32, Ordering};

use lock_core::store::Layout;

use super::host;

/// Word and page of the recordings' flash, as the emulator has them.
pub const WORD: usize = 8;
pub const PAGE: usize = 2_048;

/// The layout of a full store in such pages.
pub const LAYOUT: Layout = match Layout::for_pages_of(PAGE) {
    Some(layout) => layout,
    None => panic!("a store takes pages of 2 KiB"),
};

/// Bytes of a region.
pub const BYTES: usize = LAYOUT.pages() as usize * PAGE;

/// The cells, a mask of weak bits, and one to spare.
const REGIONS: usize = 3;

#[repr(align(8))]
struct Regions([UnsafeCell<[u8; BYTES]>; REGIONS]);

// SAFETY: there is one core and no interrupt, and `TAKEN` hands each region out
// to one owner at a time.
unsafe impl Sync for Regions {}

static REGIONS_OF_CELLS: Regions = Regions([const { UnsafeCell::new([0; BYTES]) }; REGIONS]);

/// A bit for each region that has an owner.
static TAKEN: AtomicU32 = AtomicU32::new(0);

/// The exit code when every region is taken.
const NO_REGION: u32 = 70;

/// A region, as long as somebody has it. A clone is a copy in another.
pub struct Cells(usize);

impl Cells {
    /// A region that nobody has. Ends the machine if there is none.
    pub fn new() -> Self {
        let taken = TAKEN.load(Ordering::Relaxed);
        match (0..REGIONS).find(|place| taken & 1 << place == 0) {
            Some(place) => {
                TAKEN.store(taken | 1 << place, Ordering::Relaxed);
                Self(place)
            }
            None => host::exit(NO_REGION),
        }
    }

    fn bytes(&self) -> *mut [u8; BYTES] {
        match REGIONS_OF_CELLS.0.get(self.0) {
            Some(region) => region.get(),
            None => host::exit(NO_REGION),
        }
    }
}

impl AsRef<[u8]> for Cells {
    fn as_ref(&self) -> &[u8] {
        // SAFETY: nobody else has this region while `self` is borrowed.
        unsafe { &*self.bytes() }
    }
}

impl AsMut<[u8]> for Cells {
    fn as_mut(&mut self) -> &mut [u8] {
        // SAFETY: nobody else has this region while `self` is borrowed.
        unsafe { &mut *self.bytes() }
    }
}

impl Clone for Cells {
    fn clone(&self) -> Self {
        let mut copy = Self::new();
        copy.as_mut().copy_from_slice(self.as_ref());
        copy
    }
}

impl Drop for Cells {
    fn drop(&mut self) {
        let taken = TAKEN.load(Ordering::Relaxed);
        TAKEN.store(taken & !(1 << self.0), Ordering::Relaxed);
    }
}
