//! Source: IEC 60086-2, LR6 (from memory: most of its discharge tests end at
//! 0.9 V a cell); fresh cells 1.56 to 1.65 V each, open circuit (a cell
//! specification that cites it). Four cells in series, as the policy assumes.
//!
//! What an audit tells of the supply is judged by it.

use emulator::audit::finding::{Limits, findings};
use emulator::audit::ledger::Clerk;
use emulator::audit::names::Names;
use lock_core::audit::{Entry, Event, Record, Seq};
use lock_core::policy::{Millivolts, Policy};
use lock_core::rules::supply::Level;

const CELL_ENDS: u16 = 900;
const FOUR_FRESH: std::ops::RangeInclusive<u16> = 6_240..=6_600;

fn told(level: Level, mv: u16) -> Vec<String> {
    let mut clerk = Clerk::default();
    let event = Event::Supply { level, measured: Millivolts::new(mv) };
    clerk.take(&Entry::Record(Seq(1), Record { at: None, event }));
    let found = findings(&clerk.finish(), &Names::of(None), Limits::default());
    found.into_iter().map(|finding| format!("{}: {}", finding.kind, finding.what)).collect()
}

#[test]
fn cells_are_called_empty_below_their_end_point() {
    let at_end = told(Level::Spent, 4 * CELL_ENDS);
    assert!(at_end[0].starts_with("supply-spent") && !at_end[0].contains("empty"), "{at_end:?}");
    let below = told(Level::Spent, 4 * CELL_ENDS - 1);
    assert!(below[0].contains("0.90 V a cell: they are empty"), "{below:?}");
}

/// A lock stops releasing well before its cells are empty, and fresh cells are
/// nothing to look into.
#[test]
fn fresh_cells_are_fine_and_thresholds_lie_above_the_end_point() {
    for mv in FOUR_FRESH {
        assert!(Millivolts::new(mv) > Policy::DEFAULT.supply_low);
        assert_eq!(told(Level::Good, mv), Vec::<String>::new());
    }
    assert!(Policy::DEFAULT.supply_spent.get() > 4 * CELL_ENDS);
    let spent = told(Level::Spent, Policy::DEFAULT.supply_spent.get() - 1);
    assert!(!spent[0].contains("empty"), "{spent:?}");
}
