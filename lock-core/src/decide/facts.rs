//! What a decision is made from.

use crate::audit::People;
use crate::holder::{HolderRow, Number};
use crate::policy::{Control, Deputies};
use crate::port::{Fault, Inhibit};
use crate::rules::limit::Stood;
use crate::rules::pending;
use crate::rules::supply::Level;
use crate::time::{Seconds, Shift, Steady, Uptime, Utc, Zone};

/// What the lock knows when it decides: as it is before the try is counted.
#[derive(Clone, Copy, Debug)]
pub struct Facts<'f> {
    /// Why the lock takes no codes at all; `None` if it does.
    pub service: Option<Fault>,
    /// Until when a penalty runs.
    pub penalty: Option<Uptime>,
    /// What bears on everybody.
    pub conditions: Conditions,
    /// The sum of all settings of the clock.
    pub shift: Shift,
    /// Steady time; `None` where no time was ever known.
    pub steady: Option<Steady>,
    /// When the lock was last opened while something may have waited.
    pub brought: Option<Steady>,
    /// The time delay in force; zero for none.
    pub delay: Seconds,
    /// How many people an opening takes by the policy in force.
    pub control: Control,
    /// What deputies may do.
    pub deputies: Deputies,
    /// How far an opening is.
    pub stage: Stage,
    /// The first of two, who waits for the second.
    pub first: Option<First>,
    /// The zone in force.
    pub zone: &'f Zone,
}

/// What bears on every opening, whoever asks.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Conditions {
    /// The inhibit input.
    pub inhibit: Inhibit,
    /// The end of a hold-shut that is in force.
    pub held_until: Option<Utc>,
    /// The supply.
    pub supply: Level,
    /// The time; `None` while the clock is invalid.
    pub utc: Option<Utc>,
    /// Until when a clock that two people set settles; `None` if it does not.
    pub settles: Option<Utc>,
}

impl Conditions {
    /// Nothing stands against an opening at `utc`: what a plan assumes.
    #[must_use]
    pub const fn unhindered(utc: Utc) -> Self {
        Self {
            inhibit: Inhibit::Clear,
            held_until: None,
            supply: Level::Good,
            utc: Some(utc),
            settles: None,
        }
    }
}

/// How far an opening is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stage {
    /// Nobody has asked for one.
    Secured,
    /// The delay of these people runs until then.
    Waiting(People, Uptime),
    /// It is over, and these people may claim it until then.
    Claimable(People, Uptime),
    /// The bolt is free or drawn.
    Free,
}

/// The first of two people.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct First {
    /// Who.
    pub number: Number,
    /// Until when they wait for the second; exclusive.
    pub until: Uptime,
    /// How their number stands by now.
    pub stood: Stood,
}

/// Whose right code it is.
///
/// No `Debug`: a row holds what codes are judged by.
#[derive(Clone, Copy)]
pub struct Who<'r> {
    /// Their number.
    pub number: Number,
    /// Their row.
    pub row: &'r HolderRow,
    /// How the number stood before this try.
    pub stood: Stood,
}

silent!(Who<'_>);

impl Facts<'_> {
    /// Until when a change of that row waits.
    pub(super) fn change(&self, row: &HolderRow) -> Option<Utc> {
        let waits = row.pending?;
        let holds = pending::holds(waits.made, waits.from, self.steady, self.brought);
        (!holds).then(|| self.shift.utc(waits.from))
    }
}
