//! What the lock is told and what it says, in the model's words.

use lock_core::audit::{self, CancelReason, Event, Outcome, People, Refusal};
use lock_core::board::Noticed;
use lock_core::holder::Number;
use lock_core::keys::{self, Digit};
use lock_core::port::{
    self, Alarm, Bolt, Contacts, Door, Drive, Fault, Inhibit, Sound, Switch, Tally,
};
use lock_core::rules::supply::Level;
use lock_core::screen::{ClockSeen, Late, Screen, Stamp, Typed};
use lock_core::time::{Uptime, Utc};

use super::settings::millivolts;
use crate::reference::{Chip, Input, Key, Now, Record, Sensors};

pub(crate) fn now(now: Now) -> port::Now {
    let chip = match now.chip {
        Chip::Reads(utc) => port::Chip::At(Utc::from_secs(u32::try_from(utc).expect("in range"))),
        Chip::Lost => port::Chip::Lost,
    };
    port::Now { uptime: Uptime::from_millis(now.uptime_ms), chip }
}

pub(crate) fn contacts(sensors: Sensors) -> Contacts {
    Contacts {
        bolt: bolt(sensors.bolt_drawn),
        door: door(sensors.door_open),
        inhibit: inhibit(sensors.inhibit),
        switch: Switch::Off,
    }
}

fn bolt(drawn: bool) -> Bolt {
    if drawn { Bolt::Drawn } else { Bolt::Thrown }
}

fn door(open: bool) -> Door {
    if open { Door::Open } else { Door::Closed }
}

fn inhibit(set: bool) -> Inhibit {
    if set { Inhibit::Set } else { Inhibit::Clear }
}

/// What the board notices of an input; `None`: nothing, it is a look at the
/// time. A drive fault is no input of a board: let the drive stick instead.
pub(crate) fn noticed(input: Input) -> Option<Noticed> {
    Some(match input {
        Input::Key(Key::Digit(digit)) => {
            Noticed::Key(keys::Key::Digit(Digit::new(digit).expect("0 to 9")))
        }
        Input::Key(Key::Back) => Noticed::Key(keys::Key::Back),
        Input::Key(Key::Ok) => Noticed::Key(keys::Key::Ok),
        Input::Bolt(drawn) => Noticed::Bolt(bolt(drawn)),
        Input::Door(open) => Noticed::Door(door(open)),
        Input::SupplyMv(mv) => Noticed::Supply(millivolts(mv)),
        Input::Inhibit(set) => Noticed::Inhibit(inhibit(set)),
        Input::Woken => return None,
        Input::DriveFault => panic!("see drive_sticks"),
    })
}

pub(crate) fn sound(sound: Sound) -> &'static str {
    match sound {
        Sound::Key => "key",
        Sound::Accepted => "accepted",
        Sound::Refused => "refused",
        Sound::Warning => "warning",
    }
}

pub(crate) fn drive(to: Drive) -> &'static str {
    match to {
        Drive::Free => "free",
        Drive::Block => "block",
    }
}

pub(crate) fn alarm(level: Alarm) -> &'static str {
    match level {
        Alarm::Quiet => "quiet",
        Alarm::Tamper => "tamper",
        Alarm::Duress => "duress",
    }
}

fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Plain => "plain",
        Outcome::Duress => "duress",
    }
}

pub(crate) fn tally(entry: Tally) -> String {
    match entry {
        Tally::Counted(number) => format!("counted {:02}", number.get()),
        Tally::Cleared(number) => format!("cleared {:02}", number.get()),
        Tally::Penalty => "penalty".to_owned(),
        Tally::Served => "served".to_owned(),
        Tally::Faded => "faded".to_owned(),
        Tally::HeldShut(until) => format!("held-shut ={}", until.as_secs()),
        Tally::ClockDoubt => "clock-doubt".to_owned(),
        Tally::Corrected(by) => format!("corrected ={}", by.get()),
        Tally::CorrectionsOver => "corrections-over".to_owned(),
        Tally::ClockSet(before) => format!("clock-set ={}", before.as_secs()),
        Tally::Settled => "settled".to_owned(),
        Tally::Collected(upto) => format!("collected ={}", upto.0),
    }
}

pub(crate) fn record(record: &audit::Record) -> Record {
    let event = &record.event;
    let told = Record {
        outcome: event.outcome().map(outcome),
        utc: record.at.map(seconds),
        ..Record::of(event.kind())
    };
    match *event {
        Event::Released { people, .. } | Event::DelayStarted { people, .. } => {
            let People { first, second } = people;
            let people: Vec<u8> = [Some(first), second].into_iter().flatten().map(number).collect();
            told.numbers(&people)
        }
        Event::FirstOfTwo { who, .. }
        | Event::WrongCode { who }
        | Event::Refused { who, .. }
        | Event::Status { who, .. } => told.numbers(&[number(who)]),
        Event::Asked { who, task, .. } => told.numbers(&[number(who)]).why(task.name()),
        Event::HeldShut { who, until, .. } => told.numbers(&[number(who)]).value(seconds(until)),
        Event::Secured { open_for } => told.value(open_for.get()),
        Event::Penalty { lasts } => told.value(lasts.get()),
        Event::Supply { measured, .. } => told.value(measured.get()),
        Event::Cancelled { why } => told.why(cancelled(why)),
        Event::Fault { fault: why } => told.why(fault(why)),
        Event::PoweredUp
        | Event::Opened
        | Event::NotDrawn
        | Event::LeftOpen
        | Event::Forced
        | Event::Lapsed
        | Event::ClockInvalid
        | Event::Changed { .. } => told,
    }
}

fn number(number: Number) -> u8 {
    number.get()
}

fn seconds(utc: Utc) -> i64 {
    i64::from(utc.as_secs())
}

fn cancelled(why: CancelReason) -> &'static str {
    match why {
        CancelReason::WindowEnd => "permit",
        CancelReason::Inhibit => "inhibit",
        CancelReason::HeldShut => "held-shut",
        CancelReason::Forced => "ajar",
        CancelReason::Barred => "person",
        CancelReason::Clock => "clock",
    }
}

fn fault(fault: Fault) -> &'static str {
    match fault {
        Fault::Blank => "blank",
        Fault::Settings => "settings",
        Fault::Store => "store",
        Fault::Drive => "drive",
        Fault::Bug => "bug",
    }
}

pub(crate) fn screen(screen: &Screen) -> String {
    match *screen {
        Screen::Service(why) => format!("call service {}", fault(why)),
        Screen::Penalty { minutes } => format!("penalty {minutes}"),
        Screen::Entry(typed) => format!("entry{}", digits(typed)),
        Screen::List { page } => format!("list {page}"),
        Screen::Form(_) => "form".to_owned(),
        Screen::Who(task, typed) => format!("who {}{}", task.name(), digits(typed)),
        Screen::TooShort => "too short".to_owned(),
        Screen::TooLong => "too long".to_owned(),
        Screen::WrongCode { left } => format!("wrong code left={left}"),
        Screen::Refused { why, until } => format!("refused {}{}", refusal(why), end(until)),
        Screen::HoldSet { until } => format!("hold set{}", end(Some(until))),
        Screen::Status { supply, now, .. } => {
            let supply = supply.map_or("unknown".to_owned(), |mv| format!("{}mV", mv.get()));
            format!("status supply={supply} clock={}", now.map_or("invalid".to_owned(), stamp))
        }
        Screen::Released { supply } => format!("released{}", level(supply)),
        Screen::Open { late: Late::No } => "open".to_owned(),
        Screen::Open { late: Late::Yes } => "open left".to_owned(),
        Screen::SecondPerson { first } => format!("second person after {:02}", first.get()),
        Screen::Waiting { minutes } => format!("waiting {minutes}"),
        Screen::Claimable { minutes } => format!("claimable {minutes}"),
        Screen::HeldShut { until } => format!("held{}", end(until)),
        Screen::Secured { supply, clock } => {
            let clock = match clock {
                ClockSeen::Valid => "",
                ClockSeen::Invalid => " clock=invalid",
            };
            format!("secured{}{clock}", level(supply))
        }
    }
}

fn digits(typed: Typed) -> String {
    match typed {
        Typed::Nothing => String::new(),
        Typed::Tens(tens) => format!(" {tens} dots=0"),
        Typed::Number(number, dots) => format!(" {:02} dots={dots}", number.get()),
    }
}

fn refusal(why: Refusal) -> &'static str {
    why.kind().strip_prefix("refused-").expect("as refusals are called")
}

fn level(level: Level) -> &'static str {
    match level {
        Level::Good => "",
        Level::Low => " supply=low",
        Level::Spent => " supply=spent",
    }
}

fn end(until: Option<Stamp>) -> String {
    until.map_or(String::new(), |until| format!(" until={}", stamp(until)))
}

fn stamp(stamp: Stamp) -> String {
    let (year, month, day) = stamp.date.ymd();
    let (hour, minute) = stamp.minute.hm();
    format!("{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}")
}
