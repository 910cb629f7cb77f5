//! Calls every public entry point of lock-core with inputs from
//! [`outside`](crate::outside).
//!
//! A file a module of the core; functions are never inlined, so that each
//! shows up in the symbol table by its name. Conversions and messages that a
//! lock may never need are called too: what is public has to link.

mod audit;
mod calendar;
mod code;
mod display;
mod drivers;
mod holder;
mod keys;
mod link;
mod lock;
mod policy;
mod rules;
mod store;
mod task;
mod time;

/// One round through the core.
pub fn everything() {
    keys::queue();
    holder::numbers();
    holder::rights();
    task::tasks();
    task::draws();
    policy::bounds();
    code::entries();
    code::choices();
    code::judgements();
    calendar::days();
    rules::openings();
    rules::clocks();
    rules::limits();
    audit::records();
    link::seals();
    link::timetable_files();
    link::extracts();
    link::frames();
    link::one_time_codes();
    lock::access();
    lock::machine();
    lock::device();
    store::commission();
    store::mount();
    store::product();
    store::without_hardware();
    display::said();
    display::drawn();
    drivers::keypad();
    drivers::contacts();
    drivers::drives();
    drivers::sounds();
    drivers::lines();
    drivers::measurements();
    drivers::clock_chip();
    time::lengths();
    time::dates();
    time::minutes();
    time::zones();
    #[cfg(feature = "deliberate-panic")]
    panic_path();
}

/// An index that may be out of bounds: what the gate must find.
#[cfg(feature = "deliberate-panic")]
#[inline(never)]
fn panic_path() {
    use crate::outside;

    let table: [u8; 4] = outside::bytes();
    outside::put(table[usize::from(outside::byte())]);
}
