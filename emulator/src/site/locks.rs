//! The locks of a site.

use lock_core::policy::{KEYS, Policy};

use super::class::{self, Class};
use super::policy::PlacedPolicy;
use crate::document::Table;
use crate::document::{Place, Source};
use crate::document::{Read, Wrong};

/// Most characters of a lock's id.
const ID_MOST: usize = 20;
/// The largest number of a lock: five digits of a label.
const NUMBER_MOST: u32 = 65_535;

/// One lock of a site.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LockPlan {
    /// Its name on the laptop: letters, digits and hyphens.
    pub id: String,
    /// Its number, 1 to 65,535, unique within the site.
    pub number: u32,
    /// The site's policy with what this lock overrides.
    pub policy: Policy,
    /// The class that was asked for, and where; `None` if none was.
    pub class: Option<(Class, Place)>,
    /// Where the lock stands in the file.
    pub place: Place,
}

/// Reads every `[[lock]]` of the file.
pub(super) fn read(file: &Table<'_>, source: &Source<'_>) -> Read<Vec<LockPlan>> {
    let (mut site, mut wanted) = (PlacedPolicy::default(), None);
    if let Some(field) = file.get("policy") {
        let table = field.table("the [policy] table")?;
        let known: Vec<&str> = KEYS.into_iter().chain([class::KEY]).collect();
        table.only(&known)?;
        site = site.overridden_by(&table)?;
        wanted = class::read(&table, source)?;
    }
    let example = "[[lock]] with an id and a number";
    let tables = file.need("lock", example)?.tables("a [[lock]]")?;
    let mut locks: Vec<LockPlan> = Vec::new();
    for table in &tables {
        let lock = read_lock(table, &site, wanted, source)?;
        for (first, earlier) in locks.iter().zip(&tables) {
            let (key, what) = if first.id == lock.id {
                ("id", format!("The lock id \"{}\" is given twice.", lock.id))
            } else if first.number == lock.number {
                ("number", format!("The lock number {} is given twice.", lock.number))
            } else {
                continue;
            };
            let remedy = "Give each lock an id and a number of its own.";
            let at = table.need(key, "")?.at();
            return Err(Wrong::new(&at, what, remedy)
                .here("taken")
                .there(&earlier.at(), "by this lock"));
        }
        locks.push(lock);
    }
    Ok(locks)
}

fn read_lock(
    table: &Table<'_>,
    site: &PlacedPolicy,
    wanted: Option<(Class, Place)>,
    source: &Source<'_>,
) -> Read<LockPlan> {
    let known: Vec<&str> = ["id", "number", class::KEY].into_iter().chain(KEYS).collect();
    table.only(&known)?;
    let field = table.need("id", "id = \"till\"")?;
    let id = field.name(ID_MOST)?;
    if !id.chars().all(|c| c.is_ascii_alphanumeric() || c == '-') {
        let what = "A lock's id has letters, digits and hyphens only.";
        let remedy = "The id is typed in commands, so keep it short, such as \"till\".";
        return Err(Wrong::new(&field.at(), what, remedy));
    }
    let number = table.need("number", "number = 1001")?;
    Ok(LockPlan {
        id: id.to_owned(),
        number: number.whole(1, NUMBER_MOST, "Locks have numbers of their own, such as 1001.")?,
        policy: site.overridden_by(table)?.policy,
        class: class::read(table, source)?.or(wanted),
        place: source.place(table.at().start),
    })
}
