//! The pictograms, and which screen shows which.
//!
//! All are our own. Those of the bolt show the lock as its maker sees it, cut
//! open: the door on the left with the bolt in it, the frame on the right, and
//! the blocker, which the drive moves, above the bolt.

mod bolt;
mod keypad;
mod paper;
mod people;
mod supply;
mod time;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::mono_font::MonoFont;
use embedded_graphics::pixelcolor::BinaryColor;

use super::pen::Pen;
use crate::audit::{Change, Refusal};
use crate::rules::supply::{Charge, Level};
use crate::screen::{ClockSeen, Field, Form, Gist, Late, Screen, Shown, Stamp, Topic, Typed};
use crate::task::Task;
use crate::words;

/// Pixels of a side: each fills a square of this size, whose left and top
/// pixel is the origin.
pub const SIDE: u32 = 112;

/// What stands beside the words.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Pictogram {
    /// The bolt in the frame, the blocker in the bolt.
    Secured,
    /// The same, with a small battery that is nearly empty.
    SecuredLow,
    /// The same, with a small clock that tells no time.
    SecuredNoClock,
    /// The bolt in the frame, a blocker from either side.
    HeldShut,
    /// The bolt in the frame, the blocker lifted.
    Free,
    /// The same, with a small battery that is nearly empty.
    FreeLow,
    /// A door that stands open.
    Open,
    /// The same, with an arrow that pushes it shut.
    CloseNow,
    /// A keypad.
    Keypad,
    /// A keypad, crossed out.
    NoCode,
    /// A keypad in a ring: time to type again.
    Claim,
    /// Three lines of a list.
    List,
    /// Somebody, not known yet.
    Person,
    /// Somebody, crossed out.
    Barred,
    /// Somebody, and the outline of another.
    TwoPeople,
    /// A cross.
    Wrong,
    /// A bar that ends before its mark.
    Short,
    /// A bar that runs past its mark.
    Long,
    /// A ring of twelve dots, full ones for five minutes each, and in it the
    /// minutes left, where they are known.
    Wait(Option<u16>),
    /// A leaf of a calendar with the day of the month, where it is known.
    Calendar(Option<u8>),
    /// A clock that tells no time.
    NoClock,
    /// A bell: the building's intruder alarm.
    Bell,
    /// An empty battery.
    Spent,
    /// A battery with so much in it, where it is known: the status.
    Battery(Option<Charge>),
    /// A spanner.
    Service,
    /// A leaf that goes in, and one that comes out.
    Files,
    /// A tick.
    Done,
}

/// What a pictogram is drawn on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ground {
    /// Black on white: nothing says that the lock is open.
    Paper,
    /// White on black: the bolt is free or drawn.
    Ink,
}

impl Pictogram {
    /// The pictogram of a screen.
    #[must_use]
    pub fn of(screen: &Screen) -> Self {
        match *screen {
            Screen::Secured { supply: Level::Spent, .. } => Self::Spent,
            Screen::Secured { supply: Level::Low, .. } => Self::SecuredLow,
            Screen::Secured { supply: Level::Good, clock: ClockSeen::Valid } => Self::Secured,
            Screen::Secured { supply: Level::Good, clock: ClockSeen::Invalid } => {
                Self::SecuredNoClock
            }
            Screen::Entry(_) => Self::Keypad,
            Screen::List { .. } => Self::List,
            Screen::Form(form) => Self::of_form(&form),
            Screen::Who(_, Typed::Nothing) => Self::Person,
            Screen::Who(_, Typed::Tens(_) | Typed::Number(_, _)) => Self::Keypad,
            Screen::TooShort => Self::Short,
            Screen::TooLong => Self::Long,
            Screen::WrongCode { .. } => Self::Wrong,
            Screen::Refused { why, until } => Self::of_refusal(why, until),
            Screen::Penalty { .. } => Self::NoCode,
            Screen::Released { supply: Level::Good } => Self::Free,
            Screen::Released { supply: Level::Low | Level::Spent } => Self::FreeLow,
            Screen::Open { late: Late::No } => Self::Open,
            Screen::Open { late: Late::Yes } => Self::CloseNow,
            Screen::SecondPerson { .. } => Self::TwoPeople,
            Screen::Waiting { minutes } => Self::Wait(Some(minutes)),
            Screen::Claimable { .. } => Self::Claim,
            Screen::HeldShut { .. } | Screen::HoldSet { .. } => Self::HeldShut,
            Screen::Status { supply: Some(charge), .. } if charge.quarters() == 0 => Self::Spent,
            Screen::Status { supply, .. } => Self::Battery(supply),
            Screen::WayOut { .. } => Self::Wait(None),
            // Its bolt is thrown, or it would say that it is open.
            Screen::SettingUp => Self::Service,
            Screen::Service(_) => Self::Service,
        }
    }

    fn of_form(form: &Form) -> Self {
        match *form {
            Form::Ask { trouble: Some(_), shown: Shown::Digits { count: 0, .. }, .. }
            | Form::Ask { trouble: Some(_), shown: Shown::Dots(0), .. }
            | Form::Confirm { trouble: Some(_), .. } => Self::Wrong,
            Form::Ask { field: Field::NewCode | Field::Again | Field::Group { .. }, .. } => {
                Self::Keypad
            }
            Form::Ask { field: Field::Number, .. } => Self::Person,
            Form::Ask { field: Field::Date | Field::Timetable, .. } => Self::Calendar(None),
            Form::Ask { field: Field::Time | Field::Which, .. } => Self::NoClock,
            Form::Ask { .. } | Form::Numbers { .. } => Self::List,
            Form::Second { .. } => Self::TwoPeople,
            Form::Confirm { gist: Gist::Clock(stamp), .. } => {
                Self::Calendar(Some(stamp.date.ymd().2))
            }
            Form::Confirm { topic: Topic::Task(Task::TestAlarm), .. } => Self::Bell,
            Form::Confirm { gist: Gist::Hold(_), .. } => Self::HeldShut,
            Form::Confirm { .. } => Self::Service,
            Form::Files => Self::Files,
            Form::Done { change: Change::AlarmTested, .. } => Self::Bell,
            Form::Done { .. } => Self::Done,
        }
    }

    fn of_refusal(why: Refusal, until: Option<Stamp>) -> Self {
        match why {
            // Released or open: the least that is true is that it is free.
            Refusal::AlreadyOpen => Self::Free,
            Refusal::Suspended | Refusal::Barred | Refusal::Right => Self::Barred,
            Refusal::Inhibit => Self::Bell,
            Refusal::HeldShut => Self::HeldShut,
            Refusal::Supply => Self::Spent,
            Refusal::Clock | Refusal::Settling => Self::NoClock,
            Refusal::Closed => Self::Calendar(until.map(|stamp| stamp.date.ymd().2)),
            Refusal::Late | Refusal::Hold => Self::Calendar(None),
            Refusal::Waiting => Self::Wait(None),
            Refusal::OtherPerson | Refusal::SamePerson | Refusal::FirstRefused => Self::TwoPeople,
            Refusal::Penalty => Self::NoCode,
        }
    }

    /// What it is drawn on.
    #[must_use]
    pub const fn ground(self) -> Ground {
        match self {
            Self::Free | Self::FreeLow | Self::Open | Self::CloseNow => Ground::Ink,
            Self::Secured
            | Self::SecuredLow
            | Self::SecuredNoClock
            | Self::HeldShut
            | Self::Keypad
            | Self::NoCode
            | Self::Claim
            | Self::List
            | Self::Person
            | Self::Barred
            | Self::TwoPeople
            | Self::Wrong
            | Self::Short
            | Self::Long
            | Self::Wait(_)
            | Self::Calendar(_)
            | Self::NoClock
            | Self::Bell
            | Self::Spent
            | Self::Battery(_)
            | Self::Service
            | Self::Files
            | Self::Done => Ground::Paper,
        }
    }

    /// Draws it, [`SIDE`] × [`SIDE`] from the origin, on a ground that is
    /// there already.
    ///
    /// # Errors
    /// Whatever the target reports.
    pub fn draw<D>(self, target: &mut D) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = BinaryColor>,
    {
        self.draw_at(Point::zero(), words::ENGLISH.font, target)
    }

    /// The same from another place, with that font.
    pub(super) fn draw_at<D>(
        self,
        at: Point,
        font: &MonoFont<'_>,
        target: &mut D,
    ) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = BinaryColor>,
    {
        let pen = &mut Pen::new(target, at, self.ground(), font);
        match self {
            Self::Secured => pen.layers(&[bolt::THROWN, bolt::BLOCKED]),
            Self::SecuredLow => pen.layers(&[bolt::THROWN, bolt::BLOCKED, supply::SMALL_BATTERY]),
            Self::SecuredNoClock => {
                pen.layers(&[bolt::THROWN, bolt::BLOCKED]).and_then(|()| time::small_clock(pen))
            }
            Self::HeldShut => pen.layers(&[bolt::THROWN, bolt::HELD]),
            Self::Free => pen.layers(&[bolt::THROWN, bolt::FREE]),
            Self::FreeLow => pen.layers(&[bolt::THROWN, bolt::FREE, supply::SMALL_BATTERY]),
            Self::Open => bolt::open(pen),
            Self::CloseNow => bolt::open(pen).and_then(|()| bolt::push(pen)),
            Self::Keypad => keypad::keypad(pen),
            Self::NoCode => keypad::keypad(pen).and_then(|()| pen.marks(keypad::STRIKE)),
            Self::Claim => keypad::in_ring(pen),
            Self::List => pen.marks(keypad::LIST),
            Self::Wrong => pen.marks(keypad::CROSS),
            Self::Short => pen.marks(keypad::SHORT),
            Self::Long => pen.marks(keypad::LONG),
            Self::Person => pen.marks(people::PERSON),
            Self::Barred => pen.layers(&[people::PERSON, keypad::STRIKE]),
            Self::TwoPeople => pen.marks(people::TWO),
            Self::Wait(minutes) => time::wait(pen, minutes),
            Self::Calendar(day) => time::calendar(pen, day),
            Self::NoClock => time::no_clock(pen),
            Self::Bell => pen.marks(supply::BELL),
            Self::Spent => pen.marks(supply::SPENT),
            Self::Battery(charge) => supply::battery(pen, charge),
            Self::Files => pen.marks(paper::FILES),
            Self::Done => pen.marks(paper::TICK),
            Self::Service => pen.marks(supply::SPANNER),
        }
    }
}
