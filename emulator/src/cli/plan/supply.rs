//! `plan supply`: how long a battery lasts.

use std::io;
use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};

use super::lock_of;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::plan::costs::{ASSUMED, Costs};
use crate::plan::supply::{BATTERIES, Work, count};
use crate::site::Site;

#[derive(Args)]
pub(in crate::cli) struct SupplyArguments {
    /// The site file.
    pub(super) site: PathBuf,
    /// The lock's id.
    #[arg(long, value_name = "ID")]
    lock: String,
    /// Openings a day, 0 to 1000.
    #[arg(long, value_name = "NUMBER", default_value_t = 10, value_parser = clap::value_parser!(u16).range(0..=1_000))]
    openings_a_day: u16,
    /// What things cost on your board (TOML): `asleep` in milliwatts; `wake`, `key`,
    /// `refresh`, `move`, `sound`, `word` and `page` in millijoules. What is left out
    /// stays as assumed (docs/energy.md).
    #[arg(long, value_name = "FILE")]
    costs: Option<PathBuf>,
    /// How the answer is written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl SupplyArguments {
    pub(super) fn write(&self, site: &Site, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let lock = match lock_of(site, &self.lock) {
            Ok(lock) => lock,
            Err(why) => return refuse(streams, &why),
        };
        let board = match self.costs.as_deref().map_or(Ok(ASSUMED), Costs::load) {
            Ok(costs) => costs,
            Err(why) => return refuse(streams, &why),
        };
        let Ok(counted) = count(site, lock) else {
            let what = "The settings of this lock cannot be stored.";
            return refuse(streams, &Unusable::new(what, "Check the file: emulator plan check."));
        };
        let day = counted.idle_day.and(counted.opening.times(self.openings_a_day.into()));
        let costs = board.parts(&day);
        let total = board.day(&day);
        let refused = BATTERIES.map(|battery| battery.refused(&lock.policy));
        match self.format {
            Format::Json => {
                let counts =
                    |work: &Work| Value::from_iter(work.counts().map(|(n, c)| (n, json!(c))));
                let batteries = BATTERIES.iter().zip(&refused).map(|(battery, refused)| {
                    let years = battery.years(total).min(battery.keeps);
                    json!({
                        "battery": battery.name,
                        "years": refused.is_none().then_some(years),
                        "keeps_years": battery.keeps,
                        "refused": refused,
                    })
                });
                let object = json!({
                    "lock": lock.id,
                    "openings_a_day": self.openings_a_day,
                    "idle_day": counts(&counted.idle_day),
                    "opening": counts(&counted.opening),
                    "millijoules_a_day": Value::from_iter(costs.map(|(n, c)| (n, json!(c)))),
                    "total": total,
                    "batteries": batteries.collect::<Vec<_>>(),
                });
                writeln!(streams.out, "{object:#}")?;
            }
            Format::Text => {
                writeln!(
                    streams.out,
                    "Lock {}, {} openings a day\n",
                    lock.id, self.openings_a_day
                )?;
                writeln!(
                    streams.out,
                    "{:<20} {:>10} {:>10} {:>12}",
                    "", "idle day", "opening", "mJ a day"
                )?;
                let rows = counted.idle_day.counts().into_iter().zip(counted.opening.counts());
                let [(asleep, cost), rest @ ..] = costs;
                writeln!(streams.out, "{asleep:<20} {:>10} {:>10} {cost:>12.1}", "", "")?;
                for (((name, idle), (_, opening)), (_, cost)) in rows.zip(rest) {
                    writeln!(streams.out, "{name:<20} {idle:>10.2} {opening:>10.2} {cost:>12.1}")?;
                }
                writeln!(streams.out, "{:<20} {:>10} {:>10} {total:>12.1}\n", "together", "", "")?;
                for (battery, refused) in BATTERIES.iter().zip(&refused) {
                    let lasts = match refused {
                        None => battery.lasts(total),
                        Some(why) => format!("cannot be used: {why}"),
                    };
                    writeln!(streams.out, "{:<8} {lasts}", battery.name)?;
                }
                let costs = match &self.costs {
                    None => "costs are assumed for a board that nobody has\nbuilt.",
                    Some(_) => "costs are your file's, the rest of them\nassumed.",
                };
                writeln!(
                    streams.out,
                    "\nCounts are the emulated lock's; {costs} Cold, old cells and a stiff bolt \
                     shorten it: measure your own."
                )?;
            }
        }
        let usable = refused.iter().any(Option::is_none);
        Ok(if usable { Outcome::Fine } else { Outcome::Found })
    }
}
