//! What a store must show after a cut, from plain lists of what it was asked.
//!
//! Only what makes sense for both subjects is demanded; the limits of each
//! promise come from the subject ([`Promise`]). It shares no code with either.

use std::panic::{AssertUnwindSafe, catch_unwind};

use emulator::rig::store::chip::Cells;

use crate::life::{self, Ask};
use crate::subject::{Fault, KEYS, Listed, Promise, Shape, Subject};

/// What did not hold.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Rule {
    /// At a boot a list or a setting could not be read, three times over; or
    /// the subject panicked, or went on without end.
    Boots,
    /// A record that was reported durable is not listed, though it is one of
    /// the newest that were promised, or older ones are listed.
    Lost,
    /// Something is listed that was not written, or twice, or out of order.
    Invented,
    /// A setting is neither the last one reported durable nor the one under
    /// way when the power failed.
    Settings,
    /// What one boot showed, a later one showed otherwise, though nothing was
    /// written in between; or what was under way came or went when more was.
    Changes,
    /// A write after the boots failed three times over.
    Writes,
}

impl Rule {
    pub(crate) const ALL: [Self; 6] =
        [Self::Boots, Self::Lost, Self::Invented, Self::Settings, Self::Changes, Self::Writes];

    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Boots => "boots",
            Self::Lost => "lost",
            Self::Invented => "invented",
            Self::Settings => "settings",
            Self::Changes => "changes",
            Self::Writes => "writes",
        }
    }
}

/// The rules that one run broke.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct Broken([bool; Rule::ALL.len()]);

impl Broken {
    pub(crate) fn add(&mut self, rule: Rule) {
        for (broken, other) in self.0.iter_mut().zip(Rule::ALL) {
            *broken |= other == rule;
        }
    }

    pub(crate) fn has(self, rule: Rule) -> bool {
        self.0.iter().zip(Rule::ALL).any(|(broken, other)| *broken && other == rule)
    }

    pub(crate) fn any(self) -> bool {
        self.0.contains(&true)
    }

    fn merge(&mut self, other: Self) {
        for (broken, other) in self.0.iter_mut().zip(other.0) {
            *broken |= other;
        }
    }
}

/// What a boot shows.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Seen {
    pub(crate) listed: Listed,
    pub(crate) settings: [Option<u32>; KEYS],
}

impl Seen {
    /// Looks at everything.
    pub(crate) fn of<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>>(
        subject: &mut S,
    ) -> Result<Self, Fault> {
        let (listed, _) = life::insist(|| subject.list())?;
        let mut settings = [None; KEYS];
        for (setting, key) in settings.iter_mut().zip(life::keys()) {
            (*setting, _) = life::insist(|| subject.setting(key))?;
        }
        Ok(Self { listed, settings })
    }

    /// Whether the event happened, as far as this tells.
    fn shows(&self, ask: Ask) -> bool {
        match ask {
            Ask::Record(n) => self.listed.records.contains(&Some(n)),
            Ask::Set(key, n) => self.settings.get(usize::from(key)) == Some(&Some(n)),
            Ask::Boot => false,
        }
    }

    /// Whether `later` is the same. A boot may let the oldest records go; how
    /// many must stay is another rule.
    fn is_kept_by(&self, later: &Self) -> bool {
        self.settings == later.settings && self.listed.records.ends_with(&later.listed.records)
    }
}

/// What uses up the place of a record.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Place {
    Record(u32),
    Spent,
}

/// All that was asked so far.
#[derive(Clone, Debug)]
pub(crate) struct Expected {
    places: Vec<Place>,
    settings: [Option<u32>; KEYS],
    promise: Promise,
    /// What was under way when the power failed: it may have happened.
    doubted: Option<Ask>,
    /// Records whose write failed at first: they may be there twice.
    retried: Vec<u32>,
}

impl Expected {
    pub(crate) fn nothing(promise: Promise) -> Self {
        let (places, retried) = (Vec::new(), Vec::new());
        Self { places, settings: [None; KEYS], promise, doubted: None, retried }
    }

    /// That was asked, and reported durable.
    pub(crate) fn ask(&mut self, ask: Ask) {
        match ask {
            Ask::Record(n) => self.places.push(Place::Record(n)),
            Ask::Set(key, n) => {
                if let Some(setting) = self.settings.get_mut(usize::from(key)) {
                    *setting = Some(n);
                }
                self.doubted = self.doubted.filter(|ask| !ask.sets(key));
            }
            Ask::Boot => self.boot(),
        }
    }

    /// That was asked, and reported durable only when asked again.
    pub(crate) fn ask_again(&mut self, ask: Ask) {
        if let Ask::Record(n) = ask {
            self.retried.push(n);
        }
        self.ask(ask);
    }

    pub(crate) fn boot(&mut self) {
        if self.promise.boot_costs {
            self.places.push(Place::Spent);
        }
    }

    /// The power was cut, and that was under way.
    fn cut(&mut self, under_way: Option<Ask>) {
        self.places.push(Place::Spent);
        self.doubted = under_way;
    }

    /// Whether setting `key` may be `is`.
    fn allows(&self, key: u8, is: Option<u32>) -> bool {
        let under_way = is.is_some_and(|n| self.doubted == Some(Ask::Set(key, n)));
        under_way || self.settings.get(usize::from(key)) == Some(&is)
    }

    /// The records that must be listed, whatever was overwritten.
    pub(crate) fn promised(&self) -> Vec<u32> {
        let newest = self.places.iter().rev().take(self.promise.newest);
        let mut records: Vec<u32> = newest.filter_map(Place::record).collect();
        records.reverse();
        records
    }

    /// What of `seen` is not as it must be.
    pub(crate) fn judge(&self, seen: &Seen) -> Broken {
        let mut broken = Broken::default();
        let mut listed: Vec<u32> = seen.listed.records.iter().flatten().copied().collect();
        if listed.len() < seen.listed.records.len() {
            broken.add(Rule::Invented);
        }
        listed.dedup_by(|one, other| one == other && self.retried.contains(one));
        let asked: Vec<u32> = self.places.iter().filter_map(Place::record).collect();
        let in_order = listed.is_sorted_by(|one, next| one < next);
        let known = |n: &u32| asked.contains(n) || self.doubted == Some(Ask::Record(*n));
        if !in_order || !listed.iter().all(known) {
            broken.add(Rule::Invented);
        }
        let oldest = listed.iter().min();
        let promised = self.promised();
        let due = |n: &&u32| promised.contains(n) || oldest.is_some_and(|oldest| oldest < *n);
        if asked.iter().filter(due).any(|n| !listed.contains(n)) {
            broken.add(Rule::Lost);
        }
        if !life::keys().zip(seen.settings).all(|(key, is)| self.allows(key, is)) {
            broken.add(Rule::Settings);
        }
        broken
    }
}

impl Place {
    const fn record(&self) -> Option<u32> {
        match self {
            Self::Record(n) => Some(*n),
            Self::Spent => None,
        }
    }
}

/// A store after a cut: three boots, some writes, and a last boot.
pub(crate) fn boots<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>>(
    case: &Case<'_, WORD, PAGE>,
) -> Broken {
    let mut broken = Broken::default();
    let follow = AssertUnwindSafe(|| case.follow::<S>(&mut broken));
    if !matches!(catch_unwind(follow), Ok(Ok(()))) {
        broken.add(Rule::Boots);
    }
    broken
}

/// A chip after a cut, and what may be in it.
pub(crate) struct Case<'c, const WORD: usize, const PAGE: usize> {
    pub(crate) chip: &'c Cells<WORD, PAGE>,
    pub(crate) shape: &'c Shape,
    /// What was reported durable before the cut.
    pub(crate) before: &'c Expected,
    /// What was under way.
    pub(crate) under_way: Option<Ask>,
    /// What is asked after the boots.
    pub(crate) goes_on: &'c [Ask],
}

impl<const WORD: usize, const PAGE: usize> Case<'_, WORD, PAGE> {
    fn follow<S: Subject<WORD, PAGE>>(&self, broken: &mut Broken) -> Result<(), Fault> {
        let mut expected = self.before.clone();
        expected.cut(self.under_way);
        expected.boot();
        let mut subject = S::boot(self.chip.clone(), self.shape);
        let mut seen = Seen::of(&mut subject)?;
        broken.merge(expected.judge(&seen));
        for _ in 0..2 {
            subject = life::reboot(subject, self.shape);
            expected.boot();
            let later = Seen::of(&mut subject)?;
            if !seen.is_kept_by(&later) {
                broken.add(Rule::Changes);
            }
            broken.merge(expected.judge(&later));
            seen = later;
        }
        for ask in self.goes_on {
            let asked = life::insist(|| life::ask(&mut subject, *ask));
            match asked {
                Ok(((), false)) => expected.ask(*ask),
                Ok(((), true)) => expected.ask_again(*ask),
                Err(_) => {
                    broken.add(Rule::Writes);
                    return Ok(());
                }
            }
            if life::insist(|| subject.rest()).is_err() {
                broken.add(Rule::Writes);
                return Ok(());
            }
        }
        subject = life::reboot(subject, self.shape);
        expected.boot();
        let last = Seen::of(&mut subject)?;
        if expected.doubted.is_some_and(|ask| seen.shows(ask) != last.shows(ask)) {
            broken.add(Rule::Changes);
        }
        broken.merge(expected.judge(&last));
        Ok(())
    }
}

impl Ask {
    fn sets(self, key: u8) -> bool {
        matches!(self, Self::Set(other, _) if other == key)
    }
}
