//! What must hold, from what the device says it did.
//!
//! Written from `docs/behaviour.md`. It knows no state of the machine: only the
//! keys that were taken, the writes that were made, the effects that reached
//! the world, and who is enrolled.

use lock_core::audit::{Change, Event, Outcome, People, Record, Refusal, Seq};
use lock_core::device::Progress;
use lock_core::holder::Number;
use lock_core::keys::Key;
use lock_core::policy::{Control, DuressCodes, Policy};
use lock_core::port::{
    Alarm, Chip, Contacts, Drive, Effect, Inhibit, Input, Now, StoreFault, Tally, Write,
};

use super::people::{self, BY_DAY, DAY, How, OPENERS, keys};
use crate::list::Promised;

/// The judge of one story.
pub(super) struct Judge {
    policy: Policy,
    /// Keys taken in this run since the last release, as bytes.
    typed: Vec<u8>,
    /// The release on record that no drive has followed yet.
    released: Option<People>,
    /// The number that was counted and not judged yet.
    counted: Option<Number>,
    /// As the lock was last told.
    inhibit: Inhibit,
    /// In millivolts; none was measured in this run yet.
    supply: Option<u16>,
    service: Service,
    line: Alarm,
    /// A record under duress was written, or failed: the alarm must follow.
    alarm_due: bool,
    promised: Promised,
    /// What dialogues changed, or may have.
    changed: Changed,
}

/// What may no longer be as `people.rs` has it: less is asked there.
#[derive(Default)]
struct Changed {
    /// Rows of these.
    people: Vec<Number>,
    policy: Settled,
    everybody: Settled,
}

/// Whether something stands as it was commissioned.
#[derive(Clone, Copy, PartialEq, Eq, Default)]
enum Settled {
    #[default]
    AsCommissioned,
    Otherwise,
}

impl Changed {
    fn note(&mut self, change: &Change) {
        match change {
            Change::Enrolled(who, _)
            | Change::CodeChanged(who)
            | Change::RoleChanged(who, _)
            | Change::TimetableChosen(who, _)
            | Change::Suspended(who)
            | Change::Restored(who)
            | Change::Removed(who) => self.people.push(*who),
            Change::PolicySet(..) => self.policy = Settled::Otherwise,
            Change::Commissioned(_) | Change::Reset => {
                (self.policy, self.everybody) = (Settled::Otherwise, Settled::Otherwise);
            }
            Change::ClockCorrected(_)
            | Change::ClockSet(_)
            | Change::Paired(_)
            | Change::FileLoaded(_)
            | Change::FileWaits(_)
            | Change::Collected(_)
            | Change::AlarmTested
            | Change::ResetBegun
            | Change::ResetCancelled
            | Change::WayOutBegun
            | Change::WayOutEnded
            | Change::WayOut => {}
        }
    }

    fn knows(&self, who: Number) -> bool {
        self.everybody == Settled::AsCommissioned && !self.people.contains(&who)
    }

    fn knows_policy(&self) -> bool {
        self.policy == Settled::AsCommissioned
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Service {
    /// Nothing speaks for it.
    No,
    /// Something failed in this run.
    Due,
}

impl Judge {
    pub(super) fn new(policy: u8) -> Self {
        Self {
            policy: people::policy(policy),
            typed: Vec::new(),
            released: None,
            counted: None,
            inhibit: Inhibit::Clear,
            supply: None,
            service: Service::No,
            line: Alarm::Quiet,
            alarm_due: false,
            promised: Promised::default(),
            changed: Changed::default(),
        }
    }

    /// A boot began, with the contacts like that.
    pub(super) fn booted(&mut self, contacts: Contacts) {
        self.typed.clear();
        self.released = None;
        self.counted = None;
        self.inhibit = contacts.inhibit;
        self.supply = None;
        self.service = Service::No;
        self.line = Alarm::Quiet;
        self.alarm_due = false;
        self.promised.spend();
    }

    /// The boot found these.
    pub(super) fn listed(&self, listed: &[(Seq, Record)]) {
        self.promised.are_in(listed);
    }

    pub(super) fn power_went(&mut self) {
        self.promised.spend();
    }

    /// The power ended within that.
    pub(super) fn cut(&mut self, progress: &Progress) {
        if let Progress::Wrote(Write::Record(record) | Write::Edit(record), result) = progress {
            self.change(&record.event);
            match result {
                Ok(()) => self.promised.durable(*record),
                Err(StoreFault) => self.promised.failed(record.event.ring()),
            }
        }
    }

    pub(super) fn told(&mut self, input: &Input) {
        match input {
            Input::Key(Key::Digit(digit)) => self.typed.push(digit.get()),
            Input::Key(Key::Back) => self.typed.push(10),
            Input::Key(Key::Ok) => self.typed.push(11),
            Input::Inhibit(inhibit) => self.inhibit = *inhibit,
            Input::Supply(measured) => self.supply = Some(measured.get()),
            Input::DriveFault => self.service = Service::Due,
            Input::Bolt(_)
            | Input::Door(_)
            | Input::Switch(_)
            | Input::Transfer(_)
            | Input::Woken
            | Input::Stored(_) => {}
        }
    }

    pub(super) fn wrote(&mut self, write: &Write, result: Result<(), StoreFault>) {
        if result.is_err() {
            self.service = Service::Due;
        }
        match (write, result) {
            (Write::Tally(Tally::Counted(number)), Ok(())) => self.counted = Some(*number),
            (Write::Tally(_), _) => {}
            (Write::Record(record) | Write::Edit(record), result) => {
                self.change(&record.event);
                self.verdict(&record.event);
                if record.event.outcome() == Some(Outcome::Duress) && self.line != Alarm::Duress {
                    self.alarm_due = true;
                }
                match result {
                    Err(StoreFault) => self.promised.failed(record.event.ring()),
                    Ok(()) => {
                        self.promised.durable(*record);
                        // A test of the line is heard as an alarm is.
                        self.alarm_due |=
                            tests_the_line(&record.event) && self.line != Alarm::Duress;
                        if let Event::Released { people, .. } = record.event {
                            self.in_time(record, people);
                            assert!(self.released.is_none(), "R1: released twice");
                            self.released = Some(people);
                        }
                    }
                }
            }
        }
    }

    fn change(&mut self, event: &Event) {
        if let Event::Changed { change, .. } = event {
            self.changed.note(change);
        }
    }

    /// R2: a verdict follows a durable count of that very try.
    fn verdict(&mut self, event: &Event) {
        let people = match *event {
            Event::Released { people, .. } | Event::DelayStarted { people, .. } => people,
            Event::Refused { why: Refusal::Penalty, .. } => return,
            Event::WrongCode { who }
            | Event::Refused { who, .. }
            | Event::FirstOfTwo { who, .. }
            | Event::Status { who, .. }
            | Event::Asked { who, .. } => People { first: who, second: None },
            _ => return,
        };
        let counted = self.counted.take();
        assert!(
            counted.is_some_and(|number| people.include(number)),
            "R2: {event:?} follows the count of {counted:?}"
        );
    }

    /// R3: whoever follows the timetable is released within its windows only.
    fn in_time(&self, record: &Record, people: People) {
        let knows = |who: &Number| self.changed.knows(*who);
        let by_day = Number::new(BY_DAY).filter(knows);
        if !by_day.is_some_and(|number| people.include(number)) {
            return;
        }
        let open = record.at.is_some_and(|at| {
            // 1970-01-01 was a Thursday.
            let weekday = (at.as_secs() / 86_400 + 3) % 7;
            let minute = at.as_secs() % 86_400 / 60;
            weekday < 5 && (u32::from(DAY[0])..u32::from(DAY[1])).contains(&minute)
        });
        assert!(open, "R3: released outside the windows, at {:?}", record.at);
    }

    pub(super) fn did(&mut self, effect: Effect, now: &Now) {
        match effect {
            Effect::Alarm(level) => {
                self.line = level;
                self.alarm_due &= level != Alarm::Duress;
            }
            Effect::Drive(Drive::Free) => self.freed(now),
            Effect::Drive(Drive::Block)
            | Effect::Show(_)
            | Effect::Sound(_)
            | Effect::SetClock(_) => {}
        }
    }

    /// R1: each release follows the durable record of that very opening.
    fn freed(&mut self, now: &Now) {
        let people = self.released.take();
        let Some(people) = people else {
            panic!("R1: the bolt was freed without a record in this run");
        };
        assert!(self.service == Service::No, "R1: released in service");
        assert!(self.inhibit == Inhibit::Clear, "R3: released while inhibited");
        let spent = self.policy.supply_spent.get();
        let spent = self.changed.knows_policy() && self.supply.is_some_and(|mv| mv < spent);
        assert!(!spent, "R8: released on a spent supply");
        let both = [Some(people.first), people.second];
        let dual = self.policy.control == Control::Dual;
        let right_number = dual == people.second.is_some() || !self.changed.knows_policy();
        assert!(right_number, "R3: released for {people:?}");
        assert!(people.second != Some(people.first), "R3: one person is not two");
        let delayed = self.policy.delay.get() > 0 && self.changed.knows_policy();
        let times = if delayed { 2 } else { 1 };
        let known = both.into_iter().flatten().filter(|who| self.changed.knows(*who));
        for who in known.map(Number::get) {
            assert!(OPENERS.contains(&who), "R3: {who} may not open");
            let entered = self.entered(who);
            assert!(entered >= times, "R1: {who} entered a right code {entered} times");
        }
        let lost = matches!(now.chip, Chip::Lost);
        let known = |who: &Number| who.get() == BY_DAY && self.changed.knows(*who);
        let by_day = both.iter().flatten().any(known);
        assert!(!(lost && by_day), "R3: released by a timetable without a clock");
        self.typed.clear();
    }

    /// How often that holder's code was typed.
    fn entered(&self, who: u8) -> usize {
        let duress = self.policy.duress == DuressCodes::On || !self.changed.knows_policy();
        let codes = [Some(How::Right), duress.then_some(How::Duress)];
        let times = |how: How| {
            let entry = keys(who, how);
            self.typed.windows(entry.len()).filter(|typed| *typed == entry).count()
        };
        codes.into_iter().flatten().map(times).sum()
    }

    /// The lock sleeps, with power.
    pub(super) fn rests(&self) {
        assert!(!self.alarm_due, "Invariant 10: a duress code, and no alarm");
        assert!(
            self.released.is_none() || self.service == Service::Due,
            "R1: a release on record, and the drive was not moved"
        );
    }
}

const fn tests_the_line(event: &Event) -> bool {
    matches!(event, Event::Changed { change: Change::AlarmTested, .. })
}
