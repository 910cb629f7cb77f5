//! How many steps a boot may take.

use lock_core::store::Layout;

/// Invariant 3: the boot that took so many steps, words of `word` bytes
/// programmed and pages erased, is no longer than a boot may be.
///
/// # Panics
/// If it is.
pub fn took(steps: u64, layout: Layout, word: usize) {
    let most = u64::from(layout.boot_steps(word));
    assert!(steps <= most, "Invariant 3: a boot took {steps} steps, {most} at most");
}
