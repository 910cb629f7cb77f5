//! Invariants 7 and 12: the settings of a boot are the last ones, whole; what
//! nobody set never appears.

use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::{Change, Event, Record};
use lock_core::port::{Fault, Write};

use super::{Invariant, Suffered, Violation};
use crate::memory::{Look, Print};

/// The versions of the settings.
#[derive(Clone, Debug)]
pub(super) struct Versions {
    last: Print,
    /// A change of which nobody knows whether it was made, and its record.
    doubt: Option<(Option<Print>, Record)>,
}

/// What became of a change that was in doubt.
pub(super) struct Settled {
    /// Its record.
    pub(super) record: Record,
    /// Whether it was made.
    pub(super) made: bool,
}

impl Versions {
    pub(super) const fn of(commissioned: Print) -> Self {
        Self { last: commissioned, doubt: None }
    }

    pub(super) const fn last(&self) -> Print {
        self.last
    }

    pub(super) const fn edited(&mut self, record: Record, after: Option<Print>, durable: Durable) {
        match (durable, after) {
            (Durable::Yes, Some(after)) => (self.last, self.doubt) = (after, None),
            (Durable::Yes, None) | (Durable::No | Durable::Unknown, _) => {
                self.doubt = Some((after, record));
            }
        }
    }

    /// A change of the settings is on record together with the change only.
    pub(super) fn line(line: &Line) -> Result<(), Violation> {
        let What::Wrote(Write::Record(record), _) = line.what else { return Ok(()) };
        let Event::Changed { change, .. } = record.event else { return Ok(()) };
        match change {
            Change::Commissioned(_)
            | Change::Enrolled(..)
            | Change::CodeChanged(_)
            | Change::RoleChanged(..)
            | Change::TimetableChosen(..)
            | Change::Suspended(_)
            | Change::Restored(_)
            | Change::Removed(_)
            | Change::PolicySet(..)
            | Change::Paired(_)
            | Change::FileLoaded(_)
            | Change::FileWaits(_)
            | Change::Reset => {
                let what = format!("{} was recorded, and no settings changed", change.kind());
                Err(Violation::new(Invariant::SettingsWhole, what))
            }
            Change::ClockCorrected(_)
            | Change::ClockSet(_)
            | Change::Collected(_)
            | Change::AlarmTested
            | Change::ResetBegun
            | Change::ResetCancelled
            | Change::WayOutBegun
            | Change::WayOutEnded
            | Change::WayOut => Ok(()),
        }
    }

    /// A boot decides what is in doubt.
    pub(super) fn boot(
        &mut self,
        look: &Look,
        suffered: &Suffered,
    ) -> Result<Option<Settled>, Violation> {
        self.look(look, suffered)?;
        let Ok(print) = look.settings else { return Ok(None) };
        let made = print != self.last;
        self.last = print;
        // A change that changes nothing leaves only its record to tell.
        let told = self.doubt.take().filter(|(after, _)| made || *after != Some(print));
        Ok(told.map(|(_, record)| Settled { record, made }))
    }

    pub(super) fn look(&self, look: &Look, suffered: &Suffered) -> Result<(), Violation> {
        match look.settings {
            Ok(print) if print == self.last => Ok(()),
            Ok(print) if self.doubt.is_some_and(|(doubt, _)| doubt.is_none_or(|d| d == print)) => {
                Ok(())
            }
            Ok(_) if !suffered.memory.is_empty() => {
                Err(Violation::new(Invariant::AnyImage, "settings appeared that nobody made"))
            }
            Ok(_) => {
                let what = "the settings are neither the last committed nor the in-flight ones";
                Err(Violation::new(Invariant::SettingsWhole, what))
            }
            // Nothing makes settings look as if there had never been any.
            Err(Fault::Settings | Fault::Layout) if suffered.costs_a_row() => Ok(()),
            // A boot whose own writes did not hold asks for service, once.
            Err(Fault::Store) => Ok(()),
            Err(fault) => {
                let what = match suffered.memory.len() {
                    0 => format!("power cuts alone left the settings as {fault:?}"),
                    flips => format!("{flips} turned bits left the settings as {fault:?}"),
                };
                Err(Violation::new(Invariant::SettingsWhole, what))
            }
        }
    }
}

/// The wording of invariants 7 and 12, each broken once.
#[cfg(test)]
mod tests {
    use super::super::forge::*;
    use super::*;
    use crate::memory::Part;
    use crate::world::Spoilt;

    #[test]
    fn other_settings_and_none_are_seen() {
        for settings in [Ok(print(2)), Err(Fault::Settings), Err(Fault::Blank)] {
            let mut story = Forge::booted();
            story.cut();
            story.look.settings = settings;
            story.on().boot();
            assert_eq!(story.violated(), Some(Invariant::SettingsWhole), "{settings:?}");
        }
    }

    #[test]
    fn a_change_in_doubt_is_made_or_not_and_stays_so_with_its_record() {
        for durable in [Durable::No, Durable::Unknown] {
            for (settings, recorded, violated) in [
                (1, false, None),
                (2, true, None),
                (3, false, Some(Invariant::SettingsWhole)),
                (1, true, Some(Invariant::NumbersRise)),
                (2, false, Some(Invariant::Committed)),
            ] {
                let mut story = Forge::booted();
                story.edited(print(2), durable, recorded).cut();
                story.look.settings = Ok(print(settings));
                story.on().boot().rest();
                assert_eq!(story.violated(), violated, "{durable:?} {settings} {recorded}");
                if violated.is_none() {
                    story.cut();
                    story.look.settings = Ok(print(3 - settings));
                    story.on().boot();
                    assert_eq!(story.violated(), Some(Invariant::SettingsWhole));
                }
            }
        }
    }

    #[test]
    fn a_change_that_was_committed_never_reverts() {
        let mut story = Forge::booted();
        story.edited(print(2), Durable::Yes, true).cut();
        story.look.settings = Ok(print(1));
        story.on().boot();
        assert_eq!(story.violated(), Some(Invariant::SettingsWhole));
    }

    #[test]
    fn spoilt_settings_ask_for_service_and_invent_nothing() {
        let lost = Err(Fault::Settings);
        // One turned bit is mended, two in one row are not.
        for (turned, settings, violated) in [
            (&[70, 100][..], lost, None),
            (&[70], lost, Some(Invariant::SettingsWhole)),
            (&[70, 140], lost, Some(Invariant::SettingsWhole)),
            (&[70, 100], Err(Fault::Blank), Some(Invariant::SettingsWhole)),
            (&[70, 100], Ok(print(2)), Some(Invariant::AnyImage)),
        ] {
            let mut story = Forge::booted();
            for address in turned {
                story.spoilt(Spoilt::Content(Part::Settings, *address));
            }
            story.cut();
            story.look.settings = settings;
            story.on().boot().did(SAYS_SERVICE).rest();
            assert_eq!(story.violated(), violated, "{turned:?} {settings:?}");
        }
    }

    #[test]
    fn what_a_first_warden_erased_is_not_missed() {
        let commissioned = Event::Changed { by: None, change: Change::Commissioned(number(1)) };
        for (turned, event, violated) in [
            (&[70, 100][..], commissioned, None),
            // No other change can be made there, and nobody erased anything where all is whole.
            (&[70, 100], Event::LeftOpen, Some(Invariant::AnyImage)),
            (&[], commissioned, Some(Invariant::SettingsWhole)),
        ] {
            let mut story = Forge::booted();
            for address in turned {
                story.spoilt(Spoilt::Content(Part::Settings, *address));
            }
            story.cut();
            let lost = if turned.is_empty() { Ok(print(1)) } else { Err(Fault::Settings) };
            story.look.settings = lost;
            story.on().boot();
            story.edited_as(event, print(2), Durable::Yes, true).cut();
            story.look.settings = Ok(print(3));
            story.on().boot();
            assert_eq!(story.violated(), violated, "{turned:?} {event:?}");
        }
    }

    #[test]
    fn a_record_of_a_change_without_the_change_is_seen() {
        let who = number(12);
        for (change, violated) in [
            (Change::Suspended(who), Some(Invariant::SettingsWhole)),
            (Change::PolicySet(1, 3), Some(Invariant::SettingsWhole)),
            (Change::Reset, Some(Invariant::SettingsWhole)),
            (Change::ResetBegun, None),
        ] {
            let mut story = Forge::booted();
            story.wrote(record(Event::Changed { by: None, change })).rest();
            assert_eq!(story.violated(), violated, "{change:?}");
        }
    }

    /// A change that changes nothing leaves only its record to tell, and that may
    /// be there or not.
    #[test]
    fn a_change_to_the_same_is_made_or_not() {
        for recorded in [false, true] {
            let mut story = Forge::booted();
            story.edited(print(1), Durable::Unknown, recorded).cut().on().boot().rest();
            assert_eq!(story.violated(), None);
        }
    }

    /// Whether nobody is enrolled decides whether a lock may go on asking.
    #[test]
    fn a_lock_in_which_nobody_is_enrolled_may_ask_for_service() {
        for (enrolled, violated) in [(0, None), (1, Some(Invariant::BootEnds))] {
            let mut story = Forge::booted();
            let after = Print { enrolled, ..print(2) };
            story.edited(after, Durable::Yes, true);
            story.look.settings = Ok(after);
            for _ in 0..2 {
                story.cut().on().boot().did(SAYS_SERVICE).rest();
            }
            assert_eq!(story.violated(), violated, "{enrolled}");
        }
    }
}
