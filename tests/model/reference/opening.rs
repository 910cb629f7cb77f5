//! What an opening comes to: alone or in pairs, with a delay or without
//! (section 6).

use super::access::{Access, First, Permit, Person, Wait};
use super::judge::{Refusal, because};
use super::lock::Model;

enum Decision {
    First,
    Delay(Vec<Person>, Permit),
    Release(Vec<Person>, Permit),
}

impl Model {
    /// A right code of a holder whom section 3 lets ask.
    pub(crate) fn ask_to_open(&mut self, person: Person, outcome: &'static str) {
        let number = person.number;
        match self.decide(person) {
            Err(refusal) => {
                if refusal.why == "first-refused" {
                    self.first = None;
                }
                self.refuse(number, outcome, refusal);
            }
            Ok(Decision::First) => {
                if self.record_code("first-of-two", &[number], outcome) {
                    let limit_ms = self.setup().policy.dual_limit_s * 1_000;
                    let until_ms = self.now.uptime_ms + limit_ms;
                    self.first = Some(First { person, until_ms, outcome });
                    // Heard once the record is written, whatever comes next.
                    self.seen.sounds.push("key");
                    self.clear(number);
                }
            }
            Ok(Decision::Delay(people, permit)) => {
                let outcome = self.of_both(outcome);
                if self.record_of_people("delay-started", &people, outcome) {
                    let delay_s = self.in_force().delay_s;
                    let until_ms = self.now.uptime_ms + delay_s * 1_000;
                    self.seen.sounds.push("accepted");
                    self.go(Access::Waiting(Wait { people, permit, until_ms, delay_s }));
                    self.clear(number);
                }
            }
            Ok(Decision::Release(people, permit)) => {
                let outcome = self.of_both(outcome);
                if self.record_of_people("released", &people, outcome) && self.clear(number) {
                    self.seen.drive.push("free");
                    let low = self.warns_of_supply();
                    self.seen.sounds.push(if low { "warning" } else { "accepted" });
                    let release_ms = self.setup().policy.release_s * 1_000;
                    let until_ms = self.now.uptime_ms + release_ms;
                    let people = people.iter().map(|person| person.number).collect();
                    self.go(Access::Released { people, permit, until_ms });
                }
            }
        }
    }

    /// "One of two people says *duress* if either of the two codes was."
    fn of_both(&self, outcome: &'static str) -> &'static str {
        let first = self.first.as_ref().map(|first| first.outcome);
        if first == Some("duress") { "duress" } else { outcome }
    }

    /// A record of a wait or a release, with which one-time codes are used up.
    fn record_of_people(&mut self, kind: &str, people: &[Person], outcome: &'static str) -> bool {
        let numbers: Vec<u8> = people.iter().map(|person| person.number).collect();
        let written = self.record_code(kind, &numbers, outcome);
        if written {
            for person in people {
                let Some(counter) = person.counter else { continue };
                for side in [&mut self.written, &mut self.kept] {
                    let next = side.settings.counters.entry(person.number).or_default();
                    *next = (*next).max(counter + 1);
                }
            }
        }
        written
    }

    fn decide(&self, person: Person) -> Result<Decision, Refusal> {
        let holder = self.setup().holder(person.number).expect("a code was right");
        let mut permit = self.judge(holder)?;
        let mut people = vec![person];
        let in_force = self.in_force();
        let mut takes_two = in_force.dual_control;
        let claim = match &self.access {
            Access::Waiting(_) => return Err(because("waiting")),
            Access::Claimable(wait) if !wait.numbers().contains(&person.number) => {
                return Err(because("other-person"));
            }
            Access::Claimable(wait) => {
                takes_two = wait.people.len() == 2;
                true
            }
            Access::Secured | Access::Released { .. } | Access::Open { .. } => false,
        };
        if takes_two {
            let Some(first) = &self.first else {
                return Ok(Decision::First);
            };
            if first.person.number == person.number {
                return Err(because("same-person"));
            }
            let again = self.decide_again(first.person.number);
            permit = permit.earlier(again.map_err(|_| because("first-refused"))?);
            people.insert(0, first.person);
        }
        if in_force.delay_s == 0 || claim {
            return Ok(Decision::Release(people, permit));
        }
        let delay_s = i64::try_from(in_force.delay_s).expect("at most 99 minutes");
        match (permit, self.utc()) {
            (Permit::Until(end), Some(utc)) if utc + delay_s >= end => Err(because("late")),
            _ => Ok(Decision::Delay(people, permit)),
        }
    }
}
