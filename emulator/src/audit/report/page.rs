//! A report as a page that stands on its own: no script, nothing fetched, light
//! and dark as the reader's machine is set. It is well-formed XML as well.

use std::io::{self, Write};

use super::{Report, Table, Telling, several};
use crate::site::Site;

/// How the page looks. Tests hold its colours to the contrast of WCAG 2.2.
pub const STYLE: &str = include_str!("page.css");

/// A lock as the overview at the top lists it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Overview {
    /// Where its part of the page is.
    pub anchor: String,
    /// What that part is called.
    pub title: String,
    /// How many openings its records tell of.
    pub openings: u32,
    /// How many things are to be looked into.
    pub findings: u32,
    /// How many of its files are not what the lock sealed, or incomplete.
    pub broken: u32,
}

/// The start of a page, with one line a lock, and the files that cannot be
/// used. The times of each lock are those of its site; of none, those of UTC.
///
/// # Errors
/// Those of `out`.
pub fn begin(
    out: &mut dyn Write,
    sites: &[Site],
    telling: Telling,
    locks: &[Overview],
    files: &[String],
) -> io::Result<()> {
    let listed = |list: &[&str]| list.join(", ");
    let mut names: Vec<&str> = sites.iter().map(|site| site.name.as_str()).collect();
    names.dedup();
    let title =
        if names.is_empty() { "Audit".to_owned() } else { format!("Audit: {}", listed(&names)) };
    let title = escape(&title);
    let mut zones: Vec<&str> = sites.iter().map(|site| site.zone_name.as_str()).collect();
    zones.sort_unstable();
    zones.dedup();
    let times = match zones.as_slice() {
        [] => "Times are those of UTC.".to_owned(),
        [zone] => format!("Times are those of {zone}."),
        zones => format!("Times are those of each lock's site: {}.", listed(zones)),
    };
    writeln!(out, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>")?;
    writeln!(
        out,
        "<meta http-equiv=\"Content-Security-Policy\" \
         content=\"default-src 'none'; style-src 'unsafe-inline'\"/>"
    )?;
    writeln!(
        out,
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n\
         <meta name=\"referrer\" content=\"no-referrer\"/>\n\
         <title>{title}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<main>"
    )?;
    writeln!(out, "<h1>{title}</h1>")?;
    writeln!(out, "<p class=\"soft\">{}</p>", escape(&times))?;
    if telling == Telling::Confidential {
        writeln!(
            out,
            "<p class=\"confidential\">Confidential: this page tells which codes were \
             given under duress. Nobody at the counter may see it.</p>"
        )?;
    }
    if !files.is_empty() {
        writeln!(
            out,
            "<section class=\"look\"><h2 class=\"small\">Files that are not as they should be</h2><ul>"
        )?;
        for file in files {
            writeln!(out, "<li>{}</li>", escape(file))?;
        }
        writeln!(out, "</ul></section>")?;
    }
    if locks.len() > 1 {
        overview(out, locks)?;
    }
    Ok(())
}

fn overview(out: &mut dyn Write, locks: &[Overview]) -> io::Result<()> {
    writeln!(
        out,
        "<section><h2 class=\"small\">Locks</h2><div class=\"wide\"><table><thead><tr>\
         <th scope=\"col\">Lock</th><th scope=\"col\">Openings</th>\
         <th scope=\"col\">To look into</th><th scope=\"col\">Files</th></tr></thead><tbody>"
    )?;
    for Overview { anchor, title, openings, findings, broken } in locks {
        let files = match broken {
            0 => "fine".to_owned(),
            broken => format!("{} not fine", several(*broken, "file")),
        };
        writeln!(
            out,
            "<tr><td><a href=\"#{anchor}\">{}</a></td><td>{openings}</td>\
             <td>{findings}</td><td>{files}</td></tr>",
            escape(title)
        )?;
    }
    writeln!(out, "</tbody></table></div></section>")
}

/// The end of a page.
///
/// # Errors
/// Those of `out`.
pub fn end(out: &mut dyn Write) -> io::Result<()> {
    writeln!(out, "</main>\n</body>\n</html>")
}

impl Report<'_> {
    /// Writes the part of a page that is about this lock.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn write_section(&self, out: &mut dyn Write) -> io::Result<()> {
        writeln!(
            out,
            "<section id=\"{}\">\n<h2>{}</h2>\n<p>{}</p>\n<p>{}</p>",
            escape(&self.anchor),
            escape(&self.title()),
            escape(&self.summary()),
            escape(&self.counts())
        )?;
        let mut tables = self.tables().into_iter();
        if let Some(findings) = tables.next() {
            writeln!(out, "<section class=\"look\">")?;
            findings.write_page(self.lock, out)?;
            writeln!(out, "</section>")?;
        }
        self.write_timeline(out)?;
        for table in tables {
            table.write_page(self.lock, out)?;
        }
        writeln!(out, "</section>")
    }
}

impl Table {
    fn write_page(&self, lock: u32, out: &mut dyn Write) -> io::Result<()> {
        let title = escape(self.title);
        if self.rows.is_empty() {
            return match self.none {
                Some(none) => writeln!(out, "<h3>{title}</h3>\n<p>{}</p>", escape(none)),
                None => Ok(()),
            };
        }
        // What scrolls must be reached by the keyboard, and say what it is.
        writeln!(
            out,
            "<h3>{title}</h3>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" \
             aria-label=\"{title}, lock {lock}\"><table><thead><tr>"
        )?;
        for head in &self.heads {
            write!(out, "<th scope=\"col\">{}</th>", escape(head))?;
        }
        writeln!(out, "</tr></thead><tbody>")?;
        for row in &self.rows {
            write!(out, "<tr>")?;
            for (place, cell) in row.iter().enumerate() {
                let tight = if place < 2 { " class=\"tight\"" } else { "" };
                write!(out, "<td{tight}>{}</td>", escape(cell))?;
            }
            writeln!(out, "</tr>")?;
        }
        writeln!(out, "</tbody></table></div>")
    }
}

/// Text as HTML shows it, in an element or a quoted attribute.
pub(crate) fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            c => escaped.push(c),
        }
    }
    escaped
}
