//! A naive second lock, written from `docs/behaviour.md` alone by hands that
//! have not seen `lock-core`: plain std Rust, codes as plain text, verdicts by
//! comparing strings, local time by jiff. It shares no code and no type with
//! what it judges.
//!
//! Time is told in seconds, a story's events at whole ones. One event is one step:
//! all writes that an input brings are done within it, in the order of the contract.
//!
//! # Readings
//!
//! Where the contract can be read in two ways, or says nothing, this model does the
//! following. A difference from the core at one of these places is a question to the
//! contract first.
//!
//! 1. *Typing.* *back* in an entry of the list's items leaves to rest; so does an entry
//!    that is too long or too short.
//! 2. *Who are you* is an entry of no digits: *OK* there is *too short*.
//! 3. In a penalty an entry that is too long or too short is wiped without a notice, and
//!    what is typed becomes visible when the penalty ends.
//! 4. Number `00` is tried and counted like any unenrolled number.
//! 5. Every judged try on *n* uses up one of a barred warden's four a day, entries in a
//!    penalty none. A way in by another person's code begins with their being let
//!    through, or refused for another reason than `barred`, `suspended`, `penalty`.
//! 6. `waiting` and `other-person` are judged after section 5 and before `same-person`;
//!    `late` comes last. `same-person` and `late` leave the first waiting.
//! 7. A penalty restarted by a boot writes neither tally nor record and judges eight
//!    entries anew.
//! 8. A try that ends a way out: its own writes first.
//! 9. At one moment: permit end before claim end; claim end before the pair's limit; the
//!    penalty's end before what fades.
//! 10. A notice keeps the text it had when it began. A first person coming or going is no
//!     change of the state of access.
//! 11. From spent, a supply at `supply_low` + 200 mV is good at once; from good, one below
//!     `supply_spent` is spent at once.
//! 12. A permit that no edge of the next 62 dates ends is endless. A lock drawn after its
//!     permit's end is `left-open` at once.
//! 13. The seconds of `secured` after a boot count from the record's UTC, never below 0.
//! 14. A boot with a clock newly in doubt: no record of it has a time; `clock-doubt` and
//!     `clock-invalid` are written last. What a boot makes due is done within its step.
//! 15. The record of a setting of the clock has the target as its time. `corrected` tells
//!     what is added to the sum; with 0 it begins no new 30 days.
//! 16. In service records go on being attempted; a wait, a first person and a slow reset
//!     are dropped without one; a way out is not applied.
//! 17. A pairing code whose key is too old, or another lock's, is asked for from its first
//!     group on. A second person is asked for before the last page, by `pair` and `way-out`
//!     first. The last page says what stands against the change at each moment.
//! 18. While nobody is enrolled a boot with a clock newly in doubt writes `clock-doubt` and no
//!     record.
//! 19. A row that was restored waits, also where its holder was barred and not suspended.
//! 20. A newer file needs a version above that of the one that waits.
//! 21. *Or somebody is suspended*: the change is a suspension.
//! 22. An alarm lasts as long as the hold of any earlier try does, also where that was
//!     longer, and no duress. *Not yours* is said before *yourself*.
//! 23. Collecting the audit is not modelled: the contract has no sentence about it.

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

pub(crate) use access::Permit;
pub(crate) use attempt::duress_variant;
pub(crate) use civil::Zone;
pub(crate) use durable::{Durable, Flash};
pub(crate) use forms::{Form, Page};
pub(crate) use lock::{Make, Model};
pub(crate) use office::{Office, Paired};
pub(crate) use policy::{Deputies, KEYS, Policy};
pub(crate) use seen::{Chip, File, Input, Key, Now, Record, Seen, Sensors};
pub(crate) use setup::{
    Calendar, Closure, Follows, Holder, Role, RowWaits, Setup, Special, TIMETABLES, Week, Window,
};
pub(crate) use typing::LIST;
pub(crate) use windows::Hours;
