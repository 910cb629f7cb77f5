//! Ctrl-C.

use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use crate::place::Place;
use crate::{Ended, emulator, wait};

fn interrupt(child: &Child) {
    let killed = Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    assert!(killed.success());
}

/// Starts a rig, and interrupts it when it has had the time to begin.
fn interrupted(place: &Place, command: &str) -> Ended {
    let mut command = emulator(&place.words(command));
    let child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    std::thread::sleep(Duration::from_millis(1_500));
    interrupt(&child);
    wait(child)
}

/// What it came to until then is written, everywhere it was to be written to.
#[test]
fn an_interrupted_rig_writes_what_it_has_come_to() {
    let place = Place::new("interrupted");
    let ended = interrupted(&place, "rig store --faults --budget 10m --jobs 1 --junit @junit.xml");
    assert_eq!(ended.code, 130, "{}{}", ended.out(), ended.err);
    assert!(ended.out().contains(", interrupted: "), "{}", ended.out());
    let xml = std::fs::read_to_string(place.path("junit.xml")).unwrap();
    assert!(xml.contains("name=\"complete\" value=\"false\"") && xml.ends_with("</testsuites>\n"));
}

/// Twice: at once, whatever the case under way does; nothing is left behind.
#[test]
fn asked_twice_it_ends_at_once() {
    let place = Place::new("twice");
    let mut command = emulator(&place.words("rig soak --cases 8 --jobs 1 --budget 10m"));
    let child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    std::thread::sleep(Duration::from_millis(500));
    let asked = Instant::now();
    interrupt(&child);
    std::thread::sleep(Duration::from_millis(100));
    // It may have ended with its case: then nobody is asked a second time.
    let _ = Command::new("kill").args(["-INT", &child.id().to_string()]).status();
    assert_eq!(wait(child).code, 130);
    assert!(asked.elapsed() < Duration::from_secs(20));
}

/// Other commands end by the signal, as every program does.
#[test]
fn other_commands_end_by_it() {
    let place = Place::new("others");
    let mut command = emulator(&place.words("serve"));
    let child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    std::thread::sleep(Duration::from_millis(500));
    interrupt(&child);
    assert_eq!(wait(child).code, 128 + 2);
}
