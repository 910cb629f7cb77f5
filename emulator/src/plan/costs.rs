//! What the things that a lock does cost on a board: assumed, or measured and written
//! into a file.
//!
//! ```toml
//! # Milliwatts; the others millijoules. What is left out stays as assumed.
//! asleep = 0.009
//! refresh = 12.5
//! ```

use std::path::Path;

use toml::de::DeTable;

use super::supply::{DAY, Work};
use crate::document::{LoadError, Read, Refusal, Source, Table, no_toml, read_text};
use crate::plain;

/// What each thing costs, in millijoules; sleeping in milliwatts.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Costs {
    /// Asleep, clock chip and alarm line included.
    pub asleep: f64,
    /// A wake-up and the turn that follows.
    pub wake: f64,
    /// A key: the scans while a finger is on it, and its turn with the digest.
    pub key: f64,
    /// A refresh of the display.
    pub refresh: f64,
    /// A move of the drive.
    pub moving: f64,
    /// A sound.
    pub sound: f64,
    /// A word programmed.
    pub word: f64,
    /// A page erased.
    pub page: f64,
}

/// Costs of a board that nobody has built: ours, at 3 V. 5 µA asleep; 5 mA for 2 ms a
/// wake-up; 2 mA for 150 ms a key; 8 mA for 2 s a refresh of e-paper; 150 mA for 200 ms a
/// move; 10 mA for 100 ms a sound; 5 mA for 60 µs a word; 5 mA for 25 ms a page.
pub const ASSUMED: Costs = Costs {
    asleep: 0.015,
    wake: 0.03,
    key: 0.9,
    refresh: 48.0,
    moving: 90.0,
    sound: 3.0,
    word: 0.000_9,
    page: 0.375,
};

/// No single thing that a lock on a battery does costs more than this.
const MOST: f64 = 1_000_000.0;

impl Costs {
    /// Reads what was measured on a board.
    ///
    /// # Errors
    /// [`LoadError`] if the file cannot be read or is wrong somewhere.
    pub fn load(path: &Path) -> Result<Self, LoadError> {
        let text = read_text(path)?;
        Ok(Self::parse(&plain::path(path), &text)?)
    }

    /// Reads the text of such a file; `name` is what errors call it.
    ///
    /// # Errors
    /// [`Refusal`] at the first mistake.
    pub fn parse(name: &str, text: &str) -> Result<Self, Box<Refusal>> {
        let source = Source::new(name, text);
        read(text).map_err(|wrong| wrong.in_source(&source))
    }

    /// What a day costs, in millijoules.
    #[must_use]
    pub fn day(&self, work: &Work) -> f64 {
        self.parts(work).iter().map(|(_, cost)| cost).sum()
    }

    /// What each part of it costs, in millijoules.
    #[must_use]
    pub fn parts(&self, work: &Work) -> [(&'static str, f64); 8] {
        [
            ("asleep", self.asleep * DAY as f64),
            ("wake-ups", self.wake * work.wakes),
            ("keys", self.key * work.keys),
            ("display refreshes", self.refresh * work.refreshes),
            ("drive moves", self.moving * work.moves),
            ("sounds", self.sound * work.sounds),
            ("flash words", self.word * work.words),
            ("flash pages erased", self.page * work.pages),
        ]
    }
}

fn read(text: &str) -> Read<Costs> {
    let document = DeTable::parse(text).map_err(|error| no_toml(&error))?;
    let file = Table::new("a file of costs", document.get_ref(), &(0..0));
    let mut costs = ASSUMED;
    let mut keys = [
        ("asleep", &mut costs.asleep),
        ("wake", &mut costs.wake),
        ("key", &mut costs.key),
        ("refresh", &mut costs.refresh),
        ("move", &mut costs.moving),
        ("sound", &mut costs.sound),
        ("word", &mut costs.word),
        ("page", &mut costs.page),
    ];
    file.only(&keys.each_ref().map(|(key, _)| *key))?;
    for (key, cost) in &mut keys {
        if let Some(field) = file.get(key) {
            **cost = field.decimal(MOST)?;
        }
    }
    Ok(costs)
}
