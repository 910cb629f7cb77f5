//! What the laptop does in a drill, and the memory stick: one-time codes are issued,
//! timetable files loaded, extracts collected. What is written to a stick stays in
//! memory: a drill changes no folder.

use std::collections::BTreeMap;
use std::sync::Arc;

use lock_core::code::one_time::{Digits, issue, next_usable};
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::link::extract::Scope;
use lock_core::link::{Fingerprint, Version};
use lock_core::pairing::Pairing;

use super::{Act, Since, Step};
use crate::carry::{self, Contents, OfNoUse, Sealed, Trouble, Wire, extract_name, sealed};
use crate::site::Site;

/// A laptop that remembers what it has issued.
#[derive(Default)]
pub(super) struct Laptop {
    /// The next counter of each courier.
    counters: BTreeMap<Number, u32>,
    /// The last timetable file.
    version: u32,
    /// The number of the last request.
    request: u16,
    /// The stick that is plugged in.
    stick: Option<Arc<Contents>>,
    /// The extracts on it, by name.
    extracts: Vec<(String, Vec<u8>)>,
}

impl Laptop {
    /// One at which these steps were played: a stick that was plugged in is there.
    pub(super) fn after(steps: &[Step]) -> Self {
        let plugged = steps.iter().rev().find_map(|step| match &step.act {
            Some(Act::Stick(_, stick)) => Some(Arc::clone(stick)),
            _ => None,
        });
        Self { stick: plugged, ..Self::default() }
    }

    /// Another stick is plugged in.
    pub(super) fn plug(&mut self, stick: Arc<Contents>) {
        self.stick = Some(stick);
        self.extracts.clear();
    }

    /// The extracts on the stick, by name.
    pub(super) fn extracts(&self) -> &[(String, Vec<u8>)] {
        &self.extracts
    }

    /// The keys of a courier's number and next code, and *OK*. None if no code
    /// can be issued.
    pub(super) fn code(&mut self, pairing: Option<&Pairing>, number: Number) -> Vec<Key> {
        self.issue(pairing, number).unwrap_or_default()
    }

    fn issue(&mut self, pairing: Option<&Pairing>, number: Number) -> Option<Vec<Key>> {
        let key = pairing?.courier(number.get());
        let next = self.counters.entry(number).or_default();
        let counter = next_usable(&key, *next, Digits::COURIER)?;
        *next = counter.checked_add(1)?;
        let two = [number.get() / 10, number.get() % 10];
        let mut keys: Vec<Key> = Vec::new();
        for digit in two.into_iter().chain(issue(&key, counter, Digits::COURIER)) {
            keys.push(Key::Digit(Digit::new(digit)?));
        }
        keys.push(Key::Ok);
        Some(keys)
    }

    pub(super) fn load(&mut self, wire: &mut impl Wire, site: &Site, pairing: &Pairing) -> String {
        self.version += 1;
        let Ok((file, mark)) = sealed(site, pairing, Version(self.version)) else {
            return "the site makes no file".to_owned();
        };
        match self.ask(wire, &file) {
            Ok((version, fingerprint)) if fingerprint == mark => {
                format!("version {} {fingerprint}", version.0)
            }
            Ok(_) => "another fingerprint".to_owned(),
            Err(trouble) => trouble.to_string(),
        }
    }

    /// Loads the newest file for this lock from the stick.
    pub(super) fn load_newest(&mut self, wire: &mut impl Wire, pairing: &Pairing) -> String {
        let Some(stick) = self.stick.clone() else { return OfNoUse::Empty.to_string() };
        let Some((_, file)) = stick.newest(pairing) else {
            return OfNoUse::NoneForThis.to_string();
        };
        match self.ask(wire, file) {
            Ok((version, fingerprint)) => format!("version {} {fingerprint}", version.0),
            Err(trouble) => trouble.to_string(),
        }
    }

    fn ask(
        &mut self,
        wire: &mut impl Wire,
        file: &Sealed,
    ) -> Result<(Version, Fingerprint), Trouble> {
        let mut laptop = carry::Laptop::new(wire, self.request);
        let loaded = laptop.load(file);
        self.request = laptop.number();
        loaded
    }

    pub(super) fn collect(
        &mut self,
        wire: &mut impl Wire,
        scope: Scope,
        since: Since,
        pairing: &Pairing,
    ) -> String {
        let mut laptop = carry::Laptop::new(wire, self.request);
        let collected = laptop.collect(scope, since == Since::Last, pairing);
        let told = match collected {
            Ok((bytes, Some(newest))) => {
                // Written whole before the lock is told that it is safe.
                let name = extract_name(pairing, Some(newest));
                if self.stick.is_some() {
                    self.extracts.push((name.clone(), bytes));
                }
                match laptop.confirm(newest) {
                    Ok(()) if self.stick.is_some() => format!("collected into {name}"),
                    Ok(()) => format!("collected up to {}", newest.0),
                    Err(trouble) => trouble.to_string(),
                }
            }
            Ok((_, None)) => "nothing to collect".to_owned(),
            Err(trouble) => trouble.to_string(),
        };
        self.request = laptop.number();
        told
    }
}
