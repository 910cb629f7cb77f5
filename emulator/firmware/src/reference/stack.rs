//! How deep the stack was: memory below it is painted, and what is no longer
//! painted afterwards was in use.

use core::arch::asm;
use core::ptr;

/// Bytes that are painted: several times what a lock needs.
const PAINTED: usize = 64 * 1_024;

/// Bytes next to the stack pointer that painting itself may use.
const SPARED: usize = 64;

const PAINT: u32 = 0x5A5A_A5A5;

#[inline(always)]
fn pointer() -> usize {
    let sp: usize;
    // SAFETY: it reads a register.
    unsafe { asm!("mov {}, sp", out(reg) sp, options(nomem, nostack, preserves_flags)) };
    sp
}

/// The word so many bytes below `top`.
fn word(top: usize, below: usize) -> *mut u32 {
    ptr::with_exposed_provenance_mut(top.saturating_sub(below) & !3)
}

/// Paints what lies below the caller's stack.
#[inline(always)]
pub fn paint() {
    let top = pointer();
    for below in (SPARED..PAINTED).step_by(4) {
        // SAFETY: memory of this board below the stack, which nobody has: what
        // the loop itself pushes lies within the spared bytes.
        unsafe { word(top, below).write_volatile(PAINT) };
    }
}

/// How many bytes below the caller's stack were in use since it was painted.
#[inline(always)]
pub fn deepest() -> u32 {
    let top = pointer();
    let below = (SPARED..PAINTED).step_by(4).rev().find(|below| {
        // SAFETY: memory of this board, which nobody writes now.
        unsafe { word(top, *below).read_volatile() != PAINT }
    });
    below.and_then(|below| u32::try_from(below).ok()).unwrap_or(0)
}
