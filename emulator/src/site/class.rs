//! The class of lock that a customer or insurer asks for.
//!
//! A class asks for a least number of usable codes. The figures are those of
//! EN 1300, *from memory*: look them up before relying on them. Naming a class
//! claims no conformity; `plan check` compares the policy with it, nothing else.

use crate::document::{Field, Place, Read, Source, Table, Wrong};

/// The key in `[policy]` and `[[lock]]`.
pub(super) const KEY: &str = "class";

/// A class, by the number of usable codes that it asks for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Class {
    /// 80,000 codes.
    A,
    /// 100,000 codes.
    B,
    /// 1,000,000 codes.
    C,
    /// 3,000,000 codes.
    D,
}

impl Class {
    /// Every class, from the least to the most.
    pub const ALL: [Self; 4] = [Self::A, Self::B, Self::C, Self::D];

    /// The letter that names it.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::A => 'A',
            Self::B => 'B',
            Self::C => 'C',
            Self::D => 'D',
        }
    }

    /// The least number of usable codes (EN 1300, from memory).
    #[must_use]
    pub const fn least_codes(self) -> u32 {
        match self {
            Self::A => 80_000,
            Self::B => 100_000,
            Self::C => 1_000_000,
            Self::D => 3_000_000,
        }
    }
}

/// Reads the class of a table, if it names one.
pub(super) fn read(table: &Table<'_>, source: &Source<'_>) -> Read<Option<(Class, Place)>> {
    let Some(field) = table.get(KEY) else { return Ok(None) };
    let class = find(&field)?;
    Ok(Some((class, source.place(field.at().start))))
}

fn find(field: &Field<'_>) -> Read<Class> {
    let name = field.text()?;
    Class::ALL.into_iter().find(|class| name == class.letter().to_string()).ok_or_else(|| {
        let what = "There is no such class.";
        Wrong::new(&field.at(), what, "Classes are called A, B, C and D.").here("unknown class")
    })
}
