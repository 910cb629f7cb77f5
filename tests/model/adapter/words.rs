//! What the lock is told and what it says, in the model's words.

mod records;
mod screens;

use lock_core::board::Noticed;
use lock_core::keys::{self, Digit};
use lock_core::port::{
    self, Alarm, Bolt, Contacts, Door, Drive, Fault, Inhibit, Sound, Switch, Tally,
};
use lock_core::time::{Uptime, Utc};

use super::settings::millivolts;
use crate::reference::{Chip, Input, Key, Now, Sensors};

pub(super) use records::record;
pub(super) use screens::screen;

pub(super) fn now(now: Now) -> port::Now {
    let chip = match now.chip {
        Chip::Reads(utc) => port::Chip::At(Utc::from_secs(u32::try_from(utc).expect("in range"))),
        Chip::Lost => port::Chip::Lost,
    };
    port::Now { uptime: Uptime::from_millis(now.uptime_ms), chip }
}

pub(super) fn contacts(sensors: Sensors) -> Contacts {
    Contacts {
        bolt: bolt(sensors.bolt_drawn),
        door: door(sensors.door_open),
        inhibit: inhibit(sensors.inhibit),
        switch: switch(sensors.switch_on),
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

fn switch(on: bool) -> Switch {
    if on { Switch::On } else { Switch::Off }
}

/// What the board notices of an input; `None`: nothing, it is a look at the
/// time or comes over the link.
pub(super) fn noticed(input: &Input) -> Option<Noticed> {
    Some(match input {
        Input::Key(Key::Digit(digit)) => {
            Noticed::Key(keys::Key::Digit(Digit::new(*digit).expect("0 to 9")))
        }
        Input::Key(Key::Back) => Noticed::Key(keys::Key::Back),
        Input::Key(Key::Ok) => Noticed::Key(keys::Key::Ok),
        Input::Bolt(drawn) => Noticed::Bolt(bolt(*drawn)),
        Input::Door(open) => Noticed::Door(door(*open)),
        Input::SupplyMv(mv) => Noticed::Supply(millivolts(*mv)),
        Input::Inhibit(set) => Noticed::Inhibit(inhibit(*set)),
        Input::Switch(on) => Noticed::Switch(switch(*on)),
        Input::Woken | Input::File(_) => return None,
        Input::DriveFault => panic!("a drive that sticks reports it: see `Event::DriveSticks`"),
    })
}

pub(super) fn sound(sound: Sound) -> &'static str {
    match sound {
        Sound::Key => "key",
        Sound::Accepted => "accepted",
        Sound::Refused => "refused",
        Sound::Warning => "warning",
    }
}

pub(super) fn drive(to: Drive) -> &'static str {
    match to {
        Drive::Free => "free",
        Drive::Block => "block",
    }
}

pub(super) fn alarm(level: Alarm) -> &'static str {
    match level {
        Alarm::Quiet => "quiet",
        Alarm::Tamper => "tamper",
        Alarm::Duress => "duress",
    }
}

pub(super) fn tally(entry: Tally) -> String {
    match entry {
        Tally::Counted(number) => format!("counted {:02}", number.get()),
        Tally::Cleared(number) => format!("cleared {:02}", number.get()),
        Tally::Faded(number) => format!("faded {:02}", number.get()),
        Tally::Penalty => "penalty".to_owned(),
        Tally::Served => "served".to_owned(),
        Tally::Eased => "eased".to_owned(),
        Tally::HeldShut(until) => format!("held-shut ={}", until.as_secs()),
        Tally::ClockDoubt(Some(at)) => format!("clock-doubt ={}", at.as_secs()),
        Tally::ClockDoubt(None) => "clock-doubt".to_owned(),
        Tally::Corrected { by, shift } => {
            format!("corrected ={} shift={}", by.get(), shift.as_secs())
        }
        Tally::CorrectionsOver => "corrections-over".to_owned(),
        Tally::ClockSet(shift) => format!("clock-set shift={}", shift.as_secs()),
        Tally::Settled => "settled".to_owned(),
        Tally::Collected(upto) => format!("collected ={}", upto.0),
        Tally::Brought(at) => format!("brought ={}", at.as_secs()),
        Tally::SettingUp => "setting-up".to_owned(),
        Tally::SetUp => "set-up".to_owned(),
        Tally::PoweredUp => "powered-up".to_owned(),
        Tally::WayOut(_) => "way-out".to_owned(),
        Tally::WayOutOver => "way-out-over".to_owned(),
    }
}

fn fault(fault: Fault) -> &'static str {
    match fault {
        Fault::Blank => "blank",
        Fault::Layout => "other layout",
        Fault::Settings => "settings",
        Fault::Store => "store",
        Fault::Drive => "drive",
        Fault::Bug => "bug",
    }
}
