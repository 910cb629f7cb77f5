//! Behaviour, sections 3, 5 and 6: the order of the refusals, whoever asks. Dates by
//! hand: 1 March 2027 is a Monday.

use std::vec::Vec;

use proptest::prelude::*;
use proptest::strategy::ValueTree as _;

use super::*;
use crate::audit::Seq;
use crate::code::{Digest, Salt};
use crate::holder::{Opens, Pending};
use crate::pairing::Pairing;
use crate::port::Inhibit;
use crate::role::Role;
use crate::rules::limit::WayIn;
use crate::rules::supply::Level;
use crate::time::{Date, Shift, Steady, Uptime, Utc};
use crate::timetable::{Calendar, Day, TimetableId, Window};

/// Two people and a calendar in memory.
struct Lock {
    people: [(Number, HolderRow); 2],
    calendar: Calendar,
}

impl Days for Lock {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        Ok(self.calendar.day(id, date))
    }
}

impl Reads for Lock {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        Ok(self.people.iter().find(|(number, _)| *number == n).map(|(_, row)| row.clone()))
    }
    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        Ok(2)
    }
    fn day_to_come(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        Ok(self.calendar.day(id, date))
    }
    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        Ok(None)
    }
    fn newest_seq(&mut self) -> Option<Seq> {
        None
    }
}

/// Takes every clause.
struct Whole(Vec<Clause>);

impl Sink for Whole {
    const WHOLE: bool = true;

    fn take(&mut self, clause: Clause) {
        self.0.push(clause);
    }
}

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

/// That hour of 1 March 2027, in UTC.
fn at(hour: u32) -> Utc {
    let days = u32::from(Date::from_ymd(2027, 3, 1).unwrap().days());
    Utc::from_secs(days * 86_400 + hour * 3_600)
}

fn steady(hour: u32) -> Steady {
    Steady::from_secs(at(hour).as_secs())
}

/// Timetable A, every day from 08:00 to 12:00.
fn calendar() -> Calendar {
    let mut calendar = Calendar::default();
    let hour = |hour| crate::time::Minute::from_hm(hour, 0).unwrap();
    for windows in &mut calendar.weeks[0] {
        *windows = Window::new(hour(8), hour(12)).into_iter().collect();
    }
    calendar
}

/// Somebody, without what their code is judged by, so that a failure can show them.
#[derive(Clone, Debug)]
struct Person {
    role: Role,
    opens: Opens,
    standing: Standing,
    follows: Follows,
    pending: Option<Pending>,
}

impl Person {
    fn row(&self) -> HolderRow {
        let Self { role, opens, standing, follows, pending } = *self;
        HolderRow {
            role,
            opens,
            standing,
            follows,
            salt: Salt::from_bytes([0; Salt::LEN]),
            digest: Digest::from_bytes([0; Digest::LEN]),
            pending,
            counter: 0,
        }
    }
}

fn person() -> impl Strategy<Value = Person> {
    let role =
        prop_oneof![3 => Just(Role::Keyholder), 3 => Just(Role::Warden), 1 => Just(Role::Steward)];
    let follows = prop_oneof![
        3 => Just(Follows::Always),
        3 => Just(Follows::Timetable(TimetableId::A)),
        1 => Just(Follows::Timetable(TimetableId::B))
    ];
    let standing = prop_oneof![9 => Just(Standing::Active), 1 => Just(Standing::Suspended)];
    let opens = prop_oneof![6 => Just(Opens::Yes), 1 => Just(Opens::No)];
    let pending = proptest::option::weighted(0.3, (0..24_u32, 0..24_u32));
    (role, opens, standing, follows, pending).prop_map(
        |(role, opens, standing, follows, pending)| {
            let pending = pending.map(|(made, from)| Pending {
                made: steady(made),
                from: steady(from),
                held: None,
            });
            Person { role, opens, standing, follows, pending }
        },
    )
}

fn stood() -> impl Strategy<Value = Stood> {
    prop_oneof![
        12 => Just(Stood::Below),
        1 => Just(Stood::AtLimit(WayIn::Yes)),
        1 => Just(Stood::AtLimit(WayIn::No)),
    ]
}

fn conditions() -> impl Strategy<Value = Conditions> {
    let rarely = || proptest::option::weighted(0.07, (0..24_u32).prop_map(at));
    let utc = proptest::option::weighted(0.85, (7..13_u32).prop_map(at));
    let supply =
        prop_oneof![12 => Just(Level::Good), 1 => Just(Level::Low), 1 => Just(Level::Spent)];
    (any::<prop::sample::Index>(), rarely(), supply, utc, rarely()).prop_map(
        |(inhibit, held_until, supply, utc, settles)| Conditions {
            inhibit: if inhibit.index(14) == 0 { Inhibit::Set } else { Inhibit::Clear },
            held_until,
            supply,
            utc,
            settles,
        },
    )
}

fn stage() -> impl Strategy<Value = Stage> {
    let people = prop_oneof![
        Just(People { first: number(1), second: None }),
        Just(People { first: number(2), second: None }),
        Just(People { first: number(2), second: Some(number(1)) }),
    ];
    let until = Uptime::from_millis(60_000);
    prop_oneof![
        6 => Just(Stage::Secured),
        1 => Just(Stage::Free),
        1 => people.clone().prop_map(move |people| Stage::Waiting(people, until)),
        4 => people.prop_map(move |people| Stage::Claimable(people, until)),
    ]
}

/// A decision about number 1, and the facts.
type Case = (Facts<'static>, [Person; 2], Stood);

fn cases() -> impl Strategy<Value = Case> {
    let first = proptest::option::of((1..4_u8, stood()));
    let delay = prop_oneof![Just(0), Just(600), Just(3 * 3_600)].prop_map(Seconds::new);
    let rare = (
        proptest::option::weighted(0.03, Just(Fault::Store)),
        proptest::option::weighted(0.03, Just(Uptime::from_millis(9))),
    );
    let brought = proptest::option::of((0..24_u32).prop_map(steady));
    let rows = [person(), person()];
    ((rare, conditions(), brought), (delay, any::<bool>(), stage(), first), rows, stood()).prop_map(
        |(((service, penalty), conditions, brought), (delay, dual, stage, first), rows, stood)| {
            let facts = Facts {
                service,
                penalty,
                conditions,
                shift: Shift::from_secs(0),
                steady: conditions.utc.map(|utc| Steady::from_secs(utc.as_secs())),
                brought,
                delay,
                control: if dual { Control::Dual } else { Control::Single },
                deputies: Deputies::Enrol,
                stage,
                first: first.map(|(n, stood)| First {
                    number: number(n),
                    until: Uptime::from_millis(60_000),
                    stood,
                }),
                zone: &Zone::UTC,
            };
            (facts, rows, stood)
        },
    )
}

/// Whether somebody may open, and until when: the contract's list, rule by rule. A is
/// open from 08:00 to 12:00, B never.
fn permitted(facts: &Facts<'_>, row: &Person, stood: Stood) -> Result<Ends, Refusal> {
    let Conditions { inhibit, held_until, supply, utc, settles } = facts.conditions;
    let passed = |pending: &Pending| {
        facts.steady >= Some(pending.from) || facts.brought > Some(pending.made)
    };
    let warden = row.role == Role::Warden;
    let timetable = row.follows != Follows::Always;
    let open = row.follows == Follows::Timetable(TimetableId::A)
        && utc.is_some_and(|utc| (at(8)..at(12)).contains(&utc));
    let barred = match stood {
        Stood::Below => false,
        Stood::AtLimit(WayIn::Yes) => !warden,
        Stood::AtLimit(WayIn::No) => true,
    };
    let rules = [
        (barred, Refusal::Barred),
        (row.standing == Standing::Suspended, Refusal::Suspended),
        (!row.row().may(Right::Open, facts.deputies), Refusal::Right),
        (facts.stage == Stage::Free, Refusal::AlreadyOpen),
        (row.pending.as_ref().is_some_and(|pending| !passed(pending)), Refusal::Closed),
        (inhibit == Inhibit::Set, Refusal::Inhibit),
        (held_until.is_some(), Refusal::HeldShut),
        (supply == Level::Spent, Refusal::Supply),
        (timetable && utc.is_none(), Refusal::Clock),
        (timetable && settles.is_some(), Refusal::Settling),
        (timetable && !open, Refusal::Closed),
    ];
    match rules.into_iter().find(|(applies, _)| *applies) {
        Some((_, why)) => Err(why),
        None => Ok(if timetable { Ends::At(at(12)) } else { Ends::Never }),
    }
}

/// The same for a right code of number 1; without until when a refusal lasts.
fn expected((facts, rows, stood): &Case) -> Result<Decision, Refusal> {
    if let Some(fault) = facts.service {
        return Ok(Decision::Service(fault));
    }
    if facts.penalty.is_some() {
        return Err(Refusal::Penalty);
    }
    let ends = permitted(facts, &rows[0], *stood)?;
    let claimed = match facts.stage {
        Stage::Waiting(..) => return Err(Refusal::Waiting),
        Stage::Claimable(people, _) if !people.include(number(1)) => {
            return Err(Refusal::OtherPerson);
        }
        Stage::Claimable(people, _) => Some(people.second.is_some()),
        Stage::Secured | Stage::Free => None,
    };
    let alone = People { first: number(1), second: None };
    let (people, ends) = match facts.first {
        _ if !claimed.unwrap_or(facts.control == Control::Dual) => (alone, ends),
        None => return Ok(Decision::First),
        Some(first) if first.number == number(1) => return Err(Refusal::SamePerson),
        Some(first) if first.number == number(2) => {
            let own = permitted(facts, &rows[1], first.stood);
            let own = own.map_err(|_| Refusal::FirstRefused)?;
            (People { first: number(2), second: Some(number(1)) }, ends.earlier(own))
        }
        // Removed meanwhile.
        Some(_) => return Err(Refusal::FirstRefused),
    };
    if claimed.is_some() || facts.delay == Seconds::ZERO {
        return Ok(Decision::Release(people, ends));
    }
    let ready = facts.conditions.utc.map(|utc| utc.after(facts.delay));
    if ends == Ends::Never || ready < Some(at(12)) {
        Ok(Decision::Wait(people, ends))
    } else {
        Err(Refusal::Late)
    }
}

fn decided<S: Sink>((facts, rows, stood): &Case, sink: &mut S) -> Decision {
    let [one, two] = rows.each_ref().map(Person::row);
    let people = [(number(1), one.clone()), (number(2), two)];
    let mut lock = Lock { people, calendar: calendar() };
    let who = Who { number: number(1), row: &one, stood: *stood };
    decide(facts, who, &mut lock, sink).unwrap()
}

/// The first rule of the contract's order that applies refuses; and whoever asks for
/// every clause is told the very same decision, with its refusal in one of them.
#[test]
fn the_contracts_order_decides_whoever_asks() {
    let mut seen = std::collections::BTreeMap::new();
    let mut of_two = 0;
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    for _ in 0..40_000 {
        let case = cases().new_tree(&mut runner).unwrap().current();
        let mut whole = Whole(Vec::new());
        let (decision, told) = (decided(&case, &mut ()), decided(&case, &mut whole));
        assert_eq!(decision, told, "{:?}", case.0);
        let refused = whole.0.iter().find_map(|clause| clause.refused());
        match (decision, expected(&case)) {
            (Decision::Refuse(seen), Err(why)) => {
                assert_eq!(seen.why, why, "{:?}", case.0);
                assert_eq!(refused.map(|it| it.why), Some(why), "{:?}", whole.0);
                assert!(seen.until.is_none() || case.0.conditions.utc.is_some());
            }
            (decision, expected) => {
                assert_eq!(Ok(decision), expected, "{:?}", case.0);
                // Of the first of two the delay refuses nothing yet.
                let late = refused.is_some_and(|refused| refused.why == Refusal::Late);
                let told = match decision {
                    Decision::Service(_) => true,
                    Decision::First => refused.is_none() || late,
                    Decision::Refuse(_) | Decision::Wait(..) | Decision::Release(..) => {
                        refused.is_none()
                    }
                };
                assert!(told, "{:?}", whole.0);
            }
        }
        if let Decision::Release(people, Ends::At(_)) | Decision::Wait(people, Ends::At(_)) =
            decision
        {
            let [one, two] = case.1.each_ref().map(|person| person.follows == Follows::Always);
            of_two += u32::from(people.second.is_some() && one && !two);
        }
        *seen.entry(decision.record().unwrap_or("service")).or_insert(0_u32) += 1;
    }
    // The sixteen refusals that an opening can meet, and what is none.
    assert_eq!(seen.len(), 20, "{seen:?}");
    assert!(of_two >= 30, "the permit of the first ended earlier: {of_two} times");
    assert!(seen.values().all(|times| *times >= 100), "{seen:?}");
}
