//! A report in a terminal.

use std::io::{self, Write};

use unicode_width::UnicodeWidthStr as _;

use super::{Report, Table};

impl Report<'_> {
    /// Writes the report as text.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn write_text(&self, out: &mut dyn Write) -> io::Result<()> {
        writeln!(out, "{}", self.title())?;
        writeln!(out, "  {}", self.summary())?;
        writeln!(out, "  {}", self.counts())?;
        for table in self.tables() {
            table.write_text(out)?;
        }
        Ok(())
    }
}

impl Table {
    fn write_text(&self, out: &mut dyn Write) -> io::Result<()> {
        if self.rows.is_empty() {
            return match self.none {
                Some(none) => writeln!(out, "\n{}: {none}", self.title),
                None => Ok(()),
            };
        }
        writeln!(out, "\n{}", self.title)?;
        let mut widths: Vec<usize> = self.heads.iter().map(|head| head.width()).collect();
        for row in &self.rows {
            for (width, cell) in widths.iter_mut().zip(row) {
                *width = (*width).max(cell.width());
            }
        }
        let heads: Vec<String> = self.heads.iter().map(|&head| head.to_owned()).collect();
        for row in std::iter::once(&heads).chain(&self.rows) {
            let mut line = String::new();
            for (cell, width) in row.iter().zip(&widths) {
                line.push_str("  ");
                line.push_str(cell);
                line.extend(std::iter::repeat_n(' ', width.saturating_sub(cell.width())));
            }
            writeln!(out, "{}", line.trim_end())?;
        }
        Ok(())
    }
}
