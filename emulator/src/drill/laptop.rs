//! What the laptop does in a drill: it issues one-time codes, loads timetable
//! files, collects extracts.

use std::collections::BTreeMap;

use lock_core::code::one_time::{Digits, issue, next_usable};
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::link::Version;
use lock_core::link::extract::Scope;
use lock_core::pairing::Pairing;

use super::Since;
use crate::carry::{self, Wire, sealed};
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
}

impl Laptop {
    /// The keys of a courier's number and next code, and *OK*. None if no code
    /// can be issued.
    pub(super) fn code(
        &mut self,
        pairing: Option<&Pairing>,
        number: Number,
        digits: u8,
    ) -> Vec<Key> {
        self.issue(pairing, number, digits).unwrap_or_default()
    }

    fn issue(&mut self, pairing: Option<&Pairing>, number: Number, digits: u8) -> Option<Vec<Key>> {
        let key = pairing?.courier(number.get());
        let digits = Digits::new(digits)?;
        let next = self.counters.entry(number).or_default();
        let counter = next_usable(&key, *next, digits)?;
        *next = counter.checked_add(1)?;
        let two = [number.get() / 10, number.get() % 10];
        let mut keys: Vec<Key> = Vec::new();
        for digit in two.into_iter().chain(issue(&key, counter, digits)) {
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
        let mut laptop = carry::Laptop::new(wire, self.request);
        let loaded = laptop.load(&file);
        self.request = laptop.number();
        match loaded {
            Ok((version, fingerprint)) if fingerprint == mark => {
                format!("version {} {fingerprint}", version.0)
            }
            Ok(_) => "another fingerprint".to_owned(),
            Err(trouble) => trouble.to_string(),
        }
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
            Ok((_, Some(newest))) => match laptop.confirm(newest) {
                Ok(()) => format!("collected up to {}", newest.0),
                Err(trouble) => trouble.to_string(),
            },
            Ok((_, None)) => "nothing to collect".to_owned(),
            Err(trouble) => trouble.to_string(),
        };
        self.request = laptop.number();
        told
    }
}
