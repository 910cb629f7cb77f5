//! Files that people write: site files and drills, with whatever is in them. Each is
//! read or refused, with a place inside the file; and what is read, a lock takes.

use std::sync::Arc;

use emulator::carry::{opening_times, sealed};
use emulator::document::Refusal;
use emulator::drill::Drill;
use emulator::site::Site;
use lock_core::link::Version;
use lock_core::pairing::{LockNumber, Pairing};

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
    let site = Site::parse("harbour-bakery.toml", emulator::tour::SITE);
    let site = Arc::new(site.unwrap_or_else(|why| panic!("{why}")));
    match Drill::parse("a drill", text, &mut |_| Ok(Arc::clone(&site))) {
        Ok(drill) => assert!(!drill.steps.is_empty()),
        Err(emulator::document::LoadError::Refused(why)) => points_inside(&why, text),
        Err(why) => panic!("{why}"),
    }
}

fn points_inside(why: &Refusal, text: &str) {
    let lines = text.split('\n').count();
    let place = why.place();
    assert!((1..=lines).contains(&place.line), "line {} of {lines}", place.line);
    assert!(place.column >= 1, "columns count from 1");
    assert!(!why.to_string().is_empty() && !why.remedy().is_empty(), "it says nothing");
}
