//! `emulator rig canaries`: only in a build with `--cfg canary`.

use std::io;
use std::num::NonZeroUsize;
use std::sync::Arc;

use clap::Args;
use lock_core::canary::Bug;
use serde_json::json;

use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::drill::{self, Drill};
use crate::memory::Memory;
use crate::rig::canaries::{Catch, Hunt, hunt};
use crate::rig::power::{Cuts, Stories, Sweep};
use crate::rig::store::cuts;
use crate::rig::store::faults::Faults;
use crate::rig::store::flips::Flips;
use crate::site::Site;
use crate::tour::SITE;
use crate::world::Bench;

/// Switch each seeded bug on in turn, and see that a rig finds it.
#[derive(Args)]
#[command(after_help = "\
Examples:
  emulator rig canaries
  emulator rig canaries --only no-read-back

Exit code 1 if a bug is not found, or something is found where there is none.")]
pub(crate) struct Command {
    /// This bug only.
    #[arg(long, value_name = "NAME")]
    only: Option<String>,
    /// The drills that are cut.
    #[arg(long, value_name = "FOLDER", default_value = "emulator/demo/drills")]
    drills: std::path::PathBuf,
    /// Where the random numbers start.
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    /// How the report is written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl Command {
    pub(crate) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let chosen: Vec<Option<Bug>> = match &self.only {
            None => std::iter::once(None).chain(Bug::ALL.iter().copied().map(Some)).collect(),
            Some(name) => Bug::ALL.iter().copied().filter(|b| b.name() == name).map(Some).collect(),
        };
        if chosen.is_empty() {
            let names: Vec<&str> = Bug::ALL.iter().map(|bug| bug.name()).collect();
            let what = "There is no such bug.";
            return refuse(
                streams,
                &Unusable::new(what, format!("There are {}.", names.join(", "))),
            );
        }
        let drills = drill::files(std::slice::from_ref(&self.drills)).and_then(|files| {
            let load = |file: &std::path::PathBuf| Drill::load(file).map(Arc::new);
            files.iter().map(load).collect::<Result<Vec<_>, _>>()
        });
        let drills = match drills {
            Ok(drills) => drills,
            Err(why) => return refuse(streams, &why),
        };
        let jobs = std::thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
        let mut missed = 0;
        for bug in chosen {
            let catch = self.hunt(bug, &drills, jobs);
            if !catch.is_as_it_must_be() {
                missed += 1;
            }
            self.tell(&catch, streams)?;
        }
        Ok(if missed == 0 { Outcome::Fine } else { Outcome::Found })
    }

    fn hunt(&self, bug: Option<Bug>, drills: &[Arc<Drill>], jobs: NonZeroUsize) -> Catch {
        let seed = self.seed;
        let one = cuts::Cuts { seed, cuts: 1, seeds: 2 };
        let two = cuts::Cuts { seed, cuts: 2, seeds: 1 };
        let faults = Faults { seed };
        let flips = Flips { seed, pairs: Some(20_000) };
        // The drills are played with the bug in them, as a lock would have it.
        lock_core::canary::choose(bug);
        let sweep =
            Sweep::<Memory<8, 256>, Bench, 8, 256>::of(drills.iter().cloned(), seed, 1, Cuts::One);
        // The quick ones first.
        let mut hunts = vec![
            Hunt { name: "store --faults", cases: &faults, most: 400 },
            Hunt { name: "store --pairs 20000", cases: &flips, most: 20 },
        ];
        let stories = Site::parse("harbour-bakery.toml", SITE).ok();
        let stories = stories.and_then(|site| Stories::of(seed, site).ok());
        if let Some(stories) = &stories {
            hunts.push(Hunt { name: "power-loss", cases: stories, most: 3_000 });
        }
        hunts.push(Hunt { name: "store", cases: &one, most: 24 });
        if let Ok(sweep) = &sweep {
            // Without a bug the whole of it is a rig's own run, not this one's.
            let most = if bug.is_some() { u64::MAX } else { 6_000 };
            hunts.push(Hunt { name: "power-loss --drill", cases: sweep, most });
        }
        hunts.push(Hunt { name: "store --cuts 2", cases: &two, most: 4 });
        hunt(bug, &hunts, seed, jobs)
    }

    fn tell(&self, catch: &Catch, streams: &mut Streams<'_>) -> io::Result<()> {
        let (name, about) = catch.bug.map_or(("(none)", "no bug"), |bug| (bug.name(), bug.about()));
        let mark = if catch.is_as_it_must_be() { "pass" } else { "FAIL" };
        let seconds = catch.took.as_secs_f32();
        match self.format {
            Format::Json => {
                let by = catch.by.as_ref().map(|(rig, case, failure)| {
                    json!({ "rig": rig, "case": case, "what": failure.what })
                });
                let object = json!({ "bug": name, "about": about, "found": by });
                writeln!(streams.out, "{object}")
            }
            Format::Text => match &catch.by {
                Some((rig, case, failure)) => {
                    writeln!(streams.out, "{mark}  {name}: {about}")?;
                    writeln!(
                        streams.out,
                        "      by {rig}, case {case} ({seconds:.1} s): {}",
                        failure.what
                    )
                }
                None => {
                    writeln!(streams.out, "{mark}  {name}: {about}; nothing found ({seconds:.1} s)")
                }
            },
        }
    }
}
