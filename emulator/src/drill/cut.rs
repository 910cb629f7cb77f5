//! Where the power is to end, and how.
//!
//! ```toml
//! cut = "at-drive"        # a brown-out: the drive's next move never happens
//! cut = "at-record"       # within the first word of the next record
//! cut = { after = 12, class = "subset", seed = 3 }
//! cut = { at = "record", after = 2, class = "unstable" }
//! ```
//!
//! A word programmed, a page erased and an effect carried out are a step each.
//! `after` counts the steps that still happen whole, from here, or from what
//! `at` waits for; `class` is how the next one is torn, `seed` decides what the
//! class leaves open.

use emulated_board::fuse::{Class, Cut};

use super::Fall;
use super::read::known_word;
use crate::document::{Field, Read, Table, Wrong};

/// Most steps and greatest seed that a drill can name.
const MOST: u32 = 999_999;

const WHAT: &str = "`cut` says where the power is to end.";
const REMEDY: &str = "Write \"at-drive\", \"at-record\", or { after = 12, class = \"prefix\" }.";

pub(super) fn read(field: &Field<'_>) -> Read<(Fall, Cut)> {
    if let Ok(word) = field.text() {
        let (fall, class) = match word {
            "at-drive" => (Fall::Drive, Class::Before),
            "at-record" => (Fall::Record, Class::Prefix),
            _ => return Err(Wrong::new(&field.at(), WHAT, REMEDY)),
        };
        return Ok((fall, Cut { after: 0, class, seed: 0 }));
    }
    let Ok(table) = field.table("a `cut`") else {
        return Err(Wrong::new(&field.at(), WHAT, REMEDY));
    };
    table.only(&["at", "after", "class", "seed"])?;
    let fall = match table.get("at") {
        None => Fall::Step,
        Some(at) => match known_word(&at, at.text()?, &["drive", "record"], "a place for a cut")? {
            word if word == "drive" => Fall::Drive,
            _ => Fall::Record,
        },
    };
    let class = table.need("class", "class = \"prefix\"")?;
    let names = Class::ALL.map(Class::name);
    let name = known_word(&class, class.text()?, &names, "a way to tear a step")?;
    let class = Class::ALL.into_iter().find(|class| class.name() == name);
    let after = match fall {
        // A cut at the very next step is a cut of nothing that the drill names.
        Fall::Step => table.need("after", "after = 12").and_then(whole)?,
        Fall::Drive | Fall::Record => number(&table, "after")?,
    };
    let seed = number(&table, "seed")?;
    let (after, class) = (u64::from(after), class.unwrap_or(Class::Before));
    Ok((fall, Cut { after, class, seed: u64::from(seed) }))
}

fn number(table: &Table<'_>, key: &str) -> Read<u32> {
    table.get(key).map_or(Ok(0), whole)
}

fn whole(field: Field<'_>) -> Read<u32> {
    field.whole(0, MOST, "Write a whole number.")
}
