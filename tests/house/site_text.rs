//! A site file to spoil, and the command line to show it to.

/// A small site in which everything is right.
pub(crate) const SITE: &str = r#"site = "Corner Shop"
zone = "Europe/Dublin"

[policy]
penalty = "5m"

[[lock]]
id = "till"
number = 1001

[[lock]]
id = "store"
number = 1002
delay = "10m"

[timetable.A]
name = "Counter"
mon = ["08:30-12:30", "13:30-17:00"]
sat = ["09:00-13:00"]

[timetable.B]
name = "Night"
sun = ["22:00-02:00"]

[[closure]]
from = 2027-12-25
to = 2027-12-26

[[special]]
date = 2027-12-24
timetables = ["A"]
windows = ["08:30-12:00"]

[[holder]]
number = 1
name = "Maeve"
role = "warden"
opens = true
timetable = "A"

[[holder]]
number = 2
name = "Declan"
role = "warden"

[[holder]]
number = 12
name = "Tomasz"
role = "keyholder"
timetable = "B"

[[holder]]
number = 50
name = "Ruth"
role = "steward"

[demo.codes]
"01" = "480317"
"12" = "739204"
"#;

/// What stands at the place where the caret must be.
const CARET: char = '§';

/// [`SITE`] with `old` replaced by `new`, and the line and column of the caret
/// mark in it.
pub(crate) fn spoiled(old: &str, new: &str) -> (String, Option<(usize, usize)>) {
    assert_eq!(SITE.matches(old).count(), 1, "`{old}` must stand there once");
    let text = SITE.replacen(old, new, 1);
    let caret = text.find(CARET).map(|at| {
        let before = &text[..at];
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    });
    (text.replace(CARET, ""), caret)
}

/// Runs the command line with `text` in a file in the place of `SITE`: the exit
/// code, the file's path, what came out and what was complained about.
pub(crate) fn run(text: &str, arguments: &[&str]) -> (u8, String, String, String) {
    use std::sync::atomic::{AtomicU32, Ordering};
    static FILES: AtomicU32 = AtomicU32::new(0);
    let row = FILES.fetch_add(1, Ordering::Relaxed);
    let path = std::env::temp_dir().join(format!("spoiled-{}-{row}.toml", std::process::id()));
    std::fs::write(&path, text).expect("the temporary directory can be written");
    let name = path.to_str().expect("a plain path").to_owned();
    let arguments = arguments.iter().map(|word| if *word == "SITE" { name.as_str() } else { word });
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = emulator::cli::run(arguments, &mut out, &mut err);
    std::fs::remove_file(&path).expect("the file is still there");
    let text = |bytes| String::from_utf8(bytes).expect("text");
    (code, name, text(out), text(err))
}
