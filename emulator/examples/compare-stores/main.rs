//! Our store and a general-purpose one under the same faults and one judge.
//!
//! ```text
//! cargo run --release -p emulator --example compare-stores
//! ```
//!
//! | module | concept |
//! | --- | --- |
//! | [`subject`] | what is compared, and the bus below it |
//! | [`ours`] | `lock_core::store::FlashStore` |
//! | [`library`] | `sequential-storage`, which version and which calls |
//! | [`life`] | the random events, the same for both |
//! | [`judge`] | what must hold |
//! | [`cuts`] | every act of a life torn in every class |
//! | [`flips`] | every bit of an image flipped |
//! | [`table`] | what came of it |
//!
//! `docs/comparison.md` has the figures, and what they do not say.

#![forbid(unsafe_code)]

mod cuts;
mod flips;
mod judge;
mod library;
mod life;
mod ours;
#[cfg(test)]
mod spoiled;
mod subject;
mod table;

use std::io;
use std::marker::PhantomData;
use std::num::NonZeroUsize;
use std::process::ExitCode;
use std::sync::{Mutex, PoisonError};

use clap::{Parser, ValueEnum};
use emulated_board::fuse::Act;
use emulator::rig::{self, Cases, Covered, Failure, Plan, Shard};

use crate::cuts::Life;
use crate::flips::{Harm, Image};
use crate::library::Library;
use crate::ours::Ours;
use crate::subject::{Fault, Raise, Shape, Subject};
use crate::table::{Found, Tally};

/// Compare two stores under the faults of the rig.
#[derive(Parser, Clone, Copy)]
struct Options {
    /// Where the random numbers start; the same seed gives the same tables.
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    /// Lives whose every act is torn.
    #[arg(long, value_name = "N", default_value_t = 12)]
    lives: u64,
    /// With how many seeds each class tears each act.
    #[arg(long, value_name = "N", default_value_t = 1)]
    seeds: u64,
    /// How the chip takes a program that would raise a bit.
    #[arg(long, value_enum, default_value_t = Raise::Refused)]
    raise: Raise,
    /// How the tables are written: `json` is an object a line.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Clone, Copy, ValueEnum)]
enum Format {
    Text,
    Json,
}

fn main() -> ExitCode {
    let options = Options::parse();
    match compare(&options) {
        Ok(found) => {
            let mut out = io::stdout().lock();
            let written = match options.format {
                Format::Text => table::text(&found, &mut out),
                Format::Json => table::json(&found, &mut out),
            };
            // Ours must be clean; the other one is not ours to fail for.
            let clean = found.iter().filter(|f| f.name == OURS).all(Found::is_clean);
            if written.is_ok() && clean { ExitCode::SUCCESS } else { ExitCode::FAILURE }
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(2)
        }
    }
}

const OURS: &str = <Ours<8, 256> as Subject<8, 256>>::NAME;

fn compare(options: &Options) -> Result<[Found; 2], String> {
    Ok([
        subject::<Ours<8, 256>, Ours<32, 512>>(options)?,
        subject::<Library<8, 256>, Library<32, 512>>(options)?,
    ])
}

/// Both sweeps of one subject, on chips with short words and with long ones.
fn subject<S: Subject<8, 256>, L: Subject<32, 512>>(options: &Options) -> Result<Found, String> {
    let lives = Lives::<S, L> { options: *options, tally: Mutex::default(), subjects: PhantomData };
    run(options, &lives)?;
    let shape = Shape { map_pages: 3, raise: options.raise };
    let image = Image::of::<S>(options.seed, shape).map_err(|Fault(why)| why)?;
    let flips = Flips::<S> { image, harm: Mutex::default(), subject: PhantomData };
    run(options, &flips)?;
    let cuts = lives.tally.into_inner().unwrap_or_else(PoisonError::into_inner);
    let flips = flips.harm.into_inner().unwrap_or_else(PoisonError::into_inner);
    Ok(Found { name: S::NAME, cuts, flips })
}

/// Runs all cases; a failure of one is a mistake here, not of a subject.
fn run(options: &Options, cases: &dyn Cases) -> Result<(), String> {
    let jobs = std::thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
    let plan = Plan { seed: options.seed, budget: None, shard: Shard::WHOLE, jobs };
    let report = rig::run(&plan, cases, &|_| {});
    match report.failures.first() {
        None => Ok(()),
        Some((case, failure)) => Err(format!("case {case}: {}", failure.what)),
    }
}

struct Lives<S, L> {
    options: Options,
    tally: Mutex<Tally>,
    subjects: PhantomData<fn() -> (S, L)>,
}

impl<S: Subject<8, 256>, L: Subject<32, 512>> Cases for Lives<S, L> {
    fn count(&self) -> Option<u64> {
        Some(self.options.lives)
    }

    fn run(&self, case: u64, _: &mut Covered) -> Result<(), Failure> {
        let Options { seed, seeds, raise, .. } = self.options;
        let life = Life::of(seed, case);
        // 2, 3 and 4 pages in turn, so that each meets both kinds of words.
        let shape = Shape { map_pages: u32::try_from(2 + case % 3).unwrap_or(2), raise };
        let mut tally = Tally::default();
        let mut tell = |act: &Act<'_>, class, broken| tally.note(act, class, broken);
        let swept = if case.is_multiple_of(2) {
            cuts::sweep::<8, 256, S>(&life, &shape, seeds, &mut tell)
        } else {
            cuts::sweep::<32, 512, L>(&life, &shape, seeds, &mut tell)
        };
        self.tally.lock().unwrap_or_else(PoisonError::into_inner).add(&tally);
        swept.map_err(failure)
    }
}

struct Flips<S> {
    image: Image<8, 256>,
    harm: Mutex<Harm>,
    subject: PhantomData<fn() -> S>,
}

/// Bits that one case goes through.
const A_CASE: u64 = 2_048;

impl<S: Subject<8, 256>> Cases for Flips<S> {
    fn count(&self) -> Option<u64> {
        Some(self.image.bits().div_ceil(A_CASE))
    }

    fn run(&self, case: u64, _: &mut Covered) -> Result<(), Failure> {
        let mut harm = Harm::default();
        for bit in (case * A_CASE..(case + 1) * A_CASE).take_while(|bit| *bit < self.image.bits()) {
            harm.add(&self.image.flip::<S>(bit).map_err(failure)?);
        }
        self.harm.lock().unwrap_or_else(PoisonError::into_inner).add(&harm);
        Ok(())
    }
}

fn failure(Fault(what): Fault) -> Failure {
    Failure { what, repeat: String::new(), events: Vec::new() }
}
