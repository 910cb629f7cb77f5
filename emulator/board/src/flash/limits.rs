//! What a chip takes, and who asked for more.

/// How often a word takes a program between two erases.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum PerWord {
    /// Once, as flash with a check code over each word has it.
    Once,
    /// Twice.
    Twice,
    /// Twice, if the second makes the whole word zero.
    TwiceIfZero,
    /// As often as is liked.
    #[default]
    Unlimited,
}

impl PerWord {
    /// Whether a word that took `programs` takes this one.
    pub(super) fn takes(self, programs: u8, word: &[u8]) -> bool {
        match self {
            Self::Once => programs == 0,
            Self::Twice => programs < 2,
            Self::TwiceIfZero => match programs {
                0 => true,
                1 => word.iter().all(|byte| *byte == 0),
                _ => false,
            },
            Self::Unlimited => true,
        }
    }
}

/// How a worn page answers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Worn {
    /// Programs and erases fail, and change nothing.
    Fails,
    /// They change nothing, and say that all is well.
    DoesNothing,
}

/// How many erases a page takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Endurance {
    /// A page that was erased that often is worn: programs and erases of it
    /// no longer work.
    pub erases: u32,
    /// How it answers then.
    pub then: Worn,
}

/// What a chip takes. By default it takes everything that flash can do.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Limits {
    /// How often a word takes a program between two erases.
    pub programs: PerWord,
    /// How many erases a page takes; `None`: any number.
    pub endurance: Option<Endurance>,
}

/// What was asked of a chip that its data sheet forbids. Each was refused; a
/// lock that asks for any has a mistake.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Violations {
    /// Words that a program would have raised a bit of.
    pub raised: u32,
    /// Words that had their programs already.
    pub over_limit: u32,
}

impl Violations {
    /// Whether there was none.
    #[must_use]
    pub const fn is_none(&self) -> bool {
        self.raised == 0 && self.over_limit == 0
    }
}
