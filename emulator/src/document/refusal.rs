//! Why a site file is refused, where in it, and what to do.

use std::ops::Range;
use std::path::PathBuf;

use miette::{Diagnostic, NamedSource, SourceSpan};
use thiserror::Error;

use super::source::{Place, Source};
use crate::plain;

/// Why there is no site.
#[derive(Debug, Error, Diagnostic)]
pub enum LoadError {
    /// The file cannot be read at all.
    #[error("{} cannot be read: {why}.", plain::path(path))]
    #[diagnostic(help("Check the path; it must lead to a TOML text."))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        why: std::io::Error,
    },
    /// The file is wrong somewhere, and so refused whole.
    #[error(transparent)]
    #[diagnostic(transparent)]
    Refused(Box<Refusal>),
}

impl From<Box<Refusal>> for LoadError {
    fn from(refusal: Box<Refusal>) -> Self {
        Self::Refused(refusal)
    }
}

/// What is wrong in a site file. The text that it shows has no code in it.
#[derive(Debug, Error, Diagnostic)]
#[error("{what}")]
pub struct Refusal {
    what: String,
    #[help]
    remedy: String,
    #[source_code]
    shown: NamedSource<String>,
    #[label(primary, "{here}")]
    at: SourceSpan,
    here: String,
    #[label("{there}")]
    other: Option<SourceSpan>,
    there: String,
    place: Place,
}

impl Refusal {
    /// Where in the file.
    #[must_use]
    pub const fn place(&self) -> Place {
        self.place
    }

    /// What to do about it.
    #[must_use]
    pub fn remedy(&self) -> &str {
        &self.remedy
    }
}

/// A refusal in the making: spans only, without the text they point into.
#[derive(Debug)]
pub(crate) struct Wrong {
    what: String,
    remedy: String,
    at: Range<usize>,
    here: String,
    other: Option<(Range<usize>, String)>,
}

/// What the readers of the parts return.
pub(crate) type Read<T> = Result<T, Box<Wrong>>;

impl Wrong {
    /// `what` is wrong at `at`, and `remedy` is what to do.
    pub(crate) fn new(
        at: &Range<usize>,
        what: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Box<Self> {
        let (what, remedy) = (what.into(), remedy.into());
        Box::new(Self { what, remedy, at: at.clone(), here: "here".into(), other: None })
    }

    /// The words under the caret.
    pub(crate) fn here(mut self: Box<Self>, words: impl Into<String>) -> Box<Self> {
        self.here = words.into();
        self
    }

    /// A second place that has to do with it.
    pub(crate) fn there(
        mut self: Box<Self>,
        at: &Range<usize>,
        words: impl Into<String>,
    ) -> Box<Self> {
        self.other = Some((at.clone(), words.into()));
        self
    }

    /// The refusal of that text.
    pub(crate) fn in_source(self, source: &Source<'_>) -> Box<Refusal> {
        let at = source.within(self.at);
        let (other, there) = match self.other {
            Some((other, words)) => (Some(source.within(other).into()), words),
            None => (None, String::new()),
        };
        Box::new(Refusal {
            what: source.said(self.what),
            remedy: source.said(self.remedy),
            shown: source.shown(),
            place: source.place(at.start),
            at: at.into(),
            here: source.said(self.here),
            other,
            there: source.said(there),
        })
    }
}
