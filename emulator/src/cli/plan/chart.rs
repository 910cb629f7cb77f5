//! `plan chart`: the weeks, drawn.

use std::io;
use std::path::{Path, PathBuf};

use clap::Args;
use lock_core::time::Date;
use serde_json::{Value, json};

use super::{lock_of, range_of};
use crate::cli::moment::{date_text, parse_date, today};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::files::{Eyes, There, write};
use crate::plain;
use crate::plan::chart::{Chart, Kind, WEEKS_MOST, clock, png, svg, terminal};
use crate::site::Site;

#[derive(Args)]
pub(in crate::cli) struct ChartArguments {
    /// The site file.
    pub(super) site: PathBuf,
    /// A lock's id, to be named with its delay; the timetables are the site's.
    #[arg(long, value_name = "ID")]
    lock: Option<String>,
    /// A date of the first week; today where it is left out.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    from: Option<Date>,
    /// How many weeks.
    #[arg(long, default_value_t = 4, value_parser = clap::value_parser!(u16).range(1..=i64::from(WEEKS_MOST)))]
    weeks: u16,
    /// Write an SVG file.
    #[arg(long, value_name = "FILE")]
    svg: Option<PathBuf>,
    /// Write a PNG file.
    #[arg(long, value_name = "FILE")]
    png: Option<PathBuf>,
    /// How the chart is written where no file is named.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl ChartArguments {
    pub(super) fn write(&self, site: &Site, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let chart = match self.chart(site) {
            Ok(chart) => chart,
            Err(why) => return refuse(streams, &why),
        };
        let mut files: Vec<(&Path, Vec<u8>)> = Vec::new();
        if let Some(path) = &self.svg {
            files.push((path, svg(&chart).into_bytes()));
        }
        if let Some(path) = &self.png {
            files.push((path, png(&chart).map_err(io::Error::other)?));
        }
        for (path, bytes) in &files {
            if let Err(why) = write(path, bytes, There::Goes, Eyes::Everybody) {
                let remedy = "Name a file in a folder of yours.";
                return refuse(streams, &Unusable::not_written(path, &why, remedy));
            }
        }
        match self.format {
            Format::Json => writeln!(streams.out, "{:#}", json_of(&chart))?,
            Format::Text if files.is_empty() => write!(streams.out, "{}", terminal(&chart))?,
            Format::Text => {
                for (path, _) in files {
                    writeln!(streams.out, "{} was written.", plain::path(path))?;
                }
            }
        }
        Ok(Outcome::Fine)
    }

    fn chart(&self, site: &Site) -> Result<Chart, Unusable> {
        let lock = self.lock.as_deref().map(|id| lock_of(site, id)).transpose()?;
        if site.timetables.iter().flatten().next().is_none() {
            let what = "The site defines no timetable, so there is nothing to draw.";
            return Err(Unusable::new(what, "Add a [timetable.A]."));
        }
        let from = self.from.unwrap_or_else(|| today(&site.zone));
        let chart = Chart::of(site, lock, from, self.weeks).ok_or_else(|| {
            let what = "The clock of a lock does not reach these dates.";
            Unusable::new(what, "Name other dates.")
        })?;
        if let (Some(first), Some(last)) = (chart.rows.first(), chart.rows.last()) {
            range_of(site, first.date, last.date)?;
        }
        Ok(chart)
    }
}

fn json_of(chart: &Chart) -> Value {
    let rows: Vec<Value> = chart
        .rows
        .iter()
        .map(|row| {
            let lanes = row.lanes.iter().zip(&chart.timetables).map(|(lane, (id, _))| {
                let spans = lane.spans.iter();
                let spans = spans.map(|s| json!({ "from": clock(s.from), "to": clock(s.to) }));
                let kind = match lane.kind {
                    Kind::Plain => "weekday",
                    Kind::Special => "special-day",
                    Kind::Closed => "closure",
                };
                json!({
                    "timetable": id.letter().to_string(),
                    "day": kind,
                    "open": spans.collect::<Vec<_>>(),
                })
            });
            json!({
                "date": date_text(row.date),
                "lanes": lanes.collect::<Vec<_>>(),
                "notes": row.notes,
            })
        })
        .collect();
    json!({ "title": chart.title, "rows": rows })
}
