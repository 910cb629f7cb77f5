//! Links of the Markdown files to files of the repository.

use std::path::Path;

use crate::source;

/// The targets of `[words](target)`, code blocks left out.
fn targets(text: &str) -> Vec<String> {
    let mut in_code = false;
    let mut targets = Vec::new();
    for line in text.lines() {
        if line.trim_start().starts_with("```") {
            in_code = !in_code;
        }
        if in_code {
            continue;
        }
        for rest in line.split("](").skip(1) {
            targets.extend(rest.split_once(')').map(|(target, _)| target.to_owned()));
        }
    }
    targets
}

#[test]
fn every_link_to_a_file_leads_somewhere() {
    let mut followed = 0;
    let mut dangling = Vec::new();
    for document in source::files("", ".md") {
        let within = Path::new(&document).parent().unwrap();
        for target in targets(&source::text(&document)) {
            if target.contains("://") || target.starts_with("mailto:") {
                continue;
            }
            let (file, heading) = target.split_once('#').unwrap_or((&target, ""));
            let path =
                if file.is_empty() { Path::new(&document).into() } else { within.join(file) };
            let path = source::root().join(path);
            if !path.exists() {
                dangling.push(format!("{document}: {target}"));
                continue;
            }
            if !heading.is_empty() && path.extension().is_some_and(|ending| ending == "md") {
                let text = std::fs::read_to_string(&path).unwrap();
                let there = text.lines().any(|line| anchor(line).as_deref() == Some(heading));
                if !there {
                    dangling.push(format!("{document}: {target}, no such heading"));
                }
            }
            followed += 1;
        }
    }
    assert!(followed > 0, "no link was found");
    assert!(dangling.is_empty(), "links that lead nowhere: {dangling:#?}");
}

/// How a heading is linked to by pages that show Markdown (from memory).
fn anchor(line: &str) -> Option<String> {
    let heading = line.strip_prefix('#')?.trim_start_matches('#').trim();
    let kept = heading.chars().filter(|c| c.is_alphanumeric() || " -_".contains(*c));
    Some(kept.map(|c| if c == ' ' { '-' } else { c.to_ascii_lowercase() }).collect())
}

/// Documents point at sources in backticks, as `lock-core/src/role.rs`.
#[test]
fn every_source_that_a_document_names_is_there() {
    let mut named = 0;
    for document in source::files("", ".md") {
        let text = source::text(&document);
        for word in text.split('`').skip(1).step_by(2) {
            let of_ours = ["lock-core/", "emulator/", "tests/", "docs/", ".ci/"];
            let plain = word.chars().all(|c| c.is_ascii_alphanumeric() || "/._-".contains(c));
            if plain && of_ours.iter().any(|part| word.starts_with(part)) {
                assert!(source::root().join(word).exists(), "{document} names {word}");
                named += 1;
            }
        }
    }
    assert!(named > 0, "no source is named");
}
