//! `docs/audits.md` shows what the commands print: each printed line, in its order.
//! An ellipsis stands for lines that are left out.

use super::folder::Folder;

const DOCUMENT: &str = include_str!("../../../docs/audits.md");

/// The lines under `$ command`, up to the next command or the end of the block.
fn shown(command: &str) -> Vec<&'static str> {
    let from = DOCUMENT.find(&format!("$ {command}")).unwrap_or_else(|| panic!("no {command}"));
    let block = DOCUMENT[from..].split("```").next().unwrap();
    block.lines().skip(1).take_while(|line| !line.starts_with("$ ")).collect()
}

/// Each shown line is a printed one; between two of them nothing was left out unless
/// an ellipsis says so.
fn agrees(shown: &[&str], printed: &str) {
    let mut lines = printed.lines().map(str::trim_end).peekable();
    let mut skipping = false;
    let mut compared = 0;
    for line in shown {
        if line.trim() == "…" {
            skipping = true;
            continue;
        }
        // Every part ends with an empty line: it does not say where to go on.
        if skipping && line.is_empty() {
            continue;
        }
        if skipping {
            while lines.peek().is_some_and(|printed| printed != line) {
                lines.next();
            }
            skipping = false;
        }
        assert_eq!(lines.next(), Some(line.trim_end()), "docs/audits.md shows another line");
        compared += 1;
    }
    assert!(compared >= 5 && (skipping || lines.next().is_none()), "something is left out");
}

#[test]
fn what_the_document_shows_is_what_is_printed() {
    let folder = Folder::new("documented");
    folder.live();
    let here = format!("{}/", folder.path("").display().to_string().trim_end_matches('/'));
    for command in ["audit verify", "audit report"] {
        let arguments = command.trim_start_matches("audit ");
        let (_, out, err) = folder.audit(&format!("{arguments} --site @site.toml @extracts"));
        assert_eq!(err, "");
        agrees(&shown(&format!("emulator {command}")), &out.replace(&here, ""));
    }
    let (code, _, err) = folder.audit("export --site @site.toml --output @audit.csv @extracts");
    assert_eq!(code, 0, "{err}");
    let csv = String::from_utf8(folder.read("audit.csv")).unwrap().replace("\r\n", "\n");
    let head: Vec<&str> = csv.lines().take(5).collect();
    agrees(&shown("head -5 audit.csv"), &head.join("\n"));
}

/// A name that a spreadsheet would take for a formula is text. Source: OWASP, *CSV
/// Injection* (from memory).
#[test]
fn no_name_is_a_formula() {
    let folder = Folder::new("formula");
    folder.live();
    let site = super::folder::DEMO;
    for (name, cell) in [
        ("=1+1", ",'=1+1,"),
        ("+cmd", ",'+cmd,"),
        ("-2", ",'-2,"),
        ("@sum", ",'@sum,"),
        ("Tom=as", ",Tom=as,"),
    ] {
        folder.write(
            "site.toml",
            site.replace("name = \"Tomasz\"", &format!("name = \"{name}\"")).as_bytes(),
        );
        let (code, out, err) = folder.audit("export --site @site.toml @extracts");
        assert_eq!((code, err.as_str()), (0, ""));
        assert!(out.contains(cell), "{name}");
        // JSON has no formulas, and says what the file says.
        let (_, out, _) = folder.audit("export --format json --site @site.toml @extracts");
        assert!(out.contains(&format!("\"{name}\"")), "{name}");
    }
}
