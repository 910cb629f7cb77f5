//! Leading a dialogue: what is typed on each page, as the reference shows it.

use jiff::Timestamp;

use crate::deeds::{code_of, enter, open, rest};
use crate::dice::Dice;
use crate::reference::{Calendar, File, Form, Input, KEYS, Key, LIST, Page, TIMETABLES, Window};
use crate::walk::{Walker, digits};

/// No dialogue is longer.
const MOST_PAGES: usize = 60;
const DAY_S: i64 = 86_400;

/// What people want of a dialogue, where it is not left to chance.
#[derive(Clone, Debug, Default)]
pub(crate) struct Wishes {
    /// The file that the laptop has with it.
    pub(crate) file: Option<Calendar>,
    /// Whom it is about.
    pub(crate) number: Option<u8>,
    /// The digit of the role that is given.
    pub(crate) role: Option<u8>,
}

/// A task of the list, with the bolt drawn first where it takes that, and
/// sometimes otherwise.
pub(crate) fn task(walker: &mut Walker<'_>, dice: &mut Dice, task: &'static str) {
    let takes_bolt = ["test-alarm", "pair", "reset"].contains(&task);
    let often = takes_bolt && !dice.one_in(8) || dice.one_in(6);
    if often && !walker.model.is_opened() {
        open(walker, dice, false);
    }
    if task == "reset" && !dice.one_in(8) {
        walker.contact(Input::Switch(true));
    }
    begin(walker, dice, task);
    lead(walker, dice, &Wishes::default());
}

/// A file without any window, loaded at a lock that may be thrown or drawn.
pub(crate) fn empty_file(walker: &mut Walker<'_>, dice: &mut Dice) {
    if dice.one_in(2) && !walker.model.is_opened() {
        open(walker, dice, false);
    }
    begin(walker, dice, "files");
    let calendar = Calendar::empty(&walker.model.setup().calendar.zone);
    lead(walker, dice, &Wishes { file: Some(calendar), ..Wishes::default() });
}

/// From rest to the first page of a task.
pub(crate) fn begin(walker: &mut Walker<'_>, dice: &mut Dice, task: &'static str) {
    rest(walker);
    let page = LIST.iter().position(|page| page.contains(&Some(task))).expect("on the list");
    let place = LIST[page].iter().position(|each| *each == Some(task)).expect("on its page");
    let model = &walker.model;
    let rows = model.setup().holders.values();
    let may: Vec<u8> = rows
        .filter(|row| model.may(row, task) && !row.suspended && !model.is_barred(row.number))
        .map(|row| row.number)
        .collect();
    let privileged: Vec<u8> = may
        .iter()
        .copied()
        .filter(|number| model.setup().holder(*number).is_some_and(|it| it.role.is_privileged()))
        .collect();
    let Some(number) = (if dice.one_in(3) { dice.of(&may) } else { dice.of(&privileged) })
        .or_else(|| dice.of(&may))
    else {
        return;
    };
    walker.keys(&vec![Key::Ok; page + 1]);
    walker.keys(&[Key::Digit(u8::try_from(place + 1).expect("one to three"))]);
    enter(walker, number, dice.one_in(6));
}

/// Goes on page by page until the dialogue is over.
pub(crate) fn lead(walker: &mut Walker<'_>, dice: &mut Dice, wishes: &Wishes) {
    // What may widen, half of the time.
    let bears_on_opening = ["delay", "delay", "dual_control", "deputies"];
    let key = if dice.one_in(2) { dice.of(&bears_on_opening) } else { dice.of(&KEYS) };
    let key = key.expect("keys");
    let patience = if dice.one_in(8) { dice.below(6) } else { MOST_PAGES };
    for _ in 0..patience {
        let Some(form) = walker.model.desk.form().cloned() else { return };
        if form.reason == Some("mistyped") || form.reason.is_some() && form.is_at_its_last_page() {
            break;
        }
        if form.reason.is_some() && dice.one_in(3) {
            break;
        }
        if !page(walker, dice, &form, key, wishes) {
            break;
        }
        if dice.one_in(40) {
            walker.wait(dice.up_to(70));
        }
    }
    if walker.model.desk.form().is_some() && !dice.one_in(6) {
        rest(walker);
    }
}

/// False: whoever leads gives up.
fn page(
    walker: &mut Walker<'_>,
    dice: &mut Dice,
    form: &Form,
    key: &'static str,
    wishes: &Wishes,
) -> bool {
    match form.page {
        Page::Number => return number(walker, dice, form, wishes),
        Page::Role => {
            let role = dice.of(&[1, 2, 3, 3, 3, 4, 4, 5]).expect("roles");
            walker.keys(&[Key::Digit(wishes.role.unwrap_or(role))]);
        }
        Page::Opens | Page::Which => {
            walker.keys(&[Key::Digit(if dice.one_in(3) { 2 } else { 1 })]);
        }
        Page::Timetable => timetable(walker, dice),
        Page::Code => {
            let length = walker.model.setup().policy.code_digits;
            let code = if dice.one_in(12) { "111111".to_owned() } else { dice.code(length) };
            field(walker, &code);
        }
        Page::Again => {
            let code = form.draft.code.clone().unwrap_or_default();
            let slip = dice.one_in(15);
            field(walker, if slip { "402935" } else { &code });
        }
        Page::Date | Page::Time => return date_and_time(walker, dice, form),
        Page::Keys(shown) => {
            let place = KEYS.iter().position(|each| *each == key).expect("a key");
            if place / 3 == shown {
                let digit = u8::try_from(place % 3 + 1).expect("one to three");
                walker.keys(&[Key::Digit(digit)]);
            } else {
                walker.keys(&[Key::Ok]);
            }
        }
        Page::Value => value(walker, dice, key),
        Page::Group(place) => {
            let office = &walker.walk.make.office;
            let last = walker.model.setup().last_generation;
            // The first group names the lock, the second one the generation.
            let slips = place < 2 && dice.one_in(8);
            // A lock without a key takes any lock's, and is that one from then on.
            let paired = walker.model.setup().key.is_some();
            let lock = office.lock() + u16::from(slips && paired);
            let generation = if slips { last.max(1) } else { last + 1 };
            let groups = office.pairing_code(lock, generation);
            field(walker, &groups[place]);
        }
        Page::Numbers(_) => {
            walker.keys(&[Key::Ok]);
            return !dice.one_in(3);
        }
        Page::Session => return load(walker, dice, wishes),
        Page::Second => return second(walker, dice, form),
        Page::Confirm | Page::OnceMore => walker.keys(&[Key::Ok]),
    }
    true
}

fn field(walker: &mut Walker<'_>, text: &str) {
    walker.keys(&digits(text));
    walker.keys(&[Key::Ok]);
}

fn number(walker: &mut Walker<'_>, dice: &mut Dice, form: &Form, wishes: &Wishes) -> bool {
    let model = &walker.model;
    let fits = |number: &u8| model.check_number(form, &format!("{number:02}")).is_ok();
    let fitting: Vec<u8> = (1..=99).filter(fits).collect();
    let any = u8::try_from(1 + dice.below(99)).expect("small");
    let number = if dice.one_in(10) { Some(any) } else { dice.of(&fitting) };
    let number = wishes.number.or(number);
    let Some(number) = number else { return false };
    field(walker, &format!("{number:02}"));
    true
}

fn timetable(walker: &mut Walker<'_>, dice: &mut Dice) {
    let model = &walker.model;
    let hours = model.hours();
    let start = |timetable: &usize| {
        model.utc().is_none_or(|utc| hours.next_start(*timetable, utc).is_some())
    };
    let with_start: Vec<usize> = (0..TIMETABLES).filter(start).collect();
    let digit = match dice.of(&with_start) {
        Some(timetable) if !dice.one_in(4) => timetable + 1,
        Some(_) | None if dice.one_in(12) => 1 + dice.below(8),
        Some(_) | None => 9,
    };
    walker.keys(&[Key::Digit(u8::try_from(digit).expect("a digit"))]);
}

/// A little off, hours or days off, forward and back.
fn date_and_time(walker: &mut Walker<'_>, dice: &mut Dice, form: &Form) -> bool {
    let model = &walker.model;
    let now = model.utc().or_else(|| model.steady().map(|steady| model.to_utc(steady)));
    let now = now.unwrap_or(model.make.built + 200 * DAY_S);
    let off = dice
        .of(&[-180, -60, 0, 60, 120, 240, -7_200, 7_200, 3_600, DAY_S, -DAY_S, 5 * DAY_S])
        .expect("some");
    let target = if matches!(form.page, Page::Date) {
        now + off
    } else {
        // The date is given: the time of the same target, as a rule.
        let same = form.draft.date.is_some_and(|date| model.zone().local(now).date() == date);
        if same { now + off.clamp(-300, 300) } else { now }
    };
    let local = model.zone().local(target);
    let text = if matches!(form.page, Page::Date) {
        local.strftime("%d%m%Y").to_string()
    } else {
        local.strftime("%H%M").to_string()
    };
    debug_assert!(Timestamp::from_second(target).is_ok());
    field(walker, &text);
    true
}

fn value(walker: &mut Walker<'_>, dice: &mut Dice, key: &'static str) {
    let (least, most) = walker.model.setup().policy.bounds(key);
    let now = walker.model.setup().policy.delay_s / 60;
    let most = match key {
        "delay" if now > 0 && dice.one_in(2) => now - 1,
        "delay" if !dice.one_in(4) => 20,
        _ => most,
    };
    let value = if dice.one_in(10) { most + 1 } else { least + dice.up_to(most - least) };
    field(walker, &value.to_string());
}

fn second(walker: &mut Walker<'_>, dice: &mut Dice, form: &Form) -> bool {
    if form.task == "way-out" && dice.one_in(5) {
        walker.keys(&[Key::Ok]);
        return true;
    }
    let model = &walker.model;
    let Some(kind) = model.second_for(form) else { return false };
    let fits: Vec<u8> = model
        .setup()
        .holders
        .values()
        .filter(|row| kind.takes(row) && row.number != kind.by && !row.suspended)
        .map(|row| row.number)
        .collect();
    let anybody: Vec<u8> = model.setup().holders.keys().copied().collect();
    let number = if dice.one_in(12) { dice.of(&anybody) } else { dice.of(&fits) };
    let Some(number) = number else { return false };
    if code_of(walker, number).is_none() {
        return false;
    }
    enter(walker, number, dice.one_in(5));
    true
}

fn load(walker: &mut Walker<'_>, dice: &mut Dice, wishes: &Wishes) -> bool {
    let setup = walker.model.setup();
    let newest = setup.file.as_ref().map_or(setup.version, |file| file.version);
    walker.walk.sealed = walker.walk.sealed.max(newest) + 1;
    let version = if dice.one_in(12) { newest } else { walker.walk.sealed };
    let calendar = wishes.file.clone().unwrap_or_else(|| changed(&setup.calendar, dice));
    let generation = if dice.one_in(20) { 0 } else { setup.key.unwrap_or(1) };
    let lock = walker.walk.make.office.lock();
    walker.input(Input::File(Box::new(File { lock, generation, version, calendar })));
    walker.model.desk.form().is_some_and(Form::is_at_its_last_page)
}

/// The calendar in force, a little narrower or wider.
fn changed(calendar: &Calendar, dice: &mut Dice) -> Calendar {
    let mut new = calendar.clone();
    for _ in 0..1 + dice.below(2) {
        let day = dice.below(7);
        let timetable = dice.below(4);
        let windows = &mut new.timetables[timetable][day];
        match dice.below(6) {
            0 => {
                windows.pop();
            }
            1 => new.closures.clear(),
            2 => new.specials.clear(),
            3 if windows.is_empty() => windows.push(Window { from: 540, to: 1_020 }),
            _ => {
                if let Some(last) = windows.last_mut()
                    && last.from < last.to
                {
                    let longer = last.to + 1 < 1_300 && !dice.one_in(3);
                    last.to = if longer { last.to + 1 } else { last.to - 1 };
                    if last.to == last.from {
                        windows.pop();
                    }
                }
            }
        }
    }
    // A day's change must not make windows overlap: those are touched last.
    if crate::generator::contradicts(&new) { calendar.clone() } else { new }
}
