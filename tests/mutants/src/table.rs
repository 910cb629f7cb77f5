//! The table of mutants, as `tests/mutants.toml` has it.

use std::path::Path;

use serde::Deserialize;
use thiserror::Error;

/// All mutants, in their order.
#[derive(Debug)]
pub struct Table(pub Vec<Mutant>);

/// One bug on purpose.
#[derive(Debug)]
pub struct Mutant {
    /// What it is called.
    pub name: String,
    /// What is wrong with it, in a sentence.
    pub about: String,
    /// The checks, each of which must find it.
    pub caught_by: Vec<Check>,
    /// Where it stands.
    pub places: Vec<Place>,
}

/// Text of one file that is replaced.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// The file, from the root of the repository.
    pub file: String,
    /// What stands there, exactly once.
    pub find: String,
    /// What is put there.
    pub replace: String,
}

/// What must find a mutant.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Check {
    /// A rig.
    Rig(Rig),
    /// A drill, which must fail; its file below `emulator/demo`.
    Drill(String),
}

/// A rig, with the options that it hunts with.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Rig {
    /// Calls that fail, writes that lie.
    StoreFaults,
    /// Pairs of flipped bits.
    StorePairs,
    /// Random stories of a lock, cut at random.
    PowerLoss,
    /// The store, cut at every step.
    Store,
    /// Drills, cut at every step.
    PowerLossDrill,
    /// The store, cut again in each recovery.
    StoreCuts,
}

impl Rig {
    /// All of them, the quick ones first.
    pub const ALL: [Self; 6] = [
        Self::StoreFaults,
        Self::StorePairs,
        Self::PowerLoss,
        Self::Store,
        Self::PowerLossDrill,
        Self::StoreCuts,
    ];

    /// What stands behind `emulator rig`, and in the table.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::StoreFaults => "store --faults",
            Self::StorePairs => "store --pairs",
            Self::PowerLoss => "power-loss",
            Self::Store => "store",
            Self::PowerLossDrill => "power-loss --drill",
            Self::StoreCuts => "store --cuts 2",
        }
    }
}

impl Check {
    fn of(text: &str) -> Option<Self> {
        if text.ends_with(".toml") {
            return Some(Self::Drill(text.to_owned()));
        }
        Rig::ALL.into_iter().find(|rig| rig.name() == text).map(Self::Rig)
    }

    /// As the table has it.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Rig(rig) => rig.name(),
            Self::Drill(file) => file,
        }
    }
}

/// What is wrong with a table, or with a file that it names.
#[derive(Debug, Error)]
pub enum Wrong {
    /// The table is not TOML, or has other keys.
    #[error("The table of mutants cannot be read: {0}")]
    Table(#[from] toml::de::Error),
    /// It is empty.
    #[error("The table has no mutant: then nothing would be tried.")]
    Empty,
    /// Two are called the same.
    #[error("Two mutants are called {0}: give one of them another name.")]
    NameTwice(String),
    /// The name is no plain word.
    #[error("A mutant is called {0:?}: use small letters, digits and hyphens.")]
    Name(String),
    /// It is said nowhere what is wrong.
    #[error("{0} says in no sentence what is wrong: write it behind `about`.")]
    About(String),
    /// It stands nowhere, or half somewhere.
    #[error("{0} stands nowhere: give file, find and replace, or some [[mutant.place]].")]
    Nowhere(String),
    /// No check is to find it.
    #[error("{0} is caught by nothing: name a rig or a drill behind `caught_by`.")]
    Uncaught(String),
    /// There is no such check.
    #[error("{name} is caught by {check:?}, which is no rig ({}) and no drill (*.toml).", rigs())]
    Check {
        /// The mutant.
        name: String,
        /// What it names.
        check: String,
    },
    /// It can never be chosen.
    #[error("{0} never asks for mutant!(\"{0}\"): it would be there without being chosen.")]
    Unasked(String),
    /// It asks for another one.
    #[error("{name} asks for mutant!({other}), which is not itself.")]
    Another {
        /// The mutant.
        name: String,
        /// Whom it asks for.
        other: String,
    },
    /// The text is not there.
    #[error("{name}: the text to be replaced is not in {file}. It begins: {start}")]
    NotFound {
        /// The mutant.
        name: String,
        /// The file.
        file: String,
        /// The first line of the text.
        start: String,
    },
    /// It is there more than once.
    #[error("{name}: the text to be replaced stands {times} times in {file}. It begins: {start}")]
    FoundOften {
        /// The mutant.
        name: String,
        /// The file.
        file: String,
        /// The first line of the text.
        start: String,
        /// How often.
        times: usize,
    },
    /// Two want the same text.
    #[error("{name} and {other} replace the same text of {file}: give one another place.")]
    Overlap {
        /// A mutant.
        name: String,
        /// Another one.
        other: String,
        /// The file.
        file: String,
    },
    /// It is no file of the lock.
    #[error("{name} names {file}: mutants stand in files of lock-core/src.")]
    File {
        /// The mutant.
        name: String,
        /// The file.
        file: String,
    },
    /// A file cannot be read or written.
    #[error("{path} cannot be read or written: {why}.")]
    Unreadable {
        /// Where it is.
        path: String,
        /// Why not.
        why: std::io::Error,
    },
    /// There is no such mutant.
    #[error("There is no mutant {0}. There are {1}.")]
    NoSuch(String, String),
}

impl Wrong {
    /// A file that cannot be read or written.
    #[must_use]
    pub fn io(path: &Path, why: std::io::Error) -> Self {
        Self::Unreadable { path: path.display().to_string(), why }
    }
}

fn rigs() -> String {
    Rig::ALL.map(Rig::name).join(", ")
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    mutant: Vec<WrittenMutant>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenMutant {
    name: String,
    about: String,
    caught_by: Vec<String>,
    file: Option<String>,
    find: Option<String>,
    replace: Option<String>,
    #[serde(default)]
    place: Vec<Place>,
}

impl Table {
    /// Reads a table.
    ///
    /// # Errors
    /// [`Wrong`], for all that is wrong without looking at the files.
    pub fn parse(text: &str) -> Result<Self, Wrong> {
        let written: Written = toml::from_str(text)?;
        let mutants = written.mutant.into_iter().map(Mutant::of).collect::<Result<Vec<_>, _>>()?;
        if mutants.is_empty() {
            return Err(Wrong::Empty);
        }
        for (place, mutant) in mutants.iter().enumerate() {
            if mutants[..place].iter().any(|other| other.name == mutant.name) {
                return Err(Wrong::NameTwice(mutant.name.clone()));
            }
        }
        Ok(Self(mutants))
    }

    /// The table of the repository at `root`.
    ///
    /// # Errors
    /// [`Wrong`], as [`Table::parse`].
    pub fn load(root: &Path) -> Result<Self, Wrong> {
        let path = root.join(crate::TABLE);
        let text = std::fs::read_to_string(&path).map_err(|why| Wrong::io(&path, why))?;
        Self::parse(&text)
    }

    /// The place of a mutant, from 1: 0 is none.
    ///
    /// # Errors
    /// [`Wrong::NoSuch`].
    pub fn place(&self, name: &str) -> Result<usize, Wrong> {
        let place = self.0.iter().position(|mutant| mutant.name == name);
        place.map(|place| place + 1).ok_or_else(|| {
            let names: Vec<&str> = self.0.iter().map(|mutant| mutant.name.as_str()).collect();
            Wrong::NoSuch(name.to_owned(), names.join(", "))
        })
    }
}

impl Mutant {
    fn of(written: WrittenMutant) -> Result<Self, Wrong> {
        let WrittenMutant { name, about, caught_by, file, find, replace, mut place } = written;
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if name.is_empty() || !name.chars().all(plain) {
            return Err(Wrong::Name(name));
        }
        if about.trim().is_empty() {
            return Err(Wrong::About(name));
        }
        match (file, find, replace) {
            (Some(file), Some(find), Some(replace)) => place.push(Place { file, find, replace }),
            (None, None, None) => {}
            _ => return Err(Wrong::Nowhere(name)),
        }
        if place.is_empty() {
            return Err(Wrong::Nowhere(name));
        }
        if caught_by.is_empty() {
            return Err(Wrong::Uncaught(name));
        }
        let check = |text: String| {
            Check::of(&text).ok_or_else(|| Wrong::Check { name: name.clone(), check: text })
        };
        let caught_by = caught_by.into_iter().map(check).collect::<Result<_, _>>()?;
        let mut asked = false;
        for replace in place.iter().map(|place| &place.replace) {
            for (at, _) in replace.match_indices("mutant!(") {
                let other = replace[at..].trim_start_matches("mutant!(");
                let other = other.split_once(')').map_or(other, |(other, _)| other);
                if other != format!("\"{name}\"") {
                    return Err(Wrong::Another { name, other: other.to_owned() });
                }
                asked = true;
            }
        }
        if !asked {
            return Err(Wrong::Unasked(name));
        }
        Ok(Self { name, about, caught_by, places: place })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = r#"
[[mutant]]
name = "one"
about = "it is wrong"
file = "lock-core/src/a.rs"
find = "x"
replace = "mutant!(\"one\") || x"
caught_by = ["store", "seams/a.toml"]
"#;

    fn refused(text: &str) -> String {
        Table::parse(text).unwrap_err().to_string()
    }

    #[test]
    fn a_table_is_read() {
        let table = Table::parse(GOOD).unwrap();
        assert_eq!(table.0[0].caught_by[0], Check::Rig(Rig::Store));
        assert_eq!(table.0[0].caught_by[1], Check::Drill("seams/a.toml".to_owned()));
        assert_eq!(table.place("one").unwrap(), 1);
        let no = table.place("two").unwrap_err().to_string();
        assert_eq!(no, "There is no mutant two. There are one.");
    }

    #[test]
    fn a_name_that_stands_twice_is_refused() {
        let twice = format!("{GOOD}{GOOD}");
        assert_eq!(refused(&twice), "Two mutants are called one: give one of them another name.");
    }

    #[test]
    fn what_cannot_be_tried_is_refused() {
        for (from, to, words) in [
            ("name = \"one\"", "name = \"One\"", "A mutant is called \"One\""),
            ("it is wrong", " ", "one says in no sentence what is wrong"),
            ("find = \"x\"", "", "one stands nowhere"),
            ("\"store\"", "\"shop\"", "one is caught by \"shop\", which is no rig"),
            ("[\"store\", \"seams/a.toml\"]", "[]", "one is caught by nothing"),
            ("mutant!(\\\"one\\\")", "true", "one never asks for mutant!(\"one\")"),
            ("mutant!(\\\"one\\\")", "mutant!(\\\"two\\\")", "one asks for mutant!(\"two\")"),
            ("about", "abuot", "The table of mutants cannot be read"),
        ] {
            let text = GOOD.replace(from, to);
            assert!(text != GOOD && refused(&text).contains(words), "{}", refused(&text));
        }
        assert!(refused("mutant = []").contains("The table has no mutant"));
    }
}
