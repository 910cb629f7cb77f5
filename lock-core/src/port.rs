//! All that lock and store, and lock and board, share: inputs, effects, writes.
//!
//! One turn of the machine: *reads are arguments; writes are turn-arounds.* A
//! step takes the moment, one input and read access to the settings. It returns
//! at most five effects, then either a wake-up time or one durable write.
//! Effects are carried out first; the write's result is the next input, before
//! any key. What must follow a write is issued only by the step that receives
//! its result.

use serde::{Deserialize, Serialize};

use crate::audit::{Entry, People, Record, Seq};
use crate::code::{self, Claim, Digest, LockKey};
use crate::holder::{Claimed, HolderRow, Number};
use crate::keys::Key;
use crate::link::{FileFault, Fingerprint, Version};
use crate::pairing::Pairing;
use crate::policy::Millivolts;
use crate::rules::way_out::Future;
use crate::rules::{Days, Unreadable};
use crate::screen::Screen;
use crate::seal::CHUNK;
use crate::settings::{Edit, FileState};
use crate::time::{Date, Seconds, Shift, Steady, Uptime, Utc, Zone};
use crate::timetable::{Day, TimetableId, Timetables};

/// What the clock chip says.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Chip {
    /// It runs, and reads this.
    At(Utc),
    /// It lost power since it was set: what it reads means nothing.
    Lost,
}

/// The moment of a step.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Now {
    /// Time since the boot; never jumps.
    pub uptime: Uptime,
    /// The clock chip's reading.
    pub chip: Chip,
}

/// The bolt, as its contact reports it.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bolt {
    /// Thrown: the safe is locked by it.
    Thrown,
    /// Drawn: the door can be opened.
    Drawn,
}

/// The door, as its contact reports it; `Closed` where there is none.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Door {
    /// Closed.
    Closed,
    /// Open.
    Open,
}

/// The inhibit input. Fail-secure: a broken line reads as set.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Inhibit {
    /// Openings are possible.
    Clear,
    /// The building's intruder alarm is set: no opening.
    Set,
}

/// The service switch inside the door: only somebody at an open safe reaches
/// it. A broken line reads as off.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Switch {
    /// As in use.
    Off,
    /// For commissioning and reset.
    On,
}

/// What the contacts report at one moment.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Contacts {
    /// The bolt.
    pub bolt: Bolt,
    /// The door.
    pub door: Door,
    /// The inhibit input.
    pub inhibit: Inhibit,
    /// The service switch inside the door.
    pub switch: Switch,
}

impl Contacts {
    /// Whether the bolt is drawn or the door open.
    #[must_use]
    pub fn ajar(&self) -> bool {
        self.bolt == Bolt::Drawn || self.door == Door::Open
    }
}

/// What a steward's session brought, once it is whole.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Transfer {
    /// A timetable file was staged, and opened and checked whole.
    Offered(Offer),
    /// A reader confirmed to have the audit up to that record.
    Collected(Seq),
}

/// A timetable file that waits for somebody's *OK*.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Offer {
    /// Its version.
    pub version: u32,
    /// Its fingerprint, eight digits.
    pub fingerprint: u32,
    /// The timetables that it opens wider than they are.
    pub wider: Timetables,
    /// What the people of the lock can come to with it.
    pub future: Future,
}

/// What a step is told. No `Debug`: a key may be part of a code; see
/// [`Input::kind`] for what a log may say.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Input {
    /// A key was pressed.
    Key(Key),
    /// The bolt moved.
    Bolt(Bolt),
    /// The door moved.
    Door(Door),
    /// The supply was measured under load.
    Supply(Millivolts),
    /// The inhibit input changed.
    Inhibit(Inhibit),
    /// The service switch was turned.
    Switch(Switch),
    /// A steward carried something in or out.
    Transfer(Transfer),
    /// A wake-up that an earlier turn asked for, or any other look at the time.
    Woken,
    /// The drive did not reach where it was sent.
    DriveFault,
    /// The result of the write that the last turn asked for.
    Stored(Result<(), StoreFault>),
}

silent!(Input);

impl Input {
    /// What a log may say of it.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Key(_) => "key",
            Self::Bolt(Bolt::Thrown) => "bolt thrown",
            Self::Bolt(Bolt::Drawn) => "bolt drawn",
            Self::Door(Door::Closed) => "door closed",
            Self::Door(Door::Open) => "door open",
            Self::Supply(_) => "supply",
            Self::Inhibit(Inhibit::Clear) => "inhibit clear",
            Self::Inhibit(Inhibit::Set) => "inhibit set",
            Self::Switch(Switch::Off) => "service switch off",
            Self::Switch(Switch::On) => "service switch on",
            Self::Transfer(Transfer::Offered(_)) => "file offered",
            Self::Transfer(Transfer::Collected(_)) => "audit collected",
            Self::Woken => "woken",
            Self::DriveFault => "drive fault",
            Self::Stored(Ok(())) => "stored",
            Self::Stored(Err(_)) => "not stored",
        }
    }
}

/// Where the drive is to move the blocker. It never moves the bolt (R9).
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Drive {
    /// Free the bolt, so that a hand can draw it.
    Free,
    /// Block the thrown bolt.
    Block,
}

/// The level of the alarm line.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Alarm {
    /// Nothing to report.
    Quiet,
    /// Open without a release.
    Tamper,
    /// A duress code was entered.
    Duress,
}

/// A sound for the person at the keypad.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sound {
    /// A key did something.
    Key,
    /// What was asked for is granted.
    Accepted,
    /// It is refused.
    Refused,
    /// Something needs attention.
    Warning,
}

/// Something the board carries out at once.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Effect {
    /// Set the alarm line.
    Alarm(Alarm),
    /// Move the blocker.
    Drive(Drive),
    /// Show this.
    Show(Screen),
    /// Make this sound.
    Sound(Sound),
    /// Set the clock chip.
    SetClock(Utc),
}

/// Effects that one turn can have: one of each kind.
pub const EFFECTS: usize = 5;

/// An entry of the tally: the counts and marks that change too often, or too
/// small, for the settings.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tally {
    /// A try on this number, before it is judged (R2).
    Counted(Number),
    /// A right code cleared this number's own counts.
    Cleared(Number),
    /// A penalty started: the lock's count restarts, the step rises.
    Penalty,
    /// The penalty was served to its end, powered.
    Served,
    /// A wrong try on this number weighs no more.
    Faded(Number),
    /// A day without another penalty: the step falls to 0.
    Eased,
    /// A hold-shut until then.
    HeldShut(Steady),
    /// The clock is not believed until it is set; steady time stands still there,
    /// if it is known.
    ClockDoubt(Option<Steady>),
    /// The clock was set and needs no settling time: it is believed.
    Corrected {
        /// By how much, forward or back, a steward alone; zero for two people.
        by: Seconds,
        /// The shift from now on.
        shift: Shift,
    },
    /// So long passed without a correction that their sum falls to nothing.
    CorrectionsOver,
    /// Two people set the clock: it is believed, and the settling time begins.
    /// The shift from now on.
    ClockSet(Shift),
    /// The settling time is over.
    Settled,
    /// A reader confirmed to have the audit up to that record.
    Collected(Seq),
    /// The lock was opened then: what was made to wait before that waits no more.
    Brought(Steady),
    /// The lock is being set up: widening applies at once (R11).
    SettingUp,
    /// Somebody could open: being set up is over.
    SetUp,
    /// The lock was powered up behind two power-ups, which are on record.
    PoweredUp,
    /// These privileged people asked for a way out (R11).
    WayOut(People),
    /// That is over.
    WayOutOver,
}

/// What a turn asks to be made durable.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Write {
    /// An entry of the tally.
    Tally(Tally),
    /// A record of the audit.
    Record(Record),
    /// The change that the machine holds ready, and its record, in one (R6).
    Edit(Record),
}

/// A write failed, or did not read back.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct StoreFault;

/// What a store did when nobody waited.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Upkeep {
    /// Nothing was due.
    None,
    /// What was due is done.
    Done,
}

/// What follows the effects of a turn.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Then {
    /// Nothing until an input comes, or that moment.
    Sleep(Option<Uptime>),
    /// This write; its result is the next input.
    Write(Write),
}

/// One turn of the machine.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Turn {
    /// To be carried out first, in order.
    pub effects: heapless::Vec<Effect, EFFECTS>,
    /// To be done then.
    pub then: Then,
}

/// Why a lock needs service.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fault {
    /// No settings yet: the lock was never commissioned.
    Blank,
    /// Settings of another layout: they are somebody's, but not readable here.
    Layout,
    /// Settings that cannot be read.
    Settings,
    /// A write that failed.
    Store,
    /// A drive that did not move.
    Drive,
    /// A mistake of ours: the lock lost track of what it was doing.
    Bug,
}

/// Read access to the settings, given to each step.
pub trait Reads: Days {
    /// The row of holder `n`, or `None` if nobody is enrolled there.
    ///
    /// # Errors
    /// [`Unreadable`] if the row cannot be read back whole.
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable>;

    /// The row of number `n` to judge a code by. A store does the same work
    /// whether anybody is enrolled there (R5); what this default does is good for
    /// a row that lies in memory.
    ///
    /// # Errors
    /// As [`Reads::holder`].
    fn claimed(&mut self, n: Number) -> Result<Claimed, Unreadable> {
        self.holder(n).map(Claimed::from)
    }

    /// The digest of a code under the lock key that the settings hold. A store whose
    /// [keeper](crate::code::Keeper) has a key of its own asks that one.
    ///
    /// # Errors
    /// [`Unreadable`] if the keeper fails.
    fn digest(&mut self, key: &LockKey, claim: Claim<'_>) -> Result<Digest, Unreadable> {
        Ok(code::digest(key, claim.salt, claim.number, claim.code))
    }

    /// How many holders are enrolled. With none the lock asks to be
    /// commissioned.
    ///
    /// # Errors
    /// [`Unreadable`] if the settings cannot be read back whole.
    fn enrolled(&mut self) -> Result<u8, Unreadable>;

    /// The pairing key; `None` before the first pairing.
    ///
    /// # Errors
    /// [`Unreadable`] if it cannot be read back whole.
    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable>;

    /// The highest generation that a pairing key of this lock ever had, 0 for none: it
    /// outlives a reset, so that what was sealed under an old key, and a courier's used
    /// codes, do not come back with it.
    ///
    /// # Errors
    /// [`Unreadable`] if it cannot be read back whole.
    fn last_generation(&mut self) -> Result<u32, Unreadable> {
        self.pairing().map(|pairing| pairing.map_or(0, |pairing| pairing.generation()))
    }

    /// The newest record's number.
    fn newest_seq(&mut self) -> Option<Seq>;

    /// The zone rule: a timetable file that is adopted brings one.
    ///
    /// # Errors
    /// [`Unreadable`] if it cannot be read back whole; of settings that never
    /// change nobody asks it.
    fn zone(&mut self) -> Result<Zone, Unreadable> {
        Err(Unreadable)
    }

    /// What is known of timetable files; of settings that take none, nothing.
    ///
    /// # Errors
    /// [`Unreadable`] if it cannot be read back whole.
    fn file_state(&mut self) -> Result<FileState, Unreadable> {
        Ok(FileState::default())
    }

    /// What `date` is to timetable `id` in the calendar in force, whatever waits.
    ///
    /// # Errors
    /// As [`Days::day`].
    fn day_in_force(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.day(id, date)
    }

    /// What `date` will be to timetable `id` once the file that waits is adopted; what
    /// it is, if none waits.
    ///
    /// # Errors
    /// As [`Days::day`].
    fn day_to_come(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.day(id, date)
    }

    /// The zone rule once the file that waits is adopted; that in force, if none waits.
    ///
    /// # Errors
    /// As [`Reads::zone`].
    fn zone_to_come(&mut self) -> Result<Zone, Unreadable> {
        self.zone()
    }
}

/// Where the lock keeps what must outlive a power cut.
pub trait Store: Reads {
    /// Makes `write` durable. `Ok` means durable and read back.
    ///
    /// # Errors
    /// [`StoreFault`] if that could not be achieved; the write may or may not
    /// have reached the flash.
    fn write(&mut self, write: &Write) -> Result<(), StoreFault>;

    /// Makes a change of the settings durable, and the record of it, in one
    /// (R6).
    ///
    /// # Errors
    /// [`StoreFault`] if that could not be achieved or the edit is not a
    /// sensible one; the change may or may not have reached the flash, whole.
    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault>;

    /// Keeps the next piece of a sealed timetable file: its header as number 0, which
    /// begins anew, then its chunks in order. 1 to 256 bytes.
    ///
    /// Nothing of it outlives a power cut, and nothing of it holds, before the file
    /// waits ([`Edit::Wait`]) or is adopted ([`Edit::Adopt`]). A file that waits goes on
    /// doing so meanwhile: what it narrows is in force, and taking that back would widen
    /// at once (R3). Only one of those two edits, of the newer file, takes its place, in
    /// one: whatever the power does, one of the two counts.
    ///
    /// # Errors
    /// [`StoreFault`] if that could not be achieved: the file has to begin anew.
    /// A store that takes no files never achieves it.
    fn stage(&mut self, index: u8, bytes: &[u8]) -> Result<(), StoreFault> {
        let _none_is_taken = (index, bytes);
        Err(StoreFault)
    }

    /// Piece `index` of the staged file, as it was sealed: how many bytes of `buf` it
    /// fills.
    fn staged_chunk(&mut self, index: u8, buf: &mut [u8; CHUNK]) -> Option<usize> {
        let _none_is_there = (index, buf);
        None
    }

    /// The staged file, opened and checked whole: newer than what is in force and than
    /// what waits.
    ///
    /// # Errors
    /// [`FileFault`] if it is not to be adopted.
    fn staged(&mut self) -> Result<(Version, Fingerprint), FileFault> {
        Err(FileFault::NotStaged)
    }

    /// What `date` is to timetable `id` in the file that [`Store::staged`] opened.
    ///
    /// # Errors
    /// [`Unreadable`] if it cannot be read back whole, or none was opened since another
    /// one was begun.
    fn staged_day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        let _none_is_there = (id, date);
        Err(Unreadable)
    }

    /// The zone rule of that file.
    ///
    /// # Errors
    /// As [`Store::staged_day`].
    fn staged_zone(&mut self) -> Result<Zone, Unreadable> {
        Err(Unreadable)
    }

    /// The first record numbered `from` or later, or the gap that begins there.
    fn entry(&mut self, from: Seq) -> Option<Entry>;

    /// Does what can wait until nobody waits, such as erasing ahead. Called
    /// whenever the lock has nothing else to do; mostly it has nothing to do.
    ///
    /// # Errors
    /// [`StoreFault`] if it is not done: it stays due.
    fn tend(&mut self) -> Result<Upkeep, StoreFault> {
        Ok(Upkeep::None)
    }
}
