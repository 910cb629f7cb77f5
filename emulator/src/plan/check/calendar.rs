//! Timetables, closures and special days without effect.

use lock_core::timetable::{TimetableId, Timetables};

use super::{Outlook, date_text};
use crate::plan::{Finding, Severity};

pub(super) fn check(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    for (id, place) in outlook.defined().filter(|(id, _)| !outlook.is_used(*id)) {
        findings.push(Finding::new(
            Severity::Warning,
            place,
            format!("{} is followed by nobody who may open.", outlook.called(id)),
            "Give it to a holder, or take it out.",
        ));
    }
    let site = outlook.site;
    for (closure, place) in site.calendar.closures.iter().zip(&site.places.closures) {
        let is_over = closure.to < outlook.from;
        if is_over {
            let what = format!("The closure to {} is over.", date_text(closure.to));
            findings.push(Finding::new(Severity::Note, *place, what, "Take it out."));
        } else if !concerns_anybody(outlook, closure.timetables) {
            findings.push(without_effect(*place, "This closure"));
        }
    }
    for (special, place) in site.calendar.specials.iter().zip(&site.places.specials) {
        if special.date < outlook.from {
            let what = format!("The special day {} is over.", date_text(special.date));
            findings.push(Finding::new(Severity::Note, *place, what, "Take it out."));
        } else if !concerns_anybody(outlook, special.timetables) {
            findings.push(without_effect(*place, "This special day"));
        }
    }
}

fn concerns_anybody(outlook: &Outlook<'_>, timetables: Timetables) -> bool {
    TimetableId::ALL.into_iter().any(|id| timetables.has(id) && outlook.is_used(id))
}

fn without_effect(place: crate::document::Place, what: &str) -> Finding {
    Finding::new(
        Severity::Warning,
        place,
        format!("{what} concerns no timetable that anybody follows."),
        "Name other timetables, or take it out.",
    )
}
