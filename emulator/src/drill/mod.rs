//! Drills: scripted runs of the emulated lock, with what must be seen.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Drill`]: a script that was read whole |
//! | `read.rs` | from TOML to a drill, or why not |
//! | `beside.rs` | the sites and memory sticks that it names |
//! | `moment.rs` | local times of a script as instants |
//! | `cut.rs` | where the power is to end, and how |
//! | `laptop.rs` | what the laptop does in a drill: codes, files, extracts |
//! | `play.rs` | the run, step by step |
//! | `expect.rs` | what must be seen, against what is |
//! | `listed.rs` | which records are durable |
//!
//! # Time in a drill
//! Keys take no time unless their step sets `pace`, the time between two keys.
//! Timers that are due run before what happens at that moment. `until` is
//! strictly ahead; a skipped local time is refused, a repeated one means the
//! first unless it has an offset.

mod beside;
mod cut;
mod expect;
mod laptop;
mod listed;
mod moment;
mod play;
mod read;
#[cfg(test)]
mod tests;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use emulated_board::fuse::Cut;
use lock_core::holder::Number;
use lock_core::keys::Key;
use lock_core::link::extract::Scope;
use lock_core::pairing::Pairing;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Inhibit, Switch};
use lock_core::time::Utc;

use crate::carry::Contents;
use crate::document::{LoadError, Place, read_text};
use crate::plain;
use crate::site::Site;

pub use beside::Beside;
pub use expect::{Check, Expect, Failure, Line, words_on};
#[cfg(feature = "page")]
pub(crate) use expect::{alarm, bolt};
#[cfg(feature = "page")]
pub(crate) use listed::Listed;
pub use play::{Play, Played, demo_pairing};

/// A drill that was read whole. No `Debug`: its keys may be codes.
pub struct Drill {
    /// What it shows, in a sentence.
    pub title: String,
    /// What a class learns from it, if it is a lesson.
    pub teaches: Option<String>,
    /// What errors call its file.
    pub file: String,
    /// The site that its lock belongs to.
    pub site: Arc<Site>,
    /// The lock's id in the site.
    pub lock: String,
    /// What its lock has in it.
    pub fresh: Fresh,
    /// Its lock's pairing key, if it is not that of the demonstration.
    pub paired: Option<Arc<Pairing>>,
    /// When it starts.
    pub start: Utc,
    /// Its steps.
    pub steps: Vec<Step>,
}

lock_core::silent!(Drill);

impl Drill {
    /// Whether any step expects something.
    #[must_use]
    pub fn checks(&self) -> bool {
        self.steps.iter().any(|step| step.expect.is_some())
    }
}

/// One step: something said, something done, something expected; each may be
/// left out.
pub struct Step {
    /// Where it stands in the file.
    pub place: Place,
    /// What a trainer would say.
    pub say: Option<String>,
    /// What is done.
    pub act: Option<Act>,
    /// What must be seen then.
    pub expect: Option<Expect>,
}

/// What can be done in a step. No `Debug`: keys may be codes.
pub enum Act {
    /// Keys, with so many seconds between them.
    Keys(Vec<Key>, u32),
    /// Time passes.
    Wait(u32),
    /// Time passes until then.
    Until(Utc),
    /// A hand at the handle.
    Bolt(Hand),
    /// A hand at the door.
    Door(Door),
    /// The battery.
    Power(Power),
    /// The supply, measured under load.
    Supply(Millivolts),
    /// The building's intruder alarm.
    Inhibit(Inhibit),
    /// The service switch inside the door.
    Switch(Switch),
    /// The clock chip.
    Clock(ClockChip),
    /// A courier types their number and a code that the laptop issues.
    Courier(OneTime),
    /// A memory stick is plugged in: the folder of that name, and what lies in it.
    /// Extracts go to it from then on.
    Stick(String, Arc<Contents>),
    /// The laptop loads the opening times of that site.
    Load(Arc<Site>),
    /// The newest timetable file for this lock is loaded from the stick.
    LoadNewest,
    /// The laptop collects an extract, and confirms to have it.
    Collect(Scope, Since),
    /// The power is to end within what comes next.
    Cut(Fall, Cut),
}

lock_core::silent!(Act);

/// What a lock has in it when its drill starts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fresh {
    /// All that its site says.
    No,
    /// What it has from the factory: nobody is enrolled yet.
    Factory,
    /// Nothing: its flash is erased.
    Erased,
}

/// What a courier types.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct OneTime {
    /// The courier.
    pub number: Number,
    /// Which of the codes that the laptop issues.
    pub which: Which,
    /// Whether it is its duress variant.
    pub duress: bool,
}

/// Which one-time code of a courier.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Which {
    /// The next one, after so many that are issued and not typed.
    Next(u32),
    /// The one that was typed last.
    Again,
}

/// From where on the audit is collected.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Since {
    /// All there is.
    Ever,
    /// Only what was not collected yet.
    Last,
}

/// What a hand does to the bolt.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Hand {
    /// Turns the handle gently: a blocker holds it.
    Turn(Bolt),
    /// Draws the bolt past a blocker.
    Force,
}

/// What happens to the battery.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Power {
    /// It is pulled.
    Cut,
    /// It is put back.
    Restore,
}

/// From where on the steps of a cut are counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fall {
    /// From here.
    Step,
    /// From the drive's next move.
    Drive,
    /// From the next word of a record.
    Record,
}

/// What happens to the clock chip.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ClockChip {
    /// It loses what it knew.
    Lost,
    /// It jumps by so many seconds.
    Jumps(i64),
}

impl Drill {
    /// Reads a drill file and the site file that it names.
    ///
    /// # Errors
    /// [`LoadError`]: one of the two cannot be read, or is refused.
    pub fn load(path: &Path) -> Result<Self, LoadError> {
        let text = read_text(path)?;
        let folder = path.parent().unwrap_or(Path::new("."));
        let mut beside = beside::Folder(folder.to_owned());
        Self::parse(&plain::path(path), &text, &mut beside)
    }

    /// Reads the text of a drill file; `name` is what errors call it, `beside`
    /// gives what it names: a closure that gives sites will do.
    ///
    /// # Errors
    /// [`LoadError`] at the first mistake.
    pub fn parse(name: &str, text: &str, beside: &mut dyn Beside) -> Result<Self, LoadError> {
        read::drill(name, text, beside)
    }
}

/// The drill files of `paths`: a folder stands for the `.toml` files in it, by
/// name.
///
/// # Errors
/// [`LoadError`] for a path that cannot be read, and for a folder without a
/// drill.
pub fn files(paths: &[PathBuf]) -> Result<Vec<PathBuf>, LoadError> {
    let mut files = Vec::new();
    for path in paths {
        if !path.is_dir() {
            files.push(path.clone());
            continue;
        }
        let unreadable = |why| LoadError::Unreadable { path: path.clone(), why };
        let mut found = Vec::new();
        for entry in std::fs::read_dir(path).map_err(unreadable)? {
            let file = entry.map_err(unreadable)?.path();
            if file.extension().is_some_and(|e| e == "toml") {
                found.push(file);
            }
        }
        if found.is_empty() {
            let why = std::io::Error::other("there is no .toml file in this folder");
            return Err(unreadable(why));
        }
        found.sort();
        files.append(&mut found);
    }
    Ok(files)
}
