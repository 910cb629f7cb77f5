//! A lock under attack: acts are carried out on it, and what it makes of each
//! entry is held against the oracle.

use std::collections::BTreeMap;

use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::{Event, Refusal};
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::machine::bolt::Access;
use lock_core::policy::DuressCodes;
use lock_core::port::{Effect, Tally, Write};
use lock_core::screen::Screen;

use super::guesser::Act;
use super::oracle::{Fate, Kind, Oracle};
use super::setup::Setup;
use super::space::raised;
use crate::rig::Covered;
use crate::world::{Millis, World};

/// A second, in the units of true time.
const SECOND: Millis = 1_000;
const HOUR: Millis = 3_600 * SECOND;

/// What became of one act.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Came {
    /// No code was typed.
    NoEntry,
    /// A code was typed, and this came of it.
    Entry {
        /// What the lock made of it.
        fate: Fate,
        /// Whether a right code would have been taken in its place, as far as
        /// the number's failures go.
        open_to: bool,
    },
}

/// A lock under attack.
pub struct Siege<'s> {
    setup: &'s Setup,
    world: World,
    oracle: Oracle,
    begun: Millis,
    /// What the last entry made the lock show and sound.
    shown: Vec<Effect>,
    /// The next counter of each courier, as the laptop counts.
    counters: BTreeMap<Number, u32>,
    /// The courier and the code that began an opening which waits: it is claimed with
    /// that code.
    began: Option<(Number, u32)>,
}

impl<'s> Siege<'s> {
    /// The attack begins.
    ///
    /// # Errors
    /// If the lock cannot be commissioned.
    pub fn begin(setup: &'s Setup) -> Result<Self, String> {
        let mut world = setup.world().map_err(|why| format!("The settings: {why:?}."))?;
        world.take_trace();
        let begun = world.now();
        let oracle = Oracle::new(setup.policy(), begun);
        let (counters, began) = (BTreeMap::new(), None);
        Ok(Self { setup, world, oracle, begun, shown: Vec::new(), counters, began })
    }

    /// Seconds since the attack began.
    pub fn elapsed(&self) -> u64 {
        (self.world.now() - self.begun) / SECOND
    }

    /// Carries one act out.
    ///
    /// # Errors
    /// What the lock did otherwise than the contract says.
    pub fn act(&mut self, act: Act, covered: &mut Covered) -> Result<Came, String> {
        match act {
            Act::Try(number, code) => {
                self.wait(self.setup.pace() * SECOND);
                return self.enter(number, code, Kind::Wrong, covered);
            }
            Act::Right(number) => {
                let Some(code) = self.right(number) else { return Ok(Came::NoEntry) };
                let role = self.setup.role(number);
                return self.enter(number, code, role.map_or(Kind::Wrong, Kind::Right), covered);
            }
            Act::Duress(number) => {
                let Some(code) = self.right(number) else { return Ok(Came::NoEntry) };
                let role = self.setup.role(number);
                let on = self.setup.policy().duress == DuressCodes::On;
                let kind = role.filter(|_| on).map_or(Kind::Wrong, Kind::Right);
                return self.enter(number, raised(code), kind, covered);
            }
            Act::Battery(seconds) => {
                self.oracle.pass(self.world.now());
                self.world.cut_power();
                self.wait(u64::from(seconds) * SECOND);
                self.world.restore_power();
                self.oracle.boot(self.world.now());
                covered.add("battery pulled", 1);
            }
            Act::Clock(by) => {
                self.world.shift_clock(by.into());
                covered.add("clock moved or lost", 1);
            }
            Act::LoseClock => {
                self.world.lose_clock();
                covered.add("clock moved or lost", 1);
            }
            Act::Wait(seconds) => self.wait(u64::from(seconds) * SECOND),
            Act::SitOut => self.sit_out(),
            Act::NextHour => {
                let gone = (self.world.now() - self.begun) % HOUR;
                self.wait(HOUR - gone);
                self.sit_out();
            }
        }
        self.quiet()
    }

    /// What that number types: a chosen code, or the laptop's next one-time code, but to
    /// claim an opening the code that began it.
    fn right(&self, number: Number) -> Option<u32> {
        let Some(courier) = self.setup.courier(number) else { return self.setup.code(number) };
        if let Some((_, code)) = self.began.filter(|(who, _)| *who == number && self.waits()) {
            return Some(code);
        }
        let counter = self.counters.get(&number).copied().unwrap_or_default();
        courier.next(counter).map(|(_, code)| code)
    }

    /// Whether an opening waits to be claimed, or may be.
    fn waits(&self) -> bool {
        matches!(self.world.access_state(), Some(Access::Waiting(_) | Access::Claimable(_)))
    }

    /// The code that was typed is used up, if it began something.
    fn spend(&mut self, number: Number, code: u32, trace: &[Line]) {
        let Some(courier) = self.setup.courier(number) else { return };
        let spent = trace.iter().any(|line| {
            matches!(line.what, What::Wrote(Write::Edit(record), Durable::Yes)
                if matches!(record.event,
                    Event::Released { .. } | Event::DelayStarted { .. } | Event::FirstOfTwo { .. }))
        });
        let counter = self.counters.get(&number).copied().unwrap_or_default();
        let next = courier.next(counter);
        if let Some((used, _)) = next.filter(|(_, next)| spent && matches(code, *next)) {
            self.counters.insert(number, used.saturating_add(1));
            self.began = Some((number, code));
        }
    }

    /// Nothing was typed, so nothing may have been judged.
    fn quiet(&mut self) -> Result<Came, String> {
        let trace = self.world.take_trace();
        match trace.iter().find_map(judgement) {
            None => Ok(Came::NoEntry),
            Some(_) => Err("An entry was judged that nobody typed.".to_owned()),
        }
    }

    fn wait(&mut self, millis: Millis) {
        self.world.run_until(self.world.now() + millis);
    }

    /// Waits until the lock takes codes again. The guesser sees the countdown;
    /// the penalty must end no sooner than the oracle says, and does not have to
    /// be asked when.
    fn sit_out(&mut self) {
        while self.world.in_penalty()
            && let Some(wake) = self.world.next_wake()
        {
            self.world.run_until(wake);
        }
    }

    fn enter(
        &mut self,
        number: Number,
        code: u32,
        kind: Kind,
        covered: &mut Covered,
    ) -> Result<Came, String> {
        let before = self.world.take_trace();
        if before.iter().any(|line| judgement(line).is_some()) {
            return Err("An entry was judged that nobody typed.".to_owned());
        }
        let now = self.world.now();
        self.oracle.pass(now);
        let role = self.setup.role(number);
        let open_to = role.is_some_and(|role| !self.oracle.bars(now, number, role));
        let expected = self.oracle.entry(now, number, kind);
        self.type_keys(number, code);
        let trace = self.world.take_trace();
        self.spend(number, code, &trace);
        let seen = fate(&trace, number)?;
        self.shown = trace.iter().filter_map(visible).collect();
        if seen != expected {
            return Err(format!("An entry was to be {expected} and was {seen}."));
        }
        count(seen, covered);
        Ok(Came::Entry { fate: seen, open_to })
    }

    fn type_keys(&mut self, number: Number, code: u32) {
        let text = format!("{:02}{}", number.get(), self.setup.space_of(number).text(code));
        for byte in text.bytes() {
            if let Some(digit) = Digit::new(byte.wrapping_sub(b'0')) {
                self.world.press(Key::Digit(digit));
            }
        }
        self.world.press(Key::Ok);
    }

    /// Whether the keypad tells a right code from a wrong one on `number`,
    /// whether it opens or not. Types one of each, a penalty apart.
    ///
    /// # Errors
    /// What the lock did otherwise than the contract says.
    pub fn tells(
        &mut self,
        number: Number,
        wrong: u32,
        covered: &mut Covered,
    ) -> Result<bool, String> {
        // So that neither of the two starts a penalty: the screen of one would
        // hide the answer.
        let block = usize::from(self.setup.policy().wrong_codes);
        self.act(Act::SitOut, covered)?;
        while self.oracle.count() > 0 && self.oracle.count() + 2 >= block {
            self.act(Act::Try(number, wrong), covered)?;
            self.act(Act::SitOut, covered)?;
        }
        self.act(Act::Try(number, wrong), covered)?;
        let of_wrong: Vec<Effect> = self.shown.iter().map(without_numbers).collect();
        self.act(Act::Right(number), covered)?;
        let of_right: Vec<Effect> = self.shown.iter().map(without_numbers).collect();
        Ok(of_wrong != of_right)
    }
}

/// Whether an entry is a code, or its duress variant.
const fn matches(entry: u32, code: u32) -> bool {
    entry == code || entry == raised(code)
}

/// What somebody at the keypad sees or hears of a line.
fn visible(line: &Line) -> Option<Effect> {
    match line.what {
        What::Did(effect @ (Effect::Show(_) | Effect::Sound(_))) => Some(effect),
        What::Did(Effect::Alarm(_) | Effect::Drive(_) | Effect::SetClock(_))
        | What::PowerOn
        | What::PowerCut
        | What::Told(_)
        | What::Wrote(..)
        | What::Tended(_) => None,
    }
}

/// The tries left differ from try to try; they tell nothing of the code. What is
/// typed shows as dots.
fn without_numbers(effect: &Effect) -> Effect {
    match effect {
        Effect::Show(Screen::WrongCode { .. }) => Effect::Show(Screen::WrongCode { left: 0 }),
        other => *other,
    }
}

/// What a line says of a judged entry: the number, and what became of it.
fn judgement(line: &Line) -> Option<(Number, Fate)> {
    // A courier's code is used up in the change that records what it did.
    let What::Wrote(Write::Record(record) | Write::Edit(record), Durable::Yes) = line.what else {
        return None;
    };
    let fate = |right, barred| Fate::Judged { right, barred, penalty: None };
    Some(match record.event {
        Event::WrongCode { who } => (who, fate(false, false)),
        Event::Refused { who, why: Refusal::Penalty, .. } => (who, Fate::InPenalty),
        Event::Refused { who, why, .. } => (who, fate(true, why == Refusal::Barred)),
        Event::Released { people, .. } | Event::DelayStarted { people, .. } => {
            (people.second.unwrap_or(people.first), fate(true, false))
        }
        Event::FirstOfTwo { who, .. } | Event::Status { who, .. } | Event::Asked { who, .. } => {
            (who, fate(true, false))
        }
        Event::PoweredUp { .. }
        | Event::FoundThrown { .. }
        | Event::HeldShut { .. }
        | Event::Opened
        | Event::Secured { .. }
        | Event::NotDrawn
        | Event::LeftOpen
        | Event::Forced
        | Event::Lapsed
        | Event::Cancelled { .. }
        | Event::Penalty { .. }
        | Event::Supply { .. }
        | Event::ClockInvalid
        | Event::Changed { .. }
        | Event::Fault { .. } => return None,
    })
}

/// What became of an entry on `number`, from what the lock wrote.
///
/// # Errors
/// If it was judged before it was counted, twice, or on another number.
fn fate(trace: &[Line], number: Number) -> Result<Fate, String> {
    let mut seen: Option<Fate> = None;
    let mut counted = false;
    for line in trace {
        match line.what {
            What::Wrote(_, Durable::No) => return Err("A write failed.".to_owned()),
            What::Wrote(Write::Tally(Tally::Counted(of)), _) => counted |= of == number,
            What::Wrote(Write::Record(record), _) => {
                if let (Event::Penalty { lasts }, Some(Fate::Judged { penalty, .. })) =
                    (record.event, &mut seen)
                {
                    *penalty = Some(lasts.get());
                }
            }
            What::Wrote(Write::Tally(_) | Write::Edit(_), _)
            | What::PowerOn
            | What::PowerCut
            | What::Told(_)
            | What::Tended(_)
            | What::Did(_) => {}
        }
        let Some((who, fate)) = judgement(line) else { continue };
        let two = seen.replace(fate).is_some();
        let before = matches!(fate, Fate::Judged { .. }) && !counted;
        if two || before || who != number {
            let flaw = match (two, before) {
                (true, _) => "judged twice".to_owned(),
                (false, true) => "judged before it was counted".to_owned(),
                (false, false) => format!("judged on {:02}", who.get()),
            };
            return Err(format!("An entry on {:02} was {flaw}.", number.get()));
        }
    }
    Ok(seen.unwrap_or(Fate::Ignored))
}

fn count(fate: Fate, covered: &mut Covered) {
    covered.add("entries typed", 1);
    match fate {
        Fate::Ignored => covered.add("ignored in a penalty", 1),
        Fate::InPenalty => covered.add("looked at in a penalty", 1),
        Fate::Judged { right, barred, penalty } => {
            covered.add("entries judged", 1);
            covered.add("right codes judged", right.into());
            covered.add("right codes barred", barred.into());
            covered.add("penalties", penalty.is_some().into());
        }
    }
}
