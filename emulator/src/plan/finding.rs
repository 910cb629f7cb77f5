//! What `plan check` finds.

use crate::document::Place;

/// How much a finding matters.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Severity {
    /// Good to know.
    Note,
    /// It works, but probably not as meant.
    Warning,
    /// Somebody will stand before a lock that does not open.
    Error,
}

impl Severity {
    /// The word that is printed.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// One thing found.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// Where in the file.
    pub place: Place,
    /// What was found, in a sentence.
    pub what: String,
    /// What to do, in a sentence.
    pub remedy: String,
}

impl Finding {
    /// A finding at `place`.
    #[must_use]
    pub fn new(
        severity: Severity,
        place: Place,
        what: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self { severity, place, what: what.into(), remedy: remedy.into() }
    }
}
