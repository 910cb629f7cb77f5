//! A whole lock and nothing else: what its size and its stack are measured on
//! (`docs/footprint.md`).
//!
//! Board mps2-an385: contacts, keys and drive on its GPIO, uptime from a timer,
//! frames over a UART, flash in a RAM array, since no such board that can be
//! emulated programs flash. It decides as any lock does; it is no product.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | the main loop |
//! | `board.rs` | the board as the lock sees it |
//! | `flash.rs` | memory that stands in for flash |
//! | `registers.rs` | registers of this board |
#![no_std]
#![no_main]

mod board;
mod flash;
#[path = "../panic_path.rs"]
mod panic_path;
mod registers;

use cortex_m_rt::entry;
use lock_core::device::{Device, Progress};
use lock_core::link::frame::{self, Decoder};
use lock_core::store::FlashStore;

use board::Desk;
use flash::{Flash, LAYOUT};

type Lock = Device<Desk, FlashStore<Flash>>;

#[entry]
fn main() -> ! {
    run()
}

/// The main loop, in a frame of its own: its stack is the lock's.
#[inline(never)]
fn run() -> ! {
    let mut lock = at_rest();
    boot(&mut lock);
    let mut decoder = Decoder::new();
    loop {
        if let Progress::Asleep(wake) = lock.advance() {
            lock.board_mut().wake_at(wake);
            cortex_m::asm::wfi();
        }
        if let Some(byte) = registers::received() {
            serve(&mut lock, &mut decoder, byte);
        }
    }
}

/// The lock without power. Not inlined: what it takes to build one is gone from
/// the stack when it stands.
#[inline(never)]
fn at_rest() -> Lock {
    Device::without_power(Desk::new(), || FlashStore::at_rest(Flash::new(), LAYOUT))
}

#[inline(never)]
fn boot(lock: &mut Lock) {
    let found = lock.store_mut().remount();
    lock.boot(found);
}

/// A byte came over the link.
#[inline(never)]
fn serve(lock: &mut Lock, decoder: &mut Decoder, byte: u8) {
    let Some(Ok(payload)) = decoder.push(byte) else { return };
    let answer = lock.serve(payload).and_then(frame::encode);
    answer.into_iter().flatten().for_each(registers::send);
}
