//! `emulator rig`: what its subcommands share.
//!
//! A subcommand makes its [`Cases`] from its own options and hands them to
//! [`Campaigning::conduct`].

mod codes;
mod power;
mod soak;
mod store;

use std::io::{self, Write as _};
use std::num::NonZeroUsize;
use std::path::PathBuf;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

use clap::{Args, Subcommand};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::cli::report::{Unusable, refuse};
use crate::cli::{Bar, Format, Outcome, Streams, interrupt};
use crate::document::seconds;
use crate::files::{Eyes, NewFile, There};
use crate::rig::campaign::{First, run_until};
use crate::rig::report::Heading;
use crate::rig::{self, Cases, Plan, Progress, Report, Shard};

#[derive(Subcommand)]
pub(super) enum Command {
    BadCodes(codes::Command),
    PowerLoss(power::Command),
    Soak(soak::Command),
    Store(store::Command),
}

impl Command {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self {
            Self::BadCodes(command) => command.run(streams),
            Self::PowerLoss(command) => command.run(streams),
            Self::Soak(command) => command.run(streams),
            Self::Store(command) => command.run(streams),
        }
    }
}

/// The options that every rig has.
#[derive(Args)]
pub(super) struct Campaigning {
    /// Where the random numbers start; the same seed is the same run.
    #[arg(long, value_name = "S", default_value_t = 1)]
    seed: u64,
    /// Begin no further case after so long: `60s`, `5m`, `1h`.
    #[arg(long, value_name = "TIME", value_parser = parse_budget)]
    budget: Option<Duration>,
    /// Run the first so many cases.
    #[arg(long, value_name = "N")]
    cases: Option<u64>,
    /// Run every Nth case, from case I on: `0/4` to `3/4` are together all.
    #[arg(long, value_name = "I/N", default_value_t = Shard::WHOLE)]
    shard: Shard,
    /// Threads; as many as there are processors where it is left out.
    #[arg(long, value_name = "N")]
    jobs: Option<NonZeroUsize>,
    /// Run this one case, as a failure says it.
    #[arg(long, value_name = "N", conflicts_with_all = ["budget", "cases", "shard", "jobs"])]
    case: Option<u64>,
    /// How the report is written: `json` is an object a line.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Also write the report as JUnit XML to this file.
    #[arg(long, value_name = "FILE")]
    junit: Option<PathBuf>,
}

fn parse_budget(text: &str) -> Result<Duration, String> {
    let seconds = seconds(text).filter(|seconds| *seconds > 0);
    let seconds = seconds.ok_or("write a number and s, m or h, as \"60s\"")?;
    Ok(Duration::from_secs(seconds.into()))
}

/// A rig as its subcommand presents it.
pub(super) struct Rig<'c> {
    /// Its name on the command line.
    pub(super) name: &'static str,
    /// Its own options as given, a blank in front of each.
    pub(super) options: String,
    /// What it runs.
    pub(super) cases: &'c dyn Cases,
}

impl Campaigning {
    pub(super) const fn seed(&self) -> u64 {
        self.seed
    }

    /// Whether nothing says where to stop.
    pub(super) const fn is_endless(&self) -> bool {
        self.cases.is_none() && self.budget.is_none() && self.case.is_none()
    }

    pub(super) const fn format(&self) -> Format {
        self.format
    }

    /// Runs the cases and writes the report, after what `first` writes of it.
    pub(super) fn conduct(
        &self,
        rig: &Rig<'_>,
        streams: &mut Streams<'_>,
        first: impl FnOnce(&Report, &mut Streams<'_>) -> io::Result<()>,
    ) -> io::Result<Outcome> {
        if let Err(why) = self.fits(rig) {
            return refuse(streams, &why);
        }
        // Before the run: an hour's report must not be lost to a wrong path.
        let begin = |path: &PathBuf| NewFile::begin(path, There::Goes, Eyes::Everybody);
        let junit = match self.junit.as_ref().map(begin).transpose() {
            Ok(file) => file,
            Err(why) => return self.refuse_junit(&why, streams),
        };
        let jobs = self.jobs.or_else(|| std::thread::available_parallelism().ok());
        let plan = Plan {
            seed: self.seed,
            budget: self.budget,
            shard: self.shard,
            jobs: jobs.unwrap_or(NonZeroUsize::MIN),
        };
        let heading = Heading { rig: rig.name, options: rig.options.clone(), plan };
        let started = jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%S").to_string();
        let report = self.run(&plan, rig, streams.bar, interrupt::watched(streams.signals));
        // First: whoever reads the other one may have gone away.
        if let Some(mut file) = junit {
            let xml = rig::junit::xml(&heading, &report, &started);
            let written = file.write_all(xml.as_bytes()).and_then(|()| file.keep());
            if let Err(why) = written {
                self.write(&heading, &report, streams, first)?;
                return self.refuse_junit(&why, streams);
            }
        }
        self.write(&heading, &report, streams, first)?;
        Ok(match (report.failed, report.interrupted) {
            (0, false) => Outcome::Fine,
            (0, true) => Outcome::Interrupted,
            (_, _) => Outcome::Found,
        })
    }

    fn write(
        &self,
        heading: &Heading,
        report: &Report,
        streams: &mut Streams<'_>,
        first: impl FnOnce(&Report, &mut Streams<'_>) -> io::Result<()>,
    ) -> io::Result<()> {
        first(report, streams)?;
        match self.format {
            Format::Text => rig::report::text(heading, report, streams.out),
            Format::Json => rig::report::json(heading, report, streams.out),
        }
    }

    fn refuse_junit(&self, why: &io::Error, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let path = self.junit.as_deref().unwrap_or(std::path::Path::new(""));
        refuse(streams, &Unusable::not_written(path, why, "Give --junit another path."))
    }

    /// Whether the options fit the cases.
    fn fits(&self, rig: &Rig<'_>) -> Result<(), Unusable> {
        let count = rig.cases.count();
        if let (Some(case), Some(count)) = (self.case, count)
            && case >= count
        {
            let what = format!("There is no case {case}.");
            return Err(Unusable::new(what, format!("The cases are numbered 0 to {}.", count - 1)));
        }
        let ends = count.or(self.cases).or(self.case).is_some() || self.budget.is_some();
        if !ends {
            let what = format!("The cases of {} have no end.", rig.name);
            return Err(Unusable::new(what, "Add --budget 60s, or --cases with a number."));
        }
        Ok(())
    }

    fn run(&self, plan: &Plan, rig: &Rig<'_>, bar: Bar, stop: &AtomicBool) -> Report {
        if let Some(case) = self.case {
            return rig::run_one(rig.cases, case);
        }
        let target = match bar {
            Bar::Shown => ProgressDrawTarget::stderr(),
            Bar::Hidden => ProgressDrawTarget::hidden(),
        };
        let bar = ProgressBar::with_draw_target(None, target);
        let tell = |progress: Progress| tell(&bar, progress);
        let report = match self.cases {
            Some(most) => run_until(plan, &First { of: rig.cases, most }, &tell, stop),
            None => run_until(plan, rig.cases, &tell, stop),
        };
        bar.finish_and_clear();
        report
    }
}

/// Moves the bar.
fn tell(bar: &ProgressBar, Progress { done, of, failed }: Progress) {
    let shape = match of {
        Some(_) => "{elapsed} {wide_bar} {human_pos} of {human_len} cases, {per_sec}, {msg} failed",
        None => "{elapsed} {human_pos} cases, {per_sec}, {msg} failed",
    };
    if bar.length() != of {
        of.map_or_else(|| bar.unset_length(), |of| bar.set_length(of));
    }
    // The two shapes are constants; a bar without one is still a bar.
    if let Ok(style) = ProgressStyle::with_template(shape) {
        bar.set_style(style);
    }
    bar.set_message(failed.to_string());
    bar.set_position(done);
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use super::*;
    use crate::cli::Look;
    use crate::cli::{Reader, Signals};
    use crate::rig::{Covered, Failure};

    /// Case 3 fails.
    struct Three(Option<u64>);

    impl Cases for Three {
        fn count(&self) -> Option<u64> {
            self.0
        }

        fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
            covered.add("cases", 1);
            let failure = Failure {
                what: "a three".to_owned(),
                repeat: String::new(),
                events: vec!["three".to_owned()],
            };
            if case == 3 { Err(failure) } else { Ok(()) }
        }
    }

    #[derive(Parser)]
    struct Line {
        #[command(flatten)]
        campaigning: Campaigning,
    }

    fn conduct(count: Option<u64>, options: &str) -> (Outcome, String, String) {
        let line = format!("sample {options}");
        let line = Line::try_parse_from(line.split_whitespace()).unwrap_or_else(|e| panic!("{e}"));
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let (look, bar) = (Look::Plain, Bar::Hidden);
        let (reader, signals) = (Reader::Program, Signals::Theirs);
        let mut streams =
            Streams { out: &mut out, err: &mut err, out_look: look, look, bar, reader, signals };
        let rig = Rig { name: "sample", options: " --site s".to_owned(), cases: &Three(count) };
        let outcome = line.campaigning.conduct(&rig, &mut streams, |_, _| Ok(())).unwrap();
        (outcome, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
    }

    /// Without what differs from run to run: the time in brackets.
    fn timeless(text: &str) -> &str {
        text.rsplit_once(" (").unwrap().0
    }

    #[test]
    fn a_failure_is_found_and_its_command_repeats_it() {
        let (outcome, out, err) = conduct(Some(10), "--seed 5 --jobs 3");
        assert_eq!((outcome, err.as_str()), (Outcome::Found, ""));
        let repeat = "emulator rig sample --site s --seed 5 --case 3";
        assert!(out.contains(&format!("      repeat: {repeat}\n")), "{out}");
        let (again, one, _) = conduct(Some(10), "--seed 5 --case 3");
        assert_eq!(again, Outcome::Found);
        assert!(one.starts_with(out.split_once("Covered").unwrap().0), "{one}");
        assert_eq!(timeless(&conduct(Some(10), "--seed 5 --jobs 1").1), timeless(&out));
    }

    #[test]
    fn a_shard_without_the_failure_is_fine() {
        assert_eq!(conduct(Some(10), "--shard 1/2").0, Outcome::Found);
        let (outcome, out, _) = conduct(Some(10), "--shard 0/2");
        assert_eq!(outcome, Outcome::Fine);
        let end = "sample: 5 cases of seed 1, shard 0/2: 5 passed, 0 failed";
        assert!(timeless(&out).ends_with(end), "{out}");
        assert_eq!(conduct(None, "--cases 3").0, Outcome::Fine);
        assert_eq!(conduct(None, "--cases 4").0, Outcome::Found);
    }

    #[test]
    fn what_does_not_fit_is_unusable() {
        for (count, options, words) in [
            (Some(10), "--case 10", "numbered 0 to 9"),
            (None, "", "--budget 60s"),
            (Some(10), "--junit /nowhere/at/all.xml", "cannot be written"),
        ] {
            let (outcome, out, err) = conduct(count, options);
            assert_eq!((outcome, out.as_str()), (Outcome::Unusable, ""), "{options}");
            assert!(err.contains(words), "{err}");
        }
        for options in
            ["--budget 60", "--budget 0s", "--shard 2/2", "--jobs 0", "--case 1 --budget 1s"]
        {
            let line = format!("sample {options}");
            assert!(Line::try_parse_from(line.split_whitespace()).is_err(), "{options}");
        }
    }
}
