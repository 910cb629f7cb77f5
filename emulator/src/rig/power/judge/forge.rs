//! Forged stories: traces and looks of a lock that never was, for the judge's
//! own tests. What is forged is in order; each test spoils one thing.

use emulated_board::trace::{Durable, Line, Told, What};
use lock_core::audit::{Change, Event, Outcome, People, Record, Refusal};
use lock_core::holder::Number;
use lock_core::policy::Policy;
use lock_core::port::{Alarm, Bolt, Chip, Drive, Effect, Fault, Sound, Tally, Write};
use lock_core::rules::supply::Level;
use lock_core::screen::Screen;
use lock_core::settings::FileState;
use lock_core::tally::{SetUp, TallyState};
use lock_core::time::{Seconds, Uptime, Utc};

use super::{Invariant, Judge, PerRing, Terms, Violation};
use crate::memory::{Entry, Look, Print, Wear};
use crate::world::{Happening, Spoilt};

pub(super) const FREE: Effect = Effect::Drive(Drive::Free);
pub(super) const BLOCK: Effect = Effect::Drive(Drive::Block);
pub(super) const SILENT: Effect = Effect::Alarm(Alarm::Duress);
pub(super) const QUIET: Effect = Effect::Alarm(Alarm::Quiet);
pub(super) const KEY: Effect = Effect::Sound(Sound::Key);
pub(super) const REFUSED: Effect = Effect::Sound(Sound::Refused);
pub(super) const SAYS_RELEASED: Effect = Effect::Show(Screen::Released { supply: Level::Good });
pub(super) const SAYS_SERVICE: Effect = Effect::Show(Screen::Service(Fault::Store));

pub(super) const DOUBT: Write = Write::Tally(Tally::ClockDoubt(None));

pub(super) const TERMS: Terms = Terms {
    settings: print(1),
    kept: PerRing { openings: 12, refusals: 6 },
    slots_a_cut: 1,
    slots_a_flip: 0,
    mount_steps: 50,
    boot_steps: 100,
    edit_steps: 1_000,
};

/// The tally of a lock that is set up.
pub(super) fn tally() -> TallyState {
    TallyState { set_up: SetUp::Done, ..TallyState::NEW }
}

/// Some settings, of the default policy.
pub(super) const fn print(digest: u64) -> Print {
    let file = FileState::NONE;
    Print { digest, policy: Policy::DEFAULT, stricter: None, enrolled: 1, file }
}

/// A story under way: what would lie in the flash, and the judge who hears it.
pub(super) struct Forge {
    judge: Judge,
    uptime: Uptime,
    /// What the next look shows; tests spoil it.
    pub(super) look: Look,
    /// Numbers that its gaps say are lost; `None`: the list is shown as it is,
    /// without gaps between its records.
    pub(super) lost: Option<Vec<u32>>,
    next: u32,
    violated: Option<Violation>,
}

impl Forge {
    pub(super) fn with(terms: Terms) -> Self {
        let look = Look {
            settings: Ok(terms.settings),
            tally: Some(tally()),
            list: Vec::new(),
            wear: Wear { openings: vec![0; 3], refusals: vec![0; 3], violations: 0 },
        };
        let (judge, uptime) = (Judge::new(terms), Uptime::ZERO);
        Self { judge, uptime, look, lost: Some(Vec::new()), next: 1, violated: None }
    }

    /// A lock at rest after its first boot.
    pub(super) fn booted() -> Self {
        let mut forge = Self::with(TERMS);
        forge.on().boot().rest();
        forge
    }

    /// The same with a time delay of ten minutes, claimed within three.
    pub(super) fn delayed() -> Self {
        let policy = Policy { delay: Seconds::new(600), ..Policy::DEFAULT };
        let settings = Print { policy, ..TERMS.settings };
        let mut forge = Self::with(Terms { settings, ..TERMS });
        forge.on().boot().rest();
        forge
    }

    pub(super) fn see(&mut self, happening: &Happening) -> &mut Self {
        if self.violated.is_none() {
            self.violated = self.judge.see(happening).err();
        }
        self
    }

    fn line(&mut self, what: What) -> &mut Self {
        let line = Line { uptime: self.uptime, chip: Chip::At(Utc::from_secs(9)), what };
        self.see(&Happening::Line(line))
    }

    /// What was violated first.
    pub(super) fn violated(&self) -> Option<Invariant> {
        self.violated.as_ref().map(|violation| violation.of)
    }

    pub(super) fn later(&mut self, seconds: u32) -> &mut Self {
        self.uptime = self.uptime.after(Seconds::new(seconds));
        self
    }

    pub(super) fn on(&mut self) -> &mut Self {
        self.uptime = Uptime::ZERO;
        self.line(What::PowerOn)
    }

    pub(super) fn cut(&mut self) -> &mut Self {
        self.line(What::PowerCut)
    }

    /// A boot finds what was written, and writes that it came.
    pub(super) fn boot(&mut self) -> &mut Self {
        self.mounted_in(9);
        let newest = self.look.list.iter().rev().filter_map(|entry| match entry {
            Entry::Record(_, record) => Some(&record.event),
            Entry::Gap { .. } => None,
        });
        let powered_up = |event: &&Event| matches!(event, Event::PoweredUp { .. });
        if newest.take(2).filter(powered_up).count() == 2 {
            return self.wrote(Write::Tally(Tally::PoweredUp));
        }
        let unrecorded = self.tally().power_ups;
        self.wrote(record(Event::PoweredUp { unrecorded }))
    }

    /// A boot finds what was written.
    pub(super) fn mounted_in(&mut self, steps: u64) -> &mut Self {
        self.see(&Happening::Boot(Box::new(self.shown()), steps))
    }

    pub(super) fn looked(&mut self) -> &mut Self {
        self.see(&Happening::Look(Box::new(self.shown())))
    }

    /// The tally that the next look shows.
    pub(super) fn tally(&mut self) -> &mut TallyState {
        self.look.tally.get_or_insert(tally())
    }

    /// The look with gaps where numbers are missing.
    fn shown(&self) -> Look {
        let mut look = self.look.clone();
        let Some(lost) = &self.lost else { return look };
        let mut due = 1;
        for entry in &self.look.list {
            let Entry::Record(number, _) = entry else { continue };
            if due < *number {
                let (from, to) = (due, number - 1);
                let lost = lost.iter().filter(|lost| (from..=to).contains(lost)).count();
                let lost = u32::try_from(lost).unwrap();
                let place = look.list.iter().position(|other| other == entry).unwrap();
                look.list.insert(place, Entry::Gap { from, to, lost });
            }
            due = number + 1;
        }
        look
    }

    /// The number is listed no longer, and its gap says that it is lost.
    pub(super) fn lose(&mut self, number: u32) -> &mut Self {
        self.look.list.retain(|e| !matches!(e, Entry::Record(other, _) if *other == number));
        self.lost.get_or_insert_default().push(number);
        self
    }

    pub(super) fn rest(&mut self) -> &mut Self {
        self.rested_after(9)
    }

    pub(super) fn rested_after(&mut self, steps: u64) -> &mut Self {
        self.see(&Happening::Rest { steps })
    }

    pub(super) fn spoilt(&mut self, spoilt: Spoilt) -> &mut Self {
        self.see(&Happening::Spoilt(spoilt))
    }

    pub(super) fn told_digit(&mut self) -> &mut Self {
        self.line(What::Told(Told::Digit))
    }

    /// Another judge, who knows of the records and hears the story from here on.
    pub(super) fn unjudged(&mut self) -> &mut Self {
        self.judge = Judge::new(TERMS);
        for entry in &self.look.list {
            let Entry::Record(_, record) = entry else { continue };
            let what = What::Wrote(Write::Record(*record), Durable::Yes);
            self.judge.audit.line(&Line { uptime: self.uptime, chip: Chip::Lost, what }).unwrap();
        }
        self
    }

    /// Another judge, who hears that the flash has this tally.
    pub(super) fn sees_the_tally(&mut self) -> &mut Self {
        let tally = self.tally().clone();
        self.unjudged();
        self.judge.counts.begin_with(&tally);
        self.on().boot().rest()
    }

    /// A change of the settings that its record tells.
    pub(super) fn made(&mut self, record: Record) -> &mut Self {
        self.line(What::Wrote(Write::Edit(record), Durable::Yes))
    }

    pub(super) fn told_bolt(&mut self) -> &mut Self {
        self.line(What::Told(Told::Bolt(Bolt::Drawn)))
    }

    /// Everything is forgotten, by nobody.
    pub(super) fn reset(&mut self) -> &mut Self {
        let change = Change::Reset;
        self.made(Record { at: None, event: Event::Changed { by: None, change } })
    }

    pub(super) fn did(&mut self, effect: Effect) -> &mut Self {
        self.line(What::Did(effect))
    }

    pub(super) fn wrote(&mut self, write: Write) -> &mut Self {
        self.wrote_so(write, Durable::Yes)
    }

    /// What is not durable does not reach the flash; see [`Forge::reached`].
    pub(super) fn wrote_so(&mut self, write: Write, durable: Durable) -> &mut Self {
        if durable == Durable::Yes {
            self.reached(write);
        }
        self.line(What::Wrote(write, durable))
    }

    /// The flash has it, whatever the lock knows.
    pub(super) fn reached(&mut self, write: Write) -> &mut Self {
        match write {
            Write::Record(record) | Write::Edit(record) => {
                self.look.list.push(Entry::Record(self.next, record));
                self.next += 1;
            }
            Write::Tally(entry) => self.tally().apply(entry),
        }
        self
    }

    /// The settings are changed, and a record of it is there or not.
    pub(super) fn edited(&mut self, after: Print, durable: Durable, recorded: bool) -> &mut Self {
        self.edited_as(Event::LeftOpen, after, durable, recorded)
    }

    /// The same, with that event on record.
    pub(super) fn edited_as(
        &mut self,
        event: Event,
        after: Print,
        durable: Durable,
        recorded: bool,
    ) -> &mut Self {
        let write = record(event);
        if recorded {
            self.reached(write);
        }
        let Write::Record(record) = write else { return self };
        let what = What::Wrote(Write::Edit(record), durable);
        let line = Line { uptime: self.uptime, chip: Chip::At(Utc::from_secs(9)), what };
        self.see(&Happening::Edited { line, record, durable, after: Some(after) })
    }

    /// A number that no record will ever have.
    pub(super) fn burn(&mut self) -> &mut Self {
        self.lost.get_or_insert_default().push(self.next);
        self.next += 1;
        self
    }

    /// A code on `n` is counted.
    pub(super) fn try_on(&mut self, n: u8) -> &mut Self {
        self.line(What::Told(Told::Ok)).wrote(Write::Tally(Tally::Counted(number(n))))
    }

    /// `n` opens.
    pub(super) fn opening(&mut self, n: u8) -> &mut Self {
        self.try_on(n).wrote(released(n)).did(FREE).did(SAYS_RELEASED).wrote(cleared(n))
    }

    /// A wrong code on `n`.
    pub(super) fn wrong(&mut self, n: u8) -> &mut Self {
        self.try_on(n).wrote(record(Event::WrongCode { who: number(n) })).did(REFUSED)
    }
}

pub(super) fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

pub(super) const fn record(event: Event) -> Write {
    Write::Record(Record { at: Some(Utc::from_secs(9)), event })
}

fn people(n: u8) -> People {
    People { first: number(n), second: None }
}

pub(super) fn released(n: u8) -> Write {
    record(Event::Released { people: people(n), outcome: Outcome::Plain })
}

pub(super) fn delay_started(n: u8) -> Write {
    record(Event::DelayStarted { people: people(n), outcome: Outcome::Plain })
}

pub(super) fn refused(n: u8, why: Refusal, outcome: Outcome) -> Write {
    record(Event::Refused { who: number(n), why, outcome })
}

pub(super) fn cleared(n: u8) -> Write {
    Write::Tally(Tally::Cleared(number(n)))
}
