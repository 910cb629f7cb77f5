//! What must be seen, against what is.

use lock_core::port::{Alarm, Bolt};
use lock_core::words;

use crate::memory::Lasting;
use crate::world::{Fitted, World};

/// What must be seen; what is left out may be anything.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Expect {
    /// What the bolt may do: the name of a state.
    pub state: Option<String>,
    /// Where the bolt is.
    pub bolt: Option<Bolt>,
    /// The alarm line.
    pub alarm: Option<Line>,
    /// A part of the words on the screen; line breaks read as one blank.
    pub screen: Option<String>,
    /// Exactly the kinds of records that became durable since the last `expect` that
    /// named them.
    pub audit: Option<Vec<String>>,
    /// Whether a penalty is running.
    pub penalty: Option<bool>,
    /// A part of what came of the last thing that went over the link.
    pub link: Option<String>,
}

/// What the alarm line must be.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Line {
    /// Raised, whatever for.
    Raised,
    /// This.
    Level(Alarm),
}

/// The states that `expect` can name.
pub(super) const STATES: [&str; 6] =
    ["secured", "waiting", "claimable", "released", "open", "no power"];

/// The kinds of records that `expect` can name.
pub(super) const KINDS: [&str; 61] = [
    "powered-up",
    "released",
    "opened",
    "secured",
    "not-drawn",
    "left-open",
    "forced",
    "found-thrown",
    "delay-started",
    "lapsed",
    "cancelled",
    "first-of-two",
    "wrong-code",
    "penalty",
    "held-shut",
    "status",
    "supply-good",
    "supply-low",
    "supply-spent",
    "clock-invalid",
    "fault",
    "refused-already-open",
    "refused-suspended",
    "refused-barred",
    "refused-right",
    "refused-inhibit",
    "refused-held-shut",
    "refused-supply",
    "refused-clock",
    "refused-closed",
    "refused-late",
    "refused-waiting",
    "refused-other-person",
    "refused-same-person",
    "refused-penalty",
    "refused-hold",
    "refused-settling",
    "refused-first-refused",
    "asked",
    "commissioned",
    "enrolled",
    "code-changed",
    "role-changed",
    "timetable-chosen",
    "suspended",
    "restored",
    "removed",
    "clock-corrected",
    "clock-set",
    "policy-set",
    "paired",
    "file-loaded",
    "file-waits",
    "audit-collected",
    "alarm-tested",
    "reset-begun",
    "reset-cancelled",
    "reset",
    "way-out-begun",
    "way-out",
    "way-out-ended",
];

/// One thing that was not as expected.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Failure {
    /// The step, from 1.
    pub step: usize,
    /// The line of the step's `expect` in the file.
    pub line: usize,
    /// Which key of it.
    pub key: &'static str,
    /// What was expected.
    pub expected: String,
    /// What was seen.
    pub seen: String,
}

/// One thing that was expected, and what was seen of it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Check {
    /// Which key of the `expect`.
    pub key: &'static str,
    /// What was expected.
    pub expected: String,
    /// What was seen.
    pub seen: String,
    /// Whether that is what was expected.
    pub met: bool,
}

impl Expect {
    /// All that is expected, against what is in `world`; `audit` is what became
    /// durable since the last look.
    pub(super) fn checks<M: Lasting, B: Fitted>(
        &self,
        world: &World<M, B>,
        (audit, link): (&[&str], &str),
    ) -> Vec<Check> {
        let mut checks = Vec::new();
        let mut compare = |key, expected: Option<String>, seen: String| {
            if let Some(expected) = expected {
                let met = expected == seen;
                checks.push(Check { key, expected, seen, met });
            }
        };
        let state = world.access().unwrap_or("no power");
        compare("state", self.state.clone(), state.to_owned());
        compare("bolt", self.bolt.map(|b| bolt(b).to_owned()), bolt(world.bolt()).to_owned());
        let seen = alarm(world.alarm());
        let expected = self.alarm.map(|line| match line {
            Line::Raised if world.alarm() == Alarm::Quiet => "raised".to_owned(),
            Line::Raised => seen.to_owned(),
            Line::Level(level) => alarm(level).to_owned(),
        });
        compare("alarm", expected, seen.to_owned());
        let seen = if world.in_penalty() { "true" } else { "false" };
        compare("penalty", self.penalty.map(|p| p.to_string()), seen.to_owned());
        let expected = self.audit.as_ref().map(|kinds| list(kinds.iter().map(String::as_str)));
        compare("audit", expected, list(audit.iter().copied()));
        if let Some(part) = &self.link {
            checks.push(Check::part("link", part, link.to_owned()));
        }
        if let Some(part) = &self.screen {
            checks.push(Check::part("screen", part, words_on(world)));
        }
        checks
    }
}

impl Check {
    /// That `part` is in what was seen.
    fn part(key: &'static str, part: &str, seen: String) -> Self {
        let met = seen.contains(part);
        Self { key, expected: part.to_owned(), seen, met }
    }
}

/// The words on the screen, in one line.
pub fn words_on<M: Lasting, B: Fitted>(world: &World<M, B>) -> String {
    world.screen().map_or(String::new(), |screen| words::english(&screen).joined().to_string())
}

pub(crate) const fn bolt(bolt: Bolt) -> &'static str {
    match bolt {
        Bolt::Drawn => "drawn",
        Bolt::Thrown => "thrown",
    }
}

pub(crate) const fn alarm(level: Alarm) -> &'static str {
    match level {
        Alarm::Quiet => "quiet",
        Alarm::Tamper => "tamper",
        Alarm::Duress => "duress",
    }
}

fn list<'k>(kinds: impl Iterator<Item = &'k str>) -> String {
    let kinds: Vec<&str> = kinds.collect();
    if kinds.is_empty() { "nothing".to_owned() } else { kinds.join(", ") }
}
