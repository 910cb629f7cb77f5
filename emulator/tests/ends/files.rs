//! Files: whole or not there, not in the place of others, for whose eyes; and what
//! cannot be read beside what can.

use std::fs;
use std::os::unix::fs::{PermissionsExt as _, symlink};
use std::process::Command;

use crate::place::Place;
use crate::{Ended, emulator, end, run};

fn ended(place: &Place, command: &str) -> Ended {
    run(&mut emulator(&place.words(command)))
}

/// The same where no file can be longer than 512 bytes: a full stick.
fn on_a_full_stick(place: &Place, command: &str) -> Ended {
    let mut shell = Command::new("sh");
    // A signal that is left alone would end it.
    shell.args(["-c", "trap '' XFSZ; ulimit -f 1; exec \"$@\"", "sh"]);
    shell.arg(env!("CARGO_BIN_EXE_emulator")).args(place.words(command));
    end(shell.stdout(std::process::Stdio::piped()))
}

/// What does not fit leaves nothing behind that would be in the way of trying again.
#[test]
fn a_full_stick_leaves_nothing_behind() {
    let place = Place::new("stick");
    let drill = fs::read_to_string(place.path("drills/pass.toml")).unwrap();
    place.write("drills/more.toml", drill);
    for (command, code) in [
        ("audit report @extracts KEYS --html @new", 0),
        ("plan chart @site.toml --from 2027-03-01 --svg @new", 0),
        ("plan calendar @site.toml --lock till --from 2027-03-01 --to 2027-04-01 --out @new", 0),
        ("drill @drills/pass.toml --trace @new", 0),
        ("drill @drills/pass.toml --record @recorded", 0),
        ("rig store --faults --cases 1 --jobs 1 --junit @new", 0),
    ] {
        let recorded = fs::create_dir_all(place.path("recorded"));
        let before = (recorded.unwrap(), place.names());
        let full = on_a_full_stick(&place, command);
        assert_eq!(full.code, 2, "{command}: {}", full.err);
        assert!(full.err.contains("File too large"), "{command}: {}", full.err);
        // Of a recording, files that were whole before may stay.
        let whole = |path: &std::path::PathBuf| path.starts_with(place.path("recorded"));
        let after: Vec<_> = place.names().into_iter().filter(|path| !whole(path)).collect();
        let before: Vec<_> = before.1.into_iter().filter(|path| !whole(path)).collect();
        assert_eq!(after, before, "{command}");
        let again = ended(&place, command);
        assert_eq!(again.code, code, "{command}: {}", again.err);
        let _ = fs::remove_file(place.path("new"));
    }
    // What was there before is still there.
    place.write("new", "precious");
    let full = on_a_full_stick(&place, "plan chart @site.toml --from 2027-03-01 --svg @new");
    assert_eq!((full.code, fs::read(place.path("new")).unwrap()), (2, b"precious".to_vec()));
}

#[test]
fn an_export_takes_no_other_file_s_place_unless_forced() {
    let place = Place::new("force");
    for command in
        ["audit export @extracts KEYS --output @new", "audit report @extracts KEYS --html @new"]
    {
        place.write("new", "precious");
        let refused = ended(&place, command);
        assert_eq!(refused.code, 2);
        assert!(refused.err.contains("--force"), "{}", refused.err);
        assert_eq!(fs::read(place.path("new")).unwrap(), b"precious");
        assert_eq!(ended(&place, &format!("{command} --force")).code, 0);
        assert_ne!(fs::read(place.path("new")).unwrap(), b"precious");
        fs::remove_file(place.path("new")).unwrap();
        assert_eq!(ended(&place, command).code, 0);
    }
}

/// What tells of duress is for its owner alone, also in the place of another file.
#[test]
fn what_is_confidential_is_for_its_owner() {
    let place = Place::new("confidential");
    let mode = || fs::metadata(place.path("new")).unwrap().permissions().mode() & 0o777;
    for command in
        ["audit export @extracts KEYS --output @new", "audit report @extracts KEYS --html @new"]
    {
        assert_eq!(ended(&place, &format!("{command} --confidential")).code, 0);
        assert_eq!(mode(), 0o600);
        fs::set_permissions(place.path("new"), fs::Permissions::from_mode(0o644)).unwrap();
        assert_eq!(ended(&place, &format!("{command} --confidential --force")).code, 0);
        assert_eq!(mode(), 0o600);
        fs::remove_file(place.path("new")).unwrap();
    }
}

/// A folder that cannot be searched is told, and exit code 2 says that not all was read;
/// the others are verified. A link to a folder stands for one that permissions close,
/// which they do not where this runs as root.
#[test]
fn a_folder_that_cannot_be_searched_is_told() {
    let place = Place::new("unsearched");
    fs::create_dir(place.path("extracts/closed")).unwrap();
    fs::rename(place.path("extracts/till.extract"), place.path("extracts/z.extract")).unwrap();
    assert_eq!(ended(&place, "audit verify @extracts KEYS").code, 0);
    fs::set_permissions(place.path("extracts/closed"), fs::Permissions::from_mode(0o000)).unwrap();
    let closed = fs::read_dir(place.path("extracts/closed")).is_err();
    symlink(place.path("drills"), place.path("extracts/linked")).unwrap();
    for command in ["verify", "report", "export"] {
        let text = ended(&place, &format!("audit {command} @extracts KEYS"));
        assert_eq!(text.code, 2, "{command}: {}", text.err);
        let all = format!("{}{}", text.out(), text.err);
        assert!(all.contains("linked could not be searched: it is a link"), "{command}: {all}");
        assert_eq!(all.contains("closed could not be searched"), closed, "{command}: {all}");
        // The rest was read.
        assert!(all.contains("3 records, number") || all.contains("wrong-code"), "{all}");
    }
    for command in ["verify", "report"] {
        let json = ended(&place, &format!("audit {command} @extracts KEYS --format json"));
        let told: serde_json::Value = serde_json::from_str(&json.out()).unwrap();
        assert_eq!(told["unsearched"].as_array().unwrap().len(), 1 + usize::from(closed));
    }
    fs::set_permissions(place.path("extracts/closed"), fs::Permissions::from_mode(0o755)).unwrap();
}

/// What only bears the name of an extract is told as one that cannot be read, and not
/// waited for; a link to a file is that file.
#[test]
fn what_is_called_an_extract_is_told_whatever_it_is() {
    let place = Place::new("called");
    place.fifo("extracts/a.extract");
    place.endless("extracts/b.extract");
    symlink(place.path("extracts/till.extract"), place.path("extracts/c.extract")).unwrap();
    let verified = ended(&place, "audit verify @extracts KEYS");
    assert_eq!(verified.code, 1, "{}", verified.out());
    let out = verified.out();
    for words in ["a.extract cannot be read: it is a pipe", "b.extract cannot be read: Too many"] {
        assert!(out.contains(words), "{words}: {out}");
    }
    assert!(out.contains("c.extract\n") && out.contains("4 files: 2 broken"), "{out}");
}

/// A calendar without an end.
#[test]
fn a_calendar_is_read_up_to_a_limit() {
    let place = Place::new("long");
    let file = fs::File::create(place.path("long.ics")).unwrap();
    // No room is taken on the disk for it.
    file.set_len(1 << 40).unwrap();
    let refused = ended(&place, "plan closures @long.ics");
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("more than 4194304 bytes"), "{}", refused.err);
}
