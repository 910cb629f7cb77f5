//! What was done, as a drill file that does the same.
//!
//! The file holds the keys that were pressed, as every drill does: codes of a
//! demonstration among them. It is for locks of the emulator only.

use std::fmt::Write as _;

use emulated_board::fuse::Cut;
use lock_core::keys::Key;
use lock_core::link::extract::Scope;
use lock_core::port::{Bolt, Door, Inhibit, Switch};
use lock_core::time::{Utc, Zone};

use super::front::local_iso;
use crate::audit;
use crate::drill::{
    self, Act, ClockChip, Drill, Fall, Fresh, Hand, Listed, OneTime, Power, Since, Which, words_on,
};
use crate::world::World;

/// Most acts of a recording: hours of demonstrating, a few hundred kilobytes.
const MOST: usize = 2_000;

/// A recording under way.
#[derive(Default)]
pub(super) struct Recording {
    acts: Vec<Recorded>,
    /// What was on record when an expectation last named it.
    told: Listed,
    /// Why nothing more is recorded, if that is so.
    ended: Option<&'static str>,
}

/// Something that was done, and what was to be seen then. No `Debug`: keys may
/// be codes.
struct Recorded {
    at: Utc,
    what: What,
    expect: String,
}

lock_core::silent!(Recorded);

enum What {
    Keys(Vec<Key>),
    /// A line of the file.
    Line(String),
}

lock_core::silent!(What);

impl Recording {
    /// From here on; what is on record already was before.
    pub(super) fn from_here(world: &mut World) -> Self {
        Self { told: Listed::now(world), ..Self::default() }
    }

    /// How many acts there are.
    pub(super) const fn length(&self) -> usize {
        self.acts.len()
    }

    /// Why nothing more is recorded, if that is so.
    pub(super) const fn ended(&self) -> Option<&'static str> {
        self.ended
    }

    /// Something was done that no drill can do again.
    pub(super) fn stop(&mut self) {
        self.ended = self.ended.or(Some("a stick was used"));
    }

    /// Notes what was done at `at`, and what is to be seen now. Time that passes
    /// is told by the next act.
    pub(super) fn note(&mut self, at: Utc, act: &Act, world: &mut World) {
        if self.ended.is_some() {
            return;
        }
        let what = match act {
            Act::Wait(_) | Act::Until(_) => return,
            Act::Keys(keys, 0) => What::Keys(keys.clone()),
            Act::Keys(keys, pace) => {
                What::Line(format!("keys = \"{}\"\npace = \"{pace}s\"", typed(keys)))
            }
            other => What::Line(line(other)),
        };
        let (audit, told) = self.audit(world);
        let room = self.acts.len() < MOST;
        match (&what, self.acts.last_mut()) {
            // A key at a time, at one time, is one row of keys; the record of one
            // in the middle would be told before the others.
            (What::Keys(more), Some(Recorded { at: last, what: What::Keys(keys), expect }))
                if *last == at && !expect.contains("audit") =>
            {
                keys.extend(more.iter().copied());
                *expect = expected(world, audit.as_deref());
            }
            _ if !room => {
                self.ended = Some("full");
                return;
            }
            _ => {
                let expect = expected(world, audit.as_deref());
                self.acts.push(Recorded { at, what, expect });
            }
        }
        self.told = told;
    }

    /// The kinds that became durable since an expectation last named them, if there are
    /// any; and what is on record now.
    fn audit(&self, world: &mut World) -> (Option<Vec<&'static str>>, Listed) {
        let (kinds, listed) = self.told.since(world);
        ((!kinds.is_empty()).then_some(kinds), listed)
    }

    /// The drill file.
    pub(super) fn file(&self, drill: &Drill, world: &World) -> String {
        let (zone, site) = (&drill.site.zone, &drill.site.places.file);
        let mut text = format!(
            "# Recorded on the trainer's page. {site} must lie beside this file. It holds the\n\
             # keys that were pressed, codes of the demonstration among them: keep it to the\n\
             # emulator.\n\
             title = {}\nsite = {}\nlock = {}\nstart = {}\n",
            quoted(&format!("Recorded at {}", audit::local(drill.start, zone))),
            quoted(site),
            quoted(&drill.lock),
            instant(zone, drill.start),
        );
        text += match drill.fresh {
            Fresh::No => "",
            Fresh::Factory => "fresh = true\n",
            Fresh::Erased => "fresh = \"erased\"\n",
        };
        let mut now = drill.start;
        for Recorded { at, what, expect } in &self.acts {
            if *at > now {
                let _ = write!(text, "\n[[step]]\nuntil = {}\n", instant(zone, *at));
                now = *at;
            }
            let what = match what {
                What::Keys(keys) => format!("keys = \"{}\"", typed(keys)),
                What::Line(line) => line.clone(),
            };
            let _ = write!(text, "\n[[step]]\n{what}\n{expect}\n");
        }
        if let Some(why) = self.ended {
            return format!("{text}\n# Nothing more was recorded: {why}.\n");
        }
        let end = world.utc();
        if end > now {
            let expect = expected(world, None);
            let _ = write!(text, "\n[[step]]\nuntil = {}\n{expect}\n", instant(zone, end));
        }
        if self.acts.is_empty() && end <= now {
            let _ = write!(text, "\n[[step]]\n{}\n", expected(world, None));
        }
        text
    }
}

/// What is to be seen now.
fn expected(world: &World, audit: Option<&[&str]>) -> String {
    let mut text = format!(
        "expect = {{ state = \"{}\", bolt = \"{}\", alarm = \"{}\", penalty = {}, screen = {}",
        world.access().unwrap_or("no power"),
        drill::bolt(world.bolt()),
        drill::alarm(world.alarm()),
        world.in_penalty(),
        quoted(&words_on(world)),
    );
    if let Some(kinds) = audit {
        let kinds: Vec<String> = kinds.iter().map(|kind| quoted(kind)).collect();
        let _ = write!(text, ", audit = [{}]", kinds.join(", "));
    }
    text + " }"
}

/// An act as a line of a drill.
fn line(act: &Act) -> String {
    let word = |key: &str, word: &str| format!("{key} = \"{word}\"");
    match act {
        // Told by the next act, or with their keys.
        Act::Keys(keys, _) => format!("keys = \"{}\"", typed(keys)),
        Act::Wait(seconds) => format!("wait = \"{seconds}s\""),
        Act::Until(_) => String::new(),
        Act::Bolt(Hand::Turn(Bolt::Drawn)) => word("bolt", "draw"),
        Act::Bolt(Hand::Turn(Bolt::Thrown)) => word("bolt", "throw"),
        Act::Bolt(Hand::Force) => word("bolt", "force"),
        Act::Door(Door::Open) => word("door", "open"),
        Act::Door(Door::Closed) => word("door", "close"),
        Act::Power(Power::Cut) => word("power", "cut"),
        Act::Power(Power::Restore) => word("power", "restore"),
        Act::Supply(measured) => format!("supply = \"{}mV\"", measured.get()),
        Act::Inhibit(to) => format!("inhibit = {}", *to == Inhibit::Set),
        Act::Switch(Switch::On) => word("switch", "on"),
        Act::Switch(Switch::Off) => word("switch", "off"),
        Act::Clock(ClockChip::Lost) => word("clock", "lost"),
        Act::Clock(ClockChip::Jumps(by)) => {
            let sign = if *by < 0 { '-' } else { '+' };
            format!("clock = \"{sign}{}s\"", by.unsigned_abs())
        }
        Act::Courier(code) => courier(*code),
        Act::Stick(folder, _) => format!("stick = {}", quoted(folder)),
        Act::LoadNewest => word("load", "newest"),
        Act::Load(site) => format!("load = {}", quoted(&site.places.file)),
        Act::Collect(scope, since) => word(
            "collect",
            match (scope, since) {
                (Scope::All, Since::Last) => "since-last",
                (Scope::All, Since::Ever) => "all",
                (Scope::Openings, _) => "openings",
                (Scope::Changes, _) => "changes",
                (Scope::Alarms, _) => "alarms",
            },
        ),
        Act::Cut(fall, Cut { after, class, seed }) => {
            let at = match fall {
                Fall::Step => "",
                Fall::Drive => "at = \"drive\", ",
                Fall::Record => "at = \"record\", ",
            };
            format!("cut = {{ {at}after = {after}, class = \"{}\", seed = {seed} }}", class.name())
        }
    }
}

fn courier(OneTime { number, which, duress }: OneTime) -> String {
    let which = match which {
        Which::Next(0) => String::new(),
        Which::Next(skip) => format!(", skip = {skip}"),
        Which::Again => ", again = true".to_owned(),
    };
    let duress = if duress { ", duress = true" } else { "" };
    let number = format!("\"{:02}\"", number.get());
    match format!("{which}{duress}") {
        more if more.is_empty() => format!("courier = {number}"),
        more => format!("courier = {{ number = {number}{more} }}"),
    }
}

fn typed(keys: &[Key]) -> String {
    let mut text = String::new();
    for key in keys {
        match key {
            Key::Digit(digit) => {
                let _ = write!(text, "{}", digit.get());
            }
            Key::Ok => text += " ok ",
            Key::Back => text += " back ",
        }
    }
    text.trim().replace("  ", " ")
}

/// A local time with its offset, so that an hour that comes twice is told once.
fn instant(zone: &Zone, at: Utc) -> String {
    let local = zone.local(at);
    let east = local.offset.as_secs();
    let (sign, minutes) = (if east < 0 { '-' } else { '+' }, east.unsigned_abs() / 60);
    format!("{}{sign}{:02}:{:02}", local_iso(zone, at), minutes / 60, minutes % 60)
}

/// A TOML string.
fn quoted(text: &str) -> String {
    let mut quoted = String::from('"');
    for c in text.chars() {
        match c {
            '"' => quoted += "\\\"",
            '\\' => quoted += "\\\\",
            c if c.is_control() => {
                let _ = write!(quoted, "\\u{:04X}", u32::from(c));
            }
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}

/// What is recorded is a drill that passes.
#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use emulated_board::flash::OpKind;
    use emulated_board::trace::{Durable, What as Done};
    use lock_core::holder::Number;
    use lock_core::keys::Digit;
    use lock_core::port::Write;

    use super::*;
    use crate::drill::Play;
    use crate::page::Shown;
    use crate::site::Site;
    use crate::world::Spoilt;

    fn bare(fresh: Fresh) -> Drill {
        let Shown { site, lock, start, .. } = Shown::demo();
        let (title, file) = ("T".to_owned(), "the page".to_owned());
        Drill { title, teaches: None, file, site, lock, fresh, paired: None, start, steps: vec![] }
    }

    fn parsed(text: &str, site: &Arc<Site>) -> Drill {
        let parsed = Drill::parse("recorded.toml", text, &mut |_: &str| Ok(Arc::clone(site)));
        parsed.map_err(|why| format!("{why}\n{text}")).unwrap()
    }

    fn keys(digits: &[u8]) -> Act {
        let digits = digits.iter().map(|digit| Key::Digit(Digit::new(*digit).unwrap()));
        Act::Keys(digits.chain([Key::Ok]).collect(), 0)
    }

    /// Couriers' codes of each kind, a cut within a record, and the next boot.
    #[test]
    fn what_was_recorded_plays_again() {
        let number = Number::new(40).unwrap();
        let courier = |which, duress| Act::Courier(OneTime { number, which, duress });
        let cut = Cut { after: 2, class: emulated_board::fuse::Class::Prefix, seed: 1 };
        let right = keys(&[1, 2, 7, 3, 9, 2, 0, 4]);
        let acts = [
            courier(Which::Next(0), false),
            courier(Which::Again, true),
            courier(Which::Next(3), true),
            Act::Wait(400),
            right,
            Act::Wait(100),
            Act::Cut(Fall::Record, cut),
            keys(&[1, 2, 0, 0, 0, 0, 0, 0]),
            Act::Power(Power::Restore),
            Act::Wait(60),
        ];
        for fresh in [Fresh::No, Fresh::Factory, Fresh::Erased] {
            let drill = bare(fresh);
            let mut play = Play::start(&drill).unwrap();
            let mut recording = Recording::from_here(play.world_mut());
            let enough = if fresh == Fresh::No { acts.len() } else { 6 };
            for act in acts.iter().take(enough) {
                let at = play.world().utc();
                play.perform(act);
                recording.note(at, act, play.world_mut());
            }
            let text = recording.file(&drill, play.world());
            for part in ["again = true, duress = true }", "skip = 3, duress = true }"] {
                assert!(text.contains(part), "{text}");
            }
            if fresh == Fresh::No {
                let named = text.matches("audit = [").count();
                assert!(named >= 4 && text.contains("no power"), "{text}");
            }
            let again = parsed(&text, &drill.site);
            assert_eq!(again.fresh, fresh);
            let played = Play::start(&again).unwrap().finish();
            assert_eq!(played.failures, [], "{text}");
        }
    }

    /// A record whose write failed is not recorded as one that must be there.
    #[test]
    fn a_record_that_is_not_durable_is_not_told() {
        let drill = bare(Fresh::No);
        let act = keys(&[1, 2, 0, 0, 0, 0, 0, 0]);
        for after in 0..80 {
            let mut play = Play::start(&drill).unwrap();
            let mut recording = Recording::from_here(play.world_mut());
            play.world_mut().spoil(|flash| {
                flash.fail_calls(OpKind::Program, after, u32::MAX);
                Spoilt::Bus
            });
            play.perform(&act);
            recording.note(drill.start, &act, play.world_mut());
            let text = recording.file(&drill, play.world());
            let asked = play
                .finish()
                .trace
                .into_iter()
                .any(|line| matches!(line.what, Done::Wrote(Write::Record(_), Durable::No)));
            if asked {
                assert!(!text.contains("audit"), "{text}");
                return;
            }
        }
        panic!("no record ever failed");
    }
}
