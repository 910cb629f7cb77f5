//! What a trainer can do, as the page asks for it.

use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::link::extract::Scope;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Inhibit, Switch};
use serde::{Deserialize, Deserializer};

use crate::drill::{ClockChip, Hand, Power, Since};

/// Speeds of the clock, in seconds that pass in one.
pub(super) const SPEEDS: [u32; 5] = [1, 10, 60, 600, 3_600];
/// How far time can be made to pass in one go, in days. Ours: a year and a day.
pub(super) const DAYS_AT_ONCE: u32 = 366;

/// One command. No `Debug`: a key may be a digit of a code.
#[derive(Deserialize)]
#[serde(tag = "do", rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum Command {
    /// A key is pressed.
    Key {
        #[serde(deserialize_with = "key")]
        key: Key,
    },
    /// A holder's number and demo code are typed, and *OK*.
    Type {
        #[serde(deserialize_with = "number")]
        number: Number,
        code: Typed,
    },
    /// A courier types a number and the next code that the office issues.
    Courier {
        #[serde(deserialize_with = "number")]
        number: Number,
    },
    Bolt {
        to: HandAt,
    },
    Door {
        to: DoorTo,
    },
    Power {
        to: PowerTo,
    },
    Supply {
        millivolts: u16,
    },
    Inhibit {
        set: bool,
    },
    Switch {
        on: bool,
    },
    /// The clock chip loses its time.
    LoseClock {},
    /// The clock chip jumps by so many seconds.
    ShiftClock {
        seconds: i32,
    },
    /// The laptop loads the timetable file of that name.
    Load {
        file: String,
    },
    /// The laptop collects the audit.
    Collect {
        scope: What,
    },
    /// Time passes by itself from now on: so many seconds in one, or none.
    Run {
        speed: u32,
    },
    /// Time passes until the next thing that happens.
    Next {},
    /// Time passes.
    Wait {
        seconds: u32,
    },
    /// Time passes until that local time; to one that is past: a new lock.
    Go {
        to: String,
    },
    /// Who watches is shown the front only, or everything again.
    FrontOnly {
        on: bool,
    },
    /// Whose openings are explained.
    Choose {
        #[serde(deserialize_with = "number")]
        number: Number,
    },
    /// Another lock of the site, as it comes from the workshop.
    Lock {
        id: String,
    },
    /// A lesson, from its start.
    Lesson {
        id: String,
    },
    /// The next step of the lesson.
    Step {},
    /// Back to the lesson, with so many of its steps done; where it was left, if
    /// nothing is said.
    Rejoin {
        at: Option<usize>,
    },
    /// The lesson is over; its lock stays.
    Leave {},
}

lock_core::silent!(Command);

/// Which code is typed.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Typed {
    Plain,
    Duress,
    Wrong,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum HandAt {
    Draw,
    Throw,
    Force,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum DoorTo {
    Open,
    Close,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum PowerTo {
    Cut,
    Restore,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum What {
    All,
    Openings,
    Changes,
    Alarms,
    SinceLast,
}

impl What {
    pub(super) const fn scope(self) -> (Scope, Since) {
        match self {
            Self::All => (Scope::All, Since::Ever),
            Self::Openings => (Scope::Openings, Since::Ever),
            Self::Changes => (Scope::Changes, Since::Ever),
            Self::Alarms => (Scope::Alarms, Since::Ever),
            Self::SinceLast => (Scope::All, Since::Last),
        }
    }
}

impl From<HandAt> for Hand {
    fn from(hand: HandAt) -> Self {
        match hand {
            HandAt::Draw => Self::Turn(Bolt::Drawn),
            HandAt::Throw => Self::Turn(Bolt::Thrown),
            HandAt::Force => Self::Force,
        }
    }
}

impl From<DoorTo> for Door {
    fn from(to: DoorTo) -> Self {
        match to {
            DoorTo::Open => Self::Open,
            DoorTo::Close => Self::Closed,
        }
    }
}

impl From<PowerTo> for Power {
    fn from(to: PowerTo) -> Self {
        match to {
            PowerTo::Cut => Self::Cut,
            PowerTo::Restore => Self::Restore,
        }
    }
}

impl Command {
    /// The act that it is, where it is just that.
    pub(super) fn act(&self) -> Option<crate::drill::Act> {
        use crate::drill::Act;
        Some(match self {
            Self::Key { key } => Act::Keys(vec![*key], 0),
            Self::Courier { number } => Act::Courier(*number),
            Self::Bolt { to } => Act::Bolt((*to).into()),
            Self::Door { to } => Act::Door((*to).into()),
            Self::Power { to } => Act::Power((*to).into()),
            Self::Supply { millivolts } => Act::Supply(Millivolts::new(*millivolts)),
            Self::Inhibit { set } => Act::Inhibit(if *set { Inhibit::Set } else { Inhibit::Clear }),
            Self::Switch { on } => Act::Switch(if *on { Switch::On } else { Switch::Off }),
            Self::LoseClock {} => Act::Clock(ClockChip::Lost),
            Self::ShiftClock { seconds } => Act::Clock(ClockChip::Jumps((*seconds).into())),
            Self::Wait { seconds } => Act::Wait(*seconds),
            Self::Type { .. }
            | Self::Load { .. }
            | Self::Collect { .. }
            | Self::Run { .. }
            | Self::Next {}
            | Self::Go { .. }
            | Self::FrontOnly { .. }
            | Self::Choose { .. }
            | Self::Lock { .. }
            | Self::Lesson { .. }
            | Self::Step {}
            | Self::Rejoin { .. }
            | Self::Leave {} => return None,
        })
    }
}

fn key<'de, D: Deserializer<'de>>(from: D) -> Result<Key, D::Error> {
    let text = String::deserialize(from)?;
    let digit = || {
        let digit = text.parse().ok().filter(|_| text.len() == 1)?;
        Digit::new(digit).map(Key::Digit)
    };
    match text.as_str() {
        "ok" => Some(Key::Ok),
        "back" => Some(Key::Back),
        _ => digit(),
    }
    // What was typed is not repeated.
    .ok_or_else(|| serde::de::Error::custom("a key is a digit, \"ok\" or \"back\""))
}

fn number<'de, D: Deserializer<'de>>(from: D) -> Result<Number, D::Error> {
    let number = u8::deserialize(from)?;
    let number = Number::new(number).filter(|number| number.get() > 0);
    number.ok_or_else(|| serde::de::Error::custom("a holder's number is 1 to 99"))
}
