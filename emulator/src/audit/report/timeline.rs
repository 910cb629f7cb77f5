//! The picture of a report: a row a day, from midnight to midnight on the wall.
//!
//! Marks differ in shape, not only in colour, and each says what it is when it
//! is pointed at; the tables below the picture hold all of it in words.

use std::collections::BTreeSet;
use std::io::{self, Write};

use lock_core::time::{DAY_SECONDS, Date, Seconds, Utc};
use lock_core::timetable::Follows;

use super::Report;
use super::page::escape;
use crate::audit::names::{date, length};
use crate::audit::opening::{Began, End, Opening};
use crate::audit::words::refusal;
use crate::plan::{Range, first_instant, openings};

/// Days that are drawn, the newest ones.
const DAYS: usize = 42;

const LEFT: f64 = 100.0;
const HOURS_WIDE: f64 = 864.0;
const WIDTH: f64 = LEFT + HOURS_WIDE + 16.0;
const TOP: f64 = 22.0;
const ROW: f64 = 18.0;
/// A stretch is drawn at least so wide: seconds in a day of 864 points.
const LEAST: f64 = 2.5;

/// A part of a date, in seconds of the wall clock.
struct Piece {
    date: Date,
    from: u32,
    to: u32,
}

impl Report<'_> {
    /// Draws the days of the report; nothing where no record has a time.
    pub(super) fn write_timeline(&self, out: &mut dyn Write) -> io::Result<()> {
        let all = self.dates();
        let (Some(last), Some(first_of_all)) = (all.last().copied(), all.first().copied()) else {
            return Ok(());
        };
        let span = usize::from(last.days().saturating_sub(first_of_all.days())).saturating_add(1);
        let shown = span.min(DAYS);
        let back = u16::try_from(shown.saturating_sub(1)).unwrap_or(0);
        let first = last.checked_sub(back).unwrap_or(first_of_all);
        let height = TOP + ROW * shown as f64 + 4.0;
        let lock = escape(&self.title());
        writeln!(
            out,
            "<figure>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Days of {lock}\">\n\
             <svg viewBox=\"0 0 {WIDTH} {height}\" role=\"img\" aria-label=\"{lock}: openings by \
             day and hour, {} to {}\">",
            date(first),
            date(last),
        )?;
        let days = Days { first, shown };
        days.draw(out)?;
        self.draw_windows(&days, out)?;
        self.draw_openings(&days, out)?;
        self.draw_tries(&days, out)?;
        self.draw_findings(&days, out)?;
        writeln!(out, "</svg>\n</div>")?;
        legend(self.names.site().is_some(), out)?;
        if shown < span {
            writeln!(
                out,
                "<figcaption>The last {shown} of {span} days; the tables hold all.</figcaption>"
            )?;
        }
        writeln!(out, "</figure>")
    }

    /// The dates on which something happened, in order.
    fn dates(&self) -> Vec<Date> {
        let zone = self.names.zone();
        let openings = self.ledger.openings.iter().filter_map(stretch);
        let openings = openings.flat_map(|(from, to)| [from, to]);
        let tries = self.ledger.refusals.iter().filter_map(|refused| refused.mark.at);
        let found = self.findings.iter().filter_map(|finding| finding.mark.at);
        let dates: BTreeSet<Date> =
            openings.chain(tries).chain(found).map(|at| zone.local(at).date).collect();
        dates.into_iter().collect()
    }

    fn draw_windows(&self, days: &Days, out: &mut dyn Write) -> io::Result<()> {
        let Some(site) = self.names.site() else { return Ok(()) };
        let past = days.first.checked_add(u16::try_from(days.shown).unwrap_or(u16::MAX));
        let range = past.and_then(|past| Range::between(&site.zone, days.first, past));
        let Some(range) = range else { return Ok(()) };
        let followed: BTreeSet<usize> = site
            .holders
            .iter()
            .filter(|person| person.may_open())
            .filter_map(|person| match person.follows {
                Follows::Timetable(id) => Some(id.index()),
                Follows::Always => None,
            })
            .collect();
        for id in lock_core::timetable::TimetableId::ALL {
            if !followed.contains(&id.index()) {
                continue;
            }
            for open in openings(site, Follows::Timetable(id), range) {
                let title = format!("Window of timetable {}", id.letter());
                self.bar(days, (open.from, open.to), "window", 12.0, &title, out)?;
            }
        }
        Ok(())
    }

    fn draw_openings(&self, days: &Days, out: &mut dyn Write) -> io::Result<()> {
        for opening in &self.ledger.openings {
            let Some(stretch) = stretch(opening) else { continue };
            // Taller as well as red: colour alone would not do (WCAG 1.4.1).
            let (class, height) = match opening.began {
                Began::Forced(_) => ("forced", 16.0),
                Began::Released(_) | Began::Unseen => ("opening", 8.0),
            };
            let who = opening.people.map_or("Opened".to_owned(), |people| {
                format!("{} opened", self.names.people(&people))
            });
            let open_for = opening.open_for();
            let open_for = open_for.map_or(String::new(), |l| format!(", for {}", length(l.get())));
            let title = format!("{who}, {}{open_for}", self.names.moment(Some(stretch.0)));
            self.bar(days, stretch, class, height, &title, out)?;
        }
        Ok(())
    }

    fn draw_tries(&self, days: &Days, out: &mut dyn Write) -> io::Result<()> {
        for refused in &self.ledger.refusals {
            let Some((x, y)) = self.place(days, refused.mark.at) else { continue };
            let why = refused.why.map_or("wrong code", refusal);
            let at = self.names.moment(refused.mark.at);
            let title = escape(&format!("{}: {why}, {at}", self.names.who(refused.who)));
            match refused.why {
                None => writeln!(
                    out,
                    "<path class=\"wrong\" d=\"M{:.1} {:.1}l6 6m0-6l-6 6\"><title>{title}</title></path>",
                    x - 3.0,
                    y - 3.0
                )?,
                Some(_) => writeln!(
                    out,
                    "<circle class=\"refused\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"3.5\"><title>{title}</title></circle>"
                )?,
            }
        }
        Ok(())
    }

    fn draw_findings(&self, days: &Days, out: &mut dyn Write) -> io::Result<()> {
        for finding in &self.findings {
            let Some((x, y)) = self.place(days, finding.mark.at) else { continue };
            let title = escape(&format!("Record {}: {}", finding.mark.seq.0, finding.what));
            writeln!(
                out,
                "<path class=\"look\" d=\"M{x:.1} {:.1}l4.5 -7h-9z\"><title>{title}</title></path>",
                y - 3.0
            )?;
        }
        Ok(())
    }

    /// The middle of the row, at that moment.
    fn place(&self, days: &Days, at: Option<Utc>) -> Option<(f64, f64)> {
        let local = self.names.zone().local(at?);
        Some((across(local.second), days.top(local.date)? + ROW / 2.0))
    }

    fn bar(
        &self,
        days: &Days,
        (from, to): (Utc, Utc),
        class: &str,
        height: f64,
        title: &str,
        out: &mut dyn Write,
    ) -> io::Result<()> {
        let title = escape(title);
        for piece in self.pieces(from, to) {
            let Some(top) = days.top(piece.date) else { continue };
            let (x, width) = (across(piece.from), across(piece.to) - across(piece.from));
            writeln!(
                out,
                "<rect class=\"{class}\" x=\"{x:.1}\" y=\"{:.1}\" width=\"{:.1}\" \
                 height=\"{height}\"><title>{title}</title></rect>",
                top + (ROW - height) / 2.0,
                width.max(LEAST)
            )?;
        }
        Ok(())
    }

    /// A stretch, cut at midnights. A piece of the hour that a clock change
    /// repeats is drawn over itself.
    fn pieces(&self, from: Utc, to: Utc) -> Vec<Piece> {
        let zone = self.names.zone();
        let (mut pieces, mut at) = (Vec::new(), from);
        // A stretch that is longer than what is drawn is a clock gone wrong.
        for _ in 0..=DAYS {
            let local = zone.local(at);
            let next = local.date.next().and_then(|date| first_instant(zone, date));
            let end = next.map_or(to, |next| next.min(to));
            let last = if next == Some(end) { DAY_SECONDS } else { zone.local(end).second };
            pieces.push(Piece {
                date: local.date,
                from: local.second.min(last),
                to: last.max(local.second),
            });
            if end >= to {
                break;
            }
            at = end;
        }
        pieces
    }
}

/// The days that are drawn.
struct Days {
    first: Date,
    shown: usize,
}

impl Days {
    /// The top of a date's row, if it is drawn.
    fn top(&self, date: Date) -> Option<f64> {
        let row = usize::from(date.days().checked_sub(self.first.days())?);
        (row < self.shown).then_some(TOP + ROW * row as f64)
    }

    fn draw(&self, out: &mut dyn Write) -> io::Result<()> {
        let mut day = Some(self.first);
        for _ in 0..self.shown {
            let Some(today) = day else { break };
            let Some(top) = self.top(today) else { break };
            writeln!(
                out,
                "<text x=\"0\" y=\"{:.1}\">{}</text><rect class=\"track\" x=\"{LEFT}\" \
                 y=\"{:.1}\" width=\"{HOURS_WIDE}\" height=\"{:.1}\"/>",
                top + ROW - 5.0,
                date(today),
                top + 1.0,
                ROW - 2.0
            )?;
            day = today.next();
        }
        let bottom = TOP + ROW * self.shown as f64;
        for hour in (0..=24).step_by(2) {
            let x = across(hour * 3_600);
            writeln!(
                out,
                "<text class=\"hour\" x=\"{x}\" y=\"13\">{hour:02}</text>\
                 <line class=\"grid\" x1=\"{x}\" x2=\"{x}\" y1=\"{TOP}\" y2=\"{bottom}\"/>"
            )?;
        }
        Ok(())
    }
}

/// From when to when an opening is drawn: a release that nobody used is not.
fn stretch(opening: &Opening) -> Option<(Utc, Utc)> {
    let secured = match opening.end {
        End::Secured(mark, _) => mark.at,
        End::NotDrawn(_) | End::Unseen | End::Ongoing => None,
    };
    let from = opening.open_from().or(secured)?;
    let to = secured.unwrap_or(from);
    Some((from, to.max(from.after(Seconds::new(1)))))
}

/// Where a second of the day stands.
fn across(second: u32) -> f64 {
    LEFT + HOURS_WIDE * f64::from(second) / f64::from(DAY_SECONDS)
}

/// What the shapes mean; each is a picture of its own beside its words.
fn legend(windows: bool, out: &mut dyn Write) -> io::Result<()> {
    let shapes = [
        (windows, "<rect class=\"window\" x=\"1\" y=\"2\" width=\"22\" height=\"12\"/>", "window"),
        (true, "<rect class=\"opening\" x=\"1\" y=\"4\" width=\"22\" height=\"8\"/>", "open"),
        (true, "<rect class=\"forced\" x=\"9\" y=\"0\" width=\"6\" height=\"16\"/>", "forced open"),
        (true, "<path class=\"wrong\" d=\"M9 5l6 6m0-6l-6 6\"/>", "wrong code"),
        (true, "<circle class=\"refused\" cx=\"12\" cy=\"8\" r=\"3.5\"/>", "refused"),
        (true, "<path class=\"look\" d=\"M12 12l4.5 -7h-9z\"/>", "to look into"),
    ];
    writeln!(out, "<figcaption class=\"legend\">")?;
    for (_, shape, words) in shapes.iter().filter(|(shown, ..)| *shown) {
        writeln!(
            out,
            "<span><svg viewBox=\"0 0 24 16\" aria-hidden=\"true\">{shape}</svg>{words}</span>"
        )?;
    }
    writeln!(out, "</figcaption>")
}
