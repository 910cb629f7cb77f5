//! Who can never open, who always can, and whether there are wardens enough.

use lock_core::holder::Standing;
use lock_core::role::Role;
use lock_core::timetable::Follows;

use super::Outlook;
use crate::document::Place;
use crate::plan::{Finding, Severity};

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
    too_few_wardens(outlook, findings);
    if let Some(demo) = outlook.site.places.demo {
        findings.push(Finding::new(
            Severity::Note,
            demo,
            "This file holds codes for drills.",
            "Fine for the emulator. Take [demo.codes] out before the file serves a real lock.",
        ));
    }
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
        "Have two wardens: one alone can be replaced by nobody, and may be ill or locked out.",
    ));
}
