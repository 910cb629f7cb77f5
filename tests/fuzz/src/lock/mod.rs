//! A life of a whole lock: keys, contacts, time, clock, supply, faults and
//! power cuts in any order, through the machine, the store and a plain board.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | what happens |
//! | `life.rs` | the lock that it happens to |
//! | `people.rs` | who is enrolled, with which codes, under which policy |
//! | `judge.rs` | what must hold, from what the device says it did |

mod judge;
mod life;
mod people;

use arbitrary::{Arbitrary, Result, Unstructured};
use emulated_board::fuse::Cut;
use lock_core::port::{Door, Inhibit, Switch};

use self::life::Life;
pub use self::people::{How, POLICIES};
use crate::bench::{Outside, Stuck};
use crate::sequence::cut;

/// One input.
#[derive(Debug)]
pub struct Story {
    policy: u8,
    events: Vec<Event>,
}

#[derive(Clone, Copy, Debug)]
enum Event {
    /// A key, 0 to 11.
    Key(u8),
    /// A whole entry: number, code, *OK*.
    Enter(u8, How),
    /// From rest to a task of the list, and a whole entry: who it is.
    Ask(u8, u8, How),
    /// Digits and *OK*, for a field of a dialogue.
    Line(u32, u8),
    /// Time passes: that many milliseconds.
    Wait(u64),
    /// Time passes until the lock wakes by itself.
    Sleep,
    /// A hand draws the bolt, if the blocker lets it.
    Draw,
    /// The bolt is drawn whatever stands in its way.
    Force,
    Throw,
    Door(Door),
    Inhibit(Inhibit),
    /// The service switch inside the door.
    Switch(Switch),
    Supply(u16),
    /// The clock chip jumps by seconds.
    Shift(i16),
    /// The clock chip loses what it knew.
    Lost,
    /// The drive is stuck from now on, or free again.
    Drive(Stuck),
    /// The next writes of the flash fail, lie or are denied.
    Writes(u8, u8),
    /// The power will end within a step.
    Cut(Cut),
    /// The battery is pulled.
    Pull,
}

/// Events of one story, at most.
const MOST: usize = 48;

impl<'a> Arbitrary<'a> for Story {
    fn arbitrary(u: &mut Unstructured<'a>) -> Result<Self> {
        let policy = u.arbitrary::<u8>()? % POLICIES;
        let mut events = Vec::new();
        while events.len() < MOST && !u.is_empty() {
            let Ok(event) = u.arbitrary() else { break };
            events.push(event);
        }
        Ok(Self { policy, events })
    }
}

impl<'a> Arbitrary<'a> for Event {
    fn arbitrary(u: &mut Unstructured<'a>) -> Result<Self> {
        Ok(match u.arbitrary::<u8>()? % 64 {
            key @ 0..=11 => Self::Key(key),
            12..=27 => {
                let [who, how]: [u8; 2] = u.arbitrary()?;
                Self::Enter(who, How::of(how))
            }
            28..=33 => Self::Wait(wait(u)?),
            34..=37 => Self::Sleep,
            38..=40 => Self::Draw,
            41 => Self::Force,
            42..=44 => Self::Throw,
            45 => Self::Door(Door::Open),
            46 => Self::Door(Door::Closed),
            47 => Self::Inhibit(Inhibit::Set),
            48 | 49 => Self::Inhibit(Inhibit::Clear),
            50 | 51 => Self::Supply(u.arbitrary()?),
            52 => Self::Shift(u.arbitrary()?),
            53 => Self::Lost,
            54 => Self::Drive(Stuck::Yes),
            55 => Self::Drive(Stuck::No),
            56 => {
                let [how, many]: [u8; 2] = u.arbitrary()?;
                Self::Writes(how % 3, many % 4)
            }
            57..=60 => Self::Cut(cut(u)?),
            61 => Self::Switch(if u.arbitrary()? { Switch::On } else { Switch::Off }),
            62 => match u.arbitrary::<u8>()? {
                task @ 0..=127 => {
                    let [who, how]: [u8; 2] = u.arbitrary()?;
                    Self::Ask(task % 16, who, How::of(how))
                }
                digits @ 128.. => Self::Line(u.arbitrary()?, 1 + digits % 8),
            },
            _ => Self::Pull,
        })
    }
}

/// Some time, of the order that its first byte says: from a tenth of a second
/// to a day.
fn wait(u: &mut Unstructured<'_>) -> Result<u64> {
    let [order, length]: [u8; 2] = u.arbitrary()?;
    let unit = match order % 8 {
        0 | 1 => 100,
        2..=4 => 1_000,
        5 | 6 => 20_000,
        _ => 600_000,
    };
    Ok(unit * u64::from(length))
}

/// Monday, 2027-03-01, 08:45 UTC.
const MORNING: u32 = 1_803_890_700;

/// One input.
///
/// # Panics
/// If anything does not hold.
pub fn run(story: &Story) {
    let outside = Outside::at(MORNING);
    let mut life = Life::new(&outside, story.policy);
    for event in &story.events {
        life.happens(*event);
    }
    life.end();
}
