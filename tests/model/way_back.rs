//! R11 as a promise about every story that `compare.rs` tells: from its end the
//! people of the lock, who know their codes and have time, reach an opening, the
//! model's and the other lock's alike. Nobody forces anything; a service fault is
//! mended by a boot; a bolt is drawn only where it is free. Source:
//! `docs/behaviour.md`, section 13.

use crate::deeds::{Deed, What, enter, open, rest, tidy};
use crate::dice::Dice;
use crate::leads::{self, Wishes};
use crate::reference::{Flash, Follows, Holder, Input, Model, Role, Setup};
use crate::walk::{BUILT, Step, Walk, Walker, Witness};

/// How often people try again; each time they wait, enrol, or ask for a way out.
const MOST_ROUNDS: u64 = 120;
/// What section 13 allows: an opening within 400 dates, behind the longest way out and
/// the longest hold-shut.
const MOST_DAYS: u64 = 400 + 14 + 31;

/// The digits of two roles (section 12).
const KEYHOLDER: u8 = 3;
const STEWARD: u8 = 5;

/// How an opening was reached.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Way {
    pub(crate) days: u64,
    /// Rounds that led to nothing before.
    pub(crate) rounds: u64,
    /// The lock was stuck, and a way out was asked for.
    pub(crate) way_out: bool,
}

/// From where a story ended to an opening; `Err`: where the people stand who find none.
pub(crate) fn lead(
    seed: u64,
    walk: &mut Walk,
    model: &mut Model,
    happened: &mut Witness<'_>,
) -> Result<Way, String> {
    let mut way = Way::default();
    // Lent anew: a walker keeps what it is lent for as long as it lives.
    let mut happened = |model: &Model, event: &_, seen: &_| happened(model, event, seen);
    let mut walker = Walker::new(walk, model, &mut happened);
    let cut = Step::PowerCut { off_s: 0, chip_lost: false };
    walker.step(&cut);
    let mut before_ms = 0;
    for round in 0..MOST_ROUNDS {
        if walker.model.fault.is_some() {
            before_ms += walker.model.now.uptime_ms;
            walker.step(&cut);
        }
        let mut dice = Dice::new(seed << 16 | round);
        let opened = round_of_a_pair(&mut walker, &mut dice, &mut way);
        way.days = (before_ms + walker.model.now.uptime_ms) / 86_400_000;
        way.rounds = round;
        if opened {
            let all = format!("an opening after more than {MOST_DAYS} days: {way:?}");
            return if way.days <= MOST_DAYS { Ok(way) } else { Err(all) };
        }
    }
    let setup = walker.model.setup();
    let stuck = walker.model.is_stuck(setup);
    Err(format!("nobody gets in: stuck={stuck} shows={} {setup:#?}", walker.model.screen()))
}

/// True: the lock was opened.
fn round_of_a_pair(walker: &mut Walker<'_>, dice: &mut Dice, way: &mut Way) -> bool {
    tidy(walker);
    if walker.model.nobody_is_enrolled() {
        Deed { what: What::Commission, pick: dice.up_to(u64::MAX - 1) }.act(walker);
        return false;
    }
    if walker.model.utc().is_none() {
        set_clock(walker, dice);
    }
    if walker.model.is_stuck(walker.model.setup()) && !walker.model.kept.setting_up {
        if walker.model.way_out_ms.is_none() {
            leads::task(walker, dice, "way-out");
            way.way_out |= walker.model.way_out_ms.is_some();
        }
        if let Some(until_ms) = walker.model.way_out_ms {
            rest(walker);
            walker.wait((until_ms - walker.model.now.uptime_ms) / 1_000);
        }
    }
    if open(walker, dice, false) || walker.model.access.name() == "released" {
        return true;
    }
    if walker.model.is_opened() {
        walker.contact(Input::Bolt(false));
    }
    match dice.below(4) {
        // A barred warden has tries from the second day on.
        0 => walker.wait(86_400),
        1 => Deed { what: What::WaitOut, pick: dice.up_to(1 << 40) }.act(walker),
        2 => leads::task(walker, dice, "restore"),
        _ => enrol(walker, dice, KEYHOLDER),
    }
    let numbers: Vec<u8> = walker.model.setup().holders.keys().copied().collect();
    if let Some(number) = dice.of(&numbers) {
        rest(walker);
        enter(walker, number, false);
    }
    false
}

/// A steward sets it, with a warden; where none is able, one is enrolled.
fn set_clock(walker: &mut Walker<'_>, dice: &mut Dice) {
    let model = &walker.model;
    if model.able_privileged(model.setup(), Some(Role::Steward)).is_empty() {
        enrol(walker, dice, STEWARD);
    }
    leads::task(walker, dice, "set-clock");
}

/// Somebody of the role that people lack, by its digit.
fn enrol(walker: &mut Walker<'_>, dice: &mut Dice, role: u8) {
    leads::begin(walker, dice, "enrol");
    leads::lead(walker, dice, &Wishes { role: Some(role), ..Wishes::default() });
}

/// The check itself: a lock of a keyholder alone, who follows a timetable without a
/// window, has nobody who may enrol or ask for a way out, and is found out.
#[test]
fn a_lock_that_nobody_gets_into_is_found_out() {
    let mut setup = Setup::factory("UTC0");
    let code = "402935".to_owned();
    let (number, role, follows) = (7, Role::Keyholder, Follows::Timetable(0));
    let (opens, suspended, waits) = (false, false, None);
    let row = Holder { number, role, code, follows, opens, suspended, waits };
    setup.holders.insert(number, row);
    let mut walk = Walk::new(BUILT + 86_400);
    let (mut model, _) = walk.boot(&setup, Flash::Ours);
    let found = lead(1, &mut walk, &mut model, &mut |_, _, _| ());
    assert!(found.is_err_and(|found| found.starts_with("nobody gets in: stuck=true")));
}
