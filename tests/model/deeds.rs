//! What people at a lock have in mind, turned into keys, contacts and time by
//! what the reference shows and knows at that moment: whole openings, dialogues
//! led to their ends, files and codes from a laptop. The events that come of it
//! are plain, so that another lock can be given the same.

use crate::dice::Dice;
use crate::leads;
use crate::reference::{Chip, Follows, Input, Key, Role, TIMETABLES, duress_variant};
use crate::walk::{Step, Walker, typed};

const DAY_S: u64 = 86_400;
/// How long people wait for a window at most.
const PATIENCE_S: u64 = 20 * DAY_S;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum What {
    /// The bolt thrown, nothing in the way, a penalty waited out.
    Tidy,
    /// People who may, with the delay and the claim, and perhaps the bolt.
    Open,
    /// The same by a courier, where there is one.
    CourierOpens,
    /// A wait, or a first of two, and something that gets in its way.
    Meddle,
    /// A task of the list, led to its end as a rule.
    Task(&'static str),
    /// A reset without a code.
    SlowReset,
    /// The first warden, where nobody is enrolled.
    Commission,
    /// A hundred wrong codes on somebody's number, then the right one.
    Bar,
    /// Whatever waits or runs out is waited for.
    WaitOut,
    /// A file that leaves nobody a window.
    EmptyFile,
    /// Somebody privileged says no to a way out.
    Object,
    /// A way out is asked for; before it is over, a steward is back, who with a warden
    /// may set the clock.
    Outlive,
}

#[derive(Clone, Copy, Debug)]
pub(crate) struct Deed {
    pub(crate) what: What,
    /// Decides whatever is left open.
    pub(crate) pick: u64,
}

impl Deed {
    pub(crate) fn act(self, walker: &mut Walker<'_>) {
        let mut dice = Dice::new(self.pick);
        if walker.model.fault.is_some() {
            return;
        }
        if walker.model.nobody_is_enrolled() {
            commission(walker, &mut dice);
            return;
        }
        match self.what {
            What::Tidy => tidy(walker),
            What::Open => {
                open(walker, &mut dice, false);
            }
            What::CourierOpens => {
                open(walker, &mut dice, true);
            }
            What::Meddle => meddle(walker, &mut dice),
            What::Task(task) => leads::task(walker, &mut dice, task),
            What::SlowReset => slow_reset(walker, &mut dice),
            What::Commission => (),
            What::Bar => bar(walker, &mut dice),
            What::WaitOut => wait_out(walker, &mut dice),
            What::EmptyFile => leads::empty_file(walker, &mut dice),
            What::Object => object(walker, &mut dice),
            What::Outlive => outlive(walker, &mut dice),
        }
    }
}

/// Back to rest, whatever was being typed.
pub(crate) fn rest(walker: &mut Walker<'_>) {
    let left_s = walker.model.penalty_left_s();
    if left_s > 0 {
        walker.wait(left_s);
    }
    walker.keys(&[Key::Back, Key::Back]);
}

pub(crate) fn tidy(walker: &mut Walker<'_>) {
    if walker.walk.sensors.inhibit {
        walker.contact(Input::Inhibit(false));
    }
    if walker.walk.sensors.bolt_drawn {
        walker.contact(Input::Bolt(false));
    }
    if walker.walk.sensors.door_open {
        walker.contact(Input::Door(false));
    }
    if walker.walk.sensors.switch_on {
        walker.contact(Input::Switch(false));
    }
    walker.contact(Input::SupplyMv(9_200));
    rest(walker);
}

/// The code of somebody, a courier's next one-time code among them.
pub(crate) fn code_of(walker: &Walker<'_>, number: u8) -> Option<String> {
    let model = &walker.model;
    let holder = model.setup().holder(number)?;
    if holder.role != Role::Courier {
        return Some(holder.code.clone());
    }
    let generation = model.setup().key?;
    let began = model.access.wait().and_then(|wait| {
        wait.people.iter().find(|person| person.number == number).and_then(|it| it.counter)
    });
    let next = model.setup().counters.get(&number).copied().unwrap_or_default();
    let kept = |counter: &u32| !model.is_left_out(generation, number, *counter);
    let counter = began.or_else(|| (next..next + 10).find(kept))?;
    Some(walker.walk.make.office.one_time_code(generation, number, counter))
}

/// Somebody enters their code, under duress now and then.
pub(crate) fn enter(walker: &mut Walker<'_>, number: u8, duress: bool) {
    if let Some(code) = code_of(walker, number) {
        let code = if duress { duress_variant(&code) } else { code };
        walker.keys(&typed(number, &code));
    }
}

/// Who would be let through now.
fn permitted(walker: &Walker<'_>, couriers: bool) -> Vec<u8> {
    let model = &walker.model;
    let may = |number: &u8| model.decide_again(*number).is_ok();
    let kind = |number: &u8| {
        !couriers || model.setup().holder(*number).is_some_and(|row| row.role == Role::Courier)
    };
    model.setup().holders.keys().copied().filter(may).filter(kind).collect()
}

/// The next start of a window at which as many people as it takes are permitted
/// for longer than the delay.
fn next_instant_for_all(walker: &Walker<'_>, utc: i64) -> Option<i64> {
    const DATES: i64 = 62;
    let model = &walker.model;
    let delay_s = i64::try_from(model.in_force().delay_s).expect("at most 99 minutes");
    let needed = if model.in_force().dual_control { 2 } else { 1 };
    let rows: Vec<_> =
        model.setup().holders.values().filter(|row| row.grants().is_some()).collect();
    let spans: Vec<_> = (0..TIMETABLES)
        .map(|timetable| model.hours().spans(timetable, utc - 86_400, utc + DATES * 86_400))
        .collect();
    let mut instants: Vec<i64> = spans.iter().flatten().map(|span| span.0).collect();
    instants.extend(rows.iter().filter_map(|row| row.waits).map(|it| model.to_utc(it.until)));
    instants.retain(|instant| *instant > utc);
    instants.sort_unstable();
    instants.into_iter().find(|instant| {
        let there = rows.iter().filter(|row| {
            let waits = row.waits.is_some_and(|waits| model.to_utc(waits.until) > *instant);
            let open = match row.follows {
                Follows::Always => true,
                Follows::Timetable(timetable) => spans[timetable]
                    .iter()
                    .any(|span| span.0 <= *instant && span.1 - instant > delay_s + 600),
            };
            open && !waits
        });
        there.count() >= needed
    })
}

/// Waits until somebody else may open, as far as it can be foreseen.
fn wait_for_a_window(walker: &mut Walker<'_>, dice: &mut Dice, couriers: bool) {
    let model = &walker.model;
    let (Some(utc), Chip::Reads(_)) = (model.utc(), walker.walk.now.chip) else { return };
    let mut ahead: Vec<i64> = Vec::new();
    ahead.extend(model.held().map(|end| model.to_utc(end)));
    for holder in model.setup().holders.values() {
        if couriers && holder.role != Role::Courier {
            continue;
        }
        let opens = match holder.grants() {
            Some(Follows::Timetable(timetable)) => model.hours().next_open(timetable, utc),
            Some(Follows::Always) | None => None,
        };
        let waits = holder.waits.map(|waits| model.to_utc(waits.until));
        ahead.extend(opens.max(waits));
    }
    ahead.retain(|at| *at > utc);
    ahead.sort_unstable();
    if let Some(at) = next_instant_for_all(walker, utc)
        && dice.one_in(2)
    {
        // Two who are there at one time, for longer than the delay.
        ahead = vec![at];
    }
    let first = dice.below(2).min(ahead.len().saturating_sub(1));
    if let Some(at) = ahead.get(first) {
        let seconds = u64::try_from(at - utc).expect("ahead");
        walker.wait((seconds + dice.up_to(600)).min(PATIENCE_S));
    }
}

/// True: somebody opened the lock, and the bolt is drawn.
pub(crate) fn open(walker: &mut Walker<'_>, dice: &mut Dice, couriers: bool) -> bool {
    tidy(walker);
    for _ in 0..3 {
        if !permitted(walker, couriers).is_empty() {
            break;
        }
        wait_for_a_window(walker, dice, couriers);
        rest(walker);
    }
    let mut people = permitted(walker, couriers);
    if people.is_empty() {
        return false;
    }
    let first = dice.below(people.len());
    people.rotate_left(first);
    if couriers {
        // A second person need not be one.
        let others = permitted(walker, false).into_iter().filter(|number| !people.contains(number));
        people.extend(others.collect::<Vec<_>>());
    }
    let duress = dice.one_in(6);
    let dual = walker.model.in_force().dual_control;
    let delay_s = walker.model.in_force().delay_s;
    for number in people.iter().take(usize::from(dual) + 1) {
        enter(walker, *number, duress);
    }
    if walker.model.access.is_wait() {
        if dice.one_in(4) {
            // Something else meanwhile.
            return false;
        }
        walker.wait(delay_s);
        rest(walker);
        let mut order = walker.model.access.wait().map(|wait| wait.numbers()).unwrap_or_default();
        if dice.one_in(2) {
            order.reverse();
        }
        for number in order {
            enter(walker, number, dice.one_in(8));
        }
    }
    if walker.model.access.name() != "released" || dice.one_in(8) {
        return false;
    }
    walker.contact(Input::Bolt(true));
    walker.model.is_opened()
}

/// Somebody begins, and something gets in between: the clock is set or lost,
/// inhibit, a hold-shut, a suspension, a narrower timetable.
fn meddle(walker: &mut Walker<'_>, dice: &mut Dice) {
    tidy(walker);
    if permitted(walker, false).is_empty() {
        wait_for_a_window(walker, dice, false);
        rest(walker);
    }
    let mut people = permitted(walker, false);
    if people.is_empty() {
        return;
    }
    let first = dice.below(people.len());
    people.rotate_left(first);
    let dual = walker.model.in_force().dual_control;
    enter(walker, people[0], dice.one_in(6));
    if dual && people.len() > 1 && dice.one_in(2) {
        about(walker, dice, people[0]);
        rest(walker);
        enter(walker, people[1], false);
        return;
    }
    if dual && people.len() > 1 {
        enter(walker, people[1], false);
    }
    if !walker.model.access.is_wait() {
        return;
    }
    if dice.one_in(3) {
        walker.wait(walker.model.in_force().delay_s);
    }
    match dice.below(8) {
        0 => walker.contact(Input::Inhibit(true)),
        1 => leads::task(walker, dice, "hold-shut"),
        2 => walker.step(&Step::ChipLost),
        3 | 4 => leads::task(walker, dice, "set-clock"),
        5 => walker.contact(Input::Door(true)),
        _ => about(walker, dice, people[0]),
    }
}

/// A change about that person.
fn about(walker: &mut Walker<'_>, dice: &mut Dice, number: u8) {
    let tasks = ["suspend", "suspend", "choose-timetable", "remove"];
    let task = dice.of(&tasks).expect("tasks");
    leads::begin(walker, dice, task);
    leads::lead(walker, dice, &leads::Wishes { number: Some(number), ..Default::default() });
}

/// The first warden of a lock in which nobody is enrolled.
fn commission(walker: &mut Walker<'_>, dice: &mut Dice) {
    walker.contact(Input::Switch(true));
    walker.contact(Input::Bolt(true));
    walker.keys(&[Key::Ok]);
    leads::lead(walker, dice, &leads::Wishes::default());
    walker.contact(Input::Switch(false));
    if dice.one_in(2) {
        walker.contact(Input::Bolt(false));
    }
}

fn slow_reset(walker: &mut Walker<'_>, dice: &mut Dice) {
    if !open(walker, dice, false) {
        return;
    }
    walker.contact(Input::Switch(true));
    rest(walker);
    walker.keys(&[Key::Ok; 6]);
    walker.keys(&[Key::Digit(1), Key::Ok, Key::Ok]);
    match dice.below(6) {
        0..3 => walker.wait(DAY_S),
        3 => walker.contact(Input::Bolt(false)),
        4 => walker.contact(Input::Switch(false)),
        _ => walker.wait(dice.up_to(DAY_S)),
    }
}

fn bar(walker: &mut Walker<'_>, dice: &mut Dice) {
    let numbers: Vec<u8> = walker.model.setup().holders.keys().copied().collect();
    let number = numbers[dice.below(numbers.len())];
    walker.step(&Step::Siege { number, short_of: 0 });
    rest(walker);
    if dice.one_in(2) {
        walker.wait(DAY_S);
    }
    enter(walker, number, dice.one_in(4));
}

/// Waits for a way out, a file, the end of settling, a row: whatever there is.
fn wait_out(walker: &mut Walker<'_>, dice: &mut Dice) {
    let model = &walker.model;
    let now_ms = model.now.uptime_ms;
    let mut ahead_s: Vec<u64> = Vec::new();
    ahead_s.extend(model.way_out_ms.map(|at| (at - now_ms) / 1_000));
    ahead_s.extend(model.settles_ms.map(|at| (at - now_ms) / 1_000));
    if let Some(steady) = model.steady() {
        let file = model.setup().file.as_ref().map(|file| file.until);
        let rows = model.setup().holders.values().filter_map(|row| row.waits).map(|it| it.until);
        let held = model.held();
        let instants = file.into_iter().chain(rows).chain(held);
        ahead_s.extend(instants.filter_map(|until| u64::try_from(until - steady).ok()));
    }
    ahead_s.retain(|seconds| *seconds > 0);
    if ahead_s.is_empty() {
        return;
    }
    let ahead_s = ahead_s[dice.below(ahead_s.len())].min(PATIENCE_S);
    rest(walker);
    match dice.below(4) {
        0 => walker.wait(ahead_s.saturating_sub(1)),
        _ => walker.wait(ahead_s),
    }
}

fn object(walker: &mut Walker<'_>, dice: &mut Dice) {
    let Some((people, _)) = walker.model.kept.way_out.clone() else { return };
    let able = walker.model.able_privileged(walker.model.setup(), None);
    let others: Vec<u8> = able.into_iter().filter(|number| !people.contains(number)).collect();
    if others.is_empty() {
        return;
    }
    rest(walker);
    enter(walker, others[dice.below(others.len())], dice.one_in(4));
}

fn outlive(walker: &mut Walker<'_>, dice: &mut Dice) {
    if walker.model.way_out_ms.is_none() {
        leads::task(walker, dice, "way-out");
    }
    if walker.model.way_out_ms.is_none() {
        return;
    }
    let rows = walker.model.setup().holders.values();
    let steward = rows.filter(|row| row.role == Role::Steward && row.suspended).map(|it| it.number);
    let steward: Vec<u8> = steward.collect();
    let Some(number) = dice.of(&steward) else { return };
    leads::begin(walker, dice, "restore");
    leads::lead(walker, dice, &leads::Wishes { number: Some(number), ..Default::default() });
    rest(walker);
    if let Some(until_ms) = walker.model.way_out_ms {
        walker.wait((until_ms - walker.model.now.uptime_ms) / 1_000);
    }
}
