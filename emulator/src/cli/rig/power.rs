//! `emulator rig power-loss`.

use std::io;
use std::path::PathBuf;
use std::sync::Arc;

use clap::Args;

use super::{Campaigning, Rig};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Outcome, Streams};
use crate::drill::{self, Drill};
use crate::memory::Memory;
use crate::plain;
use crate::rig::power::{Cuts, Stories, Sweep};
use crate::site::Site;
use crate::tour;
use crate::world::Bench;

/// Flash that a story turns over: the smallest pages, and as few as can be.
type SmallSweep = Sweep<Memory<8, 256>, Bench, 8, 256>;

/// Cut the power of a lock, at random or at every step of drills.
///
/// Without drills it tells random stories: people at a lock, and a battery that
/// fails within a word, an erase or a move of the bolt, and again within the
/// boot after that. With drills the power ends within every step of each, in
/// every way, and three boots on what is left are judged.
#[derive(Args)]
#[command(after_help = "\
Examples:
  emulator rig power-loss --budget 60s
  emulator rig power-loss --drill emulator/demo/drills
  emulator rig power-loss --stories 20 --seeds 4
  emulator rig power-loss --drill emulator/demo/drills --cuts 2 --budget 5m

Exit code 1 if anything did not hold; docs/power-loss.md says what must.")]
pub(crate) struct Command {
    /// Drill files, or folders with drill files.
    #[arg(long, value_name = "FILE", num_args = 1..)]
    drill: Vec<PathBuf>,
    /// Instead of drills, cut so many random stories at every step.
    #[arg(long, value_name = "N", conflicts_with = "drill",
          value_parser = clap::value_parser!(u64).range(1..=1_000))]
    stories: Option<u64>,
    /// In a sweep: how many seeds each class of torn step is tried with.
    #[arg(long, value_name = "N", default_value_t = 2,
          value_parser = clap::value_parser!(u64).range(1..=1_000))]
    seeds: u64,
    /// In a sweep: how many cuts follow one another, the second at every step of
    /// the boot after the first, the third at some step of the boot after that.
    #[arg(long, value_name = "N", default_value_t = 1,
          value_parser = clap::value_parser!(u8).range(1..=3))]
    cuts: u8,
    #[command(flatten)]
    campaigning: Campaigning,
}

impl Command {
    pub(crate) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self.stories {
            Some(stories) => self.sweep_stories(stories, streams),
            None if self.drill.is_empty() => self.tell_stories(streams),
            None => self.sweep_drills(streams),
        }
    }

    fn sweep_stories(&self, stories: u64, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let seed = self.campaigning.seed();
        let site = Site::parse("harbour-bakery.toml", tour::SITE).ok().map(Arc::new);
        let sweep = site.and_then(|site| {
            SmallSweep::of_stories(&site, stories, seed, self.seeds, self.cuts()).ok()
        });
        let Some(sweep) = sweep else {
            return refuse(streams, &Unusable::new("The demo site is unusable.", "Build anew."));
        };
        self.sweep(&sweep, &format!(" --stories {stories}"), streams)
    }

    fn sweep(
        &self,
        sweep: &SmallSweep,
        of: &str,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        let options = format!("{of} --seeds {} --cuts {}", self.seeds, self.cuts);
        let rig = Rig { name: "power-loss", options, cases: sweep };
        self.campaigning.conduct(&rig, streams, |_, _| Ok(()))
    }

    const fn cuts(&self) -> Cuts {
        match self.cuts {
            1 => Cuts::One,
            2 => Cuts::Two,
            _ => Cuts::Three,
        }
    }

    fn tell_stories(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let stories = Site::parse("harbour-bakery.toml", tour::SITE).ok();
        let stories = stories.and_then(|site| Stories::of(self.campaigning.seed(), site).ok());
        let Some(stories) = stories else {
            return refuse(streams, &Unusable::new("The demo site is unusable.", "Build anew."));
        };
        let rig = Rig { name: "power-loss", options: String::new(), cases: &stories };
        self.campaigning.conduct(&rig, streams, |_, _| Ok(()))
    }

    fn sweep_drills(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let seed = self.campaigning.seed();
        let drills = drill::files(&self.drill).and_then(|files| {
            let load = |file: &PathBuf| Drill::load(file).map(Arc::new);
            files.iter().map(load).collect::<Result<Vec<_>, _>>()
        });
        let drills = match drills {
            Ok(drills) => drills,
            Err(why) => return refuse(streams, &why),
        };
        let sweep = SmallSweep::of(drills, seed, self.seeds, self.cuts());
        let Ok(sweep) = sweep else {
            let what = "The settings of a drill's lock cannot be stored.";
            return refuse(streams, &Unusable::new(what, "Check its site file with `plan check`."));
        };
        let paths = self.drill.iter().map(|path| format!(" {}", plain::path(path)));
        let paths = paths.collect::<String>();
        self.sweep(&sweep, &format!(" --drill{paths}"), streams)
    }
}
