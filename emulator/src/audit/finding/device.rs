//! Power, supply, clock, faults, and what is missing.

use lock_core::audit::{Change, Event, Gap};
use lock_core::policy::Millivolts;
use lock_core::port::Fault;
use lock_core::rules::supply::Level;

use super::{Finding, finding, unmarked};
use crate::audit::ledger::{Ledger, Start};
use crate::audit::names::{Names, length};
use crate::audit::opening::{Began, WaitEnd, WaitsFor};
use crate::audit::words::{gap_words, volts};

/// At this voltage a cell is empty: most discharge tests of IEC 60086-2 for LR6
/// end at 0.9 V (from memory). Below it nothing is left to give.
pub const CELL_END: Millivolts = Millivolts::new(900);

/// Cells in series, as the policy's supply thresholds assume.
pub const CELLS: u16 = 4;

pub(super) fn look(ledger: &Ledger, names: &Names<'_>, found: &mut Vec<Finding>) {
    power(ledger, found);
    supply(ledger, found);
    clock(ledger, names, found);
    for (mark, fault) in &ledger.faults {
        let what = match fault {
            Fault::Layout => "The lock found settings of other firmware.",
            Fault::Blank => "The lock had no settings.",
            Fault::Settings => "The lock could not read its settings.",
            Fault::Store => "The lock could not write what it must.",
            Fault::Drive => "The drive did not move the blocker where it was sent.",
            Fault::Bug => "The lock lost track of what it was doing.",
        };
        found.push(finding("fault", *mark, format!("{what} It needs service.")));
    }
    for gap in ledger.gaps.iter().filter(|gap| gap.lost > 0) {
        found.push(lost(gap));
    }
    for (mark, event) in &ledger.changes {
        let Event::Changed { change, .. } = event else { continue };
        let what = match change {
            Change::ResetBegun => "A reset without a warden's code began.",
            Change::Reset => "The lock was reset: everybody and everything but the audit is gone.",
            _ => continue,
        };
        found.push(finding("reset", *mark, what.to_owned()));
    }
}

fn lost(gap: &Gap) -> Finding {
    finding("lost-records", unmarked(gap.from), gap_words(gap))
}

fn power(ledger: &Ledger, found: &mut Vec<Finding>) {
    for wait in &ledger.waits {
        if let WaitEnd::Booted(mark) = wait.end {
            let what = match wait.on {
                WaitsFor::Delay => "The power failed while a time delay ran; the delay is void.",
                WaitsFor::Second => "The power failed while one of two people waited.",
            };
            found.push(finding("power-while-waiting", mark, what.to_owned()));
        }
    }
    for opening in &ledger.openings {
        let Some(mark) = opening.booted else { continue };
        let what = match (opening.opened, opening.began) {
            (Some(_), _) | (None, Began::Forced(_) | Began::Unseen) => {
                "The power failed while the lock was open."
            }
            (None, Began::Released(_)) => "The power failed while the lock was released.",
        };
        found.push(finding("power-while-open", mark, what.to_owned()));
    }
}

fn supply(ledger: &Ledger, found: &mut Vec<Finding>) {
    let mut before = Level::Good;
    for (mark, level, measured) in &ledger.supply {
        let empty = measured.get() < CELL_END.get().saturating_mul(CELLS);
        match level {
            Level::Good => {}
            Level::Low if !empty => {
                let what = format!("Supply low: {}. Change the cells soon.", volts(*measured));
                found.push(finding("supply-low", *mark, what));
            }
            Level::Low | Level::Spent => {
                let sudden = if before == Level::Good {
                    " It was good before: look at the contacts of the cells as well."
                } else {
                    ""
                };
                let cells = if empty {
                    format!(" That is under {} a cell: they are empty.", volts(CELL_END))
                } else {
                    String::new()
                };
                let what = format!(
                    "Supply spent: {}; nothing is released. Change the cells.{cells}{sudden}",
                    volts(*measured)
                );
                found.push(finding("supply-spent", *mark, what));
            }
        }
        before = *level;
    }
}

fn clock(ledger: &Ledger, names: &Names<'_>, found: &mut Vec<Finding>) {
    for (mark, start) in &ledger.starts {
        if *start == Start::ClockInvalid {
            let what = "The clock became invalid: timetable holders stay closed until it is set.";
            found.push(finding("clock-invalid", *mark, what.to_owned()));
        }
    }
    for (before, after) in &ledger.set_back {
        let (Some(was), Some(is)) = (before.at, after.at) else { continue };
        let what = format!(
            "The clock went back by {}, from {}.",
            length(was.since(is).get()),
            names.moment(before.at)
        );
        found.push(finding("clock-set-back", *after, what));
    }
}
