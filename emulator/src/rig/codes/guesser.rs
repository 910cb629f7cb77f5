//! Guessers: what they do at the keypad, one act after the other.

use std::collections::VecDeque;

use lock_core::holder::Number;

use super::closed_form::best_blocks;
use super::order::Order;
use super::setup::Setup;
use crate::rig::Dice;

/// One thing that somebody does.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Act {
    /// Types a number and a code that is not that holder's.
    Try(Number, u32),
    /// A holder types their own code.
    Right(Number),
    /// A holder types their own code's duress variant.
    Duress(Number),
    /// Pulls the battery, and puts it back so many seconds later.
    Battery(u32),
    /// Moves the clock chip by so many seconds.
    Clock(i32),
    /// Lets the clock chip lose its time.
    LoseClock,
    /// Waits so many seconds.
    Wait(u32),
    /// Waits for a running penalty to end.
    SitOut,
    /// Waits for the next full hour of the attack, and for a running penalty to
    /// end.
    NextHour,
}

impl Act {
    /// The act in words. A holder's own code stays unsaid.
    #[must_use]
    pub fn told(&self, setup: &Setup) -> String {
        match self {
            Self::Try(number, code) => {
                let code = setup.space_of(*number).text(*code);
                format!("tries {code} on {:02}", number.get())
            }
            Self::Right(number) => format!("{:02} types the right code", number.get()),
            Self::Duress(number) => format!("{:02} types the duress code", number.get()),
            Self::Battery(seconds) => format!("pulls the battery for {seconds} s"),
            Self::Clock(by) => format!("moves the clock by {by} s"),
            Self::LoseClock => "makes the clock lose its time".to_owned(),
            Self::Wait(seconds) => format!("waits {seconds} s"),
            Self::SitOut => "sits a penalty out".to_owned(),
            Self::NextHour => "waits for the next full hour".to_owned(),
        }
    }
}

/// A strategy.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Strategy {
    /// Random codes.
    Random,
    /// Codes from 000000 on.
    Sequential,
    /// Popular codes first.
    Popular,
    /// The best order there is.
    Knowing,
    /// That, with an insider's own right code after every third try.
    OwnCode,
    /// That, with the battery pulled after every try.
    Battery,
    /// That, with the clock moved or lost after every try.
    Clock,
    /// That, typing on through the penalties.
    TypingOn,
    /// That, on everybody's number in turn.
    EveryNumber,
    /// That, with pauses of a day, so that the doubling falls.
    Patient,
    /// That, beside the holder, who opens every hour and so clears the failures
    /// of their number.
    BesideHolder,
}

impl Strategy {
    /// All of them, in the order of the table.
    pub const ALL: [Self; 11] = [
        Self::Random,
        Self::Sequential,
        Self::Popular,
        Self::Knowing,
        Self::OwnCode,
        Self::Battery,
        Self::Clock,
        Self::TypingOn,
        Self::EveryNumber,
        Self::Patient,
        Self::BesideHolder,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Random => "random",
            Self::Sequential => "sequential",
            Self::Popular => "popular",
            Self::Knowing => "knowing",
            Self::OwnCode => "own-code",
            Self::Battery => "battery",
            Self::Clock => "clock",
            Self::TypingOn => "typing-on",
            Self::EveryNumber => "every-number",
            Self::Patient => "patient",
            Self::BesideHolder => "beside-holder",
        }
    }

    /// What it does, in a few words.
    #[must_use]
    pub const fn says(self) -> &'static str {
        match self {
            Self::Random => "any code, nothing noted down",
            Self::Sequential => "000000, 000001 and so on",
            Self::Popular => "what people like to choose, then in sequence",
            Self::Knowing => "usable codes only, two at a try by the duress variant",
            Self::OwnCode => "as knowing; an insider's own code after every third try",
            Self::Battery => "as knowing; the battery pulled after every try",
            Self::Clock => "as knowing; the clock moved after every try",
            Self::TypingOn => "as knowing; typing on through every penalty",
            Self::EveryNumber => "as knowing, on each opener's number in turn",
            Self::Patient => "as knowing; a day's pause whenever that pays best",
            Self::BesideHolder => "as knowing; the holder opens every hour",
        }
    }

    const fn order(self) -> Order {
        match self {
            Self::Random => Order::Random,
            Self::Sequential => Order::Sequential,
            Self::Popular => Order::Popular,
            Self::Knowing
            | Self::OwnCode
            | Self::Battery
            | Self::Clock
            | Self::TypingOn
            | Self::EveryNumber
            | Self::Patient
            | Self::BesideHolder => Order::Knowing,
        }
    }
}

/// Entries typed into each penalty by whoever types on: more than the lock
/// looks at.
const TYPED_ON: u8 = 10;

/// Blocks of tries between two pauses.
#[must_use]
pub fn blocks(strategy: Strategy, setup: &Setup) -> u32 {
    match strategy {
        Strategy::Patient => best_blocks(setup.policy(), setup.pace()),
        Strategy::Random
        | Strategy::Sequential
        | Strategy::Popular
        | Strategy::Knowing
        | Strategy::OwnCode
        | Strategy::Battery
        | Strategy::Clock
        | Strategy::TypingOn
        | Strategy::EveryNumber
        | Strategy::BesideHolder => u32::MAX,
    }
}

fn hourly(setup: &Setup) -> u64 {
    let policy = setup.policy();
    let typing = u64::from(policy.wrong_codes) * setup.pace();
    (3_599 / (typing + u64::from(policy.penalty_cap.get()))).max(1)
}

/// A guesser at work: acts without end, or until every code was tried.
pub struct Guesser<'s> {
    strategy: Strategy,
    /// Tries until a penalty.
    block: u8,
    /// Blocks until a pause.
    blocks: u32,
    /// Blocks whose penalties are over within an hour.
    hourly: u64,
    /// The numbers in turn, each with the codes that are left for it.
    targets: VecDeque<(Number, Box<dyn Iterator<Item = u32> + 's>)>,
    holder: Number,
    insider: Number,
    dice: Dice,
    tried: u64,
    next: VecDeque<Act>,
}

impl<'s> Guesser<'s> {
    /// Somebody who attacks `setup` by that strategy.
    #[must_use]
    pub fn new(strategy: Strategy, setup: &'s Setup, dice: &Dice) -> Self {
        let numbers = match strategy {
            Strategy::EveryNumber => setup.openers(),
            Strategy::Random
            | Strategy::Sequential
            | Strategy::Popular
            | Strategy::Knowing
            | Strategy::OwnCode
            | Strategy::Battery
            | Strategy::Clock
            | Strategy::TypingOn
            | Strategy::Patient
            | Strategy::BesideHolder => vec![setup.target()],
        };
        let duress = setup.policy().duress;
        let targets = numbers.into_iter().map(|number| {
            let codes = strategy.order().codes(setup.space_of(number), duress, dice.clone());
            // Were the code hit, the lock would open and the count start anew.
            let codes = codes.filter(move |code| !setup.may_be_right(number, *code));
            (number, Box::new(codes) as Box<dyn Iterator<Item = u32>>)
        });
        Self {
            strategy,
            block: setup.policy().wrong_codes,
            blocks: blocks(strategy, setup),
            hourly: hourly(setup),
            targets: targets.collect(),
            holder: setup.target(),
            insider: setup.insider(),
            dice: dice.clone(),
            tried: 0,
            next: VecDeque::new(),
        }
    }

    fn guess(&mut self) -> Option<Act> {
        let (number, mut codes) = self.targets.pop_front()?;
        let code = codes.next()?;
        self.targets.push_back((number, codes));
        self.tried += 1;
        Some(Act::Try(number, code))
    }

    fn guesses(&mut self, count: u8) -> Option<()> {
        for _ in 0..count {
            let guess = self.guess()?;
            self.next.push_back(guess);
        }
        Some(())
    }

    /// The acts up to the end of the next try, or a few tries.
    fn plan(&mut self) -> Option<()> {
        match self.strategy {
            Strategy::Random
            | Strategy::Sequential
            | Strategy::Popular
            | Strategy::Knowing
            | Strategy::EveryNumber => self.guesses(1)?,
            Strategy::OwnCode => {
                self.guesses(1)?;
                if self.tried.is_multiple_of(3) {
                    // A penalty takes no insider's code either.
                    self.next.extend([Act::SitOut, Act::Right(self.insider)]);
                }
            }
            Strategy::Battery => {
                self.guesses(1)?;
                self.next.push_back(Act::Battery(0));
            }
            Strategy::Clock => {
                self.guesses(1)?;
                let day = i32::try_from(self.dice.below(172_800)).unwrap_or_default() - 86_400;
                let lost = self.tried.is_multiple_of(50);
                self.next.push_back(if lost { Act::LoseClock } else { Act::Clock(day) });
            }
            Strategy::TypingOn => {
                self.guesses(self.block)?;
                self.guesses(TYPED_ON)?;
            }
            Strategy::Patient => {
                for _ in 1..self.blocks {
                    self.guesses(self.block)?;
                    self.next.push_back(Act::SitOut);
                }
                self.guesses(self.block)?;
                self.next.push_back(Act::Wait(86_400));
            }
            Strategy::BesideHolder => {
                self.guesses(self.block.saturating_sub(1))?;
                self.next.extend([Act::NextHour, Act::Right(self.holder)]);
                for _ in 0..self.hourly {
                    self.guesses(self.block)?;
                    self.next.push_back(Act::SitOut);
                }
            }
        }
        self.next.push_back(Act::SitOut);
        Some(())
    }
}

impl Iterator for Guesser<'_> {
    type Item = Act;

    fn next(&mut self) -> Option<Act> {
        if self.next.is_empty() {
            self.plan()?;
        }
        self.next.pop_front()
    }
}

/// Anything that can happen, in any order: `count` acts.
pub fn mixture(setup: &Setup, dice: &mut Dice, count: usize) -> Vec<Act> {
    let other = Number::new(u8::try_from(dice.below(100)).unwrap_or_default());
    let numbers =
        [setup.target(), setup.target(), setup.insider(), other.unwrap_or(setup.target())];
    let holders = [setup.target(), setup.insider()];
    // Some mixtures try far more than others.
    let eager = 4 + dice.below(60);
    let mut acts = Vec::with_capacity(count);
    // And some begin where a number is at its limit, a day or two long.
    if let Some(number) = numbers.get(usize::try_from(dice.below(8)).unwrap_or_default()) {
        for _ in 0..100 {
            acts.extend([Act::Try(*number, wrong(setup, *number, dice)), Act::SitOut]);
        }
        // A barred warden has four tries a day; a barred keyholder has none.
        for _ in 0..8 {
            let pause = dice.below(90_000);
            acts.push(Act::Wait(u32::try_from(pause).unwrap_or_default()));
            for _ in 0..dice.below(6) {
                acts.extend([Act::Try(*number, wrong(setup, *number, dice)), Act::SitOut]);
            }
            let variant = dice.below(4) == 0;
            acts.push(if variant { Act::Duress(*number) } else { Act::Right(*number) });
        }
    }
    while acts.len() < count {
        let number = dice.pick(&numbers).copied().unwrap_or(setup.target());
        let holder = dice.pick(&holders).copied().unwrap_or(setup.target());
        let seconds = |dice: &mut Dice, most| u32::try_from(dice.below(most)).unwrap_or_default();
        acts.push(match dice.below(eager + 16) {
            0 => Act::Right(holder),
            1 => Act::Duress(holder),
            2 => Act::Battery(0),
            3 => Act::Battery(seconds(dice, 100_000)),
            4 => Act::Clock(i32::try_from(dice.below(800_000)).unwrap_or_default() - 400_000),
            5 if dice.below(8) == 0 => Act::LoseClock,
            5 => Act::Wait(86_400),
            6 => Act::Wait(seconds(dice, 100_000)),
            7 | 8 => Act::Wait(seconds(dice, 400)),
            9..16 => Act::SitOut,
            _ => Act::Try(number, wrong(setup, number, dice)),
        });
    }
    acts
}

/// A code that is neither that number's nor its variant.
fn wrong(setup: &Setup, number: Number, dice: &mut Dice) -> u32 {
    let size = setup.space_of(number).size();
    let mut code = u32::try_from(dice.below(size.into())).unwrap_or_default();
    while setup.may_be_right(number, code) {
        code = (code + 5) % size;
    }
    code
}
