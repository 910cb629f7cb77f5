//! R1, R2, R4 and R6 as promises about every step of every story, also where the
//! store refuses to write, or says so of what it wrote; and that the lock rests.
//! Source: `docs/behaviour.md`, sections 1, 3, 6, 7 and 12.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | what may come before what |
//! | `changes.rs` | the settings change with their record only |
//! | `rest.rs` | turns are bounded; wake-ups and keys take turns |

mod changes;
mod rest;

use std::collections::BTreeMap;

use lock_core::audit::{Event as Happened, Outcome, People, Refusal};
use lock_core::device::Progress;
use lock_core::holder::Number;
use lock_core::port::{Alarm, Drive, Effect, Sound, Tally, Write};
use lock_core::recovered::LastWord;
use lock_core::screen::Screen;

use crate::adapter::{Core, Fails, Heard, Kind, Listener, Memory};
use crate::compare::OtherLock as _;
use crate::generator::Story;
use crate::reference::{Durable, Flash, Input, Key, Now};
use crate::seeds::{self, Name};
use crate::walk::{Event, Walk, typed};

use changes::Changes;
use rest::Rest;

const PARTS: u32 = 2;
/// Stories told where nothing is said.
const STORIES: u32 = 200;

/// In so many stories each of these happens at least once, as a rule often: a
/// promise about nothing proves nothing.
const FLOORS: [(&str, usize); 11] = [
    ("tries", 1),
    ("releases", 2),
    ("records under duress", 2),
    ("alarms without a record", 20),
    ("changes", 1),
    ("changes that failed", 12),
    ("changes that were made and denied", 12),
    ("writes that failed", 3),
    ("keys while a write is under way", 2),
    ("keys at a wake-up", 2),
    ("boots", 1),
];

/// What the steps since the last boot allow, and counts over all boots.
#[derive(Default)]
struct Watch {
    /// The record of an opening became durable, and no release used it yet.
    authorised: Option<People>,
    /// The number whose try was counted, durably, since the lock last slept.
    counted: Option<Number>,
    /// What the durable entries of the tally add up to, by number.
    totals: BTreeMap<u8, u8>,
    /// A write failed.
    failed: bool,
    /// A duress code was on its way to the store since the lock last slept.
    duress: bool,
    alarm: Option<Alarm>,
    /// Whether a dialogue stands on the screen.
    leads: bool,
    /// Whether a change was recorded since the lock slept.
    changed: bool,
    rest: Rest,
    changes: Changes,
    counts: BTreeMap<&'static str, usize>,
}

impl Listener for Watch {
    fn hear(&mut self, mut heard: Heard<'_>) {
        self.rest.step(&heard);
        self.changes.step(&mut heard);
        let memory = &mut *heard.memory;
        match heard.progress {
            Progress::Wrote(write, result) => self.wrote(write, result.is_ok(), memory),
            Progress::Did(Effect::Drive(Drive::Free)) => {
                let people = self.authorised.take();
                assert!(people.is_some(), "R1: released without a durable record");
                assert!(!self.failed, "R1: released after a write had failed");
                let word = memory.if_cut_now().last_word;
                assert_eq!(word, LastWord::Released(people), "R1: a cut now would forget it");
                self.count("releases");
            }
            // In a dialogue something given may be refused, and a change granted.
            Progress::Did(Effect::Sound(Sound::Refused)) => {
                let heard = self.counted.is_some() || self.leads;
                assert!(heard, "R2: a verdict is heard before its count");
            }
            Progress::Did(Effect::Sound(Sound::Accepted)) => {
                let heard = self.counted.is_some() || self.changed;
                assert!(heard, "R2, R6: granted before its count or its change");
            }
            Progress::Did(Effect::Show(screen)) => {
                self.leads = matches!(screen, Screen::Form(_));
            }
            Progress::Did(Effect::Alarm(level)) => self.alarm = Some(*level),
            Progress::Did(Effect::Drive(Drive::Block) | Effect::Sound(_) | Effect::SetClock(_))
            | Progress::Tended(_)
            | Progress::Took(_) => {}
            Progress::Asleep(_) => {
                if self.duress {
                    assert_eq!(self.alarm, Some(Alarm::Duress), "R4: duress raises the alarm");
                }
                (self.counted, self.duress, self.changed) = (None, false, false);
            }
        }
    }
}

impl Watch {
    fn reboot(&mut self) {
        let Self { totals, rest, changes, counts, .. } = std::mem::take(self);
        *self = Self { totals, rest, changes, counts, ..Self::default() };
        self.count("boots");
    }

    fn count(&mut self, what: &'static str) {
        *self.counts.entry(what).or_default() += 1;
    }

    fn wrote(&mut self, write: &Write, durable: bool, memory: &mut Memory) {
        self.failed |= !durable;
        if !durable {
            self.count("writes that failed");
        }
        // What is there although it was denied, a boot finds as well.
        let lasts = durable || memory.fails() == Some(Fails::Done);
        match write {
            Write::Tally(Tally::Counted(number)) if lasts => {
                let total = self.totals.entry(number.get()).or_default();
                *total = (*total + 1).min(100);
                let found = memory.if_cut_now().tally.total(*number);
                assert_eq!(found, *total, "R2: a cut now would forget the try");
                self.counted = durable.then_some(*number);
                self.count("tries");
            }
            Write::Tally(Tally::Cleared(number)) if lasts => {
                self.totals.remove(&number.get());
            }
            Write::Tally(_) => {}
            Write::Record(record) | Write::Edit(record) => {
                self.recorded(&record.event, durable, memory);
            }
        }
    }

    fn recorded(&mut self, event: &Happened, durable: bool, memory: &mut Memory) {
        if let Some(number) = verdict_on(event) {
            assert_eq!(self.counted, Some(number), "R2: told before it was counted");
        }
        if matches!(event, Happened::Changed { .. } | Happened::HeldShut { .. }) {
            self.changed |= durable;
        }
        if event.outcome() == Some(Outcome::Duress) {
            self.duress = true;
            self.count("records under duress");
            if durable {
                let found = memory.if_cut_now().newest_outcome;
                assert_eq!(found, event.outcome(), "R4: a cut now would forget the alarm");
            } else {
                self.count("alarms without a record");
            }
        }
        if let Happened::Released { people, .. } = event
            && durable
        {
            assert_eq!(self.authorised, None, "R1: a record authorises one release");
            self.authorised = Some(*people);
        }
    }
}

/// The number on whose code a record tells a verdict.
fn verdict_on(event: &Happened) -> Option<Number> {
    match event {
        // In a penalty nothing is counted, and nothing is told.
        Happened::Refused { why: Refusal::Penalty, .. } => None,
        Happened::Released { people, .. } | Happened::DelayStarted { people, .. } => {
            Some(people.second.unwrap_or(people.first))
        }
        Happened::FirstOfTwo { who, .. }
        | Happened::WrongCode { who }
        | Happened::Refused { who, .. }
        | Happened::Status { who, .. }
        | Happened::Asked { who, .. } => Some(*who),
        Happened::PoweredUp { .. }
        | Happened::FoundThrown { .. }
        | Happened::Opened
        | Happened::Secured { .. }
        | Happened::NotDrawn
        | Happened::LeftOpen
        | Happened::Forced
        | Happened::Lapsed
        | Happened::Cancelled { .. }
        | Happened::Penalty { .. }
        | Happened::HeldShut { .. }
        | Happened::Supply { .. }
        | Happened::ClockInvalid
        | Happened::Changed { .. }
        | Happened::Fault { .. } => None,
    }
}

#[test]
fn no_step_of_even_stories_breaks_a_promise() {
    watch(0);
}

#[test]
fn no_step_of_odd_stories_breaks_a_promise() {
    watch(1);
}

/// Two wrong tries fall a day later, in two steps that follow at once: a key that comes
/// at that moment waits for one wake-up at the most.
#[test]
fn a_key_waits_for_one_wake_up_where_two_tries_fall() {
    for name in (0..20).map(seeds::named) {
        let story = name.story();
        let start = Walk::new(story.start_utc);
        let kept = Durable::new(story.setup.clone(), Flash::Ours);
        let mut core = Core::<Watch>::boot(&start.make, &kept, start.now, start.sensors).0;
        core.watch_settings(Changes::begin);
        if story.setup.holders.is_empty() {
            continue;
        }
        for key in typed(0, "909090").repeat(2) {
            core.live(&Event::Input(start.now, Input::Key(key)));
        }
        let later = start.now.later(86_400_000);
        core.live(&Event::Input(later, Input::Key(Key::Ok)));
        assert_eq!(core.listener.rest.contested, 1, "story {name}");
    }
}

fn watch(part: u32) {
    let mut counts: BTreeMap<&'static str, usize> = BTreeMap::new();
    let names = seeds::names_of(STORIES, part, PARTS);
    let mut most_turns = 0;
    for name in &names {
        println!("story {name}; {}", seeds::repeat(*name, "breaks_a_promise"));
        let watch = watch_story(*name);
        most_turns = most_turns.max(watch.rest.most_turns);
        let more = [
            ("changes", watch.changes.made),
            ("changes that failed", watch.changes.failed),
            ("changes that were made and denied", watch.changes.denied),
            ("keys while a write is under way", watch.rest.busy),
            ("keys at a wake-up", watch.rest.contested),
        ];
        let more = more.map(|(what, times)| (what, usize::try_from(times).expect("few")));
        for (what, times) in watch.counts.into_iter().chain(more) {
            *counts.entry(what).or_default() += times;
        }
    }
    println!("{counts:#?}, at most {most_turns} turns until it rests");
    for (what, stories) in FLOORS {
        let count = counts.get(what).copied().unwrap_or_default();
        let floor = names.len() / stories;
        assert!(count >= floor, "{what}: {count} in {} stories, not {floor}", names.len());
    }
}

/// Tells a story to the lock alone, with the store failing here and there, and with
/// keys that come when it is at something else.
fn watch_story(name: Name) -> Watch {
    let story = name.story();
    let events = events_of(&story);
    let start = Walk::new(story.start_utc);
    let kept = Durable::new(story.setup.clone(), story.flash);
    let mut core = Core::<Watch>::boot(&start.make, &kept, start.now, start.sensors).0;
    core.watch_settings(Changes::begin);
    let mut last = start.now;
    let ahead = name.pick(0, 2) == 0;
    for (at, event) in events.iter().enumerate() {
        let next = events.get(at + 1);
        let at = u32::try_from(at).expect("short");
        match event {
            Event::Reboot(..) => core.listener.reboot(),
            Event::Advance(now) if name.pick(at, 6) == 0 => {
                press_at_a_wake_up(&mut core, last, *now)
            }
            Event::Input(..) if name.pick(at, 400) == 0 => let_the_store_fail(&mut core, name, at),
            Event::Input(now, Input::Key(key)) if ahead && is_key_at(next, *now) => {
                // Typed before the lock is done with the keys before it.
                core.press(*key);
                continue;
            }
            Event::Advance(_)
            | Event::Input(..)
            | Event::ChipMoved(_)
            | Event::StoreFails(_)
            | Event::DriveSticks => (),
        }
        core.live(event);
        if matches!(event, Event::Reboot(..)) {
            core.watch_settings(Changes::look);
        }
        last = match event {
            Event::Advance(now) | Event::Input(now, _) | Event::ChipMoved(now) => *now,
            Event::Reboot(now, _) => *now,
            Event::StoreFails(_) | Event::DriveSticks => last,
        };
    }
    core.watch_settings(Changes::look);
    core.listener
}

/// What the reference makes of the story's steps.
fn events_of(story: &Story) -> Vec<Event> {
    let mut walk = Walk::new(story.start_utc);
    walk.make.office = Core::<()>::office();
    let (mut model, _) = walk.boot(&story.setup, story.flash);
    let mut events = Vec::new();
    for step in &story.steps {
        walk.play(&mut model, step, &mut |_, event, _| events.push(event.clone()));
    }
    events
}

fn is_key_at(event: Option<&Event>, now: Now) -> bool {
    matches!(event, Some(Event::Input(at, Input::Key(_))) if *at == now)
}

/// From some write on, or from the next change on, until the next boot.
fn let_the_store_fail(core: &mut Core<Watch>, name: Name, at: u32) {
    // Other salts than those that chose the moment.
    let pick = |salt: u32, choices| name.pick(at + 10_000 * salt, choices);
    let fails = if pick(1, 2) == 0 { Fails::Done } else { Fails::Undone };
    match pick(2, 3) {
        0 => core.store_fails_after(pick(3, 6), fails),
        1 => core.store_fails_at(Kind::Change, fails),
        _ => core.store_fails_at(Kind::Duress, fails),
    }
}

/// A key at the very moment of the next wake-up, if that comes by `until`.
fn press_at_a_wake_up(core: &mut Core<Watch>, last: Now, until: Now) {
    if let Some(wake) = core.listener.rest.asleep_until_ms
        && wake > last.uptime_ms
        && wake <= until.uptime_ms
    {
        core.live(&Event::Input(last.later(wake), Input::Key(Key::Back)));
    }
}

impl Core<Watch> {
    fn watch_settings(&mut self, look: impl FnOnce(&mut Changes, &mut Memory)) {
        let (listener, memory) = self.listener_and_memory();
        look(&mut listener.changes, memory);
    }
}
