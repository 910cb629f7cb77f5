//! Every task × every role: who may begin what. The table stands here a second
//! time, by hand, since a table that is read from the code agrees with it.

use lock_core::audit::{Event, Outcome, Refusal};
use lock_core::holder::{Opens, Standing};
use lock_core::role::{Grant, Right, Role, grant};
use lock_core::screen::{Form, Screen};
use lock_core::task::Task;

use super::*;

/// A row a task: warden, deputy, keyholder, courier, steward.
const TABLE: &str = "
hold-shut         y y y - -
status            y y y y y
change-code       y y y - y
enrol             y y - - -
suspend           y y - - -
restore           y y - - -
remove            y y - - -
change-role       y - - - -
choose-timetable  y y - - -
numbers           y y - - -
files             - - - - y
set-clock         - - - - y
set-policy        y - - - -
test-alarm        y - - - -
pair              y - - - y
reset             y - - - -
way-out           y - - - y
";

/// One of each role, in the order of the table.
const ROLES: [Person; 5] = [MAEVE, INES, TOMASZ, COURIER, GRAINNE];

/// Each cell of the table: task, person, whether they may.
fn cells() -> Vec<(Task, Person, bool)> {
    let rows: Vec<Vec<&str>> =
        TABLE.trim().lines().map(|l| l.split_whitespace().collect()).collect();
    assert_eq!(rows.len(), Task::ALL.len(), "a task has no row");
    let mut cells = Vec::new();
    for (task, row) in Task::ALL.into_iter().zip(rows) {
        assert_eq!((row[0], row.len()), (task.name(), 6));
        for (person, cell) in ROLES.into_iter().zip(&row[1..]) {
            cells.push((task, person, *cell == "y"));
        }
    }
    cells
}

#[test]
fn every_task_is_begun_by_its_roles_and_no_others() {
    for (task, person, may) in cells() {
        let mut lock = Lock::new();
        lock.ask(task, person);
        let (who, outcome) = (number(person.0), Outcome::Plain);
        let recorded = lock.recorded();
        let what = format!("{} × {}", task.name(), person.1.name());
        if !may {
            assert_eq!(recorded, [Event::Refused { who, why: Refusal::Right, outcome }], "{what}");
            let shown = matches!(
                lock.world.screen(),
                Some(Screen::Refused { why: Refusal::Right, until: None })
            );
            assert!(shown && lock.form().is_none(), "{what}");
        } else if AT_ONCE.contains(&task) {
            assert!(matches!(recorded[..], [Event::Status { .. }]), "{what}");
        } else {
            assert_eq!(recorded, [Event::Asked { who, task, outcome }], "{what}");
            assert!(lock.form().is_some(), "{what}");
        }
    }
}

/// The table of rights says the same, and no dialogue needs another right.
#[test]
fn the_table_of_rights_says_the_same() {
    for (task, (_, role, _), may) in cells() {
        let granted = grant(role, task.right());
        let granted_now = match granted {
            Grant::Never | Grant::IfRowSays => false,
            Grant::IfDeputies(least) => Policy::DEFAULT.deputies >= least,
            Grant::Always => true,
        };
        assert_eq!(granted_now, may, "{} × {}", task.name(), role.name());
        assert!(granted != Grant::IfRowSays, "rows speak of opening only");
    }
}

/// Opening is no task; whom the table never grants it, no row does.
#[test]
fn opening_goes_by_role_and_row_and_a_steward_never_opens() {
    for (person, opens, may) in [
        (MAEVE, Opens::Yes, true),
        (MAEVE, Opens::No, false),
        (INES, Opens::Yes, true),
        (INES, Opens::No, false),
        (TOMASZ, Opens::Yes, true),
        (TOMASZ, Opens::No, true),
        (GRAINNE, Opens::Yes, false),
        (GRAINNE, Opens::No, false),
    ] {
        for follows in [Follows::Always, Follows::Timetable(TimetableId::A)] {
            let mut lock = Lock::with(|settings| {
                let row = settings.holders[usize::from(person.0)].as_mut().unwrap();
                (row.opens, row.follows) = (opens, follows);
            });
            lock.press(&entry(person));
            let kinds: &[&str] = if may { &["released"] } else { &["refused-right"] };
            assert_eq!(lock.kinds(), kinds, "{} {opens:?} {follows:?}", person.1.name());
        }
    }
    assert_eq!(grant(Role::Steward, Right::Open), Grant::Never);
}

/// "The holder's row is suspended": no task is begun, of whatever right.
#[test]
fn whoever_is_suspended_begins_nothing() {
    for (task, person, _) in cells() {
        let mut lock = Lock::with(|settings| {
            let row = settings.holders[usize::from(person.0)].as_mut().unwrap();
            row.standing = Standing::Suspended;
        });
        assert_eq!(lock.ask(task, person).kinds(), ["refused-suspended"], "{}", task.name());
        assert!(lock.form().is_none());
    }
}

/// R2: a try for a task is counted as any other, and four are punished.
#[test]
fn a_wrong_code_for_a_task_is_a_wrong_code() {
    for task in Task::ALL {
        let mut lock = Lock::new();
        for _ in 0..4 {
            lock.ask(task, (MAEVE.0, MAEVE.1, "000000"));
        }
        let wrong = ["wrong-code", "wrong-code", "wrong-code", "wrong-code", "penalty"];
        assert_eq!(lock.kinds(), wrong, "{}", task.name());
        lock.ask(task, MAEVE);
        assert!(lock.form().is_none() && lock.world.in_penalty(), "{}", task.name());
    }
}

/// A page has three tasks, *OK* turns it, and behind the last comes the first.
#[test]
fn the_list_turns_and_its_empty_places_do_nothing() {
    let mut lock = Lock::new();
    lock.press("k");
    for turn in 0..13_u8 {
        assert_eq!(lock.world.screen(), Some(Screen::List { page: turn % 6 }));
        lock.press("0456789");
        if turn % 6 == 5 {
            lock.press("3");
        }
        assert_eq!(lock.world.screen(), Some(Screen::List { page: turn % 6 }));
        lock.press("k");
    }
    lock.press("b");
    assert!(matches!(lock.world.screen(), Some(Screen::Secured { .. })));
}

/// A right code's way through a dialogue ends at *back*, or after a minute; a
/// session for files after ten.
#[test]
fn a_dialogue_that_is_left_alone_is_left_and_changes_nothing() {
    for (task, person, may) in cells() {
        if !may || AT_ONCE.contains(&task) {
            continue;
        }
        let pause = if task == Task::Files { 600_000 } else { 60_000 };
        let mut lock = Lock::new();
        lock.ask(task, person);
        let begun = lock.form();
        lock.recorded();
        lock.world.run_until(lock.world.now() + pause - 1);
        assert_eq!((lock.form(), begun.is_some()), (begun, true), "{}", task.name());
        lock.world.run_until(lock.world.now() + 1);
        assert_eq!((lock.form(), lock.kinds().len()), (None, 0), "{}", task.name());
        let mut lock = Lock::new();
        lock.ask(task, person).recorded();
        assert_eq!((lock.press("b").form(), lock.kinds().len()), (None, 0), "{}", task.name());
        assert!(!matches!(lock.form(), Some(Form::Done { .. })));
    }
}
