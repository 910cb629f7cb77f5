//! The machine: step, and the order of things within a step.
//!
//! Within a step: the clock is looked at, timers that are due fire, then the
//! input is taken, and what that changed is looked at again. At the end the
//! screen and the alarm line are derived from the state, and one write is handed
//! out if any is outstanding. The screen is shown once the writes of an input are
//! done, so that it never promises what is not durable yet.

use super::alarm::AlarmLine;
use super::anew::Anew;
use super::bolt::{self, Access, Boltwork, Consequences, Forced, How, Moment, Open};
use super::clock::LockClock;
use super::countdowns::Countdowns;
use super::counts::Counts;
use super::couriers::began;
use super::display::Display;
use super::in_force::InForce;
use super::keypad::{Keypad, Session};
use super::out::Out;
use super::pair::Pair;
use super::service::Service;
use super::supply::Supply;
use super::writes::{Continuation, PendingWrite, Sent, Writes};
use crate::audit::{self, CancelReason, Event, Outcome, Record};
use crate::dialog::Stage;
use crate::policy::{Millivolts, Policy};
use crate::port::{
    Contacts, EFFECTS, Effect, Fault, Inhibit, Input, Now, Reads, Sound, StoreFault, Tally, Then,
    Turn, Write,
};
use crate::rules::Unreadable;
use crate::rules::ends::Ends;
use crate::rules::supply::Level;
use crate::screen::Screen;
use crate::seed::Seed;
use crate::settings::Edit;
use crate::tally::SetUp;
use crate::time::{Uptime, Utc};

/// The lock: its regions, each of which alone writes its fields. No `Debug`: it holds the
/// key of the digests and may hold a code.
pub struct Machine {
    pub(super) in_force: InForce,
    pub(super) clock: LockClock,
    pub(super) supply: Supply,
    pub(super) bolt: Boltwork,
    pub(super) pair: Pair,
    pub(super) keypad: Keypad,
    pub(super) counts: Counts,
    pub(super) alarm: AlarmLine,
    pub(super) display: Display,
    pub(super) service: Service,
    pub(super) countdowns: Countdowns,
    pub(super) anew: Anew,
    pub(super) writes: Writes,
    pub(super) out: Out,
    /// What salts and keys are drawn from.
    pub(super) seed: Seed,
}

silent!(Machine);

// A machine must fit beside a stack and a frame buffer in a small
// microcontroller's memory; a turn is copied around.
const _: () = assert!(core::mem::size_of::<Machine>() <= 2_304);
const _: () = assert!(core::mem::size_of::<Turn>() <= 256);

impl Machine {
    /// One turn: what follows from `input` at this moment.
    pub fn step(&mut self, now: Now, input: Input, reads: &mut impl Reads) -> Turn {
        let lost = self.clock.compare(now);
        let at = self.moment(now);
        let before = self.bolt.access().name();
        if lost {
            self.doubt_clock(at);
        }
        self.run_timers(at);
        self.take(input, at, reads);
        // By a new time people are decided anew before anything is late by it.
        let at = Moment { utc: self.out.clock().or(at.utc), ..at };
        if self.out.clock().is_some() {
            self.look_again(at, reads);
        }
        // What has just been opened may be late already.
        self.bolt_event(bolt::Event::Time, at);
        self.look_again(at, reads);
        // What a dialogue did is said, also where it ended a wait. What comes later ends it.
        if self.bolt.access().name() != before {
            self.display.hush_but(matches!(input, Input::Key(_) | Input::Stored(_)));
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

    #[inline(never)] // own frame
    fn take(&mut self, input: Input, at: Moment, reads: &mut impl Reads) {
        let contacts = self.bolt.contacts();
        match input {
            Input::Key(key) => self.key_pressed(key, at, reads),
            Input::Bolt(bolt) => self.moved(Contacts { bolt, ..contacts }, at),
            Input::Door(door) => self.moved(Contacts { door, ..contacts }, at),
            Input::Supply(measured) => self.supply_measured(measured, at),
            Input::Inhibit(inhibit) => {
                self.bolt.connect(Contacts { inhibit, ..contacts });
                if inhibit == Inhibit::Set {
                    self.bolt_event(bolt::Event::Cancel(CancelReason::Inhibit), at);
                }
            }
            Input::Switch(switch) => {
                self.bolt.connect(Contacts { switch, ..contacts });
                self.look_at_reset(at);
            }
            Input::Transfer(transfer) => self.transferred(transfer, at, reads),
            Input::Woken => {}
            Input::DriveFault => {
                self.record(at, Event::Fault { fault: Fault::Drive }, Continuation::Nothing);
                self.out_of_order(Fault::Drive);
            }
            Input::Stored(result) => self.stored(result, at, reads),
        }
    }

    fn moved(&mut self, contacts: Contacts, at: Moment) {
        let before = self.bolt.contacts().ajar();
        self.bolt.connect(contacts);
        match (before, contacts.ajar()) {
            (false, true) => {
                match self.bolt.access() {
                    Access::Released(_) | Access::Blocked(_) => {
                        self.bolt_event(bolt::Event::Ajar, at);
                    }
                    Access::Secured
                    | Access::Waiting(_)
                    | Access::Claimable(_)
                    | Access::Open(_) => {
                        self.drawn_without_release(at);
                    }
                }
                if self.bolt.access().is_opened() {
                    self.bring_forward(at);
                }
            }
            // Whoever shuts a lock that nobody can open yet must not be shut out.
            (true, false) if !self.service.in_use() => self.bolt.shut(),
            (true, false) => self.bolt_event(bolt::Event::Shut, at),
            (true, true) | (false, false) => {}
        }
        self.look_at_reset(at);
    }

    /// The lock was opened: what waits, waits no more. The file sees to itself.
    fn bring_forward(&mut self, at: Moment) {
        if let Some(steady) = at.steady
            && self.service.is_over()
            && self.anew.opened(steady)
        {
            self.tally(Tally::Brought(steady), Continuation::Nothing, at);
        }
    }

    fn supply_measured(&mut self, measured: Millivolts, at: Moment) {
        if self.supply.measure(measured, self.in_force.policy()) && !self.writes.go_nowhere() {
            self.supply.is_recorded();
            let level = self.supply.level();
            self.record(at, Event::Supply { level, measured }, Continuation::Nothing);
        }
    }

    fn stored(&mut self, result: Result<(), StoreFault>, at: Moment, reads: &mut impl Reads) {
        let Some(PendingWrite { write, then }) = self.writes.ended() else {
            self.out_of_order(Fault::Bug);
            return;
        };
        // The alarm goes out whatever became of the write (R4).
        self.tell(then.outcome());
        if result.is_err() {
            while let Some(pending) = self.writes.give_up() {
                self.tell(pending.then.outcome());
            }
            self.out_of_order(Fault::Store);
            return;
        }
        let began = began(self.writes.edit());
        if matches!(write, Write::Edit(_))
            && !matches!(then, Continuation::Edited | Continuation::Adopted)
        {
            // What came with a courier's opening is durable too.
            self.writes.take_edit();
        }
        match then {
            Continuation::Nothing | Continuation::Tell(_) => {}
            Continuation::Say(sound, _) => self.out.sound(sound),
            Continuation::Judge => self.judge(at, reads),
            Continuation::Edited => {
                self.edited(reads);
                self.out.sound(Sound::Accepted);
            }
            Continuation::Adopted => self.edited(reads),
            Continuation::Believed => self.out.sound(Sound::Accepted),
            Continuation::SetClock(setting) => self.clock_is_set(setting, at),
            Continuation::TestAlarm => {
                self.alarm.test(at.uptime.after(self.in_force.policy().alarm_hold));
                self.out.sound(Sound::Accepted);
            }
            Continuation::BeginWait(people, ends, _) => {
                self.bolt_event(bolt::Event::BeginWait(people, ends, began), at);
            }
            Continuation::Release(people, ends, _) => {
                self.bolt_event(bolt::Event::Release(people, ends), at);
                self.out.sound(match self.supply.level() {
                    Level::Good => Sound::Accepted,
                    Level::Low | Level::Spent => Sound::Warning,
                });
            }
        }
    }

    pub(super) fn finish(&mut self, at: Moment) -> Turn {
        let mut effects = heapless::Vec::<Effect, EFFECTS>::new();
        let alarm = self.alarm.signal().map(Effect::Alarm);
        let (drive, sound) = (self.out.take_drive(), self.out.take_sound());
        let write = self.writes.hand_out();
        let show = match write {
            Some(_) => None,
            None => self.show(at),
        };
        for effect in [self.out.take_clock(), alarm, drive, sound, show].into_iter().flatten() {
            // One of each kind: the capacity is their number.
            let _ = effects.push(effect);
        }
        let then = match write {
            Some(write) => Then::Write(write),
            None => Then::Sleep(self.wake(at)),
        };
        Turn { effects, then }
    }

    fn show(&mut self, at: Moment) -> Option<Effect> {
        let face = self.face(at);
        self.display.turn_to(face).then_some(Effect::Show(face))
    }
}

/// What a step is made of.
impl Machine {
    /// The moment, without a look that changes anything.
    pub(super) fn moment_of(&self, now: Now) -> Moment {
        self.clock.moment_of(now, self.counts.shift())
    }

    /// The moment, by a clock that was looked at.
    pub(super) fn moment(&mut self, now: Now) -> Moment {
        self.clock.moment(now, self.counts.shift())
    }

    /// Whether only a boot ends the service: not so where a first warden may begin.
    pub(super) fn waits_for_a_boot(&self) -> bool {
        let fault = self.service.fault();
        !self.writes.kept().is_erased() && fault.is_some_and(|fault| fault != Fault::Blank)
    }

    /// The bolt is drawn, or the door open, without a release.
    pub(super) fn drawn_without_release(&mut self, at: Moment) {
        if self.service.in_use() {
            self.bolt_event(bolt::Event::Ajar, at);
        } else {
            self.bolt.found(Open::now(How::Opened, None, Ends::Never, at));
        }
    }

    pub(super) fn doubt_clock(&mut self, at: Moment) {
        self.tally(Tally::ClockDoubt(at.steady), Continuation::Nothing, at);
        self.record(at, Event::ClockInvalid, Continuation::Nothing);
        if self.bolt.access().delayed().is_some_and(|(_, ends)| ends != Ends::Never) {
            self.bolt_event(bolt::Event::Cancel(CancelReason::Clock), at);
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
        self.service.begin(fault);
        self.keypad.rest();
        self.pair.end();
        self.display.hush();
        self.countdowns.end_reset();
        self.bolt.drop_delay();
    }

    pub(super) fn bolt_event(&mut self, event: bolt::Event, at: Moment) {
        let policy = Policy { delay: self.delay(at), ..*self.in_force.policy() };
        let Consequences { cancelled, record, drive, sound, forced } =
            self.bolt.on(event, at, &policy);
        self.pair.look_at(self.bolt.access());
        // What caused it first, then what it ended.
        if let Some(event) = record {
            self.record(at, event, Continuation::Nothing);
        }
        if let Some(why) = cancelled {
            self.record(at, Event::Cancelled { why }, Continuation::Nothing);
        }
        if forced == Forced::Yes {
            self.alarm.tamper(at.uptime.after(self.in_force.policy().alarm_hold));
        }
        if let Some(drive) = drive {
            self.out.drive(drive);
        }
        if let Some(sound) = sound {
            self.out.sound(sound);
        }
    }

    /// Puts a record on its way to the store.
    pub(super) fn record(&mut self, at: Moment, event: audit::Event, then: Continuation) {
        self.send(Write::Record(Record { at: at.utc, event }), then);
    }

    /// Puts an entry of the tally on its way to the store. In memory it holds
    /// at once: should the write fail, the lock goes to service.
    pub(super) fn tally(&mut self, entry: Tally, then: Continuation, at: Moment) {
        self.counts.apply(entry, at.uptime);
        self.send(Write::Tally(entry), then);
    }

    pub(super) fn send(&mut self, write: Write, then: Continuation) {
        match self.writes.send(write, then) {
            Sent::OnItsWay => {}
            Sent::Nowhere => self.tell(then.outcome()),
            Sent::TooMany => {
                self.tell(then.outcome());
                self.out_of_order(Fault::Bug);
            }
        }
    }

    /// Whether a change may be made that nobody is waiting for: the lock works, no
    /// code is being judged, no write is outstanding, and nobody is about to make a
    /// change at the keypad.
    pub(super) fn is_idle(&self) -> bool {
        self.is_undisturbed() && self.writes.are_done()
    }

    /// The same, whatever is being written: those writes end by themselves.
    pub(super) fn is_undisturbed(&self) -> bool {
        let busy = match self.keypad.session() {
            Session::Judging(_) | Session::Second(..) => true,
            Session::Form(dialogue) => matches!(dialogue.stage, Stage::Confirm(_)),
            Session::Rest
            | Session::Entry(_)
            | Session::Over(_)
            | Session::List { .. }
            | Session::Who(..) => false,
        };
        !busy && self.service.is_over()
    }

    pub(super) fn notify(&mut self, screen: Screen, at: Moment) {
        self.display.say(screen, at.uptime);
    }
}

/// What a board, a link or a test asks.
impl Machine {
    /// The change that a [`Write::Edit`] is to make durable.
    #[must_use]
    pub const fn edit(&self) -> Option<&Edit> {
        self.writes.edit()
    }

    /// What the bolt may do now.
    #[must_use]
    pub const fn access(&self) -> &Access {
        self.bolt.access()
    }

    /// The state of the keypad's region, by name.
    #[must_use]
    pub const fn session_name(&self) -> &'static str {
        self.keypad.session().name()
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
    pub fn believed_utc(&self, now: Now) -> Option<Utc> {
        self.moment_of(now).utc
    }
}
