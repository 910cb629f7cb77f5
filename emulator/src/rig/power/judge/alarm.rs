//! Invariant 10: a duress code is heard far away, whatever became of its
//! record; what was heard is recorded. (That the record stays listed is
//! `audit.rs`.)

use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::{Change, Event, Outcome, Record};
use lock_core::port::{Alarm, Effect, Write};

use super::{Invariant, Violation};
use crate::memory::{Entry, Look};

/// The alarm line, as far as the trace has come.
#[derive(Clone, Debug, Default)]
pub(super) struct Alarms {
    level: Level,
    /// A duress code or a test of the line was recorded, or a write failed that may have hidden one,
    /// in this run.
    reason: Reason,
    /// The newest outcome that was ever listed, and its number: a lock
    /// remembers it when its record is overwritten.
    newest: Option<(u32, Outcome)>,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
enum Level {
    #[default]
    Other,
    Duress,
}

/// What the line would be raised for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
enum Reason {
    #[default]
    None,
    /// It may be raised: a write failed, and what was to follow may have been
    /// a duress record.
    May,
    /// It must be before the lock rests.
    Must,
}

impl Alarms {
    pub(super) fn line(&mut self, line: &Line) -> Result<(), Violation> {
        match line.what {
            What::PowerOn | What::PowerCut => {
                *self = Self { newest: self.newest, ..Self::default() }
            }
            What::Wrote(write, durable) => {
                let duress = matches!(write, Write::Record(record) | Write::Edit(record)
                    if record.event.outcome() == Some(Outcome::Duress));
                let test = matches!(
                    write,
                    Write::Record(Record {
                        event: Event::Changed { change: Change::AlarmTested, .. },
                        ..
                    })
                );
                match (duress || test, durable) {
                    (true, Durable::Yes) => self.reason = Reason::Must,
                    // Only a test that is on record is one.
                    (true, Durable::No) if duress => self.reason = Reason::Must,
                    (true | false, Durable::No) => self.reason = self.reason.max(Reason::May),
                    (true | false, Durable::Unknown) | (false, Durable::Yes) => {}
                }
            }
            What::Did(Effect::Alarm(Alarm::Duress)) => {
                if self.reason == Reason::None {
                    let what = "the alarm said duress, and no record does";
                    return Err(Violation::new(Invariant::DuressHeard, what));
                }
                self.level = Level::Duress;
                self.reason = Reason::May;
            }
            What::Did(Effect::Alarm(Alarm::Quiet | Alarm::Tamper)) => {
                self.level = Level::Other;
                self.reason = Reason::None;
            }
            What::Did(_) | What::Told(_) | What::Tended(_) => {}
        }
        Ok(())
    }

    /// A boot: if the newest outcome is duress, the alarm is due.
    pub(super) fn boot(&mut self, look: &Look) {
        self.look(look);
        self.reason = match self.newest {
            Some((_, Outcome::Duress)) => Reason::Must,
            Some((_, Outcome::Plain)) | None => Reason::None,
        };
    }

    pub(super) fn look(&mut self, look: &Look) {
        for entry in &look.list {
            let Entry::Record(number, record) = entry else { continue };
            let (known, before) = self.newest.unzip();
            if record.event.outcome().is_some() && Some(*number) > known {
                self.newest = record.event.heard(before).map(|outcome| (*number, outcome));
            }
        }
    }

    pub(super) fn rest(&mut self) -> Result<(), Violation> {
        if self.reason == Reason::Must && self.level != Level::Duress {
            let what = "a duress code was recorded, and the lock rests without an alarm";
            return Err(Violation::new(Invariant::DuressHeard, what));
        }
        self.reason = Reason::None;
        Ok(())
    }
}

/// The wording of invariant 10, broken in each of its halves.
#[cfg(test)]
mod tests {
    use lock_core::audit::Refusal;
    use lock_core::port::Tally;

    use super::super::forge::*;
    use super::*;

    fn duress() -> Write {
        refused(12, Refusal::Closed, Outcome::Duress)
    }

    #[test]
    fn an_alarm_with_its_record_is_fine_and_raised_again_by_a_boot() {
        let mut story = Forge::booted();
        story.try_on(12).wrote(duress()).did(SILENT).did(REFUSED).wrote(cleared(12)).rest();
        story.cut().on().boot().did(SILENT).rest().later(60).did(QUIET).rest();
        assert_eq!(story.violated(), None);
    }

    #[test]
    fn an_alarm_that_does_not_go_out_is_seen() {
        for durable in [Durable::Yes, Durable::No] {
            let mut story = Forge::booted();
            story.try_on(12).wrote_so(duress(), durable).did(REFUSED).rest();
            assert_eq!(story.violated(), Some(Invariant::DuressHeard), "{durable:?}");
        }
        let mut story = Forge::booted();
        story.try_on(12).wrote(duress()).cut().on().boot().rest();
        assert_eq!(story.violated(), Some(Invariant::DuressHeard));
    }

    /// A test of the line is heard as an alarm is, and only once it is on record.
    #[test]
    fn a_test_of_the_line_is_heard() {
        let test = record(Event::Changed { by: None, change: Change::AlarmTested });
        for (durable, heard, violated) in [
            (Durable::Yes, true, None),
            (Durable::Yes, false, Some(Invariant::DuressHeard)),
            (Durable::No, false, None),
            (Durable::Unknown, true, Some(Invariant::DuressHeard)),
        ] {
            let mut story = Forge::booted();
            story.wrote_so(test, durable);
            if heard {
                story.did(SILENT);
            }
            story.rest();
            assert_eq!(story.violated(), violated, "{durable:?} {heard}");
        }
        let mut story = Forge::booted();
        story.wrote(test).did(SILENT).rest().cut().on().boot().did(SILENT);
        assert_eq!(story.violated(), Some(Invariant::DuressHeard), "no boot raises a test again");
    }

    #[test]
    fn an_alarm_without_a_record_is_seen() {
        let mut story = Forge::booted();
        story.try_on(12).did(SILENT);
        assert_eq!(story.violated(), Some(Invariant::DuressHeard));
        let mut story = Forge::booted();
        story.try_on(12).wrote(released(12)).cut().on().boot().did(SILENT);
        assert_eq!(story.violated(), Some(Invariant::DuressHeard));
    }

    /// A hold-shut's tally entry that fails takes the record behind it along.
    #[test]
    fn an_alarm_goes_out_if_the_write_before_its_record_fails() {
        let until = Tally::HeldShut(lock_core::time::Steady::from_secs(99));
        let mut story = Forge::booted();
        story.try_on(12).wrote_so(Write::Tally(until), Durable::No).did(SILENT).rest();
        assert_eq!(story.violated(), None);
    }
}
