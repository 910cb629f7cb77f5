//! The link gate: all of lock-core on a Cortex-M or a 32-bit RISC-V, without a
//! panic path and without an allocator.
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

// Their critical section: interrupts off, on a chip with one core.
#[cfg(target_arch = "arm")]
use cortex_m as _;
#[cfg(target_arch = "riscv32")]
use riscv as _;

#[cfg(target_arch = "arm")]
#[cortex_m_rt::entry]
fn main() -> ! {
    everything_forever()
}

/// Only linked, never run: it sets no stack up.
#[cfg(target_arch = "riscv32")]
#[unsafe(no_mangle)]
extern "C" fn _start() -> ! {
    everything_forever()
}

fn everything_forever() -> ! {
    loop {
        exercise::everything();
    }
}
