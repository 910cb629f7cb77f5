//! What every crate's manifest and root file must say.

use std::collections::BTreeMap;

use crate::source;

/// Its drivers of registers and its panic handler are unsafe by nature; each
/// block says why it is sound, and clippy checks that it does.
const WITH_UNSAFE: [&str; 1] = ["emulator/firmware/Cargo.toml"];

/// The crates that run without an operating system, by their root file.
const NO_STD: [&str; 5] = [
    "lock-core/src/lib.rs",
    "emulator/board/src/lib.rs",
    "emulator/firmware/src/main.rs",
    "emulator/firmware/src/lock/main.rs",
    "emulator/firmware/src/reference/main.rs",
];

/// The lines of each section of a manifest.
fn sections(manifest: &str) -> BTreeMap<String, Vec<String>> {
    let mut sections = BTreeMap::<_, Vec<_>>::new();
    let mut current = String::new();
    for line in manifest.lines().map(str::trim) {
        if line.starts_with('[') {
            current = line.to_owned();
        } else {
            sections.entry(current.clone()).or_default().push(line.to_owned());
        }
    }
    sections
}

fn says(manifest: &str, section: &str, line: &str) -> bool {
    let sections = sections(&source::text(manifest));
    sections.get(section).is_some_and(|lines| lines.iter().any(|l| l == line))
}

#[test]
fn every_crate_forbids_unsafe_code() {
    let forbids = r#"unsafe_code = "forbid""#;
    assert!(says("Cargo.toml", "[workspace.lints.rust]", forbids));
    for manifest in source::files("", "Cargo.toml") {
        if !says(&manifest, "[package]", "publish = false")
            && !says(&manifest, "[package]", "publish.workspace = true")
        {
            assert_eq!(manifest, "Cargo.toml", "which crate is {manifest}?");
            continue;
        }
        let forbidden = says(&manifest, "[lints]", "workspace = true")
            || says(&manifest, "[lints.rust]", forbids);
        if WITH_UNSAFE.contains(&manifest.as_str()) {
            assert!(!forbidden, "{manifest} needs no exception any more");
            let documented = r#"undocumented_unsafe_blocks = "deny""#;
            assert!(says(&manifest, "[lints.clippy]", documented), "{manifest}");
        } else {
            assert!(forbidden, "{manifest} does not forbid unsafe code");
        }
    }
}

/// Not behind a feature: a core that has `std` on a laptop could come to need
/// it there.
#[test]
fn the_crates_of_a_lock_have_no_std_ever() {
    for path in NO_STD {
        let text = source::text(path);
        assert!(text.lines().any(|line| line == "#![no_std]"), "{path}");
    }
}

/// The lints that stand in for a panic-free proof until the firmware links.
#[test]
fn the_core_denies_what_could_panic() {
    for lint in [
        "wildcard_enum_match_arm",
        "arithmetic_side_effects",
        "indexing_slicing",
        "unwrap_used",
        "expect_used",
        "panic",
        "as_conversions",
        "too_many_lines",
        "missing_errors_doc",
        "struct_excessive_bools",
        "fn_params_excessive_bools",
        "allow_attributes_without_reason",
        "float_arithmetic",
    ] {
        let line = format!(r#"{lint} = "deny""#);
        assert!(says("lock-core/Cargo.toml", "[lints.clippy]", &line), "{lint} is not denied");
    }
    assert!(says("lock-core/Cargo.toml", "[lints.rust]", r#"missing_docs = "deny""#));
}
