//! A story as events twice: with everybody's plain codes, and with the duress
//! variants of most of them. The reference says which digits end an entry, and as
//! what they would be judged at that moment. Source: `docs/behaviour.md`, section 3.

use crate::adapter::Core;
use crate::compare::OtherLock as _;
use crate::generator::Story;
use crate::reference::{Input, Key, Model};
use crate::seeds::Name;
use crate::walk::{Event, Walk};

/// The last digit of a right code, or of its variant.
pub(crate) struct Entry {
    at: usize,
    plain: u8,
    /// What it was entered for: a task, `open`, `second` or `penalty`.
    pub(crate) asked: &'static str,
    /// Whether it is a courier's one-time code.
    pub(crate) one_time: bool,
}

/// The events of a story, and where in them codes end.
pub(crate) struct Told {
    events: Vec<Event>,
    entries: Vec<Entry>,
}

impl Told {
    pub(crate) fn by(story: &Story) -> Self {
        let mut walk = Walk::new(story.start_utc);
        walk.make.office = Core::<()>::office();
        let (mut model, _) = walk.boot(&story.setup, story.flash);
        let (mut events, mut entries): (Vec<Event>, Vec<Entry>) = (Vec::new(), Vec::new());
        let mut typed = Typed::default();
        for step in &story.steps {
            walk.play(&mut model, step, &mut |model, event, _| {
                if matches!(event, Event::Input(_, Input::Key(Key::Ok))) {
                    entries.extend(typed.entry.take());
                }
                typed.follow(model, event, events.len());
                events.push(event.clone());
            });
        }
        Self { events, entries }
    }

    /// With plain codes only.
    pub(crate) fn plain(&self) -> Vec<Event> {
        self.with(&self.entries.iter().collect::<Vec<_>>(), 0)
    }

    /// With two entries in three under duress, and which.
    pub(crate) fn under_duress(&self, name: Name) -> (Vec<Event>, Vec<&Entry>) {
        let some = |entry: &&Entry| name.pick(u32::try_from(entry.at).expect("short"), 3) > 0;
        let plain = Self { events: self.plain(), entries: Vec::new() };
        let swapped: Vec<&Entry> = self.entries.iter().filter(some).collect();
        (plain.with(&swapped, 1), swapped)
    }

    /// Those entries end in the plain digit plus `more`, modulo ten.
    fn with(&self, entries: &[&Entry], more: u8) -> Vec<Event> {
        let mut events = self.events.clone();
        for entry in entries {
            let Event::Input(_, Input::Key(Key::Digit(last))) = &mut events[entry.at] else {
                unreachable!("a code ends in a digit");
            };
            *last = (entry.plain + more) % 10;
        }
        events
    }
}

/// What stands in an entry, and which event typed the last digit of it.
#[derive(Default)]
struct Typed {
    digits: String,
    last_at: usize,
    /// What *OK* would make of it now.
    entry: Option<Entry>,
}

impl Typed {
    fn follow(&mut self, model: &Model, event: &Event, at: usize) {
        let (asked, digits) = model.entry().unwrap_or_default();
        if matches!(event, Event::Input(_, Input::Key(Key::Digit(_)))) && self.digits != digits {
            self.last_at = at;
        }
        self.digits = digits.to_owned();
        self.entry = plain_digit(model, digits).map(|(plain, one_time)| Entry {
            at: self.last_at,
            plain,
            asked,
            one_time,
        });
    }
}

/// The last digit of the plain code, if those digits are somebody's code or its
/// variant, and either would be taken for what it is; and whether it is a one-time
/// code.
fn plain_digit(model: &Model, digits: &str) -> Option<(u8, bool)> {
    let (front, last) = digits.split_at_checked(digits.len().checked_sub(1)?)?;
    let last: u8 = last.parse().ok()?;
    let (duress, counter) = model.judged(digits)?;
    let plain = if duress { (last + 9) % 10 } else { last };
    let variant = (plain + 1) % 10;
    let both = [(plain, false), (variant, true)];
    let told_apart = both.iter().all(|(digit, duress)| {
        model.judged(&format!("{front}{digit}")) == Some((*duress, counter))
    });
    told_apart.then_some((plain, counter.is_some()))
}
