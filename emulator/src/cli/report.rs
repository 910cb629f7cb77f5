//! How errors look: the same on every machine and at every width.

use std::io;

use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme};
use thiserror::Error;

use super::{Look, Outcome, Streams};

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
    handler.render_report(&mut text, why).map_err(io::Error::other)?;
    streams.err.write_all(text.as_bytes())?;
    Ok(Outcome::Unusable)
}
