//! What files are called and say reaches no terminal as it is.

use std::fs;
use std::os::unix::fs::symlink;

use crate::place::Place;
use crate::{Ended, emulator, run};

/// Erases the line, turns the direction, adds a verdict of its own.
const STEERS: &str = "x\u{1b}[2K\u{202e}\u{9b}1mfine\u{2066}\r";

/// Nothing that steers a terminal is in it.
fn is_plain(ended: &Ended, what: &str) {
    // CSV ends its lines with both (RFC 4180).
    for text in [ended.out().replace("\r\n", "\n"), ended.err.clone()] {
        let bad = text.chars().find(|c| *c != '\n' && !emulator::plain::is_plain(*c));
        assert_eq!(bad, None, "{what}: {text}");
    }
}

#[test]
fn names_of_files_do_not_steer() {
    let place = Place::new("steering-names");
    let broken = format!("extracts/{STEERS}\nfine.extract");
    place.write(&broken, b"no extract");
    let folder = format!("extracts/{STEERS}");
    symlink(place.path("drills"), place.path(&folder)).unwrap();
    for command in ["verify", "report", "export", "verify --format json", "report --format json"] {
        let ended = run(&mut emulator(&place.words(&format!("audit {command} @extracts KEYS"))));
        is_plain(&ended, command);
        assert!(ended.code > 0, "{command}");
        let all = format!("{}{}", ended.out(), ended.err);
        assert!(all.contains("\\u{202e}") || all.contains("\\\\u{202e}"), "{command}: {all}");
        // A line break in a name is no line of the report.
        assert!(!all.lines().any(|line| line.starts_with("fine.extract")), "{command}: {all}");
    }
    for command in ["plan check", "plan closures", "drill", "plan chart"] {
        let mut words = place.words(command);
        words.push(place.path(format!("nowhere/{STEERS}")).into());
        let ended = run(&mut emulator(&words));
        is_plain(&ended, command);
        assert!(ended.code == 2 && ended.err.contains("\\u{1b}"), "{command}: {}", ended.err);
    }
    // An argument that is no option of it.
    let ended = run(&mut emulator(&["drill".into(), format!("--{STEERS}").into()]));
    is_plain(&ended, "argument");
    assert_eq!(ended.code, 2);
}

/// Keys, values, comments and names in a site file, a drill, a calendar.
#[test]
fn what_files_say_does_not_steer() {
    let place = Place::new("steering-texts");
    let site = fs::read_to_string(place.path("site.toml")).unwrap();
    for (old, new) in [
        ("[policy]", format!("[policy]\n\"{}\" = 1 #", escaped())),
        ("[policy]", format!("[policy]\npenalty = \"{}\" #", escaped())),
        // In TOML a comment may hold all but control characters; in what is none, too.
        ("[policy]", "[policy]\npenlaty = 1 # \u{202e}\u{2069}\u{200f}enif\n#".to_owned()),
        ("[policy]", format!("[policy] # {STEERS}")),
        ("zone = \"", format!("zone = \"{}", escaped())),
        ("id = \"till\"", format!("id = \"{}\"", escaped())),
        ("site = \"", "site = \"\u{202e}".to_owned()),
        ("name = \"", "name = \"\u{2066}".to_owned()),
    ] {
        assert!(site.contains(old));
        place.write("steers.toml", site.replacen(old, &new, 1));
        for command in ["plan check @steers.toml", "plan supply @steers.toml --lock till"] {
            let ended = run(&mut emulator(&place.words(command)));
            is_plain(&ended, &new);
            assert_eq!(ended.code, 2, "{new}: {}", ended.out());
        }
    }
    let drill = fs::read_to_string(place.path("drills/pass.toml")).unwrap();
    for new in
        [format!("lock = \"{}\"", escaped()), format!("lock = \"till\"\n\"{}\" = 1", escaped())]
    {
        place.write("drills/steers.toml", drill.replacen("lock = \"till\"", &new, 1));
        let ended = run(&mut emulator(&place.words("drill @drills/steers.toml")));
        is_plain(&ended, &new);
        assert_eq!(ended.code, 2, "{new}");
    }
    let calendar = fs::read_to_string(place.path("holidays.ics")).unwrap();
    place.write("steers.ics", calendar.replace("Christmas", "Chr\u{202e}ist\u{9b}mas\u{2066}"));
    for command in ["plan closures @steers.ics", "plan closures @steers.ics --format json"] {
        let ended = run(&mut emulator(&place.words(command)));
        is_plain(&ended, command);
        assert_eq!(ended.code, 0, "{}", ended.err);
    }
}

/// As TOML spells it in a text.
fn escaped() -> String {
    STEERS
        .chars()
        .map(|c| if c == 'x' { "x".into() } else { format!("\\U{:08x}", u32::from(c)) })
        .collect()
}
