//! Invariants 7 and 12: the settings of a boot are the last ones, whole; what
//! nobody set never appears.

use lock_core::port::Fault;

use super::{Invariant, Suffered, Violation};
use crate::memory::{Look, Print};

/// The versions of the settings.
#[derive(Clone, Debug)]
pub(super) struct Versions {
    last: Print,
}

impl Versions {
    pub(super) const fn of(commissioned: Print) -> Self {
        Self { last: commissioned }
    }

    pub(super) fn look(&self, look: &Look, suffered: &Suffered) -> Result<(), Violation> {
        match look.settings {
            Ok(print) if print == self.last => Ok(()),
            Ok(_) if suffered.memory > 0 => {
                Err(Violation::new(Invariant::AnyImage, "settings appeared that nobody made"))
            }
            Ok(_) => {
                let what = "the settings are neither the last committed nor the in-flight ones";
                Err(Violation::new(Invariant::SettingsWhole, what))
            }
            Err(_) if suffered.memory > 0 => Ok(()),
            // A boot whose own writes did not hold asks for service, once.
            Err(Fault::Store) => Ok(()),
            Err(fault) => {
                let what = format!("power cuts alone left the settings as {fault:?}");
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
    use crate::world::Spoilt;

    #[test]
    fn other_settings_and_none_are_seen() {
        for settings in [Ok(Print(2)), Err(Fault::Settings), Err(Fault::Blank)] {
            let mut story = Forge::booted();
            story.cut();
            story.look.settings = settings;
            story.on().boot();
            assert_eq!(story.violated(), Some(Invariant::SettingsWhole), "{settings:?}");
        }
    }

    #[test]
    fn spoilt_settings_ask_for_service_and_invent_nothing() {
        for (settings, violated) in
            [(Err(Fault::Settings), None), (Ok(Print(2)), Some(Invariant::AnyImage))]
        {
            let mut story = Forge::booted();
            story.spoilt(Spoilt::Settings).cut();
            story.look.settings = settings;
            story.on().boot().did(SAYS_SERVICE).rest();
            assert_eq!(story.violated(), violated, "{settings:?}");
        }
    }
}
