//! The power of one board: flash, drive, alarm line, display and sounder hang
//! on it, and the clock chip is set through it.
//!
//! Each word programmed, page erased and effect carried out is one step of the
//! same row, and the power can be made to end within any of them. On a host the
//! row can also be written down.

use std::cell::{Cell, RefCell};
use std::fmt;
use std::rc::Rc;

use emulated_board::fuse::{Act, Class, Cut, Fuse, Power, Step};
use lock_core::port::Effect;

/// A board's power. Clones are the same power.
#[derive(Clone, Default)]
pub struct Mains(Rc<Supply>);

#[derive(Default)]
struct Supply {
    fuse: Fuse,
    ambush: Cell<Option<Ambush>>,
    /// Whether the fuse was armed since the power last came.
    armed: Cell<bool>,
    /// How the step was torn that the power ended within.
    torn: Cell<Option<(Class, u64)>>,
    /// Steps written down since somebody last took them; `None`: nobody asked.
    journal: RefCell<Option<Vec<(Deed, Step)>>>,
}

/// A step that was begun. Its `Debug` leaves out what was programmed: a word of flash
/// may be part of a key.
#[derive(Clone, PartialEq, Eq)]
pub enum Deed {
    /// A word of flash was programmed.
    Program {
        /// Its first byte.
        address: u32,
        /// What was to be in it.
        word: Box<[u8]>,
    },
    /// A page of flash was erased.
    Erase {
        /// Its number.
        page: u32,
    },
    /// An effect was carried out.
    Effect(Effect),
    /// The clock chip was set, or lost what it knew.
    Clock,
}

impl fmt::Debug for Deed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Program { address, .. } => write!(f, "Program {{ address: {address}, .. }}"),
            Self::Erase { page } => write!(f, "Erase {{ page: {page} }}"),
            Self::Effect(effect) => write!(f, "Effect({effect:?})"),
            Self::Clock => f.write_str("Clock"),
        }
    }
}

impl Deed {
    /// The deed as the flash takes it.
    #[must_use]
    pub fn act(&self) -> Act<'_> {
        match self {
            Self::Program { address, word } => Act::Program { address: *address, word },
            Self::Erase { page } => Act::Erase { page: *page },
            Self::Effect(_) | Self::Clock => Act::Effect,
        }
    }

    /// Whether it is one of the flash.
    #[must_use]
    pub const fn is_of_flash(&self) -> bool {
        match self {
            Self::Program { .. } | Self::Erase { .. } => true,
            Self::Effect(_) | Self::Clock => false,
        }
    }
}

/// A cut that waits for something to happen.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Ambush {
    /// What it waits for.
    pub at: Awaited,
    /// The cut, counted from there.
    pub cut: Cut,
}

/// What a cut can wait for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Awaited {
    /// The drive is sent somewhere.
    Drive,
    /// A word is programmed in that part of the flash.
    Flash {
        /// Its first byte.
        from: u32,
        /// The byte behind its last one.
        to: u32,
    },
}

impl Mains {
    /// Power that is on and lasts.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The power ends within the step that `cut` names, instead of any end
    /// that was ordered before.
    pub fn arm(&self, cut: Cut) {
        self.0.ambush.set(None);
        self.0.armed.set(true);
        self.0.fuse.arm(cut);
    }

    /// The power ends once what `ambush` waits for happens, instead of any end
    /// that was ordered before.
    pub fn lie_in_wait(&self, ambush: Ambush) {
        self.0.ambush.set(Some(ambush));
    }

    /// Whether an end of the power was ordered that has not come yet.
    #[must_use]
    pub fn cut_is_due(&self) -> bool {
        self.0.ambush.get().is_some() || (self.0.armed.get() && !self.0.fuse.blown())
    }

    /// The power ends now.
    pub fn cut(&self) {
        self.0.fuse.power_cut();
    }

    /// The power is back; no end is ordered any more.
    pub fn restore(&self) {
        self.0.ambush.set(None);
        self.0.armed.set(false);
        self.0.fuse.power_cycle();
    }

    /// Steps begun so far.
    #[must_use]
    pub fn steps(&self) -> u64 {
        self.0.fuse.steps()
    }

    /// How the step was torn that the power ended within, if it did since the
    /// last call.
    #[must_use]
    pub fn take_torn(&self) -> Option<(Class, u64)> {
        self.0.torn.take()
    }

    /// Takes the step of an effect; whether it reaches the world.
    pub fn effect(&self, effect: Effect) -> bool {
        if matches!(effect, Effect::Drive(_)) {
            self.spring(|at| *at == Awaited::Drive);
        }
        self.take(Act::Effect, || Deed::Effect(effect)).reaches_the_world()
    }

    /// Takes the step of setting the clock chip; whether it is set. Without
    /// power it is: the chip has a cell of its own.
    pub fn clock(&self) -> bool {
        if !self.is_on() {
            return true;
        }
        self.take(Act::Effect, || Deed::Clock).reaches_the_world()
    }

    /// Steps are written down from now on.
    pub fn write_down(&self) {
        self.0.journal.replace(Some(Vec::new()));
    }

    /// The steps since the last call and what the power allowed of them, if
    /// they are written down.
    #[must_use]
    pub fn take_deeds(&self) -> Vec<(Deed, Step)> {
        self.0.journal.borrow_mut().as_mut().map(std::mem::take).unwrap_or_default()
    }

    fn take(&self, act: Act<'_>, deed: impl FnOnce() -> Deed) -> Step {
        let step = self.0.fuse.step(act);
        if let Step::Torn(class, seed) = step {
            self.0.torn.set(Some((class, seed)));
        }
        if let Some(journal) = self.0.journal.borrow_mut().as_mut()
            && step != Step::Nothing
        {
            journal.push((deed(), step));
        }
        step
    }

    /// Orders the cut that waited for this.
    fn spring(&self, met: impl FnOnce(&Awaited) -> bool) {
        if let Some(ambush) = self.0.ambush.get()
            && met(&ambush.at)
        {
            self.arm(ambush.cut);
        }
    }
}

impl Power for Mains {
    fn step(&self, act: Act<'_>) -> Step {
        if let Act::Program { address, .. } = act {
            self.spring(|at| match at {
                Awaited::Flash { from, to } => (*from..*to).contains(&address),
                Awaited::Drive => false,
            });
        }
        self.take(act, || match act {
            Act::Program { address, word } => Deed::Program { address, word: word.into() },
            Act::Erase { page } => Deed::Erase { page },
            Act::Effect => Deed::Clock,
        })
    }

    fn is_on(&self) -> bool {
        self.0.fuse.is_on()
    }

    fn returns(&self) -> u64 {
        self.0.fuse.returns()
    }
}

/// The promises of this module.
#[cfg(test)]
mod tests {
    use emulated_board::fuse::Class;
    use lock_core::port::{Alarm, Drive};

    use super::*;

    const FREE: Effect = Effect::Drive(Drive::Free);
    const QUIET: Effect = Effect::Alarm(Alarm::Quiet);

    fn cut(after: u64) -> Cut {
        Cut { after, class: Class::Before, seed: 0 }
    }

    #[test]
    fn flash_effects_and_clock_are_one_row_of_steps() {
        let mains = Mains::new();
        mains.write_down();
        mains.arm(cut(3));
        let word = [7; 4];
        assert_eq!(mains.step(Act::Program { address: 8, word: &word }), Step::Whole);
        assert!(mains.effect(QUIET) && mains.clock());
        assert!(!mains.effect(FREE) && !mains.is_on());
        assert!(!mains.effect(FREE) && mains.clock());
        let expected = [
            (Deed::Program { address: 8, word: word.into() }, Step::Whole),
            (Deed::Effect(QUIET), Step::Whole),
            (Deed::Clock, Step::Whole),
            (Deed::Effect(FREE), Step::Torn(Class::Before, 0)),
        ];
        assert_eq!(mains.take_deeds(), expected);
        assert_eq!((mains.steps(), mains.take_deeds().len()), (4, 0));
    }

    #[test]
    fn an_ambush_waits_and_is_forgotten_with_the_power() {
        let mains = Mains::new();
        mains.lie_in_wait(Ambush { at: Awaited::Drive, cut: cut(1) });
        assert_eq!(mains.step(Act::Program { address: 8, word: &[0; 8] }), Step::Whole);
        assert!(mains.effect(QUIET) && mains.effect(FREE) && mains.cut_is_due());
        assert!(!mains.effect(QUIET) && !mains.cut_is_due());
        mains.restore();
        assert!(!mains.cut_is_due());
        mains.lie_in_wait(Ambush { at: Awaited::Flash { from: 8, to: 16 }, cut: cut(0) });
        for (address, step) in
            [(0, Step::Whole), (16, Step::Whole), (8, Step::Torn(Class::Before, 0))]
        {
            assert_eq!(mains.step(Act::Program { address, word: &[0; 8] }), step);
        }
        mains.restore();
        mains.lie_in_wait(Ambush { at: Awaited::Drive, cut: cut(0) });
        mains.cut();
        mains.restore();
        assert!(mains.effect(FREE));
    }
}
