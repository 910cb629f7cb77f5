//! Names of the lock's modules and types are made of words that docs/glossary.md has.

use std::collections::{BTreeMap, BTreeSet};

use crate::source;

/// Names that were given up for plain ones.
const GIVEN_UP: [&str; 10] = [
    "errand",
    "outlook",
    "weighed",
    "trial",
    "footing",
    "wreck",
    "blow",
    "siege",
    "carried",
    "admission",
];

/// The words of a name: `PendingWrite` has two, `form_flow` has two.
fn words(name: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut before = '_';
    let mut letters = name.chars().peekable();
    while let Some(c) = letters.next() {
        // `NotALock` has three.
        let begins = letters.peek().is_some_and(|next| next.is_lowercase());
        if c == '_' || (c.is_uppercase() && (before.is_lowercase() || begins)) {
            words.push(String::new());
        }
        if c != '_' {
            words.last_mut().unwrap().extend(c.to_lowercase());
        }
        before = c;
    }
    words.retain(|word| !word.is_empty());
    words
}

/// The type that a line names first, if it does.
fn declared(line: &str) -> Option<&str> {
    let line = line.trim_start();
    let line = line.strip_prefix("pub").map_or(line, |rest| match rest.strip_prefix('(') {
        Some(rest) => rest.split_once(')').map_or("", |(_, rest)| rest),
        None => rest,
    });
    let kinds = ["struct ", "enum ", "trait "];
    let rest = kinds.iter().find_map(|kind| line.trim_start().strip_prefix(kind))?;
    let end = rest.find(|c: char| !c.is_alphanumeric()).unwrap_or(rest.len());
    Some(&rest[..end])
}

/// Every word of a module's or type's name in the lock, and one name that has it.
fn used() -> BTreeMap<String, String> {
    let mut used = BTreeMap::new();
    for path in source::files("lock-core/src", ".rs") {
        if path.contains("/tests/") || path.ends_with("/tests.rs") {
            continue;
        }
        let below = path.strip_prefix("lock-core/src/").unwrap().trim_end_matches(".rs");
        let modules = below.split('/').filter(|module| *module != "mod").map(str::to_owned);
        let text = source::text(&path);
        let types = text.lines().filter_map(declared).map(str::to_owned);
        for name in modules.chain(types) {
            for word in words(&name) {
                used.entry(word).or_insert_with(|| name.clone());
            }
        }
    }
    used
}

/// A word, or its plural.
fn is_known(word: &str, known: &BTreeSet<String>) -> bool {
    let singular = word.strip_suffix("ies").map(|stem| format!("{stem}y"));
    known.contains(word)
        || known.contains(word.trim_end_matches('s'))
        || singular.is_some_and(|singular| known.contains(&singular))
}

fn in_text(text: &str) -> BTreeSet<String> {
    let text = text.to_lowercase();
    let words = text.split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty());
    words.map(str::to_owned).collect()
}

#[test]
fn names_are_made_of_words_of_the_glossary() {
    let known = in_text(&source::text("docs/glossary.md"));
    let used = used();
    assert!(used.len() > 300, "only {} words were found", used.len());
    let unknown: Vec<_> = used.iter().filter(|(word, _)| !is_known(word, &known)).collect();
    assert!(
        unknown.is_empty(),
        "take a word of docs/glossary.md, or give it a row there: {unknown:?}"
    );
    let back: Vec<_> = GIVEN_UP.iter().filter_map(|word| used.get_key_value(*word)).collect();
    assert!(back.is_empty(), "these were given up for plain words: {back:?}");
}

/// A word of the code's section that no name has is no word of the code any more.
#[test]
fn words_of_the_code_are_used() {
    let glossary = source::text("docs/glossary.md");
    let section = glossary.split("## In the code").nth(1).and_then(|s| s.split("\n## ").next());
    let section = section.unwrap();
    let rows = section.lines().filter_map(|line| line.strip_prefix("| ")?.split(" |").next());
    let plain = section.split("Plain words:").nth(1).unwrap();
    let listed = rows.filter(|row| *row != "word" && !row.starts_with('-')).chain([plain]);
    let listed: BTreeSet<_> = listed.flat_map(in_text).collect();
    assert!(listed.len() > 150, "only {} words were found", listed.len());
    let used: BTreeSet<_> = used().into_keys().collect();
    let idle: Vec<_> = listed
        .iter()
        .filter(|word| !is_known(word, &used) && !used.contains(&format!("{word}s")))
        .filter(|word| !used.contains(&format!("{}ies", word.trim_end_matches('y'))))
        .collect();
    assert!(idle.is_empty(), "no module and no type has these words: {idle:?}");
}
