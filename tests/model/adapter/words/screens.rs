//! A screen in the model's words.

use lock_core::audit::Change;
use lock_core::audit::Refusal;
use lock_core::holder::Number;
use lock_core::policy::KEYS;
use lock_core::port::Fault;
use lock_core::rules::supply::{Charge, Level};
use lock_core::screen::{
    ClockSeen, Field, Form, Gist, Late, Row, Screen, Shown, Stamp, Topic, Trouble, Typed,
};

use super::fault;

pub(in super::super) fn screen(screen: &Screen) -> String {
    match *screen {
        Screen::Service(Fault::Blank) => "not in use yet".to_owned(),
        Screen::Service(why) => format!("call service {}", fault(why)),
        Screen::Penalty { minutes } => format!("penalty {minutes}"),
        Screen::Entry(typed) => format!("entry{}", digits(typed)),
        Screen::List { page } => format!("list {page}"),
        Screen::Form(form) => dialogue(&form),
        Screen::Who(task, typed) => format!("who {}{}", task.name(), digits(typed)),
        Screen::TooShort => "too short".to_owned(),
        Screen::TooLong => "too long".to_owned(),
        Screen::WrongCode { left } => format!("wrong code left={left}"),
        Screen::Refused { why, until } => format!("refused {}{}", refusal(why), end(until)),
        Screen::HoldSet { until } => format!("done hold-shut{}", end(Some(until))),
        Screen::Status { supply, now, uncollected } => {
            let supply = supply.map_or("unknown".to_owned(), charge);
            let clock = now.map_or("invalid".to_owned(), stamp);
            format!("status supply={supply} clock={clock} unread={uncollected}")
        }
        Screen::Released { supply } => format!("released{}", level(supply)),
        Screen::Open { late: Late::No } => "open".to_owned(),
        Screen::Open { late: Late::Yes } => "open left".to_owned(),
        Screen::SecondPerson { first } => format!("second person after {:02}", first.get()),
        Screen::Waiting { minutes } => format!("waiting {minutes}"),
        Screen::Claimable { minutes } => format!("claimable {minutes}"),
        Screen::HeldShut { until } => format!("held{}", end(until)),
        Screen::WayOut { hours } => format!("way out {hours}"),
        Screen::SettingUp => "being set up".to_owned(),
        Screen::Secured { supply, clock } => {
            let clock = match clock {
                ClockSeen::Valid => "",
                ClockSeen::Invalid => " clock=invalid",
            };
            format!("secured{}{clock}", level(supply))
        }
    }
}

fn dialogue(form: &Form) -> String {
    match *form {
        Form::Ask { topic, field, shown, trouble } => {
            format!("form {} {}{}{}", name(topic), page(field), typed(shown), reason(trouble))
        }
        Form::Second { topic, typed, .. } => {
            format!("form {} second{}", name(topic), digits(typed))
        }
        Form::Confirm { topic, gist: Gist::Stuck, trouble } => {
            format!("form {} confirm once more{}", name(topic), reason(trouble))
        }
        Form::Confirm { topic, gist, trouble } => {
            format!("form {} confirm{}{}", name(topic), about_to(gist), reason(trouble))
        }
        Form::Numbers { rows } => {
            let rows = rows.into_iter().flatten();
            let rows: String = rows.map(|Row { number, .. }| two_digits(number)).collect();
            format!("form numbers shows{rows}")
        }
        Form::Files => "form files session".to_owned(),
        Form::Done { change, from } => {
            let from = from.map_or(String::new(), |from| format!(" from={}", stamp(from)));
            format!("done {}{from}", done(change))
        }
    }
}

fn name(topic: Topic) -> &'static str {
    match topic {
        Topic::Task(task) => task.name(),
        Topic::FirstWarden => "first-warden",
        Topic::SlowReset => "slow-reset",
    }
}

fn page(field: Field) -> String {
    match field {
        Field::Number => "number".to_owned(),
        Field::Role => "role".to_owned(),
        Field::Opens => "opens".to_owned(),
        Field::Timetable => "timetable".to_owned(),
        Field::NewCode => "code".to_owned(),
        Field::Again => "again".to_owned(),
        Field::Date => "date".to_owned(),
        Field::Time => "time".to_owned(),
        Field::Which => "first or second".to_owned(),
        Field::Key { page } => format!("keys {page}"),
        Field::Value { key } => format!("value of {}", KEYS[usize::from(key)]),
        Field::Group { index } => format!("group {}", index + 1),
    }
}

fn typed(shown: Shown) -> String {
    match shown {
        Shown::Digits { count: 0, .. } | Shown::Dots(0) => String::new(),
        Shown::Digits { value, count } => format!(" {value:0width$}", width = usize::from(count)),
        Shown::Dots(dots) => format!(" dots={dots}"),
    }
}

fn about_to(gist: Gist) -> String {
    match gist {
        Gist::Plain | Gist::Alone | Gist::Stuck | Gist::Value { .. } => String::new(),
        Gist::Hold(until) => end(Some(until)),
        Gist::Erase => " everything is erased".to_owned(),
        Gist::Holder(number) | Gist::Row { number, .. } | Gist::Follows(number, _) => {
            two_digits(number)
        }
        Gist::Clock(to) => format!(" to={}", stamp(to)),
        Gist::File { version, .. } => format!(" version={version}"),
    }
}

fn reason(trouble: Option<Trouble>) -> String {
    trouble.map_or(String::new(), |trouble| format!(" refused={}", against(trouble)))
}

fn against(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::Taken => "taken",
        Trouble::Free => "nobody",
        Trouble::NotYours | Trouble::NeverOpens => "not-yours",
        Trouble::Yourself => "yourself",
        Trouble::Already => "already",
        Trouble::CodeLength(_) => "digits",
        Trouble::Guessable(_) | Trouble::VariantGuessable => "easy",
        Trouble::Unchanged => "own",
        Trouble::Differ => "not-twice",
        Trouble::OutOfBounds | Trouble::AgainstAnother => "out-of-bounds",
        Trouble::NoDate => "no-date",
        Trouble::NoTime => "no-time",
        Trouble::NotInItsLife => "out-of-years",
        Trouble::Group => "mistyped",
        Trouble::OldKey => "not-newer",
        Trouble::OtherLock => "other-lock",
        Trouble::NoWindow => "no-start",
        Trouble::Stuck => "stuck",
        Trouble::NotStuck => "not-stuck",
        // Whatever it is for, the lock has to be opened.
        Trouble::NoStart | Trouble::ClockUnsure | Trouble::OpenFirst | Trouble::DrawBolt => {
            "draw-bolt"
        }
        Trouble::SwitchOn => "switch-on",
        Trouble::NotPaired => "no-key",
        Trouble::Courier => "courier",
        Trouble::NoChoice => "no-choice",
    }
}

fn done(change: Change) -> String {
    let about = |task: &str, number: Number| format!("{task}{}", two_digits(number));
    match change {
        Change::Commissioned(number) => about("first-warden", number),
        Change::Enrolled(number, _) => about("enrol", number),
        Change::CodeChanged(number) => about("change-code", number),
        Change::RoleChanged(number, _) => about("change-role", number),
        Change::TimetableChosen(number, _) => about("choose-timetable", number),
        Change::Suspended(number) => about("suspend", number),
        Change::Restored(number) => about("restore", number),
        Change::Removed(number) => about("remove", number),
        Change::ClockCorrected(_) | Change::ClockSet(_) => "set-clock".to_owned(),
        Change::PolicySet(..) => "set-policy".to_owned(),
        Change::Paired(_) => "pair".to_owned(),
        Change::FileLoaded(_) | Change::FileWaits(_) => "files".to_owned(),
        Change::Collected(_) => "collected".to_owned(),
        Change::AlarmTested => "test-alarm".to_owned(),
        Change::ResetBegun => "slow-reset".to_owned(),
        Change::Reset => "reset".to_owned(),
        Change::WayOutBegun => "way-out".to_owned(),
        Change::ResetCancelled | Change::WayOutEnded | Change::WayOut => change.kind().to_owned(),
    }
}

fn two_digits(number: Number) -> String {
    format!(" {:02}", number.get())
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

/// `docs/behaviour.md`, section 9: the word of each quarter.
fn charge(charge: Charge) -> String {
    let word = match charge.quarters() {
        0 | 1 => "change soon",
        2 | 3 => "half",
        _ => "full",
    };
    format!("{}/4 {word}", charge.quarters())
}

fn end(until: Option<Stamp>) -> String {
    until.map_or(String::new(), |until| format!(" until={}", stamp(until)))
}

fn stamp(stamp: Stamp) -> String {
    let (year, month, day) = stamp.date.ymd();
    let (hour, minute) = stamp.minute.hm();
    format!("{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}")
}
