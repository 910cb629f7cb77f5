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
mod panic_path;

// Its critical section: interrupts off, on a chip with one core.
use cortex_m as _;
use cortex_m_rt::entry;

#[entry]
fn main() -> ! {
    loop {
        exercise::everything();
    }
}
