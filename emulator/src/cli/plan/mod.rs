//! `plan`: what a site file comes to, and what will not work out.
//!
//! | file | command |
//! | --- | --- |
//! | `openings.rs` | when somebody may open |
//! | `check.rs` | what will not work out |
//! | `why.rs` | one instant, explained |
//! | `chart.rs` | the weeks, drawn |
//! | `closures.rs` | from a calendar of holidays to closures |
//! | `calendar.rs` | from opening times to a calendar |
//! | `supply.rs` | how long a battery lasts |
//!
//! `plan seal` and `plan code` need the keyring: they stand beside it.

mod calendar;
mod chart;
mod check;
mod closures;
mod openings;
mod supply;
mod why;

use std::io;
use std::path::Path;

use clap::Subcommand;
use lock_core::holder::Number;
use lock_core::time::{Date, Utc};
use lock_core::timetable::TimetableId;

use super::moment::date_text;
use super::report::{Unusable, refuse};
use super::{Outcome, Streams};
use crate::plan::Range;
use crate::site::{LockPlan, Person, Site};

#[derive(Subcommand)]
pub(super) enum Command {
    /// List when a holder, a timetable or everybody may open a lock.
    ///
    /// What is listed is permission to be released: time delay, penalties and
    /// hold-shut are not counted in. Stretches include their first instant and
    /// end before their last.
    #[command(after_help = "Example:\n  emulator plan openings harbour-bakery.toml --lock till \
                            --holder 12 --from 2027-03-01 --to 2027-04-01")]
    Openings(openings::OpeningsArguments),
    /// Look for what is written correctly and yet will not work out.
    ///
    /// Exit code 0 if there are notes at most, 1 if there are errors or
    /// warnings, 2 if the file cannot be used.
    #[command(after_help = "Example:\n  emulator plan check harbour-bakery.toml --from 2027-03-01")]
    Check(check::CheckArguments),
    /// Explain one instant: may this holder open then, why, and until when?
    ///
    /// The answer is the lock's own judge's. A local time that a clock change
    /// repeats means the first of the two; add an offset for the other.
    #[command(after_help = "Example:\n  emulator plan why harbour-bakery.toml --lock store \
                            --holder 12 --at 2027-03-17T09:00")]
    Why(why::WhyArguments),
    /// Draw weeks: a row a day, opening windows along 24 hours on the wall.
    ///
    /// Without --svg and --png the picture is drawn in the terminal.
    #[command(after_help = "Example:\n  emulator plan chart harbour-bakery.toml \
                            --from 2027-03-15 --weeks 2 --svg weeks.svg")]
    Chart(chart::ChartArguments),
    /// Turn a calendar of holidays into [[closure]] tables for the site file.
    ///
    /// The file is an iCalendar (RFC 5545) with whole-day events, as published
    /// for holidays. It is refused whole if one event cannot be a closure.
    #[command(after_help = "Example:\n  emulator plan closures holidays.ics \
                            --from 2027-01-01 --to 2028-01-01")]
    Closures(closures::ClosuresArguments),
    /// Write opening times as an iCalendar (RFC 5545) for a calendar program.
    #[command(after_help = "Example:\n  emulator plan calendar harbour-bakery.toml --lock till \
                            --holder 12 --from 2027-03-01 --to 2027-04-01 --out tomasz.ics")]
    Calendar(calendar::CalendarArguments),
    /// Estimate how long a battery lasts.
    ///
    /// The lock is emulated for weeks; what it does is counted, what that costs is
    /// assumed (docs/energy.md). A battery is refused if the lock's thresholds would
    /// call it spent, or low, when it is new.
    ///
    /// Exit code 0, 1 if every battery is refused, 2 if the command cannot be carried
    /// out.
    #[command(after_help = "Example:\n  emulator plan supply harbour-bakery.toml --lock till \
                            --openings-a-day 20")]
    Supply(supply::SupplyArguments),
    /// Seal a lock's opening times into a file that this lock alone takes.
    ///
    /// Closures, special days, timetables and zone are those of the site file.
    /// Every file has a higher version than the one before it; the lock takes no
    /// older one. The fingerprint is shown by the lock too, to be compared.
    #[command(after_help = "Example:\n  emulator plan seal harbour-bakery.toml --lock till \
                            --keyring bakery.keyring --out till.timetables")]
    Seal(super::keyring::SealArguments),
    /// Make a courier's next one-time code.
    ///
    /// It is good for one opening within the courier's timetable. The lock looks
    /// ten counters ahead, some of which are left out: have no more than six codes
    /// outstanding.
    #[command(after_help = "Example:\n  emulator plan code harbour-bakery.toml --lock till \
                            --holder 40 --keyring bakery.keyring")]
    Code(super::keyring::CodeArguments),
}

impl Command {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self {
            Self::Openings(arguments) => {
                with_site(&arguments.site, streams, |site, streams| match arguments.answer(site) {
                    Ok(answer) => answer.write(site, arguments, streams),
                    Err(why) => refuse(streams, &why),
                })
            }
            Self::Check(arguments) => {
                with_site(&arguments.site, streams, |site, streams| arguments.write(site, streams))
            }
            Self::Why(arguments) => {
                with_site(&arguments.site, streams, |site, streams| arguments.write(site, streams))
            }
            Self::Chart(arguments) => {
                with_site(&arguments.site, streams, |site, streams| arguments.write(site, streams))
            }
            Self::Supply(arguments) => {
                with_site(&arguments.site, streams, |site, streams| arguments.write(site, streams))
            }
            Self::Closures(arguments) => arguments.write(streams),
            Self::Seal(arguments) => arguments.run(streams),
            Self::Code(arguments) => arguments.run(streams),
            Self::Calendar(arguments) => {
                with_site(&arguments.site, streams, |site, streams| arguments.write(site, streams))
            }
        }
    }
}

/// Loads the site file, or says why not.
fn with_site(
    path: &Path,
    streams: &mut Streams<'_>,
    then: impl FnOnce(&Site, &mut Streams<'_>) -> io::Result<Outcome>,
) -> io::Result<Outcome> {
    match Site::load(path) {
        Ok(site) => then(&site, streams),
        Err(why) => refuse(streams, &why),
    }
}

pub(super) fn parse_number(text: &str) -> Result<Number, String> {
    let plain = text.len() <= 2 && text.bytes().all(|b| b.is_ascii_digit());
    let number = plain.then(|| text.parse().ok()).flatten().and_then(Number::new);
    number.filter(|number| number.get() != 0).ok_or_else(|| "holders are numbered 1 to 99".into())
}

fn parse_timetable(text: &str) -> Result<TimetableId, String> {
    let found = TimetableId::ALL.into_iter().find(|id| text == id.letter().to_string());
    found.ok_or_else(|| "timetables are called A, B, C and D".into())
}

/// The lock of that id.
fn lock_of<'s>(site: &'s Site, id: &str) -> Result<&'s LockPlan, Unusable> {
    site.lock(id).ok_or_else(|| {
        let ids: Vec<&str> = site.locks.iter().map(|lock| lock.id.as_str()).collect();
        let what = format!("The site has no lock \"{id}\".");
        Unusable::new(what, format!("Its locks are: {}.", ids.join(", ")))
    })
}

/// The holder of that number.
fn holder_of(site: &Site, number: Number) -> Result<&Person, Unusable> {
    site.holder(number).ok_or_else(|| {
        let what = format!("Nobody has the number {:02}.", number.get());
        Unusable::new(what, "Name a holder of the file, or leave --holder out for everybody.")
    })
}

/// That timetable, which the file must define.
fn defined(site: &Site, id: TimetableId) -> Result<TimetableId, Unusable> {
    if site.defines(id) {
        return Ok(id);
    }
    let what = format!("The site has no timetable {}.", id.letter());
    Err(Unusable::new(what, "Name one that the file defines."))
}

/// The instants from the start of one date to the start of another.
fn range_of(site: &Site, from: Date, to: Date) -> Result<Range, Unusable> {
    if to < from {
        let what = "--to lies before --from.";
        return Err(Unusable::new(what, "The list starts with --from and ends before --to."));
    }
    let range = Range::between(&site.zone, from, to).ok_or_else(|| {
        Unusable::new("The clock of a lock does not reach these dates.", "Name later dates.")
    })?;
    if range.from < range.to {
        rule_holds(site, range.from)?;
    }
    Ok(range)
}

/// Refuses what begins before the rule of the site's clock is the whole truth.
pub(super) fn rule_holds(site: &Site, from: Utc) -> Result<(), Unusable> {
    if from >= site.zone_since {
        return Ok(());
    }
    let since = date_text(site.zone.local(site.zone_since).date);
    let what = format!("The clock of {} had other rules before {since}.", site.zone_name);
    let remedy = format!("A lock keeps one yearly rule: name times after {since}.");
    Err(Unusable::new(what, remedy))
}
