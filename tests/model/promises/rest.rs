//! The lock rests, and no wake-up starves a key. Source: `docs/behaviour.md`,
//! section 1: "after any input it asks for no write, and for no wake-up that is due
//! already, within 40 turns. The device gives a wake-up that is due, then what was
//! noticed, in turn: neither makes the other wait."

use lock_core::device::Progress;
use lock_core::port::Input;

use crate::adapter::Heard;

/// A turn is a step of the lock: an input, or the result of a write.
const MOST_TURNS: u32 = 40;

#[derive(Default)]
pub(super) struct Rest {
    /// Since the last input from outside, or since it slept.
    turns: u32,
    /// The last thing that happened was a wake-up, and nothing came of it.
    idle: bool,
    /// Wake-ups since something was noticed that the lock does not have yet.
    overtaken: u32,
    pub(super) most_turns: u32,
    /// How often a wake-up came first where something was noticed.
    pub(super) contested: u32,
    /// How often something was noticed while a write was under way.
    pub(super) busy: u32,
    pub(super) asleep_until_ms: Option<u64>,
}

impl Rest {
    pub(super) fn step(&mut self, heard: &Heard<'_>) {
        match heard.progress {
            Progress::Took(Input::Woken) => {
                assert!(!self.idle, "it asks twice running for a wake-up that is past");
                self.idle = true;
                self.turn();
                if heard.waits {
                    self.overtaken += 1;
                    self.contested += 1;
                    assert!(self.overtaken < 2, "two wake-ups before what was noticed");
                }
            }
            Progress::Took(
                Input::Key(_)
                | Input::Bolt(_)
                | Input::Door(_)
                | Input::Supply(_)
                | Input::Inhibit(_)
                | Input::Switch(_)
                | Input::Transfer(_)
                | Input::DriveFault
                | Input::Stored(_),
            ) => {
                (self.turns, self.idle, self.overtaken) = (0, false, 0);
            }
            Progress::Wrote(..) => {
                self.busy += u32::from(heard.waits);
                self.idle = false;
                self.turn();
            }
            Progress::Did(_) => self.idle = false,
            Progress::Tended(_) => (),
            Progress::Asleep(wake) => {
                assert!(!heard.waits, "it sleeps although something was noticed");
                self.asleep_until_ms = wake.map(|wake| wake.as_millis());
                (self.turns, self.idle) = (0, false);
            }
        }
    }

    fn turn(&mut self) {
        self.turns += 1;
        self.most_turns = self.most_turns.max(self.turns);
        assert!(self.turns <= MOST_TURNS, "it does not rest within {MOST_TURNS} turns");
    }
}
