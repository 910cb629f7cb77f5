//! Registers of the board mps2-an385, as its CMSDK peripherals have them (from
//! memory).

use core::ptr;

const TIMER: usize = 0x4000_0000;
const ALARM_CLOCK: usize = 0x4000_1000;
const UART: usize = 0x4000_4000;
const GPIO: usize = 0x4001_0000;

/// Offsets within a peripheral.
const DATA: usize = 0x00;
const STATE: usize = 0x04;
const TIMER_VALUE: usize = 0x04;
const RECEIVED: u32 = 2;

fn read(address: usize) -> u32 {
    // SAFETY: a device register of this board, aligned, readable at any time.
    unsafe { ptr::with_exposed_provenance::<u32>(address).read_volatile() }
}

fn write(address: usize, word: u32) {
    // SAFETY: a device register of this board, aligned, writable at any time.
    unsafe { ptr::with_exposed_provenance_mut::<u32>(address).write_volatile(word) }
}

/// The next byte of the link, if one has come.
pub fn received() -> Option<u8> {
    (read(UART + STATE) & RECEIVED != 0).then(|| read(UART + DATA).to_le_bytes()[0])
}

/// Sends a byte over the link.
pub fn send(byte: u8) {
    write(UART + DATA, byte.into());
}

/// A timer that counts down, round and round.
pub fn timer() -> u32 {
    read(TIMER + TIMER_VALUE)
}

/// Has another timer interrupt after so many ticks.
pub fn wake_after(ticks: u32) {
    write(ALARM_CLOCK + TIMER_VALUE, ticks);
}

/// The level of an input pin.
pub fn level(pin: u8) -> bool {
    read(GPIO + DATA) & 1_u32.checked_shl(pin.into()).unwrap_or(0) != 0
}

/// Sets an output pin.
pub fn set(pin: u8, up: bool) {
    let bit = 1_u32.checked_shl(pin.into()).unwrap_or(0);
    let out = read(GPIO + STATE);
    write(GPIO + STATE, if up { out | bit } else { out & !bit });
}

/// A register of the board's own, by its place: clock chip, supply, generator,
/// keypad and sounder stand behind them.
pub fn own(place: usize) -> u32 {
    read(GPIO + 0x1000 + place * 4)
}

/// Sets one.
pub fn set_own(place: usize, word: u32) {
    write(GPIO + 0x1000 + place * 4, word);
}
