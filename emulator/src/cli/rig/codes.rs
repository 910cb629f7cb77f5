//! `emulator rig bad-codes`.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::holder::Number;

use super::{Campaigning, Rig};
use crate::cli::plan::parse_number;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::document::seconds;
use crate::plain;
use crate::rig::codes::setup::{NoTarget, Setup};
use crate::rig::codes::{BadCodes, row};
use crate::site::{LockPlan, Site};
use crate::tour::SITE;

/// Monday 2027-03-01 09:00 UTC: within the demo site's windows.
const START: lock_core::time::Utc = lock_core::time::Utc::from_secs(1_803_891_600);

/// Guess codes by every strategy there is, through the real lock.
#[derive(Args)]
#[command(after_help = "\
Examples:
  emulator rig bad-codes
  emulator rig bad-codes --site harbour-bakery.toml --lock vault --digits 7 --days 30
  emulator rig bad-codes --days 1 --mixtures 100000 --budget 60s

The table counts the tries that the lock judged, and the chance that they
found the code, beside what arithmetic allows; docs/bad-codes.md explains it.
Exit code 1 if any entry came to something else than the contract says, or
if more came through than arithmetic allows.")]
pub(crate) struct Command {
    /// The site file; the demo site where it is left out.
    #[arg(long, value_name = "FILE")]
    site: Option<PathBuf>,
    /// The lock's id; the first of the site where it is left out.
    #[arg(long, value_name = "ID")]
    lock: Option<String>,
    /// Guess at this holder's code; by default at the first keyholder's.
    #[arg(long, value_name = "NUMBER", value_parser = parse_number)]
    number: Option<Number>,
    /// Digits of the codes, instead of the policy's.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(6..=8))]
    digits: Option<u8>,
    /// How long a try takes to type.
    #[arg(long, value_name = "TIME", value_parser = parse_pace, default_value = "0s")]
    pace: u64,
    /// How many days each strategy goes on.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u64).range(1..=3_650),
          default_value_t = 365)]
    days: u64,
    /// How many random mixtures of guesses, power cuts and clock changes follow.
    #[arg(long, value_name = "N", default_value_t = 1_000)]
    mixtures: u64,
    #[command(flatten)]
    campaigning: Campaigning,
}

fn parse_pace(text: &str) -> Result<u64, String> {
    // Typed at once: an entry that rests for 20 s is wiped.
    let pace = seconds(text).filter(|pace| *pace <= 3_600);
    pace.map(u64::from).ok_or_else(|| "write up to an hour, as \"3s\"".into())
}

impl Command {
    pub(crate) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let site = match &self.site {
            Some(path) => Site::load(path),
            None => Site::parse("harbour-bakery.toml", SITE).map_err(Into::into),
        };
        let site = match site {
            Ok(site) => site,
            Err(why) => return refuse(streams, &why),
        };
        let setup = match self.setup(site) {
            Ok(setup) => setup,
            Err(why) => return refuse(streams, &why),
        };
        let cases = BadCodes::new(setup, self.campaigning.seed(), self.days, self.mixtures);
        let rig = Rig { name: "bad-codes", options: self.options(), cases: &cases };
        self.campaigning.conduct(&rig, streams, |_, streams| {
            let rows = cases.rows();
            match self.campaigning.format() {
                Format::Text => row::text(cases.setup(), &rows, streams.out),
                Format::Json => row::json(cases.setup(), &rows, streams.out),
            }
        })
    }

    fn setup(&self, site: Site) -> Result<Setup, Unusable> {
        let mut lock = self.lock(&site)?;
        lock.policy.code_digits = self.digits.unwrap_or(lock.policy.code_digits);
        let start = START.max(site.zone_since);
        Setup::new(site, lock, self.number, start, self.pace).map_err(|why| {
            let remedy = match why {
                NoTarget::Number => "Name a holder of the file who may open.",
                NoTarget::Nobody => "Give somebody in the file a role that opens.",
                NoTarget::Alone => "Add a second holder to the file.",
            };
            Unusable::new(format!("There is nobody to attack: {why}."), remedy)
        })
    }

    fn lock(&self, site: &Site) -> Result<LockPlan, Unusable> {
        let found = match &self.lock {
            Some(id) => site.lock(id),
            None => site.locks.first(),
        };
        found.cloned().ok_or_else(|| {
            let ids: Vec<&str> = site.locks.iter().map(|lock| lock.id.as_str()).collect();
            let what = format!("The site has no lock \"{}\".", self.lock.as_deref().unwrap_or(""));
            Unusable::new(what, format!("Its locks are: {}.", ids.join(", ")))
        })
    }

    /// The options as given, so that a case can be repeated.
    fn options(&self) -> String {
        let Self { site, lock, number, digits, pace, days, mixtures, campaigning: _ } = self;
        let mut options = String::new();
        if let Some(site) = site {
            options += &format!(" --site {}", plain::path(site));
        }
        if let Some(lock) = lock {
            options += &format!(" --lock {lock}");
        }
        if let Some(number) = number {
            options += &format!(" --number {}", number.get());
        }
        if let Some(digits) = digits {
            options += &format!(" --digits {digits}");
        }
        options + &format!(" --pace {pace}s --days {days} --mixtures {mixtures}")
    }
}
