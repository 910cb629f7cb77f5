//! Secrets are silent (R5): no type that holds one can show it, and nothing that
//! the emulated lock prints or leaves behind has one in it.
//!
//! | file | what is held against what |
//! | --- | --- |
//! | this one | each type that is wiped or says that it has no `Debug`, against `silent!` |
//! | `secrets.rs` | every code, key and digest that drills use, in the forms in which they could get out |
//! | `output.rs` | all that is printed and written while drills are played, against those |

mod output;
mod secrets;

use crate::source;

/// The type that a line begins to declare.
fn declared(line: &str) -> Option<&str> {
    let (before, rest) = ["struct ", "enum "].iter().find_map(|word| line.split_once(word))?;
    let declares = before.is_empty() || before.starts_with("pub");
    let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(rest.len());
    declares.then(|| &rest[..end])
}

/// The names in every `silent!(…)` of a file.
fn silent(text: &str) -> Vec<&str> {
    let lists = text.split("silent!(").skip(1).filter_map(|rest| rest.split_once(");"));
    let names = lists.flat_map(|(list, _)| list.split(", "));
    names.map(|name| name.split('<').next().unwrap()).collect()
}

/// Whether what stands above a type says that it is a secret.
fn secret(above: &[&str]) -> bool {
    above.iter().any(|line| {
        let doc = line.starts_with("///") && line.to_lowercase().contains("no `debug`");
        let wiped = line.starts_with("#[derive(") && line.contains("Zeroize");
        doc || wiped
    })
}

/// R5: what is wiped, and what says that it has no `Debug`, is held to it by
/// `silent!`; the types of one's own that are not secrets are not.
#[test]
fn every_secret_is_held_to_be_silent() {
    let (mut held, mut missing) = (0, Vec::new());
    for path in ["lock-core/src", "emulator"].iter().flat_map(|part| source::files(part, ".rs")) {
        let text = source::text(&path);
        let silent = silent(&text);
        let lines: Vec<_> = text.lines().collect();
        for (place, name) in
            lines.iter().enumerate().filter_map(|(place, line)| Some((place, declared(line)?)))
        {
            let blank = lines[..place].iter().rposition(|line| line.is_empty()).unwrap_or(0);
            if secret(&lines[blank..place]) {
                held += 1;
                if !silent.contains(&name) {
                    missing.push(format!("{path}: {name}"));
                }
            }
        }
    }
    assert!(held >= 35, "only {held} secrets were recognised");
    assert!(missing.is_empty(), "write silent!(…) behind: {missing:?}");
}
