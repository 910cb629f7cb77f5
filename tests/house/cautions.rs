//! A lock can hurt people. Each place where somebody is about to close one, to test its
//! alarm, or to learn about it, says what they must know.
//!
//! Sources: R9; what the sentences must say is listed here, not taken from the code.

use std::path::Path;

use emulator::caution::{ALL, CERTIFIED, INSIDE, RECEIVER, ROBBERY, TRY};
use lock_core::screen::{Form, Gist, Screen, Stamp, Topic, Trouble};
use lock_core::task::Task;
use lock_core::time::{Date, Minute};
use lock_core::words::english;

use crate::source;

/// As people seal it: without codes.
const OFFICE: &str = include_str!("../../emulator/demo/office/harbour-bakery.toml");

/// On one line, without the marks of Markdown.
fn plain(text: &str) -> String {
    text.replace("**", "").split_whitespace().collect::<Vec<_>>().join(" ")
}

#[track_caller]
fn says(place: &str, text: &str, sentences: &[&str]) {
    let text = plain(text);
    for sentence in sentences {
        assert!(text.contains(sentence), "{place} does not say: {sentence}\n{text}");
    }
}

fn run(arguments: &[&str]) -> String {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = emulator::cli::run(arguments, &mut out, &mut err);
    assert_eq!((code, String::from_utf8(err).unwrap().as_str()), (0, ""), "{arguments:?}");
    String::from_utf8(out).unwrap()
}

/// A sentence that was shortened until it says nothing is no caution.
#[test]
fn each_sentence_says_what_it_must() {
    for (sentence, words) in [
        (CERTIFIED, &["not a certified lock", "local codes", "insurer", "licensed locksmith"][..]),
        (INSIDE, &["mechanical release inside", "shut in, call the fire brigade"]),
        (TRY, &["codes, timetables and keys", "several times", "door open", "dead lock is opened"]),
        (RECEIVER, &["alarm receiver before each test", "what a duress code means"]),
        (ROBBERY, &["do what you are told"]),
    ] {
        says("caution.rs", sentence, words);
        assert!(ALL.contains(&sentence), "{sentence}");
        assert!(!sentence.contains(['<', '>', '&']), "it is put into pages as it is: {sentence}");
    }
}

#[test]
fn the_tour_and_the_helps_say_all_of_it() {
    for arguments in [
        &["emulator"][..],
        &["emulator", "serve", "--help"],
        &["emulator", "plan", "seal", "--help"],
        &["emulator", "plan", "seal", "-h"],
        &["emulator", "plan", "calendar", "--help"],
    ] {
        let text = run(arguments);
        says(&format!("{arguments:?}"), &text, &ALL);
        // Before the first lock is seen.
        if let Some(chapter) = text.find("1 of 8") {
            says("the tour's head", &text[..chapter], &ALL);
        }
    }
}

/// What is carried to a door is tried there; a hold-shut is told to who may set one.
#[test]
fn what_the_planner_makes_is_to_be_tried() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("cautions");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    let path = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    let (site, ring, phrase) = (path("site.toml"), path("keyring"), path("passphrase"));
    std::fs::write(&site, OFFICE).unwrap();
    std::fs::write(&phrase, "many words of this test\n").unwrap();
    let keys = ["--keyring", &ring, "--passphrase-file", &phrase];
    run(&[&["emulator", "keyring", "pair", "--lock", "1001", "--print"], &keys[..]].concat());
    run(&[&["emulator", "keyring", "confirm", "--lock", "1001"], &keys[..]].concat());
    let file = path("till.timetables");
    let seal = ["emulator", "plan", "seal", &site, "--lock", "till", "--out", &file];
    says("plan seal", &run(&[&seal[..], &keys].concat()), &[TRY, INSIDE]);
    let file = path("calendar.ics");
    let dates = ["--from", "2027-03-01", "--to", "2027-04-01"];
    let calendar = ["emulator", "plan", "calendar", &site, "--lock", "till", "--out", &file];
    says("plan calendar", &run(&[&calendar[..], &dates].concat()), &[TRY]);
    let mut out = Vec::new();
    emulator::cli::run(["emulator", "plan", "check", &site], &mut out, &mut Vec::new());
    says("plan check", &String::from_utf8(out).unwrap(), &["nobody may be inside"]);
}

#[test]
fn the_page_and_each_handout_say_all_of_it() {
    let foot = emulator::page::PAGE.split("<footer>").nth(1).expect("the page has a foot");
    says("the page's foot", foot, &ALL);
    for lesson in emulator::page::lessons() {
        let paper = emulator::page::handout(lesson).unwrap();
        says(lesson.id, &paper, &ALL);
        // At the head of the two that are about a robbery.
        let head = paper.split("<ol>").next().unwrap();
        match lesson.id {
            "05-delay-and-claim" => says(lesson.id, head, &["do what you are told"]),
            "07-duress" => {
                let receiver = "agree beforehand with the alarm receiver what the signal means, \
                                and tell them before each test";
                says(lesson.id, head, &["do what you are told", receiver]);
            }
            _ => {}
        }
    }
}

/// At the keypad, before OK does it.
#[test]
fn the_lock_asks_before_it_shuts_or_calls() {
    let confirm = |task, gist, trouble| {
        let topic = Topic::Task(task);
        english(&Screen::Form(Form::Confirm { topic, gist, trouble })).joined().to_string()
    };
    let minute = Minute::from_hm(8, 30).unwrap();
    let until = Stamp { date: Date::from_ymd(2027, 3, 1).unwrap(), minute };
    says("hold-shut", &confirm(Task::HoldShut, Gist::Hold(until), None), &["Nobody inside?"]);
    for trouble in [None, Some(Trouble::DrawBolt)] {
        let words = confirm(Task::TestAlarm, Gist::Plain, trouble);
        says("test-alarm", &words, &["Tell the alarm receiver first."]);
    }
}

/// Whoever plays it to a class says it no later than the step that does it.
#[test]
fn whoever_shows_it_says_it_first() {
    let mut shown = 0;
    for folder in ["lessons", "tour", "drills"] {
        for path in source::files(&format!("emulator/demo/{folder}"), ".toml") {
            let text = source::text(&path);
            for (record, words) in [
                ("\"held-shut\"", &["every room"][..]),
                ("\"alarm-tested\"", &["alarm receiver before each test"]),
            ] {
                let Some((before, _)) = text.split_once(record) else { continue };
                let spoken: Vec<_> = before.lines().filter(|l| l.starts_with("say = ")).collect();
                says(&path, &spoken.join("\n"), words);
                shown += 1;
            }
        }
    }
    assert_eq!(shown, 4, "a lesson, a chapter of the tour and two drills");
    for path in ["tour/3-delay-and-claim.toml", "tour/5-under-threat.toml"] {
        let path = format!("emulator/demo/{path}");
        let spoken = source::text(&path);
        assert!(
            spoken.contains("what you are told") || spoken.contains("what he is told"),
            "{path}"
        );
    }
}

/// Nothing shares a sentence with a document, so it is compared.
#[test]
fn the_documents_say_it_in_the_same_words() {
    for (path, sentences) in [
        ("README.md", &ALL[..]),
        ("docs/teaching.md", &ALL),
        ("docs/porting.md", &ALL),
        ("docs/pairing.md", &[TRY, INSIDE]),
        ("docs/planning.md", &[TRY, "nobody may be inside"]),
        (
            "docs/threats.md",
            &[
                "local codes and your insurer",
                "certified locks",
                "licensed locksmith",
                "do what you are told; call the police when you are safe",
                "If somebody is inside, call the fire brigade first",
            ],
        ),
        ("docs/behaviour.md", &["it asks whether nobody is inside", "tell the alarm receiver"]),
        ("docs/glossary.md", &["It asks whether nobody is inside"]),
    ] {
        says(path, &source::text(path), sentences);
    }
}
