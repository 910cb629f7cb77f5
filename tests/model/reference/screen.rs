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
            Desk::List { .. } => return "list".to_owned(),
            Desk::Entry { asked, digits, .. } => return entry(*asked, digits),
        }
        if let Some(notice) = &self.notice {
            return notice.text.clone();
        }
        if self.first.is_some() {
            return "second person".to_owned();
        }
        match &self.access {
            Access::Released { .. } if self.level == Level::Low => "released supply=low".to_owned(),
            Access::Released { .. } => "released".to_owned(),
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
            return format!("held until={}", self.zone.text(end));
        }
        let supply = match self.level {
            Level::Good => "",
            Level::Low => " supply=low",
            Level::Spent => " supply=spent",
        };
        let clock = if self.kept.clock_doubt { " clock=invalid" } else { "" };
        format!("secured{supply}{clock}")
    }

    fn minutes_to(&self, until_ms: u64) -> u64 {
        until_ms.saturating_sub(self.now.uptime_ms).div_ceil(60_000)
    }
}

fn entry(asked: Asked, digits: &str) -> String {
    match (asked, digits.is_empty()) {
        (Asked::HoldShut, true) => "who hold-shut".to_owned(),
        (Asked::Status, true) => "who status".to_owned(),
        (Asked::Open | Asked::HoldShut | Asked::Status, _) => {
            let number: String = digits.chars().take(2).collect();
            format!("entry {number} dots={}", digits.len() - number.len())
        }
    }
}
