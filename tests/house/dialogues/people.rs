//! Who may do what to whom, and with whom.

use lock_core::audit::{Change, Event, People};
use lock_core::holder::{Opens, Standing};
use lock_core::role::Role;
use lock_core::screen::{Form, Gist, Topic, Trouble, Whom};
use lock_core::task::Task;

use super::*;

/// Tasks that name a holder who is enrolled.
const TO_SOMEBODY: [Task; 5] =
    [Task::Suspend, Task::Restore, Task::Remove, Task::ChangeRole, Task::ChooseTimetable];

/// The next start of a window of timetable A, in milliseconds.
const TUESDAY_AT_SEVEN: u64 = START as u64 * 1_000 + (22 * 60 + 15) * 60_000;

fn trouble(form: Option<Form>) -> Option<Trouble> {
    match form {
        Some(Form::Ask { trouble, .. } | Form::Confirm { trouble, .. }) => trouble,
        Some(Form::Second { .. } | Form::Numbers { .. } | Form::Files | Form::Done { .. })
        | None => None,
    }
}

fn named((who, ..): Person) -> String {
    format!("{who:02}k")
}

/// "A deputy does what they may to keyholders only."
#[test]
fn a_deputy_touches_keyholders_only() {
    for task in [Task::Suspend, Task::Remove] {
        for target in PEOPLE {
            let mut lock = Lock::new();
            let before = lock.stands(target);
            lock.ask(task, INES).recorded();
            lock.press(&named(target));
            let what = format!("{} × {}", task.name(), target.0);
            if target.1 == Role::Keyholder {
                assert!(matches!(lock.form(), Some(Form::Confirm { .. })), "{what}");
                lock.press("k");
                assert_eq!(lock.kinds().len(), 1, "{what}");
                assert_ne!(lock.stands(target), before, "{what}");
                continue;
            }
            assert_eq!(trouble(lock.form()), Some(Trouble::NotYours), "{what}");
            lock.press("kkk1k50805231kk");
            assert_eq!((lock.kinds().len(), lock.stands(target)), (0, before), "{what}");
        }
    }
}

/// "Nobody does that to themselves": no lock is left without its last warden by
/// that warden's own hand.
#[test]
fn nobody_suspends_removes_or_re_roles_themselves() {
    for task in [Task::Suspend, Task::Remove, Task::ChangeRole] {
        let mut lock = Lock::new();
        let before = lock.stands(MAEVE);
        lock.ask(task, MAEVE).recorded();
        lock.press(&named(MAEVE));
        assert_eq!(trouble(lock.form()), Some(Trouble::Yourself), "{}", task.name());
        lock.press("kk");
        assert_eq!((lock.kinds().len(), lock.stands(MAEVE)), (0, before), "{}", task.name());
    }
}

/// "Two people are two": what undoes a warden takes another privileged person, of either
/// role, neither who asks nor whom it is about.
#[test]
fn what_undoes_a_warden_takes_another_privileged_person() {
    for (task, more) in [(Task::Suspend, ""), (Task::Remove, ""), (Task::ChangeRole, "3 1")] {
        for second in PEOPLE {
            let mut lock = Lock::new();
            let before = lock.stands(DECLAN);
            lock.ask(task, MAEVE).recorded();
            lock.press(&named(DECLAN)).press(more);
            let asks = Form::Second {
                topic: Topic::Task(task),
                whom: Whom::Privileged,
                typed: lock_core::screen::Typed::Nothing,
            };
            assert_eq!(lock.form(), Some(asks), "{}", task.name());
            // *OK* alone goes nowhere.
            lock.press("kk");
            assert_eq!((lock.form(), lock.kinds().len()), (Some(asks), 0));
            lock.press(&entry(second));
            let what = format!("{} × {} besides", task.name(), second.0);
            if second.1 != Role::Steward {
                // The other warden is whom it is about.
                let kind = lock.kinds();
                let why = if second == MAEVE { "refused-same-person" } else { "refused-right" };
                assert_eq!(kind, [why], "{what}");
                lock.press("kk");
                assert_eq!((lock.form(), lock.stands(DECLAN)), (None, before), "{what}");
                continue;
            }
            assert!(matches!(lock.form(), Some(Form::Confirm { .. })), "{what}");
            assert_eq!(lock.kinds(), ["asked"], "{what}");
            lock.press("k");
            let by = Some(People { first: number(MAEVE.0), second: Some(number(second.0)) });
            let recorded = lock.recorded();
            assert!(
                matches!(recorded[..], [Event::Changed { by: told, .. }] if told == by),
                "{what}: {recorded:?}"
            );
            assert_ne!(lock.stands(DECLAN), before, "{what}");
        }
    }
}

/// A second person who is suspended, or types a wrong code, ends it.
#[test]
fn a_second_person_must_be_right_and_able() {
    let mut lock = Lock::with(|settings| {
        let row = settings.holders[usize::from(GRAINNE.0)].as_mut().unwrap();
        row.standing = Standing::Suspended;
    });
    let remove = |lock: &mut Lock| {
        lock.ask(Task::Remove, MAEVE).press(&named(DECLAN)).recorded();
    };
    remove(&mut lock);
    assert_eq!(lock.press(&entry(GRAINNE)).kinds(), ["refused-suspended"]);
    assert!(lock.form().is_none());
    remove(&mut lock);
    assert_eq!(lock.press("51 000000 k").kinds(), ["wrong-code"]);
    assert!(lock.form().is_none());
    assert!(lock.stands(DECLAN).is_some());
}

/// A warden does anything to anybody else, as far as the role has it.
#[test]
fn a_warden_does_to_others_what_the_contract_lists() {
    for task in TO_SOMEBODY {
        for target in PEOPLE {
            if target == MAEVE {
                continue;
            }
            let mut lock = Lock::with(|settings| {
                if task == Task::Restore {
                    let row = settings.holders[usize::from(target.0)].as_mut().unwrap();
                    row.standing = Standing::Suspended;
                }
            });
            lock.ask(task, MAEVE).press(&named(target));
            let refused = match (task, target.1) {
                (Task::ChangeRole, Role::Courier) => Some(Trouble::Courier),
                (Task::ChooseTimetable, Role::Steward) => Some(Trouble::NeverOpens),
                _ => None,
            };
            assert_eq!(trouble(lock.form()), refused, "{} × {}", task.name(), target.0);
        }
    }
}

/// "A suspended holder is restored by a warden", and what is so already is not
/// done again.
#[test]
fn suspending_and_restoring_ask_for_the_other_state() {
    let mut lock = Lock::new();
    lock.ask(Task::Restore, MAEVE).press(&named(TOMASZ));
    assert_eq!(trouble(lock.form()), Some(Trouble::Already));
    lock.press("b").ask(Task::Suspend, INES).press(&named(TOMASZ)).press("k").recorded();
    assert_eq!(lock.row(TOMASZ).unwrap().standing, Standing::Suspended);
    assert_eq!(lock.press(&entry(TOMASZ)).kinds(), ["refused-suspended"]);
    lock.ask(Task::Suspend, INES).press(&named(TOMASZ));
    assert_eq!(trouble(lock.form()), Some(Trouble::Already));
    lock.press("b").ask(Task::Restore, MAEVE).press(&named(TOMASZ)).press("k").recorded();
    // "Restoring somebody who may open is such a change": it waits for Tuesday at seven.
    assert_eq!(lock.press(&entry(TOMASZ)).kinds(), ["refused-closed"]);
    lock.world.run_until(TUESDAY_AT_SEVEN - 1_000);
    assert_eq!(lock.press(&entry(TOMASZ)).kinds(), ["refused-closed"]);
    lock.world.run_until(TUESDAY_AT_SEVEN);
    assert_eq!(lock.press(&entry(TOMASZ)).kinds(), ["released"]);
}

/// A steward never opens: not one who is enrolled, not one who became one, and
/// no timetable is chosen for one.
#[test]
fn whoever_becomes_a_steward_opens_no_more() {
    let mut lock = Lock::new();
    assert_eq!(lock.press(&entry(TOMASZ)).kinds(), ["released"]);
    lock.world.run_until(lock.world.now() + 6_000);
    lock.ask(Task::ChangeRole, MAEVE).press(&named(TOMASZ)).press("5").press(&entry(SEAN));
    lock.press("k");
    let change = Change::RoleChanged(number(TOMASZ.0), Role::Steward);
    let by = Some(People { first: number(MAEVE.0), second: Some(number(SEAN.0)) });
    assert_eq!(lock.recorded().last(), Some(&Event::Changed { by, change }));
    assert_eq!(lock.press(&entry(TOMASZ)).kinds(), ["refused-right"]);
    // The warden enrols one: nobody is asked whether they open.
    lock.ask(Task::Enrol, MAEVE).press("61k 5 528406k 528406k").press(&entry(GRAINNE));
    lock.press("k");
    assert_eq!(lock.kinds().last(), Some(&"enrolled"));
    assert_eq!(lock.press("61 528406 k").kinds(), ["refused-right"]);
    let enrolled = lock.stands((61, Role::Steward, ""));
    assert_eq!(enrolled.map(|(role, opens, ..)| (role, opens)), Some((Role::Steward, Opens::No)));
}

/// R3: what widens opening while the bolt is thrown waits for the next window,
/// and for nothing while it is drawn.
#[test]
fn a_new_keyholder_opens_from_the_next_window_on_or_at_once_at_an_open_lock() {
    let mut lock = Lock::new();
    lock.ask(Task::Enrol, MAEVE).press("61k 3 1 528406k 528406k k").recorded();
    assert_eq!(lock.press("61 528406 k").kinds(), ["refused-closed"]);
    lock.world.run_until(TUESDAY_AT_SEVEN - 1_000);
    assert_eq!(lock.press("61 528406 k").kinds(), ["refused-closed"]);
    lock.world.run_until(TUESDAY_AT_SEVEN);
    assert_eq!(lock.press("61 528406 k").kinds(), ["released"]);

    let mut lock = Lock::new();
    lock.press(&entry(TOMASZ));
    assert!(lock.world.move_bolt(lock_core::port::Bolt::Drawn).is_ok());
    lock.ask(Task::Enrol, MAEVE).press("61k 3 1 528406k 528406k k");
    assert!(lock.world.move_bolt(lock_core::port::Bolt::Thrown).is_ok());
    lock.press("").recorded();
    assert_eq!(lock.press("61 528406 k").kinds(), ["released"]);
}

/// R11: with the bolt thrown nothing leaves the lock stuck, so there is no way out to ask
/// for; whoever may ask is told so, and nothing is recorded of it.
#[test]
fn a_lock_that_somebody_could_open_has_no_way_out() {
    for (first, second) in [(MAEVE, GRAINNE), (GRAINNE, MAEVE), (MAEVE, DECLAN)] {
        let mut lock = Lock::new();
        lock.ask(Task::WayOut, first).press(&entry(second));
        assert_eq!(lock.kinds(), ["asked", "asked"]);
        lock.press("k");
        assert_eq!(trouble(lock.form()), Some(Trouble::NotStuck));
        assert_eq!(lock.kinds().len(), 0);
    }
}

/// R11: bolt thrown, the last who could open is not taken away by removing their row;
/// drawn, it asks once more.
#[test]
fn the_last_opener_is_removed_with_the_bolt_drawn_only_and_asked_twice() {
    let stuck = |settings: &mut Settings| {
        for row in settings.holders.iter_mut().flatten() {
            let kept = row.role == Role::Keyholder || row.role == Role::Warden;
            row.standing = if kept { Standing::Active } else { Standing::Suspended };
            row.opens = Opens::No;
        }
        settings.holders[usize::from(AOIFE.0)] = None;
        // Without a window nobody new could be enrolled either.
        settings.calendar.weeks[0] = Default::default();
        let row = settings.holders[usize::from(TOMASZ.0)].as_mut().unwrap();
        row.follows = Follows::Always;
    };
    let mut lock = Lock::with(stuck);
    lock.ask(Task::Remove, MAEVE).press(&named(TOMASZ)).press("k");
    assert_eq!(trouble(lock.form()), Some(Trouble::Stuck));
    assert!(lock.stands(TOMASZ).is_some());
    let mut lock = Lock::with(stuck);
    lock.press(&entry(TOMASZ));
    assert!(lock.world.move_bolt(lock_core::port::Bolt::Drawn).is_ok());
    lock.ask(Task::Remove, MAEVE).press(&named(TOMASZ)).press("k");
    let asks = matches!(lock.form(), Some(Form::Confirm { gist: Gist::Stuck, .. }));
    assert!(asks && lock.stands(TOMASZ).is_some(), "it asks once more");
    lock.press("k");
    assert!(lock.stands(TOMASZ).is_none());
}
