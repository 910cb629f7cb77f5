//! The week of the chosen holder, as the lock itself would answer, instant by
//! instant; and what runs on it.

use lock_core::decide::{Conditions, Stage, by_time};
use lock_core::holder::Number;
use lock_core::port::Reads as _;
use lock_core::rules::ends::Ends;
use lock_core::rules::opening_time::HORIZON_DATES;
use lock_core::time::{DAY_SECONDS, Date, Seconds, Utc, Zone};
use lock_core::timetable::{Follows, TimetableId};
use serde_json::{Value, json};

use super::front::day_of;
use crate::plan::chart::split;
use crate::plan::{Stretch, change_on, first_instant};
use crate::site::Site;
use crate::world::{Decided, World};

/// Weeks of holders that were worked out; they change with the date, with the
/// holder's row and with the settings, each change of which is recorded.
#[derive(Default)]
pub(super) struct Weeks {
    last: Option<(Of, Vec<Stretch>)>,
}

/// What a week depends on.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Of {
    monday: Date,
    follows: Follows,
    newest: Option<u32>,
}

impl Weeks {
    /// The week of `number`; `None` without power, or if nobody is enrolled.
    pub(super) fn of(&mut self, world: &mut World, site: &Site, number: Number) -> Option<Value> {
        let (now, decided) = (world.utc(), world.decide(number)?);
        let zone = &site.zone;
        let local = zone.local(now);
        let back = u16::try_from(local.date.weekday().index()).unwrap_or(0);
        let monday = local.date.checked_sub(back)?;
        let memory = world.memory()?;
        let follows = memory.holder(number).ok()??.follows;
        let newest = memory.newest().map(|(seq, _)| seq.0);
        let of = Of { monday, follows, newest };
        if self.last.as_ref().is_none_or(|(last, _)| *last != of) {
            let (from, to) =
                (first_instant(zone, monday)?, first_instant(zone, monday.checked_add(7)?)?);
            let mut stretches = Vec::new();
            let mut at = from;
            while at < to {
                let (open, until) = answer(memory, zone, follows, at)?;
                let end = until.min(to);
                if open {
                    stretches.push(Stretch { from: at, to: end });
                }
                at = end;
            }
            self.last = Some((of, stretches));
        }
        let stretches = self.last.as_ref().map(|(_, stretches)| stretches.as_slice())?;
        let days = (0..7).filter_map(|n| monday.checked_add(n)).map(|date| {
            json!({
                "day": day_of(date),
                "notes": notes(site, follows, date),
                "open": pieces(zone, stretches, date),
            })
        });
        let runs = running(world, &decided, now);
        let runs = runs.into_iter().map(|(kind, says, stretch)| {
            let days = (0..7).filter_map(|n| monday.checked_add(n));
            let pieces: Vec<_> = days.map(|date| pieces(zone, &[stretch], date)).collect();
            json!({ "kind": kind, "says": says, "days": pieces })
        });
        Some(json!({
            "number": number.get(),
            "follows": match follows {
                Follows::Always => "always".to_owned(),
                Follows::Timetable(id) => called(site, id),
            },
            "days": days.collect::<Vec<_>>(),
            "now": { "day": local.date.weekday().index(), "second": local.second },
            "runs": runs.collect::<Vec<_>>(),
        }))
    }
}

/// Whether the lock would let somebody open at `at`, as far as time goes, and
/// until when that stays.
fn answer(
    memory: &mut crate::memory::Memory,
    zone: &Zone,
    follows: Follows,
    at: Utc,
) -> Option<(bool, Utc)> {
    let horizon = at.after(Seconds::new(u32::from(HORIZON_DATES - 2) * DAY_SECONDS));
    Some(match by_time(follows, &Conditions::unhindered(at), zone, memory).ok()? {
        Ok(Ends::Never) => (true, Utc::MAX),
        Ok(ends) => (true, ends.instant().unwrap_or(horizon)),
        Err(refused) => (false, refused.until.unwrap_or(horizon)),
    })
}

fn called(site: &Site, id: TimetableId) -> String {
    match site.timetables.get(id.index()) {
        Some(Some(timetable)) => format!("{}, {}", id.letter(), timetable.name),
        Some(None) | None => id.letter().to_string(),
    }
}

/// The parts of `stretches` within a date, in seconds of the wall clock.
fn pieces(zone: &Zone, stretches: &[Stretch], date: Date) -> Vec<[u32; 2]> {
    let parts = stretches.iter().flat_map(|stretch| split(zone, *stretch));
    parts.filter(|(day, _)| *day == date).map(|(_, span)| [span.from, span.to]).collect()
}

/// What is to be said of a date: closures, special days, clock changes.
fn notes(site: &Site, follows: Follows, date: Date) -> Vec<String> {
    let mut notes = Vec::new();
    if let Follows::Timetable(id) = follows {
        let reasons = &site.places.closure_reasons;
        for (closure, why) in site.calendar.closures.iter().zip(reasons) {
            if closure.timetables.has(id) && closure.from <= date && date <= closure.to {
                notes.push(why.clone().unwrap_or_else(|| "closure".to_owned()));
            }
        }
        let reasons = &site.places.special_reasons;
        for (special, why) in site.calendar.specials.iter().zip(reasons) {
            if special.timetables.has(id) && special.date == date {
                notes.push(why.clone().unwrap_or_else(|| "special day".to_owned()));
            }
        }
    }
    notes.extend(change_on(site, date).map(|change| {
        let way = if change.forward > 0 { "forward" } else { "back" };
        format!("clock goes {way}")
    }));
    notes
}

/// What runs: a delay or a claim, a penalty, a hold-shut, a settling clock.
fn running(
    world: &World,
    decided: &Decided,
    now: Utc,
) -> Vec<(&'static str, &'static str, Stretch)> {
    let until = |uptime| {
        let seconds = world.when(uptime).div_ceil(1_000);
        Utc::from_secs(u32::try_from(seconds).unwrap_or(u32::MAX))
    };
    let mut runs = Vec::new();
    let mut run = |kind, says, to: Option<Utc>| {
        if let Some(to) = to.filter(|to| *to > now) {
            runs.push((kind, says, Stretch { from: now, to }));
        }
    };
    run("penalty", "Penalty: no code is taken", decided.penalty().map(until));
    match decided.stage() {
        Some(Stage::Waiting(_, ready)) => run("delay", "Time delay", Some(until(ready))),
        Some(Stage::Claimable(_, end)) => run("claim", "May be claimed", Some(until(end))),
        Some(Stage::Secured | Stage::Free) | None => {}
    }
    let [held, settles] = decided.closed_for_all();
    run("hold", "Held shut", held);
    run("settling", "The clock settles", settles);
    runs
}
