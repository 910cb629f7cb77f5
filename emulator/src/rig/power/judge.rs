//! The judge: whether a lock kept what it must keep, through power cuts and
//! other faults of its flash.
//!
//! It sees what somebody sees who holds a logic analyser to the board and reads
//! the flash out now and then: lines of a trace, in order, and [`Look`](crate::memory::Look)s. It
//! never sees the machine, and knows nothing of how the store arranges its
//! pages. Feed it with [`Judge::see`]; the first line that cannot be comes back
//! as a [`Violation`].
//!
//! The [invariants](Invariant) stand in a file a group:
//!
//! | file | invariants |
//! | --- | --- |
//! | `release.rs` | 1 record before release, 2 silence without power, 3 boots end, 6 waits are waited |
//! | `counts.rs` | 4 counted before judged, 5 penalties are served |
//! | `audit.rs` | 1 and 8 to 11, as far as the list of records tells |
//! | `alarm.rs` | 10 duress is heard |
//! | `settings.rs` | 7 settings whole, 12 nothing invented |
//! | `wear.rs` | 13 wear and program limits |
//!
//! # Where they are read more strictly than they are written
//! - 3: after power cuts alone a boot ends *working*, or the next one does; to
//!   stay in service takes a fault.
//! - 5: docs/behaviour.md, section 4: a boot restarts a penalty whole, so time
//!   served before it does not count.
//! - 8: a record that one boot did not list never comes back.
//!
//! And less strictly, for the contract's sake:
//! - 4: within a penalty nothing is counted, and nothing is told (section 4).
//! - 9: a cut may cost [`Terms::slots_a_cut`] slots until their page is erased
//!   (docs/flash-layout.md), a bit that turns over [`Terms::slots_a_flip`].
//! - 13: a boot erases the page ahead, since it may only look blank; so each
//!   boot counts as a cut does, the first one too.

mod alarm;
mod audit;
mod counts;
#[cfg(test)]
mod forge;
mod invariant;
mod release;
mod settings;
mod wear;

pub use invariant::{Invariant, Violation};

use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::{Change, Event, Record};
use lock_core::port::Fault;

use crate::memory::{Part, Print};
use crate::world::{Happening, Spoilt};

/// What the judge is told beforehand.
#[derive(Clone, Copy, Debug)]
pub struct Terms {
    /// Its settings, as commissioned, then as last changed.
    pub settings: Print,
    /// Records that each ring promises to keep.
    pub kept: PerRing<u64>,
    /// Records of either ring that a cut may cost until their page is erased.
    pub slots_a_cut: u64,
    /// The same of a bit that turned over in a ring.
    pub slots_a_flip: u64,
    /// Words programmed and pages erased until a boot has found what is there,
    /// at most.
    pub mount_steps: u64,
    /// Steps until it has done all that it has to do, at most.
    pub boot_steps: u64,
    /// Steps of a change of the settings, at most: a boot may find one due.
    pub edit_steps: u64,
}

/// Something for each of the two rings.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct PerRing<T> {
    /// Openings and changes.
    pub openings: T,
    /// Refusals.
    pub refusals: T,
}

/// How often what was done to the flash, so far.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
struct Suffered {
    /// Ends of the power.
    cuts: u64,
    /// Beginnings of it.
    boots: u64,
    /// Failed writes.
    failures: u64,
    /// Where bits of settings or tally turned over.
    memory: Vec<u32>,
    /// Spoilt slots of the rings that no gap was taken for yet.
    slots: u64,
    /// Spoilt slots of the rings so far.
    flips: u64,
    /// Spoilt places of any kind.
    spoilt: u64,
}

/// Bytes of the longest row of settings and of the longest entry of the tally.
const ROW: u32 = 64;

impl Suffered {
    /// Whether a row may be lost: one turned bit in it is mended, two are not.
    fn costs_a_row(&self) -> bool {
        let near = |(at, one): (usize, &u32)| {
            self.memory.iter().skip(at + 1).any(|other| one.abs_diff(*other) < ROW)
        };
        self.memory.iter().enumerate().any(near)
    }

    /// Slots of a ring that this may have cost altogether.
    const fn slots(&self, terms: &Terms) -> u64 {
        (self.cuts + self.failures) * terms.slots_a_cut + self.flips * terms.slots_a_flip
    }
}

/// Whether a first warden began the lock anew.
fn commissions(record: &Record) -> bool {
    matches!(record.event, Event::Changed { change: Change::Commissioned(_), .. })
}

/// The judge of one lock, from its commissioning on.
#[derive(Clone, Debug)]
pub struct Judge {
    terms: Terms,
    suffered: Suffered,
    release: release::Releases,
    counts: counts::Counts,
    audit: audit::Audit,
    alarm: alarm::Alarms,
    settings: settings::Versions,
    whose: Whose,
}

/// Whether the lock is still the one that was commissioned.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Whose {
    Ours,
    /// The last boot could not read its settings.
    Lost,
    /// A first warden agreed to erase everything. From then on it is another lock.
    Another,
}

impl Judge {
    /// The judge of a lock that was commissioned and never powered up.
    #[must_use]
    pub fn new(terms: Terms) -> Self {
        Self {
            terms,
            suffered: Suffered::default(),
            release: release::Releases::default(),
            counts: counts::Counts::of(&terms),
            audit: audit::Audit::default(),
            alarm: alarm::Alarms::default(),
            settings: settings::Versions::of(terms.settings),
            whose: Whose::Ours,
        }
    }

    /// Sees the next thing.
    ///
    /// # Errors
    /// The invariant that it violates.
    pub fn see(&mut self, happening: &Happening) -> Result<(), Violation> {
        match (self.whose, happening) {
            (Whose::Another, _) => return Ok(()),
            (_, Happening::Boot(look, _)) => {
                let lost = matches!(look.settings, Err(Fault::Settings | Fault::Layout));
                self.whose = if lost { Whose::Lost } else { Whose::Ours };
            }
            (Whose::Lost, Happening::Edited { record, .. }) if commissions(record) => {
                self.whose = Whose::Another;
                return Ok(());
            }
            (Whose::Ours | Whose::Lost, _) => {}
        }
        match happening {
            Happening::Line(line) => self.line(line),
            Happening::Boot(look, steps) => {
                self.release.mounted(look, *steps, &self.terms)?;
                if let Some(edit) = self.settings.boot(look, &self.suffered)? {
                    self.audit.settle_edit(&edit);
                }
                self.now_in_force();
                if look.settings != Err(Fault::Store) {
                    self.audit.boot(look, &self.terms, &mut self.suffered)?;
                    // What this boot still lists was not lost.
                    self.suffered.slots = 0;
                }
                self.counts.boot(look, &self.terms)?;
                self.alarm.boot(look);
                wear::look(look, &self.suffered)
            }
            Happening::Look(look) => {
                self.settings.look(look, &self.suffered)?;
                if look.settings != Err(Fault::Store) {
                    self.audit.look(look, &self.terms, &self.suffered)?;
                }
                self.counts.look(look)?;
                self.alarm.look(look);
                wear::look(look, &self.suffered)
            }
            Happening::Rest { steps } => {
                self.alarm.rest()?;
                let service = self.release.rest(*steps, &self.terms, &self.suffered)?;
                // It is in service, also while a first warden's dialogue is on the screen.
                let lost = self.whose == Whose::Lost;
                let service = if lost { release::Service::Yes } else { service };
                self.counts.rest(service, &self.terms)
            }
            Happening::Step { .. } => Ok(()),
            Happening::Edited { line, record, durable, after } => {
                self.line(line)?;
                self.settings.edited(*record, *after, *durable);
                self.now_in_force();
                Ok(())
            }
            Happening::Restless(restless) => {
                Err(Violation::new(Invariant::BootEnds, restless.to_string()))
            }
            Happening::Spoilt(spoilt) => {
                self.suffered.spoilt += 1;
                match spoilt {
                    Spoilt::Content(Part::Settings | Part::Tally, address) => {
                        self.suffered.memory.push(*address);
                    }
                    Spoilt::Content(Part::Rings, _) => {
                        self.suffered.slots += 1;
                        self.suffered.flips += 1;
                    }
                    // Nothing waits there: no story loads a file yet.
                    Spoilt::Content(Part::Staging, _) => {}
                    Spoilt::Bus => self.suffered.failures += 1,
                }
                Ok(())
            }
        }
    }

    fn line(&mut self, line: &Line) -> Result<(), Violation> {
        match line.what {
            What::PowerCut => self.suffered.cuts += 1,
            What::Wrote(_, Durable::No) => self.suffered.failures += 1,
            What::Tended(Durable::No) => self.suffered.failures += 1,
            What::PowerOn => self.suffered.boots += 1,
            What::Told(_) | What::Did(_) | What::Wrote(..) | What::Tended(_) => {}
        }
        let besides = self.counts.stricter(&self.terms);
        self.release.line(line, &self.terms, besides)?;
        settings::Versions::line(line)?;
        self.counts.line(line, &self.terms)?;
        self.alarm.line(line)?;
        self.audit.line(line)
    }

    /// The settings that are in force say what is judged by.
    fn now_in_force(&mut self) {
        let before = self.terms.settings;
        self.terms.settings = self.settings.last();
        if before.policy != self.terms.settings.policy {
            self.counts.policy_changed(&self.terms);
        }
    }
}
