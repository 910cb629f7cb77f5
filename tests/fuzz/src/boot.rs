//! How many steps a boot may take.

use lock_core::store::{Layout, SLOT};

/// Invariant 3: the boot that took so many steps, words of `word` bytes
/// programmed and pages erased, is no longer than a boot may be.
///
/// # Panics
/// If it is.
pub fn took(steps: u64, layout: Layout, word: usize) {
    // `Layout::boot_steps` counts one turn of the tally's page. There can be
    // two: one because the page is full, one because the newest record's copy
    // begins a page of its ring, and the page to be erased next still holds
    // what the tally's page must keep.
    let slot = u64::try_from(SLOT / word).unwrap_or(u64::MAX);
    let again = slot * 8 + 1;
    let most = u64::from(layout.boot_steps(word)) + again;
    assert!(steps <= most, "Invariant 3: a boot took {steps} steps, {most} at most");
}
