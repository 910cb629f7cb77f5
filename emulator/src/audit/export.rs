//! Records one by one for other programs: CSV (RFC 4180) and JSON lines.
//!
//! Both have the same fields. Where nothing belongs into one, CSV leaves it
//! empty and JSON says `null`. `outcome` is there only if it may be told.

use std::io::{self, Write};

use lock_core::audit::{Change, Entry, Event, Outcome, Record, Seq};
use lock_core::holder::Number;
use lock_core::policy::KEYS;
use lock_core::time::{Utc, Zone};
use lock_core::timetable::Follows;
use serde::Serialize;

use super::names::{Names, rfc3339};
use super::report::Telling;
use super::words::count;

/// How rows are written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Form {
    /// Comma-separated values with a head, lines ended by CR LF.
    Csv,
    /// An object a line.
    JsonLines,
}

/// The fields of a row, in their order; `outcome` follows where it is told.
pub const FIELDS: [&str; 15] = [
    "lock",
    "lock_id",
    "record",
    "at",
    "local",
    "kind",
    "who",
    "who_name",
    "second",
    "second_name",
    "about",
    "about_name",
    "detail",
    "value",
    "unit",
];

/// One row.
#[derive(Clone, PartialEq, Debug, Serialize)]
struct Row<'n> {
    lock: u32,
    lock_id: Option<&'n str>,
    record: u32,
    at: Option<String>,
    local: Option<String>,
    kind: &'static str,
    who: Option<u8>,
    who_name: Option<&'n str>,
    second: Option<u8>,
    second_name: Option<&'n str>,
    about: Option<u8>,
    about_name: Option<&'n str>,
    detail: Option<String>,
    value: Option<i64>,
    unit: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    outcome: Option<&'static str>,
}

/// From when, inclusive, until when, exclusive, records are written.
///
/// A record without a time, and a gap, count as of the time of the record
/// before; at the very start, as of before everything.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Span {
    /// The first instant.
    pub from: Option<Utc>,
    /// The first instant that is no longer in it.
    pub until: Option<Utc>,
}

impl Span {
    fn holds(&self, at: Option<Utc>) -> bool {
        let late_enough = self.from.is_none_or(|from| at.is_some_and(|at| at >= from));
        let early_enough = self.until.is_none_or(|until| at.is_none_or(|at| at < until));
        late_enough && early_enough
    }
}

/// Writes rows.
pub struct Exporter<'a, W: Write> {
    out: Out<W>,
    names: Names<'a>,
    telling: Telling,
    span: Span,
    /// The time of the last record of this lock that had one.
    at: Option<Utc>,
    written: u32,
}

enum Out<W: Write> {
    Csv(Box<csv::Writer<W>>),
    Json(W),
}

impl<'a, W: Write> Exporter<'a, W> {
    /// Writes to `out`, the head first where there is one.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn new(
        out: W,
        form: Form,
        names: Names<'a>,
        telling: Telling,
        span: Span,
    ) -> io::Result<Self> {
        let out = match form {
            Form::JsonLines => Out::Json(out),
            Form::Csv => {
                let mut builder = csv::WriterBuilder::new();
                let mut csv = builder.terminator(csv::Terminator::CRLF).from_writer(out);
                let outcome = (telling == Telling::Confidential).then_some("outcome");
                csv.write_record(FIELDS.into_iter().chain(outcome))?;
                Out::Csv(Box::new(csv))
            }
        };
        Ok(Self { out, names, telling, span, at: None, written: 0 })
    }

    /// The next lock begins, told with those names; what is written of it, and of
    /// those behind it, is what lies in `span`.
    pub const fn begin(&mut self, names: Names<'a>, span: Span) {
        self.names = names;
        self.span = span;
        self.at = None;
    }

    /// The next entry of `lock`.
    ///
    /// # Errors
    /// Those of the output.
    pub fn take(&mut self, lock: u32, entry: &Entry) -> io::Result<()> {
        if let Some((_, Record { at: Some(at), .. })) = entry.record() {
            self.at = Some(at);
        }
        if !self.span.holds(self.at) {
            return Ok(());
        }
        self.written = self.written.saturating_add(1);
        let row = self.row(lock, entry);
        match &mut self.out {
            Out::Json(out) => {
                serde_json::to_writer(&mut *out, &row)?;
                out.write_all(b"\n")
            }
            Out::Csv(csv) => Ok(csv.write_record(row.cells(self.telling))?),
        }
    }

    /// How many rows were written.
    ///
    /// # Errors
    /// Those of the output.
    pub fn finish(self) -> io::Result<u32> {
        match self.out {
            Out::Json(mut out) => out.flush()?,
            Out::Csv(mut csv) => csv.flush()?,
        }
        Ok(self.written)
    }

    fn row(&self, lock: u32, entry: &Entry) -> Row<'a> {
        let lock_id = self.names.plan(lock).map(|plan| plan.id.as_str());
        match entry {
            Entry::Record(seq, record) => self.record(lock, lock_id, *seq, record),
            Entry::Gap(gap) => Row {
                detail: Some(format!("{} lost", gap.lost)),
                value: Some(i64::from(count(gap))),
                unit: Some("records"),
                ..empty(lock, lock_id, gap.from, "gap")
            },
        }
    }

    fn record(&self, lock: u32, lock_id: Option<&'a str>, seq: Seq, record: &Record) -> Row<'a> {
        let event = &record.event;
        let [who, second] = people(event);
        let name = |number: Option<Number>| {
            number.and_then(|n| self.names.person(n)).map(|person| person.name.as_str())
        };
        let Particulars { about, detail, value, unit } = particulars(event);
        let local = |zone: &Zone| record.at.map(|at| rfc3339(zone, at));
        let outcome = event.outcome().filter(|_| self.telling == Telling::Confidential);
        Row {
            at: record.at.map(|at| rfc3339(&Zone::UTC, at)),
            local: self.names.site().and_then(|site| local(&site.zone)),
            who: who.map(Number::get),
            who_name: name(who),
            second: second.map(Number::get),
            second_name: name(second),
            about: about.map(Number::get),
            about_name: name(about),
            detail,
            value,
            unit,
            outcome: outcome.map(|outcome| match outcome {
                Outcome::Plain => "plain",
                Outcome::Duress => "duress",
            }),
            ..empty(lock, lock_id, seq, event.kind())
        }
    }
}

fn empty<'n>(lock: u32, lock_id: Option<&'n str>, seq: Seq, kind: &'static str) -> Row<'n> {
    Row {
        lock,
        lock_id,
        record: seq.0,
        at: None,
        local: None,
        kind,
        who: None,
        who_name: None,
        second: None,
        second_name: None,
        about: None,
        about_name: None,
        detail: None,
        value: None,
        unit: None,
        outcome: None,
    }
}

impl Row<'_> {
    fn cells(&self, telling: Telling) -> Vec<String> {
        let number = |n: Option<u8>| n.map_or(String::new(), |n| n.to_string());
        let text = |t: Option<&str>| no_formula(t.unwrap_or_default());
        let mut cells = vec![
            self.lock.to_string(),
            text(self.lock_id),
            self.record.to_string(),
            text(self.at.as_deref()),
            text(self.local.as_deref()),
            self.kind.to_owned(),
            number(self.who),
            text(self.who_name),
            number(self.second),
            text(self.second_name),
            number(self.about),
            text(self.about_name),
            text(self.detail.as_deref()),
            self.value.map_or(String::new(), |value| value.to_string()),
            text(self.unit),
        ];
        if telling == Telling::Confidential {
            cells.push(text(self.outcome));
        }
        cells
    }
}

/// A text that no spreadsheet takes for a formula: names come from a file that
/// somebody else may have written. Source: OWASP, *CSV Injection*, which names the
/// characters and the apostrophe (from memory).
fn no_formula(text: &str) -> String {
    let begins = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if begins { format!("'{text}") } else { text.to_owned() }
}

/// Who did it.
const fn people(event: &Event) -> [Option<Number>; 2] {
    match event {
        Event::Released { people, .. }
        | Event::DelayStarted { people, .. }
        | Event::Changed { by: Some(people), .. } => [Some(people.first), people.second],
        Event::FirstOfTwo { who, .. }
        | Event::WrongCode { who }
        | Event::Refused { who, .. }
        | Event::HeldShut { who, .. }
        | Event::Status { who, .. }
        | Event::Asked { who, .. } => [Some(*who), None],
        Event::Changed { by: None, .. }
        | Event::PoweredUp
        | Event::Opened
        | Event::Secured { .. }
        | Event::NotDrawn
        | Event::LeftOpen
        | Event::Forced
        | Event::Lapsed
        | Event::Cancelled { .. }
        | Event::Penalty { .. }
        | Event::Supply { .. }
        | Event::ClockInvalid
        | Event::Fault { .. } => [None, None],
    }
}

/// What else a record says.
#[derive(Default)]
struct Particulars {
    about: Option<Number>,
    detail: Option<String>,
    value: Option<i64>,
    unit: Option<&'static str>,
}

impl Particulars {
    fn detail(detail: impl Into<String>) -> Self {
        Self { detail: Some(detail.into()), ..Self::default() }
    }

    fn value(value: impl Into<i64>, unit: &'static str) -> Self {
        Self { value: Some(value.into()), unit: Some(unit), ..Self::default() }
    }

    fn about(number: Number) -> Self {
        Self { about: Some(number), ..Self::default() }
    }
}

fn particulars(event: &Event) -> Particulars {
    match event {
        Event::Secured { open_for } => Particulars::value(open_for.get(), "s"),
        Event::Penalty { lasts } => Particulars::value(lasts.get(), "s"),
        Event::Supply { measured, .. } => Particulars::value(measured.get(), "mV"),
        Event::Cancelled { why } => Particulars::detail(spelt(why)),
        Event::Fault { fault } => Particulars::detail(spelt(fault)),
        Event::Asked { task, .. } => Particulars::detail(task.name()),
        Event::HeldShut { until, .. } => Particulars::detail(rfc3339(&Zone::UTC, *until)),
        Event::Changed { change, .. } => of_change(*change),
        Event::PoweredUp
        | Event::Released { .. }
        | Event::Opened
        | Event::NotDrawn
        | Event::LeftOpen
        | Event::Forced
        | Event::DelayStarted { .. }
        | Event::Lapsed
        | Event::FirstOfTwo { .. }
        | Event::WrongCode { .. }
        | Event::Refused { .. }
        | Event::Status { .. }
        | Event::ClockInvalid => Particulars::default(),
    }
}

fn of_change(change: Change) -> Particulars {
    let about = Particulars::about;
    match change {
        Change::Commissioned(number)
        | Change::CodeChanged(number)
        | Change::Suspended(number)
        | Change::Restored(number)
        | Change::Removed(number) => about(number),
        Change::Enrolled(number, role) | Change::RoleChanged(number, role) => {
            Particulars { detail: Some(role.name().to_owned()), ..about(number) }
        }
        Change::TimetableChosen(number, follows) => {
            let follows = match follows {
                Follows::Always => "always".to_owned(),
                Follows::Timetable(id) => id.letter().to_string(),
            };
            Particulars { detail: Some(follows), ..about(number) }
        }
        Change::ClockCorrected(by) => Particulars::value(by, "s"),
        Change::PolicySet(place, value) => {
            let key = KEYS.get(usize::from(place));
            let key = key.map_or_else(|| format!("value {place}"), |&key| key.to_owned());
            Particulars { value: Some(value.into()), ..Particulars::detail(key) }
        }
        Change::Paired(generation) => Particulars::value(generation, "generation"),
        Change::FileLoaded(version) | Change::FileWaits(version) => {
            Particulars::value(version, "version")
        }
        Change::Collected(seq) => Particulars::value(seq.0, "record"),
        Change::ClockSet
        | Change::AlarmTested
        | Change::ResetBegun
        | Change::ResetCancelled
        | Change::Reset => Particulars::default(),
    }
}

/// A variant's name as files spell it.
fn spelt(variant: &impl Serialize) -> String {
    let name = serde_json::to_value(variant).ok();
    name.as_ref().and_then(serde_json::Value::as_str).unwrap_or_default().to_owned()
}
