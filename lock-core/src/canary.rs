//! Bugs on purpose, for the rig to catch: one can be chosen at run time in a
//! build with `--cfg canary`; in any other there is none.
//!
//! A check that has never failed proves nothing. Each of these is a mistake
//! that a lock or a store could well have, in the place where it would be made;
//! `emulator rig canaries` shows that the rig finds every one.

/// `canary!(Name)`: whether that bug was chosen. In a normal build it is the
/// word `false`, and nothing of it is compiled.
#[cfg(not(canary))]
macro_rules! canary {
    ($bug:ident) => {
        false
    };
}

#[cfg(canary)]
macro_rules! canary {
    ($bug:ident) => {
        $crate::canary::chosen() == Some($crate::canary::Bug::$bug)
    };
}

#[cfg(canary)]
pub use bugs::{Bug, choose, chosen};

#[cfg(canary)]
mod bugs {
    use core::sync::atomic::{AtomicUsize, Ordering};

    macro_rules! bugs {
        ($($bug:ident, $name:literal, $about:literal;)+) => {
            /// A mistake that can be chosen.
            #[derive(Clone, Copy, PartialEq, Eq, Debug)]
            pub enum Bug { $(#[doc = $about] $bug,)+ }

            impl Bug {
                /// All of them.
                pub const ALL: &'static [Self] = &[$(Self::$bug,)+];

                /// Its name on the command line.
                #[must_use]
                pub const fn name(self) -> &'static str {
                    match self { $(Self::$bug => $name,)+ }
                }

                /// What is wrong with it.
                #[must_use]
                pub const fn about(self) -> &'static str {
                    match self { $(Self::$bug => $about,)+ }
                }
            }
        };
    }

    bugs! {
        // The store.
        NoReadBack, "no-read-back", "what was programmed is not read back";
        NoCheckValue, "no-check-value", "check values are not compared";
        NewestNotCopied, "newest-not-copied", "a boot does not write the newest record again";
        TallyNotCopied, "tally-not-copied", "a boot does not write the newest tally entry again";
        NextPageTrusted, "next-page-trusted", "a page that looks blank is not erased at boot";
        EraseSkipped, "erase-skipped", "the next page is taken for erased without being erased";
        SequenceReused, "sequence-reused", "the number of a torn record is given again";
        GapHidden, "gap-hidden", "a list does not say what is missing";
        FloorForgotten, "floor-forgotten", "the newest time on record is not kept";
        CheckpointUnproved, "checkpoint-unproved", "a tally page counts before anything stands behind its checkpoint";
        LostTallyIsZero, "lost-tally-is-zero", "a tally that cannot be read begins at zero";
        HeaderUnproved, "header-unproved", "a settings bank counts before its mark";
        EraseBeforeCommit, "erase-before-commit", "the settings in force are erased before the new ones are written";
        OldBankKept, "old-bank-kept", "settings that were replaced stay in flash";
        ChangeUnrecorded, "change-unrecorded", "a boot does not add the record of a change";
        DuressRecordDropped, "duress-record-dropped", "a record under duress is not written";
        // The lock.
        CountAfterVerdict, "count-after-verdict", "a try is counted after it was judged";
        CountDropped, "count-dropped", "a try is counted in memory only";
        OthersCleared, "others-cleared", "a right code clears everybody's counts";
        PenaltyInMemory, "penalty-in-memory", "a penalty is not put in flash";
        PenaltyForgotten, "penalty-forgotten", "a boot does not restart a penalty";
        HoldInMemory, "hold-in-memory", "a hold-shut is not put in flash";
        DoubtInMemory, "doubt-in-memory", "a doubted clock is believed after a boot";
        RecordAfterRelease, "record-after-release", "the drive moves before the opening is on record";
        FaultIgnored, "fault-ignored", "a write that failed is taken for one that did not";
        EditInMemory, "edit-in-memory", "a change of the settings is recorded and not made";
        GrantedFirst, "granted-first", "a change is said to be made before it is durable";
        ClockNotDoubted, "clock-not-doubted", "the clock is set before it is doubted for good";
        SettlesEarly, "settles-early", "a clock settles within a minute";
        ReleaseResumed, "release-resumed", "a boot goes on with a release";
        AlarmNeedsFlash, "alarm-needs-flash", "a duress alarm is not given if its record cannot be written";
        AlarmNotRaisedAgain, "alarm-not-raised-again", "a boot does not raise a duress alarm again";
    }

    /// The place of the chosen bug, from 1; 0: none.
    static CHOSEN: AtomicUsize = AtomicUsize::new(0);

    /// Chooses a bug for the whole process, or none.
    pub fn choose(bug: Option<Bug>) {
        let place = Bug::ALL.iter().zip(1..).find(|(other, _)| Some(**other) == bug);
        CHOSEN.store(place.map_or(0, |(_, place)| place), Ordering::Relaxed);
    }

    /// The bug that is chosen.
    #[must_use]
    pub fn chosen() -> Option<Bug> {
        let place = CHOSEN.load(Ordering::Relaxed).checked_sub(1)?;
        Bug::ALL.get(place).copied()
    }
}
