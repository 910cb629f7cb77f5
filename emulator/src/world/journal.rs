//! What happens in a world, in order, for whoever judges it afterwards.

use emulated_board::fuse::Step;
use emulated_board::trace::Line;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Drive, Inhibit};
use lock_core::screen::Screen;

use super::clock::Clocked;
use super::mains::Deed;
use crate::memory::Look;

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
    /// What a boot found, before the lock did anything.
    Boot(Box<Look>),
    /// What a boot at this moment would find.
    Look(Box<Look>),
    /// The lock came to rest, that many steps after the power came.
    Rest {
        /// Words programmed, pages erased and effects carried out.
        steps: u64,
    },
    /// Something was done to the flash while it lay there.
    Spoilt(Spoilt),
}

/// Where content of the flash was spoilt, as by a flipped bit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Spoilt {
    /// In a settings bank.
    Settings,
    /// In the tally.
    Tally,
    /// In a ring of records.
    Ring,
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
