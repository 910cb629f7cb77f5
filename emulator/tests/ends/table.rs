//! Every command against everything that can be wrong around it: the outcome and the
//! exit code.

use std::ffi::{OsStr, OsString};
use std::fs::{self, File};
use std::os::unix::ffi::OsStrExt as _;
use std::os::unix::fs::symlink;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::place::Place;
use crate::{Ended, emulator, end, run};

/// A command, and how it ends where nothing is wrong.
struct Row {
    /// `@x` is a file of the place; the input that is replaced is `IN`, the output `OUT`.
    command: &'static str,
    code: i32,
    /// The file that it reads first.
    input: &'static str,
    /// What that is.
    kind: Kind,
    /// The option that names a file to be written, and the code with it.
    output: Option<&'static str>,
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    /// It reads nothing.
    Nothing,
    /// A file.
    File,
    /// Files, or folders that are searched.
    Folder,
}

const fn row(
    command: &'static str,
    code: i32,
    input: &'static str,
    kind: Kind,
    output: Option<&'static str>,
) -> Row {
    Row { command, code, input, kind, output }
}

use Kind::{File as One, Folder, Nothing};

static ROWS: [Row; 22] = [
    row("", 0, "", Nothing, None),
    row("--help", 0, "", Nothing, None),
    row("drill IN", 0, "drills/pass.toml", Folder, Some("--trace OUT")),
    row("drill IN", 1, "drills/fail.toml", Folder, Some("--trace OUT")),
    row("drill IN --format json", 1, "drills/fail.toml", Folder, None),
    row("plan check IN --from 2027-01-01", 1, "bakery.toml", One, None),
    row(
        "plan openings IN --lock till --holder 12 --from 2027-03-01 --to 2027-03-09",
        0,
        "site.toml",
        One,
        None,
    ),
    row("plan why IN --lock till --holder 12 --at 2027-03-01T09:00", 0, "site.toml", One, None),
    row("plan chart IN --from 2027-03-01 --weeks 1", 0, "site.toml", One, Some("--svg OUT")),
    row("plan closures IN", 0, "holidays.ics", One, None),
    row(
        "plan calendar IN --lock till --holder 12 --from 2027-03-01 --to 2027-03-09",
        0,
        "site.toml",
        One,
        Some("--out OUT"),
    ),
    row("plan supply @bakery.toml --lock till --costs IN", 0, "costs.toml", One, None),
    row("plan seal IN --lock till KEYS --out @sealed.timetables", 0, "site.toml", One, None),
    row("plan code IN --lock till --holder 40 KEYS", 0, "site.toml", One, None),
    row("keyring list --keyring IN --passphrase-file @passphrase", 0, "keyring", One, None),
    row(
        "keyring pair --keyring @keyring --passphrase-file IN --lock 1001 --print",
        0,
        "passphrase",
        One,
        None,
    ),
    row("audit verify IN KEYS", 0, "extracts", Folder, None),
    row("audit report IN KEYS", 0, "extracts", Folder, Some("--html OUT")),
    row("audit export IN KEYS", 0, "extracts", Folder, Some("--output OUT")),
    row("rig power-loss --cases 1 --jobs 1", 0, "", Nothing, Some("--junit OUT")),
    row("rig store --faults --cases 1 --jobs 1", 0, "", Nothing, Some("--junit OUT")),
    row(
        "rig bad-codes --site IN --days 1 --mixtures 1 --cases 1 --jobs 1",
        0,
        "bakery.toml",
        One,
        Some("--junit OUT"),
    ),
];

impl Row {
    /// What is run where its input is `input`, with `more` behind it.
    fn words(&self, place: &Place, input: &Path, more: &str) -> Vec<OsString> {
        let words = place.words(&format!("{} {more}", self.command));
        words.into_iter().map(|word| if word == "IN" { input.into() } else { word }).collect()
    }

    /// The place for one column of one row, whose commands change it.
    fn place(&self, column: &str) -> Place {
        let at = ROWS.iter().position(|row| std::ptr::eq(row, self)).unwrap();
        Place::new(&format!("{column}-{at}"))
    }

    fn holds(&self, column: &str, ended: &Ended, code: i32) {
        let what = format!("{column}: {}", self.command);
        assert_eq!(ended.code, code, "{what}: {}{}", ended.out(), ended.err);
        // Exit code 2 is never without a sentence.
        assert_eq!(code == 2, ended.code == 2 && !ended.err.trim().is_empty(), "{what}");
        assert!(!ended.err.contains("panicked"), "{what}: {}", ended.err);
    }
}

/// The rows, each in a place of its own.
fn each(column: &str, test: impl Fn(&Row, &Place)) {
    for row in &ROWS {
        test(row, &row.place(column));
    }
}

#[test]
fn nothing_is_wrong() {
    each("fine", |row, place| {
        let ended = run(&mut emulator(&row.words(place, &place.path(row.input), "")));
        row.holds("fine", &ended, row.code);
        assert!(!ended.out.is_empty());
    });
}

/// What is lost is no result: exit code 2, with a sentence.
#[test]
fn a_full_device() {
    each("full", |row, place| {
        let mut command = emulator(&row.words(place, &place.path(row.input), ""));
        let ended = end(command.stdout(File::options().write(true).open("/dev/full").unwrap()));
        row.holds("full", &ended, 2);
        assert!(
            ended.err.contains("The result could not be written: No space left"),
            "{}",
            ended.err
        );
    });
}

/// So is what was written to where nothing can be: the library's own standard output
/// takes that for a success.
#[test]
fn an_output_that_is_open_for_reading_only() {
    each("reading", |row, place| {
        let mut command = emulator(&row.words(place, &place.path(row.input), ""));
        let ended = end(command.stdout(File::open("/dev/null").unwrap()));
        row.holds("reading", &ended, 2);
    });
}

/// Whoever closed the pipe has seen enough: the outcome is the command's.
#[test]
fn a_closed_pipe() {
    each("pipe", |row, place| {
        let mut command = emulator(&row.words(place, &place.path(row.input), ""));
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        row.holds("pipe", &end(command.stdout(writer)), row.code);
    });
}

/// Neither at a terminal to ask at, nor to draw for.
#[test]
fn no_terminal() {
    each("no-tty", |row, place| {
        let words = row.words(place, &place.path(row.input), "");
        let mut command = Command::new("setsid");
        command.arg("--wait").arg(env!("CARGO_BIN_EXE_emulator")).args(&words);
        let ended = run(command.stdin(Stdio::null()));
        row.holds("no-tty", &ended, row.code);
        assert!(!ended.out.contains(&0x1b) && !ended.err.contains('\x1b'), "{}", row.command);
        // Nor is a passphrase asked where nobody is, nor a code shown.
        let mut asks = words.clone();
        asks.retain(|word| word != "--print");
        if let Some(at) = asks.iter().position(|word| word == "--passphrase-file") {
            asks.drain(at..at + 2);
        }
        if asks.len() < words.len() {
            let mut command = Command::new("setsid");
            command.arg("--wait").arg(env!("CARGO_BIN_EXE_emulator")).args(&asks);
            row.holds("no-tty asks", &run(command.stdin(Stdio::null())), 2);
        }
    });
}

/// A terminal of 20 columns changes how it looks at most.
#[test]
fn a_narrow_terminal() {
    each("narrow", |row, place| {
        let words = row.words(place, &place.path(row.input), "");
        let quoted = words.iter().map(|word| format!(" '{}'", word.to_str().unwrap()));
        let line = format!(
            "stty cols 20 rows 5; exec '{}'{}",
            env!("CARGO_BIN_EXE_emulator"),
            quoted.collect::<String>()
        );
        let mut command = Command::new("script");
        command.args(["-qefc", &line, "/dev/null"]).stdin(Stdio::null());
        row.holds("narrow", &run(&mut command), row.code);
    });
}

/// A name that is no text is read like any other, and shown without harm.
#[test]
fn a_name_that_is_no_text() {
    each("name", |row, place| {
        if row.kind == Nothing {
            return;
        }
        let ending = Path::new(row.input).extension().unwrap_or_default();
        let odd = place.path(Place::odd(&format!(".{}", ending.to_str().unwrap())));
        fs::rename(place.path(row.input), &odd).unwrap();
        // A drill names its site from where it lies.
        if row.input.starts_with("drills") {
            let text = fs::read_to_string(&odd).unwrap();
            fs::write(&odd, text.replace("../bakery.toml", "bakery.toml")).unwrap();
        }
        let ended = run(&mut emulator(&row.words(place, &odd, "")));
        row.holds("name", &ended, row.code);
        let all = [ended.out, ended.err.into_bytes()].concat();
        assert!(std::str::from_utf8(&all).is_ok() && !all.contains(&0x1b), "{}", row.command);
    });
}

/// A link to the input is the input; one that leads to itself is refused.
#[test]
fn links() {
    each("links", |row, place| {
        if row.kind == Nothing {
            return;
        }
        let link = place.path(Path::new(row.input).with_file_name("a-link"));
        symlink(place.path(row.input), &link).unwrap();
        row.holds("link", &run(&mut emulator(&row.words(place, &link, ""))), row.code);
        let endless = place.endless("endless");
        row.holds("endless", &run(&mut emulator(&row.words(place, &endless, ""))), 2);
    });
}

/// What is no file is refused, and not waited for. Among others it is the one that
/// is broken.
#[test]
fn pipes_and_devices() {
    each("fifo", |row, place| {
        if row.kind == Nothing {
            return;
        }
        let fifo = place.fifo("fifo");
        for input in [fifo.as_path(), Path::new("/dev/zero")] {
            let ended = run(&mut emulator(&row.words(place, input, "")));
            let code = if row.input == "extracts" { 1 } else { 2 };
            row.holds("fifo", &ended, code);
        }
    });
}

/// A folder where a file is needed, a file within which a folder is: neither can be
/// read, and whatever a folder holds that cannot be searched is told.
#[test]
fn a_folder_that_cannot_be_read() {
    each("folder", |row, place| match row.kind {
        Nothing => {}
        One => {
            let folder = place.path("drills");
            row.holds("folder", &run(&mut emulator(&row.words(place, &folder, ""))), 2);
        }
        Folder => {
            let within = place.path("costs.toml").join("within");
            row.holds("within", &run(&mut emulator(&row.words(place, &within, ""))), 2);
        }
    });
}

/// Where the output has no place: a file where a folder is needed, a folder where
/// the file should be, a device.
#[test]
fn an_output_without_a_place() {
    each("output", |row, place| {
        let Some(option) = row.output else { return };
        fs::create_dir(place.path("there")).unwrap();
        place.endless("endless");
        let before = place.names();
        for out in ["costs.toml/x", "nowhere/x", "there", "endless", "/dev/full", "/dev/null"] {
            let mut words = row.words(place, &place.path(row.input), option);
            let last = words.iter_mut().find(|word| *word == "OUT").unwrap();
            *last = place.path(out).into();
            let ended = run(&mut emulator(&words));
            row.holds(out, &ended, 2);
            assert!(ended.err.contains("cannot be written"), "{out}: {}", ended.err);
            assert_eq!(place.names(), before, "{out}: nothing is left behind");
        }
        let mut words = row.words(place, &place.path(row.input), option);
        *words.iter_mut().find(|word| *word == "OUT").unwrap() = place.path(Place::odd("")).into();
        row.holds("odd output", &run(&mut emulator(&words)), row.code);
        assert_eq!(place.names().len(), before.len() + 1);
    });
}

/// The server: what it cannot be started with.
#[test]
fn the_page() {
    let place = Place::new("page");
    let serve = |options: &str| run(&mut emulator(&place.words(&format!("serve {options}"))));
    place.fifo("fifo");
    place.endless("endless");
    for options in ["--site @fifo", "--site @endless", "--site @drills", "--site @nowhere"] {
        let ended = serve(options);
        assert_eq!(ended.code, 2, "{options}: {}", ended.err);
    }
    let mut command = emulator(&place.words("serve"));
    let ended = end(command.stdout(File::options().write(true).open("/dev/full").unwrap()));
    assert_eq!(ended.code, 2, "{}", ended.err);
    // An odd name reaches the sentence unharmed.
    let odd = OsStr::from_bytes(b"\xff\x1b.toml");
    let ended = run(&mut emulator(&["serve".into(), "--site".into(), odd.to_owned()]));
    assert!(ended.code == 2 && ended.err.contains("\\xff\\u{1b}.toml"), "{}", ended.err);
}
