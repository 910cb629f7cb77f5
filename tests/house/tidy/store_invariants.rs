//! The invariants of the store: numbered in its specification, and each held by tests
//! that are there.

use crate::source;

const STORE: &str = "lock-core/src/store";

/// What is specified of each, in order: its number, and all the words behind it.
fn invariants() -> Vec<(usize, String)> {
    let page = source::text(&format!("{STORE}/mod.rs"));
    let lines = page.lines().map_while(|line| line.strip_prefix("//!"));
    let text = lines.map(str::trim).collect::<Vec<_>>().join("\n");
    let (_, from) = text.split_once("# What always holds").expect("the store says what holds");
    let (all, _) = from.split_once("\n# ").expect("another heading follows");
    let each = all.split("\n- **S").skip(1);
    each.map(|words| {
        let (number, _) = words.split_once(' ').expect("words follow its number");
        (number.parse().expect("a number"), words.to_owned())
    })
    .collect()
}

#[test]
fn each_invariant_of_the_store_names_tests_that_hold_it() {
    let invariants = invariants();
    let numbers: Vec<_> = invariants.iter().map(|(number, _)| *number).collect();
    assert_eq!(numbers, (1..=16).collect::<Vec<_>>());
    for (number, words) in invariants {
        let (_, tests) = words.split_once("Test").unwrap_or_else(|| panic!("S{number}: no test"));
        let named: Vec<_> = tests.split('`').skip(1).step_by(2).collect();
        assert!(!named.is_empty(), "S{number} names no test");
        for test in named {
            let (file, name) =
                test.split_once("::").unwrap_or_else(|| panic!("{test}: which file?"));
            let text = source::text(&format!("{STORE}/tests/{file}.rs"));
            let head = text.split(&format!("fn {name}(")).next().filter(|head| *head != text);
            let head = head.unwrap_or_else(|| panic!("S{number}: there is no {test}"));
            assert!(head.trim_end().ends_with("#[test]"), "S{number}: {test} is no test");
        }
    }
}
