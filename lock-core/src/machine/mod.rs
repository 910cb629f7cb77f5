//! The lock itself: one pure state machine.
//!
//! [`Machine::boot`] makes it, [`Machine::step`] moves it. It has no clock, no
//! flash and no pins: the moment, the input and read access to the settings are
//! arguments, and what is to happen comes back as a [`Turn`](crate::port::Turn).
//!
//! # Regions
//!
//! The state is a few small regions side by side, a file a region, so that a wait
//! of 99 minutes can run while a warden uses the list. A region's fields are its own:
//! no other file can write them. The keypad lends out the dialogue or the attempt that
//! stands there, to the flows that lead it.
//!
//! | region | what it knows |
//! | --- | --- |
//! | [`bolt`] | what the bolt may do (secured, waiting, claimable, released, open), and the contacts |
//! | [`keypad`] | what the person there is doing: rest, entry, over, list, who, judging, form, second |
//! | `pair` | whether the first of two people waits for the second |
//! | `counts` | wrong codes and penalties, and what else of the tally outlives a boot |
//! | `clock` | whether the clock is believed, steady time, settling, the sum of corrections |
//! | `alarm` | the level of the alarm line, and until when |
//! | `supply` | the battery's level, and what of it is on record |
//! | `in_force` | the policy, the zone, the key of the digests and the file in force |
//! | `countdowns` | what takes days: a reset without a warden's code, a way out |
//! | `display` | what was said last, and what is shown |
//! | `service` | what failed, until a boot |
//! | `writes` | writes that are outstanding, and the one change of the settings among them |
//! | `anew` | what the end of the step looks at again |
//! | `out` | what the step gives out: drive, sound, the clock chip's setting |
//!
//! `step` is the order of things; `timers` is one table of what time brings about: when each
//! comes next, and what it does. The other files lead what passes through several regions:
//! `attempt` and `opening` from keys to a release, `couriers` the use of one-time codes,
//! `form_flow`, `form_fields` and `changes` from a dialogue to a change, `files` from a file
//! on the link to one in force, `two_people` which changes take two, `from_when` when a change
//! applies, `way_out` a lock that nobody can open, `steady` the scale that no setting of the
//! clock moves, `power_up` a boot.
//!
//! # What always holds
//!
//! - **M1** A turn hands out one write at most, and what must follow a write happens in the
//!   step that brings its result (R1, R2). `tests/model` and the power rig hold it.
//! - **M2** The drive frees the bolt only after the record of that opening is durable, in
//!   the step that brings the result of the tally entry which clears the try (R1; decision
//!   012 says why).
//! - **M3** At most one change of the settings is on its way; its place in the queue of
//!   writes is its token (R6).
//! - **M4** A code that is judged is kept from its first digit to its verdict, a new code
//!   until its dialogue ends; both are wiped then.
//! - **M5** What is shown, the level of the alarm line and the next wake-up follow from the
//!   state; screen and wake-up cannot see whether a code was a duress code (R4).
//! - **M6** The lock asks for no wake-up that has passed, and each wake-up that it asks for
//!   ends what asked: so it rests after a bounded number of turns.
//! - **M7** After any durable change but the use of a one-time code, and when the clock is set
//!   or has settled, the people of what is under way are decided anew before the step ends (R3).
//! - **M8** Same state, moment, input and settings: same turn (R10).
//!
//! # What a failure does
//!
//! | what fails | what the lock does |
//! | --- | --- |
//! | a write | the alarm of every outstanding duress code goes out; nothing that waited for a write happens; service ([`Fault::Store`]) until a boot |
//! | a write within a dialogue | the same: the dialogue is gone. Its change is made whole or not at all; the next boot tells which |
//! | reading the settings | service ([`Fault::Settings`]); no code is taken |
//! | the drive | a record, and service ([`Fault::Drive`]) |
//! | the clock: it stops, or strays from uptime | a record; holders of timetables stay closed, delays that end with a permit are cancelled; lengths run on by uptime |
//! | more than a dozen writes at once, or a result that nobody awaits | service ([`Fault::Bug`]); no known input causes it |
//! | power, at any moment | the next boot starts secured, or open if it is found so. A penalty and a way out begin anew, whole. A delay, a claim, a first of two and a reset without a code are over. Changes that wait go on waiting |
//!
//! In service bolt, door and alarm line are still followed, and recorded if that can be done;
//! what was open stays open (R9).
//!
//! [`Fault::Store`]: crate::port::Fault::Store
//! [`Fault::Settings`]: crate::port::Fault::Settings
//! [`Fault::Drive`]: crate::port::Fault::Drive
//! [`Fault::Bug`]: crate::port::Fault::Bug
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
//! `secured`, or in `open` if the lock is found ajar. For two seconds after inhibit or a
//! hold-shut ended a release the blocker may not be home: ajar within them is opened, not
//! forced ([`bolt::Access::Blocked`]).
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
//! `judging` and `second` end with the result of the write that counts the try: in
//! `form` where a task takes a dialogue, or its second person is the right one; else in
//! `rest`. The keys of a `form` are those of [`crate::dialog`].

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

#[cfg(test)]
mod tests;

pub use clock::{ALONE, PERIOD, SETTLING};
pub use countdowns::SLOW_RESET;
pub use files::SESSION;
pub use power_up::PowerUp;
pub(crate) use power_up::Waking;
pub use step::Machine;
pub use way_out::{ALONE_TAKES, TAKES};
