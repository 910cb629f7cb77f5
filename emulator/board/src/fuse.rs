//! The power, and how it ends.
//!
//! Whatever the lock does to the world is a *step*: a word programmed, a page
//! erased, an effect carried out (the bolt, the alarm, the clock). All of them
//! are numbered in one row, so that an end of the power also falls between the
//! write of a record and the release that follows it.
//!
//! Whoever takes a step asks [`Power::step`] first, and does what it says. The
//! power may end between two steps or within one. A step that it ends within
//! is *torn*: its [`Class`] says how, and its seed decides what the class
//! leaves open.

use core::cell::Cell;

use crate::splitmix::SplitMix;

/// How a step is torn.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Class {
    /// Nothing of it happens.
    Before,
    /// All of it happens, and is not reported.
    After,
    /// The front part of the word or page.
    Prefix,
    /// The back part.
    Suffix,
    /// Any of the bits that were to change.
    Subset,
    /// A program as [`Class::Subset`]; an erase leaves any content.
    Random,
    /// Any of the bits that were to change; all others of them read
    /// differently from read to read.
    Unstable,
    /// It reads complete at first; some of the bits are weak and read either
    /// way later.
    LooksDone,
}

impl Class {
    /// Each of them.
    pub const ALL: [Self; 8] = [
        Self::Before,
        Self::After,
        Self::Prefix,
        Self::Suffix,
        Self::Subset,
        Self::Random,
        Self::Unstable,
        Self::LooksDone,
    ];

    /// Its name, for reports and command lines.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Before => "before",
            Self::After => "after",
            Self::Prefix => "prefix",
            Self::Suffix => "suffix",
            Self::Subset => "subset",
            Self::Random => "random",
            Self::Unstable => "unstable",
            Self::LooksDone => "looks-done",
        }
    }
}

/// What is about to happen in one step. No `Debug`: a word of flash may be part of a
/// key.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Act<'a> {
    /// One word of flash is programmed.
    Program {
        /// Its first byte.
        address: u32,
        /// What is to be in it.
        word: &'a [u8],
    },
    /// One page of flash is erased.
    Erase {
        /// Its number, from the start of the flash.
        page: u32,
    },
    /// An effect is carried out.
    Effect,
}

lock_core::silent!(Act<'_>);

/// What the power allows of a step.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Step {
    /// All of it.
    Whole,
    /// The power ends within it; the seed decides what the class leaves open.
    Torn(Class, u64),
    /// Nothing: the power is out.
    Nothing,
}

impl Step {
    /// Whether an effect that was to happen in this step reaches the world.
    /// There are no halves of an effect: of a torn one, the classes other than
    /// [`Class::Before`] and [`Class::After`] leave it to the seed.
    #[must_use]
    pub const fn reaches_the_world(self) -> bool {
        match self {
            Self::Whole | Self::Torn(Class::After, _) => true,
            Self::Nothing | Self::Torn(Class::Before, _) => false,
            Self::Torn(
                Class::Prefix
                | Class::Suffix
                | Class::Subset
                | Class::Random
                | Class::Unstable
                | Class::LooksDone,
                seed,
            ) => SplitMix::at(seed, 0) & 1 == 1,
        }
    }
}

/// The power supply, as the parts of a board see it.
pub trait Power {
    /// Takes a step: call it once before each, and do what it says. When it
    /// says anything but [`Step::Whole`], the power is out.
    fn step(&self, act: Act<'_>) -> Step;

    /// Whether there is power.
    fn is_on(&self) -> bool;

    /// How often the power came back. A chip learns from a change of it that
    /// it was without power in between.
    fn returns(&self) -> u64;
}

impl<P: Power> Power for &P {
    fn step(&self, act: Act<'_>) -> Step {
        P::step(self, act)
    }

    fn is_on(&self) -> bool {
        P::is_on(self)
    }

    fn returns(&self) -> u64 {
        P::returns(self)
    }
}

/// An end of the power within a step.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Cut {
    /// Steps that still happen whole, before the torn one.
    pub after: u64,
    /// How that one is torn.
    pub class: Class,
    /// What decides the rest.
    pub seed: u64,
}

/// When the power ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum End {
    Never,
    /// After that many more whole steps, one at least, before the next begins.
    Between(u64),
    Within(Cut),
}

/// A plain power supply. Clones begin with the same state and go on apart; to
/// share one, hand out references.
#[derive(Clone, Debug)]
pub struct Fuse {
    on: Cell<bool>,
    end: Cell<End>,
    blown: Cell<bool>,
    steps: Cell<u64>,
    returns: Cell<u64>,
}

impl Fuse {
    /// Power that lasts.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            on: Cell::new(true),
            end: Cell::new(End::Never),
            blown: Cell::new(false),
            steps: Cell::new(0),
            returns: Cell::new(0),
        }
    }

    /// The power ends within the step that `cut` names, instead of any end
    /// that was ordered before. It does not bring power back: arm after
    /// [`Fuse::power_cycle`].
    pub fn arm(&self, cut: Cut) {
        self.blown.set(false);
        self.end.set(End::Within(cut));
    }

    /// The power ends after that many more whole steps, before the next one;
    /// at once if there are none.
    pub fn cut_after(&self, steps: u64) {
        self.blown.set(false);
        if steps == 0 {
            self.blow();
        } else {
            self.end.set(End::Between(steps));
        }
    }

    /// The power ends now.
    pub fn power_cut(&self) {
        self.on.set(false);
        self.end.set(End::Never);
    }

    /// The power ends, if it was not out already, and is back. No further end
    /// is ordered.
    pub fn power_cycle(&self) {
        self.on.set(true);
        self.end.set(End::Never);
        self.returns.set(self.returns.get().saturating_add(1));
    }

    /// Steps begun so far: whole ones, and torn ones of any class.
    #[must_use]
    pub fn steps(&self) -> u64 {
        self.steps.get()
    }

    /// Whether an end that was ordered has come since it was ordered. It stays
    /// so when the power is back, until the next order.
    #[must_use]
    pub fn blown(&self) -> bool {
        self.blown.get()
    }

    fn blow(&self) {
        self.blown.set(true);
        self.power_cut();
    }
}

impl Default for Fuse {
    fn default() -> Self {
        Self::new()
    }
}

impl Power for Fuse {
    fn step(&self, _: Act<'_>) -> Step {
        if !self.on.get() {
            return Step::Nothing;
        }
        self.steps.set(self.steps.get().saturating_add(1));
        match self.end.get() {
            End::Never => {}
            End::Between(left) => match left.saturating_sub(1) {
                0 => self.blow(),
                left => self.end.set(End::Between(left)),
            },
            End::Within(cut) => match cut.after.checked_sub(1) {
                None => {
                    self.blow();
                    return Step::Torn(cut.class, cut.seed);
                }
                Some(after) => self.end.set(End::Within(Cut { after, ..cut })),
            },
        }
        Step::Whole
    }

    fn is_on(&self) -> bool {
        self.on.get()
    }

    fn returns(&self) -> u64 {
        self.returns.get()
    }
}

/// The promises of this module.
#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cut_falls_within_the_step_it_names_and_the_power_stays_out() {
        for after in 0..5 {
            let fuse = Fuse::new();
            fuse.arm(Cut { after, class: Class::Subset, seed: 9 });
            for _ in 0..after {
                assert!(fuse.is_on());
                assert_eq!((&&fuse).step(Act::Effect), Step::Whole);
            }
            assert!(fuse.is_on() && !fuse.blown());
            assert_eq!(fuse.step(Act::Erase { page: 0 }), Step::Torn(Class::Subset, 9));
            assert!(!fuse.is_on() && fuse.blown());
            assert_eq!(fuse.step(Act::Effect), Step::Nothing);
            assert_eq!(fuse.steps(), after + 1);
            fuse.power_cycle();
            assert!(fuse.is_on() && fuse.blown());
            assert_eq!((fuse.returns(), fuse.step(Act::Effect)), (1, Step::Whole));
        }
    }

    #[test]
    fn a_cut_between_steps_comes_as_the_last_whole_one_ends() {
        let fuse = Fuse::new();
        fuse.cut_after(2);
        assert_eq!([fuse.step(Act::Effect), fuse.step(Act::Effect)], [Step::Whole; 2]);
        assert!(!fuse.is_on() && fuse.blown());
        fuse.power_cycle();
        fuse.cut_after(0);
        assert!(!fuse.is_on() && fuse.blown());
        assert_eq!(fuse.step(Act::Effect), Step::Nothing);
        assert_eq!(fuse.steps(), 2);
    }

    #[test]
    fn an_order_is_replaced_by_the_next_and_forgotten_with_the_power() {
        let fuse = Fuse::new();
        fuse.cut_after(1);
        fuse.arm(Cut { after: 1, class: Class::Before, seed: 0 });
        assert_eq!(fuse.step(Act::Effect), Step::Whole);
        let twin = fuse.clone();
        fuse.power_cycle();
        assert_eq!(fuse.step(Act::Effect), Step::Whole);
        assert_eq!(twin.step(Act::Effect), Step::Torn(Class::Before, 0));
        assert!(fuse.is_on() && !twin.is_on());
    }

    #[test]
    fn a_torn_effect_happens_or_not() {
        assert!(Step::Whole.reaches_the_world() && !Step::Nothing.reaches_the_world());
        for class in Class::ALL {
            let reached = (0..64).filter(|seed| Step::Torn(class, *seed).reaches_the_world());
            match (class, reached.count()) {
                (Class::Before, n) => assert_eq!(n, 0),
                (Class::After, n) => assert_eq!(n, 64),
                (_, n) => assert!((8..56).contains(&n), "{class:?} {n}"),
            }
        }
    }
}
