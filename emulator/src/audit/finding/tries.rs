//! Wrong codes: many on one number, and penalties one after the other.

use std::collections::BTreeMap;

use lock_core::audit::{Refusal, Seq};
use lock_core::holder::Number;
use lock_core::time::{DAY_SECONDS, Seconds, Utc};

use super::{Finding, finding};
use crate::audit::ledger::Ledger;
use crate::audit::names::Names;
use crate::audit::opening::Mark;

/// So many wrong codes on one number within a day are many. Ours: somebody who
/// has forgotten a code gives up or asks before that; it is three penalties of
/// the default policy less two tries.
const MANY: usize = 10;

/// So many penalties within a day are a guesser, or somebody who needs help.
/// Ours.
const PENALTIES: usize = 2;

const DAY: Seconds = Seconds::new(DAY_SECONDS);

pub(super) fn look(ledger: &Ledger, names: &Names<'_>, found: &mut Vec<Finding>) {
    let mut wrong: BTreeMap<u8, (Number, Vec<Mark>)> = BTreeMap::new();
    for refused in &ledger.refusals {
        match refused.why {
            None => {
                let of_number = wrong.entry(refused.who.get());
                let marks = &mut of_number.or_insert((refused.who, Vec::new())).1;
                marks.push(refused.mark);
            }
            Some(Refusal::Barred) => {
                let what = format!(
                    "{} is barred: too many wrong codes on this number.",
                    names.who(refused.who)
                );
                found.push(finding("barred", refused.mark, what));
            }
            Some(_) => {}
        }
    }
    for (number, marks) in wrong.into_values() {
        for (last, count) in crowds(&marks, MANY) {
            let what = format!(
                "{count} wrong codes on {} within a day, up to this record.",
                names.who(number)
            );
            found.push(finding("many-wrong-codes", last, what));
        }
    }
    let penalties: Vec<Mark> = ledger.penalties.iter().map(|(mark, _)| *mark).collect();
    for (last, count) in crowds(&penalties, PENALTIES) {
        let what = format!("{count} penalties within a day: somebody may be guessing codes.");
        found.push(finding("penalties", last, what));
    }
    battery_in_penalty(ledger, found);
}

/// Where at least `many` marks lie within a day of one another: the last of
/// each such crowd, and how many are in it. Marks without a time join the crowd
/// they stand in.
fn crowds(marks: &[Mark], many: usize) -> Vec<(Mark, usize)> {
    let mut crowds = Vec::new();
    let mut crowd: Vec<Mark> = Vec::new();
    for mark in marks {
        let began: Option<Utc> = crowd.iter().find_map(|mark| mark.at);
        let apart = matches!((began, mark.at), (Some(began), Some(at)) if at.since(began) >= DAY);
        if apart {
            crowds.push(std::mem::take(&mut crowd));
        }
        crowd.push(*mark);
    }
    crowds.push(crowd);
    let large = crowds.into_iter().filter(|crowd| crowd.len() >= many);
    large.filter_map(|crowd| Some((*crowd.last()?, crowd.len()))).collect()
}

/// A battery that is taken out in a penalty: it helps nobody (R2), but somebody
/// tried it.
fn battery_in_penalty(ledger: &Ledger, found: &mut Vec<Finding>) {
    let boots: BTreeMap<Seq, Mark> = ledger.boots().map(|mark| (mark.seq, mark)).collect();
    for (penalty, lasts) in &ledger.penalties {
        let Some((_, boot)) = boots.range(penalty.seq..).next() else { continue };
        let (Some(began), Some(at)) = (penalty.at, boot.at) else { continue };
        if at < began.after(*lasts) {
            let what = "The power failed in a penalty; the penalty started anew.".to_owned();
            found.push(finding("power-in-penalty", *boot, what));
        }
    }
}
