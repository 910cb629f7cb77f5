//! The lock itself: one pure state machine.
//!
//! [`Machine::boot`] makes it, [`Machine::step`] moves it. It has no clock, no
//! flash and no pins: the moment, the input and read access to the settings are
//! arguments, and what is to happen comes back as a [`Turn`](crate::port::Turn).
//!
//! # Regions
//!
//! The state is a few small enums side by side, a file a state, so that a wait
//! of 99 minutes can run while a warden uses the list:
//!
//! - [`access`]: what the bolt may do: secured, waiting, claimable, released, open;
//! - [`session`]: what the person at the keypad is doing: rest, entry, over, list,
//!   who, judging, form, second;
//! - `pair`: whether the first of two people waits for the second;
//! - `guard`: counts and penalty, durable; `bell`: the alarm line;
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

pub mod access;
mod anew;
mod bell;
mod carry;
mod change;
mod correction;
mod courier;
mod dialogue;
mod errand;
mod face;
mod from_when;
mod given;
mod guard;
mod machine;
mod opening;
mod pair;
mod power_up;
pub mod session;
mod steady;
mod trial;
mod two_people;
mod wake;
mod way_out;

pub use carry::SESSION;
pub use change::SLOW_RESET;
pub use correction::{ALONE, PERIOD, SETTLING};
pub use machine::Machine;
pub use power_up::PowerUp;
pub(crate) use power_up::Waking;
pub use way_out::{ALONE_TAKES, TAKES};
