//! The rules of the lock: numbered in the tour of `lock-core`, and each named
//! by a test that holds it.

use crate::source;

/// How many rules there are.
const RULES: u8 = 11;

/// Whether a text names rule `n`, and not a number that begins with it.
fn names(text: &str, n: u8) -> bool {
    let name = format!("R{n}");
    text.match_indices(&name).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + name.len()..].chars().next();
        !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
    })
}

/// What the tests of a file say about themselves: the doc comment that stands
/// right above each `#[test]`.
fn purposes(text: &str) -> Vec<String> {
    let mut purposes = Vec::new();
    let mut docs = String::new();
    for line in text.lines().map(str::trim) {
        if let Some(doc) = line.strip_prefix("///") {
            docs.push_str(doc);
        } else if line == "#[test]" {
            purposes.push(std::mem::take(&mut docs));
        } else {
            docs.clear();
        }
    }
    purposes
}

#[test]
fn each_rule_is_named_by_a_test() {
    let purposes: Vec<_> =
        super::rust_files().iter().flat_map(|path| purposes(&source::text(path))).collect();
    assert!(purposes.len() > 100, "only {} tests were found", purposes.len());
    let unnamed: Vec<_> =
        (1..=RULES).filter(|n| !purposes.iter().any(|purpose| names(purpose, *n))).collect();
    assert!(unnamed.is_empty(), "no test names the rules {unnamed:?}");
}

#[test]
fn the_tour_numbers_every_rule_once_in_order() {
    let tour = source::text("lock-core/src/lib.rs");
    let numbered: Vec<_> = tour
        .lines()
        .filter_map(|line| line.strip_prefix("//! - **R")?.split_once(' ')?.0.parse::<u8>().ok())
        .collect();
    assert_eq!(numbered, (1..=RULES).collect::<Vec<_>>());
}

/// No source names a rule that there is not.
#[test]
fn no_other_rules_are_named() {
    for path in super::rust_files() {
        let text = source::text(&path);
        let other = (0..=99).filter(|n| !(1..=RULES).contains(n)).find(|n| names(&text, *n));
        assert_eq!(other, None, "{path}");
    }
}
