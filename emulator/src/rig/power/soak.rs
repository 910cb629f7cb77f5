//! Years of use with faults: each case is a month of one lock, in which people
//! come and go, the battery fails, bits turn over, the bus is disturbed and the
//! clock strays.

use std::panic::{AssertUnwindSafe, catch_unwind};

use lock_core::port::Fault;
use lock_core::store::FormatError;
use lock_core::time::Utc;

use super::generator;
use super::ground::Ground;
use super::stories::{Locks, locks};
use super::story::{Event, Life, Teller};
use crate::memory::{Memory, Room};
use crate::rig::{Cases, Covered, Dice, Failure, shrink};
use crate::site::Site;
use crate::world::Bench;

/// 2027-01-01, the first of the demo site's years.
const START: u32 = 1_798_761_600;

const MONTH: u32 = 30 * 86_400;

/// Months of random use.
pub struct Soak {
    seed: u64,
    /// Without end if it is `None`.
    months: Option<u64>,
    site: Site,
    /// So small that a month turns every page over many times.
    least: Locks<8, 256>,
    /// As a lock has it.
    full: Locks<8, 2_048>,
}

impl Soak {
    /// So many years of locks of `site`; `None`: without end.
    ///
    /// # Errors
    /// [`FormatError`] if the settings of a lock cannot be stored.
    pub fn of(seed: u64, years: Option<u32>, site: Site) -> Result<Self, FormatError> {
        let (least, full) = (locks(&site, Room::Least)?, locks(&site, Room::Full)?);
        let months = years.map(|years| u64::from(years) * 12);
        Ok(Self { seed, months, site, least, full })
    }

    fn case<const W: usize, const P: usize>(
        &self,
        locks: &Locks<W, P>,
        mut dice: Dice,
        covered: &mut Covered,
    ) -> Result<(), Failure> {
        let Some(ground) = dice.pick(locks) else { return Ok(()) };
        let month = u32::try_from(dice.below(12)).unwrap_or_default();
        let start = Utc::from_secs(START + month * MONTH);
        let events = generator::month(&mut dice);
        covered.add("events", u64::try_from(events.len()).unwrap_or(u64::MAX));
        let Err((at, mut what, mut last)) = self.live(ground, start, &events, covered) else {
            return Ok(());
        };
        let mut unused = Covered::default();
        let until = events.get(..=at).unwrap_or(&events);
        let short = shrink(until, |part| self.live(ground, start, part, &mut unused).is_err());
        if let Err((_, of_short, last_of_short)) = self.live(ground, start, &short, &mut unused) {
            (what, last) = (of_short, last_of_short);
        }
        let events = short.iter().map(ToString::to_string).chain(last).collect();
        Err(Failure { what, repeat: String::new(), events })
    }

    /// Lives through events; at which of them something was violated, what, and
    /// what happened last.
    fn live<const W: usize, const P: usize>(
        &self,
        ground: &Ground<W, P>,
        start: Utc,
        events: &[Event],
        covered: &mut Covered,
    ) -> Result<(), (usize, String, Vec<String>)> {
        let lived = catch_unwind(AssertUnwindSafe(|| {
            let mut at = 0;
            let mut from = start;
            while at < events.len() {
                covered.add("locks", 1);
                let mut teller = Teller::<Memory<W, P>, Bench, W, P>::on(ground, &self.site, from)
                    .map_err(|violation| (at, violation.to_string(), Vec::new()))?;
                while let Some(event) = events.get(at) {
                    let lived = teller
                        .live(*event)
                        .map_err(|violation| (at, violation.to_string(), teller.last_words()))?;
                    at += 1;
                    // Somebody comes and commissions another one.
                    match lived {
                        Life::GoesOn => continue,
                        Life::Emptied => covered.add("locks that a reset emptied", 1),
                        Life::NeedsService(Fault::Settings | Fault::Layout) => {
                            covered.add("locks that lost their settings", 1);
                        }
                        Life::NeedsService(_) => covered.add("locks that asked for service", 1),
                    }
                    break;
                }
                from = teller.utc();
                covered.merge(teller.covered());
                covered.add("hours", u64::from(from.since(start).get() / 3_600));
            }
            Ok(())
        }));
        lived.unwrap_or_else(|panic| {
            let words = panic.downcast_ref::<String>().map(String::as_str);
            let words = words.or_else(|| panic.downcast_ref::<&str>().copied());
            let what = format!("it panicked: {}", words.unwrap_or("without words"));
            Err((events.len().saturating_sub(1), what, Vec::new()))
        })
    }
}

impl Cases for Soak {
    fn count(&self) -> Option<u64> {
        self.months
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        let mut dice = Dice::of(self.seed, case);
        match dice.below(4) {
            0 => self.case(&self.full, dice, covered),
            _ => self.case(&self.least, dice, covered),
        }
    }
}
