//! A chart in a terminal: a cell stands for half an hour, half a cell for a
//! quarter, which is filled if at least half of it is open.

use std::fmt::Write as _;

use lock_core::time::DAY_SECONDS;

use super::{Chart, Kind, Lane, day_text};

/// Cells of a day.
const CELLS: u32 = 48;
/// Seconds of half a cell.
const HALF: u32 = DAY_SECONDS / CELLS / 2;
/// Columns before the first cell.
const INDENT: usize = 18;

/// The chart in lines of at most 80 columns, but for the reasons of closures.
#[must_use]
pub fn terminal(chart: &Chart) -> String {
    let mut out = format!("{}\n{}\n", chart.title, chart.subtitle);
    for (id, name) in &chart.timetables {
        let _ = writeln!(out, "  {}  {name}", id.letter());
    }
    for week in chart.rows.chunks(7) {
        let hours: String = (0..24).step_by(3).map(|hour| format!("{hour:02}    ")).collect();
        let number = week.first().map_or(0, |row| row.date.iso_week().1);
        let _ = writeln!(out, "\n{:INDENT$}{hours}24", format!("Week {number}"));
        for row in week {
            let mut date = day_text(row.date);
            for (lane, (id, _)) in row.lanes.iter().zip(&chart.timetables) {
                let cells: String = (0..CELLS).map(|at| cell(lane, at)).collect();
                let _ = writeln!(out, "{date:14} {} ▏{cells}▕", id.letter());
                date.clear();
            }
            for note in &row.notes {
                let _ = writeln!(out, "{:INDENT$}{note}", "");
            }
        }
    }
    out
}

fn cell(lane: &Lane, at: u32) -> char {
    let half = |side: u32| {
        let from = (at * 2 + side) * HALF;
        let open: u32 = lane
            .spans
            .iter()
            .map(|span| span.to.min(from + HALF).saturating_sub(span.from.max(from)))
            .sum();
        open * 2 >= HALF
    };
    match (half(0), half(1), lane.kind) {
        (true, true, _) => '█',
        (true, false, _) => '▌',
        (false, true, _) => '▐',
        (false, false, Kind::Closed) => '─',
        (false, false, Kind::Plain | Kind::Special) => '·',
    }
}
