//! What happens in a world, in order, for whoever judges it afterwards.

use emulated_board::clock::Clocked;
use emulated_board::fuse::Step;
use emulated_board::trace::{Durable, Line};
use lock_core::audit::Record;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Drive, Inhibit, Switch};
use lock_core::screen::Screen;

use super::Restless;
use super::mains::Deed;
use crate::memory::{Look, Part, Print};

/// Something that happened.
#[derive(Clone, Debug)]
pub enum Happening {
    /// A line of the trace.
    Line(Line),
    /// A step was begun. It comes before the line of what it was part of.
    Step {
        /// Which.
        deed: Deed,
        /// What the power allowed of it.
        power: Step,
        /// How everything was before it.
        scene: Box<Scene>,
    },
    /// What a boot found, before the lock did anything, and in how many steps.
    Boot(Box<Look>, u64),
    /// What a boot at this moment would find.
    Look(Box<Look>),
    /// The lock came to rest, that many steps after the power came.
    Rest {
        /// Words programmed, pages erased and effects carried out.
        steps: u64,
    },
    /// The settings were changed, and a record written of it, in one.
    Edited {
        /// The line of the write.
        line: Line,
        /// The record.
        record: Record,
        /// Whether it became durable.
        durable: Durable,
        /// The settings after the change; `None` if those before it could not
        /// be read.
        after: Option<Print>,
    },
    /// Something was done to the flash from outside.
    Spoilt(Spoilt),
    /// The lock did not come to rest.
    Restless(Restless),
}

/// What was done to a flash from outside.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Spoilt {
    /// A bit turned over, in that part, in the byte with that address.
    Content(Part, u32),
    /// Its bus was disturbed: calls fail, or do other than they say.
    Bus,
}

/// Where everything round a lock is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Scene {
    /// The clocks.
    pub clock: Clocked,
    /// The bolt.
    pub bolt: Bolt,
    /// The door.
    pub door: Door,
    /// The inhibit input.
    pub inhibit: Inhibit,
    /// The service switch.
    pub switch: Switch,
    /// The blocker.
    pub blocker: Drive,
    /// What the battery gives under load.
    pub supply: Millivolts,
    /// What the display shows, with or without power.
    pub screen: Option<Screen>,
}

/// How much of what happens is written down.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Keeping {
    /// Nothing but the lines of the trace.
    Lines,
    /// All but the steps.
    Happenings,
    /// The steps too.
    Steps,
}
