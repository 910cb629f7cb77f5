//! Random stories: people at a lock, and a battery that fails.

use emulated_board::flash::OpKind;
use emulated_board::fuse::{Class, Cut};
use lock_core::keys::{Digit, Key};
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Inhibit, Switch};
use lock_core::task::Task;

use super::ground::Change;
use super::story::{Disturbance, Event, Task as For, Typed};
use crate::rig::Dice;

/// Numbers that are entered: holders of the demo site, and two that nobody has.
const NUMBERS: [u8; 10] = [1, 2, 3, 12, 12, 13, 14, 50, 77, 0];

/// Lengths of waits in milliseconds: around pauses, releases, penalties, delays
/// and days.
const WAITS: [u64; 14] = [
    500, 1_000, 5_999, 6_000, 20_000, 59_000, 60_000, 180_000, 299_000, 300_000, 600_000, 601_000,
    3_600_000, 86_400_000,
];

/// Steps that a cut is mostly ahead of.
const AHEAD: u64 = 70;

const MONTH: u64 = 30 * 86_400_000;

/// A quarter of an hour.
const QUARTER: u64 = 900_000;

/// Steps of a change of the settings, with words of eight bytes.
const EDIT: u64 = 1_200;

/// So many events at most.
const MOST: u64 = 40;

/// A story. The same dice always tell the same.
#[must_use]
pub fn story(dice: &mut Dice) -> Vec<Event> {
    let length = 4 + dice.below(MOST - 3);
    // In some of them the flash fails too: what the lock makes of that matters.
    let disturbed = dice.below(8) == 0;
    let mut events = Vec::new();
    while (events.len() as u64) < length {
        if disturbed && dice.below(6) == 0 {
            events.extend([bus(dice), enter(dice)]);
        }
        scene(dice, &mut events);
    }
    // In some, bits turn over too; what came before is told as without them.
    if dice.below(8) == 0 {
        turn_bits(dice, &mut events);
    }
    events
}

/// A bit turns over somewhere within a story, and mostly one beside it, so that the lock
/// may lose what stood there.
fn turn_bits(dice: &mut Dice, events: &mut Vec<Event>) {
    let length = u64::try_from(events.len()).unwrap_or_default();
    let at = usize::try_from(dice.below(length)).unwrap_or_default();
    let mut turned = Vec::new();
    flip(dice, &mut turned);
    if let (Some(&Event::Flip { address, bit }), true) = (turned.first(), dice.below(4) > 0) {
        let beside = u32::try_from(dice.below(16)).unwrap_or_default();
        turned.push(Event::Flip { address: address ^ beside, bit: (bit + 3) % 8 });
    }
    events.splice(at..at, turned);
}

/// A month of a lock's life, with all the faults that there are.
#[must_use]
pub fn month(dice: &mut Dice) -> Vec<Event> {
    let mut events = Vec::new();
    let mut time = 0;
    while time < MONTH {
        let pause = QUARTER * (1 + dice.below(24));
        time += pause;
        events.push(Event::Wait(pause));
        match dice.below(200) {
            0..4 => flip(dice, &mut events),
            4..8 => events.extend([bus(dice), enter(dice), Event::Pull, Event::Restore]),
            8..10 => events.extend([Event::Pull, clock(dice), Event::Restore]),
            10..80 => opening(dice, &mut events),
            80..110 => events.push(Event::Enter { who: 1, code: Typed::Right, task: For::Open }),
            _ => scene(dice, &mut events),
        }
    }
    events
}

/// A bit turns over.
fn flip(dice: &mut Dice, events: &mut Vec<Event>) {
    let address = u32::try_from(dice.roll() >> 32).unwrap_or_default();
    let bit = u8::try_from(dice.below(8)).unwrap_or_default();
    events.push(Event::Flip { address, bit });
}

fn bus(dice: &mut Dice) -> Event {
    let kinds = [OpKind::Read, OpKind::Program, OpKind::Erase];
    let (after, count) = (dice.below(40), 1 + dice.below(6));
    let [after, count] = [after, count].map(|n| u32::try_from(n).unwrap_or_default());
    let fails = Disturbance::Fails(pick(dice, &kinds), after, count);
    Event::Bus(pick(dice, &[fails, fails, Disturbance::Lies, Disturbance::Denies]))
}

fn clock(dice: &mut Dice) -> Event {
    pick(
        dice,
        &[Event::ClockJumps(1), Event::ClockJumps(-1), Event::ClockJumps(7_200), Event::ClockLost],
    )
}

/// One thing, or a few that follow from one another.
fn scene(dice: &mut Dice, events: &mut Vec<Event>) {
    match dice.below(100) {
        0..32 => events.push(enter(dice)),
        32..42 => opening(dice, events),
        42..57 => events.push(wait(dice)),
        57..72 => cut(dice, events),
        72..76 => events.extend([Event::Pull, wait(dice), Event::Restore]),
        76..79 => events.push(key(dice)),
        79..82 => events.push(Event::Turn(bolt(dice))),
        82..84 => events.push(Event::Force),
        84..86 => events.push(Event::Door(pick(dice, &[Door::Open, Door::Closed]))),
        86..88 => events.push(Event::Inhibit(pick(dice, &[Inhibit::Set, Inhibit::Clear]))),
        88..89 => events.push(Event::Switch(pick(dice, &[Switch::On, Switch::Off]))),
        89..92 => events
            .push(Event::Supply(Millivolts::new(pick(dice, &[6_200, 5_100, 4_700, 4_300, 4_100])))),
        92..93 => edit(dice, events),
        93..94 if dice.below(4) == 0 => events.push(Event::ClockLost),
        93..95 => events.push(Event::ClockJumps(pick(dice, &[1, -1, 60, -60, 90_000, -90_000]))),
        95..98 => dialogue(dice, events),
        _ => guesses(dice, events),
    }
}

/// The settings are changed, and mostly the power ends within it.
fn edit(dice: &mut Dice, events: &mut Vec<Event>) {
    if dice.below(3) > 0 {
        let ahead = pick(dice, &[EDIT, EDIT, 60]);
        let (after, class) = (dice.below(ahead), pick(dice, &Class::ALL));
        events.push(Event::Cut(Cut { after, class, seed: dice.roll() }));
    }
    events.push(Event::Edit(pick(dice, &[Change::Standing, Change::Newcomer])));
    events.push(Event::Restore);
}

/// Somebody leads a dialogue, with the bolt drawn where it takes that; in half of
/// them the power ends within it.
fn dialogue(dice: &mut Dice, events: &mut Vec<Event>) {
    match dice.below(90) {
        0..3 => return reset(dice, events),
        3..5 => return besieged(dice, events),
        5..8 => return way_out(dice, events),
        _ => {}
    }
    let task = pick(
        dice,
        &[
            Task::ChangeCode,
            Task::ChangeCode,
            Task::Enrol,
            Task::Enrol,
            Task::Suspend,
            Task::Restore,
            Task::Remove,
            Task::ChangeRole,
            Task::ChooseTimetable,
            Task::Numbers,
            Task::Files,
            Task::SetClock,
            Task::SetClock,
            Task::SetPolicy,
            Task::SetPolicy,
            Task::TestAlarm,
            Task::Pair,
            Task::WayOut,
            Task::HoldShut,
        ],
    );
    let who = match task {
        Task::SetClock | Task::Files => 50,
        Task::ChangeCode => number(dice),
        Task::Suspend | Task::Remove => pick(dice, &[1, 1, 3]),
        _ => 1,
    };
    let drawn = dice.below(2) == 0 || matches!(task, Task::TestAlarm | Task::Pair);
    if drawn {
        events.extend([open(1), Event::Turn(Bolt::Drawn)]);
    }
    if dice.below(2) == 0 {
        let ahead = pick(dice, &[EDIT, EDIT, 200]);
        let (after, class) = (dice.below(ahead), pick(dice, &Class::ALL));
        events.push(Event::Cut(Cut { after, class, seed: dice.roll() }));
    }
    let code = pick(dice, &[Typed::Right, Typed::Right, Typed::Right, Typed::Duress]);
    events.push(Event::Lead { who, code, task, seed: dice.roll() });
    events.push(Event::Restore);
    if drawn && dice.below(4) > 0 {
        events.push(Event::Turn(Bolt::Thrown));
    }
    // A lock that is left alone leaves what was not finished.
    if dice.below(2) == 0 {
        events.push(Event::Wait(60_000));
    }
}

/// A number is barred, and somebody restores it with a new code; or a warden who is
/// barred comes in by their own tries.
fn besieged(dice: &mut Dice, events: &mut Vec<Event>) {
    let lead = |task, seed| Event::Lead { who: 1, code: Typed::Right, task, seed };
    let who = pick(dice, &[13, 13, 1]);
    events.push(Event::Besiege(who));
    if who == 1 {
        events.extend([open(1), Event::Turn(Bolt::Drawn), Event::Turn(Bolt::Thrown)]);
    }
    cut(dice, events);
    events.push(lead(Task::Restore, dice.roll()));
    events.extend([open(13), wait(dice)]);
}

/// Whoever opens is removed while the bolt is drawn; the lock is stuck, and somebody asks
/// for a way out.
fn way_out(dice: &mut Dice, events: &mut Vec<Event>) {
    events.extend([open(1), Event::Turn(Bolt::Drawn), open(12), Event::Turn(Bolt::Drawn)]);
    for _ in 0..6 {
        let (code, task, seed) = (Typed::Right, Task::ChangeRole, dice.roll());
        events.push(Event::Lead { who: 2, code, task, seed });
    }
    events.push(Event::Turn(Bolt::Thrown));
    let (code, task, seed) = (Typed::Right, Task::WayOut, dice.roll());
    events.push(Event::Lead { who: pick(dice, &[2, 50]), code, task, seed });
    if dice.below(2) == 0 {
        cut(dice, events);
    }
    events.extend([Event::Wait(3 * 86_400_000), Event::Wait(12 * 86_400_000), enter(dice)]);
}

/// Everything is forgotten, by a warden or by nobody, and mostly begun anew.
fn reset(dice: &mut Dice, events: &mut Vec<Event>) {
    events.extend([open(1), Event::Turn(Bolt::Drawn), Event::Switch(Switch::On)]);
    if dice.below(2) == 0 {
        let (code, task, seed) = (Typed::Right, Task::Reset, dice.roll());
        events.push(Event::Lead { who: 1, code, task, seed });
    } else {
        events.extend([Event::SlowReset, Event::Wait(86_400_000)]);
    }
    if dice.below(2) == 0 {
        let (after, class) = (dice.below(EDIT), pick(dice, &Class::ALL));
        events.push(Event::Cut(Cut { after, class, seed: dice.roll() }));
    }
    events.extend([Event::FirstWarden, Event::Restore]);
    events.extend([Event::Switch(Switch::Off), Event::Turn(Bolt::Thrown)]);
}

const fn open(who: u8) -> Event {
    Event::Enter { who, code: Typed::Right, task: For::Open }
}

/// Somebody opens, and mostly goes through with it.
fn opening(dice: &mut Dice, events: &mut Vec<Event>) {
    let who = pick(dice, &[1, 12, 13]);
    let code = pick(dice, &[Typed::Right, Typed::Right, Typed::Right, Typed::Duress]);
    let enter = |who| Event::Enter { who, code, task: For::Open };
    events.push(enter(who));
    if dice.below(2) == 0 {
        events.push(enter(if who == 12 { 13 } else { 12 }));
    }
    if dice.below(3) == 0 {
        cut(dice, events);
    }
    if dice.below(2) == 0 {
        events.extend([Event::Wait(600_000), enter(who)]);
    }
    events.push(Event::Turn(Bolt::Drawn));
    if dice.below(4) > 0 {
        events.extend([wait(dice), Event::Turn(Bolt::Thrown)]);
    }
}

/// A guesser.
fn guesses(dice: &mut Dice, events: &mut Vec<Event>) {
    let who = number(dice);
    for _ in 0..=dice.below(5) {
        events.push(Event::Enter { who, code: Typed::Wrong, task: For::Open });
        if dice.below(6) == 0 {
            cut(dice, events);
        }
    }
}

/// The power ends within something that is done next, or within the boot that
/// follows.
fn cut(dice: &mut Dice, events: &mut Vec<Event>) {
    loop {
        let after = match dice.below(4) {
            0 => dice.below(4),
            1 => dice.below(20),
            _ => dice.below(AHEAD),
        };
        let class = pick(dice, &Class::ALL);
        events.push(Event::Cut(Cut { after, class, seed: dice.roll() }));
        match dice.below(3) {
            0 => events.push(enter(dice)),
            1 => events.extend([enter(dice), enter(dice)]),
            _ => {
                // Into the recovery.
                events.extend([enter(dice), Event::Pull]);
                if dice.below(2) == 0 {
                    continue;
                }
            }
        }
        events.push(Event::Restore);
        return;
    }
}

fn enter(dice: &mut Dice) -> Event {
    let code = pick(
        dice,
        &[Typed::Right, Typed::Right, Typed::Right, Typed::Duress, Typed::Wrong, Typed::Wrong],
    );
    let task = pick(dice, &[For::Open, For::Open, For::Open, For::Open, For::Hold, For::Status]);
    Event::Enter { who: number(dice), code, task }
}

fn wait(dice: &mut Dice) -> Event {
    Event::Wait(pick(dice, &WAITS))
}

fn number(dice: &mut Dice) -> u8 {
    pick(dice, &NUMBERS)
}

fn bolt(dice: &mut Dice) -> Bolt {
    pick(dice, &[Bolt::Drawn, Bolt::Thrown])
}

fn key(dice: &mut Dice) -> Event {
    let digit = u8::try_from(dice.below(10)).ok().and_then(Digit::new);
    let digit = digit.map_or(Key::Ok, Key::Digit);
    Event::Key(pick(dice, &[Key::Ok, Key::Back, digit, digit]))
}

/// One of a few, of which there is one at least.
fn pick<T: Copy>(dice: &mut Dice, choices: &[T]) -> T {
    dice.pick(choices).copied().unwrap_or(choices[0])
}

/// What random stories have in them.
#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// The kind of an event, by the words for it without numbers.
    fn kind(event: &Event) -> String {
        event.to_string().chars().filter(|c| c.is_alphabetic()).collect()
    }

    #[test]
    fn the_same_dice_tell_the_same() {
        for case in 0..50 {
            assert!(story(&mut Dice::of(3, case)) == story(&mut Dice::of(3, case)));
            assert!(story(&mut Dice::of(3, case)) != story(&mut Dice::of(4, case)));
        }
        assert!(month(&mut Dice::of(3, 0)) == month(&mut Dice::of(3, 0)));
    }

    /// Each kind of event comes, in stories or in months, and so does each class
    /// of cut.
    #[test]
    fn everything_that_can_happen_does() {
        let stories: Vec<Event> = (0..400).flat_map(|n| story(&mut Dice::of(1, n))).collect();
        let months: Vec<Event> = (0..4).flat_map(|n| month(&mut Dice::of(1, n))).collect();
        let kinds: BTreeSet<String> = stories.iter().chain(&months).map(kind).collect();
        for words in [
            "entersthedurescodetoopen".replace("dures", "duress").as_str(),
            "entersawrongcodetoholditshut",
            "enterstherightcodeforthestatus",
            "spass",
            "ahanddrawsthebolt",
            "ahandthrowsthebolt",
            "theboltisdrawnbyforce",
            "thedooris",
            "theintruderalarmisset",
            "theserviceswitchisturnedon",
            "entersthedurescodeforsetclockthentheanswers".replace("dures", "duress").as_str(),
            "istrieduntilitisbarred",
            "forwayoutthentheanswers",
            "aresetisaskedforwithoutacode",
            "afirstwardenisenrolled",
            "thebatterygivesmV",
            "theclockchiplosesitstime",
            "theclockchipjumps",
            "thebatteryispulled",
            "thesettingsarechanged",
            "bitofbyteturnsover",
            "callsofReadwillfail",
            "thenextwritewilldonothing",
            "thenextwritewillbedenied",
        ] {
            assert!(kinds.iter().any(|kind| kind.contains(words)), "{words}: {kinds:?}");
        }
        for class in Class::ALL {
            let cut = |event: &Event| matches!(event, Event::Cut(cut) if cut.class == class);
            assert!(stories.iter().any(cut), "{class:?}");
        }
        assert!(!kinds.iter().any(|kind| kind.contains("739204")));
    }
}
