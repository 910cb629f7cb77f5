//! `emulator rig store`.

use std::io;

use clap::Args;

use super::{Campaigning, Rig};
use crate::cli::{Outcome, Streams};
use crate::rig::store::cuts::Cuts;
use crate::rig::store::faults::Faults;
use crate::rig::store::flips::Flips;

/// Cut the power at every step of random lives of the store, or flip bits.
#[derive(Args)]
#[command(after_help = "\
Examples:
  emulator rig store --budget 60s
  emulator rig store --cuts 2 --budget 5m
  emulator rig store --flips
  emulator rig store --pairs 50000

Exit code 1 if anything did not hold; docs/power-loss.md says what must.")]
pub(crate) struct Command {
    /// How many cuts follow one another: the first at every step of a life,
    /// the second at every step of each recovery, a third at random ones.
    #[arg(long, value_name = "N", default_value_t = 1,
          value_parser = clap::value_parser!(u8).range(1..=3))]
    cuts: u8,
    /// How many seeds each class of torn step is tried with.
    #[arg(long, value_name = "N", default_value_t = 2,
          value_parser = clap::value_parser!(u64).range(1..=1_000))]
    seeds: u64,
    /// Have calls of the flash fail, and writes lie, instead.
    #[arg(long, conflicts_with_all = ["cuts", "pairs", "flips"])]
    faults: bool,
    /// Flip every single bit of a used image instead.
    #[arg(long, conflicts_with_all = ["cuts", "pairs"])]
    flips: bool,
    /// Flip so many pairs of bits instead.
    #[arg(long, value_name = "N", conflicts_with = "cuts")]
    pairs: Option<u64>,
    #[command(flatten)]
    campaigning: Campaigning,
}

impl Command {
    pub(crate) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let seed = self.campaigning.seed();
        let (name, nothing) = ("store", |_: &_, _: &mut Streams<'_>| Ok(()));
        if self.flips || self.pairs.is_some() {
            let options = match self.pairs {
                Some(pairs) => format!(" --pairs {pairs}"),
                None => " --flips".into(),
            };
            let cases = Flips { seed, pairs: self.pairs };
            return self.campaigning.conduct(
                &Rig { name, options, cases: &cases },
                streams,
                nothing,
            );
        }
        if self.faults {
            let cases = Faults { seed };
            let options = " --faults".into();
            return self.campaigning.conduct(
                &Rig { name, options, cases: &cases },
                streams,
                nothing,
            );
        }
        let options = format!(" --cuts {} --seeds {}", self.cuts, self.seeds);
        let cases = Cuts { seed, cuts: self.cuts, seeds: self.seeds };
        self.campaigning.conduct(&Rig { name, options, cases: &cases }, streams, nothing)
    }
}
