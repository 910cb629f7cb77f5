//! The two diagrams in the docs of `lock_core::machine`, held against the code both
//! ways: each line happens, and each change that happens is a line.
//!
//! The changes are found by exploring every state that the start state leads
//! to, not by reading the code.

use std::collections::{BTreeMap, BTreeSet};

use lock_core::audit::{CancelReason, People};
use lock_core::dialog::Dialogue;
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::machine::bolt::{Access, Began, Event, Moment};
use lock_core::machine::keypad::{Did, Session};
use lock_core::policy::Policy;
use lock_core::rules::ends::Ends;
use lock_core::screen::Topic;
use lock_core::task::{PAGES, Task};
use lock_core::time::{Seconds, Uptime, Utc};

use crate::source;

/// `from`, event, `to`.
type Change = (String, String, String);

/// The lines of the diagram under a heading, each with its remark in brackets.
/// A change that has two lines (for two reasons) is there twice.
fn listed(heading: &str) -> Vec<(Change, String)> {
    let docs = source::text("lock-core/src/machine/mod.rs");
    let docs: Vec<_> = docs.lines().filter_map(|line| line.strip_prefix("//!")).collect();
    let under = docs.iter().skip_while(|line| line.trim() != heading);
    let block = under.skip_while(|line| line.trim() != "```text").skip(1);
    let lines: Vec<_> = block.take_while(|line| line.trim() != "```").map(|l| line(l)).collect();
    assert!(lines.len() > 10, "the diagram under {heading} was not found");
    lines
}

fn line(text: &str) -> (Change, String) {
    let (change, remark) = match text.split_once('(') {
        Some((change, remark)) => (change, remark.trim().trim_end_matches(')')),
        None => (text, ""),
    };
    let words: Vec<_> = change.split_whitespace().collect();
    let &[from, arrow, to] = &words[..] else { panic!("not `from --event--> to`: {text}") };
    let event = arrow.strip_prefix("--").and_then(|rest| rest.strip_suffix("-->"));
    let event = event.unwrap_or_else(|| panic!("not an arrow: {arrow}"));
    ((from.to_owned(), event.to_owned(), to.to_owned()), remark.to_owned())
}

fn hold_against(heading: &str, seen: &BTreeSet<Change>) {
    let listed: BTreeSet<_> = listed(heading).into_iter().map(|(change, _)| change).collect();
    let never: Vec<_> = listed.difference(seen).collect();
    assert!(never.is_empty(), "{heading} lists what never happens: {never:?}");
    let unlisted: Vec<_> = seen.difference(&listed).collect();
    assert!(unlisted.is_empty(), "{heading} does not list: {unlisted:?}");
}

// Short lengths, so that a walk in seconds passes every deadline; the delay,
// the claim and the release differ, so that none hides another.
const POLICY: Policy = Policy {
    delay: Seconds::new(4),
    claim: Seconds::new(3),
    release: Seconds::new(2),
    ..Policy::DEFAULT
};

const START: u32 = 1_804_000_000;

/// No courier's code began it.
const BEGAN: Began = [None, None];

/// Nothing in [`POLICY`] lasts so long, nor does a permit of the walk.
const HORIZON: u32 = 12;

fn word(event: Event) -> &'static str {
    match event {
        Event::Time => "time",
        Event::Ajar => "ajar",
        Event::Shut => "shut",
        Event::Cancel(_) => "cancel",
        Event::BeginWait(..) => "begin-wait",
        Event::Release(..) => "release",
    }
}

fn events() -> Vec<Event> {
    let people = People { first: Number::new(12).unwrap(), second: None };
    let permits = (0..HORIZON).map(|s| Ends::At(Utc::from_secs(START + s)));
    let permits: Vec<_> = permits.chain([Ends::Never, Ends::Beyond]).collect();
    let reasons = [
        CancelReason::WindowEnd,
        CancelReason::Inhibit,
        CancelReason::HeldShut,
        CancelReason::Forced,
        CancelReason::Barred,
        CancelReason::Clock,
        CancelReason::Changed,
    ];
    let mut events = vec![Event::Time, Event::Ajar, Event::Shut];
    events.extend(reasons.map(Event::Cancel));
    events.extend(permits.iter().map(|ends| Event::BeginWait(people, *ends, BEGAN)));
    events.extend(permits.iter().map(|ends| Event::Release(people, *ends)));
    events
}

/// Every state of the bolt that any sequence of events leads to within the
/// horizon, with and without a clock: each with the events tried on it.
fn explore_access(mut tried: impl FnMut(Access, Event, Access, u32)) {
    let mut frontier = vec![(Access::Secured, 0)];
    let mut known: BTreeSet<String> = BTreeSet::new();
    while let Some((state, second)) = frontier.pop() {
        if second > HORIZON || !known.insert(format!("{state:?} {second}")) {
            continue;
        }
        frontier.push((state, second + 1));
        let uptime = Uptime::from_millis(u64::from(second) * 1_000);
        let utc = Utc::from_secs(START + second);
        for event in events() {
            for utc in [Some(utc), None] {
                let (next, _) = state.on(event, Moment { uptime, utc, steady: None }, &POLICY);
                tried(state, event, next, second);
                frontier.push((next, second));
            }
        }
    }
    assert!(known.len() > 1_000, "the walk is short: {} states", known.len());
}

#[test]
fn the_diagram_of_the_bolt_is_what_the_code_does() {
    let mut seen = BTreeSet::new();
    explore_access(|from, event, to, _| {
        if from.name() != to.name() {
            seen.insert((from.name().into(), word(event).into(), to.name().into()));
        }
    });
    hold_against("# Access", &seen);
}

/// "Whatever is not listed leaves the state as it is": down to its data, but
/// for the remark that an open lock is late, and the end of the two seconds in
/// which a hand may have been faster than the blocker.
#[test]
fn an_event_without_a_line_leaves_the_bolt_as_it_is() {
    let listed: BTreeSet<_> =
        listed("# Access").into_iter().map(|((from, event, _), _)| (from, event)).collect();
    explore_access(|from, event, to, second| {
        if listed.contains(&(from.name().into(), word(event).into())) {
            return;
        }
        let kept = match (from, to) {
            (Access::Open(before), Access::Open(after)) => {
                (before.since, before.ends) == (after.since, after.ends)
            }
            (Access::Blocked(before), Access::Secured) => {
                event == Event::Time && u64::from(second) * 1_000 >= before.until.as_millis()
            }
            (before, after) => before == after,
        };
        assert!(kept, "{event:?} made {to:?} of {from:?}");
    });
}

/// Every state of the keypad that any keys lead to, by the keys that lead
/// there: for each what each key makes of it, and what time does.
fn explore_session(mut tried: impl FnMut(&Session, &str, Did, &Session)) {
    let mut frontier = vec![Vec::new()];
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    while let Some(keys) = frontier.pop() {
        let state = reached(&keys);
        // Digits matter by their number alone, but in the list.
        let name = match &state {
            Session::Rest
            | Session::Over(_)
            | Session::Judging(_)
            | Session::Form(_)
            | Session::Second(..) => state.name().to_owned(),
            Session::List { page, .. } => format!("list {page}"),
            Session::Entry(typing) => format!("entry {}", typing.entry.len()),
            Session::Who(task, typing) => format!("who {task:?} {}", typing.entry.len()),
        };
        if known.insert(name, keys.len()).is_some() {
            continue;
        }
        let mut late = reached(&keys);
        late.on_time(Uptime::from_millis(90_000_000));
        tried(&state, "time", Did::Nothing, &late);
        let digits = (0..10).filter_map(Digit::new).map(|digit| ("digit", Key::Digit(digit)));
        for (word, key) in digits.chain([("back", Key::Back), ("ok", Key::Ok)]) {
            let mut next = reached(&keys);
            let did = next.on_key(key, Uptime::ZERO);
            tried(&state, word, did, &next);
            frontier.push(keys.iter().copied().chain([key]).collect());
        }
    }
    // Rest, judging, over; the pages of the list; an entry of 1 to 10 digits; each task
    // with 0 to 10.
    let tasks = Task::ALL.len() * 11;
    assert_eq!(known.len(), 3 + PAGES + 10 + tasks, "{known:?}");
    // A dialogue is begun by the machine, and led by it.
    let form = || Session::Form(Dialogue::new(Topic::FirstWarden, None, Uptime::ZERO));
    let mut late = form();
    late.on_time(Uptime::from_millis(90_000_000));
    tried(&form(), "time", Did::Nothing, &late);
}

fn reached(keys: &[Key]) -> Session {
    let mut session = Session::Rest;
    for key in keys {
        session.on_key(*key, Uptime::ZERO);
    }
    session
}

#[test]
fn the_diagram_of_the_keypad_is_what_the_code_does() {
    let mut seen = BTreeSet::new();
    explore_session(|from, event, did, to| {
        if did != Did::Nothing || from.name() != to.name() {
            seen.insert((from.name().into(), event.into(), to.name().into()));
        }
    });
    hold_against("# Session", &seen);
}

/// What a line remarks in brackets is why the entry ended.
#[test]
fn the_remarks_of_the_keypad_are_what_the_code_says() {
    let mut seen = BTreeSet::new();
    explore_session(|from, event, did, to| {
        let remark = match did {
            Did::TooShort => "too short",
            Did::TooLong => "too long",
            Did::Nobody => "nobody's code",
            Did::Nothing | Did::Something | Did::Try => return,
        };
        let change = (from.name().to_owned(), event.to_owned(), to.name().to_owned());
        seen.insert((change, remark.to_owned()));
    });
    let remarked = listed("# Session").into_iter().filter(|(_, remark)| !remark.is_empty());
    assert_eq!(remarked.collect::<BTreeSet<_>>(), seen);
}
