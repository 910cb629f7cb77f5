//! The notices that go with firmware: `lock-core/THIRD-PARTY.md` is what the crates say
//! that a lock links. `BLESS=1` writes it anew.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::source;

const NOTICES: &str = "lock-core/THIRD-PARTY.md";

const BLESS: &str = "BLESS=1 cargo test -p checks --test house notices";

/// The microcontrollers that `.ci/firmware` links for.
const TARGETS: [&str; 3] =
    ["thumbv6m-none-eabi", "thumbv7m-none-eabi", "riscv32imc-unknown-none-elf"];

/// A crate, by name, and the licence that its manifest states.
type Crates = BTreeMap<String, String>;

fn cargo(arguments: &[&str]) -> String {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let output =
        Command::new(cargo).args(arguments).arg("--locked").current_dir(source::root()).output();
    let output = output.unwrap();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "cargo {arguments:?}: {errors}");
    String::from_utf8(output.stdout).unwrap()
}

/// What `lock-core` depends on with all its features, by edges of these kinds.
fn tree(edges: &str) -> Crates {
    let mut arguments = vec!["tree", "-p", "lock-core", "--all-features", "-e", edges];
    arguments.extend(["--prefix", "none", "--format", "{p}|{l}"]);
    for target in TARGETS {
        arguments.extend(["--target", target]);
    }
    let lines = cargo(&arguments);
    let crates = lines.lines().filter(|line| !line.trim().is_empty()).map(|line| {
        let (package, licence) = line.split_once('|').unwrap();
        let name = package.split(' ').next().unwrap();
        (name.to_owned(), licence.trim_end_matches(" (*)").replace('/', " OR "))
    });
    crates.filter(|(name, _)| name != "lock-core").collect()
}

/// Where cargo keeps the sources of each crate.
fn folders() -> BTreeMap<String, PathBuf> {
    let mut arguments = vec!["metadata", "--format-version", "1", "--all-features"];
    for target in TARGETS {
        arguments.extend(["--filter-platform", target]);
    }
    let metadata: serde_json::Value = serde_json::from_str(&cargo(&arguments)).unwrap();
    let packages = metadata["packages"].as_array().unwrap().iter().map(|package| {
        let manifest = Path::new(package["manifest_path"].as_str().unwrap());
        (package["name"].as_str().unwrap().to_owned(), manifest.parent().unwrap().to_owned())
    });
    packages.collect()
}

/// Of the licences that a crate offers, the one that asks for least to be handed on: no
/// text, or one for all crates. Otherwise all that it states.
fn taken(licence: &str) -> &str {
    let offers = |one: &str| !licence.contains("AND") && licence.split(" OR ").any(|l| l == one);
    ["Unlicense", "Apache-2.0"].into_iter().find(|one| offers(one)).unwrap_or(licence)
}

/// The files of a crate whose names begin with one of these.
fn texts(folder: &Path, beginnings: &[&str]) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .collect();
    names.retain(|name| beginnings.iter().any(|b| name.to_uppercase().starts_with(b)));
    names.sort();
    names.iter().map(|name| fs::read_to_string(folder.join(name)).unwrap()).collect()
}

/// What is handed on word by word: of Apache-2.0 a notice, if the crate has one (its section
/// 4(d)); of Unlicense nothing; of others their text.
fn handed_on(name: &str, licence: &str, folder: &Path) -> Vec<String> {
    match taken(licence) {
        "Unlicense" => Vec::new(),
        "Apache-2.0" => texts(folder, &["NOTICE"]),
        other => {
            let texts = texts(folder, &["LICENSE", "LICENCE", "COPYING", "NOTICE"]);
            assert!(!texts.is_empty(), "{name} is under {other} and has no text of it");
            texts
        }
    }
}

fn notices(linked: &Crates, all: &Crates) -> String {
    let folders = folders();
    let mut page = format!(
        "# Third-party notices\n\n\
         Firmware that links `lock-core` holds the crates of the first table. Hand this file on\n\
         with it, and [the text of Apache-2.0](../LICENSE-APACHE), beside the licence that you take\n\
         `lock-core` itself under. Where a crate offers a choice, the choice here asks for the\n\
         fewest texts; who takes another one hands on what that one asks for.\n\n\
         Not here: what your own board adds, and the `core` library of the Rust compiler, whose\n\
         notices come with your toolchain. This is no legal advice.\n\n\
         A test makes this file from `Cargo.lock`: `{BLESS}`.\n\n\
         ## Linked into a lock, with all features\n\n\
         | crate | offered under | taken here |\n| --- | --- | --- |\n"
    );
    for (name, licence) in linked {
        writeln!(page, "| {name} | {licence} | {} |", taken(licence)).unwrap();
    }
    page += "\n## Run by the compiler only\n\n\
             They write or check code while it is built; none of them is in the firmware.\n\n\
             | crate | offered under |\n| --- | --- |\n";
    for (name, licence) in all.iter().filter(|(name, _)| !linked.contains_key(*name)) {
        writeln!(page, "| {name} | {licence} |").unwrap();
    }
    page += "\n## Texts to be handed on\n";
    for (name, licence) in linked {
        for text in handed_on(name, licence, &folders[name]) {
            let lines: Vec<&str> = text.trim().lines().map(str::trim_end).collect();
            write!(page, "\n### {name}\n\n```text\n{}\n```\n", lines.join("\n")).unwrap();
        }
    }
    page
}

#[test]
fn notices_name_every_crate_that_a_lock_links() {
    let (linked, all) = (tree("normal,no-proc-macro"), tree("normal"));
    assert!(linked.len() > 20 && all.len() > linked.len(), "{linked:?}");
    let page = notices(&linked, &all);
    if std::env::var_os("BLESS").is_some() {
        fs::write(source::root().join(NOTICES), &page).unwrap();
    }
    let kept = source::text(NOTICES);
    let differs = page.lines().zip(kept.lines()).find(|(made, kept)| made != kept);
    assert!(page == kept, "{NOTICES} is not what the crates say, from {differs:?}: {BLESS}");
}

/// What BSD-3-Clause asks of a binary is there: its three clauses (SPDX License List, from
/// memory) and the copyright line of the crate, for each crate that offers nothing else.
#[test]
fn notices_have_the_texts_that_licences_ask_for() {
    let kept = source::text(NOTICES);
    for crate_under_bsd in tree("normal,no-proc-macro").iter().filter(|c| c.1 == "BSD-3-Clause") {
        let heading = format!("### {}\n", crate_under_bsd.0);
        let text = kept.split(&heading).nth(1).unwrap_or_else(|| panic!("{heading} is missing"));
        let text = text.split("\n### ").next().unwrap().replace('\n', " ");
        for clause in [
            "Copyright (c)",
            "Redistributions of source code must retain the above copyright notice",
            "Redistributions in binary form must reproduce the above copyright notice",
            "endorse or promote products",
            "PROVIDED BY THE COPYRIGHT HOLDERS AND CONTRIBUTORS \"AS IS\"",
        ] {
            assert!(text.contains(clause), "{heading} lacks {clause:?}");
        }
    }
}
