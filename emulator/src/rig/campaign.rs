//! A campaign: numbered cases, run by several threads within a budget.
//!
//! What comes out does not depend on which thread ran what: counters are sums,
//! and of the failures those with the lowest numbers are kept. Only a budget
//! makes it depend on the machine: how far it gets.

use std::collections::BTreeMap;
use std::num::NonZeroUsize;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{self, RecvTimeoutError};
use std::time::{Duration, Instant};

use super::Shard;

/// Failures that a report holds; the others are counted.
pub const KEPT: usize = 20;

/// How often progress is told.
const TELL: Duration = Duration::from_millis(100);

/// What is to be run.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// Where the cases' random numbers start.
    pub seed: u64,
    /// After so long no further case is begun.
    pub budget: Option<Duration>,
    /// Which of the cases.
    pub shard: Shard,
    /// In how many threads.
    pub jobs: NonZeroUsize,
}

/// A numbered set of cases; case *i* of a seed is always the same case, on any
/// machine.
pub trait Cases: Sync {
    /// How many there are; `None`: without end, so that a budget is needed.
    fn count(&self) -> Option<u64>;

    /// Runs one. What it covered is added to `covered`.
    ///
    /// # Errors
    /// What must always hold, and did not.
    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure>;
}

/// The first `most` of other cases.
pub struct First<'c> {
    /// The others.
    pub of: &'c dyn Cases,
    /// How many at most.
    pub most: u64,
}

impl Cases for First<'_> {
    fn count(&self) -> Option<u64> {
        Some(self.of.count().unwrap_or(u64::MAX).min(self.most))
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        self.of.run(case, covered)
    }
}

/// Named counters of what the cases went through.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Covered(BTreeMap<&'static str, u64>);

impl Covered {
    /// Adds `times` to the counter `what`. Zero makes it show as zero.
    pub fn add(&mut self, what: &'static str, times: u64) {
        let counter = self.0.entry(what).or_default();
        *counter = counter.saturating_add(times);
    }

    /// Adds all of another's counters.
    pub fn merge(&mut self, other: &Self) {
        for (what, times) in &other.0 {
            self.add(what, *times);
        }
    }

    /// The counter `what`; 0 if it was never added to.
    #[must_use]
    pub fn get(&self, what: &str) -> u64 {
        self.0.get(what).copied().unwrap_or(0)
    }

    /// The counters by name.
    pub fn iter(&self) -> impl Iterator<Item = (&'static str, u64)> + '_ {
        self.0.iter().map(|(what, times)| (*what, *times))
    }
}

/// What did not hold in one case.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Failure {
    /// One sentence: what must hold, and what was seen.
    pub what: String,
    /// One command that repeats it; empty: the rig's own, with `--case`.
    pub repeat: String,
    /// What happened, as few events as are needed.
    pub events: Vec<String>,
}

/// How far a campaign has come.
#[derive(Clone, Copy, Debug)]
pub struct Progress {
    /// Cases that are through.
    pub done: u64,
    /// Cases in all, if there is an end.
    pub of: Option<u64>,
    /// Cases that failed.
    pub failed: u64,
}

/// What came of a campaign.
#[derive(Clone, Debug, Default)]
pub struct Report {
    /// Cases that were run.
    pub cases: u64,
    /// What they covered.
    pub covered: Covered,
    /// The first [`KEPT`] failures by number of the case.
    pub failures: Vec<(u64, Failure)>,
    /// How many cases failed.
    pub failed: u64,
    /// How long it took.
    pub elapsed: Duration,
    /// Whether all cases of the shard were run.
    pub complete: bool,
    /// Whether it was asked to end before that.
    pub interrupted: bool,
}

/// Runs the shard's cases. Each thread runs at least one, whatever the budget:
/// a run that tried nothing would look like one that found nothing.
///
/// Cases without end and a plan without a budget run until the last number.
pub fn run(plan: &Plan, cases: &dyn Cases, progress: &dyn Fn(Progress)) -> Report {
    run_until(plan, cases, progress, &AtomicBool::new(false))
}

/// The same; no case is begun any more when `stop` has become true.
pub fn run_until(
    plan: &Plan,
    cases: &dyn Cases,
    progress: &dyn Fn(Progress),
    stop: &AtomicBool,
) -> Report {
    let started = Instant::now();
    let total = cases.count().map(|count| plan.shard.part_of(count));
    let crew = Crew {
        cases,
        shard: plan.shard,
        total: total.unwrap_or(u64::MAX),
        until: plan.budget.and_then(|budget| started.checked_add(budget)),
        next: AtomicU64::new(0),
        done: AtomicU64::new(0),
        failed: AtomicU64::new(0),
        stop,
    };
    let mut report = Report::default();
    std::thread::scope(|scope| {
        let (sender, results) = mpsc::channel();
        for _ in 0..plan.jobs.get() {
            let (sender, crew) = (sender.clone(), &crew);
            // A receiver that is gone means a panic out there; nothing to add.
            scope.spawn(move || drop(sender.send(crew.work())));
        }
        drop(sender);
        loop {
            match results.recv_timeout(TELL) {
                Ok(part) => report.add(part),
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => break,
            }
            progress(Progress { of: total, ..crew.progress() });
        }
    });
    report.elapsed = started.elapsed();
    report.complete = total == Some(report.cases);
    report.interrupted = !report.complete && stop.load(Ordering::Relaxed);
    report
}

/// Runs a single case.
#[must_use]
pub fn run_one(cases: &dyn Cases, case: u64) -> Report {
    let started = Instant::now();
    let mut report = Report { complete: true, ..Report::default() };
    report.run(cases, case);
    report.elapsed = started.elapsed();
    report
}

/// What the threads share.
struct Crew<'c> {
    cases: &'c dyn Cases,
    shard: Shard,
    total: u64,
    until: Option<Instant>,
    /// The next place in the shard that nobody has taken.
    next: AtomicU64,
    done: AtomicU64,
    failed: AtomicU64,
    /// Whether it is asked to end.
    stop: &'c AtomicBool,
}

impl Crew<'_> {
    fn work(&self) -> Report {
        let mut report = Report::default();
        loop {
            let place = self.next.fetch_add(1, Ordering::Relaxed);
            let Some(case) = self.shard.case(place).filter(|_| place < self.total) else { break };
            let failed = report.run(self.cases, case);
            self.done.fetch_add(1, Ordering::Relaxed);
            self.failed.fetch_add(u64::from(failed), Ordering::Relaxed);
            let over = self.until.is_some_and(|until| Instant::now() >= until);
            if over || self.stop.load(Ordering::Relaxed) {
                break;
            }
        }
        report
    }

    fn progress(&self) -> Progress {
        let (done, failed) =
            (self.done.load(Ordering::Relaxed), self.failed.load(Ordering::Relaxed));
        Progress { done, of: None, failed }
    }
}

impl Report {
    /// Runs a case and notes what came of it; whether it failed. A case that
    /// panics has failed, and the others run on.
    fn run(&mut self, cases: &dyn Cases, case: u64) -> bool {
        self.cases = self.cases.saturating_add(1);
        let covered = &mut self.covered;
        let ran = catch_unwind(AssertUnwindSafe(|| cases.run(case, covered)));
        let failure = match ran {
            Ok(Ok(())) => return false,
            Ok(Err(failure)) => failure,
            Err(panic) => {
                let words = panic.downcast_ref::<String>().map(String::as_str);
                let words = words.or_else(|| panic.downcast_ref::<&str>().copied());
                let what = format!("It panicked: {}", words.unwrap_or("without words"));
                Failure { what, repeat: String::new(), events: Vec::new() }
            }
        };
        self.failed = self.failed.saturating_add(1);
        self.keep((case, failure));
        true
    }

    fn keep(&mut self, failure: (u64, Failure)) {
        let at = self.failures.partition_point(|(case, _)| *case < failure.0);
        self.failures.insert(at, failure);
        self.failures.truncate(KEPT);
    }

    fn add(&mut self, part: Self) {
        self.cases = self.cases.saturating_add(part.cases);
        self.failed = self.failed.saturating_add(part.failed);
        self.covered.merge(&part.covered);
        for failure in part.failures {
            self.keep(failure);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every seventh case fails, every 35th by a panic.
    struct Sevens(Option<u64>);

    impl Cases for Sevens {
        fn count(&self) -> Option<u64> {
            self.0
        }

        fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
            covered.add("cases", 1);
            covered.add("sum", case);
            assert!(!case.is_multiple_of(35), "{case} was too much");
            if case.is_multiple_of(7) {
                let (what, repeat) = (format!("{case} is a seven"), String::new());
                return Err(Failure { what, repeat, events: vec!["one".into()] });
            }
            Ok(())
        }
    }

    fn plan(shard: Shard, jobs: usize) -> Plan {
        let jobs = NonZeroUsize::new(jobs).unwrap();
        Plan { seed: 1, budget: None, shard, jobs }
    }

    fn of(report: &Report) -> (u64, u64, Covered, Vec<(u64, Failure)>, bool) {
        let Report { cases, failed, covered, failures, complete, .. } = report.clone();
        (cases, failed, covered, failures, complete)
    }

    #[test]
    fn threads_and_shards_change_nothing() {
        let cases = Sevens(Some(500));
        let whole = run(&plan(Shard::WHOLE, 1), &cases, &|_| {});
        let sum: u64 = (0..500).sum();
        assert_eq!((whole.cases, whole.failed, whole.covered.get("sum")), (500, 72, sum));
        let kept: Vec<u64> = whole.failures.iter().map(|(case, _)| *case).collect();
        assert_eq!(kept, (0..140).step_by(7).collect::<Vec<_>>());
        assert_eq!(whole.failures[1].1.what, "7 is a seven");
        assert_eq!(whole.failures[5].1.what, "It panicked: 35 was too much");
        assert_eq!(of(&run(&plan(Shard::WHOLE, 4), &cases, &|_| {})), of(&whole));

        let mut together = Report { complete: true, ..Report::default() };
        for index in 0..3 {
            let part = run(&plan(Shard::new(index, 3).unwrap(), 2), &cases, &|_| {});
            assert!(part.complete);
            assert!(part.failures.iter().all(|(case, _)| case % 3 == index));
            together.add(part);
        }
        assert_eq!(of(&together), of(&whole));
    }

    #[test]
    fn a_single_case_is_the_same_as_among_the_others() {
        let cases = Sevens(Some(500));
        let whole = run(&plan(Shard::WHOLE, 2), &cases, &|_| {});
        for (case, failure) in &whole.failures {
            let one = run_one(&cases, *case);
            assert_eq!((one.cases, one.failures), (1, vec![(*case, failure.clone())]));
        }
        assert_eq!(run_one(&cases, 1).failed, 0);
    }

    #[test]
    fn a_budget_stops_what_has_no_end_and_something_was_run() {
        for budget in [Duration::ZERO, Duration::from_millis(30)] {
            let plan = Plan { budget: Some(budget), ..plan(Shard::WHOLE, 2) };
            let report = run(&plan, &Sevens(None), &|_| {});
            assert!(report.cases >= 2 && !report.complete);
            assert!(report.elapsed >= budget);
        }
        let plan = Plan { budget: Some(Duration::from_secs(600)), ..plan(Shard::WHOLE, 2) };
        assert!(run(&plan, &First { of: &Sevens(None), most: 50 }, &|_| {}).complete);
    }

    #[test]
    fn asked_to_end_it_ends_and_says_so() {
        let stop = AtomicBool::new(false);
        let asks = |progress: Progress| stop.store(progress.done > 9, Ordering::Relaxed);
        let report = run_until(&plan(Shard::WHOLE, 2), &Sevens(None), &asks, &stop);
        assert!(report.cases > 9 && report.interrupted && !report.complete);
        // Too late to matter.
        let stop = AtomicBool::new(true);
        let report = run_until(&plan(Shard::WHOLE, 1), &Sevens(Some(1)), &|_| {}, &stop);
        assert!(report.cases == 1 && report.complete && !report.interrupted);
    }

    #[test]
    fn progress_ends_where_the_report_does() {
        let last = std::cell::Cell::new(None);
        let report =
            run(&plan(Shard::WHOLE, 2), &Sevens(Some(99)), &|progress| last.set(Some(progress)));
        let last = last.get().unwrap();
        assert_eq!((last.done, last.of, last.failed), (99, Some(99), report.failed));
    }
}
