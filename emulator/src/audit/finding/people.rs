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
        stayed_open(opening, first, limits, found);
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

fn stayed_open(opening: &Opening, first: Mark, limits: Limits, found: &mut Vec<Finding>) {
    let for_long = opening.open_for().filter(|open_for| *open_for > limits.open);
    let for_long = for_long.map(|open_for| length(open_for.get()));
    match (opening.left_open, for_long) {
        (Some(mark), Some(length)) => {
            let what = format!("Left open past the end of the window: open for {length}.");
            found.push(finding("left-open", mark, what));
        }
        (Some(mark), None) => {
            let what = match opening.open_for() {
                Some(open_for) => format!(
                    "Left open past the end of the window: open for {}.",
                    length(open_for.get())
                ),
                None => "Left open past the end of the window.".to_owned(),
            };
            found.push(finding("left-open", mark, what));
        }
        (None, Some(length)) => {
            found.push(finding("long-open", first, format!("Open for {length}.")));
        }
        (None, None) => {}
    }
    if opening.end == End::Ongoing && opening.opened.is_some() {
        let what = "Still open at the last record.".to_owned();
        found.push(finding("still-open", first, what));
    }
}
