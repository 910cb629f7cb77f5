//! A boot: what the machine is made of, and what it records of what it finds.

use super::alarm::AlarmLine;
use super::anew::Anew;
use super::bolt::{Boltwork, How, Moment, Open};
use super::clock::LockClock;
use super::countdowns::Countdowns;
use super::counts::Counts;
use super::display::Display;
use super::in_force::InForce;
use super::keypad::Keypad;
use super::out::Out;
use super::pair::Pair;
use super::service::Service;
use super::step::Machine;
use super::supply::Supply;
use super::writes::{Continuation, Kept, Writes};
use crate::audit::{Event, Outcome};
use crate::policy::Policy;
use crate::port::{Contacts, Drive, Fault, Now, Tally, Turn};
use crate::recovered::{LastWord, Recovered};
use crate::rules::ends::Ends;
use crate::seed::Seed;
use crate::tally::{ClockMark, SetUp};
use crate::time::{Seconds, Utc};

/// What of a boot's findings decides its first turn.
#[derive(Clone, Copy)]
pub(crate) struct Waking {
    outcome: Option<Outcome>,
    word: LastWord,
    doubted: ClockMark,
    powered_up: Recorded,
}

/// Whether a power-up is on record.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Recorded {
    /// It is.
    Yes,
    /// It is only counted: two others stand before it.
    Counted,
}

impl Waking {
    pub(crate) fn of(found: &Recovered) -> Self {
        Self {
            outcome: found.newest_outcome,
            word: found.last_word,
            doubted: found.tally.clock,
            powered_up: if found.powered_up_twice { Recorded::Counted } else { Recorded::Yes },
        }
    }
}

/// What a lock is powered up with.
pub struct PowerUp {
    /// The moment.
    pub now: Now,
    /// What the contacts report.
    pub contacts: Contacts,
    /// Randomness, new at each power-up.
    pub seed: Seed,
    /// When the firmware was built: its clock is never before that.
    pub built: Utc,
}

silent!(PowerUp);

impl Machine {
    /// A lock that was just powered up, and its first turn.
    ///
    /// It starts secured, or open if it is found ajar; no release, wait, claim
    /// or first of two people survives a boot, and a penalty starts anew.
    #[inline(never)] // own frame
    #[must_use]
    pub fn boot(mut found: Recovered, power: PowerUp) -> (Self, Turn) {
        let (waking, now) = (Waking::of(&found), power.now);
        let mut machine = Self::found(&mut found, power);
        let turn = machine.first_turn(now, waking);
        (machine, turn)
    }

    /// The machine of [`Machine::boot`], whose [first turn](Machine::first_turn) is to
    /// come. What was known moves into it.
    #[inline(never)] // own frame
    pub(crate) fn found(found: &mut Recovered, power: PowerUp) -> Self {
        let PowerUp { now, contacts, seed, built } = power;
        let policy = found.known.as_ref().map_or(Policy::DEFAULT, |known| known.policy);
        let kept = match found.known {
            Err(Fault::Blank) => Kept::Nothing,
            Err(Fault::Layout) => Kept::Others,
            Err(Fault::Settings) => Kept::Unread,
            Ok(_) | Err(Fault::Store | Fault::Drive | Fault::Bug) => Kept::Ours,
        };
        let fault = match &found.known {
            Ok(known) => (known.enrolled == 0).then_some(Fault::Blank),
            Err(fault) => Some(*fault),
        };
        Self {
            in_force: InForce::at_boot(found),
            clock: LockClock::at_boot(found, built, now),
            supply: Supply::at_boot(found.supply),
            bolt: Boltwork::at_boot(contacts),
            pair: Pair::NOBODY,
            keypad: Keypad::AT_REST,
            counts: Counts::at_boot(found, &policy, now.uptime),
            alarm: AlarmLine::QUIET,
            display: Display::default(),
            service: Service::at_boot(fault),
            countdowns: Countdowns::at_boot(found.tally.way_out, now.uptime),
            anew: Anew::AT_BOOT,
            writes: Writes::new(kept),
            out: Out::default(),
            seed,
        }
    }

    /// The first turn.
    #[inline(never)] // own frame
    pub(crate) fn first_turn(&mut self, now: Now, waking: Waking) -> Turn {
        let at = self.moment(now);
        // A wake-up follows whichever code was the last, so that it does not
        // tell of duress.
        if let Some(outcome) = waking.outcome {
            self.alarm.judged(at.uptime.after(self.in_force.policy().alarm_hold));
            self.tell(outcome);
        }
        self.wake_up(at, waking);
        self.finish(at)
    }

    /// What a boot records, in order, and where it leaves the blocker: its
    /// position is unknown, so a thrown bolt is blocked anew.
    fn wake_up(&mut self, at: Moment, waking: Waking) {
        match waking.powered_up {
            Recorded::Yes => {
                let unrecorded = self.counts.power_ups();
                self.record(at, Event::PoweredUp { unrecorded }, Continuation::Nothing);
            }
            Recorded::Counted => self.tally(Tally::PoweredUp, Continuation::Nothing, at),
        }
        if self.bolt.contacts().ajar() {
            self.found_ajar(at, waking.word);
        } else {
            self.out.drive(Drive::Block);
            self.found_thrown(at, waking.word);
        }
        if !self.service.in_use() && self.counts.set_up() == SetUp::Done {
            self.tally(Tally::SettingUp, Continuation::Nothing, at);
        }
        if self.counts.penalty_until().is_none() && self.counts.left(self.in_force.policy()) == 0 {
            self.start_penalty(at);
        }
        if self.clock.is_invalid() && waking.doubted == ClockMark::Believed {
            if self.service.in_use() {
                self.doubt_clock(at);
            } else {
                self.tally(Tally::ClockDoubt(at.steady), Continuation::Nothing, at);
            }
        }
    }

    fn found_thrown(&mut self, at: Moment, word: LastWord) {
        match word {
            LastWord::Opened(..) if !self.service.in_use() => {}
            LastWord::Opened(_, opened) => {
                let open_for = at.utc.zip(opened).map(|(now, opened)| now.since(opened));
                self.record(at, Event::FoundThrown { open_for }, Continuation::Nothing);
            }
            LastWord::Released(_) => self.record(at, Event::NotDrawn, Continuation::Nothing),
            LastWord::Shut | LastWord::Forced => {}
        }
    }

    fn found_ajar(&mut self, at: Moment, word: LastWord) {
        let (people, opened) = match word {
            LastWord::Shut => return self.drawn_without_release(at),
            LastWord::Forced if self.service.in_use() => {
                self.alarm.tamper(at.uptime.after(self.in_force.policy().alarm_hold));
                self.bolt.found(Open::now(How::Forced, None, Ends::Never, at));
                return;
            }
            LastWord::Forced => (None, None),
            LastWord::Released(people) => {
                self.record(at, Event::Opened, Continuation::Nothing);
                (people, None)
            }
            LastWord::Opened(people, opened) => (people, opened),
        };
        let earlier = at.utc.zip(opened).map_or(Seconds::ZERO, |(now, then)| now.since(then));
        let open = Open::now(How::FoundOpened, people, Ends::Never, at);
        self.bolt.found(Open { earlier, ..open });
    }
}
