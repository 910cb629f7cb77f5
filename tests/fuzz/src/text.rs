//! Files that people write: site files and drills, with whatever is in them. Each is
//! read or refused, with a place inside the file; and what is read, a lock takes.

use std::sync::{Arc, OnceLock};

use emulator::carry::{Contents, OfNoUse, opening_times, sealed};
use emulator::document::{LoadError, Refusal};
use emulator::drill::{Beside, Drill, demo_pairing};
use emulator::site::Site;
use lock_core::code::MIN_DIGITS;
use lock_core::link::Version;
use lock_core::pairing::{LockNumber, Pairing};
use miette::Diagnostic as _;

/// The first byte says what the others are.
///
/// # Panics
/// If a refusal points outside the file, or a lock would not take what was read.
pub fn run(bytes: &[u8]) {
    let Some((what, text)) = bytes.split_first() else { return };
    let Ok(text) = core::str::from_utf8(text) else { return };
    if what % 2 == 0 { site(text) } else { drill(text) }
}

fn site(text: &str) {
    let site = match Site::parse("a site", text) {
        Ok(site) => site,
        Err(why) => return points_inside(&why, text),
    };
    assert_eq!(opening_times(&site).check(), Ok(()), "a lock would refuse these timetables");
    for lock in &site.locks {
        let settings = site.settings(lock, [7; 32]);
        assert_eq!(settings.policy.check(), Ok(()), "a lock would refuse this policy");
        let number = u16::try_from(lock.number).ok().and_then(LockNumber::new);
        let pairing = Pairing::new(number.expect("a lock's number"), 1, [9; Pairing::LEN]);
        assert!(sealed(&site, &pairing, Version(1)).is_ok(), "it cannot be sealed");
    }
}

fn drill(text: &str) {
    match Drill::parse("a drill", text, &mut Desk) {
        Ok(drill) => assert!(!drill.steps.is_empty()),
        Err(LoadError::Refused(why)) => points_inside(&why, text),
        Err(why) => panic!("{why}"),
    }
}

/// What lies beside the drill: the demo site under every name, and a stick.
struct Desk;

fn demo() -> Arc<Site> {
    static DEMO: OnceLock<Arc<Site>> = OnceLock::new();
    let read = || {
        let site = Site::parse("harbour-bakery.toml", emulator::tour::SITE);
        Arc::new(site.unwrap_or_else(|why| panic!("{why}")))
    };
    Arc::clone(DEMO.get_or_init(read))
}

impl Beside for Desk {
    fn site(&mut self, _: &str) -> Result<Arc<Site>, LoadError> {
        Ok(demo())
    }

    fn stick(&mut self, name: &str) -> Result<Contents, OfNoUse> {
        if name.len().is_multiple_of(2) {
            return Err(OfNoUse::Empty);
        }
        let key = demo_pairing(LockNumber::new(1_001).expect("a number"));
        let (file, _) = sealed(&demo(), &key, Version(1)).expect("it can be sealed");
        Ok(Contents::of(vec![(name.to_owned(), file)]))
    }
}

/// A refusal points at a character of the text, or right behind the last one of a
/// line.
fn points_inside(why: &Refusal, text: &str) {
    let place = why.place();
    let line = place.line.checked_sub(1).and_then(|line| text.split('\n').nth(line));
    let line = line.unwrap_or_else(|| panic!("there is no line {}", place.line));
    let most = line.chars().count() + 1;
    assert!((1..=most).contains(&place.column), "column {} of {most}", place.column);
    let (what, remedy) = (why.to_string(), why.remedy());
    assert!(!what.is_empty() && !remedy.is_empty(), "it says nothing");
    let labels = why.labels().into_iter().flatten();
    let labels: Vec<String> = labels.filter_map(|l| Some(l.label()?.to_owned())).collect();
    for words in [what.as_str(), remedy].into_iter().chain(labels.iter().map(String::as_str)) {
        let mut runs = words.split(|c: char| !c.is_ascii_digit());
        assert!(runs.all(|run| run.len() < MIN_DIGITS), "it may show a code (R5): {words}");
    }
}
