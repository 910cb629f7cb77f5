//! No change is durable without its record, and none under another's. Source:
//! `docs/behaviour.md`, section 12: "Nothing is changed before that, and then whole,
//! with its record, in one write"; of one-time codes section 6.

use lock_core::audit::{Change, Event, People, Record};
use lock_core::device::Progress;
use lock_core::port::Write;

use crate::adapter::{Fails, Heard, Kept, Memory, Part};

#[derive(Default)]
pub(super) struct Changes {
    /// What a boot would have found after the last change.
    kept: Kept,
    pub(super) made: u32,
    /// Changes that are durable although the lock was told that they are not.
    pub(super) denied: u32,
    pub(super) failed: u32,
}

impl Changes {
    pub(super) fn step(&mut self, heard: &mut Heard<'_>) {
        if let Progress::Wrote(Write::Record(record), _) = heard.progress {
            let parts = (0..=99).map(Part::Row).chain([Part::Policy, Part::Pairing, Part::Files]);
            let made = parts.into_iter().any(|part| belongs(part, record));
            assert!(!made, "R6: recorded without being made: {record:?}");
        }
        if let Progress::Wrote(Write::Edit(record), result) = heard.progress {
            let now = heard.memory.kept_if_cut_now();
            let differs = now.differs_from(&self.kept);
            let recorded = now.newest == Some(*record);
            if result.is_ok() {
                assert!(recorded, "R6: a change without its record: {record:?}");
                self.made += 1;
            } else if heard.memory.fails() == Some(Fails::Done) {
                assert!(recorded, "R6: it was not told, and is durable: {record:?}");
                self.denied += 1;
            } else {
                assert!(differs.is_empty() && !recorded, "R6: {differs:?} without {record:?}");
                self.failed += 1;
            }
            if recorded {
                for part in &differs {
                    assert!(belongs(*part, record), "R6: {part:?} changed under {record:?}");
                }
                assert!(says_so(record, &now, &differs), "R6: not what {record:?} says");
            }
            self.kept = now;
        }
    }

    /// Nothing differs from what the last change left.
    pub(super) fn look(&mut self, memory: &mut Memory) {
        let now = memory.kept_if_cut_now();
        let differs = now.differs_from(&self.kept);
        assert!(differs.is_empty(), "R6: {differs:?} without any record");
    }

    /// Another lock, as it is set up.
    pub(super) fn begin(&mut self, memory: &mut Memory) {
        self.kept = memory.kept_if_cut_now();
    }
}

/// Whether a record can stand for a change of that part.
fn belongs(part: Part, record: &Record) -> bool {
    match record.event {
        Event::Changed { change, .. } => match change {
            Change::Commissioned(_) | Change::Reset => true,
            Change::Enrolled(number, _)
            | Change::CodeChanged(number)
            | Change::RoleChanged(number, _)
            | Change::TimetableChosen(number, _)
            | Change::Suspended(number)
            | Change::Restored(number)
            | Change::Removed(number) => {
                [Part::Row(number.get()), Part::Counter(number.get())].contains(&part)
            }
            Change::PolicySet(..) => part == Part::Policy,
            // A new key retires a file that waits; codes under it begin anew.
            Change::Paired(_) => {
                matches!(part, Part::Pairing | Part::Files | Part::Counter(_))
            }
            Change::FileLoaded(_) => matches!(part, Part::Files | Part::Hours),
            Change::FileWaits(_) => part == Part::Files,
            Change::ClockCorrected(_)
            | Change::ClockSet(_)
            | Change::Collected(_)
            | Change::AlarmTested
            | Change::ResetBegun
            | Change::ResetCancelled
            | Change::WayOutBegun
            | Change::WayOutEnded
            | Change::WayOut => false,
        },
        Event::Released { people, .. } | Event::DelayStarted { people, .. } => spends(people, part),
        Event::PoweredUp { .. }
        | Event::FoundThrown { .. }
        | Event::Opened
        | Event::Secured { .. }
        | Event::NotDrawn
        | Event::LeftOpen
        | Event::Forced
        | Event::Lapsed
        | Event::Cancelled { .. }
        | Event::FirstOfTwo { .. }
        | Event::WrongCode { .. }
        | Event::Refused { .. }
        | Event::Penalty { .. }
        | Event::HeldShut { .. }
        | Event::Status { .. }
        | Event::Supply { .. }
        | Event::ClockInvalid
        | Event::Asked { .. }
        | Event::Fault { .. } => false,
    }
}

/// A courier's one-time code is used up, of either person.
fn spends(people: People, part: Part) -> bool {
    let both = [Some(people.first), people.second];
    both.into_iter().flatten().any(|number| part == Part::Counter(number.get()))
}

/// Whether the settings are by now what the record says that they are.
fn says_so(record: &Record, now: &Kept, differs: &[Part]) -> bool {
    let Event::Changed { change, .. } = record.event else { return !differs.is_empty() };
    match change {
        Change::Commissioned(number) => now.enrolled() == 1 && now.has_row(number.get()),
        Change::Reset => now.enrolled() == 0 && now.generation().is_none(),
        Change::Removed(number) => !now.has_row(number.get()),
        Change::Enrolled(number, role) | Change::RoleChanged(number, role) => {
            now.row_says(number.get(), &format!("{role:?}"))
        }
        // What is chosen may be what was followed.
        Change::TimetableChosen(number, follows) => {
            now.row_says(number.get(), &format!("{follows:?}"))
        }
        Change::CodeChanged(number) | Change::Suspended(number) | Change::Restored(number) => {
            now.has_row(number.get()) && differs.contains(&Part::Row(number.get()))
        }
        Change::Paired(generation) => now.generation() == Some(generation),
        Change::FileLoaded(version) => now.versions() == (version, None),
        Change::FileWaits(version) => now.versions().1 == Some(version),
        // The value that is set may be the one that was.
        Change::PolicySet(..) => true,
        Change::ClockCorrected(_)
        | Change::ClockSet(_)
        | Change::Collected(_)
        | Change::AlarmTested
        | Change::ResetBegun
        | Change::ResetCancelled
        | Change::WayOutBegun
        | Change::WayOutEnded
        | Change::WayOut => false,
    }
}
