//! How errors look: the same on every machine and at every width, and harmless to
//! the terminal whatever they quote.

use std::fmt;
use std::io;
use std::path::Path;

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, Severity, SourceCode,
};
use thiserror::Error;

use super::{Look, Outcome, Streams};
use crate::plain;

/// Columns of a report.
const WIDTH: usize = 100;

/// An argument that cannot be used, or does not fit the site file.
#[derive(Debug, Error, Diagnostic)]
#[error("{what}")]
pub(super) struct Unusable {
    what: String,
    #[help]
    remedy: String,
}

impl Unusable {
    pub(super) fn new(what: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self { what: what.into(), remedy: remedy.into() }
    }

    /// A file that could not be written.
    pub(super) fn not_written(path: &Path, why: &io::Error, remedy: &str) -> Self {
        Self::new(format!("{} cannot be written: {why}.", plain::path(path)), remedy)
    }
}

/// Writes why the input cannot be used.
pub(super) fn refuse(streams: &mut Streams<'_>, why: &dyn Diagnostic) -> io::Result<Outcome> {
    let theme = match streams.look {
        Look::Plain => GraphicalTheme::unicode_nocolor(),
        Look::Coloured => GraphicalTheme::unicode(),
    };
    let handler = GraphicalReportHandler::new_themed(theme)
        .with_width(WIDTH)
        .with_links(false)
        .without_syntax_highlighting();
    let mut text = String::new();
    handler.render_report(&mut text, &Shown(why)).map_err(io::Error::other)?;
    streams.err.write_all(text.as_bytes())?;
    Ok(Outcome::Unusable)
}

/// A diagnostic whose words are plain. Its source code is so already
/// (`document/source.rs`).
struct Shown<'d>(&'d dyn Diagnostic);

impl fmt::Debug for Shown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl fmt::Display for Shown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&plain::line(&self.0.to_string()))
    }
}

impl std::error::Error for Shown<'_> {}

impl Diagnostic for Shown<'_> {
    fn severity(&self) -> Option<Severity> {
        self.0.severity()
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let help = self.0.help()?.to_string();
        Some(Box::new(plain::line(&help).into_owned()))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.0.source_code()
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let plain = |mut label: LabeledSpan| {
            let words = label.label().map(|words| plain::line(words).into_owned());
            label.set_label(words);
            label
        };
        Some(Box::new(self.0.labels()?.map(plain)))
    }
}
