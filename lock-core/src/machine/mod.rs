//! The lock itself: one pure state machine.
//!
//! [`Machine::boot`] makes it, [`Machine::step`] moves it. It has no clock, no
//! flash and no pins: the moment, the input and read access to the settings are
//! arguments, and what is to happen comes back as a [`Turn`](crate::port::Turn).
//!
//! # Regions
//!
//! The state is a few small regions side by side, a file a region, so that a wait
//! of 99 minutes can run while a warden uses the list:
//!
//! - [`bolt`]: what the bolt may do: secured, waiting, claimable, released, open;
//! - [`keypad`]: what the person at the keypad is doing: rest, entry, over, list,
//!   who, judging, form, second;
//! - `pair`: whether the first of two people waits for the second;
//! - `counts`: wrong codes and penalty, durable; `alarm`: the alarm line;
//! - plain facts: clock, contacts, supply, and service once something failed.
//!
//! # Access
//!
//! Each line is `from --event--> to`; a test holds the lines against the code,
//! for every state and event.
//!
//! ```text
//! secured   --begin-wait-->  waiting
//! secured   --release-->     released
//! secured   --ajar-->        open        (forced: alarm and record)
//! waiting   --time-->        claimable   (the delay is over)
//! waiting   --time-->        secured     (the permit ended)
//! waiting   --cancel-->      secured
//! waiting   --ajar-->        open        (forced)
//! claimable --release-->     released
//! claimable --time-->        secured     (lapsed, or the permit ended)
//! claimable --cancel-->      secured
//! claimable --ajar-->        open        (forced)
//! released  --ajar-->        open
//! released  --time-->        secured     (not drawn)
//! released  --cancel-->      secured     (inhibit or a hold-shut)
//! open      --shut-->        secured
//! ```
//!
//! Whatever is not listed leaves the state as it is. A boot starts in
//! `secured`, or in `open` if the lock is found ajar.
//!
//! # Session
//!
//! ```text
//! rest    --digit--> entry
//! rest    --ok-->    list
//! entry   --digit--> entry
//! entry   --digit--> over      (too long)
//! entry   --back-->  rest
//! entry   --ok-->    judging
//! entry   --ok-->    rest      (too short)
//! entry   --time-->  rest
//! over    --back-->  rest
//! over    --ok-->    rest
//! over    --time-->  rest
//! list    --digit--> who
//! list    --ok-->    list
//! list    --back-->  rest
//! list    --time-->  rest
//! who     --digit--> who
//! who     --digit--> over      (too long)
//! who     --back-->  rest
//! who     --ok-->    judging
//! who     --ok-->    rest      (too short)
//! who     --ok-->    rest      (nobody's code)
//! who     --time-->  rest
//! form    --time-->  rest
//! ```
//!
//! `judging` and `second` end with the result of the write that counts the try:
//! `judging` in `rest`, or in `form` where a task takes a dialogue, `second` in
//! `form`. The keys of a `form` are those of [`crate::dialog`].

mod alarm;
mod anew;
mod attempt;
pub mod bolt;
mod changes;
mod clock;
mod countdowns;
mod counts;
mod couriers;
mod display;
mod files;
mod form_fields;
mod form_flow;
mod from_when;
mod in_force;
pub mod keypad;
mod opening;
mod out;
mod pair;
mod power_up;
mod service;
mod steady;
mod step;
mod supply;
mod timers;
mod two_people;
mod way_out;
mod writes;

pub use clock::{ALONE, PERIOD, SETTLING};
pub use countdowns::SLOW_RESET;
pub use files::SESSION;
pub use power_up::PowerUp;
pub(crate) use power_up::Waking;
pub use step::Machine;
pub use way_out::{ALONE_TAKES, TAKES};
