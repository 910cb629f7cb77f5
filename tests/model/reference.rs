//! A naive second lock, written from `docs/behaviour.md` alone by hands that
//! have not seen `lock-core`: plain std Rust, codes as plain text, verdicts by
//! comparing strings, local time by jiff. It shares no code and no type with
//! what it judges.
//!
//! # Readings
//!
//! Where the contract can be read in two ways, or says nothing, this model
//! does the following. A difference from the core at one of these places is a
//! question to the contract first.
//!
//! 1. *Typing.* *back* in an entry of the list's items leaves to rest, as it
//!    does in the list; so does an entry that is too long or too short.
//! 2. *Who are you* is an entry of no digits: *OK* there is *too short*.
//! 3. "20 s after its last key" counts keys that do nothing in the list too.
//! 4. An entry typed in the dark of a penalty goes on, and becomes visible,
//!    when the penalty ends. In a penalty an entry that is too long or too
//!    short is wiped without a notice.
//! 5. Number `00` is tried and counted like any unenrolled number.
//! 6. "The fifth try on *n* within the day" counts every judged try on *n*,
//!    right or wrong, the present one included; entries in a penalty are none.
//! 8. `first-of-two` has no sound of its own: *key*.
//! 9. The outcome on a record of two people is duress if either code was, as the
//!    contract now says.
//! 10. `same-person`, `waiting` and `other-person` are judged after section 5;
//!     `waiting` and `other-person` before `same-person`.
//! 11. A second person refused because of the first, or as `late`, leaves the
//!     first waiting.
//! 12. "Faded" is written only if there was a share or a step to fade. "A boot
//!     … ends the fading time" is read as "a boot restarts the 24 h".
//! 13. A penalty restarted by a boot writes neither tally nor record and
//!     judges eight entries anew.
//! 14. An ajar lock with a wait: `cancelled`, then `forced`. A hold-shut set in
//!     a wait: `held-shut`, `cleared`, then `cancelled`, and since the state of
//!     access has then changed, no notice *held*.
//! 15. At one moment: permit end (`cancelled`) before claim end (`lapsed`);
//!     claim end before the pair's limit (so one `lapsed`); the penalty's end
//!     before the fading.
//! 16. The audit's last word on an ajar lock at boot is the newest of
//!     `released`, `opened`, `not-drawn`, `secured`, `forced`; other records do
//!     not speak of the bolt. What `secured` measures counts from that boot.
//! 17. A lock drawn after its permit's end is `left-open` at once.
//! 18. The start of a window is any instant at which its wall time is entered:
//!     twice if a clock change repeats it, the end of the gap if it is skipped.
//!     "Within 120 h" includes the 120th.
//! 19. A permit that no edge of the next 62 dates ends is endless.
//! 20. Once a valid clock has passed a hold-shut's end it is over. At a boot
//!     with an invalid clock it stands unless a record is as late as its end.
//! 21. Boot with a clock newly in doubt: `powered-up` carries no time already;
//!     `clock-doubt` and `clock-invalid` are written last.
//! 22. The comparison point moves at a wake-up of its own, every 24 h from boot.
//! 23. In service records go on being attempted; a wait and a first person are
//!     dropped without one.
//! 24. A notice keeps the text it had when it began. A first person coming or
//!     going is no change of the state of access.
//! 25. From spent, a supply at `supply_low` + 200 mV is good at once (one
//!     record); from good, one below `supply_spent` is spent at once.
//! 26. The seconds of `secured`, minutes and all lengths: whole, `secured`
//!     rounded down.
//! 27. Dialogues are not led here: of one that has begun the model knows that it
//!     is there, that *back* leaves it where nothing was typed, and its pause.
//!     Stories type nothing else into one.

mod access;
mod attempt;
mod boot;
mod change;
mod checks;
mod civil;
mod clock;
mod counts;
mod durable;
mod files;
mod forms;
mod judge;
mod lock;
mod office;
mod opening;
mod policy;
mod screen;
mod seen;
mod setup;
mod typing;
mod way_out;
mod widen;
mod windows;

pub(crate) use attempt::duress_variant;
pub(crate) use civil::Zone;
pub(crate) use durable::{Durable, Flash, Tally};
pub(crate) use forms::{Form, Page};
pub(crate) use lock::{Make, Model};
pub(crate) use office::{Office, Paired};
pub(crate) use policy::{Deputies, KEYS, Policy, Typed};
pub(crate) use seen::{Chip, File, Input, Key, Now, Record, Seen, Sensors};
pub(crate) use setup::{
    Calendar, Closure, Follows, Holder, Role, RowWaits, Setup, Special, TIMETABLES, Week, Window,
};
pub(crate) use typing::LIST;
pub(crate) use windows::Hours;
