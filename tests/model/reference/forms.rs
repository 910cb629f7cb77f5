//! Dialogues (section 12): one page after another, up to the *OK* that does
//! it.

use super::change::Outcome;
use super::lock::Model;
use super::policy::KEYS;
use super::seen::{File, Key};
use super::setup::{Follows, Role};
use super::typing::{Asked, Desk, FEWEST_DIGITS, MOST_DIGITS, Second, Task};

/// How long a dialogue waits for a key; a session for files, from its start.
const DIALOGUE_MS: u64 = 60_000;
const FILES_MS: u64 = 600_000;
pub(crate) const GROUPS: usize = 8;
const SHOWN_AT_ONCE: usize = 3;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Page {
    Number,
    Role,
    Opens,
    Timetable,
    Code,
    Again,
    Date,
    Time,
    Which,
    Keys(usize),
    Value,
    Group(usize),
    Numbers(usize),
    Session,
    Second,
    Confirm,
    /// It would leave the lock stuck: asked once more.
    OnceMore,
}

/// What has been given so far.
#[derive(Clone, Debug, Default)]
pub(crate) struct Draft {
    pub(crate) number: Option<u8>,
    pub(crate) role: Option<Role>,
    pub(crate) opens: bool,
    pub(crate) follows: Option<Follows>,
    pub(crate) code: Option<String>,
    pub(crate) date: Option<jiff::civil::Date>,
    /// The instants that the date and time may mean.
    pub(crate) instants: Vec<i64>,
    pub(crate) key: Option<&'static str>,
    pub(crate) value: Option<u64>,
    pub(crate) groups: Vec<String>,
    pub(crate) file: Option<Box<File>>,
}

#[derive(Clone, Debug)]
pub(crate) struct Form {
    pub(crate) task: Task,
    /// Who asked; 0: nobody gave a code.
    pub(crate) by: u8,
    pub(crate) second: Option<u8>,
    /// Went on without the second person where that can be.
    pub(crate) alone: bool,
    pub(crate) page: Page,
    pub(crate) typed: String,
    pub(crate) reason: Option<&'static str>,
    /// What the last page says that it is about to do.
    pub(crate) about: String,
    pub(crate) draft: Draft,
    began_ms: u64,
    last_key_ms: u64,
}

impl Form {
    pub(crate) fn times_out_ms(&self) -> u64 {
        match self.task {
            "files" => self.began_ms + FILES_MS,
            _ => self.last_key_ms + DIALOGUE_MS,
        }
    }

    pub(crate) fn is_at_its_last_page(&self) -> bool {
        matches!(self.page, Page::Confirm | Page::OnceMore)
    }

    pub(crate) fn people(&self) -> Vec<u8> {
        let by = (self.by > 0).then_some(self.by);
        by.into_iter().chain(self.second).collect()
    }

    /// How many digits a field takes; 0: none is typed there.
    fn most_digits(&self) -> usize {
        match self.page {
            Page::Number => 2,
            Page::Code | Page::Again | Page::Date => 8,
            Page::Time => 4,
            Page::Value => 6,
            Page::Group(_) => 6,
            Page::Second => MOST_DIGITS,
            _ => 0,
        }
    }
}

/// What comes of a page.
enum Step {
    To(Page),
    /// All that the task asks for has been given.
    Given,
    Refused(&'static str),
    /// The key did nothing.
    Nothing,
}

impl Model {
    pub(crate) fn begin_form(&mut self, task: Task, by: u8) {
        let now_ms = self.now.uptime_ms;
        let page = match task {
            "hold-shut" | "test-alarm" | "reset" | "slow-reset" => Page::Confirm,
            "change-code" => Page::Code,
            "numbers" => Page::Numbers(0),
            "files" => Page::Session,
            "set-clock" => Page::Date,
            "set-policy" => Page::Keys(0),
            "pair" => Page::Second,
            "way-out" if self.another_privileged(by, None).is_some() => Page::Second,
            "way-out" => Page::Confirm,
            _ => Page::Number,
        };
        let form = Form {
            task,
            by,
            second: None,
            alone: false,
            page,
            typed: String::new(),
            reason: None,
            about: String::new(),
            draft: Draft::default(),
            began_ms: now_ms,
            last_key_ms: now_ms,
        };
        let mut form = form;
        if form.page == Page::Confirm {
            self.turn_to_the_last_page(&mut form);
        }
        self.desk = Desk::Form(Box::new(form));
    }

    /// True: the key did something.
    pub(crate) fn key_in_form(&mut self, mut form: Form, key: Key) -> bool {
        let now_ms = self.now.uptime_ms;
        match key {
            Key::Back if form.typed.is_empty() => return true,
            Key::Back => {
                form.typed.clear();
                form.last_key_ms = now_ms;
                self.desk = Desk::Form(Box::new(form));
                return true;
            }
            Key::Digit(digit) if form.most_digits() > 0 => {
                let fits = form.typed.len() < form.most_digits();
                if fits {
                    form.typed.push(char::from(b'0' + digit));
                    form.reason = None;
                    form.last_key_ms = now_ms;
                }
                self.desk = Desk::Form(Box::new(form));
                return fits;
            }
            Key::Ok if form.page == Page::Second => return self.second_person(form),
            Key::Ok if form.is_at_its_last_page() => {
                self.confirmed(form);
                return true;
            }
            Key::Digit(_) | Key::Ok => (),
        }
        let typed = std::mem::take(&mut form.typed);
        let step = match key {
            Key::Digit(digit) => self.chosen(&mut form, digit),
            Key::Ok | Key::Back => self.given(&mut form, &typed),
        };
        let did_something = !matches!(step, Step::Nothing);
        if did_something {
            form.last_key_ms = now_ms;
            form.reason = None;
        }
        match step {
            Step::To(page) => form.page = page,
            Step::Given => self.all_is_given(&mut form),
            Step::Refused(reason) => self.refuse_in_form(&mut form, reason),
            Step::Nothing => (),
        }
        self.desk = Desk::Form(Box::new(form));
        did_something
    }

    /// What it is about to do, and what bolt, switch or a person who is missing speaks
    /// against it, stand there as they are now.
    pub(crate) fn turn_to_the_last_page(&self, form: &mut Form) {
        form.page = Page::Confirm;
        form.reason = self.lacks(form);
        form.about = self.about_to(form);
    }

    fn refuse_in_form(&mut self, form: &mut Form, reason: &'static str) {
        self.seen.sounds.push("refused");
        form.reason = Some(reason);
        if form.page == Page::Again {
            form.page = Page::Code;
        }
    }

    /// A choice of one digit.
    fn chosen(&self, form: &mut Form, digit: u8) -> Step {
        match form.page {
            Page::Role => self.role_chosen(form, digit),
            Page::Opens if digit == 1 || digit == 2 => {
                form.draft.opens = digit == 1;
                if digit == 1 { Step::To(Page::Timetable) } else { after_row(form) }
            }
            Page::Timetable if digit == 9 => {
                if self.is_a_courier(form) {
                    return Step::Refused("no-choice");
                }
                form.draft.follows = Some(Follows::Always);
                after_row(form)
            }
            Page::Timetable if (1..=8).contains(&digit) => {
                let timetable = usize::from(digit) - 1;
                let known = self.known_utc().ok().filter(|_| !self.widens_at_once());
                let start = known.map(|utc| self.hours().next_start(timetable, utc));
                if start == Some(None) {
                    return Step::Refused("no-start");
                }
                form.draft.follows = Some(Follows::Timetable(timetable));
                after_row(form)
            }
            Page::Which if digit == 1 || digit == 2 => {
                form.draft.instants = vec![form.draft.instants[usize::from(digit) - 1]];
                Step::Given
            }
            Page::Keys(page) => {
                let place = usize::from(digit).checked_sub(1).filter(|place| *place < 3);
                let key = place.and_then(|place| KEYS.get(page * 3 + place));
                let Some(key) = key else { return Step::Refused("no-choice") };
                form.draft.key = Some(key);
                Step::To(Page::Value)
            }
            Page::Opens | Page::Timetable | Page::Which => Step::Refused("no-choice"),
            _ => Step::Nothing,
        }
    }

    fn is_a_courier(&self, form: &Form) -> bool {
        let number = form.draft.number.and_then(|number| self.setup().holder(number));
        let role = form.draft.role.or(number.map(|holder| holder.role));
        role == Some(Role::Courier)
    }

    fn role_chosen(&self, form: &mut Form, digit: u8) -> Step {
        let role = match digit {
            1 => Role::Warden,
            2 => Role::Deputy,
            3 => Role::Keyholder,
            4 => Role::Courier,
            5 => Role::Steward,
            _ => return Step::Refused("no-choice"),
        };
        let asker = self.setup().holder(form.by).map(|holder| holder.role);
        if asker == Some(Role::Deputy) && role != Role::Keyholder {
            return Step::Refused("not-yours");
        }
        if role == Role::Courier && form.task == "change-role" {
            return Step::Refused("courier");
        }
        if role == Role::Courier && self.setup().key.is_none() {
            return Step::Refused("no-key");
        }
        form.draft.role = Some(role);
        match role {
            Role::Warden | Role::Deputy => Step::To(Page::Opens),
            Role::Keyholder | Role::Courier => Step::To(Page::Timetable),
            Role::Steward => after_row(form),
        }
    }

    /// A field that *OK* ends.
    fn given(&self, form: &mut Form, typed: &str) -> Step {
        if typed.is_empty() && form.most_digits() > 0 {
            return Step::Nothing;
        }
        match form.page {
            Page::Number => match self.check_number(form, typed) {
                Err(reason) => Step::Refused(reason),
                Ok(number) => {
                    form.draft.number = Some(number);
                    self.after_number(form, number)
                }
            },
            Page::Code => match self.check_code(form, typed) {
                Err(reason) => Step::Refused(reason),
                Ok(()) => {
                    form.draft.code = Some(typed.to_owned());
                    Step::To(Page::Again)
                }
            },
            Page::Again if form.draft.code.as_deref() == Some(typed) => Step::Given,
            Page::Again => Step::Refused("not-twice"),
            Page::Date => match parse_date(typed) {
                Some(date) => {
                    form.draft.date = Some(date);
                    Step::To(Page::Time)
                }
                None => Step::Refused("no-date"),
            },
            Page::Time => self.time_given(form, typed),
            // The reason stands where the choices do: they are shown again.
            Page::Role | Page::Opens | Page::Timetable | Page::Which | Page::Keys(_)
                if form.reason.is_some() =>
            {
                Step::To(form.page)
            }
            Page::Keys(page) => Step::To(Page::Keys((page + 1) % KEYS.len().div_ceil(3))),
            Page::Value => self.value_given(form, typed),
            Page::Group(place) => self.group_given(form, place, typed),
            Page::Numbers(page) => {
                let pages = self.setup().holders.len().div_ceil(SHOWN_AT_ONCE).max(1);
                Step::To(Page::Numbers((page + 1) % pages))
            }
            _ => Step::Nothing,
        }
    }

    fn after_number(&self, form: &Form, number: u8) -> Step {
        match form.task {
            "enrol" | "change-role" => Step::To(Page::Role),
            "choose-timetable" => Step::To(Page::Timetable),
            "first-warden" => Step::To(Page::Code),
            "restore" if self.takes_a_new_code(number) => Step::To(Page::Code),
            _ => Step::Given,
        }
    }

    fn time_given(&self, form: &mut Form, typed: &str) -> Step {
        let (Some(date), Some(time)) = (form.draft.date, parse_time(typed)) else {
            return Step::Refused("no-time");
        };
        let instants = self.zone().instants(date.to_datetime(time));
        if instants.is_empty() {
            return Step::Refused("no-time");
        }
        if !instants.iter().all(|instant| self.is_plausible(*instant)) {
            return Step::Refused("out-of-years");
        }
        form.draft.instants = instants;
        if form.draft.instants.len() > 1 { Step::To(Page::Which) } else { Step::Given }
    }

    fn value_given(&self, form: &mut Form, typed: &str) -> Step {
        let key = form.draft.key.expect("a key was picked");
        let (least, most) = self.setup().policy.bounds(key);
        match typed.parse::<u64>() {
            Ok(value) if (least..=most).contains(&value) => {
                if self.setup().policy.with(key, value) == self.setup().policy {
                    return Step::Refused("already");
                }
                form.draft.value = Some(value);
                Step::Given
            }
            Ok(_) | Err(_) => Step::Refused("out-of-bounds"),
        }
    }

    fn group_given(&self, form: &mut Form, place: usize, typed: &str) -> Step {
        if typed.len() != 6 || !self.make.office.group_fits(place, typed) {
            return Step::Refused("mistyped");
        }
        form.draft.groups.truncate(place);
        form.draft.groups.push(typed.to_owned());
        if place + 1 < GROUPS { Step::To(Page::Group(place + 1)) } else { Step::Given }
    }

    /// Everything has been given: the second person is next, or the last page,
    /// which says what stands against the change.
    fn all_is_given(&mut self, form: &mut Form) {
        if form.task == "pair"
            && let Err(reason) = self.plan(form).map(|_| ())
        {
            form.page = Page::Group(0);
            form.draft.groups.clear();
            self.refuse_in_form(form, reason);
            return;
        }
        let second = self.second_for(form).is_some() && form.second.is_none();
        if second {
            form.page = Page::Second;
        } else {
            self.turn_to_the_last_page(form);
        }
    }

    /// A second person's number and code: a try.
    fn second_person(&mut self, mut form: Form) -> bool {
        let alone = form.typed.is_empty() && form.task == "way-out";
        if form.typed.len() < FEWEST_DIGITS && !alone {
            self.desk = Desk::Form(Box::new(form));
            return false;
        }
        let typed = std::mem::take(&mut form.typed);
        form.last_key_ms = self.now.uptime_ms;
        if alone {
            form.alone = true;
            self.turn_to_the_last_page(&mut form);
            self.desk = Desk::Form(Box::new(form));
            return true;
        }
        let kind = self.second_for(&form).unwrap_or(Second {
            by: form.by,
            about: form.draft.number,
            role: None,
        });
        let Some((person, outcome)) = self.try_code(&Asked::Second(kind), &typed) else {
            return true;
        };
        if !self.record_asked(form.task, person.number, outcome) {
            return true;
        }
        form.second = Some(person.number);
        if form.task == "pair" {
            form.page = Page::Group(0);
        } else {
            self.turn_to_the_last_page(&mut form);
        }
        self.desk = Desk::Form(Box::new(form));
        self.end_way_out(person.number);
        true
    }

    /// *OK* at the last page.
    fn confirmed(&mut self, mut form: Form) {
        form.last_key_ms = self.now.uptime_ms;
        form.reason = None;
        match self.act(&form) {
            Outcome::Done(text) => {
                self.seen.sounds.push("accepted");
                self.notify(text);
            }
            Outcome::Failed => (),
            Outcome::Refused(reason) => {
                self.refuse_in_form(&mut form, reason);
                self.desk = Desk::Form(Box::new(form));
            }
            Outcome::Asks(page) => {
                form.page = page;
                if page == Page::Confirm {
                    self.turn_to_the_last_page(&mut form);
                }
                self.desk = Desk::Form(Box::new(form));
            }
        }
    }
}

/// What follows the role, whether they open, and their timetable.
fn after_row(form: &Form) -> Step {
    let own_code = form.draft.role != Some(Role::Courier);
    if form.task == "enrol" && own_code { Step::To(Page::Code) } else { Step::Given }
}

/// `01032027`: day, month, year.
/// "A date before 1970 or after 2149-06-06 is none."
fn parse_date(typed: &str) -> Option<jiff::civil::Date> {
    if typed.len() != 8 {
        return None;
    }
    let day = typed[..2].parse().ok()?;
    let month = typed[2..4].parse().ok()?;
    let year = typed[4..].parse().ok()?;
    let known = jiff::civil::date(1970, 1, 1)..=jiff::civil::date(2149, 6, 6);
    jiff::civil::Date::new(year, month, day).ok().filter(|date| known.contains(date))
}

fn parse_time(typed: &str) -> Option<jiff::civil::Time> {
    if typed.len() != 4 {
        return None;
    }
    let hour = typed[..2].parse().ok()?;
    let minute = typed[2..].parse().ok()?;
    jiff::civil::Time::new(hour, minute, 0, 0).ok()
}
