//! The words on the screen: a title, and a body of a few short lines.
//!
//! Every screen says what happened, what to do next and, if something was
//! refused, why and until when. The sentences are data: a [`Language`] is one
//! table in one file, [`ENGLISH`] the first. This module only chooses among
//! them, fills in numbers and dates, and breaks lines.
//!
//! A screen has no way of telling a duress code from a plain one ([`Screen`]
//! has no such field), so neither do its words (R4). Codes are middle dots
//! (R5), holders are numbers.
//!
//! ```
//! use lock_core::screen::Screen;
//! use lock_core::words;
//!
//! let lines = words::english(&Screen::WrongCode { left: 3 });
//! assert_eq!(lines.title(), "Wrong code");
//! assert!(lines.joined().as_str().starts_with("Wrong code 3 tries left"));
//! ```

pub(crate) mod decimal;
mod english;
mod english_forms;
#[cfg(test)]
pub(crate) mod every;
pub mod font;
mod form;
mod form_language;
mod language;
mod lines;
#[cfg(test)]
mod tests;

pub use english::ENGLISH;
pub use form_language::{Changes, Forms, Troubles};
pub use language::{Language, Refusals, Refused, Says};
pub use lines::{BODY_LINES, Body, CODE_DIGIT, COLUMNS, Joined, Line, Lines, TITLE_COLUMNS, Title};

use crate::audit::Refusal;
use crate::port::Fault;
use crate::rules::supply::{Charge, Level};
use crate::screen::{ClockSeen, Late, Screen, Stamp, Typed};
use crate::task::{TASKS_A_PAGE, Task};
use lines::Writer;

/// The words of `screen` in English.
#[must_use]
pub fn english(screen: &Screen) -> Lines {
    in_language(&ENGLISH, screen)
}

/// The words of `screen` in `language`.
#[must_use]
pub fn in_language(language: &Language, screen: &Screen) -> Lines {
    write(language, screen).finish()
}

fn write<'a>(language: &'a Language, screen: &Screen) -> Writer<'a> {
    let mut out = Writer::new(language);
    match *screen {
        Screen::Secured { supply, clock } => secured(&mut out, language, supply, clock),
        Screen::Entry(typed) => entry(&mut out, language, typed),
        Screen::List { page } => list(&mut out, language, page),
        Screen::Form(form) => form::write(&mut out, &language.forms, &form),
        Screen::Who(task, typed) => who(&mut out, language, task, typed),
        Screen::TooShort => out.says(&language.too_short),
        Screen::TooLong => out.says(&language.too_long),
        Screen::WrongCode { left } => {
            out.title(language.wrong_code.title);
            let tries = if left == 1 { language.one_try } else { language.tries };
            out.number(tries, u16::from(left));
            out.sentence(language.wrong_code.body);
        }
        Screen::Refused { why, until } => refused(&mut out, language, why, until),
        Screen::Penalty { minutes } => out.says_number(&language.penalty, minutes),
        Screen::Released { supply } => released(&mut out, language, supply),
        Screen::Open { late: Late::No } => out.says(&language.open),
        Screen::Open { late: Late::Yes } => out.says(&language.close_now),
        Screen::SecondPerson { first } => {
            out.title(language.second_person.title);
            out.holder(language.second_person.body, first);
        }
        Screen::Waiting { minutes } => out.says_number(&language.waiting, minutes),
        Screen::Claimable { minutes } => out.says_number(&language.claimable, minutes),
        Screen::HeldShut { until } => refused(&mut out, language, Refusal::HeldShut, until),
        Screen::HoldSet { until } => {
            out.title(language.hold_set.title);
            out.until(language.hold_set.body, until);
        }
        Screen::Status { supply, now, uncollected } => {
            status(&mut out, language, supply, now, uncollected);
        }
        Screen::WayOut { hours } => out.says_number(&language.way_out, hours),
        Screen::SettingUp => out.says(&language.setting_up),
        Screen::Service(fault) => service(&mut out, language, fault),
    }
    out
}

fn secured(out: &mut Writer<'_>, language: &Language, supply: Level, clock: ClockSeen) {
    out.title(language.secured.title);
    let body = match (supply, clock) {
        (Level::Good, ClockSeen::Valid) => language.secured.body,
        (Level::Good, ClockSeen::Invalid) => language.secured_no_clock,
        (Level::Low, ClockSeen::Valid) => language.secured_low,
        (Level::Low, ClockSeen::Invalid) => language.secured_low_no_clock,
        (Level::Spent, ClockSeen::Valid) => language.secured_spent,
        (Level::Spent, ClockSeen::Invalid) => language.secured_spent_no_clock,
    };
    out.sentence(body);
}

fn released(out: &mut Writer<'_>, language: &Language, supply: Level) {
    out.title(language.released.title);
    out.sentence(match supply {
        Level::Good => language.released.body,
        Level::Low => language.released_low,
        // Nothing is released once the supply is spent, but it may sink while
        // the bolt is free.
        Level::Spent => language.released_spent,
    });
}

fn entry(out: &mut Writer<'_>, language: &Language, typed: Typed) {
    let says = match typed {
        Typed::Nothing => &language.entry_nothing,
        Typed::Tens(_) => &language.entry_tens,
        Typed::Number(_, 0) => &language.entry_number,
        Typed::Number(_, _) => &language.entry_code,
    };
    out.title(says.title);
    out.typed(typed);
    out.sentence(says.body);
}

fn list(out: &mut Writer<'_>, language: &Language, page: u8) {
    out.title(language.list.title);
    let tasks = Task::LIST.get(usize::from(page)).unwrap_or(&[None; TASKS_A_PAGE]);
    for (task, key) in tasks.iter().flatten().zip(1..) {
        out.numbered(key, form::name(&language.forms, *task));
    }
    out.sentence(language.list.body);
}

fn who(out: &mut Writer<'_>, language: &Language, task: Task, typed: Typed) {
    out.title(form::name(&language.forms, task));
    out.typed(typed);
    out.sentence(match typed {
        Typed::Nothing => language.who_nothing,
        Typed::Tens(_) | Typed::Number(_, _) => language.who_typed,
    });
}

fn refused(out: &mut Writer<'_>, language: &Language, why: Refusal, until: Option<Stamp>) {
    let refused = language.refusals.of(why);
    out.title(refused.title);
    match (refused.until, until) {
        (Some(sentence), Some(end)) => out.until(sentence, end),
        (None, _) | (Some(_), None) => out.sentence(refused.body),
    }
}

fn status(
    out: &mut Writer<'_>,
    language: &Language,
    supply: Option<Charge>,
    now: Option<Stamp>,
    uncollected: u32,
) {
    out.title(language.status);
    let [soon, half, full] = language.charges;
    out.sentence(match supply.map(Charge::quarters) {
        None => language.supply_unknown,
        Some(0 | 1) => soon,
        Some(2 | 3) => half,
        Some(_) => full,
    });
    match now {
        Some(now) => out.until(language.now, now),
        None => out.sentence(language.now_unknown),
    }
    // More digits than fit would say no more to anybody.
    out.wide_number(language.uncollected, uncollected.min(99_999));
}

fn service(out: &mut Writer<'_>, language: &Language, fault: Fault) {
    out.title(language.service.title);
    out.sentence(match fault {
        Fault::Blank => language.blank,
        Fault::Settings => language.settings,
        Fault::Layout => language.layout,
        Fault::Store => language.store,
        Fault::Drive => language.drive,
        Fault::Bug => language.bug,
    });
    out.sentence(language.service.body);
}
