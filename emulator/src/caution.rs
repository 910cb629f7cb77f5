//! What somebody must know before a lock closes a door on anything or anybody: each
//! sentence once. `tests/house/cautions.rs` holds the places that say them, the documents
//! among them, to these very words.

use crate::plain;

/// What this is not, and who comes first.
pub const CERTIFIED: &str = "This is a demonstration, not a certified lock. For a real safe \
     follow local codes and your insurer's rules, use certified locks and ask a licensed \
     locksmith.";

/// Of whom a lock can hold.
pub const INSIDE: &str = "A walk-in room needs a mechanical release inside. If somebody is shut \
     in, call the fire brigade.";

/// Before a door is closed on something new.
pub const TRY: &str = "Try codes, timetables and keys several times with the door open, and know \
     how a dead lock is opened.";

/// A false alarm brings the police; an alarm that nobody knows brings nobody.
pub const RECEIVER: &str = "Tell the alarm receiver before each test; agree with them and the \
     police what a duress code means.";

/// Money is worth no life.
pub const ROBBERY: &str = "In a robbery do what you are told.";

/// All of them, in the order in which they are said.
pub const ALL: [&str; 5] = [CERTIFIED, INSIDE, TRY, RECEIVER, ROBBERY];

/// All of them on one line; no letter of theirs means something in HTML.
#[must_use]
pub fn all() -> String {
    ALL.join(" ")
}

/// What a help ends with: `help`, and all of them below it.
pub(crate) fn below(help: &str) -> String {
    format!("{help}\n\n{}", plain::wrapped(&all()))
}
