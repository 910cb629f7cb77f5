//! Drills, the tour, and what people meet who write a drill with a mistake.
//! Sources of every expectation: `docs/behaviour.md` and `DEVELOPERS.md`.

use std::path::{Path, PathBuf};

use emulated_board::trace;
use emulator::document::TEXT_MOST;
use lock_core::audit::Refusal;
use lock_core::policy::{TABLE, Unit};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../emulator/demo");

fn run(arguments: &[&str]) -> (u8, String, String) {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = emulator::cli::run(arguments.iter().copied(), &mut out, &mut err);
    (code, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
}

/// A folder of this test's own, with the demo site in it.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::create_dir_all(&folder).unwrap();
    let site = Path::new(DEMO).join("harbour-bakery.toml");
    std::fs::copy(site, folder.join("harbour-bakery.toml")).unwrap();
    folder
}

const DRILL: &str = "\
title = \"Wrong\"
site = \"harbour-bakery.toml\"
lock = \"till\"
start = 2027-03-01T08:45:00

[[step]]
say = \"A stranger tries a number.\"
keys = \"12 000000 ok\"

[[step]]
wait = \"30s\"

[[step]]
expect = { state = \"secured\", bolt = \"thrown\", alarm = false, screen = \"Wrong code\", audit = [\"wrong-code\"] }
";

/// R1 R2 R3 R4 R5 R8 R9 R10: every drill of the demo passes, played twice with
/// the same outcome, and the last line counts them.
#[test]
fn all_drills_pass() {
    let folders = ["drills", "lessons", "seams"].map(|name| format!("{DEMO}/{name}"));
    let [drills, lessons, seams] = folders.each_ref().map(String::as_str);
    let (code, out, err) = run(&["emulator", "drill", drills, lessons, seams]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    let files: usize = folders.iter().map(|path| std::fs::read_dir(path).unwrap().count()).sum();
    assert!(files >= 150);
    assert!(out.ends_with(&format!("{files} passed, 0 failed\n")), "{out}");
}

/// Each lesson file is a lesson of the page, and says what it teaches.
#[test]
fn every_lesson_is_on_the_page() {
    let files = emulator::drill::files(&[Path::new(DEMO).join("lessons")]).unwrap();
    let names: Vec<_> =
        files.iter().map(|file| file.file_stem().unwrap().to_str().unwrap()).collect();
    let lessons = emulator::page::lessons();
    assert_eq!(names, lessons.iter().map(|lesson| lesson.id).collect::<Vec<_>>());
    for lesson in lessons {
        let drill = &lesson.drill;
        assert!(drill.teaches.is_some(), "{} teaches something", lesson.id);
        assert!(drill.steps.iter().filter(|step| step.say.is_some()).count() >= 3, "{}", lesson.id);
        assert!(drill.steps.iter().filter(|step| step.expect.is_some()).count() >= 5);
    }
}

/// There is a drill for each rule that this far can be drilled, and for each
/// default of the policy table that is not a choice between ways to go on.
#[test]
fn each_rule_and_each_default_has_a_drill() {
    let names: Vec<String> = std::fs::read_dir(format!("{DEMO}/drills"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    for rule in ["r01", "r02", "r03", "r04", "r05", "r08", "r09", "r10"] {
        assert!(names.iter().any(|name| name.starts_with(&format!("{rule}-"))), "{rule}");
    }
    let choice = |unit| matches!(unit, Unit::People | Unit::Choice(_));
    for row in TABLE.into_iter().filter(|row| !choice(row.unit)) {
        let word = row.key.replace('_', "-");
        let drilled = |name: &String| name.starts_with("default-") && name.contains(&word);
        assert!(names.iter().any(drilled), "no drill named after {}", row.key);
    }
}

/// The tour plays to its end as a drill does, shows no code and ends with what
/// to try next.
#[test]
fn the_tour_holds_what_it_says() {
    let (code, out, err) = run(&["emulator"]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("not a certified lock") && out.contains("What to try next"));
    for code in ["480317", "615928", "371940", "739204", "739205", "918053", "364179"] {
        assert!(!out.contains(code), "the tour shows a code");
    }
    assert!(out.contains("12 ······ OK"));
}

/// An expectation that is not met: exit code 1, with step, line, expected and
/// seen.
#[test]
fn a_failed_expectation_says_what_was_seen() {
    let file = folder("failed").join("drill.toml");
    std::fs::write(&file, DRILL.replace("state = \"secured\"", "state = \"open\"")).unwrap();
    let (code, out, _) = run(&["emulator", "drill", file.to_str().unwrap()]);
    assert_eq!(code, 1);
    for words in [":14: step 3: state", "expected: open", "seen:     secured", "0 passed, 1 failed"]
    {
        assert!(out.contains(words), "{words} is missing in\n{out}");
    }
}

/// `--format json`: an object a line, no digit of a code; `--trace`: the same
/// number of frames, each of which is read back.
#[test]
fn a_trace_is_told_as_json_and_as_frames() {
    let folder = folder("trace");
    let (file, frames) = (folder.join("drill.toml"), folder.join("frames"));
    std::fs::write(&file, DRILL).unwrap();
    let arguments = ["emulator", "drill", "--format", "json", "--trace"];
    let paths = [frames.to_str().unwrap(), file.to_str().unwrap()];
    let (code, out, err) = run(&[&arguments[..], &paths].concat());
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    let objects: Vec<serde_json::Value> =
        out.lines().map(|line| serde_json::from_str(line).expect("an object a line")).collect();
    let traced = objects.iter().filter(|object| object.get("what").is_some()).count();
    assert!(traced > 10);
    assert!(!out.contains("000000"));
    let bytes = std::fs::read(&frames).unwrap();
    let mut read = 0;
    for frame in bytes.split_inclusive(|byte| *byte == 0) {
        assert!(frame.len() <= trace::LINE);
        trace::decode(&mut frame.to_vec()).expect("a line");
        read += 1;
    }
    assert_eq!(read, traced);
}

/// `--format json`: the last object of a drill names what is durable at its end, which a
/// record that the power went within is not; the next boot's is.
#[test]
fn the_records_of_a_drill_are_told_as_json() {
    let file = folder("durable").join("drill.toml");
    let keys = "[[step]]\nkeys = \"12 739204 ok\"\n\n";
    let cut = "[[step]]\ncut = \"at-record\"\n\n";
    let power = "[[step]]\npower = \"restore\"\n\n";
    for (steps, audit) in [
        (keys.to_owned(), vec!["released"]),
        (format!("{cut}{keys}"), vec![]),
        (format!("{cut}{keys}{power}{keys}"), vec!["powered-up", "released"]),
    ] {
        let head = DRILL.split("[[step]]").next().unwrap();
        std::fs::write(&file, format!("{head}{steps}")).unwrap();
        let arguments = ["emulator", "drill", "--format", "json", file.to_str().unwrap()];
        let (code, out, err) = run(&arguments);
        assert_eq!((code, err.as_str()), (0, ""), "{out}");
        let mut objects = out.lines().map(|line| serde_json::from_str(line).unwrap());
        let result = objects.find(|object: &serde_json::Value| object.get("file").is_some());
        assert_eq!(result.unwrap()["audit"], serde_json::json!(audit), "{steps}");
    }
}

/// A drill that says that the power goes, and in which it does not, shows
/// something else than it says.
#[test]
fn a_cut_that_never_falls_is_a_failure() {
    let file = folder("uncut").join("drill.toml");
    for (cut, seen) in [
        ("cut = \"at-drive\"", "has not"),
        ("cut = { after = 1000, class = \"after\" }", "has not"),
        ("cut = { at = \"record\", after = 999, class = \"after\" }", "has not"),
    ] {
        let text = DRILL.replacen("[[step]]", &format!("[[step]]\n{cut}\n\n[[step]]"), 1);
        std::fs::write(&file, &text).unwrap();
        let (code, out, err) = run(&["emulator", "drill", file.to_str().unwrap()]);
        assert_eq!((code, err.as_str()), (1, ""), "{out}");
        assert!(out.contains(": cut\n") && out.contains(seen), "{cut}\n{out}");
    }
    let text = DRILL.replacen("[[step]]", "[[step]]\ncut = \"at-record\"\n\n[[step]]", 1);
    let text = text.replace("secured", "no power").replace("Wrong code", "12");
    std::fs::write(&file, text.replace("\"wrong-code\"", "")).unwrap();
    let (code, out, _) = run(&["emulator", "drill", file.to_str().unwrap()]);
    assert_eq!(code, 0, "{out}");
}

/// Mistakes in a drill: exit code 2, the place, what is wrong and what to do,
/// and no code in the picture of the place.
#[test]
fn a_mistake_in_a_drill_is_pointed_at() {
    for (old, new, place, words) in [
        ("lock = \"till\"", "lock = \"til\"", "3:8", "Did you mean `till`"),
        ("wait = \"30s\"", "wiat = \"30s\"", "11:1", "Did you mean `wait`"),
        ("wait = \"30s\"", "wait = \"30\"", "11:8", "a whole number and a unit"),
        ("wait = \"30s\"", "wait = 30", "11:8", "must be a text"),
        ("wait = \"30s\"", "until = 2027-03-01T08:45:00", "11:9", "in the past"),
        ("wait = \"30s\"", "until = 2027-03-28T01:30:00", "11:9", "clock change skips"),
        ("wait = \"30s\"", "until = 2027-03-28", "11:9", "a date and time"),
        ("wait = \"30s\"", "wait = \"1s\"\nbolt = \"draw\"", "12:8", "of its own"),
        ("wait = \"30s\"", "bolt = \"push\"", "11:8", "\"draw\", \"throw\", \"force\""),
        ("wait = \"30s\"", "clock = \"2h\"", "11:9", "\"lost\", or a jump"),
        ("wait = \"30s\"", "supply = \"100V\"", "11:10", "up to 65 V"),
        ("wait = \"30s\"", "pace = \"1s\"", "11:8", "has no `keys`"),
        ("wait = \"30s\"", "", "10:1", "This step is empty"),
        ("wait = \"30s\"", "cut = \"at-night\"", "11:7", "\"at-drive\", \"at-record\""),
        ("wait = \"30s\"", "cut = 12", "11:7", "\"at-drive\", \"at-record\""),
        ("wait = \"30s\"", "cut = { after = 2 }", "11:7", "`class` is missing"),
        ("wait = \"30s\"", "cut = { class = \"prefix\" }", "11:7", "`after` is missing"),
        ("wait = \"30s\"", "cut = { after = 1, clas = \"x\" }", "11:20", "Did you mean `class`"),
        ("wait = \"30s\"", "cut = { after = 1, class = \"prefx\" }", "11:28", "mean `prefix`"),
        ("wait = \"30s\"", "cut = { at = \"drie\", class = \"after\" }", "11:14", "mean `drive`"),
        ("wait = \"30s\"", "cut = { after = -1, class = \"after\" }", "11:17", "from 0 to"),
        ("12 000000 ok", "12 000000 okay", "8:8", "no key"),
        ("12 000000 ok", " ", "8:8", "names no key"),
        ("state = \"secured\"", "state = \"locked\"", "14:20", "is not a state"),
        ("state = \"secured\"", "state = \"000000\"", "14:20", "`******` is not a state"),
        ("\"wrong-code\"]", "\"wrong-cod\"]", "14:95", "Did you mean `wrong-code`"),
        ("alarm = false", "alarm = \"loud\"", "14:56", "\"duress\""),
        ("wait = \"30s\"", "courier = 40", "11:11", "who types which one-time code"),
        ("wait = \"30s\"", "courier = \"0\"", "11:11", "the number of a courier"),
        ("wait = \"30s\"", "courier = { again = true }", "11:11", "`number` is missing"),
        ("wait = \"30s\"", "courier = { number = \"4x\" }", "11:22", "the number of a courier"),
        ("wait = \"30s\"", "courier = { number = \"40\", agian = true }", "11:28", "mean `again`"),
        ("wait = \"30s\"", "courier = { number = \"40\", again = true }", "11:11", "no code yet"),
        ("wait = \"30s\"", "courier = { number = \"40\", skip = 100 }", "11:35", "from 0 to 99"),
        (
            "wait = \"30s\"",
            "courier = { number = \"40\", again = true, skip = 1 }",
            "11:49",
            "`again` types no later code",
        ),
        (
            "lock = \"till\"",
            "lock = \"till\"\nfresh = \"erasd\"",
            "4:9",
            "\"erased\" for erased flash",
        ),
        ("lock = \"till\"", "lock = \"till\"\nfresh = 1", "4:9", "has in it when the drill starts"),
        ("wait = \"30s\"", "stick = \"nowhere\"", "11:9", "`nowhere` is no use as a memory stick"),
        ("wait = \"30s\"", "stick = \".\"", "11:9", "there is no timetable file on the stick"),
        ("wait = \"30s\"", "stick = \"stick\"", "11:9", "till.timetables is no timetable file"),
        ("wait = \"30s\"", "stick = 1", "11:9", "must be a text"),
        ("wait = \"30s\"", "load = \"newest\"", "11:8", "no stick to load from yet"),
        ("wait = \"30s\"", "load = \"nowhere.toml\"", "", "cannot be read"),
        ("site = \"harbour-bakery.toml\"", "site = \"nowhere.toml\"", "", "cannot be read"),
        ("start = 2027-03-01T08:45:00", "start = 2027-03-28T01:30:00", "4:9", "clock change skips"),
        ("title = \"Wrong\"", "title = Wrong", "1:9", "no TOML"),
    ] {
        let text = DRILL.replacen(old, new, 1);
        assert_ne!(text, DRILL, "{old}");
        let file = folder("mistakes").join("drill.toml");
        std::fs::write(&file, text).unwrap();
        let stick = file.with_file_name("stick");
        std::fs::create_dir_all(&stick).unwrap();
        std::fs::write(stick.join("till.timetables"), [0; 9_000]).unwrap();
        let trace = folder("mistakes").join("trace");
        let paths = ["--trace", trace.to_str().unwrap(), file.to_str().unwrap()];
        let (code, out, err) = run(&[&["emulator", "drill"][..], &paths].concat());
        assert_eq!((code, out.as_str()), (2, ""), "{new}\n{err}");
        let place = if place.is_empty() { String::new() } else { format!("drill.toml:{place}]") };
        assert!(err.contains(&place), "{new}: {place} is missing in\n{err}");
        assert!(err.contains(words), "{new}: `{words}` is missing in\n{err}");
        assert!(!err.contains("000000"), "{err}");
        assert!(!trace.exists(), "nothing is written for a drill that is refused");
    }
}

/// A folder without drills and a drill without steps show nothing: refused.
#[test]
fn nothing_to_play_is_a_mistake() {
    let empty = Path::new(env!("CARGO_TARGET_TMPDIR")).join("empty");
    std::fs::create_dir_all(&empty).unwrap();
    let (code, _, err) = run(&["emulator", "drill", empty.to_str().unwrap()]);
    assert_eq!(code, 2);
    assert!(err.contains("no .toml file"), "{err}");
    let file = folder("stepless").join("drill.toml");
    std::fs::write(&file, DRILL.split("[[step]]").next().unwrap()).unwrap();
    let (code, _, err) = run(&["emulator", "drill", file.to_str().unwrap()]);
    assert_eq!(code, 2);
    assert!(err.contains("has no step"), "{err}");
}

/// What checks nothing must not pass.
#[test]
fn nothing_to_expect_is_a_mistake() {
    let head = DRILL.split("[[step]]").next().unwrap();
    let file = folder("expects-nothing").join("drill.toml");
    std::fs::write(&file, format!("{head}[[step]]\nkeys = \"ok\"\n")).unwrap();
    let (code, out, _) = run(&["emulator", "drill", file.to_str().unwrap()]);
    assert_eq!(code, 0);
    assert!(out.contains("played  ") && out.contains("0 passed, 0 failed, 1 without an"), "{out}");
    for (step, says) in [
        ("keys = \"ok\"\nexpect = {}", "expects nothing"),
        ("keys = \"ok\"\nexpect = { screen = \"\" }", "part of every text"),
        ("keys = \"ok\"\nexpect = { link = \"\" }", "part of every text"),
    ] {
        let file = folder("expects-nothing").join("drill.toml");
        std::fs::write(&file, format!("{head}[[step]]\n{step}\n")).unwrap();
        let (code, _, err) = run(&["emulator", "drill", file.to_str().unwrap()]);
        assert_eq!(code, 2, "{step}");
        // The terminal breaks lines.
        let err = err.replace("\n", " ");
        let words: Vec<_> = err.split_whitespace().filter(|word| *word != "│").collect();
        assert!(words.join(" ").contains(says), "{step}: {err}");
    }
}

/// Every reason of a refusal can be expected in a drill by the name that its
/// record has.
#[test]
fn a_drill_can_expect_every_kind_of_refusal() {
    for why in Refusal::ALL {
        let file = folder("kinds").join("drill.toml");
        std::fs::write(&file, DRILL.replace("\"wrong-code\"", &format!("\"{}\"", why.kind())))
            .unwrap();
        let (code, out, err) = run(&["emulator", "drill", file.to_str().unwrap()]);
        assert_eq!((code, err.as_str()), (1, ""), "{out}");
    }
}

/// The longest drill that is read takes as many times as long as it is longer; one
/// byte more is refused.
#[test]
fn a_long_drill_is_read_in_one_go() {
    let file = folder("long").join("drill.toml");
    let head = DRILL.split("[[step]]").next().unwrap();
    let steps = |bytes: usize| "{ wait = \"1s\" },".repeat((bytes - head.len() - 20) / 18);
    let time = |bytes: usize| {
        std::fs::write(&file, format!("{head}step = [{}]\n", steps(bytes))).unwrap();
        let runs = [(); 3].map(|()| {
            let from = std::time::Instant::now();
            assert!(emulator::drill::Drill::load(&file).is_ok());
            from.elapsed()
        });
        runs.into_iter().min().unwrap()
    };
    let (short, long) = (time(TEXT_MOST / 16), time(TEXT_MOST));
    // 16 times as long; 256 times if every step looked through the whole file.
    assert!(long < short * 64, "{long:?} against {short:?}");
    std::fs::write(&file, format!("{head}#{}", "x".repeat(TEXT_MOST))).unwrap();
    let (code, out, err) = run(&["emulator", "drill", file.to_str().unwrap()]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("more than 1048576 bytes"), "{err}");
}
