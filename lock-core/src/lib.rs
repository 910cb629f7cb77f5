//! Decisions of an electronic time lock for a safe: no_std, no allocator, no
//! panic path, no clock of its own.
//!
//! The lock is one pure state machine, [`machine::Machine`]. A step takes the
//! moment, one input and read access to the settings, and returns what is to
//! happen as data: at most five effects, then either a time to wake up or one
//! durable write. [`device::Device`] carries that out on a [`board::Board`] and
//! a [`port::Store`]; the emulator and a lock's firmware run the same one.
//!
//! # An opening
//!
//! A lock on a board without hardware gets a first warden and a keyholder, and is opened,
//! in 20 lines of code. `cargo run -p lock-core --example opening` prints what the lock did:
//! the opening is on record before the blocker moves.
//!
#![doc = concat!("```\n", include_str!("../examples/opening.rs"), "```")]
//!
//! A board of your own takes the place of [`board::Bench`], and its flash that of
//! [`store::Ram`]; nothing else differs.
//!
//! # What is where
//!
//! From the ground up; each module uses only what stands below it.
//!
//! | floor | modules |
//! | --- | --- |
//! | what a board runs | [`device`], [`drivers`] |
//! | the machine, its flash, its board | [`machine`], [`store`], [`board`] |
//! | the one decision about an opening, clause by clause | [`mod@decide`] |
//! | what a boot finds | [`recovered`], over [`tally`] |
//! | dialogues at the keypad | [`dialog`] |
//! | words and pixels of a screen | [`draw`] over [`words`] |
//! | what lock, store and board share | [`port`], over whole [`settings`] |
//! | what travels between lock and laptop | [`link`] |
//! | what is shown and written down, as data | [`screen`] over [`audit`] |
//! | pure questions: is a window open, does a row wait, how long is a penalty? | [`rules`] |
//! | who may: holders and what is kept of their codes | [`holder`] over [`seed`], [`pairing_code`], [`pairing`], [`code`] |
//! | what a lock is set to | [`policy`], [`timetable`] |
//! | what everything counts in | [`time`], [`keys`], [`role`], [`task`]; and how it is sealed, [`seal`] |
//!
//! A few plain types are borrowed from a floor above; a test lists them, with
//! the reason, and fails at any other arrow that points up.
//!
//! # The rules
//!
//! What the lock promises. Comments and tests name them by number.
//!
//! - **R1 Nothing opens unrecorded.** The record of an opening is durable before
//!   the drive moves; if it can't be written, the lock stays secured and says
//!   so. Refusals have a ring of their own, so that they never push openings out.
//! - **R2 A guess is counted before it is judged.** Durably, on its number and
//!   for the lock as a whole, where each wrong try weighs for a day of its own. A
//!   right code clears its own number only. At the limit codes are not taken for a
//!   while, twice as long each time; a cut of the power shortens no penalty, no wait
//!   and no hold-shut. A number that failed a hundred times is barred until it has a
//!   new code; a warden keeps a way in.
//! - **R3 Closed is closed.** Outside the windows of a timetable none of its codes
//!   opens: no role, no file, no clock and no cut of the power gets round that. What
//!   widens opening waits for a window that holds without it. What waits is kept in
//!   steady time, which no setting of the clock moves; until the lock is opened.
//! - **R4 Duress is invisible.** Screens, sounds, drive, timing, wake-ups and
//!   writes are those of the plain code; only the outcome field of a record and
//!   the alarm line tell.
//! - **R5 No code is stored, shown or logged.** Only keyed and salted digests are
//!   kept; right, wrong, duress and unknown cost equal work; codes of different
//!   holders are never compared; what is easy to guess is refused.
//! - **R6 All or nothing.** A change of settings applies whole or not at all,
//!   wherever the power is cut.
//! - **R7 Every image of flash boots.** Whatever lies there, the lock comes up
//!   secured; what was lost is said, never guessed, and nothing is erased before
//!   somebody asked for it.
//! - **R8 A spent supply starts nothing that it can't finish.** A low one warns at
//!   each opening. A release is never resumed after a boot.
//! - **R9 Nobody is trapped.** The drive moves a blocker, never the bolt; an open
//!   lock is blocked only when a hand has closed it. A bolt found drawn without a
//!   release raises the alarm, unless nobody is enrolled.
//! - **R10 Same inputs, same outputs,** on a laptop and on a microcontroller.
//! - **R11 No dead end.** While the bolt is thrown no change leaves a lock that nobody
//!   could open and nobody may enrol; one that came to that all the same has a way
//!   out for its privileged people, which takes days and is recorded.
#![no_std]
#![forbid(unsafe_code)]
#![deny(missing_docs)]
#![cfg_attr(
    test,
    allow(clippy::arithmetic_side_effects, clippy::as_conversions, reason = "a test may panic")
)]
#[cfg(test)]
extern crate std;

#[macro_use]
pub mod silent;

pub mod audit;
pub mod board;
mod byte_table;
pub mod code;
pub mod decide;
pub mod device;
pub mod dialog;
pub mod draw;
pub mod drivers;
pub mod holder;
pub mod keys;
pub mod link;
pub mod machine;
pub mod pairing;
pub mod pairing_code;
pub mod policy;
pub mod port;
pub mod recovered;
pub mod role;
pub mod rules;
pub mod screen;
pub mod seal;
pub mod seed;
pub mod settings;
pub mod store;
pub mod tally;
pub mod task;
pub mod time;
pub mod timetable;
pub mod words;
