//! The rows of a report's tables.

use lock_core::audit::{Event, Outcome, People};
use lock_core::role::Role;

use super::{Report, Table, Telling};
use crate::audit::ledger::Start;
use crate::audit::names::{length, within};
use crate::audit::opening::{Began, End, Mark, Opening, Wait, WaitEnd, WaitsFor};
use crate::audit::reading::Problem;
use crate::audit::words::{change, gap_words, level, reason, refusal, volts};
use crate::plain;

impl Report<'_> {
    /// All tables, in the order in which somebody reads them.
    pub(super) fn tables(&self) -> Vec<Table> {
        let mut tables = vec![self.findings()];
        if self.telling == Telling::Confidential {
            tables.push(self.duress());
        }
        tables.extend([
            self.openings(),
            self.refusals(),
            self.penalties(),
            self.waits(),
            self.changes(),
            self.supply(),
            self.starts(),
            self.gaps(),
            self.extracts(),
        ]);
        tables
    }

    fn at(&self, mark: Mark) -> [String; 2] {
        [mark.seq.0.to_string(), self.names.moment(mark.at)]
    }

    fn row<const N: usize>(&self, mark: Mark, cells: [String; N]) -> Vec<String> {
        self.at(mark).into_iter().chain(cells).collect()
    }

    fn findings(&self) -> Table {
        let rows = self.findings.iter().map(|finding| {
            let at = match finding.mark.at {
                Some(at) => self.names.moment(Some(at)),
                None => "-".to_owned(),
            };
            vec![finding.mark.seq.0.to_string(), at, finding.what.clone()]
        });
        Table {
            title: "To look into",
            none: Some("Nothing stands out."),
            heads: vec!["Record", "When", "What"],
            rows: rows.collect(),
        }
    }

    fn duress(&self) -> Table {
        let rows = self.ledger.duress.iter().map(|(mark, event)| {
            let who = match event {
                Event::Released { people, .. } | Event::DelayStarted { people, .. } => {
                    self.names.people(people)
                }
                Event::FirstOfTwo { who, .. }
                | Event::Refused { who, .. }
                | Event::HeldShut { who, .. }
                | Event::Status { who, .. }
                | Event::Asked { who, .. } => self.names.who(*who),
                _ => String::new(),
            };
            self.row(*mark, [who, event.kind().to_owned()])
        });
        Table {
            title: "Under duress (confidential)",
            none: Some("No duress code was used."),
            heads: vec!["Record", "When", "Who", "Record's kind"],
            rows: rows.collect(),
        }
    }

    fn openings(&self) -> Table {
        let rows = self.ledger.openings.iter().map(|opening| self.opening(opening));
        let mut heads = vec!["Record", "Released", "Who"];
        if self.names.site().is_some() {
            heads.push("Window");
        }
        heads.extend(["Opened", "Secured", "Open for", "Notes"]);
        Table { title: "Openings", none: Some("None."), heads, rows: rows.collect() }
    }

    fn opening(&self, opening: &Opening) -> Vec<String> {
        let first = opening.first();
        let released = match opening.began {
            Began::Released(mark) => self.names.moment(mark.at),
            Began::Forced(mark) => format!("{} (forced)", self.names.moment(mark.at)),
            Began::Unseen => "not on record".to_owned(),
        };
        let mut row = vec![
            first.map_or(String::new(), |mark| mark.seq.0.to_string()),
            released,
            opening.people.map_or("-".to_owned(), |people| self.names.people(&people)),
        ];
        if self.names.site().is_some() {
            row.push(self.window(opening));
        }
        // Times of the same day need no date.
        let day = opening.began_at().and_then(|mark| mark.at);
        row.push(opening.opened.map_or("-".to_owned(), |mark| self.time(mark, day)));
        row.push(match opening.end {
            End::Secured(mark, _) => self.time(mark, day),
            End::NotDrawn(_) => "not drawn".to_owned(),
            End::Unseen => "not on record".to_owned(),
            End::Ongoing => "not yet".to_owned(),
        });
        row.push(opening.open_for().map_or("-".to_owned(), |open_for| length(open_for.get())));
        row.push(self.notes(opening));
        row
    }

    /// A moment; without its date where that is the date of `day`.
    fn time(&self, mark: Mark, day: Option<lock_core::time::Utc>) -> String {
        let whole = self.names.moment(mark.at);
        let zone = self.names.zone();
        match (mark.at, day) {
            (Some(at), Some(day)) if zone.local(at).date == zone.local(day).date => {
                whole.splitn(3, ' ').nth(2).unwrap_or(&whole).to_owned()
            }
            _ => whole,
        }
    }

    fn window(&self, opening: &Opening) -> String {
        let (Some(site), Some(people)) = (self.names.site(), opening.people) else {
            return "-".to_owned();
        };
        let Began::Released(Mark { at: Some(at), .. }) = opening.began else {
            return "-".to_owned();
        };
        let of = |number| {
            let person = self.names.person(number);
            person.map_or("-".to_owned(), |person| within(site, person.follows, at).words())
        };
        let first = of(people.first);
        match people.second.map(of) {
            Some(second) if second != first => format!("{first}; {second}"),
            Some(_) | None => first,
        }
    }

    fn notes(&self, opening: &Opening) -> String {
        let mut notes = Vec::new();
        if let Some(waited) = opening.waited {
            notes.push(format!("after a delay (record {})", waited.seq.0));
        }
        if let Some(People { second: Some(_), .. }) = opening.people {
            notes.push("dual control".to_owned());
        }
        let numbers = opening.people.map(|people| [Some(people.first), people.second]);
        let people = numbers.into_iter().flatten().flatten();
        if people.filter_map(|n| self.names.person(n)).any(|p| p.role == Role::Courier) {
            notes.push("courier".to_owned());
        }
        if let Some(mark) = opening.left_open {
            notes.push(format!("left open (record {})", mark.seq.0));
        }
        if let Some(mark) = opening.booted {
            notes.push(format!("power failed (record {})", mark.seq.0));
        }
        if opening.doubtful {
            notes.push("records are missing within".to_owned());
        }
        if self.telling == Telling::Confidential && opening.outcome == Outcome::Duress {
            notes.push("UNDER DURESS".to_owned());
        }
        notes.join(", ")
    }

    fn refusals(&self) -> Table {
        let rows = self.ledger.refusals.iter().map(|refused| {
            let why = refused.why.map_or("wrong code", refusal);
            self.row(refused.mark, [self.names.who(refused.who), why.to_owned()])
        });
        Table {
            title: "Refusals and wrong codes",
            none: Some("None."),
            heads: vec!["Record", "When", "Who", "Why"],
            rows: rows.collect(),
        }
    }

    fn penalties(&self) -> Table {
        let rows = self.ledger.penalties.iter();
        let rows = rows.map(|(mark, lasts)| self.row(*mark, [length(lasts.get())]));
        Table {
            title: "Penalties",
            none: None,
            heads: vec!["Record", "When", "Length"],
            rows: rows.collect(),
        }
    }

    fn waits(&self) -> Table {
        let rows = self.ledger.waits.iter().filter_map(|wait| self.wait(wait));
        Table {
            title: "Waits that led to no opening",
            none: None,
            heads: vec!["Record", "Began", "Who", "For", "Ended"],
            rows: rows.collect(),
        }
    }

    fn wait(&self, wait: &Wait) -> Option<Vec<String>> {
        let day = wait.began.at;
        let ended = match wait.end {
            WaitEnd::Went(_) => return None,
            WaitEnd::Lapsed(mark) => format!("nobody came: {}", self.time(mark, day)),
            WaitEnd::Cancelled(mark, why) => format!("{}: {}", reason(why), self.time(mark, day)),
            WaitEnd::Booted(mark) => format!("power failed: {}", self.time(mark, day)),
            WaitEnd::Unseen => "without a record".to_owned(),
            WaitEnd::Ongoing => "not by the last record".to_owned(),
        };
        let on = match wait.on {
            WaitsFor::Delay => "delay and claim",
            WaitsFor::Second => "a second person",
        };
        Some(self.row(wait.began, [self.names.people(&wait.people), on.to_owned(), ended]))
    }

    fn changes(&self) -> Table {
        let rows = self.ledger.changes.iter().map(|(mark, event)| {
            let (by, what) = change(event, &self.names);
            self.row(*mark, [by, what])
        });
        Table {
            title: "Changes",
            none: Some("None."),
            heads: vec!["Record", "When", "By", "What"],
            rows: rows.collect(),
        }
    }

    fn supply(&self) -> Table {
        let rows = self.ledger.supply.iter().map(|(mark, now, measured)| {
            self.row(*mark, [level(*now).to_owned(), volts(*measured)])
        });
        Table {
            title: "Supply",
            none: Some("Good throughout: no change of level."),
            heads: vec!["Record", "When", "Level", "Under load"],
            rows: rows.collect(),
        }
    }

    fn starts(&self) -> Table {
        let starts = self.ledger.starts.iter().map(|(mark, start)| {
            let what = match start {
                Start::PoweredUp => "powered up",
                Start::ClockInvalid => "clock became invalid",
            };
            (*mark, what.to_owned())
        });
        let set_back = self.ledger.set_back.iter().map(|(before, after)| {
            (*after, format!("clock set back: record {} is later", before.seq.0))
        });
        let mut all: Vec<_> = starts.chain(set_back).collect();
        all.sort_by_key(|(mark, _)| mark.seq);
        let rows = all.into_iter().map(|(mark, what)| self.row(mark, [what]));
        Table {
            title: "Power and clock",
            none: None,
            heads: vec!["Record", "When", "What"],
            rows: rows.collect(),
        }
    }

    fn extracts(&self) -> Table {
        let rows = self.files.iter().map(|note| {
            let problems: Vec<String> = note.problems.iter().map(Problem::words).collect();
            let what = if problems.is_empty() { "Fine.".to_owned() } else { problems.join(" ") };
            vec![
                plain::path(&note.path),
                self.names.moment(note.header.made),
                note.header.generation.to_string(),
                note.records.to_string(),
                what,
            ]
        });
        Table {
            title: "Extracts",
            none: None,
            heads: vec!["File", "Made", "Key", "Records", "What"],
            rows: rows.collect(),
        }
    }

    fn gaps(&self) -> Table {
        let rows = self.ledger.gaps.iter();
        let rows = rows.map(|gap| vec![gap.from.0.to_string(), gap_words(gap)]);
        Table {
            title: "Missing records",
            none: None,
            heads: vec!["From", "What"],
            rows: rows.collect(),
        }
    }
}

impl Opening {
    /// The record that its times are told from.
    fn began_at(&self) -> Option<Mark> {
        match self.began {
            Began::Released(mark) | Began::Forced(mark) => Some(mark),
            Began::Unseen => None,
        }
    }
}
