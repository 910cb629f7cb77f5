//! Who can never open, who always can, and whether there are wardens enough.

use lock_core::holder::Standing;
use lock_core::policy::Control;
use lock_core::role::{Grant, Right, Role, grant};
use lock_core::timetable::{Follows, TimetableId};

use super::Outlook;
use crate::document::Place;
use crate::plan::{Finding, Severity};
use crate::site::Person;

/// Removing a warden takes another warden.
const WARDENS_LEAST: usize = 2;

pub(super) fn check(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    for person in outlook.openers() {
        match person.follows {
            Follows::Always => findings.push(Finding::new(
                Severity::Warning,
                person.place,
                format!(
                    "{} may open at any time: windows and closures do not apply.",
                    person.called()
                ),
                "Give this holder a timetable, unless somebody must be able to open at night.",
            )),
            Follows::Timetable(_) if outlook.openings_of(person.follows).is_empty() => {
                findings.push(Finding::new(
                    Severity::Error,
                    person.place,
                    format!("{} cannot open at all within the coming year.", person.called()),
                    "Give the timetable a window, or the holder another timetable.",
                ));
            }
            Follows::Timetable(_) => {}
        }
    }
    nobody_opens(outlook, findings);
    too_few_wardens(outlook, findings);
    one_is_two(outlook, findings);
    anybody_holds_shut(outlook, findings);
    a_stranger_bars_all(outlook, findings);
    nobody_restores(outlook, findings);
    nobody_serves(outlook, findings);
    if let Some(demo) = outlook.site.places.demo {
        findings.push(Finding::new(
            Severity::Note,
            demo,
            "This file holds codes for drills.",
            "Fine for the emulator. Take [demo.codes] out before the file serves a real lock.",
        ));
    }
}

/// Locks that take two people are told of in `dual.rs`.
fn nobody_opens(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    if outlook.openers().next().is_some() {
        return;
    }
    let locks = outlook.site.locks.iter();
    for lock in locks.filter(|lock| lock.policy.control == Control::Single) {
        findings.push(Finding::new(
            Severity::Error,
            lock.place,
            format!("Nobody may open the lock {}.", lock.id),
            "Add a holder who may open and is not suspended.",
        ));
    }
}

/// Whether somebody who is not suspended has `right` whatever their row says.
fn somebody_may(people: &[Person], right: Right) -> bool {
    let may = |person: &Person| {
        person.standing == Standing::Active && grant(person.role, right) == Grant::Always
    };
    people.iter().any(may)
}

/// The suspended are restored by whoever may enrol.
fn nobody_restores(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let people = &outlook.site.holders;
    if somebody_may(people, Right::Enrol) {
        return;
    }
    for person in people.iter().filter(|person| person.standing == Standing::Suspended) {
        findings.push(Finding::new(
            Severity::Error,
            person.place,
            format!(
                "{} is suspended, and nobody can restore them: only a warden can, and no warden \
                 is active.",
                person.called()
            ),
            "Have a warden who is not suspended, better two.",
        ));
    }
}

/// Timetable files, audits and small corrections of the clock are a steward's.
fn nobody_serves(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let people = &outlook.site.holders;
    if somebody_may(people, Right::CarryFiles) && somebody_may(people, Right::SetClock) {
        return;
    }
    let steward = people.iter().find(|person| person.role == Role::Steward);
    let (place, what) = match steward {
        Some(only) => {
            (only.place, format!("{} is the only steward, and suspended.", only.called()))
        }
        None => {
            let first = people.first().map(|person| person.place);
            (first.unwrap_or(Place { line: 1, column: 1 }), "Nobody is a steward.".into())
        }
    };
    findings.push(Finding::new(
        Severity::Warning,
        place,
        what,
        "Have a steward: without one nobody can load a timetable file, collect audits or set the \
         clock.",
    ));
}

/// Two people are two; a lock with one privileged person is that person's.
fn one_is_two(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let people = outlook.site.holders.iter();
    let mut privileged =
        people.filter(|person| person.role.is_privileged() && person.standing == Standing::Active);
    let (Some(only), None) = (privileged.next(), privileged.next()) else { return };
    findings.push(Finding::new(
        Severity::Warning,
        only.place,
        format!("{} is the only warden or steward: the locks are theirs alone.", only.called()),
        "Have two wardens and a steward: what takes two people then takes two.",
    ));
}

/// Where nothing ever starts a window, whoever is barred is restored at the opened lock
/// only; a barred warden keeps a few tries a day.
fn a_stranger_bars_all(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let always = |person: &&Person| person.follows == Follows::Always;
    let no_window =
        TimetableId::ALL.iter().all(|id| outlook.openings_of(Follows::Timetable(*id)).is_empty());
    let openers: Vec<&Person> = outlook.openers().collect();
    let warden = openers.iter().any(|person| person.role == Role::Warden);
    let Some(first) = openers.first().filter(|_| no_window && !warden) else { return };
    if openers.iter().all(always) {
        findings.push(Finding::new(
            Severity::Warning,
            first.place,
            "No timetable has a window, and no warden opens: a stranger who types a hundred \
             wrong codes for each who does leaves nobody but the way out, of 72 hours or 14 days.",
            "Give one timetable a window: a barred holder is restored from its next start on.",
        ));
    }
}

/// A hold-shut cannot be undone.
fn anybody_holds_shut(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let people = outlook.site.holders.iter();
    let mut holders = people
        .filter(|person| person.role == Role::Keyholder && person.standing == Standing::Active);
    let Some(first) = holders.next() else { return };
    findings.push(Finding::new(
        Severity::Note,
        first.place,
        format!(
            "Each keyholder, {} for one, may hold a lock shut for up to 31 days at a time.",
            first.called()
        ),
        "Tell them: nobody can undo it, and nobody may be inside.",
    ));
}

fn too_few_wardens(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let is_warden = |role, standing| role == Role::Warden && standing == Standing::Active;
    let people = &outlook.site.holders;
    let wardens: Vec<_> = people.iter().filter(|p| is_warden(p.role, p.standing)).collect();
    if wardens.len() >= WARDENS_LEAST {
        return;
    }
    let (place, what) = match wardens.first() {
        Some(only) => (only.place, format!("{} is the only warden.", only.called())),
        None => {
            let first = people.first().map(|person| person.place);
            (first.unwrap_or(Place { line: 1, column: 1 }), "Nobody is a warden.".into())
        }
    };
    findings.push(Finding::new(
        Severity::Warning,
        place,
        what,
        "Have two wardens: one alone can be replaced or, if suspended, restored by nobody, and may \
         be ill or locked out.",
    ));
}
