//! What cases went through, counted, so that a report of nothing found says
//! what was looked at.

use emulated_board::trace::{Durable, What};
use lock_core::audit::{Event, Record};
use lock_core::port::{Alarm, Drive, Effect, Tally, Write};

use crate::memory::{Entry, Look};
use crate::rig::Covered;
use crate::world::Happening;

/// Counts what happened.
pub(super) fn count(happening: &Happening, covered: &mut Covered) {
    let what = match happening {
        Happening::Line(line) => match line.what {
            What::Wrote(_, Durable::Unknown) => "cuts within a write",
            What::Tended(Durable::Unknown) => "cuts within upkeep",
            What::Wrote(_, Durable::No) => "failed writes",
            What::Wrote(Write::Tally(Tally::Counted(_)), Durable::Yes) => "tries",
            What::Wrote(Write::Tally(Tally::Penalty), Durable::Yes) => "penalties",
            What::Wrote(Write::Record(Record { event: Event::Asked { .. }, .. }), Durable::Yes) => {
                "dialogues begun"
            }
            What::Did(Effect::SetClock(_)) => "clocks set",
            What::Did(Effect::Drive(Drive::Free)) => "releases",
            What::Did(Effect::Alarm(Alarm::Duress)) => "duress alarms",
            What::PowerCut => "ends of the power",
            _ => return,
        },
        Happening::Boot(look, _) => {
            covered.add("boots", 1);
            covered.add("boots in service", u64::from(look.settings.is_err()));
            return covered.add("gaps listed", gaps(look));
        }
        Happening::Edited { durable: Durable::Yes, .. } => "settings changed",
        Happening::Edited { durable: Durable::Unknown, .. } => "cuts within a change",
        Happening::Edited { durable: Durable::No, .. } => "failed changes",
        Happening::Spoilt(_) => "faults of the flash",
        Happening::Step { .. }
        | Happening::Look(_)
        | Happening::Rest { .. }
        | Happening::Restless(_) => return,
    };
    covered.add(what, 1);
}

/// Gaps that say that something is lost.
fn gaps(look: &Look) -> u64 {
    let lost = |entry: &&Entry| matches!(entry, Entry::Gap { lost, .. } if *lost > 0);
    look.list.iter().filter(lost).count() as u64
}
