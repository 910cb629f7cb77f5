//! A report for programs: one object a lock.

use lock_core::audit::{Outcome, People};
use lock_core::time::Utc;
use serde_json::{Value, json};

use super::{Report, Telling};
use crate::audit::extract::Maker;
use crate::audit::ledger::Start;
use crate::audit::names::{Names, rfc3339, within};
use crate::audit::opening::{Began, End, Mark, Opening, Wait, WaitEnd, WaitsFor};
use crate::audit::reading::{FileNote, Problem, Unread};
use crate::audit::words::{change, count, level};
use crate::plain;

impl Report<'_> {
    /// The report as one object. Duress is in it only where it is told.
    #[must_use]
    pub fn json(&self) -> Value {
        let ledger = self.ledger;
        let mut object = json!({
            "lock": self.lock,
            "id": self.names.plan(self.lock).map(|plan| plan.id.as_str()),
            "emulated": self.is_emulated(),
            "records": ledger.records,
            "files": self.files.iter().map(file).collect::<Value>(),
            "findings": self.findings.iter().map(|finding| json!({
                "kind": finding.kind, "record": finding.mark.seq.0,
                "at": self.at_json(finding.mark.at), "what": finding.what,
            })).collect::<Value>(),
            "openings": ledger.openings.iter().map(|o| self.opening_json(o)).collect::<Value>(),
            "refusals": ledger.refusals.iter().map(|refused| {
                let kind = refused.why.map_or("wrong-code", |why| why.kind());
                self.object(refused.mark, json!({
                    "kind": kind, "who": refused.who.get(), "name": self.name(refused.who.get()),
                }))
            }).collect::<Value>(),
            "penalties": ledger.penalties.iter().map(|(mark, lasts)| {
                self.object(*mark, json!({ "seconds": lasts.get() }))
            }).collect::<Value>(),
            "waits": ledger.waits.iter().map(|wait| self.wait_json(wait)).collect::<Value>(),
            "changes": ledger.changes.iter().map(|(mark, event)| {
                let (by, what) = change(event, &self.names);
                self.object(*mark, json!({ "kind": event.kind(), "by": by, "what": what }))
            }).collect::<Value>(),
            "supply": ledger.supply.iter().map(|(mark, now, measured)| {
                self.object(*mark, json!({ "level": level(*now), "millivolts": measured.get() }))
            }).collect::<Value>(),
            "power_and_clock": ledger.starts.iter().map(|(mark, start)| {
                let kind = match start {
                    Start::PoweredUp => "powered-up",
                    Start::ClockInvalid => "clock-invalid",
                };
                self.object(*mark, json!({ "kind": kind }))
            }).collect::<Value>(),
            "faults": ledger.faults.iter().map(|(mark, fault)| {
                self.object(*mark, json!({ "fault": fault }))
            }).collect::<Value>(),
            "missing": ledger.gaps.iter().map(gap).collect::<Value>(),
        });
        if self.telling == Telling::Confidential {
            let rows = ledger.duress.iter();
            object["duress"] = rows
                .map(|(mark, event)| self.object(*mark, json!({ "kind": event.kind() })))
                .collect();
        }
        object
    }

    fn at_json(&self, at: Option<Utc>) -> Option<String> {
        at.map(|at| rfc3339(self.names.zone(), at))
    }

    /// `fields` with the record's number and time.
    fn object(&self, mark: Mark, mut fields: Value) -> Value {
        fields["record"] = mark.seq.0.into();
        fields["at"] = self.at_json(mark.at).into();
        fields
    }

    fn mark_json(&self, mark: Option<Mark>) -> Value {
        mark.map_or(Value::Null, |mark| self.object(mark, json!({})))
    }

    fn name(&self, number: u8) -> Option<&str> {
        let number = lock_core::holder::Number::new(number)?;
        self.names.person(number).map(|person| person.name.as_str())
    }

    fn people_json(&self, people: &People) -> Value {
        let numbers = [Some(people.first), people.second].into_iter().flatten();
        numbers.map(|n| json!({ "number": n.get(), "name": self.name(n.get()) })).collect()
    }

    fn opening_json(&self, opening: &Opening) -> Value {
        let (began, release) = match opening.began {
            Began::Released(mark) => ("released", Some(mark)),
            Began::Forced(mark) => ("forced", Some(mark)),
            Began::Unseen => ("not-on-record", None),
        };
        let (end, ended) = match opening.end {
            End::Secured(mark, _) => ("secured", Some(mark)),
            End::NotDrawn(mark) => ("not-drawn", Some(mark)),
            End::Unseen => ("not-on-record", None),
            End::Ongoing => ("not-yet", None),
        };
        let mut object = json!({
            "began": began,
            "release": self.mark_json(release),
            "people": opening.people.map(|people| self.people_json(&people)),
            "waited_from": self.mark_json(opening.waited),
            "opened": self.mark_json(opening.opened),
            "left_open": self.mark_json(opening.left_open),
            "power_failed": self.mark_json(opening.booted),
            "records_missing": opening.doubtful,
            "end": end,
            "ended": self.mark_json(ended),
            "open_for_s": opening.open_for().map(|length| length.get()),
        });
        if let (Some(site), Some(people), Some(at)) =
            (self.names.site(), opening.people, release.and_then(|mark| mark.at))
        {
            let person = self.names.person(people.first);
            let words = person.map(|person| within(site, person.follows, at).words());
            object["window"] = words.into();
        }
        if self.telling == Telling::Confidential {
            object["duress"] = (opening.outcome == Outcome::Duress).into();
        }
        object
    }

    fn wait_json(&self, wait: &Wait) -> Value {
        let (end, ended) = match wait.end {
            WaitEnd::Went(_) => ("went-on", None),
            WaitEnd::Lapsed(mark) => ("lapsed", Some(mark)),
            WaitEnd::Cancelled(mark, _) => ("cancelled", Some(mark)),
            WaitEnd::Booted(mark) => ("power-failed", Some(mark)),
            WaitEnd::Unseen => ("not-on-record", None),
            WaitEnd::Ongoing => ("not-yet", None),
        };
        let why = match wait.end {
            WaitEnd::Cancelled(_, why) => Some(why),
            _ => None,
        };
        let on = match wait.on {
            WaitsFor::Delay => "delay",
            WaitsFor::Second => "second-person",
        };
        self.object(
            wait.began,
            json!({
                "for": on, "people": self.people_json(&wait.people), "end": end,
                "why": why, "ended": self.mark_json(ended),
            }),
        )
    }
}

fn gap(gap: &lock_core::audit::Gap) -> Value {
    let missing = count(gap);
    json!({
        "from": gap.from.0, "to": gap.to.0, "lost": gap.lost,
        "overwritten": missing.saturating_sub(gap.lost),
    })
}

/// What came of one file.
#[must_use]
pub fn file(note: &FileNote) -> Value {
    let broken = note.problems.iter().any(Problem::is_broken);
    json!({
        "file": plain::path(&note.path),
        "generation": note.header.generation,
        "emulated": note.header.maker == Maker::Emulated,
        "scope": note.header.scope,
        "only_new": note.header.since_last,
        "left_out": note.left_out,
        "made": note.header.made.map(|at| rfc3339(Names::of(None).zone(), at)),
        "records": note.records,
        "told_before": note.known,
        "first": note.span.map(|(first, _)| first.0),
        "last": note.span.map(|(_, last)| last.0),
        "whole": !broken,
        "problems": note.problems.iter().map(|problem| json!({
            "kind": problem.kind(), "finding": problem.is_finding(), "what": problem.words(),
        })).collect::<Value>(),
    })
}

/// Why one file is not even known to be of some lock.
#[must_use]
pub fn unread(unread: &Unread) -> Value {
    let problem = Problem::Broken(unread.why.clone());
    json!({
        "file": plain::path(&unread.path),
        "kind": problem.kind(), "what": problem.words(),
    })
}
