//! The words of a dialogue.

use super::form_language::Forms;
use super::lines::Writer;
use crate::audit::Change;
use crate::holder::{Number, Opens};
use crate::policy;
use crate::role::Role;
use crate::screen::{
    Field, Form, Gist, Row, Shown, Stamp, Topic, Trouble, Typed, Whom, policy_scale,
};
use crate::task::Task;
use crate::timetable::Follows;

pub(super) fn write(out: &mut Writer<'_>, forms: &Forms, form: &Form) {
    match *form {
        Form::Ask { topic, field, shown, trouble } => {
            ask(out, forms, (topic, field), shown, trouble);
        }
        Form::Second { topic, whom, typed } => {
            out.title(title(forms, topic));
            out.typed(typed);
            let [warden, steward, either] = forms.second;
            out.sentence(match whom {
                Whom::Warden => warden,
                Whom::Steward => steward,
                Whom::Privileged => either,
            });
            // There is room for one of them.
            out.sentence(match (topic, typed) {
                (Topic::Task(Task::WayOut), Typed::Nothing) => forms.or_alone,
                (_, Typed::Nothing) => forms.second_types,
                (_, Typed::Tens(_) | Typed::Number(..)) => forms.second_typed,
            });
        }
        Form::Confirm { topic, gist: about, trouble } => {
            out.title(title(forms, topic));
            // There is room for it beside that.
            if let (Topic::Task(Task::TestAlarm), Gist::Plain, None | Some(Trouble::DrawBolt)) =
                (topic, about, trouble)
            {
                out.sentence(forms.test_first);
            }
            match trouble {
                // What it is about was said before.
                Some(trouble) => {
                    wrong(out, forms, trouble);
                    out.sentence(forms.confirm_again);
                }
                None => {
                    gist(out, forms, topic, about);
                    out.sentence(forms.confirm);
                }
            }
        }
        Form::Numbers { rows } => {
            out.title(title(forms, Topic::Task(Task::Numbers)));
            for row in rows.iter().flatten() {
                taken(out, forms, *row);
            }
            out.sentence(forms.more);
        }
        Form::Files => {
            out.title(title(forms, Topic::Task(Task::Files)));
            out.sentence(forms.files);
        }
        Form::Done { change, from } => done(out, forms, change, from),
    }
}

/// The name of a task.
pub(super) fn name(forms: &Forms, task: Task) -> &'static str {
    let index = Task::ALL.iter().position(|other| *other == task);
    index.map_or("", |index| pick(&forms.tasks, index))
}

fn title(forms: &Forms, topic: Topic) -> &'static str {
    match topic {
        Topic::Task(task) => name(forms, task),
        Topic::FirstWarden => forms.first_warden,
        Topic::SlowReset => forms.slow_reset,
    }
}

fn pick(all: &[&'static str], index: usize) -> &'static str {
    all.get(index).copied().unwrap_or_default()
}

const fn role_index(role: Role) -> usize {
    match role {
        Role::Warden => 0,
        Role::Deputy => 1,
        Role::Keyholder => 2,
        Role::Courier => 3,
        Role::Steward => 4,
    }
}

fn ask(
    out: &mut Writer<'_>,
    forms: &Forms,
    (topic, field): (Topic, Field),
    shown: Shown,
    trouble: Option<Trouble>,
) {
    match field {
        Field::Value { key } => out.title(pick(&forms.keys, usize::from(key))),
        Field::Number
        | Field::Role
        | Field::Opens
        | Field::Timetable
        | Field::NewCode
        | Field::Again
        | Field::Date
        | Field::Time
        | Field::Which
        | Field::Key { .. }
        | Field::Group { .. } => out.title(title(forms, topic)),
    }
    match shown {
        Shown::Digits { count: 0, .. } | Shown::Dots(0) => {
            if let Some(trouble) = trouble {
                wrong(out, forms, trouble);
                if is_choice(field) {
                    return out.sentence(forms.choices_again);
                }
            }
        }
        Shown::Digits { value, count } => out.typed_digits(value, count),
        Shown::Dots(count) => out.typed_dots(count),
    }
    prompt(out, forms, topic, field);
}

const fn is_choice(field: Field) -> bool {
    match field {
        Field::Role | Field::Opens | Field::Timetable | Field::Which | Field::Key { .. } => true,
        Field::Number
        | Field::NewCode
        | Field::Again
        | Field::Date
        | Field::Time
        | Field::Value { .. }
        | Field::Group { .. } => false,
    }
}

fn prompt(out: &mut Writer<'_>, forms: &Forms, topic: Topic, field: Field) {
    match field {
        Field::Number => out.sentence(match topic {
            Topic::FirstWarden | Topic::Task(Task::Enrol) => forms.free_number,
            Topic::SlowReset | Topic::Task(_) => forms.number,
        }),
        Field::Role => out.sentence(forms.role),
        Field::Opens => out.sentence(forms.opens),
        Field::Timetable => out.sentence(forms.timetable),
        Field::NewCode => out.sentence(forms.new_code),
        Field::Again => out.sentence(forms.again),
        Field::Date => out.sentence(forms.date),
        Field::Time => out.sentence(forms.time),
        Field::Which => out.sentence(forms.which),
        Field::Key { page } => {
            let from = usize::from(page).saturating_mul(3);
            for (name, key) in forms.keys.iter().skip(from).take(3).zip(1_u32..) {
                out.numbered(key, name);
            }
            out.sentence(forms.more);
        }
        Field::Value { key } => {
            let place = usize::from(key);
            let (least, most) = bounds(key);
            out.range(least, forms.to, most, pick(&forms.units, place));
            out.sentence(forms.value);
        }
        Field::Group { index } => out.number(forms.group, u16::from(index).saturating_add(1)),
    }
}

/// The bounds of a value in what it is typed in.
fn bounds(key: u8) -> (u32, u32) {
    let scale = policy_scale(key);
    // The divisor is one of two constants.
    let typed = |value: u32| value.checked_div(scale).unwrap_or(value);
    let (least, most) = policy::bounds(key).unwrap_or_default();
    (typed(least), typed(most))
}

fn wrong(out: &mut Writer<'_>, forms: &Forms, trouble: Trouble) {
    let (sentence, reason) = forms.troubles.of(trouble);
    match trouble {
        Trouble::CodeLength(digits) => out.number(sentence, u16::from(digits)),
        Trouble::Taken
        | Trouble::Free
        | Trouble::NotYours
        | Trouble::NeverOpens
        | Trouble::Yourself
        | Trouble::Already
        | Trouble::Guessable(_)
        | Trouble::VariantGuessable
        | Trouble::Unchanged
        | Trouble::Differ
        | Trouble::OutOfBounds
        | Trouble::AgainstAnother
        | Trouble::NoDate
        | Trouble::NoTime
        | Trouble::NotInItsLife
        | Trouble::NoStart
        | Trouble::ClockUnsure
        | Trouble::OpenFirst
        | Trouble::NoWindow
        | Trouble::Stuck
        | Trouble::NotStuck
        | Trouble::Group
        | Trouble::OldKey
        | Trouble::OtherLock
        | Trouble::DrawBolt
        | Trouble::SwitchOn
        | Trouble::NotPaired
        | Trouble::Courier
        | Trouble::NoChoice => out.sentence(sentence),
    }
    if let Some(reason) = reason {
        out.sentence(reason);
    }
}

fn gist(out: &mut Writer<'_>, forms: &Forms, topic: Topic, gist: Gist) {
    match gist {
        Gist::Plain => out.sentence(match topic {
            Topic::SlowReset => forms.reset_slowly,
            Topic::Task(Task::TestAlarm) => forms.test,
            Topic::Task(Task::Pair) => forms.pair,
            Topic::Task(Task::WayOut) => forms.way_out,
            Topic::Task(Task::Reset) => forms.reset,
            Topic::Task(_) | Topic::FirstWarden => forms.own_code,
        }),
        Gist::Holder(number) => out.holder(forms.holder, number),
        Gist::Hold(stamp) => out.until(forms.hold, stamp),
        Gist::Alone => out.sentence(forms.way_out_alone),
        Gist::Stuck => out.sentence(forms.stuck),
        Gist::Erase => out.sentence(forms.erase),
        Gist::Row { number, role, opens, follows } => {
            named(out, number, pick(&forms.roles, role_index(role)));
            let may = match role {
                Role::Keyholder | Role::Courier => true,
                Role::Steward => false,
                Role::Warden | Role::Deputy => opens == Opens::Yes,
            };
            if may {
                followed(out, forms, follows);
            } else {
                out.sentence(forms.never_opens);
            }
        }
        Gist::Follows(number, follows) => {
            out.holder(forms.holder, number);
            followed(out, forms, follows);
        }
        Gist::Clock(stamp) => {
            out.until("@", stamp);
            out.wide_number("#", u32::from(stamp.date.ymd().0));
        }
        Gist::Value { key, value } => {
            out.sentence(pick(&forms.keys, usize::from(key)));
            out.wide_number(forms.new_value, value);
        }
        Gist::File { version, fingerprint } => {
            out.wide_number(forms.version, version);
            out.fingerprint(forms.fingerprint, fingerprint);
        }
    }
}

fn followed(out: &mut Writer<'_>, forms: &Forms, follows: Follows) {
    match follows {
        Follows::Always => out.sentence(forms.always),
        Follows::Timetable(id) => out.with_letter(forms.follows, id.letter()),
    }
}

fn taken(out: &mut Writer<'_>, forms: &Forms, row: Row) {
    let role = pick(&forms.roles, role_index(row.role));
    named(out, row.number, if row.suspended { forms.suspended } else { role });
}

/// A holder's number, and what stands behind it.
fn named(out: &mut Writer<'_>, number: Number, behind: &str) {
    out.two_digits_and(number, behind);
}

fn done(out: &mut Writer<'_>, forms: &Forms, change: Change, from: Option<Stamp>) {
    let say = &forms.changes;
    out.title(forms.done);
    match change {
        Change::Commissioned(number) => out.holder(say.commissioned, number),
        Change::Enrolled(number, _) => out.holder(say.enrolled, number),
        Change::CodeChanged(_) => out.sentence(say.code),
        Change::RoleChanged(number, _) => out.holder(say.role, number),
        Change::TimetableChosen(number, _) => out.holder(say.timetable, number),
        Change::Suspended(number) => out.holder(say.suspended, number),
        Change::Restored(number) => out.holder(say.restored, number),
        Change::Removed(number) => out.holder(say.removed, number),
        Change::ClockCorrected(_) | Change::ClockSet(_) => out.sentence(say.clock),
        Change::PolicySet(..) => out.sentence(say.policy),
        Change::Paired(_) => out.sentence(say.paired),
        Change::FileLoaded(version) => out.wide_number(say.loaded, version),
        Change::FileWaits(version) => out.wide_number(say.waits, version),
        Change::Collected(_) => out.sentence(say.collected),
        Change::AlarmTested => out.sentence(say.tested),
        Change::ResetBegun => out.sentence(say.reset_begun),
        Change::ResetCancelled => out.sentence(say.reset_cancelled),
        Change::Reset => out.sentence(say.reset),
        Change::WayOutBegun => out.sentence(say.way_out_begun),
        Change::WayOutEnded => out.sentence(say.way_out_ended),
        Change::WayOut => out.sentence(say.way_out),
    }
    if let Some(from) = from {
        out.until(forms.from, from);
    }
}
