//! What a boot does (section 9).

use super::access::{Access, Left, Permit};
use super::durable::Tally;
use super::lock::{DAY_MS, HOUR_MS, Model, Penalty};
use super::seen::Record;
use super::way_out::way_out_ms;

pub(crate) const SETTLING_MS: u64 = 8 * HOUR_MS;
pub(crate) const CORRECTIONS_MS: u64 = 30 * DAY_MS;

impl Model {
    pub(crate) fn start(&mut self) {
        let newly_in_doubt = self.boot_clock();
        self.compared = self.utc().map(|utc| (0, utc));
        if !self.ajar() {
            self.seen.drive.push("block");
        }
        let newest_outcome = self.kept.newest_outcome();
        let last_word = self.kept.last_word().cloned();
        self.record_power_up();
        self.follow_the_last_word(last_word.as_ref());
        let hold_ms = self.setup().policy.alarm_hold_s * 1_000;
        if newest_outcome == Some("duress") {
            self.duress_until_ms = Some(hold_ms);
        }
        // Whichever, heard or not: the wake-up must not tell.
        if self.kept.records.iter().any(|record| record.outcome.is_some()) {
            self.quiet_wakes_ms.push(hold_ms);
        }
        self.boot_counts();
        if newly_in_doubt {
            self.tally(&Tally::ClockDoubt(self.steady()));
            if !self.nobody_is_enrolled() {
                self.record(Record::of("clock-invalid"));
            }
        }
        self.settles_ms = self.kept.settling.then_some(SETTLING_MS);
        self.corrections_over_ms = (self.kept.corrected_s > 0).then_some(CORRECTIONS_MS);
        self.way_out_ms = self.kept.way_out.as_ref().map(|(_, alone)| way_out_ms(*alone));
        let once = self.kept.records.iter().any(|record| record.kind == "reset");
        if self.nobody_is_enrolled() && once && !self.kept.setting_up {
            self.tally(&Tally::SettingUp);
        }
        self.look_whether_set_up();
    }

    fn record_power_up(&mut self) {
        let of_supply = |record: &&Record| record.kind.starts_with("supply-");
        let mut newest = self.kept.records.iter().rev().filter(|it| !of_supply(it));
        let is_power_up =
            |record: Option<&Record>| record.is_some_and(|record| record.kind == "powered-up");
        if is_power_up(newest.next()) && is_power_up(newest.next()) {
            self.tally(&Tally::PoweredUp);
        } else {
            let unrecorded = self.kept.power_ups;
            self.record(Record::of("powered-up").value(unrecorded));
        }
    }

    fn boot_counts(&mut self) {
        for (number, share) in &self.kept.shares {
            let share = usize::try_from(*share).expect("few");
            self.fades_ms.insert(*number, vec![DAY_MS; share]);
        }
        self.eases_ms = (self.kept.step > 0).then_some(DAY_MS);
        if let Some(length_s) = self.kept.penalty_s {
            self.penalty = Some(Penalty { until_ms: length_s * 1_000, judged: 0 });
            self.eases_ms = None;
        } else {
            self.punish_at_limit();
        }
    }

    /// What a boot finds opened brings nothing forward.
    fn follow_the_last_word(&mut self, last: Option<&Record>) {
        let word = last.map(|record| match record.kind.as_str() {
            "commissioned" | "reset" => "opened",
            word => word,
        });
        let open_s = last.and_then(|record| record.utc).zip(self.utc());
        let open_s = open_s.map(|(then, now)| (now - then).max(0));
        let released =
            last.is_some_and(|record| !["commissioned", "reset"].contains(&&*record.kind));
        let people = if released { self.newest_people() } else { Vec::new() };
        let permit = self.permit_now(&people, Permit::Endless);
        let left = released.then_some(Left { permit, told: false });
        match (self.ajar(), word) {
            (drawn, word) if self.nobody_is_enrolled() => {
                if drawn {
                    let earlier_s = open_s.filter(|_| word == Some("opened")).unwrap_or(0);
                    self.access = Access::opened_by_nobody(-earlier_s * 1_000);
                }
                if word == Some("released") {
                    self.record(Record::of(if drawn { "opened" } else { "not-drawn" }));
                }
            }
            (true, Some("released")) => {
                self.access = Access::Open { since_ms: 0, opened: true, people, left };
                self.record(Record::of("opened"));
            }
            (true, Some("opened")) => {
                let since_ms = -open_s.unwrap_or(0) * 1_000;
                self.access = Access::Open { since_ms, opened: true, people, left };
            }
            (true, Some("forced")) => self.stay_forced(),
            (true, _) => self.force(),
            (false, Some("opened")) => {
                let record = Record::of("found-thrown");
                self.record(Record { value: open_s, ..record });
            }
            (false, Some("released")) => {
                self.record(Record::of("not-drawn"));
            }
            (false, _) => (),
        }
    }

    /// Who was released last.
    fn newest_people(&self) -> Vec<u8> {
        let newest = self.kept.records.iter().rev().find(|record| record.kind == "released");
        newest.map(|record| record.numbers.clone()).unwrap_or_default()
    }
}
