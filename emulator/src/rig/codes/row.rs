//! What a strategy achieved, beside what arithmetic allows.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};

use lock_core::holder::Number;
use lock_core::policy::DuressCodes;
use lock_core::role::Role;
use serde_json::json;

use super::closed_form::{best_blocks, chance, judged, judged_with_pauses, ratio, tries_until_hit};
use super::guesser::Strategy;
use super::oracle::Fate;
use super::setup::Setup;
use super::siege::Came;
use crate::rig::report::thousands;

/// One strategy's row of the table.
#[derive(Clone, PartialEq, Debug)]
pub struct Row {
    /// Which.
    pub strategy: Strategy,
    /// How it stood at the end of some days.
    pub at: Vec<Standing>,
}

/// How a strategy stood at the end of a day, its last instant included.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Standing {
    /// The day.
    pub day: u64,
    /// Tries that were judged.
    pub judged: u64,
    /// Those at which a right code would not have been barred.
    pub open: u64,
    /// The chance that one of the latter was right.
    pub chance: f64,
    /// The most tries that arithmetic lets through.
    pub most_judged: u64,
    /// The greatest chance that it leaves.
    pub most_chance: f64,
}

/// Counts a strategy's tries as they are judged.
pub struct Score<'s> {
    setup: &'s Setup,
    strategy: Strategy,
    blocks: u32,
    judged: u64,
    open: u64,
    /// How often the holder of the attacked number opened meanwhile.
    openings: u64,
    /// Codes that were tried, by number: below the limit, and all.
    tried_open: BTreeMap<Number, BTreeSet<u32>>,
    tried: BTreeMap<Number, BTreeSet<u32>>,
}

impl<'s> Score<'s> {
    /// Before the first try.
    #[must_use]
    pub fn new(setup: &'s Setup, strategy: Strategy, blocks: u32) -> Self {
        let (tried_open, tried) = (BTreeMap::new(), BTreeMap::new());
        Self { setup, strategy, blocks, judged: 0, open: 0, openings: 0, tried_open, tried }
    }

    /// The holder of the attacked number opened.
    pub const fn opening(&mut self) {
        self.openings += 1;
    }

    /// A try on `number` came to that.
    pub fn tried(&mut self, number: Number, code: u32, came: Came) {
        let Came::Entry { fate: Fate::Judged { .. }, open_to } = came else { return };
        self.judged += 1;
        let opened: Vec<u32> =
            self.setup.space_of(number).opened_by(code, self.setup.policy().duress).collect();
        self.tried.entry(number).or_default().extend(opened.iter().copied());
        if open_to {
            self.open += 1;
            self.tried_open.entry(number).or_default().extend(opened);
        }
    }

    /// How it stands at the end of `day`.
    #[must_use]
    pub fn standing(&self, day: u64) -> Standing {
        // Each holder's code is equally likely one of the usable ones, and none
        // tells of another's: the chances that none is hit multiply.
        // The codes of a courier's counters are independent as well.
        let hit = |tried: &BTreeMap<Number, BTreeSet<u32>>| {
            let one = |(number, tried): (&Number, &BTreeSet<u32>)| {
                let tried = u64::try_from(tried.len()).unwrap_or(u64::MAX);
                hit_one(tried, self.setup.codes(*number), self.setup.counters(*number))
            };
            tried.iter().map(one).fold(0.0, |some, one| some + (1.0 - some) * one)
        };
        let most_judged = self.most_judged(day * 86_400);
        let each = match self.setup.policy().duress {
            DuressCodes::On => 2,
            DuressCodes::Off => 1,
        };
        let most_open = self.most_open(day).map_or(most_judged, |most| most.min(most_judged));
        Standing {
            day,
            judged: self.judged,
            open: self.open,
            chance: hit(&self.tried_open),
            most_judged,
            most_chance: self.most_chance(most_open, each),
        }
    }

    /// The greatest chance that so many tries leave, on whichever attacked number is
    /// weakest.
    fn most_chance(&self, tries: u64, each: u64) -> f64 {
        let setup = self.setup;
        let numbers = match self.strategy {
            Strategy::EveryNumber => setup.openers(),
            Strategy::Random
            | Strategy::Sequential
            | Strategy::Popular
            | Strategy::Knowing
            | Strategy::OwnCode
            | Strategy::Battery
            | Strategy::Clock
            | Strategy::TypingOn
            | Strategy::Patient
            | Strategy::BesideHolder => vec![setup.target()],
        };
        let of = |number| chance(tries, each * setup.counters(number), setup.codes(number));
        numbers.into_iter().map(of).fold(0.0, f64::max)
    }

    /// The most tries that can be judged in so many seconds. Whenever the holder
    /// opens, the tries on their number that did not start a penalty yet are
    /// forgiven.
    fn most_judged(&self, seconds: u64) -> u64 {
        let (policy, pace) = (self.setup.policy(), self.setup.pace());
        let forgiven = self.openings * u64::from(policy.wrong_codes.saturating_sub(1));
        match self.strategy {
            Strategy::Patient => judged_with_pauses(policy, pace, seconds, self.blocks),
            Strategy::Random
            | Strategy::Sequential
            | Strategy::Popular
            | Strategy::Knowing
            | Strategy::OwnCode
            | Strategy::Battery
            | Strategy::Clock
            | Strategy::TypingOn
            | Strategy::EveryNumber => judged(policy, pace, seconds),
            // The hours between two openings may hold a pause as well.
            Strategy::BesideHolder => {
                let paused = judged_with_pauses(policy, pace, seconds, best_blocks(policy, pace));
                judged(policy, pace, seconds).max(paused) + forgiven
            }
        }
    }

    /// The most tries of which a right one would have been taken: a hundred on a
    /// number, and four a day on a warden's; no limit where somebody clears it.
    fn most_open(&self, day: u64) -> Option<u64> {
        let of = |number: Number| match self.setup.role(number) {
            Some(Role::Warden) => 100 + 4 * day,
            Some(Role::Deputy | Role::Keyholder | Role::Courier | Role::Steward) | None => 100,
        };
        match self.strategy {
            Strategy::BesideHolder => None,
            Strategy::EveryNumber => Some(self.setup.openers().into_iter().map(of).sum()),
            Strategy::Random
            | Strategy::Sequential
            | Strategy::Popular
            | Strategy::Knowing
            | Strategy::OwnCode
            | Strategy::Battery
            | Strategy::Clock
            | Strategy::TypingOn
            | Strategy::Patient => Some(of(self.setup.target())),
        }
    }

    /// Whether more came through within so many seconds than arithmetic allows.
    ///
    /// # Errors
    /// A sentence that says how many.
    pub fn check(&self, seconds: u64) -> Result<(), String> {
        let (judged, most) = (self.judged, self.most_judged(seconds));
        if judged > most {
            return Err(format!("{judged} tries were judged in {seconds} s; {most} are possible."));
        }
        if let Some(most) = self.most_open(seconds / 86_400).filter(|most| self.open > *most) {
            return Err(format!("{} tries could have opened; {most} are allowed.", self.open));
        }
        Ok(())
    }
}

/// The chance that one of `counters` codes, each equally likely one of `codes`, is among
/// `tried` different ones.
fn hit_one(tried: u64, codes: u64, counters: u64) -> f64 {
    let one = ratio(tried.min(codes), codes);
    (0..counters).fold(0.0, |some, _| some + (1.0 - some) * one)
}

/// Writes the table for people.
///
/// # Errors
/// Whatever writing fails with.
pub fn text(setup: &Setup, rows: &[Row], out: &mut dyn Write) -> io::Result<()> {
    let policy = setup.policy();
    let (site, lock) = setup.named();
    let space = setup.space_of(setup.target());
    let (usable, all) = (space.count(), u64::from(space.size()));
    let minutes = |seconds: u32| f64::from(seconds) / 60.0;
    writeln!(
        out,
        "{site}, lock {lock}: {} digits; {} wrong codes, then {} min, doubling to {} min; duress {}.",
        space.digits(),
        policy.wrong_codes,
        minutes(policy.penalty.get()),
        minutes(policy.penalty_cap.get()),
        if policy.duress == DuressCodes::On { "on" } else { "off" },
    )?;
    writeln!(
        out,
        "Usable codes: {} of {}, each equally likely. A try takes {} s to type.",
        thousands(usable),
        thousands(all),
        setup.pace()
    )?;
    writeln!(
        out,
        "Guessed at: number {:02}{}. All codes in random order: {:.0} tries until the first hit.\n",
        setup.target().get(),
        match setup.counters(setup.target()) {
            1 => String::new(),
            counters => format!(", a courier's: {counters} counters at once"),
        },
        tries_until_hit(all, valid(setup))
    )?;
    writeln!(
        out,
        "{:14} {:>4}  {:>19}  {:>10}  {:>21}",
        "", "", "tries judged", "could", "chance"
    )?;
    writeln!(
        out,
        "{:14} {:>4}  {:>9} {:>9}  {:>9}  {:>10} {:>10}",
        "strategy", "day", "seen", "possible", "open", "seen", "possible"
    )?;
    for row in rows {
        for (place, at) in row.at.iter().enumerate() {
            writeln!(
                out,
                "{:14} {:>4}  {:>9} {:>9}  {:>9}  {:>9.4}% {:>9.4}%",
                if place == 0 { row.strategy.name() } else { "" },
                at.day,
                thousands(at.judged),
                thousands(at.most_judged),
                thousands(at.open),
                at.chance * 100.0,
                at.most_chance * 100.0,
            )?;
        }
    }
    writeln!(out)?;
    for row in rows {
        writeln!(out, "{:14} {}", row.strategy.name(), row.strategy.says())?;
    }
    writeln!(out)
}

/// Writes the table for programs: an object for the lock, then one a strategy.
///
/// # Errors
/// Whatever writing fails with.
pub fn json(setup: &Setup, rows: &[Row], out: &mut dyn Write) -> io::Result<()> {
    let policy = setup.policy();
    let (site, lock) = setup.named();
    let space = setup.space_of(setup.target());
    let (usable, all) = (space.count(), u64::from(space.size()));
    let line = json!({
        "kind": "lock", "site": site, "lock": lock, "number": setup.target().get(),
        "digits": space.digits(), "wrong_codes": policy.wrong_codes,
        "penalty_s": policy.penalty.get(), "penalty_cap_s": policy.penalty_cap.get(),
        "duress": policy.duress == DuressCodes::On, "pace_s": setup.pace(),
        "codes": all, "usable": usable, "counters": setup.counters(setup.target()),
        "tries_until_hit": tries_until_hit(all, valid(setup)),
    });
    writeln!(out, "{line}")?;
    for row in rows {
        let at: Vec<_> = row
            .at
            .iter()
            .map(|at| {
                json!({
                    "day": at.day, "judged": at.judged, "judged_most": at.most_judged,
                    "could_open": at.open, "chance": at.chance, "chance_most": at.most_chance,
                })
            })
            .collect();
        let line = json!({
            "kind": "strategy", "strategy": row.strategy.name(), "at": at,
        });
        writeln!(out, "{line}")?;
    }
    Ok(())
}

/// How many codes open for one holder.
fn valid(setup: &Setup) -> u64 {
    let each = match setup.policy().duress {
        DuressCodes::On => 2,
        DuressCodes::Off => 1,
    };
    each * setup.counters(setup.target())
}
