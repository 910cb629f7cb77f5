//! Openings are put together as they happened: stories are made up whole,
//! written down record by record with others in between, and read back.

use emulator::audit::ledger::{Clerk, Ledger};
use emulator::audit::opening::{Began, End, Mark, Opening, Wait, WaitEnd, WaitsFor};
use lock_core::audit::{CancelReason, Entry, Event, Gap, Outcome, People, Record, Refusal, Seq};
use lock_core::holder::Number;
use lock_core::policy::Millivolts;
use lock_core::rules::supply::Level;
use lock_core::time::{Seconds, Utc};
use proptest::prelude::*;

/// Something that happens at a lock from beginning to end.
#[derive(Clone, Debug)]
enum Story {
    Opened { delayed: bool, dual: bool, left_open: bool, power_fails: bool },
    NotDrawn,
    PowerFailsReleased,
    Forced { power_fails: bool },
    Lapsed,
    Cancelled(CancelReason),
    PowerFailsWaiting,
    NoSecond,
    Bystander(u8),
}

fn stories() -> impl Strategy<Value = Vec<(Story, Vec<u8>)>> {
    let flags = (any::<bool>(), any::<bool>(), any::<bool>(), any::<bool>());
    let story = prop_oneof![
        5 => flags.prop_map(|(delayed, dual, left_open, power_fails)| Story::Opened {
            delayed, dual, left_open, power_fails
        }),
        1 => Just(Story::NotDrawn),
        1 => Just(Story::PowerFailsReleased),
        1 => any::<bool>().prop_map(|power_fails| Story::Forced { power_fails }),
        1 => Just(Story::Lapsed),
        1 => prop_oneof![Just(CancelReason::WindowEnd), Just(CancelReason::Inhibit)]
            .prop_map(Story::Cancelled),
        1 => Just(Story::PowerFailsWaiting),
        1 => Just(Story::NoSecond),
        2 => any::<u8>().prop_map(Story::Bystander),
    ];
    // What happens in between, and how long after one another records come.
    proptest::collection::vec((story, proptest::collection::vec(any::<u8>(), 8)), 0..12)
}

/// Writes stories down, and what must be read from them.
struct Author {
    entries: Vec<Entry>,
    seq: u32,
    second: u32,
    dice: Vec<u8>,
    expected: Ledger,
}

impl Author {
    fn new() -> Self {
        Self {
            entries: Vec::new(),
            seq: 0,
            second: 1_800_000_000,
            dice: Vec::new(),
            expected: Ledger::default(),
        }
    }

    fn die(&mut self) -> u8 {
        self.dice.pop().unwrap_or(0)
    }

    fn write(&mut self, event: Event) -> Mark {
        let die = self.die();
        self.second += u32::from(die);
        self.seq += 1;
        let mark = Mark { seq: Seq(self.seq), at: Some(Utc::from_secs(self.second)) };
        self.entries.push(Entry::Record(mark.seq, Record { at: mark.at, event }));
        mark
    }

    /// Records that have nothing to do with it come in between.
    fn bystand(&mut self, die: u8) {
        let who = number(die % 99 + 1);
        let outcome = Outcome::Plain;
        match die % 7 {
            0 => drop(self.write(Event::WrongCode { who })),
            1 => drop(self.write(Event::Refused { who, why: Refusal::AlreadyOpen, outcome })),
            2 => drop(
                self.write(Event::Supply { level: Level::Low, measured: Millivolts::new(4_700) }),
            ),
            3 => drop(self.write(Event::Status { who, outcome })),
            4 => drop(self.write(Event::Penalty { lasts: Seconds::new(300) })),
            _ => {}
        }
    }

    fn wait(&mut self, on: WaitsFor, began: Mark, people: People, end: WaitEnd) {
        let outcome = Outcome::Plain;
        self.expected.waits.push(Wait { on, began, people, outcome, end });
    }

    fn tell(&mut self, story: &Story) {
        let bystander = self.die();
        match *story {
            Story::Opened { delayed, dual, left_open, power_fails } => {
                self.opened(delayed, dual, left_open, power_fails, bystander);
            }
            Story::NotDrawn => {
                let (opening, _) = self.release(false, false);
                self.bystand(bystander);
                let end = End::NotDrawn(self.write(Event::NotDrawn));
                self.expected.openings.push(Opening { end, ..opening });
            }
            Story::PowerFailsReleased => {
                let (opening, _) = self.release(false, false);
                let booted = Some(self.write(Event::PoweredUp { unrecorded: 0 }));
                // Whether it was opened nobody knows; the next forced opening
                // says that it was closed in between.
                let forced = self.write(Event::Forced);
                self.expected.openings.push(Opening { booted, end: End::Unseen, ..opening });
                self.shut(forced, None);
            }
            Story::Forced { power_fails } => {
                let forced = self.write(Event::Forced);
                self.bystand(bystander);
                let booted = power_fails.then(|| self.write(Event::PoweredUp { unrecorded: 0 }));
                self.shut(forced, booted);
            }
            Story::Lapsed | Story::Cancelled(_) | Story::PowerFailsWaiting => {
                let people = People { first: number(12), second: None };
                let began = self.write(Event::DelayStarted { people, outcome: Outcome::Plain });
                self.bystand(bystander);
                let end = match *story {
                    Story::Cancelled(why) => {
                        WaitEnd::Cancelled(self.write(Event::Cancelled { why }), why)
                    }
                    Story::Lapsed => WaitEnd::Lapsed(self.write(Event::Lapsed)),
                    _ => WaitEnd::Booted(self.write(Event::PoweredUp { unrecorded: 0 })),
                };
                self.wait(WaitsFor::Delay, began, people, end);
            }
            Story::NoSecond => {
                let people = People { first: number(3), second: None };
                let who = people.first;
                let began = self.write(Event::FirstOfTwo { who, outcome: Outcome::Plain });
                self.bystand(bystander);
                let end = WaitEnd::Lapsed(self.write(Event::Lapsed));
                self.wait(WaitsFor::Second, began, people, end);
            }
            Story::Bystander(die) => self.bystand(die),
        }
    }

    /// Up to the release: the opening so far, and its release.
    fn release(&mut self, delayed: bool, dual: bool) -> (Opening, Mark) {
        let (first, second) = (number(12), dual.then(|| number(13)));
        let people = People { first, second };
        let outcome = Outcome::Plain;
        let alone = People { first, second: None };
        let pair = |author: &mut Self| {
            dual.then(|| author.write(Event::FirstOfTwo { who: first, outcome }))
        };
        let mut waited = None;
        let mut paired = pair(self);
        if delayed {
            let delay = self.write(Event::DelayStarted { people, outcome });
            if let Some(mark) = paired {
                self.wait(WaitsFor::Second, mark, alone, WaitEnd::Went(delay.seq));
            }
            paired = pair(self);
            waited = Some(delay);
        }
        let released = self.write(Event::Released { people, outcome });
        if let Some(mark) = paired {
            self.wait(WaitsFor::Second, mark, alone, WaitEnd::Went(released.seq));
        }
        if let Some(delay) = waited {
            self.wait(WaitsFor::Delay, delay, people, WaitEnd::Went(released.seq));
        }
        let opening = Opening {
            began: Began::Released(released),
            people: Some(people),
            outcome,
            waited,
            opened: None,
            left_open: None,
            booted: None,
            doubtful: false,
            end: End::Ongoing,
        };
        (opening, released)
    }

    fn opened(&mut self, delayed: bool, dual: bool, left: bool, power_fails: bool, die: u8) {
        let (mut opening, _) = self.release(delayed, dual);
        let opened = self.write(Event::Opened);
        opening.opened = Some(opened);
        self.bystand(die);
        opening.booted = power_fails.then(|| self.write(Event::PoweredUp { unrecorded: 0 }));
        opening.left_open = left.then(|| self.write(Event::LeftOpen));
        // The lock counts from its boot; people mean from the opening on.
        let said = if power_fails { 1 } else { 77 };
        let secured = self.write(Event::Secured { open_for: Seconds::new(said) });
        let open_for = if power_fails {
            secured.at.unwrap().since(opened.at.unwrap())
        } else {
            Seconds::new(said)
        };
        opening.end = End::Secured(secured, Some(open_for));
        self.expected.openings.push(opening);
    }

    /// The end of a forced opening.
    fn shut(&mut self, forced: Mark, booted: Option<Mark>) {
        let secured = self.write(Event::Secured { open_for: Seconds::new(5) });
        let open_for = match booted {
            Some(_) => secured.at.unwrap().since(forced.at.unwrap()),
            None => Seconds::new(5),
        };
        self.expected.openings.push(Opening {
            began: Began::Forced(forced),
            people: None,
            outcome: Outcome::Plain,
            waited: None,
            opened: None,
            left_open: None,
            booted,
            doubtful: false,
            end: End::Secured(secured, Some(open_for)),
        });
    }
}

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

fn read(entries: &[Entry]) -> Ledger {
    let mut clerk = Clerk::default();
    entries.iter().for_each(|entry| clerk.take(entry));
    clerk.finish()
}

proptest! {
    #[test]
    fn what_happened_is_what_is_read(stories in stories()) {
        let mut author = Author::new();
        for (story, dice) in stories {
            author.dice = dice;
            author.tell(&story);
        }
        let read = read(&author.entries);
        prop_assert_eq!(read.openings, author.expected.openings);
        prop_assert_eq!(read.waits, author.expected.waits);
    }
}

/// Where records are missing an opening may have ended unseen, and the report
/// says so instead of guessing; refusals that were overwritten hide nothing.
#[test]
fn missing_records_cast_doubt_unless_they_were_refusals() {
    let mut author = Author::new();
    author.release(false, false);
    author.write(Event::Opened);
    author.seq += 3;
    let gap = |lost| Entry::Gap(Gap { from: Seq(3), to: Seq(5), lost });
    let secured = Event::Secured { open_for: Seconds::new(60) };
    author.write(secured);
    for (lost, doubtful) in [(0, false), (1, true)] {
        let mut entries = author.entries.clone();
        entries.insert(2, gap(lost));
        let read = read(&entries);
        assert_eq!(read.openings.len(), 1);
        assert_eq!(read.openings[0].doubtful, doubtful);
    }
}

/// A record of the middle of an opening, as the first one left, is told as one
/// whose release is not on record.
#[test]
fn the_end_of_an_opening_alone_is_told_as_such() {
    let mut author = Author::new();
    let secured = author.write(Event::Secured { open_for: Seconds::new(60) });
    let read = read(&author.entries);
    assert_eq!(read.openings.len(), 1);
    assert_eq!(read.openings[0].began, Began::Unseen);
    assert_eq!(read.openings[0].end, End::Secured(secured, Some(Seconds::new(60))));
}
