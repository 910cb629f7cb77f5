//! Weaving: the texts of all mutants in the place of the lock's.

use std::collections::BTreeMap;

use crate::table::{Mutant, Place, Table, Wrong};

/// What the root of the lock is, where the module of the chooser is put in.
const ROOT: &str = "lock-core/src/lib.rs";

/// What the module is put in front of: whatever comes later may use its macro.
const BEFORE: &str = "#[macro_use]\npub mod silent;";

/// Where the module of the chooser stands in a woven copy.
const MODULE: &str = "lock-core/src/mutant.rs";

/// The files that are other than the lock's, by their paths from the root of the
/// repository. The mutant at the place `chosen`, from 1, is chosen from the start.
///
/// # Errors
/// [`Wrong`], with the mutant and the file.
pub fn weave(
    table: &Table,
    chosen: usize,
    mut read: impl FnMut(&str) -> Result<String, Wrong>,
) -> Result<BTreeMap<String, String>, Wrong> {
    let root = Place {
        file: ROOT.to_owned(),
        find: BEFORE.to_owned(),
        replace: format!("#[macro_use]\npub mod mutant;\n{BEFORE}"),
    };
    let mut files: BTreeMap<&str, Vec<(&str, &Place)>> = BTreeMap::new();
    files.entry(ROOT).or_default().push(("The chooser", &root));
    for mutant in &table.0 {
        for place in &mutant.places {
            if !place.file.starts_with("lock-core/src/") || place.file.contains("..") {
                let (name, file) = (mutant.name.clone(), place.file.clone());
                return Err(Wrong::File { name, file });
            }
            files.entry(&place.file).or_default().push((&mutant.name, place));
        }
    }
    let mut woven = BTreeMap::new();
    for (file, places) in files {
        woven.insert(file.to_owned(), woven_file(&read(file)?, places)?);
    }
    woven.insert(MODULE.to_owned(), module(&table.0, chosen));
    Ok(woven)
}

/// One file. All places are looked for in the text as it is, so that their order
/// does not matter.
fn woven_file(text: &str, places: Vec<(&str, &Place)>) -> Result<String, Wrong> {
    let mut found = Vec::new();
    for (name, place) in places {
        let (name, file) = (name.to_owned(), place.file.clone());
        let start = place.find.trim().lines().next().unwrap_or("(nothing)").trim().to_owned();
        let mut starts = text.match_indices(&place.find).map(|(at, _)| at);
        match (starts.next(), starts.count()) {
            (None, _) => return Err(Wrong::NotFound { name, file, start }),
            (Some(at), 0) => found.push((at, name, place)),
            (Some(_), more) => {
                return Err(Wrong::FoundOften { name, file, start, times: more + 1 });
            }
        }
    }
    found.sort_by_key(|(at, ..)| *at);
    let mut woven = String::new();
    let mut done = (0, "");
    for (at, name, place) in &found {
        if *at < done.0 {
            let (name, other) = (name.clone(), done.1.to_owned());
            return Err(Wrong::Overlap { name, other, file: place.file.clone() });
        }
        woven.push_str(&text[done.0..*at]);
        woven.push_str(&place.replace);
        done = (at + place.find.len(), name);
    }
    woven.push_str(&text[done.0..]);
    Ok(woven)
}

/// The chooser, and the macro that asks it.
fn module(mutants: &[Mutant], chosen: usize) -> String {
    let arms = mutants.iter().zip(1..).map(|(mutant, place)| {
        format!("    (\"{}\") => {{ $crate::mutant::is_chosen({place}) }};\n", mutant.name)
    });
    let arms: String = arms.collect();
    format!(
        "//! Bugs on purpose, woven in from `{table}`: one is chosen at run time.

use core::sync::atomic::{{AtomicUsize, Ordering}};

macro_rules! mutant {{
{arms}}}

static CHOSEN: AtomicUsize = AtomicUsize::new({chosen});

/// Chooses the bug at that place, from 1, for the whole process; 0: none.
pub fn choose(place: usize) {{
    CHOSEN.store(place, Ordering::Relaxed);
}}

/// Whether the bug at that place is chosen.
#[must_use]
pub fn is_chosen(place: usize) -> bool {{
    CHOSEN.load(Ordering::Relaxed) == place
}}
",
        table = crate::TABLE,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::{Check, Rig};

    const LOCK: &str = "if wrong == 0 {\n    open(wrong);\n}\n";

    fn table(mutants: &[(&str, &str)]) -> Table {
        let text: String = mutants
            .iter()
            .map(|(name, find)| {
                format!(
                    "[[mutant]]\nname = '{name}'\nabout = 'wrong'\nfile = 'lock-core/src/a.rs'\n\
                     find = '''{find}'''\nreplace = '(mutant!(\"{name}\") || x)'\n\
                     caught_by = ['store']\n"
                )
            })
            .collect();
        Table::parse(&text).unwrap()
    }

    fn woven(mutants: &[(&str, &str)]) -> Result<BTreeMap<String, String>, String> {
        let read = |file: &str| Ok(if file == ROOT { BEFORE.to_owned() } else { LOCK.to_owned() });
        weave(&table(mutants), 0, read).map_err(|why| why.to_string())
    }

    #[test]
    fn each_text_is_put_in_its_place() {
        let files = woven(&[("two", "open"), ("one", "wrong == 0")]).unwrap();
        let (one, two) = ("(mutant!(\"one\") || x)", "(mutant!(\"two\") || x)");
        assert_eq!(files["lock-core/src/a.rs"], format!("if {one} {{\n    {two}(wrong);\n}}\n"));
        assert_eq!(files[ROOT], format!("#[macro_use]\npub mod mutant;\n{BEFORE}"));
        assert!(files[MODULE].contains("(\"one\") => { $crate::mutant::is_chosen(2) };"));
    }

    #[test]
    fn a_place_that_is_not_found_is_refused() {
        let why = woven(&[("one", "\n  shut(wrong)\n")]).unwrap_err();
        let words = "one: the text to be replaced is not in lock-core/src/a.rs. It begins: shut(";
        assert!(why.starts_with(words), "{why}");
    }

    #[test]
    fn a_place_that_is_found_twice_is_refused() {
        let why = woven(&[("one", "wrong")]).unwrap_err();
        let words = "one: the text to be replaced stands 2 times in lock-core/src/a.rs.";
        assert!(why.starts_with(words), "{why}");
    }

    #[test]
    fn two_at_one_place_are_refused() {
        let why = woven(&[("one", "open(wrong)"), ("two", "open")]).unwrap_err();
        let words = "replace the same text of lock-core/src/a.rs: give one another place.";
        assert!(why.contains(words), "{why}");
    }

    #[test]
    fn only_files_of_the_lock_are_woven() {
        let text = "[[mutant]]\nname = 'a'\nabout = 'b'\nfile = 'emulator/src/lib.rs'\n\
                    find = 'c'\nreplace = 'mutant!(\"a\")'\ncaught_by = ['store']\n";
        let why = weave(&Table::parse(text).unwrap(), 0, |_| Ok(String::new())).unwrap_err();
        assert_eq!(
            why.to_string(),
            "a names emulator/src/lib.rs: mutants stand in files of lock-core/src."
        );
    }

    /// The table of this repository fits its lock, and every rig has a mutant to find.
    #[test]
    fn the_table_fits_the_lock() {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        let table = Table::load(&root).unwrap_or_else(|why| panic!("{why}"));
        let read = |file: &str| {
            let path = root.join(file);
            std::fs::read_to_string(&path).map_err(|why| Wrong::io(&path, why))
        };
        weave(&table, 0, read).unwrap_or_else(|why| panic!("{why}"));
        for rig in Rig::ALL {
            let finds = |mutant: &Mutant| mutant.caught_by.contains(&Check::Rig(rig));
            assert!(table.0.iter().any(finds), "{} is to find no mutant", rig.name());
        }
    }
}
