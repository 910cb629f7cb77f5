//! A story: what happens to a lock, event by event, with the power ending
//! somewhere. It is told to a lock and a judge.

use std::fmt;

use emulated_board::fuse::Cut;
use lock_core::keys::{Digit, Key};
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Inhibit};
use lock_core::time::Utc;

use super::ground::Ground;
use super::judge::{Judge, Violation};
use super::recovery::told;
use crate::memory::{Flash, Lasting};
use crate::rig::Covered;
use crate::site::Site;
use crate::world::{Fitted, Happening, Keeping, Order, World};

/// Boots after the last event: an unstable cell can pass one look.
const BOOTS: usize = 3;

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
                let code = match code {
                    Typed::Right => "the right code",
                    Typed::Duress => "the duress code",
                    Typed::Wrong => "a wrong code",
                };
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
            Self::Supply(mv) => write!(f, "the battery gives {} mV", mv.get()),
            Self::ClockLost => f.write_str("the clock chip loses its time"),
            Self::ClockJumps(by) => write!(f, "the clock chip jumps by {by} s"),
            Self::Pull => f.write_str("the battery is pulled"),
            Self::Restore => f.write_str("the battery is put back"),
            Self::Cut(Cut { after, class, seed }) => {
                let class = class.name();
                write!(f, "the power will end within step {after} from here: {class}, seed {seed}")
            }
        }
    }
}

/// What a story is told to.
pub struct Teller<'t, M: Lasting, B> {
    site: &'t Site,
    world: World<M, B>,
    judge: Judge,
    /// What happened last, for the end of a bad story.
    last: Vec<Happening>,
}

impl<'t, M, B, const W: usize, const P: usize> Teller<'t, M, B>
where
    M: Lasting<Flash = Flash<W, P>>,
    B: Fitted,
{
    /// A lock of `site` on that ground, at `start`, after its first boot.
    ///
    /// # Errors
    /// What the boot violates.
    pub fn on(ground: &Ground<W, P>, site: &'t Site, start: Utc) -> Result<Self, Violation> {
        let mut world = ground.world(start, Keeping::Happenings);
        world.restore_power();
        let mut teller = Self { site, world, judge: ground.judge(), last: Vec::new() };
        teller.judged()?;
        Ok(teller)
    }

    /// Tells all of a story; then the lock boots a few times more.
    ///
    /// # Errors
    /// What it violates.
    pub fn tell(&mut self, events: &[Event], covered: &mut Covered) -> Result<(), Violation> {
        for event in events {
            self.event(*event);
            self.judged()?;
        }
        for _ in 0..BOOTS {
            self.world.cut_power();
            self.world.restore_power();
            self.judged()?;
        }
        self.world.look();
        self.judged()?;
        covered.add("cuts", self.judge.cuts());
        Ok(())
    }

    fn event(&mut self, event: Event) {
        let world = &mut self.world;
        // Nobody leaves a dead lock alone for long.
        if !world.has_power() && matches!(event, Event::Enter { .. } | Event::Key(_)) {
            world.restore_power();
        }
        match event {
            Event::Enter { who, code, task } => self.enter(who, code, task),
            Event::Key(key) => world.press(key),
            Event::Wait(millis) => world.run_until(world.now().saturating_add(millis)),
            Event::Turn(to) => drop(world.move_bolt(to)),
            Event::Force => world.force_bolt(),
            Event::Door(to) => world.move_door(to),
            Event::Inhibit(to) => world.inhibit(to),
            Event::Supply(to) => world.supply(to),
            Event::ClockLost => world.lose_clock(),
            Event::ClockJumps(by) => world.shift_clock(by),
            Event::Pull => world.cut_power(),
            Event::Restore => world.restore_power(),
            Event::Cut(cut) => world.order(Order::Cut(cut)),
        }
    }

    fn enter(&mut self, who: u8, code: Typed, task: Task) {
        let item = match task {
            Task::Open => None,
            Task::Hold => Digit::new(1),
            Task::Status => Digit::new(2),
        };
        let demo = self.site.demo_codes.iter().find(|demo| demo.number().get() == who);
        let mut digits: Vec<u8> = demo.map_or(&b"102938"[..], |d| d.digits().as_bytes()).into();
        if let Some(last) = digits.last_mut() {
            // Duress is the last digit plus one, modulo ten.
            let more = match code {
                Typed::Right => 0,
                Typed::Duress => 1,
                Typed::Wrong => 5,
            };
            *last = b'0' + (*last - b'0' + more) % 10;
        }
        let number = [b'0' + who / 10 % 10, b'0' + who % 10];
        let keys = number.iter().chain(&digits).filter_map(|c| Digit::new(c - b'0'));
        if let Some(item) = item {
            self.world.press(Key::Ok);
            self.world.press(Key::Digit(item));
        }
        for key in keys {
            self.world.press(Key::Digit(key));
        }
        self.world.press(Key::Ok);
    }

    /// The judge sees what happened.
    fn judged(&mut self) -> Result<(), Violation> {
        self.last = self.world.take_journal();
        drop(self.world.take_trace());
        for happening in &self.last {
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
