//! Runs the machine on a board and a store. The only executor there is: the
//! emulator, the rig and the firmware all run this one.

mod serve;

use serve::Carrying;

use crate::board::Board;
use crate::machine::{Machine, PowerUp, Waking};
use crate::port::{
    Bolt, Chip, Contacts, Door, EFFECTS, Effect, Fault, Inhibit, Input, Now, Store, StoreFault,
    Switch, Then, Turn, Upkeep, Write,
};
use crate::recovered::Recovered;
use crate::seed::Seed;
use crate::time::{Uptime, Utc};

/// A lock: machine, board and store.
pub struct Device<B, S> {
    board: B,
    store: S,
    machine: Machine,
    effects: heapless::Deque<Effect, EFFECTS>,
    then: Then,
    drive: Reached,
    upkeep: Offered,
    woken: Woken,
    /// What a session for files is in the middle of.
    carrying: Carrying,
}

/// Whether the store had its chance to do what it put off since the last turn.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Offered {
    No,
    Yes,
}

/// Whether the last input was a wake-up, or the next one is to be one.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Woken {
    No,
    Just,
    /// By [`Device::nudge`], while something was still to be done.
    Asked,
}

/// Whether the drive reached where it was last sent.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Reached {
    Yes,
    /// And the machine does not know yet.
    No,
}

/// What one call of [`Device::advance`] did.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Progress {
    /// Carried this effect out.
    Did(Effect),
    /// Had this written, with that result, and gave the machine the result.
    Wrote(Write, Result<(), StoreFault>),
    /// Gave the machine this input.
    Took(Input),
    /// Let the store do what it had put off, since nobody waited.
    Tended(Result<(), StoreFault>),
    /// Nothing is left to do until the board notices something, or until then.
    Asleep(Option<Uptime>),
}

silent!(Progress);

impl<B: Board, S: Store> Device<B, S> {
    /// Powers a lock up: from what the store's mount found.
    #[inline(never)] // own frame
    pub fn power_up(mut board: B, store: S, found: Recovered) -> Self {
        let power = power(&mut board);
        let (machine, turn) = Machine::boot(found, power);
        log::then(&turn.then);
        // Built where it is to be: a device is large, and is not put there twice.
        Self {
            board,
            store,
            machine,
            effects: queue(&turn.effects),
            then: turn.then,
            drive: Reached::Yes,
            upkeep: Offered::No,
            woken: Woken::No,
            carrying: Carrying::nothing(),
        }
    }

    /// A lock without power, to be built where it is to stay: a small machine has
    /// no room for two of it. [`Device::boot`] it first; until then it does
    /// nothing.
    #[inline(never)] // own frame
    pub fn without_power(board: B, store: impl FnOnce() -> S) -> Self {
        let now = Now { uptime: Uptime::ZERO, chip: Chip::Lost };
        let (bolt, door) = (Bolt::Thrown, Door::Closed);
        let contacts = Contacts { bolt, door, inhibit: Inhibit::Set, switch: Switch::Off };
        let mut found = Recovered::nothing(Fault::Settings);
        Self {
            board,
            store: store(),
            machine: Machine::found(
                &mut found,
                PowerUp { now, contacts, seed: Seed::new([0; Seed::LEN]), built: Utc::MIN },
            ),
            effects: heapless::Deque::new(),
            then: Then::Sleep(None),
            drive: Reached::Yes,
            upkeep: Offered::Yes,
            woken: Woken::No,
            carrying: Carrying::nothing(),
        }
    }

    /// Powers it up, as [`Device::power_up`] does, in place: from what the
    /// store's mount found.
    #[inline(never)] // own frame
    pub fn boot(&mut self, mut found: Recovered) {
        let waking = Waking::of(&found);
        let power = power(&mut self.board);
        let now = power.now;
        self.find(&mut found, power);
        self.drive = Reached::Yes;
        self.woken = Woken::No;
        self.carrying.forget();
        self.begin(now, waking);
    }

    /// The machine of what was found takes the place of the one there was.
    #[inline(never)] // own frame
    fn find(&mut self, found: &mut Recovered, power: PowerUp) {
        self.machine = Machine::found(found, power);
    }

    #[inline(never)] // own frame
    fn begin(&mut self, now: Now, waking: Waking) {
        let turn = self.machine.first_turn(now, waking);
        self.follow(turn);
    }

    /// Does one thing: an effect, a write, or an input.
    ///
    /// A main loop calls it until it says [`Progress::Asleep`], then sleeps
    /// until an interrupt or the moment named there.
    #[inline(never)] // own frame
    pub fn advance(&mut self) -> Progress {
        if let Some(effect) = self.effects.pop_front() {
            self.carry_out(effect);
            return Progress::Did(effect);
        }
        match self.then {
            Then::Write(write) => {
                let result = self.store(&write);
                self.give(Input::Stored(result));
                Progress::Wrote(write, result)
            }
            Then::Sleep(wake) => {
                if let Some(tended) = self.tend() {
                    return Progress::Tended(tended);
                }
                let now = self.board.now();
                match self.next_input(wake, now) {
                    Some(input) => {
                        self.give(input);
                        Progress::Took(input)
                    }
                    None => Progress::Asleep(wake),
                }
            }
        }
    }

    #[inline(never)] // own frame
    fn store(&mut self, write: &Write) -> Result<(), StoreFault> {
        match (write, self.machine.edit()) {
            (Write::Edit(record), Some(edit)) => self.store.edit(edit, record),
            (Write::Tally(_) | Write::Record(_) | Write::Edit(_), _) => self.store.write(write),
        }
    }

    /// What the store did, if anything was due and this is the time.
    #[inline(never)] // own frame
    fn tend(&mut self) -> Option<Result<(), StoreFault>> {
        if core::mem::replace(&mut self.upkeep, Offered::Yes) == Offered::Yes {
            return None;
        }
        match self.store.tend() {
            Ok(Upkeep::None) => None,
            Ok(Upkeep::Done) => Some(Ok(())),
            Err(StoreFault) => Some(Err(StoreFault)),
        }
    }

    fn next_input(&mut self, wake: Option<Uptime>, now: Now) -> Option<Input> {
        if self.drive == Reached::No {
            self.drive = Reached::Yes;
            return Some(Input::DriveFault);
        }
        // A wake-up that is due comes before what was noticed at that moment:
        // a key at the end of a penalty finds it over. But never two in a row: no
        // wake-up starves a key.
        let due = wake.is_some_and(|wake| now.uptime >= wake);
        if self.woken == Woken::Asked {
            self.woken = Woken::Just;
            return Some(Input::Woken);
        }
        if due && core::mem::replace(&mut self.woken, Woken::Just) == Woken::No {
            return Some(Input::Woken);
        }
        self.woken = Woken::No;
        let noticed = self.board.notice().map(Input::from);
        if noticed.is_none() && due {
            self.woken = Woken::Just;
            return Some(Input::Woken);
        }
        noticed
    }

    /// Lets the machine look at the time although it asked for no wake-up, as
    /// after the clock chip was set or its battery was pulled. A write or effect that
    /// is outstanding comes first.
    pub fn nudge(&mut self) {
        if self.is_busy() {
            self.woken = Woken::Asked;
        } else {
            self.give(Input::Woken);
        }
    }

    /// Whether a write or effect is outstanding.
    fn is_busy(&self) -> bool {
        matches!(self.then, Then::Write(_)) || !self.effects.is_empty()
    }

    fn give(&mut self, input: Input) {
        let now = self.board.now();
        log::input(&input);
        let turn = self.machine.step(now, input, &mut self.store);
        self.follow(turn);
    }

    fn follow(&mut self, turn: Turn) {
        // A turn comes only once the last one's effects are done.
        self.effects = queue(&turn.effects);
        log::then(&turn.then);
        self.then = turn.then;
        self.upkeep = Offered::No;
    }

    #[inline(never)] // own frame
    fn carry_out(&mut self, effect: Effect) {
        match effect {
            Effect::Alarm(level) => self.board.signal(level),
            Effect::Drive(to) => {
                if self.board.drive(to).is_err() {
                    self.drive = Reached::No;
                    log::drive_fault(to);
                }
            }
            Effect::Show(screen) => self.board.show(&screen),
            Effect::Sound(sound) => self.board.sound(sound),
            Effect::SetClock(utc) => self.board.set_clock(utc),
        }
    }

    /// The machine, to look at.
    pub const fn machine(&self) -> &Machine {
        &self.machine
    }

    /// The board.
    pub const fn board(&self) -> &B {
        &self.board
    }

    /// The board, to press its keys.
    pub const fn board_mut(&mut self) -> &mut B {
        &mut self.board
    }

    /// The machine, and the store under it.
    pub const fn machine_and_store(&mut self) -> (&Machine, &mut S) {
        (&self.machine, &mut self.store)
    }

    /// The store, to list its records.
    pub const fn store_mut(&mut self) -> &mut S {
        &mut self.store
    }

    /// Power is gone: what remains is the board and the store.
    pub fn power_down(self) -> (B, S) {
        (self.board, self.store)
    }
}

fn power<B: Board>(board: &mut B) -> PowerUp {
    let (now, contacts) = (board.now(), board.contacts());
    PowerUp { now, contacts, seed: board.seed(), built: board.built() }
}

fn queue(effects: &[Effect]) -> heapless::Deque<Effect, EFFECTS> {
    let mut queue = heapless::Deque::new();
    for effect in effects {
        // A turn has at most as many effects as the queue has room for.
        let _ = queue.push_back(*effect);
    }
    queue
}

/// The device log: kinds of input, refusals and faults; never a number typed
/// as part of a code, never an outcome.
#[cfg(feature = "defmt")]
mod log {
    use crate::audit::Event;
    use crate::port::{Drive, Input, Then, Write};

    pub(super) fn input(input: &Input) {
        match input {
            Input::Stored(Err(_)) => defmt::error!("write failed"),
            Input::DriveFault => defmt::error!("drive fault"),
            Input::Key(_)
            | Input::Bolt(_)
            | Input::Door(_)
            | Input::Supply(_)
            | Input::Inhibit(_)
            | Input::Switch(_)
            | Input::Transfer(_)
            | Input::Woken
            | Input::Stored(Ok(())) => defmt::debug!("input: {=str}", input.kind()),
        }
    }

    pub(super) fn then(then: &Then) {
        if let Then::Write(Write::Record(record)) = then {
            match record.event {
                Event::Refused { why, .. } => defmt::info!("{=str}", why.kind()),
                Event::Fault { .. } => defmt::error!("fault recorded"),
                Event::PoweredUp { .. }
                | Event::FoundThrown { .. }
                | Event::Released { .. }
                | Event::Opened
                | Event::Secured { .. }
                | Event::NotDrawn
                | Event::LeftOpen
                | Event::Forced
                | Event::DelayStarted { .. }
                | Event::Lapsed
                | Event::Cancelled { .. }
                | Event::FirstOfTwo { .. }
                | Event::WrongCode { .. }
                | Event::Penalty { .. }
                | Event::HeldShut { .. }
                | Event::Status { .. }
                | Event::Asked { .. }
                | Event::Changed { .. }
                | Event::Supply { .. }
                | Event::ClockInvalid => defmt::info!("{=str}", record.event.kind()),
            }
        }
    }

    pub(super) fn drive_fault(to: Drive) {
        match to {
            Drive::Free => defmt::error!("the drive did not free"),
            Drive::Block => defmt::error!("the drive did not block"),
        }
    }
}

/// Without the `defmt` feature nothing is logged.
#[cfg(not(feature = "defmt"))]
mod log {
    use crate::port::{Drive, Input, Then};

    pub(super) const fn input(_: &Input) {}
    pub(super) const fn then(_: &Then) {}
    pub(super) const fn drive_fault(_: Drive) {}
}
