//! The core is a house: its modules stand on floors, and arrows point down
//! only. So no two modules need each other, and a reader who starts at the
//! bottom never meets a word that comes later.

use std::collections::{BTreeMap, BTreeSet};

use crate::source;

/// The floors from the ground up. Modules of one floor do not know each other.
const FLOORS: &[&[&str]] = &[
    // What everything counts in, and what is typed.
    &["silent", "time", "keys", "role", "byte_table"],
    // How what travels is sealed.
    &["seal"],
    // What is asked for, by right.
    &["task"],
    // The values that one lock is set to, and when it may be opened.
    &["policy", "timetable"],
    // What is kept of a code, and ...
    &["code"],
    // ... the key that lock and laptop share, ...
    &["pairing"],
    // ... what salts and keys are drawn from, ...
    &["seed", "pairing_code"],
    // ... of the person who has it.
    &["holder"],
    // Pure questions and answers: may this holder open now?
    &["rules"],
    // What is written down.
    &["audit"],
    // What is shown, as data.
    &["screen"],
    // Whole settings, and one change of them.
    &["settings"],
    // What travels between lock and laptop.
    &["link"],
    // All that lock, store and board share.
    &["port"],
    // The words of a screen, then its pixels.
    &["words"],
    &["draw"],
    // The counts that entries of the port add up to.
    &["tally"],
    // What a role may do, field by field.
    &["dialog"],
    // What a boot finds.
    &["recovered"],
    // The one decision about an opening.
    &["decide"],
    // The two that must not know each other: one can't name flash, the other
    // can't name states. And what a board must provide.
    &["machine", "store", "board"],
    // What fulfils a board; what runs a lock on a board and a store.
    &["drivers", "device"],
];

/// Plain types that a lower floor borrows from a higher one: from, to, the
/// items, and why they stay where they are.
const BORROWED: &[(&str, &str, &[&str], &str)] = &[
    ("code", "holder", &["Number"], "a digest is bound to the number typed before the code"),
    (
        "role",
        "policy",
        &["Deputies"],
        "the table of rights names how much the policy leaves to deputies",
    ),
    (
        "rules",
        "port",
        &["Chip", "Now", "Reads"],
        "facts that the judges weigh, as boards say them, and rows, as stores do",
    ),
    ("rules", "tally", &["ClockMark"], "whether a clock is believed outlasts a boot"),
    ("audit", "port", &["Fault"], "a record names the fault that the screen and the port name"),
    ("screen", "port", &["Fault"], "the screen names the fault that the record and the port name"),
];

fn floor(module: &str) -> usize {
    FLOORS
        .iter()
        .position(|floor| floor.contains(&module))
        .unwrap_or_else(|| panic!("lock-core's {module} has no floor yet: say where it stands"))
}

/// The code of a file: without comments and without the tests at its end.
fn code(path: &str) -> String {
    let text = source::text(path);
    let lines: Vec<_> = text.lines().collect();
    let tests = lines.windows(2).position(|pair| {
        pair[0].trim() == "#[cfg(test)]" && pair[1].trim_start().starts_with("mod ")
    });
    let kept = &lines[..tests.unwrap_or(lines.len())];
    kept.iter().map(|line| source::without_comment(line)).collect::<Vec<_>>().join("\n")
}

/// The paths below `crate::` in some code, as module and item; `*` stands for
/// the module itself.
fn paths(code: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        let module = word(rest);
        assert!(!module.is_empty(), "write `use crate::module::…`, one module a line: {rest:.40}");
        let below = &rest[module.len()..];
        let Some(below) = below.strip_prefix("::") else {
            found.push((module.to_owned(), "*".to_owned()));
            continue;
        };
        match below.strip_prefix('{') {
            Some(list) => found.extend(items(list).map(|item| (module.to_owned(), item))),
            None => found.push((module.to_owned(), word(below).to_owned())),
        }
    }
    found
}

/// The first segments of a list in braces, its opening brace taken off.
fn items(list: &str) -> impl Iterator<Item = String> {
    let mut depth = 0;
    let mut items = vec![String::new()];
    for c in list.chars() {
        match (c, depth) {
            ('}', 0) => break,
            (',', 0) => items.push(String::new()),
            ('{', _) => depth += 1,
            ('}', _) => depth -= 1,
            (c, 0) => items.last_mut().unwrap().push(c),
            _ => {}
        }
    }
    let first = items.into_iter().map(|item| word(item.trim()).to_owned());
    first.filter(|item| !item.is_empty())
}

fn word(text: &str) -> &str {
    let end = text.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(text.len());
    &text[..end]
}

/// How many modules deep a file is: `link/extract/item.rs` is three.
fn depth(below_src: &str) -> usize {
    let path = below_src.trim_end_matches(".rs").trim_end_matches("/mod");
    path.split('/').count()
}

/// Each use of a module of the core by another: from, to, item.
fn uses() -> BTreeMap<(String, String, String), String> {
    let mut uses = BTreeMap::new();
    for path in source::files("lock-core/src", ".rs") {
        let below_src = path.strip_prefix("lock-core/src/").unwrap();
        let tests = below_src.ends_with("tests.rs") || below_src.contains("/tests/");
        if below_src == "lib.rs" || tests {
            continue;
        }
        let module = word(below_src);
        let code = code(&path);
        let upwards = "super::".repeat(depth(below_src));
        assert!(!code.contains(&upwards), "{path}: another module is reached by `crate::`");
        for (other, item) in paths(&code) {
            if other != module {
                uses.insert((module.to_owned(), other, item), path.clone());
            }
        }
    }
    assert!(uses.len() > 100, "only {} uses were found", uses.len());
    uses
}

fn borrowed(from: &str, to: &str, item: &str) -> bool {
    let lent = BORROWED.iter().find(|(by, of, ..)| (*by, *of) == (from, to));
    lent.is_some_and(|(_, _, items, _)| items.contains(&item))
}

#[test]
fn arrows_point_down_only() {
    let upward: Vec<_> = uses()
        .into_iter()
        .filter(|((from, to, item), _)| floor(from) <= floor(to) && !borrowed(from, to, item))
        .map(|((from, to, item), path)| format!("{path}: {from} uses {item} of {to}, no lower"))
        .collect();
    assert!(upward.is_empty(), "{upward:#?}");
}

/// An exception that nobody needs any more would let the next one in.
#[test]
fn what_is_borrowed_is_used() {
    let used: BTreeSet<_> = uses().into_keys().collect();
    for (from, to, items, _why) in BORROWED {
        for item in *items {
            let key = ((*from).to_owned(), (*to).to_owned(), (*item).to_owned());
            assert!(used.contains(&key), "{from} does not use {to}::{item}: strike it out");
            assert!(floor(from) < floor(to), "{from} need not borrow from {to}");
        }
    }
}

#[test]
fn every_module_of_the_core_has_a_floor() {
    let root = source::text("lock-core/src/lib.rs");
    let modules: Vec<_> = root.lines().filter_map(|line| line.strip_prefix("pub mod ")).collect();
    assert!(modules.len() > 15, "only {modules:?} were found");
    for module in modules {
        floor(module.trim_end_matches(';'));
    }
}
