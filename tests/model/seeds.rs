//! Stories by number: a number always names the same story.

use std::fmt;

use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

use crate::generator::{Story, stories};

/// How many stories are told where nothing is said.
const STORIES: u32 = 500;

#[derive(Clone, Copy, Debug)]
pub(crate) struct Name(u32);

impl fmt::Display for Name {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(out)
    }
}

impl Name {
    /// The story, which its number alone decides.
    pub(crate) fn story(self) -> Story {
        let mut seed = [0x5a; 32];
        seed[..4].copy_from_slice(&self.0.to_le_bytes());
        let config = Config { failure_persistence: None, ..Config::default() };
        let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &seed);
        let mut runner = TestRunner::new_with_rng(config, rng);
        stories().new_tree(&mut runner).expect("the strategy rejects nothing").current()
    }

    /// One of `choices`, `0` to that number: another for each `salt`.
    pub(crate) fn pick(self, salt: u32, choices: u32) -> u32 {
        // The finaliser of MurmurHash3: spreads neighbouring numbers.
        let mut mixed = self.0.wrapping_mul(0x9e37_79b9) ^ salt.wrapping_mul(0x85eb_ca6b);
        for factor in [0x85eb_ca6b_u32, 0xc2b2_ae35] {
            mixed = (mixed ^ (mixed >> 16)).wrapping_mul(factor);
        }
        (mixed ^ (mixed >> 16)) % choices
    }
}

/// The stories to be told by one of `parts` tests, each with its own.
/// `STORIES` says how many there are in all, `FIRST_STORY` where to begin;
/// `STORY` alone is told if it is given.
pub(crate) fn names(part: u32, parts: u32) -> Vec<Name> {
    names_of(STORIES, part, parts)
}

/// The same with another number of stories where `STORIES` says nothing.
pub(crate) fn names_of(stories: u32, part: u32, parts: u32) -> Vec<Name> {
    if let Some(only) = variable("STORY") {
        return if part == 0 { vec![Name(only)] } else { Vec::new() };
    }
    let first = variable("FIRST_STORY").unwrap_or(0);
    let last = first.saturating_add(variable("STORIES").unwrap_or(stories));
    println!("stories {first} to {last}, part {part} of {parts}");
    (first..last).filter(|number| number % parts == part).map(Name).collect()
}

/// The story of that number.
pub(crate) fn named(number: u32) -> Name {
    Name(number)
}

/// So many stories in one test, where `STORIES` says nothing.
pub(crate) fn names_or(stories: u32) -> Vec<Name> {
    let first = variable("FIRST_STORY").unwrap_or(0);
    let stories = variable("STORIES").unwrap_or(stories);
    (first..first.saturating_add(stories)).map(Name).collect()
}

fn variable(name: &str) -> Option<u32> {
    let text = std::env::var(name).ok()?;
    Some(text.parse().unwrap_or_else(|_| panic!("{name} is a number, not {text}")))
}

/// The command that tells a story again in the test of that name.
pub(crate) fn repeat(name: Name, test: &str) -> String {
    format!("to repeat: STORY={name} cargo test -p checks --test model {test}")
}
