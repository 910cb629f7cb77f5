//! Openings against the site file, and what stayed open.

use lock_core::audit::{People, Seq};
use lock_core::time::Utc;

use super::{Finding, Limits, finding};
use crate::audit::ledger::Ledger;
use crate::audit::names::{Names, Within, length, within};
use crate::audit::opening::{Began, End, Mark, Opening};

pub(super) fn look(ledger: &Ledger, names: &Names<'_>, limits: Limits, found: &mut Vec<Finding>) {
    // The records of the first one may have been overwritten.
    let starts_late = ledger.span.is_none_or(|(first, _)| first.seq > Seq(1));
    for (place, opening) in ledger.openings.iter().enumerate() {
        let Some(first) = opening.first() else { continue };
        match opening.began {
            Began::Forced(mark) => {
                let what = "Open without a release: forced, or opened by hand from behind.";
                found.push(finding("forced", mark, what.to_owned()));
            }
            Began::Unseen if place == 0 && starts_late => {}
            Began::Unseen if opening.opened.is_some() && !opening.doubtful => {
                let what = "Open, and the release is not among these records.";
                found.push(finding("release-missing", first, what.to_owned()));
            }
            Began::Released(mark) => {
                if let (Some(people), Some(at)) = (opening.people, mark.at) {
                    against_site(people, mark, at, names, found);
                }
            }
            Began::Unseen => {}
        }
        let who = opening.people.map(|people| format!(" ({})", names.people(&people)));
        stayed_open(opening, first, &who.unwrap_or_default(), limits, found);
    }
}

fn against_site(people: People, mark: Mark, at: Utc, names: &Names<'_>, found: &mut Vec<Finding>) {
    let Some(site) = names.site() else { return };
    for number in [Some(people.first), people.second].into_iter().flatten() {
        let who = names.who(number);
        let Some(person) = site.holder(number) else {
            let what = format!("Number {:02} opened and is not in the site file.", number.get());
            found.push(finding("not-in-site", mark, what));
            continue;
        };
        if !person.may_open() {
            let what = format!("{who} opened; by the site file this holder may not open.");
            found.push(finding("may-not-open", mark, what));
        } else if let Within::Outside(id) = within(site, person.follows, at) {
            let what = format!(
                "{who} opened outside every window of timetable {} in the site file.",
                id.letter()
            );
            found.push(finding("outside-window", mark, what));
        }
    }
}

fn stayed_open(
    opening: &Opening,
    first: Mark,
    who: &str,
    limits: Limits,
    found: &mut Vec<Finding>,
) {
    let open_for = opening.open_for();
    let length = open_for.map(|open_for| length(open_for.get()));
    match (opening.left_open, length) {
        (Some(mark), Some(length)) => {
            let what = format!("Left open past the end of the window: open for {length}{who}.");
            found.push(finding("left-open", mark, what));
        }
        (Some(mark), None) => {
            let what = format!("Left open past the end of the window{who}.");
            found.push(finding("left-open", mark, what));
        }
        (None, Some(length)) if open_for > Some(limits.open) => {
            found.push(finding("long-open", first, format!("Open for {length}{who}.")));
        }
        (None, Some(_) | None) => {}
    }
    if opening.end == End::Ongoing && opening.opened.is_some() {
        found.push(finding("still-open", first, format!("Still open at the last record{who}.")));
    }
}
