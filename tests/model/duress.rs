//! R4: two locks live through the same events, but for one thing: where one is
//! given plain codes, the other is given their duress variants, at the door, for
//! tasks, as second persons, in a penalty, and couriers' one-time codes alike.
//! Nothing that shows in front may tell which is which: screens, sounds, the drive,
//! what is written, what is asked of the flash, and when the lock sleeps. Source:
//! `docs/behaviour.md`, sections 3, 4, 7 and 12.

mod swap;

use std::collections::BTreeMap;

use emulated_board::flash::Op;
use lock_core::audit::{Event as Happened, Outcome, Record};
use lock_core::device::Progress;
use lock_core::port::{Alarm, Effect, Input as CoreInput, Write};

use crate::adapter::{Core, Heard, Listener};
use crate::compare::OtherLock as _;
use crate::generator::Story;
use crate::reference::Durable;
use crate::seeds::{self, Name};
use crate::walk::{Event, Step, Walk, typed};

use swap::Told;

const PARTS: u32 = 2;
/// Stories told where nothing is said: each by two locks.
const STORIES: u32 = 200;

/// In so many stories at least one entry of that kind is under duress, as a rule
/// many: a property of nothing proves nothing.
const FLOORS: [(&str, usize); 11] = [
    ("entries", 1),
    ("entries at the door", 2),
    ("entries for tasks", 2),
    ("entries of second persons", 4),
    ("entries in a penalty", 12),
    ("entries of couriers", 4),
    ("alarms", 2),
    ("releases under duress", 4),
    ("changes in a dialogue under duress", 3),
    ("boots that raise the alarm again", 12),
    ("records under duress that could not be written", 40),
];

type Counts = BTreeMap<&'static str, usize>;

#[test]
fn duress_shows_nothing_in_front_in_even_stories() {
    nothing_shows(0);
}

#[test]
fn duress_shows_nothing_in_front_in_odd_stories() {
    nothing_shows(1);
}

fn nothing_shows(part: u32) {
    let mut counts = Counts::new();
    let names = seeds::names_of(STORIES, part, PARTS);
    for name in &names {
        let mut story = name.story();
        if name.pick(0, 2) == 0 {
            store_fails_here_and_there(&mut story, *name);
        }
        tell_twice(story, *name, &mut counts);
    }
    println!("{counts:#?}");
    for (what, stories) in FLOORS {
        let count = counts.get(what).copied().unwrap_or_default();
        let floor = names.len() / stories;
        assert!(count >= floor, "{what}: {count} in {} stories, not {floor}", names.len());
    }
}

/// A boot that finds one record of a code, of an entry in a penalty: "a boot that finds
/// a record with an outcome field, whichever" wakes once later (section 7).
#[test]
fn a_boot_behind_a_penalty_shows_nothing_in_front() {
    let mut counts = Counts::new();
    for name in (0..20).map(seeds::named) {
        let mut story = name.story();
        let rows = story.setup.holders.values();
        let Some(holder) = rows.clone().find(|row| !row.code.is_empty()) else { continue };
        let wrong = Step::Keys(typed(0, "909090"));
        let entry = Step::Keys(typed(holder.number, &holder.code));
        let cut = Step::PowerCut { off_s: 5, chip_lost: false };
        let wrongs = usize::try_from(story.setup.policy.wrong_codes).expect("few");
        story.steps = vec![wrong; wrongs];
        story.steps.extend([entry, cut, Step::Wait(700)]);
        tell_twice(story, name, &mut counts);
    }
    assert!(counts.get("entries in a penalty").is_some_and(|count| *count > 5), "{counts:?}");
}

fn tell_twice(mut story: Story, name: Name, counts: &mut Counts) {
    story.setup.policy.duress = true;
    let told = Told::by(&story);
    let (events, swapped) = told.under_duress(name);
    for entry in swapped {
        let kind = match entry.asked {
            "open" => "entries at the door",
            "second" => "entries of second persons",
            "penalty" => "entries in a penalty",
            _ => "entries for tasks",
        };
        count(counts, "entries");
        count(counts, kind);
        if entry.one_time {
            count(counts, "entries of couriers");
        }
    }
    let (mut front, mut behind) = (boot(&story), boot(&story));
    assert_alike(name, 0, None, &mut front, &mut behind);
    for (at, (plain, duress)) in told.plain().iter().zip(&events).enumerate() {
        for (lock, event) in [(&mut front, plain), (&mut behind, duress)] {
            if matches!(event, Event::Reboot(..)) {
                lock.listener.boots = true;
                // A board that is powered up reports nothing of itself.
                lock.listener.alarm = Alarm::Quiet;
            }
            let seen = lock.live(event);
            lock.listener.links.extend(seen.into_iter().filter_map(|(_, seen)| seen.link));
        }
        assert_alike(name, at, Some(plain), &mut front, &mut behind);
    }
    for (what, times) in std::mem::take(&mut behind.listener.counts) {
        *counts.entry(what).or_default() += times;
    }
}

/// The store fails within a step or two, and the power is cut soon after.
fn store_fails_here_and_there(story: &mut Story, name: Name) {
    for time in 1..=3 {
        let at = name.pick(time, u32::try_from(story.steps.len()).expect("short"));
        let at = usize::try_from(at).expect("short");
        let cut = Step::PowerCut { off_s: 5, chip_lost: false };
        story.steps.insert((at + 3).min(story.steps.len()), cut);
        story.steps.insert(at, Step::StoreFails(name.pick(time + 10, 6)));
    }
}

fn boot(story: &Story) -> Core<Observer> {
    let walk = Walk::new(story.start_utc);
    let kept = Durable::new(story.setup.clone(), story.flash);
    Core::boot(&walk.make, &kept, walk.now, walk.sensors).0
}

/// What both did at an event is the same in front, and is forgotten.
fn assert_alike(
    name: Name,
    at: usize,
    event: Option<&Event>,
    front: &mut Core<Observer>,
    behind: &mut Core<Observer>,
) {
    let (one, other) = (&mut front.listener, &mut behind.listener);
    let again = seeds::repeat(name, "nothing_in_front");
    let place = format!("story {name}, event {at} {event:?}: {again}");
    if one.steps != other.steps {
        let differ = |(one, other): &(&Front, &Front)| one != other;
        let steps = one.steps.iter().zip(&other.steps).find(differ);
        let (one_more, other_more) = (one.steps.len(), other.steps.len());
        let told = steps.map(|(one, other)| format!("{}\n{}", one.text(), other.text()));
        panic!("{place}\n{one_more} and {other_more} steps; the first that differ: {told:?}");
    }
    assert_eq!(one.flash, other.flash, "asked of the flash: {place}");
    assert_eq!(one.more, other.more, "asked of the flash, times: {place}");
    assert_eq!(one.links, other.links, "told over the cable: {place}");
    // Behind: a duress code outranks whatever the line says otherwise.
    assert_eq!(one.alarm.max(other.alarm), other.alarm, "the alarm line: {place}");
    for lock in [one, other] {
        lock.steps.clear();
        lock.flash.clear();
        lock.links.clear();
        (lock.more, lock.boots) = (0, false);
    }
}

fn count(counts: &mut Counts, what: &'static str) {
    *counts.entry(what).or_default() += 1;
}

/// What somebody with a meter on everything but the alarm line sees.
struct Observer {
    steps: Vec<Front>,
    flash: Vec<Op>,
    /// What a trace of the flash has no room for, as numbers.
    more: u32,
    links: Vec<String>,
    alarm: Alarm,
    counts: Counts,
    /// The event is a boot.
    boots: bool,
    /// Who last began a dialogue did so under duress.
    led: bool,
}

impl Default for Observer {
    fn default() -> Self {
        Self {
            steps: Vec::new(),
            flash: Vec::new(),
            more: 0,
            links: Vec::new(),
            alarm: Alarm::Quiet,
            counts: Counts::new(),
            boots: false,
            led: false,
        }
    }
}

/// One step as it shows in front, with its moment.
#[derive(PartialEq)]
enum Front {
    /// Whichever: the digits are what the two locks differ in.
    Key(u64),
    Other(u64, Progress),
}

impl Front {
    fn text(&self) -> String {
        match self {
            Self::Key(at) => format!("{at} ms: a key"),
            Self::Other(at, Progress::Did(effect)) => format!("{at} ms: {effect:?}"),
            Self::Other(at, Progress::Wrote(write, result)) => {
                format!("{at} ms: {write:?} {result:?}")
            }
            Self::Other(at, Progress::Took(input)) => format!("{at} ms: {}", input.kind()),
            Self::Other(at, Progress::Tended(result)) => format!("{at} ms: tended {result:?}"),
            Self::Other(at, Progress::Asleep(wake)) => format!("{at} ms: asleep until {wake:?}"),
        }
    }
}

impl Listener for Observer {
    fn hear(&mut self, heard: Heard<'_>) {
        self.count(heard.progress);
        for trace in heard.memory.take_traces() {
            self.flash.extend(trace.ops);
            self.more += trace.more;
        }
        let at = heard.uptime_ms;
        self.steps.extend(match *heard.progress {
            Progress::Did(Effect::Alarm(level)) => {
                self.alarm = level;
                None
            }
            Progress::Took(CoreInput::Key(_)) => Some(Front::Key(at)),
            Progress::Wrote(write, result) => {
                Some(Front::Other(at, Progress::Wrote(levelled(write), result)))
            }
            other => Some(Front::Other(at, other)),
        });
    }
}

impl Observer {
    fn count(&mut self, progress: &Progress) {
        match progress {
            Progress::Did(Effect::Alarm(Alarm::Duress)) if self.boots => {
                count(&mut self.counts, "boots that raise the alarm again");
            }
            Progress::Did(Effect::Alarm(Alarm::Duress)) => count(&mut self.counts, "alarms"),
            Progress::Wrote(Write::Record(record) | Write::Edit(record), result) => {
                self.count_record(&record.event, result.is_ok());
            }
            Progress::Wrote(Write::Tally(_), _)
            | Progress::Did(_)
            | Progress::Took(_)
            | Progress::Tended(_)
            | Progress::Asleep(_) => (),
        }
    }

    fn count_record(&mut self, event: &Happened, durable: bool) {
        let duress = event.outcome() == Some(Outcome::Duress);
        if duress && !durable {
            count(&mut self.counts, "records under duress that could not be written");
        }
        if duress && matches!(event, Happened::Released { .. }) {
            count(&mut self.counts, "releases under duress");
        }
        if matches!(event, Happened::Asked { .. }) {
            self.led = duress;
        }
        let leads =
            matches!(event, Happened::Changed { by: Some(_), .. } | Happened::HeldShut { .. });
        if leads && self.led && durable {
            count(&mut self.counts, "changes in a dialogue under duress");
        }
    }
}

/// The write with a plain outcome: the only field that may differ.
fn levelled(write: Write) -> Write {
    let level = |mut record: Record| {
        if let Happened::Released { outcome, .. }
        | Happened::DelayStarted { outcome, .. }
        | Happened::FirstOfTwo { outcome, .. }
        | Happened::Refused { outcome, .. }
        | Happened::Status { outcome, .. }
        | Happened::Asked { outcome, .. } = &mut record.event
        {
            *outcome = Outcome::Plain;
        }
        record
    };
    match write {
        Write::Record(record) => Write::Record(level(record)),
        Write::Edit(record) => Write::Edit(level(record)),
        Write::Tally(entry) => Write::Tally(entry),
    }
}
