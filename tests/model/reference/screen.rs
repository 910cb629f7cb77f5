//! What the screen shows and how the alarm line stands (sections 7 and 8).

use super::access::Access;
use super::lock::{Level, Model};
use super::typing::{Asked, Desk};

impl Model {
    pub(crate) fn alarm(&self) -> &'static str {
        if self.duress_until_ms.is_some() {
            "duress"
        } else if self.tamper_until_ms.is_some() {
            "tamper"
        } else {
            "quiet"
        }
    }

    pub(crate) fn screen(&self) -> String {
        if let Some(fault) = self.fault {
            return format!("call service {fault}");
        }
        if let Some(penalty) = &self.penalty {
            return format!("penalty {}", self.minutes_to(penalty.until_ms));
        }
        match &self.desk {
            Desk::Rest => (),
            Desk::List { page, .. } => return format!("list {page}"),
            Desk::Dialogue { .. } => return "form".to_owned(),
            Desk::Entry { asked, digits, .. } => return entry(*asked, digits),
        }
        if let Some(notice) = &self.notice {
            return notice.text.clone();
        }
        if let Some(first) = &self.first {
            return format!("second person after {:02}", first.number);
        }
        match &self.access {
            Access::Released { .. } => format!("released{}", self.supply_warning()),
            Access::Open { left: Some(left), .. } if left.told => "open left".to_owned(),
            Access::Open { .. } => "open".to_owned(),
            Access::Waiting { until_ms, .. } => format!("waiting {}", self.minutes_to(*until_ms)),
            Access::Claimable { until_ms, .. } => {
                format!("claimable {}", self.minutes_to(*until_ms))
            }
            Access::Secured => self.at_rest(),
        }
    }

    fn at_rest(&self) -> String {
        if let Some(end) = self.held_until {
            return format!("held{}", self.until(Some(end)));
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
            (Some(end), Some(_)) => format!(" until={}", self.zone.text(end)),
            (Some(_) | None, _) => String::new(),
        }
    }

    fn minutes_to(&self, until_ms: u64) -> u64 {
        until_ms.saturating_sub(self.now.uptime_ms).div_ceil(60_000)
    }
}

fn entry(asked: Asked, digits: &str) -> String {
    let what = match asked {
        Asked::Open => "entry".to_owned(),
        Asked::Task(task) => format!("who {task}"),
    };
    if digits.is_empty() {
        return what;
    }
    let number: String = digits.chars().take(2).collect();
    format!("{what} {number} dots={}", digits.len() - number.len())
}
