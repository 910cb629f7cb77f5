//! Everything that is printed and written while drills are played, searched for
//! the codes, keys and digests in use.
//!
//! What may hold them is not searched: the drills and site files themselves, and
//! what `--record` writes, which is the keys that were pressed (its help says so).

use std::path::{Path, PathBuf};

use emulator::drill::{self, Drill, Play};
use emulator::world::Keeping;

use super::secrets::Secrets;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../emulator/demo");

/// What was printed or written, and by what.
struct Output {
    by: String,
    bytes: Vec<u8>,
}

/// What a command prints.
fn run(arguments: &[&str]) -> Output {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code =
        emulator::cli::run([&["emulator"], arguments].concat().iter().copied(), &mut out, &mut err);
    assert!(code <= 1, "{arguments:?}: {}", String::from_utf8_lossy(&err));
    Output { by: arguments.join(" "), bytes: [out, err].concat() }
}

fn drills() -> Vec<Drill> {
    let folders = ["drills", "lessons"].map(|name| Path::new(DEMO).join(name));
    let files = drill::files(&folders).expect("files");
    let played = files.iter().map(|file| Drill::load(file).expect("a drill"));
    played.chain(emulator::tour::chapters().expect("the tour")).collect()
}

/// A copy of the demo in which nothing comes as drills expect it, so that all that is
/// seen is printed.
fn surprised() -> PathBuf {
    let copy = Path::new(env!("CARGO_TARGET_TMPDIR")).join("surprised");
    surprise(Path::new(DEMO), &copy);
    copy
}

fn surprise(folder: &Path, copy: &Path) {
    std::fs::create_dir_all(copy).unwrap();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let to = copy.join(path.file_name().unwrap());
        if path.is_dir() {
            surprise(&path, &to);
        } else if let Ok(text) = std::fs::read_to_string(&path) {
            let text = text.replace("screen = \"", "screen = \"No such words. ");
            std::fs::write(to, text.replace("audit = [", "audit = [\"reset\", ")).unwrap();
        } else {
            std::fs::copy(path, to).unwrap();
        }
    }
}

/// The journal of a drill: every step, with what lies in flash, as `Debug` shows it.
fn journal(drill: &Drill) -> Output {
    let mut play = Play::start(drill).expect("a lock");
    play.world_mut().keep(Keeping::Steps, 1);
    while play.step().is_some() {}
    let happened = play.world_mut().take_journal();
    let failures = format!("{:?}", play.failures());
    let trace = play.finish().trace;
    let bytes = format!("{happened:?}{trace:?}{failures}").into_bytes();
    Output { by: format!("the journal of {}", drill.file), bytes }
}

/// What the commands print and write that play drills, plan and attack.
fn outputs() -> Vec<Output> {
    let folders = ["drills", "lessons"].map(|name| format!("{DEMO}/{name}"));
    let [folder, lessons] = folders.each_ref().map(String::as_str);
    let trace = Path::new(env!("CARGO_TARGET_TMPDIR")).join("silent-trace");
    let to = trace.to_str().unwrap();
    let surprised = surprised();
    let [fails, teaches] = ["drills", "lessons"].map(|name| surprised.join(name));
    let (fails, teaches) = (fails.to_str().unwrap(), teaches.to_str().unwrap());
    let site = format!("{DEMO}/harbour-bakery.toml");
    let site = site.as_str();
    let (from, till) = (["--from", "2027-03-01"], ["--lock", "till"]);
    let mut outputs = vec![
        run(&["drill", folder, lessons]),
        run(&["drill", "--format", "json", "--trace", to, folder, lessons]),
        run(&["drill", fails, teaches]),
        run(&["drill", "--format", "json", fails, teaches]),
        run(&[]),
        run(&[&["plan", "check", site], &from[..]].concat()),
        run(&[&["plan", "check", site, "--format", "json"], &from[..]].concat()),
        run(&[
            &["plan", "openings", site, "--holder", "12", "--to", "2027-04-01"],
            &from[..],
            &till,
        ]
        .concat()),
        run(&[&["plan", "supply", site], &till[..]].concat()),
        run(&["rig", "power-loss", "--cases", "20"]),
        run(&["rig", "power-loss", "--cases", "20", "--format", "json"]),
    ];
    outputs.push(Output { by: "drill --trace".to_owned(), bytes: std::fs::read(&trace).unwrap() });
    outputs.extend(drills().iter().map(journal));
    outputs
}

/// R5: no code that is enrolled, tried, chosen or issued, no key and no digest is in
/// anything that the emulated lock prints or writes down.
#[test]
fn nothing_that_is_printed_or_written_has_a_secret_in_it() {
    let mut secrets = Secrets::default();
    drills().iter().for_each(|drill| secrets.of(drill));
    let (codes, parts) = secrets.count();
    assert!(codes > 60 && parts >= 20, "only {codes} codes and {parts} parts of keys");
    let forms = secrets.forms();
    let outputs = outputs();
    let bytes: usize = outputs.iter().map(|output| output.bytes.len()).sum();
    assert!(bytes > 1_000_000, "only {bytes} bytes were searched");
    for Output { by, bytes } in &outputs {
        let found = forms.iter().filter(|form| form.is_in(bytes)).count();
        assert_eq!(found, 0, "of the secrets in use so many are in what came of: {by}");
    }
}

/// The search finds each secret in each of its forms, wherever it stands, and takes
/// no longer number for a code.
#[test]
fn the_search_sees_what_is_planted() {
    let mut secrets = Secrets::default();
    drills().iter().for_each(|drill| secrets.of(drill));
    for form in secrets.forms() {
        let leaked = form.leaked();
        for (before, after) in [("", ""), ("uptime 1803890700, ", ""), ("", " and more")] {
            let text = [before.as_bytes(), &leaked, after.as_bytes()].concat();
            assert!(form.is_in(&text));
            assert!(!form.is_in(&text[..text.len() - after.len() - leaked.len().min(2)]));
        }
    }
    let mut one = Secrets::default();
    one.code(lock_core::holder::Number::new(12).unwrap(), "739204");
    let seen = |text: &str| one.forms().iter().filter(|form| form.is_in(text.as_bytes())).count();
    assert_eq!(
        ["739204", "12739204", "739205", "17392041", "12 739204 ok"].map(seen),
        [1, 1, 1, 0, 1]
    );
}
