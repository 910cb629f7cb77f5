//! What the screen shows and how the alarm line stands (sections 7 and 8).

use super::access::Access;
use super::durable::Flash;
use super::forms::{Form, Page};
use super::lock::{HOUR_MS, Level, Model};
use super::typing::{Asked, Desk};

impl Model {
    pub(crate) fn alarm(&self) -> &'static str {
        if self.duress_until_ms.or(self.tested_until_ms).is_some() {
            "duress"
        } else if self.tamper_until_ms.is_some() {
            "tamper"
        } else {
            "quiet"
        }
    }

    pub(crate) fn screen(&self) -> String {
        if let Desk::Form(form) = &self.desk {
            return self.form_text(form);
        }
        if let Some(fault) = self.fault {
            return format!("call service {fault}");
        }
        if self.kept.flash == Flash::OtherLayout {
            return "call service other layout".to_owned();
        }
        if self.nobody_is_enrolled() {
            return "not in use yet".to_owned();
        }
        if let Some(penalty) = &self.penalty {
            return format!("penalty {}", self.minutes_to(penalty.until_ms));
        }
        match &self.desk {
            Desk::Rest | Desk::TooLong { .. } | Desk::Form(_) => (),
            Desk::List { page, .. } => return format!("list {page}"),
            Desk::Entry { asked, digits, .. } => return entry(asked, digits),
        }
        if let Some(notice) = &self.notice {
            return notice.text.clone();
        }
        match &self.access {
            Access::Released { .. } => return format!("released{}", self.supply_warning()),
            Access::Open { left: Some(left), .. } if left.told => return "open left".to_owned(),
            Access::Open { .. } => return "open".to_owned(),
            Access::Secured | Access::Waiting(_) | Access::Claimable(_) => (),
        }
        if let Some(first) = &self.first {
            return format!("second person after {:02}", first.person.number);
        }
        match &self.access {
            Access::Waiting(wait) => format!("waiting {}", self.minutes_to(wait.until_ms)),
            Access::Claimable(wait) => format!("claimable {}", self.minutes_to(wait.until_ms)),
            Access::Secured | Access::Released { .. } | Access::Open { .. } => self.at_rest(),
        }
    }

    fn at_rest(&self) -> String {
        if let Some(end) = self.held() {
            return format!("held{}", self.until(Some(self.to_utc(end))));
        }
        if let Some(until_ms) = self.way_out_ms {
            let hours = until_ms.saturating_sub(self.now.uptime_ms).div_ceil(HOUR_MS);
            return format!("way out {hours}");
        }
        if self.kept.setting_up {
            return "being set up".to_owned();
        }
        let supply = self.supply_warning();
        let clock = if self.kept.clock_doubt { " clock=invalid" } else { "" };
        format!("secured{supply}{clock}")
    }

    fn supply_warning(&self) -> &'static str {
        match self.level {
            Level::Good => "",
            Level::Low => " supply=low",
            Level::Spent => " supply=spent",
        }
    }

    /// An end that the clock will come to, if the clock can be believed.
    pub(crate) fn until(&self, end: Option<i64>) -> String {
        match (end, self.utc()) {
            (Some(end), Some(_)) => format!(" until={}", self.zone().text(end)),
            (Some(_) | None, _) => String::new(),
        }
    }

    fn minutes_to(&self, until_ms: u64) -> u64 {
        until_ms.saturating_sub(self.now.uptime_ms).div_ceil(60_000)
    }

    /// `form enrol number 1`, `form pair group 3 dots=2`, with the reason why
    /// something is asked for again.
    fn form_text(&self, form: &Form) -> String {
        let page = match form.page {
            Page::Number => "number".to_owned(),
            Page::Role => "role".to_owned(),
            Page::Opens => "opens".to_owned(),
            Page::Timetable => "timetable".to_owned(),
            Page::Code => "code".to_owned(),
            Page::Again => "again".to_owned(),
            Page::Date => "date".to_owned(),
            Page::Time => "time".to_owned(),
            Page::Which => "first or second".to_owned(),
            Page::Keys(page) => format!("keys {page}"),
            Page::Value => {
                format!("value of {}", form.draft.key.unwrap_or_default())
            }
            Page::Group(place) => format!("group {}", place + 1),
            Page::Numbers(page) => format!("shows{}", self.numbers_on(page)),
            Page::Session => "session".to_owned(),
            Page::Second => "second".to_owned(),
            Page::Confirm => format!("confirm{}", form.about),
            Page::OnceMore => "confirm once more".to_owned(),
        };
        let typed = match form.page {
            _ if form.typed.is_empty() => String::new(),
            Page::Code | Page::Again | Page::Group(_) => format!(" dots={}", form.typed.len()),
            Page::Second => format!(" {}", number_and_dots(&form.typed)),
            _ => format!(" {}", form.typed),
        };
        let reason = form.reason.map_or_else(String::new, |reason| format!(" refused={reason}"));
        format!("form {} {page}{typed}{reason}", form.task)
    }

    fn numbers_on(&self, page: usize) -> String {
        let numbers = self.setup().holders.keys().skip(page * 3).take(3);
        numbers.map(|number| format!(" {number:02}")).collect()
    }

    /// What the last page says it is about to do.
    pub(crate) fn about_to(&self, form: &Form) -> String {
        match form.task {
            "hold-shut" => self.until(self.hold_until(form.by)),
            "set-clock" => {
                let target = form.draft.instants.first();
                target.map_or_else(String::new, |utc| format!(" to={}", self.zone().text(*utc)))
            }
            "files" => {
                let file = form.draft.file.as_ref();
                file.map_or_else(String::new, |file| format!(" version={}", file.version))
            }
            "first-warden" if self.kept.flash == Flash::OtherLayout => {
                " everything is erased".to_owned()
            }
            _ => form.draft.number.map_or_else(String::new, |number| format!(" {number:02}")),
        }
    }
}

fn entry(asked: &Asked, digits: &str) -> String {
    let what = match asked {
        Asked::Open | Asked::Second(_) => "entry".to_owned(),
        Asked::Task(task) => format!("who {task}"),
    };
    if digits.is_empty() {
        return what;
    }
    format!("{what} {}", number_and_dots(digits))
}

fn number_and_dots(digits: &str) -> String {
    let number: String = digits.chars().take(2).collect();
    format!("{number} dots={}", digits.len() - number.len())
}
