//! Timetable files: loaded, in force at once, waiting, replaced, adopted.

use super::change::Plan;
use super::forms::{Form, Page};
use super::lock::Model;
use super::seen::{File, Record};
use super::setup::{TIMETABLES, WaitingFile};
use super::typing::Desk;
use super::windows::opened_wider;

impl Model {
    /// A laptop loads a file over the cable.
    pub(crate) fn load(&mut self, file: &File) {
        let answer = match self.may_load(file) {
            Err(reason) => format!("refused {reason}"),
            Ok(()) => {
                if let Desk::Form(mut form) = std::mem::replace(&mut self.desk, Desk::Rest) {
                    form.draft.file = Some(Box::new(file.clone()));
                    self.turn_to_the_last_page(&mut form);
                    self.desk = Desk::Form(form);
                }
                self.seen.sounds.push("key");
                format!("file {}", file.version)
            }
        };
        self.seen.link = Some(answer);
    }

    fn may_load(&self, file: &File) -> Result<(), &'static str> {
        let session = self.desk.form().is_some_and(|form| form.page == Page::Session);
        if !session {
            return Err("not-asked");
        }
        let setup = self.setup();
        let key = setup.key.ok_or("no-key")?;
        if file.lock != self.make.office.lock() {
            return Err("other-lock");
        }
        if file.generation != key {
            return Err("other-key");
        }
        let newest = setup.file.as_ref().map_or(setup.version, |file| file.version);
        if file.version <= newest.max(setup.version) {
            return Err("not-newer");
        }
        Ok(())
    }

    /// What *OK* would do with the file that was loaded.
    pub(crate) fn plan_file(&self, form: &Form) -> Result<Plan, &'static str> {
        let file = form.draft.file.as_ref().ok_or("no-file")?;
        let mut settings = self.setup().clone();
        let record = |kind: &str| Record::of(kind).numbers(&form.people()).value(file.version);
        // Without a date nobody can tell.
        let wider = match self.utc() {
            Some(utc) => opened_wider(&file.calendar, &settings.calendar, utc),
            None => (0..TIMETABLES).collect(),
        };
        if wider.is_empty() || self.widens_at_once() {
            settings.calendar = file.calendar.clone();
            settings.version = file.version;
            settings.file = None;
            let record = record("file-loaded");
            return Ok(Plan { settings, record, from: None, clears: None });
        }
        let utc = self.known_utc()?;
        let start = |timetable: usize| self.hours().next_start(timetable, utc);
        let any_other = || (0..TIMETABLES).filter_map(start).min();
        let own = wider
            .iter()
            .map(|timetable| start(*timetable).or_else(any_other))
            .try_fold(i64::MIN, |latest, start| start.map(|start| latest.max(start)));
        let own = self.to_steady(own.ok_or("draw-bolt")?);
        let older = settings.file.as_ref().map(|older| older.until);
        let until = older.map_or(own, |older| own.max(older));
        let calendar = file.calendar.clone();
        settings.file = Some(WaitingFile { version: file.version, calendar, until });
        let from = Some(self.to_utc(until));
        Ok(Plan { settings, record: record("file-waits"), from, clears: None })
    }

    /// A file that waits is adopted at its instant, or when the lock is opened,
    /// by nobody.
    pub(crate) fn settle_file(&mut self) {
        let Some(file) = &self.setup().file else {
            self.file_brought = false;
            return;
        };
        let due = self.has_come(file.until) || self.file_brought;
        if !due || self.stands_at_a_last_page() {
            return;
        }
        self.file_brought = false;
        let mut settings = self.setup().clone();
        let file = settings.file.take().expect("one waits");
        settings.calendar = file.calendar;
        settings.version = file.version;
        let record = Record::of("file-loaded").value(file.version);
        self.carry_out(settings, record, None);
    }
}
