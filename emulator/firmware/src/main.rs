//! The link gate: all of lock-core on a Cortex-M3, without a panic path and
//! without an allocator.
//!
//! A panic in a lock is a lock that no longer decides. So the panic handler
//! calls a function that exists nowhere: if the compiler could not prove every
//! panic away, the handler stays, and the image does not link. Likewise no
//! allocator is declared. `.ci/firmware` builds this and checks the symbols.
#![no_std]
#![no_main]

mod exercise;
mod outside;

use core::panic::PanicInfo;

// Its critical section: interrupts off, on a chip with one core.
use cortex_m as _;
use cortex_m_rt::entry;

#[entry]
fn main() -> ! {
    loop {
        exercise::everything();
    }
}

unsafe extern "C" {
    /// Defined nowhere; the linker prints the name, and `.ci/firmware` looks
    /// for it.
    fn a_panic_path_is_left_in_the_firmware() -> !;
}

#[panic_handler]
fn panic(_: &PanicInfo<'_>) -> ! {
    // SAFETY: never runs, since no image with this call can be linked.
    unsafe { a_panic_path_is_left_in_the_firmware() }
}
