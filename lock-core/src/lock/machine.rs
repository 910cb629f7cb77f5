//! The machine: boot, step, and the order of things within a step.
//!
//! Within a step: the clock is looked at, timers that are due run, then the
//! input is taken. At the end the screen and the alarm line are derived from
//! the state, and one write is handed out if any is outstanding. The screen is
//! shown once the writes of an input are done, so that it never promises what
//! is not durable yet.

use super::access::{self, Access, Consequences, Forced, Moment, Open};
use super::bell::Bell;
use super::correction::{PERIOD, SETTLING};
use super::courier::Couriers;
use super::errand::{After, Errand, Errands};
use super::face::{NOTICE, Notice};
use super::guard::Guard;
use super::pair::Pair;
use super::session::Session;
use crate::audit::{self, CancelReason, Event, Outcome, Record};
use crate::code::LockKey;
use crate::policy::{Millivolts, Policy, Stricter};
use crate::port::{
    Alarm, Contacts, Drive, EFFECTS, Effect, Fault, Input, Now, Reads, Sound, StoreFault, Tally,
    Then, Turn, Write,
};
use crate::recovered::{LastWord, Recovered};
use crate::rules::admission::Ends;
use crate::rules::clock::Clock;
use crate::rules::supply::{self, Level};
use crate::screen::{Late, Screen};
use crate::seed::Seed;
use crate::settings::{Edit, FileState};
use crate::tally::ClockMark;
use crate::time::{Uptime, Utc, Zone};

/// The lock. No `Debug`: it holds the key of the digests and may hold a code.
pub struct Machine {
    pub(super) policy: Policy,
    pub(super) zone: Zone,
    pub(super) key: LockKey,
    pub(super) clock: Clock,
    pub(super) contacts: Contacts,
    pub(super) supply: Level,
    pub(super) measured: Option<Millivolts>,
    pub(super) access: Access,
    pub(super) session: Session,
    pub(super) pair: Pair,
    pub(super) guard: Guard,
    pub(super) bell: Bell,
    pub(super) notice: Option<Notice>,
    pub(super) service: Option<Fault>,
    pub(super) shown: Option<Screen>,
    /// How the number of the try that is being judged stood before it.
    pub(super) stood: crate::rules::limit::Stood,
    /// What besides the policy holds for a while.
    pub(super) stricter: Option<Stricter>,
    /// The newest time in any record.
    pub(super) floor: Option<Utc>,
    /// When the lock believed it to be before the clock is set.
    pub(super) before: Option<Utc>,
    /// When a clock that two people set has settled.
    pub(super) settles: Option<Uptime>,
    /// When the sum of corrections falls to nothing.
    pub(super) corrections_over: Option<Uptime>,
    /// When a reset without a warden's code is due.
    pub(super) reset_due: Option<Uptime>,
    /// To what the clock chip is to be set in this turn.
    pub(super) clock_to: Option<Utc>,
    /// One-time codes under way.
    pub(super) couriers: Couriers,
    /// What is known of timetable files.
    pub(super) file: FileState,
    signalled: Alarm,
    errands: Errands,
    in_flight: Option<Errand>,
    /// The change that is to be made durable with its record; one at a time.
    pub(super) ready: Option<Edit>,
    #[allow(dead_code, reason = "the dialogues draw salts and keys from it")]
    pub(super) seed: Seed,
    drive: Option<Drive>,
    sound: Option<Sound>,
}

silent!(Machine);

/// What of a boot's findings decides its first turn.
#[derive(Clone, Copy)]
pub(crate) struct Waking {
    outcome: Option<Outcome>,
    word: LastWord,
    doubted: bool,
}

impl Waking {
    pub(crate) fn of(found: &Recovered) -> Self {
        Self {
            outcome: found.newest_outcome,
            word: found.last_word,
            doubted: found.tally.clock == ClockMark::Doubted,
        }
    }
}

// A machine must fit beside a stack and a frame buffer in a small
// microcontroller's memory; a turn is copied around.
const _: () = assert!(core::mem::size_of::<Machine>() <= 2_304);
const _: () = assert!(core::mem::size_of::<Turn>() <= 256);

impl Machine {
    /// A lock that was just powered up, and its first turn.
    ///
    /// It starts secured, or open if it is found ajar; no release, wait, claim
    /// or first of two people survives a boot, and a penalty starts anew.
    // Not inlined: what it puts on the stack is gone again when it returns.
    #[inline(never)]
    #[must_use]
    pub fn boot(found: Recovered, now: Now, contacts: Contacts, seed: Seed) -> (Self, Turn) {
        let waking = Waking::of(&found);
        let mut machine = Self::found(found, now, contacts, seed);
        let turn = machine.first_turn(now, waking);
        (machine, turn)
    }

    /// The machine of [`Machine::boot`], whose [first turn](Machine::first_turn) is to come.
    // Not inlined: whoever has room for it gets it there, without a second one on
    // the stack.
    #[inline(never)]
    pub(crate) fn found(found: Recovered, now: Now, contacts: Contacts, seed: Seed) -> Self {
        let policy = found.known.as_ref().map_or(Policy::DEFAULT, |known| known.policy);
        let doubted = found.tally.clock == ClockMark::Doubted;
        let guard = Guard::at_boot(&found, &policy, now.uptime);
        let stricter = found.known.as_ref().ok().and_then(|known| known.stricter);
        let file = found.known.as_ref().map(|known| known.file).unwrap_or_default();
        let (zone, key, service) = match found.known {
            Ok(known) if known.enrolled == 0 => (known.zone, known.key, Some(Fault::Blank)),
            Ok(known) => (known.zone, known.key, None),
            Err(fault) => (Zone::UTC, LockKey::from_bytes([0; LockKey::LEN]), Some(fault)),
        };
        Self {
            policy,
            zone,
            key,
            clock: Clock::at_boot(now, found.floor, doubted),
            contacts,
            supply: Level::Good,
            measured: None,
            access: Access::Secured,
            session: Session::Rest,
            pair: Pair::Nobody,
            guard,
            bell: Bell::default(),
            notice: None,
            service,
            shown: None,
            stood: crate::rules::limit::Stood::Below,
            stricter,
            floor: found.floor,
            before: None,
            settles: found.tally.settling.map(|_| now.uptime.after(SETTLING)),
            corrections_over: Some(now.uptime.after(PERIOD)),
            reset_due: None,
            clock_to: None,
            couriers: Couriers::default(),
            file,
            signalled: Alarm::Quiet,
            errands: Errands::new(),
            in_flight: None,
            ready: None,
            seed,
            drive: None,
            sound: None,
        }
    }

    /// The first turn.
    #[inline(never)]
    pub(crate) fn first_turn(&mut self, now: Now, waking: Waking) -> Turn {
        let at = Moment { uptime: now.uptime, utc: self.clock.utc(now) };
        // A wake-up follows whichever code was the last, so that it does not
        // tell of duress.
        if let Some(outcome) = waking.outcome {
            self.bell.judged(at.uptime.after(self.policy.alarm_hold));
            if !canary!(AlarmNotRaisedAgain) {
                self.tell(outcome);
            }
        }
        self.wake_up(at, waking.word, waking.doubted);
        self.finish(at)
    }

    /// What a boot records, in order, and where it leaves the blocker: its
    /// position is unknown, so a thrown bolt is blocked anew.
    fn wake_up(&mut self, at: Moment, last_word: LastWord, doubted: bool) {
        self.record(at, Event::PoweredUp, After::Nothing);
        match (self.contacts.ajar(), last_word) {
            (false, LastWord::Open) if canary!(ReleaseResumed) => {
                self.drive = Some(Drive::Free);
            }
            (false, _) => self.drive = Some(Drive::Block),
            (true, LastWord::Shut) => self.access_event(access::Event::Ajar, at),
            (true, LastWord::Open) => {
                let open = Open { since: at.uptime, ends: Ends::Never, late: Late::No };
                self.access = Access::Open(open);
            }
        }
        if self.guard.penalty_until().is_none() && self.guard.left(&self.policy) == 0 {
            self.start_penalty(at);
        }
        if self.clock == Clock::Invalid && !doubted {
            self.doubt_clock(at);
        }
    }

    /// One turn: what follows from `input` at this moment.
    pub fn step(&mut self, now: Now, input: Input, reads: &mut impl Reads) -> Turn {
        let clock = self.clock.looked_at(now);
        let lost = clock == Clock::Invalid && self.clock != Clock::Invalid;
        self.clock = clock;
        let at = Moment { uptime: now.uptime, utc: clock.utc(now) };
        let before = self.access.name();
        if lost {
            self.doubt_clock(at);
        }
        self.run_timers(at);
        self.take(input, at, reads);
        // What has just been opened may be late already.
        self.access_event(access::Event::Time, at);
        self.pair = self.pair.under(&self.access);
        // What a dialogue did is said, also where it ended a wait.
        let of_dialogue = |notice: &Notice| matches!(notice.screen, Screen::Form(_));
        if self.access.name() != before {
            self.notice = self.notice.filter(of_dialogue);
        }
        self.finish(at)
    }

    fn doubt_clock(&mut self, at: Moment) {
        self.tally(Tally::ClockDoubt, After::Nothing);
        self.record(at, Event::ClockInvalid, After::Nothing);
        self.access_event(access::Event::Cancel(CancelReason::Clock), at);
    }

    // Not inlined: its stack is not there for what comes before or after it.
    #[inline(never)]
    fn run_timers(&mut self, at: Moment) {
        self.guard.end_hold(at.utc);
        self.look_at_corrections(at);
        self.look_at_file(at);
        while let Some(entry) = self.guard.due(at.uptime) {
            self.tally(entry, After::Nothing);
        }
        // A wake-up that comes late may have slept through more than one
        // change: a delay and its claim, at most.
        for _ in 0..2 {
            self.access_event(access::Event::Time, at);
        }
        self.pair = self.pair.under(&self.access);
        if self.pair.until().is_some_and(|until| at.uptime >= until) {
            self.pair = Pair::Nobody;
            self.record(at, Event::Lapsed, After::Nothing);
        }
        self.bell.look(at.uptime);
        self.session.on_time(at.uptime);
        self.look_at_reset(at);
        if self.notice.is_some_and(|notice| at.uptime >= notice.until) {
            self.notice = None;
        }
    }

    // Not inlined: its stack is not there for what comes before or after it.
    #[inline(never)]
    fn take(&mut self, input: Input, at: Moment, reads: &mut impl Reads) {
        match input {
            Input::Key(key) => self.key_pressed(key, at, reads),
            Input::Bolt(bolt) => self.moved(Contacts { bolt, ..self.contacts }, at),
            Input::Door(door) => self.moved(Contacts { door, ..self.contacts }, at),
            Input::Supply(measured) => self.supply_measured(measured, at),
            Input::Inhibit(inhibit) => {
                self.contacts.inhibit = inhibit;
                if inhibit == crate::port::Inhibit::Set {
                    self.access_event(access::Event::Cancel(CancelReason::Inhibit), at);
                }
            }
            Input::Switch(switch) => {
                self.contacts.switch = switch;
                self.look_at_reset(at);
            }
            Input::Carried(carried) => self.carried(carried, at, reads),
            Input::Woken => {}
            Input::DriveFault => {
                self.record(at, Event::Fault { fault: Fault::Drive }, After::Nothing);
                self.out_of_order(Fault::Drive);
            }
            Input::Stored(result) => self.stored(result, at, reads),
        }
    }

    fn moved(&mut self, contacts: Contacts, at: Moment) {
        let before = self.contacts.ajar();
        self.contacts = contacts;
        match (before, contacts.ajar()) {
            (false, true) => self.access_event(access::Event::Ajar, at),
            (true, false) => self.access_event(access::Event::Shut, at),
            (true, true) | (false, false) => {}
        }
        self.look_at_reset(at);
    }

    fn supply_measured(&mut self, measured: Millivolts, at: Moment) {
        let level = supply::measured(&self.policy, self.supply, measured);
        self.measured = Some(measured);
        if level != self.supply {
            self.supply = level;
            self.record(at, Event::Supply { level, measured }, After::Nothing);
        }
    }

    fn stored(&mut self, result: Result<(), StoreFault>, at: Moment, reads: &mut impl Reads) {
        let Some(Errand { write, after }) = self.in_flight.take() else {
            self.out_of_order(Fault::Bug);
            return;
        };
        // The alarm goes out whatever became of the write (R4).
        if result.is_ok() || !canary!(AlarmNeedsFlash) {
            self.tell(after.outcome());
        }
        if result.is_err() && !canary!(FaultIgnored) {
            while let Some(errand) = self.errands.pop_front() {
                self.tell(errand.after.outcome());
            }
            self.out_of_order(Fault::Store);
            return;
        }
        if matches!(write, Write::Edit(_)) && !matches!(after, After::Edited | After::Adopted) {
            // What came with a courier's opening is durable too.
            self.ready = None;
        }
        match after {
            After::Nothing | After::Tell(_) => {}
            After::Say(sound, _) => self.sound(sound),
            After::Judge => self.judge(at, reads),
            After::Edited => {
                self.edited(reads);
                self.sound(Sound::Accepted);
            }
            After::Adopted => self.edited(reads),
            After::SetClock(setting) => self.clock_is_set(setting, at),
            After::TestAlarm => {
                self.bell.test(at.uptime.after(self.policy.alarm_hold));
                self.sound(Sound::Accepted);
            }
            After::BeginWait(people, ends, _) => {
                self.access_event(access::Event::BeginWait(people, ends), at);
            }
            After::Release(people, ends, _) => {
                self.access_event(access::Event::Release(people, ends), at);
                self.sound = Some(match self.supply {
                    Level::Good => Sound::Accepted,
                    Level::Low | Level::Spent => Sound::Warning,
                });
            }
        }
    }

    fn tell(&mut self, outcome: Outcome) {
        if outcome == Outcome::Duress {
            self.bell.duress();
        }
    }

    /// Nothing is taken or released until the next boot; bolt, door and alarm
    /// line are still followed, and recorded if that can be done.
    pub(super) fn out_of_order(&mut self, fault: Fault) {
        self.service = self.service.or(Some(fault));
        self.session = Session::Rest;
        self.pair = Pair::Nobody;
        self.notice = None;
        if matches!(self.access, Access::Waiting(_) | Access::Claimable(_)) {
            self.access = Access::Secured;
        }
    }

    pub(super) fn access_event(&mut self, event: access::Event, at: Moment) {
        let policy = Policy { delay: self.delay(at), ..self.policy };
        let (access, consequences) = self.access.on(event, at, &policy);
        self.access = access;
        let Consequences { cancelled, record, drive, sound, forced } = consequences;
        if let Some(why) = cancelled {
            self.record(at, Event::Cancelled { why }, After::Nothing);
        }
        if let Some(event) = record {
            self.record(at, event, After::Nothing);
        }
        if forced == Forced::Yes {
            self.bell.tamper(at.uptime.after(self.policy.alarm_hold));
        }
        self.drive = drive.or(self.drive);
        self.sound = sound.or(self.sound);
    }

    /// Puts a record on its way to the store.
    pub(super) fn record(&mut self, at: Moment, event: audit::Event, after: After) {
        self.floor = self.floor.max(at.utc);
        self.send(Write::Record(Record { at: at.utc, event }), after);
    }

    /// Puts an entry of the tally on its way to the store. In memory it holds
    /// at once: should the write fail, the lock goes to service.
    pub(super) fn tally(&mut self, entry: Tally, after: After) {
        self.guard.apply(entry);
        let in_memory_only = match entry {
            Tally::Penalty => canary!(PenaltyInMemory),
            Tally::HeldShut(_) => canary!(HoldInMemory),
            Tally::ClockDoubt => canary!(DoubtInMemory),
            Tally::Counted(_)
            | Tally::Cleared(_)
            | Tally::Served
            | Tally::Faded
            | Tally::Corrected(_)
            | Tally::CorrectionsOver
            | Tally::ClockSet(_)
            | Tally::Settled
            | Tally::Collected(_) => false,
        };
        if in_memory_only {
            return;
        }
        self.send(Write::Tally(entry), after);
    }

    /// Whether no code is being judged and no write is outstanding.
    pub(super) fn is_idle(&self) -> bool {
        let judging = matches!(self.session, Session::Judging(_) | Session::Second(..));
        !judging && self.errands.is_empty() && self.in_flight.is_none()
    }

    pub(super) fn sounds_nothing(&self) -> bool {
        self.sound.is_none()
    }

    pub(super) fn send(&mut self, write: Write, after: After) {
        if self.errands.push_back(Errand { write, after }).is_err() {
            self.tell(after.outcome());
            self.out_of_order(Fault::Bug);
        }
    }

    pub(super) fn sound(&mut self, sound: Sound) {
        self.sound = Some(sound);
    }

    // Called for whatever is said: one copy of it is enough.
    #[inline(never)]
    pub(super) fn notify(&mut self, screen: Screen, at: Moment) {
        self.notice = Some(Notice { screen, until: at.uptime.after(NOTICE) });
    }

    fn finish(&mut self, at: Moment) -> Turn {
        let mut effects = heapless::Vec::<Effect, EFFECTS>::new();
        let level = self.bell.level();
        let alarm = (level != self.signalled).then_some(Effect::Alarm(level));
        self.signalled = level;
        let drive = self.drive.take().map(Effect::Drive);
        let sound = self.sound.take().map(Effect::Sound);
        let write = if self.in_flight.is_some() { None } else { self.errands.pop_front() };
        let show = match write {
            Some(_) => None,
            None => self.show(at),
        };
        let clock = self.clock_to.take().map(Effect::SetClock);
        for effect in [clock, alarm, drive, sound, show].into_iter().flatten() {
            // One of each kind: the capacity is their number.
            let _ = effects.push(effect);
        }
        let then = match write {
            Some(errand) => {
                self.in_flight = Some(errand);
                Then::Write(errand.write)
            }
            None => Then::Sleep(self.wake(at)),
        };
        Turn { effects, then }
    }

    fn show(&mut self, at: Moment) -> Option<Effect> {
        let face = self.face(at);
        if self.shown == Some(face) {
            return None;
        }
        self.shown = Some(face);
        Some(Effect::Show(face))
    }

    /// The change that a [`Write::Edit`] is to make durable.
    #[must_use]
    pub const fn edit(&self) -> Option<&Edit> {
        self.ready.as_ref()
    }

    /// What the bolt may do now.
    #[must_use]
    pub const fn access(&self) -> &Access {
        &self.access
    }

    /// The state of the keypad's region, by name.
    #[must_use]
    pub const fn session_name(&self) -> &'static str {
        self.session.name()
    }

    /// When the running penalty ends, if one runs.
    #[must_use]
    pub fn penalty_until(&self) -> Option<Uptime> {
        self.guard.penalty_until()
    }

    /// UTC as the lock believes it at `now`.
    #[must_use]
    pub const fn believed_utc(&self, now: Now) -> Option<Utc> {
        self.clock.utc(now)
    }
}
