//! What the lock and the laptop agree on and the contract does not spell out:
//! one-time codes, pairing codes, and which codes are easy to guess. The model
//! asks; the tests answer.

use std::rc::Rc;

/// What a pairing code says once all its groups are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Paired {
    pub(crate) lock: u16,
    pub(crate) generation: u32,
}

pub(crate) trait Office {
    /// The number of the lock that this office speaks of.
    fn lock(&self) -> u16;
    /// The seven digits of a courier's code for that counter, under the key of
    /// that generation (RFC 4226).
    fn one_time_code(&self, generation: u32, number: u8, counter: u32) -> String;
    /// Whether a code is refused as easy to guess, itself: its variant is
    /// asked about separately.
    fn is_easy(&self, code: &str) -> bool;
    /// Whether the check digit of a group of six fits, at its place from 0.
    fn group_fits(&self, place: usize, group: &str) -> bool;
    /// What the eight groups say; `None` if they say nothing.
    fn read_pairing_code(&self, groups: &[String]) -> Option<Paired>;
    /// The eight groups that a laptop prints for a key of that generation.
    fn pairing_code(&self, lock: u16, generation: u32) -> Vec<String>;
}

pub(crate) type TheOffice = Rc<dyn Office>;
