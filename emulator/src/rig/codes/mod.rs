//! Bad codes: guessers at the keypad, through the real machine.
//!
//! | module | concept |
//! | --- | --- |
//! | [`space`] | the codes that somebody may have, counted one by one |
//! | [`order`] | in which order they are tried |
//! | [`guesser`] | strategies, and mixtures of anything that can happen |
//! | [`couriers`] | a courier's codes, as the laptop knows them |
//! | [`setup`] | the attacked lock and its holders |
//! | [`siege`] | the acts carried out on it |
//! | [`oracle`] | what must become of each entry |
//! | [`closed_form`] | what arithmetic says |
//! | [`row`] | what came of a strategy, beside it |
//!
//! The first cases are the strategies, over so many days; the others are
//! mixtures. In each, every entry is held against the oracle; in a strategy also
//! the number of tries against the closed form.

pub mod closed_form;
pub mod couriers;
pub mod guesser;
pub mod oracle;
pub mod order;
pub mod row;
pub mod setup;
pub mod siege;
pub mod space;

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use self::guesser::{Act, Guesser, Strategy, mixture};
use self::row::{Row, Score};
use self::setup::Setup;
use self::siege::{Came, Siege};
use super::{Cases, Covered, Dice, Failure, shrink};

/// Days at whose end a strategy's row says how it stands.
const MILESTONES: [u64; 3] = [1, 30, 365];

/// Acts of one mixture.
const MIXED: usize = 400;

/// Acts that shrinking a failure may repeat.
const PATIENCE: usize = 2_000_000;

/// The rig.
pub struct BadCodes {
    setup: Setup,
    seed: u64,
    days: u64,
    mixtures: u64,
    rows: Mutex<BTreeMap<u64, Row>>,
}

impl BadCodes {
    /// Every strategy for so many days, and so many mixtures.
    #[must_use]
    pub const fn new(setup: Setup, seed: u64, days: u64, mixtures: u64) -> Self {
        Self { setup, seed, days, mixtures, rows: Mutex::new(BTreeMap::new()) }
    }

    /// The attacked lock.
    #[must_use]
    pub const fn setup(&self) -> &Setup {
        &self.setup
    }

    /// The rows of the strategies that were run, in their order.
    #[must_use]
    pub fn rows(&self) -> Vec<Row> {
        self.rows.lock().unwrap_or_else(PoisonError::into_inner).values().cloned().collect()
    }

    fn strategies() -> u64 {
        u64::try_from(Strategy::ALL.len()).unwrap_or(u64::MAX)
    }

    fn strategy(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        let Some(strategy) = usize::try_from(case).ok().and_then(|case| Strategy::ALL.get(case))
        else {
            return Ok(());
        };
        let dice = Dice::of(self.seed, case);
        let mut acts = Vec::new();
        let guesser = Guesser::new(*strategy, &self.setup, &dice);
        let row = self.attack(*strategy, guesser.inspect(|act| acts.push(*act)), covered).map_err(
            |what| {
                self.failure(what, &acts, |acts| {
                    let acts = acts.iter().copied();
                    self.attack(*strategy, acts, &mut Covered::default()).is_err()
                })
            },
        )?;
        covered.add("days under attack", self.days);
        self.rows.lock().unwrap_or_else(PoisonError::into_inner).insert(case, row);
        Ok(())
    }

    /// Carries a strategy's acts out until its days are over.
    fn attack(
        &self,
        strategy: Strategy,
        acts: impl Iterator<Item = Act>,
        covered: &mut Covered,
    ) -> Result<Row, String> {
        let setup = &self.setup;
        let mut siege = Siege::begin(setup)?;
        let mut score = Score::new(setup, strategy, guesser::blocks(strategy, setup));
        let mut at = Vec::new();
        let mut days = self.milestones().into_iter().peekable();
        for act in acts {
            let came = siege.act(act, covered)?;
            let elapsed = siege.elapsed();
            while let Some(day) = days.next_if(|day| elapsed > day * 86_400) {
                at.push(score.standing(day));
            }
            if days.peek().is_none() {
                break;
            }
            match act {
                Act::Try(number, code) => score.tried(number, code, came),
                Act::Right(number) if number == setup.target() && came != Came::NoEntry => {
                    score.opening();
                }
                Act::Right(_)
                | Act::Duress(_)
                | Act::Battery(_)
                | Act::Clock(_)
                | Act::LoseClock
                | Act::Wait(_)
                | Act::SitOut
                | Act::NextHour => {}
            }
            score.check(elapsed)?;
        }
        at.extend(days.map(|day| score.standing(day)));
        // Past a number's limit the right code opens nothing, and must not show.
        if at.last().is_some_and(|last| last.open < last.judged)
            && siege.tells(setup.target(), setup.never_right(), covered)?
        {
            return Err("R2: past the limit a right code shows.".into());
        }
        Ok(Row { strategy, at })
    }

    fn milestones(&self) -> Vec<u64> {
        let earlier = MILESTONES.into_iter().filter(|day| *day < self.days);
        earlier.chain([self.days]).collect()
    }

    fn mixture(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        let mut dice = Dice::of(self.seed, case);
        let acts = mixture(&self.setup, &mut dice, MIXED);
        self.replay(&acts, covered).map_err(|(what, through)| {
            let acts = acts.get(..=through).unwrap_or(&acts);
            self.failure(what, acts, |acts| self.replay(acts, &mut Covered::default()).is_err())
        })
    }

    /// Plays acts; what went wrong, and at which of them.
    fn replay(&self, acts: &[Act], covered: &mut Covered) -> Result<(), (String, usize)> {
        let mut siege = Siege::begin(&self.setup).map_err(|what| (what, 0))?;
        for (place, act) in acts.iter().enumerate() {
            siege.act(*act, covered).map_err(|what| (what, place))?;
        }
        Ok(())
    }

    fn failure(&self, what: String, acts: &[Act], fails: impl Fn(&[Act]) -> bool) -> Failure {
        let mut patience = PATIENCE;
        let left = shrink(acts, |acts| {
            let enough = patience >= acts.len();
            patience = patience.saturating_sub(acts.len());
            enough && fails(acts)
        });
        let events = left.iter().map(|act| act.told(&self.setup)).collect();
        Failure { what, repeat: String::new(), events }
    }
}

impl Cases for BadCodes {
    fn count(&self) -> Option<u64> {
        Some(Self::strategies().saturating_add(self.mixtures))
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        if case < Self::strategies() {
            self.strategy(case, covered)
        } else {
            self.mixture(case, covered)
        }
    }
}
