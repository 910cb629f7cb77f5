//! A story: what happens to a lock, event by event, with the power ending
//! somewhere. It is told to a lock and a judge.

use std::fmt;

use emulated_board::flash::OpKind;
use emulated_board::fuse::Cut;
use lock_core::audit::{self, Record};
use lock_core::holder::Number;
use lock_core::keys::Key;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Fault, Inhibit, Switch};
use lock_core::screen::{Form, Screen};
use lock_core::task;
use lock_core::time::Utc;

use super::coverage::count;
use super::ground::{Change, Ground};
use super::judge::{Judge, Violation};
use super::recovery::told;
use super::typist::{Leader, Typist, new_code};
use crate::memory::{Flash, Lasting};
use crate::rig::{Covered, Dice};
use crate::site::Site;
use crate::world::{Fitted, Happening, Keeping, Order, Spoilt, World};

/// Boots after the last event: an unstable cell can pass one look.
const BOOTS: usize = 3;

/// So many screens of a dialogue are answered at most.
const ANSWERS: usize = 40;

/// Wrong codes that bar a number, and a few more.
const TRIES: usize = 104;

const DAY: u64 = 86_400_000;

/// Something that happens to a lock. Its words show no code.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Event {
    /// Somebody enters a number and a code.
    Enter {
        /// The number.
        who: u8,
        /// The code.
        code: Typed,
        /// What for.
        task: Task,
    },
    /// A single key.
    Key(Key),
    /// So many milliseconds pass.
    Wait(u64),
    /// A hand turns the handle: a blocker holds it.
    Turn(Bolt),
    /// The bolt is drawn past a blocker.
    Force,
    /// The door.
    Door(Door),
    /// The intruder alarm of the building.
    Inhibit(Inhibit),
    /// The service switch inside the door.
    Switch(Switch),
    /// The battery, under load.
    Supply(Millivolts),
    /// The clock chip loses what it knew.
    ClockLost,
    /// It jumps by so many seconds.
    ClockJumps(i64),
    /// The battery is pulled.
    Pull,
    /// It is put back.
    Restore,
    /// The power ends within that step from now on, or from the boot on.
    Cut(Cut),
    /// Without power, a bit of the flash turns over; then the lock boots. Places
    /// count round and round.
    Flip {
        /// The byte.
        address: u32,
        /// The bit of it, 0 to 7.
        bit: u8,
    },
    /// The bus to the flash is disturbed.
    Bus(Disturbance),
    /// Somebody changes the settings behind the machine's back.
    Edit(Change),
    /// Somebody enters a number and a code for a task of the list, and types what
    /// its dialogue asks for.
    Lead {
        /// The number.
        who: u8,
        /// The code.
        code: Typed,
        /// The task.
        task: task::Task,
        /// What decides the answers.
        seed: u64,
    },
    /// Wrong codes on a number until it is barred.
    Besiege(u8),
    /// Somebody asks for a reset without a code.
    SlowReset,
    /// Somebody enrols the first warden of a lock without one.
    FirstWarden,
}

/// What a disturbed bus does, until the power goes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Disturbance {
    /// After so many calls of that kind, so many fail.
    Fails(OpKind, u32, u32),
    /// The next write does nothing and says that all is well.
    Lies,
    /// The next write is done and said to have failed.
    Denies,
}

/// Which code somebody enters.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Typed {
    /// Theirs; a wrong one if nobody has the number.
    Right,
    /// Its duress variant.
    Duress,
    /// Another one.
    Wrong,
}

impl Typed {
    const fn name(self) -> &'static str {
        match self {
            Self::Right => "the right code",
            Self::Duress => "the duress code",
            Self::Wrong => "a wrong code",
        }
    }
}

/// What a code is entered for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Task {
    /// To open.
    Open,
    /// To hold the lock shut.
    Hold,
    /// To read the status.
    Status,
}

impl fmt::Display for Event {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Enter { who, code, task } => {
                let code = code.name();
                let task = match task {
                    Task::Open => "to open",
                    Task::Hold => "to hold it shut",
                    Task::Status => "for the status",
                };
                write!(f, "{who:02} enters {code} {task}")
            }
            Self::Key(Key::Digit(_)) => f.write_str("a digit"),
            Self::Key(Key::Ok) => f.write_str("OK"),
            Self::Key(Key::Back) => f.write_str("back"),
            Self::Wait(millis) => write!(f, "{}.{:03} s pass", millis / 1_000, millis % 1_000),
            Self::Turn(Bolt::Drawn) => f.write_str("a hand draws the bolt"),
            Self::Turn(Bolt::Thrown) => f.write_str("a hand throws the bolt"),
            Self::Force => f.write_str("the bolt is drawn by force"),
            Self::Door(Door::Open) => f.write_str("the door is opened"),
            Self::Door(Door::Closed) => f.write_str("the door is closed"),
            Self::Inhibit(Inhibit::Set) => f.write_str("the intruder alarm is set"),
            Self::Inhibit(Inhibit::Clear) => f.write_str("the intruder alarm is cleared"),
            Self::Switch(Switch::On) => f.write_str("the service switch is turned on"),
            Self::Switch(Switch::Off) => f.write_str("the service switch is turned off"),
            Self::Supply(mv) => write!(f, "the battery gives {} mV", mv.get()),
            Self::ClockLost => f.write_str("the clock chip loses its time"),
            Self::ClockJumps(by) => write!(f, "the clock chip jumps by {by} s"),
            Self::Pull => f.write_str("the battery is pulled"),
            Self::Restore => f.write_str("the battery is put back"),
            Self::Cut(Cut { after, class, seed }) => {
                let class = class.name();
                write!(f, "the power will end within step {after} from here: {class}, seed {seed}")
            }
            Self::Flip { address, bit } => write!(f, "bit {bit} of byte {address} turns over"),
            Self::Bus(Disturbance::Fails(kind, after, count)) => {
                write!(f, "{count} calls of {kind:?} will fail, after {after} more")
            }
            Self::Bus(Disturbance::Lies) => f.write_str("the next write will do nothing"),
            Self::Bus(Disturbance::Denies) => f.write_str("the next write will be denied"),
            Self::Edit(change) => write!(f, "the settings are changed: {change:?}"),
            Self::Lead { who, code, task, seed } => {
                let (code, task) = (code.name(), task.name());
                write!(f, "{who:02} enters {code} for {task}, then the answers of seed {seed}")
            }
            Self::Besiege(who) => write!(f, "{who:02} is tried until it is barred"),
            Self::SlowReset => f.write_str("a reset is asked for without a code"),
            Self::FirstWarden => f.write_str("a first warden is enrolled"),
        }
    }
}

/// Whether a lock lives on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Life {
    /// It does.
    GoesOn,
    /// A reset left it without anybody: a first warden is to be enrolled.
    Emptied,
    /// It asks for service, and goes on asking.
    NeedsService(Fault),
}

/// The hands that do to a lock what a story says.
pub struct Hands<'t, M: Lasting, B, const W: usize, const P: usize> {
    site: &'t Site,
    ground: &'t Ground<W, P>,
    world: World<M, B>,
    /// Whether orders for the bus may be left.
    disturbed: bool,
}

impl<'t, M, B, const W: usize, const P: usize> Hands<'t, M, B, W, P>
where
    M: Lasting<Flash = Flash<W, P>>,
    B: Fitted,
{
    /// The hands at a lock that was commissioned on that ground.
    #[must_use]
    pub fn on(ground: &'t Ground<W, P>, site: &'t Site, world: World<M, B>) -> Self {
        Self { site, ground, world, disturbed: false }
    }

    /// The lock and its world.
    pub const fn world(&mut self) -> &mut World<M, B> {
        &mut self.world
    }

    /// Does what the event says.
    pub fn event(&mut self, event: Event) {
        // Nobody leaves a dead lock alone for long.
        let awaits = matches!(
            event,
            Event::Enter { .. }
                | Event::Key(_)
                | Event::Edit(_)
                | Event::Lead { .. }
                | Event::Besiege(_)
                | Event::SlowReset
                | Event::FirstWarden
        );
        if awaits || event == Event::Restore {
            self.restore();
        }
        self.disturbed |= matches!(event, Event::Bus(_));
        let world = &mut self.world;
        match event {
            Event::Enter { who, code, task } => self.enter(who, code, task),
            Event::Key(key) => world.press(key),
            Event::Wait(millis) => world.run_until(world.now().saturating_add(millis)),
            Event::Turn(to) => drop(world.move_bolt(to)),
            Event::Force => world.force_bolt(),
            Event::Door(to) => world.move_door(to),
            Event::Inhibit(to) => world.inhibit(to),
            Event::Switch(to) => world.switch(to),
            Event::Supply(to) => world.supply(to),
            Event::ClockLost => world.lose_clock(),
            Event::ClockJumps(by) => world.shift_clock(by),
            Event::Pull => world.cut_power(),
            Event::Restore => {}
            Event::Cut(cut) => world.order(Order::Cut(cut)),
            Event::Flip { address, bit } => self.flip(address, bit),
            Event::Bus(disturbance) => world.spoil(|flash| {
                match disturbance {
                    Disturbance::Fails(kind, after, count) => flash.fail_calls(kind, after, count),
                    Disturbance::Lies => flash.lie_next_writes(1),
                    Disturbance::Denies => flash.deny_next_writes(1),
                }
                Spoilt::Bus
            }),
            Event::Edit(change) => self.edit(change),
            Event::Lead { who, code, task, seed } => self.lead(who, code, task, seed),
            Event::Besiege(who) => self.besiege(who),
            Event::SlowReset => {
                let mut keys = Typist::pick(task::Task::Reset).keys();
                keys.extend([Key::Ok; 2]);
                self.press_all(keys);
            }
            Event::FirstWarden => {
                let mut typist = Typist::default();
                let code = new_code(1, 6);
                for line in ["", "01", &code, &code, ""] {
                    typist.line(line);
                }
                self.press_all(typist.keys());
            }
        }
    }

    /// Power comes, to a bus that is quiet.
    pub fn restore(&mut self) {
        if self.world.has_power() {
            return;
        }
        if self.disturbed {
            self.world.spoil(|flash| {
                for kind in [OpKind::Read, OpKind::Program, OpKind::Erase] {
                    flash.fail_calls(kind, 0, 0);
                }
                flash.fail_next_writes(0);
                Spoilt::Bus
            });
            self.disturbed = false;
        }
        self.world.restore_power();
    }

    fn flip(&mut self, address: u32, bit: u8) {
        // What was written until now is seen before anything is lost.
        self.world.look();
        self.world.cut_power();
        self.world.spoil(|flash| {
            let bytes = u32::try_from(flash.chip().capacity()).unwrap_or(u32::MAX);
            let address = address % bytes.max(1);
            // Within the chip and the byte, so that it is done.
            let _done = flash.chip_mut().flip_bit(address, bit % 8);
            Spoilt::Content(M::part(flash, address), address)
        });
        self.restore();
    }

    /// A change of the settings and the record of it.
    fn edit(&mut self, change: Change) {
        let edit = self.world.memory().and_then(|memory| self.ground.edit(change, memory));
        let Some(edit) = edit else { return };
        let at = Some(self.world.utc());
        // Any record does that says neither who opened nor where the bolt is.
        let record = Record { at, event: audit::Event::LeftOpen };
        let made = self.world.edit(&edit, &record);
        // Whoever is told that it failed has the lock look what became of it.
        if !made && self.world.has_power() {
            self.world.cut_power();
            self.restore();
        }
    }

    fn enter(&mut self, who: u8, code: Typed, task: Task) {
        let mut typist = match task {
            Task::Open => Typist::default(),
            Task::Hold => Typist::pick(task::Task::HoldShut),
            Task::Status => Typist::pick(task::Task::Status),
        };
        typist.line(&self.entry(who, code));
        self.press_all(typist.keys());
        // A hold-shut asks first.
        if matches!(self.world.screen(), Some(Screen::Form(Form::Confirm { .. }))) {
            self.world.press(Key::Ok);
        }
    }

    /// Wrong codes until the number is barred, each penalty waited for.
    fn besiege(&mut self, who: u8) {
        for _ in 0..TRIES {
            self.enter(who, Typed::Wrong, Task::Open);
            if matches!(self.world.screen(), Some(Screen::Penalty { .. })) {
                self.world.run_until(self.world.now().saturating_add(DAY));
            }
        }
    }

    /// A number and a code, as digits.
    fn entry(&mut self, who: u8, code: Typed) -> String {
        let mut digits = code_of(self.site, self.ground, &mut self.world, who);
        if let Some(last) = digits.pop().and_then(|digit| digit.to_digit(10)) {
            // Duress is the last digit plus one, modulo ten.
            let more = match code {
                Typed::Right => 0,
                Typed::Duress => 1,
                Typed::Wrong => 5,
            };
            digits += &((last + more) % 10).to_string();
        }
        format!("{who:02}{digits}")
    }

    /// The list, who it is, and all that the dialogue asks for.
    fn lead(&mut self, who: u8, code: Typed, task: task::Task, seed: u64) {
        let mut typist = Typist::pick(task);
        typist.line(&self.entry(who, code));
        self.press_all(typist.keys());
        let mut dice = Dice::of(seed, 0);
        let leader = Leader::of(who, task, self.world.utc(), &self.site.zone, &mut dice);
        for _ in 0..ANSWERS {
            let Some(Screen::Form(form)) = self.world.screen() else { return };

            let Self { site, ground, world, .. } = self;
            let mut code = |who| code_of(site, ground, world, who);
            let Some(keys) = leader.answer(&form, &mut code, &mut dice) else { return };
            self.press_all(keys);
        }
    }

    fn press_all(&mut self, keys: Vec<Key>) {
        for key in keys {
            self.world.press(key);
        }
    }
}

/// The code of a number: the demo site's, or the one that its holder chose; some
/// digits where nobody has the number.
fn code_of<M, B, const W: usize, const P: usize>(
    site: &Site,
    ground: &Ground<W, P>,
    world: &mut World<M, B>,
    who: u8,
) -> String
where
    M: Lasting<Flash = Flash<W, P>>,
    B: Fitted,
{
    let demo = site.demo_codes.iter().find(|demo| demo.number().get() == who);
    let first = demo.map_or_else(|| "102938".to_owned(), |demo| demo.digits().to_owned());
    let Some(number) = Number::new(who) else { return first };
    let row = world.memory().and_then(|memory| memory.holder(number).ok().flatten());
    match row {
        Some(row) if !ground.has_first_code(number, &row) => new_code(who, 6),
        Some(_) | None => first,
    }
}

/// What a story is told to: hands, and a judge who watches them.
pub struct Teller<'t, M: Lasting, B, const W: usize, const P: usize> {
    hands: Hands<'t, M, B, W, P>,
    judge: Judge,
    covered: Covered,
    /// What happened last, for the end of a bad story.
    last: Vec<Happening>,
}

impl<'t, M, B, const W: usize, const P: usize> Teller<'t, M, B, W, P>
where
    M: Lasting<Flash = Flash<W, P>>,
    B: Fitted,
{
    /// A lock of `site` on that ground, at `start`, after its first boot.
    ///
    /// # Errors
    /// What the boot violates.
    pub fn on(ground: &'t Ground<W, P>, site: &'t Site, start: Utc) -> Result<Self, Violation> {
        let world = ground.world(start, Keeping::Happenings);
        Self::with(Hands::on(ground, site, world), ground.judge())
    }

    /// A lock that has been through something is powered up and goes on, before
    /// the judge who saw it.
    ///
    /// # Errors
    /// What the boot violates.
    pub fn with(mut hands: Hands<'t, M, B, W, P>, judge: Judge) -> Result<Self, Violation> {
        hands.restore();
        let mut teller = Self { hands, judge, covered: Covered::default(), last: Vec::new() };
        teller.judged()?;
        Ok(teller)
    }

    /// Tells all of a story; then the lock boots a few times more.
    ///
    /// # Errors
    /// What it violates.
    pub fn tell(&mut self, events: &[Event], covered: &mut Covered) -> Result<(), Violation> {
        for event in events {
            self.hands.event(*event);
            self.judged()?;
        }
        for _ in 0..BOOTS {
            self.hands.world.cut_power();
            self.hands.restore();
            self.judged()?;
        }
        self.hands.world.look();
        self.judged()?;
        covered.merge(&self.covered);
        Ok(())
    }

    /// One event of a long life. A lock that asks for service is powered up
    /// anew; one that still does has lived. So has one that a reset emptied.
    ///
    /// # Errors
    /// What it violates.
    pub fn live(&mut self, event: Event) -> Result<Life, Violation> {
        self.hands.event(event);
        self.judged()?;
        for boots in 0.. {
            let Some(Screen::Service(fault)) = self.hands.world.screen() else { break };
            match fault {
                Fault::Blank => return Ok(Life::Emptied),
                _ if boots == 2 => return Ok(Life::NeedsService(fault)),
                _ => {}
            }
            self.hands.world.cut_power();
            self.hands.restore();
            self.judged()?;
        }
        Ok(Life::GoesOn)
    }

    /// The true time.
    #[must_use]
    pub fn utc(&self) -> Utc {
        self.hands.world.utc()
    }

    /// What it went through.
    #[must_use]
    pub const fn covered(&self) -> &Covered {
        &self.covered
    }

    /// The judge sees what happened.
    fn judged(&mut self) -> Result<(), Violation> {
        self.last = self.hands.world.take_journal();
        drop(self.hands.world.take_trace());
        for happening in &self.last {
            count(happening, &mut self.covered);
            self.judge.see(happening)?;
        }
        Ok(())
    }

    /// What happened last, in words.
    #[must_use]
    pub fn last_words(&self) -> Vec<String> {
        self.last.iter().filter_map(told).collect()
    }
}
