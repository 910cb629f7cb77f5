//! `emulator rig soak`.

use std::io;

use clap::Args;

use super::{Campaigning, Rig};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Outcome, Streams};
use crate::rig::power::Soak;
use crate::site::Site;
use crate::tour;

/// Live through years of random use with every fault that there is.
///
/// Each case is a month of one lock of the demo site: people come and go, the
/// battery fails within a step, bits of the flash turn over, its bus is
/// disturbed, the clock strays. The same judge watches as in `power-loss`.
#[derive(Args)]
#[command(after_help = "\
Examples:
  emulator rig soak --years 5
  emulator rig soak --years 100 --budget 10m --seed 7
  emulator rig soak --cases 200

Exit code 1 if anything did not hold; docs/power-loss.md says what must.")]
pub(crate) struct Command {
    /// How many years, in months of many locks; otherwise as many months as
    /// --cases or --budget says, or one year.
    #[arg(long, value_name = "N", conflicts_with = "cases",
          value_parser = clap::value_parser!(u32).range(1..=100_000))]
    years: Option<u32>,
    #[command(flatten)]
    campaigning: Campaigning,
}

impl Command {
    pub(crate) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let soak = Site::parse("harbour-bakery.toml", tour::SITE).ok();
        let seed = self.campaigning.seed();
        let years = self.years.or_else(|| self.campaigning.is_endless().then_some(1));
        let Some(soak) = soak.and_then(|site| Soak::of(seed, years, site).ok()) else {
            return refuse(streams, &Unusable::new("The demo site is unusable.", "Build anew."));
        };
        let options = years.map_or_else(String::new, |years| format!(" --years {years}"));
        let rig = Rig { name: "soak", options, cases: &soak };
        self.campaigning.conduct(&rig, streams, |_, _| Ok(()))
    }
}
