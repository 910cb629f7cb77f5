//! The machine: boot, step, and the order of things within a step.
//!
//! Within a step: the clock is looked at, timers that are due run, then the
//! input is taken. At the end the screen and the alarm line are derived from
//! the state, and one write is handed out if any is outstanding. The screen is
//! shown once the writes of an input are done, so that it never promises what
//! is not durable yet.

use super::alarm::AlarmLine;
use super::bolt::{self, Access, Consequences, Forced, How, Moment, Open};
use super::counts::Counts;
use super::couriers::Couriers;
use super::display::{NOTICE, Notice};
use super::keypad::Session;
use super::pair::Pair;
use super::steady::SteadyClock;
use super::writes::{Continuation, PendingWrite, PendingWrites};
use crate::audit::{self, CancelReason, Event, Outcome, Record};
use crate::code::LockKey;
use crate::dialog::Stage;
use crate::policy::{Millivolts, Policy, Stricter};
use crate::port::{
    Alarm, Contacts, Drive, EFFECTS, Effect, Fault, Input, Now, Reads, Sound, StoreFault, Tally,
    Then, Turn, Write,
};
use crate::rules::Unreadable;
use crate::rules::clock::Clock;
use crate::rules::ends::Ends;
use crate::rules::supply::{self, Level};
use crate::screen::Screen;
use crate::seed::Seed;
use crate::settings::{Edit, FileState};
use crate::tally::SetUp;
use crate::time::{Steady, Uptime, Utc, Zone};

/// The lock. No `Debug`: it holds the key of the digests and may hold a code.
pub struct Machine {
    pub(super) policy: Policy,
    pub(super) zone: Zone,
    pub(super) key: LockKey,
    pub(super) clock: Clock,
    /// Steady time, as of the last look.
    pub(super) steady: SteadyClock,
    pub(super) contacts: Contacts,
    pub(super) supply: Level,
    /// The supply as it was recorded last.
    pub(super) on_record: Level,
    pub(super) measured: Option<Millivolts>,
    pub(super) access: Access,
    pub(super) session: Session,
    pub(super) pair: Pair,
    pub(super) counts: Counts,
    pub(super) alarm: AlarmLine,
    pub(super) notice: Option<Notice>,
    pub(super) service: Option<Fault>,
    /// What the boot found of settings.
    pub(super) kept: Kept,
    pub(super) shown: Option<Screen>,
    /// The count of this number before the current attempt.
    pub(super) stood: crate::rules::limit::Stood,
    /// What besides the policy holds for a while.
    pub(super) stricter: Option<Stricter>,
    /// When the firmware was built: no clock is set to before that.
    pub(super) built: Utc,
    /// When a clock that two people set has settled.
    pub(super) settles: Option<Uptime>,
    /// When the sum of corrections falls to nothing.
    pub(super) corrections_over: Option<Uptime>,
    /// When a reset without a warden's code is due.
    pub(super) reset_due: Option<Uptime>,
    /// When a way out that was asked for has come.
    pub(super) way_out_due: Option<Uptime>,
    /// To what the clock chip is to be set in this turn.
    pub(super) clock_to: Option<Utc>,
    /// One-time codes under way.
    pub(super) couriers: Couriers,
    /// What is known of timetable files.
    pub(super) file: FileState,
    /// What is to be looked at again at the end of a step.
    pub(super) anew: Anew,
    pub(super) signalled: Alarm,
    pub(super) errands: PendingWrites,
    pub(super) in_flight: Option<PendingWrite>,
    /// The change that is to be made durable with its record; one at a time.
    pub(super) ready: Option<Edit>,
    #[allow(dead_code, reason = "the dialogues draw salts and keys from it")]
    pub(super) seed: Seed,
    pub(super) drive: Option<Drive>,
    pub(super) sound: Option<Sound>,
}

silent!(Machine);

/// What is to be looked at again at the end of a step.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) struct Anew {
    /// The people of what is under way: a change of the settings or the clock is
    /// durable.
    pub(super) people: Look,
    /// Whether somebody could open by now, while the lock is being set up.
    pub(super) future: Look,
    /// Something may wait: the first opening from that second on brings all of it
    /// forward. After a boot it may.
    pub(super) may_wait: Option<Steady>,
}

/// Whether something is to be looked at.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Look {
    No,
    Due,
}

/// What a boot found of settings.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Kept {
    /// A lock's, whoever is enrolled.
    Ours,
    /// None: the flash is as it came. Nothing can be kept before a first warden.
    Nothing,
    /// Those of another layout: nothing is touched before a first warden agreed.
    Others,
    /// What could not be read.
    Unread,
}

impl Kept {
    /// Whether a first warden erases what somebody may still want.
    pub(super) const fn is_erased(self) -> bool {
        matches!(self, Self::Others | Self::Unread)
    }
}

// A machine must fit beside a stack and a frame buffer in a small
// microcontroller's memory; a turn is copied around.
const _: () = assert!(core::mem::size_of::<Machine>() <= 2_304);
const _: () = assert!(core::mem::size_of::<Turn>() <= 256);

impl Machine {
    /// The moment, without a look that changes anything.
    pub(super) fn moment_of(&self, now: Now) -> Moment {
        let utc = self.clock.utc(now);
        let steady = self.steady.clone().looked_at(now.uptime, utc, self.counts.shift());
        Moment { uptime: now.uptime, utc, steady }
    }

    /// The moment, by a clock that was looked at.
    pub(super) fn moment(&mut self, now: Now) -> Moment {
        let utc = self.clock.utc(now);
        let steady = self.steady.looked_at(now.uptime, utc, self.counts.shift());
        Moment { uptime: now.uptime, utc, steady }
    }

    /// Whether only a boot ends the service: not so where a first warden may begin.
    pub(super) fn waits_for_a_boot(&self) -> bool {
        !self.kept.is_erased() && self.service.is_some_and(|fault| fault != Fault::Blank)
    }

    /// Whether anybody is enrolled, as far as a boot could tell.
    pub(super) const fn in_use(&self) -> bool {
        !matches!(self.service, Some(Fault::Blank | Fault::Layout))
    }

    /// The bolt is drawn, or the door open, without a release.
    pub(super) fn drawn_without_release(&mut self, at: Moment) {
        if self.in_use() {
            self.access_event(bolt::Event::Ajar, at);
        } else {
            self.access = Access::Open(Open::now(How::Opened, None, Ends::Never, at));
        }
    }

    /// One turn: what follows from `input` at this moment.
    pub fn step(&mut self, now: Now, input: Input, reads: &mut impl Reads) -> Turn {
        let clock = self.clock.looked_at(now);
        let lost = clock == Clock::Invalid && self.clock != Clock::Invalid;
        self.clock = clock;
        let at = self.moment(now);
        let before = self.access.name();
        if lost {
            self.doubt_clock(at);
        }
        self.run_timers(at);
        self.take(input, at, reads);
        // By a new time people are decided anew before anything is late by it.
        let at = Moment { utc: self.clock_to.or(at.utc), ..at };
        if self.clock_to.is_some() {
            self.look_again(at, reads);
        }
        // What has just been opened may be late already.
        self.access_event(bolt::Event::Time, at);
        self.look_again(at, reads);
        self.pair = self.pair.under(&self.access);
        // What a dialogue did is said, also where it ended a wait. What comes later ends it.
        let of_dialogue = |notice: &Notice| {
            let own = matches!(input, Input::Key(_) | Input::Stored(_));
            own && matches!(notice.screen, Screen::Form(_) | Screen::HoldSet { .. })
        };
        if self.access.name() != before {
            self.notice = self.notice.filter(of_dialogue);
        }
        self.finish(at)
    }

    /// What a change, or a time that came, makes of what is under way.
    #[inline(never)] // own frame
    fn look_again(&mut self, at: Moment, reads: &mut impl Reads) {
        let looked = self
            .decide_anew(at, reads)
            .and_then(|()| self.look_at_set_up(at, reads))
            .and_then(|()| self.look_at_way_out(at, reads));
        if looked == Err(Unreadable) {
            return self.out_of_order(Fault::Settings);
        }
        self.look_at_file(at);
        self.look_at_reset(at);
    }

    pub(super) fn doubt_clock(&mut self, at: Moment) {
        self.tally(Tally::ClockDoubt(at.steady), Continuation::Nothing, at);
        self.record(at, Event::ClockInvalid, Continuation::Nothing);
        if self.access.delayed().is_some_and(|(_, ends)| ends != Ends::Never) {
            self.access_event(bolt::Event::Cancel(CancelReason::Clock), at);
        }
    }

    #[inline(never)] // own frame
    fn run_timers(&mut self, at: Moment) {
        self.counts.end_hold(at.steady);
        if !self.waits_for_a_boot() {
            self.run_tally_timers(at);
        }
        // A wake-up that comes late may have slept through more than one
        // change: a delay and its claim, at most.
        for _ in 0..2 {
            self.access_event(bolt::Event::Time, at);
        }
        self.pair = self.pair.under(&self.access);
        if self.pair.until().is_some_and(|until| at.uptime >= until) {
            self.pair = Pair::Nobody;
            self.record(at, Event::Lapsed, Continuation::Nothing);
        }
        self.alarm.look(at.uptime);
        self.session.on_time(at.uptime);
        if self.notice.is_some_and(|notice| at.uptime >= notice.until) {
            self.notice = None;
        }
    }

    /// What time does to the tally. In service that may be another tally than the one in
    /// flash, whose entry was not written: there nothing is timed until a boot, which
    /// begins all of it anew.
    fn run_tally_timers(&mut self, at: Moment) {
        self.look_at_corrections(at);
        let over = [self.counts.served(at.uptime), self.counts.eased(at.uptime)];
        for entry in over.into_iter().flatten() {
            self.tally(entry, Continuation::Nothing, at);
        }
        if let Some(entry) = self.counts.faded(at.uptime) {
            self.tally(entry, Continuation::Nothing, at);
        }
    }

    #[inline(never)] // own frame
    fn take(&mut self, input: Input, at: Moment, reads: &mut impl Reads) {
        match input {
            Input::Key(key) => self.key_pressed(key, at, reads),
            Input::Bolt(bolt) => self.moved(Contacts { bolt, ..self.contacts }, at),
            Input::Door(door) => self.moved(Contacts { door, ..self.contacts }, at),
            Input::Supply(measured) => self.supply_measured(measured, at),
            Input::Inhibit(inhibit) => {
                self.contacts.inhibit = inhibit;
                if inhibit == crate::port::Inhibit::Set {
                    self.access_event(bolt::Event::Cancel(CancelReason::Inhibit), at);
                }
            }
            Input::Switch(switch) => {
                self.contacts.switch = switch;
                self.look_at_reset(at);
            }
            Input::Carried(carried) => self.carried(carried, at, reads),
            Input::Woken => {}
            Input::DriveFault => {
                self.record(at, Event::Fault { fault: Fault::Drive }, Continuation::Nothing);
                self.out_of_order(Fault::Drive);
            }
            Input::Stored(result) => self.stored(result, at, reads),
        }
    }

    fn moved(&mut self, contacts: Contacts, at: Moment) {
        let before = self.contacts.ajar();
        self.contacts = contacts;
        match (before, contacts.ajar()) {
            (false, true) => {
                match self.access {
                    Access::Released(_) | Access::Blocked(_) => {
                        self.access_event(bolt::Event::Ajar, at);
                    }
                    Access::Secured
                    | Access::Waiting(_)
                    | Access::Claimable(_)
                    | Access::Open(_) => {
                        self.drawn_without_release(at);
                    }
                }
                if self.access.is_opened() {
                    self.bring_forward(at);
                }
            }
            // Whoever shuts a lock that nobody can open yet must not be shut out.
            (true, false) if !self.in_use() => self.access = Access::Secured,
            (true, false) => self.access_event(bolt::Event::Shut, at),
            (true, true) | (false, false) => {}
        }
        self.look_at_reset(at);
    }

    /// The lock was opened: what waits, waits no more. The file sees to itself.
    fn bring_forward(&mut self, at: Moment) {
        if let (Some(steady), Some(from)) = (at.steady, self.anew.may_wait)
            && self.service.is_none()
        {
            self.anew.may_wait = Some(from).filter(|from| steady < *from);
            self.tally(Tally::Brought(steady), Continuation::Nothing, at);
        }
    }

    fn supply_measured(&mut self, measured: Millivolts, at: Moment) {
        self.supply = supply::measured(&self.policy, self.supply, measured);
        self.measured = Some(measured);
        if self.supply != self.on_record && !self.writes_nowhere() {
            self.on_record = self.supply;
            let level = self.supply;
            self.record(at, Event::Supply { level, measured }, Continuation::Nothing);
        }
    }

    fn stored(&mut self, result: Result<(), StoreFault>, at: Moment, reads: &mut impl Reads) {
        let Some(PendingWrite { write, after }) = self.in_flight.take() else {
            self.out_of_order(Fault::Bug);
            return;
        };
        // The alarm goes out whatever became of the write (R4).
        self.tell(after.outcome());
        if result.is_err() {
            while let Some(errand) = self.errands.pop_front() {
                self.tell(errand.after.outcome());
            }
            self.out_of_order(Fault::Store);
            return;
        }
        if matches!(write, Write::Edit(_))
            && !matches!(after, Continuation::Edited | Continuation::Adopted)
        {
            // What came with a courier's opening is durable too.
            self.ready = None;
        }
        match after {
            Continuation::Nothing | Continuation::Tell(_) => {}
            Continuation::Say(sound, _) => self.sound(sound),
            Continuation::Judge => self.judge(at, reads),
            Continuation::Edited => {
                self.edited(reads);
                self.sound(Sound::Accepted);
            }
            Continuation::Adopted => self.edited(reads),
            Continuation::Believed => self.sound(Sound::Accepted),
            Continuation::SetClock(setting) => self.clock_is_set(setting, at),
            Continuation::TestAlarm => {
                self.alarm.test(at.uptime.after(self.policy.alarm_hold));
                self.sound(Sound::Accepted);
            }
            Continuation::BeginWait(people, ends, _) => {
                self.access_event(bolt::Event::BeginWait(people, ends), at);
            }
            Continuation::Release(people, ends, _) => {
                self.access_event(bolt::Event::Release(people, ends), at);
                self.sound = Some(match self.supply {
                    Level::Good => Sound::Accepted,
                    Level::Low | Level::Spent => Sound::Warning,
                });
            }
        }
    }

    pub(super) fn tell(&mut self, outcome: Outcome) {
        if outcome == Outcome::Duress {
            self.alarm.duress();
        }
    }

    /// Nothing is taken or released until the next boot; bolt, door and alarm
    /// line are still followed, and recorded if that can be done.
    pub(super) fn out_of_order(&mut self, fault: Fault) {
        self.service = self.service.or(Some(fault));
        self.session = Session::Rest;
        self.pair = Pair::Nobody;
        self.notice = None;
        self.reset_due = None;
        if self.access.delayed().is_some() {
            self.access = Access::Secured;
        }
    }

    pub(super) fn access_event(&mut self, event: bolt::Event, at: Moment) {
        let policy = Policy { delay: self.delay(at), ..self.policy };
        let (access, consequences) = self.access.on(event, at, &policy);
        self.access = access;
        let Consequences { cancelled, record, drive, sound, forced } = consequences;
        // What caused it first, then what it ended.
        if let Some(event) = record {
            self.record(at, event, Continuation::Nothing);
        }
        if let Some(why) = cancelled {
            self.record(at, Event::Cancelled { why }, Continuation::Nothing);
        }
        if forced == Forced::Yes {
            self.alarm.tamper(at.uptime.after(self.policy.alarm_hold));
        }
        self.drive = drive.or(self.drive);
        self.sound = sound.or(self.sound);
    }

    /// Puts a record on its way to the store.
    pub(super) fn record(&mut self, at: Moment, event: audit::Event, after: Continuation) {
        self.send(Write::Record(Record { at: at.utc, event }), after);
    }

    /// Puts an entry of the tally on its way to the store. In memory it holds
    /// at once: should the write fail, the lock goes to service.
    pub(super) fn tally(&mut self, entry: Tally, after: Continuation, at: Moment) {
        self.counts.apply(entry, at.uptime);
        self.send(Write::Tally(entry), after);
    }

    /// Whether a change may be made that nobody is waiting for: the lock works, no
    /// code is being judged, no write is outstanding, and nobody is about to make a
    /// change at the keypad.
    pub(super) fn is_idle(&self) -> bool {
        self.is_undisturbed() && self.errands.is_empty() && self.in_flight.is_none()
    }

    /// The same, whatever is being written: those writes end by themselves.
    pub(super) fn is_undisturbed(&self) -> bool {
        let busy = match &self.session {
            Session::Judging(_) | Session::Second(..) => true,
            Session::Form(dialogue) => matches!(dialogue.stage, Stage::Confirm(_)),
            Session::Rest
            | Session::Entry(_)
            | Session::Over(_)
            | Session::List { .. }
            | Session::Who(..) => false,
        };
        !busy && self.service.is_none()
    }

    pub(super) fn sounds_nothing(&self) -> bool {
        self.sound.is_none()
    }

    /// Before a first warden agreed there may be nothing to write to.
    fn writes_nowhere(&self) -> bool {
        matches!(self.kept, Kept::Nothing | Kept::Others) && self.ready.is_none()
    }

    pub(super) fn send(&mut self, write: Write, after: Continuation) {
        if self.writes_nowhere() {
            self.tell(after.outcome());
            return;
        }
        if self.errands.push_back(PendingWrite { write, after }).is_err() {
            self.tell(after.outcome());
            self.out_of_order(Fault::Bug);
        }
    }

    pub(super) fn sound(&mut self, sound: Sound) {
        self.sound = Some(sound);
    }

    #[inline(never)] // one copy
    pub(super) fn notify(&mut self, screen: Screen, at: Moment) {
        self.notice = Some(Notice { screen, until: at.uptime.after(NOTICE) });
    }

    pub(super) fn finish(&mut self, at: Moment) -> Turn {
        let mut effects = heapless::Vec::<Effect, EFFECTS>::new();
        let level = self.alarm.level();
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
        self.counts.penalty_until()
    }

    /// Where the lock stands with being set up (R11).
    #[must_use]
    pub const fn set_up(&self) -> SetUp {
        self.counts.set_up()
    }

    /// UTC as the lock believes it at `now`.
    #[must_use]
    pub const fn believed_utc(&self, now: Now) -> Option<Utc> {
        self.clock.utc(now)
    }
}
