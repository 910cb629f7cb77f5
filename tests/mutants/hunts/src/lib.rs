//! The hunts: each mutant is chosen in turn, and the checks that the table names must
//! find it. Without one, none of them may find anything.

#![forbid(unsafe_code)]

use std::collections::BTreeSet;
use std::io::{self, Write};
use std::num::NonZeroUsize;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;
use std::time::{Duration, Instant};

use emulator::drill::{self, Drill, Play};
use emulator::memory::Memory;
use emulator::rig::campaign::First;
use emulator::rig::power::{Cuts, Stories, Sweep};
use emulator::rig::store::cuts;
use emulator::rig::store::faults::Faults;
use emulator::rig::store::flips::Flips;
use emulator::rig::{Cases, Plan, Shard, run};
use emulator::site::Site;
use emulator::tour::SITE;
use emulator::world::Bench;
use mutants::{Check, Mutant, Rig, Table};

/// Where the random numbers start. Any would do; one that stays, so that a mutant that
/// was found is found again.
const SEED: u64 = 1;

/// Cases of the drills, cut at every step, that are run without a mutant: the whole of it
/// is the rig's own run.
const WITHOUT: u64 = 6_000;

const DEMO: &str = "emulator/demo";

/// Hunts in the folder of a woven lock, for all mutants or for the one that is named.
/// `choose` chooses the mutant at that place, from 1, for the whole process; 0: none.
#[must_use]
pub fn main(choose: fn(usize)) -> ExitCode {
    let only = std::env::args().nth(1);
    match all(choose, only.as_deref()) {
        Ok(0) => ExitCode::SUCCESS,
        Ok(_) => ExitCode::FAILURE,
        Err(why) => {
            let _ = writeln!(io::stderr(), "mutants: {why}");
            ExitCode::from(2)
        }
    }
}

/// How many came out as they must not.
fn all(choose: fn(usize), only: Option<&str>) -> Result<usize, String> {
    let table = Table::load(Path::new(".")).map_err(|why| why.to_string())?;
    let started = Instant::now();
    let mut wrong = 0;
    if only.is_none() {
        choose(0);
        wrong += usize::from(!nothing_is_found(&table)?);
    }
    let mut found = 0;
    let chosen = |mutant: &Mutant| only.is_none_or(|only| mutant.name == only);
    let tried: Vec<_> = table.0.iter().zip(1..).filter(|(mutant, _)| chosen(mutant)).collect();
    for (mutant, place) in &tried {
        choose(*place);
        if is_found(mutant, only.is_some())? {
            found += 1;
        } else {
            wrong += 1;
        }
        choose(0);
    }
    let of = tried.len();
    let without = match (only, wrong == of - found) {
        (Some(_), _) => "",
        (None, true) => "; without one nothing is found",
        (None, false) => "; WITHOUT ONE SOMETHING IS FOUND",
    };
    say(&format!("mutants: {found} of {of} found{without}; {} s", started.elapsed().as_secs()))?;
    Ok(wrong)
}

/// Every rig, and every drill that is to find a mutant.
fn nothing_is_found(table: &Table) -> Result<bool, String> {
    let drill = |check: &Check| match check {
        Check::Drill(file) => Some(file.clone()),
        Check::Rig(_) => None,
    };
    let drills = table.0.iter().flat_map(|mutant| mutant.caught_by.iter().filter_map(drill));
    let drills: BTreeSet<String> = drills.collect();
    let rigs = Rig::ALL.into_iter().map(Check::Rig);
    let mut fine = true;
    for check in rigs.chain(drills.into_iter().map(Check::Drill)) {
        let (caught, took) = hunt(&check, WITHOUT)?;
        if let Some(what) = caught {
            say(&format!("FOUND   without a mutant: {}, {}: {what}", check.name(), seconds(took)))?;
            fine = false;
        } else if matches!(check, Check::Rig(_)) {
            say(&format!("nothing without a mutant: {}, {}", check.name(), seconds(took)))?;
        }
    }
    Ok(fine)
}

/// Whether every check that must find a mutant does; says so in a line.
fn is_found(mutant: &Mutant, in_full: bool) -> Result<bool, String> {
    let mut missed = Vec::new();
    let mut by = Vec::new();
    let mut whole = Duration::ZERO;
    for check in &mutant.caught_by {
        let (caught, took) = hunt(check, u64::MAX)?;
        whole += took;
        match caught {
            Some(what) if in_full => by.push(format!("{} ({what})", check.name())),
            Some(_) => by.push(check.name().to_owned()),
            None => missed.push(check.name()),
        }
    }
    let Mutant { name, about, .. } = mutant;
    let (by, not_by, took) = (by.join(", "), missed.join(", "), seconds(whole));
    say(&if missed.is_empty() {
        format!("found   {name}: {by}, {took}")
    } else {
        format!("MISSED  {name}: not by {not_by}, {took}: {about}")
    })?;
    Ok(missed.is_empty())
}

/// A line that nobody reads ends the hunt.
fn say(line: &str) -> Result<(), String> {
    writeln!(io::stdout(), "{line}").map_err(|why| format!("nothing can be written: {why}"))
}

fn seconds(took: Duration) -> String {
    format!("{:.1} s", took.as_secs_f32())
}

/// What a check finds, and how long it took.
fn hunt(check: &Check, most: u64) -> Result<(Option<String>, Duration), String> {
    let started = Instant::now();
    let found = match check {
        Check::Drill(file) => played(&Path::new(DEMO).join(file))?,
        Check::Rig(rig) => rigged(*rig, most)?,
    };
    Ok((found, started.elapsed()))
}

/// What a drill finds. It is played twice, as `emulator drill` does (R10).
fn played(file: &Path) -> Result<Option<String>, String> {
    let drill = Drill::load(file).map_err(|why| format!("{}: {why}", file.display()))?;
    let once = || {
        let play = Play::start(&drill).map_err(|why| format!("{}: {why:?}", file.display()))?;
        Ok::<_, String>(play.finish())
    };
    let played = catch_unwind(AssertUnwindSafe(|| Ok::<_, String>((once()?, once()?))));
    let Ok(played) = played else { return Ok(Some("a panic".to_owned())) };
    let (first, second) = played?;
    let failure = first.failures.first().map(|failure| {
        let drill::Failure { step, key, expected, seen, .. } = failure;
        format!("step {step}, {key}: expected {expected}, seen {seen}")
    });
    let differs = first.trace != second.trace;
    Ok(failure.or_else(|| differs.then(|| "the second run differs".to_owned())))
}

fn rigged(rig: Rig, most: u64) -> Result<Option<String>, String> {
    let seed = SEED;
    let cuts = |cuts, seeds| cuts::Cuts { seed, cuts, seeds };
    Ok(match rig {
        Rig::StoreFaults => cases(&Faults { seed }, 400),
        Rig::StorePairs => cases(&Flips { seed, pairs: Some(20_000) }, 20),
        Rig::PowerLoss => {
            let site = Site::parse("harbour-bakery.toml", SITE).map_err(|why| why.to_string())?;
            let stories = Stories::of(seed, site).map_err(|why| format!("{why:?}"))?;
            cases(&stories, 3_000)
        }
        Rig::Store => cases(&cuts(1, 2), 24),
        Rig::PowerLossDrill => {
            // They are played with the mutant in them, as a lock would have it.
            let folder: PathBuf = Path::new(DEMO).join("drills");
            let files = drill::files(&[folder]).map_err(|why| why.to_string())?;
            let load = |file: &PathBuf| Drill::load(file).map(Arc::new);
            let drills = files.iter().map(load).collect::<Result<Vec<_>, _>>();
            let drills = drills.map_err(|why| why.to_string())?;
            let sweep = Sweep::<Memory<8, 256>, Bench, 8, 256>::of(drills, seed, 1, Cuts::One);
            cases(&sweep.map_err(|why| format!("{why:?}"))?, most)
        }
        Rig::StoreCuts => cases(&cuts(2, 1), 4),
    })
}

/// What the first cases find.
fn cases(cases: &dyn Cases, most: u64) -> Option<String> {
    let jobs = std::thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
    let plan = Plan { seed: SEED, budget: None, shard: Shard::WHOLE, jobs };
    let all = cases.count().map_or(most, |count| count.min(most));
    // A few at a time: most mutants show in the first.
    let mut most = u64::try_from(jobs.get()).unwrap_or(1).min(all);
    loop {
        let report = run(&plan, &First { of: cases, most }, &|_| ());
        if let Some((case, failure)) = report.failures.into_iter().next() {
            return Some(format!("case {case}: {}", failure.what));
        }
        if most >= all {
            return None;
        }
        most = most.saturating_mul(8).min(all);
    }
}
