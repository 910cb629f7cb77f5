//! The tour: a day of the Harbour Bakery, played on the real logic.
//!
//! Chapters are drills, embedded in the program; a lock that appears in several
//! of them lives on from one to the next. What they expect is checked while
//! they play.

use std::collections::BTreeMap;
use std::io;
use std::sync::Arc;

use lock_core::audit::Seq;
use lock_core::keys::Key;
use lock_core::port::{Alarm, Bolt, Door, Inhibit, Switch};
use lock_core::screen::Screen;

use crate::audit;
use crate::caution;
use crate::document::LoadError;
use crate::drill::{Act, ClockChip, Drill, Failure, Hand, OneTime, Play, Power, Step, Which};
use crate::picture::{Look, panel};
use crate::plain::wrapped;
use crate::site::Site;
use crate::world::World;

/// The demo site.
pub const SITE: &str = include_str!("../demo/harbour-bakery.toml");

const CHAPTERS: [(&str, &str); 8] = [
    ("1-early-morning.toml", include_str!("../demo/tour/1-early-morning.toml")),
    ("2-wrong-codes.toml", include_str!("../demo/tour/2-wrong-codes.toml")),
    ("3-delay-and-claim.toml", include_str!("../demo/tour/3-delay-and-claim.toml")),
    ("4-two-people.toml", include_str!("../demo/tour/4-two-people.toml")),
    ("5-under-threat.toml", include_str!("../demo/tour/5-under-threat.toml")),
    ("6-closing-early.toml", include_str!("../demo/tour/6-closing-early.toml")),
    ("7-a-closed-day.toml", include_str!("../demo/tour/7-a-closed-day.toml")),
    ("8-clock-change-nights.toml", include_str!("../demo/tour/8-clock-change-nights.toml")),
];

const NEXT: &str = "\
What to try next
  emulator drill emulator/demo/drills             what each rule promises, checked
  emulator plan check emulator/demo/harbour-bakery.toml
  emulator plan openings emulator/demo/harbour-bakery.toml --lock till \\
           --holder 12 --from 2027-03-01 --to 2027-04-01
  Change a window in a copy of harbour-bakery.toml, plan again, play a drill
  against it. `emulator --help` lists the rest; from a checkout, write
  `cargo run --release --` for `emulator`.";

/// The chapters, read.
///
/// # Errors
/// [`LoadError`] if one is refused; a test holds that none is.
pub fn chapters() -> Result<Vec<Drill>, LoadError> {
    let site = Arc::new(Site::parse("harbour-bakery.toml", SITE)?);
    let read = |(name, text): &(&str, &str)| {
        Drill::parse(name, text, &mut |_: &str| Ok(Arc::clone(&site)))
    };
    CHAPTERS.iter().map(read).collect()
}

/// Plays the tour; what was not as expected, by chapter.
///
/// # Errors
/// Whatever writing to `out` fails with.
pub fn play(
    chapters: &[Drill],
    out: &mut dyn io::Write,
    look: Look,
) -> io::Result<Vec<(String, Failure)>> {
    let caution = wrapped(&caution::all());
    writeln!(out, "A day with an electronic time lock, on simulated time.\n\n{caution}")?;
    let mut worlds: BTreeMap<&str, World> = BTreeMap::new();
    let mut failures = Vec::new();
    let total = chapters.len();
    for (place, chapter) in chapters.iter().enumerate() {
        let title = format!("{} of {total} — {}", place + 1, chapter.title);
        writeln!(out, "\n\n{title}\n{}", "═".repeat(title.chars().count()))?;
        let mut play = match worlds.remove(chapter.lock.as_str()) {
            Some(world) => Play::go_on(chapter, world),
            None => Play::start(chapter).map_err(|why| io::Error::other(format!("{why:?}")))?,
        };
        chapter_out(&mut play, out, look)?;
        let found = play.failures().iter().cloned();
        failures.extend(found.map(|failure| (chapter.file.clone(), failure)));
        worlds.insert(&chapter.lock, play.into_world());
    }
    writeln!(out, "\n\nThe audit of each lock\n══════════════════════")?;
    for (lock, world) in &mut worlds {
        if let Some(chapter) = chapters.iter().find(|chapter| chapter.lock == *lock) {
            print_audit(lock, world, &chapter.site, out)?;
        }
    }
    writeln!(out, "\n\n{NEXT}")?;
    Ok(failures)
}

fn chapter_out(play: &mut Play<'_>, out: &mut dyn io::Write, look: Look) -> io::Result<()> {
    let mut shown: Option<Screen> = None;
    let mut alarm = play.world().alarm();
    while let Some(step) = play.step() {
        let world = play.world();
        let at = audit::local(world.utc(), &play.drill().site.zone);
        if let Some(say) = &step.say {
            writeln!(out, "\n{}", wrapped(say))?;
        }
        match act(step) {
            Some(act) => writeln!(out, "\n  {at}   {act}")?,
            None => writeln!(out, "\n  {at}")?,
        }
        if world.screen() != shown {
            shown = world.screen();
            if let Some(screen) = &shown {
                write!(out, "{}", panel(screen, look))?;
            }
        }
        if world.alarm() != alarm {
            alarm = world.alarm();
            let line = match alarm {
                Alarm::Quiet => "quiet",
                Alarm::Tamper => "TAMPER: open without a release",
                Alarm::Duress => "DURESS: send help, quietly",
            };
            writeln!(out, "  Alarm line, far away: {line}")?;
        }
    }
    Ok(())
}

/// What a step does, in words that show no code.
pub(crate) fn act(step: &Step) -> Option<String> {
    Some(match step.act.as_ref()? {
        Act::Keys(keys, _) => format!("keys: {}", typed(keys)),
        Act::Wait(seconds) if seconds.is_multiple_of(60) => {
            format!("time passes: {} min", seconds / 60)
        }
        Act::Wait(seconds) => format!("time passes: {seconds} s"),
        Act::Until(_) => "time passes".to_owned(),
        Act::Bolt(Hand::Turn(Bolt::Drawn)) => "a hand draws the bolt".to_owned(),
        Act::Bolt(Hand::Turn(Bolt::Thrown)) => "a hand throws the bolt".to_owned(),
        Act::Bolt(Hand::Force) => "the bolt is drawn by force".to_owned(),
        Act::Door(Door::Open) => "the door is opened".to_owned(),
        Act::Door(Door::Closed) => "the door is closed".to_owned(),
        Act::Power(Power::Cut) => "the battery is pulled".to_owned(),
        Act::Power(Power::Restore) => "the battery is back".to_owned(),
        Act::Cut(..) => "the battery is about to fail".to_owned(),
        Act::Supply(mv) => {
            format!("the supply reads {}.{:02} V", mv.get() / 1_000, mv.get() % 1_000 / 10)
        }
        Act::Inhibit(Inhibit::Set) => "the building's intruder alarm is set".to_owned(),
        Act::Inhibit(Inhibit::Clear) => "the building's intruder alarm is unset".to_owned(),
        Act::Switch(Switch::On) => "the service switch inside is turned on".to_owned(),
        Act::Switch(Switch::Off) => "the service switch inside is turned off".to_owned(),
        Act::Courier(OneTime { number, which, duress }) => {
            let code = match (which, duress) {
                (Which::Next(_), false) => "a one-time code",
                (Which::Next(_), true) => "the duress variant of a one-time code",
                (Which::Again, false) => "the same one-time code again",
                (Which::Again, true) => "the duress variant of the one-time code typed last",
            };
            format!("courier {:02} types {code}", number.get())
        }
        Act::Stick(..) => "a memory stick is plugged in".to_owned(),
        Act::LoadNewest => "the newest timetable file on the stick is loaded".to_owned(),
        Act::Load(_) => "the laptop loads a timetable file".to_owned(),
        Act::Collect(..) => "the laptop collects the audit".to_owned(),
        Act::Clock(ClockChip::Lost) => "the clock chip loses its time".to_owned(),
        Act::Clock(ClockChip::Jumps(by)) => format!("the clock chip jumps by {by} s"),
    })
}

/// Keys as they may be shown: of an entry the number, its code as dots.
#[must_use]
pub fn typed(keys: &[Key]) -> String {
    let mut text = String::new();
    let mut in_entry = 0;
    // A single digit after OK at rest picks from the list.
    let mut picks = false;
    for (place, key) in keys.iter().enumerate() {
        match key {
            Key::Digit(digit) if picks => {
                text += &format!("{} ", digit.get());
                picks = false;
            }
            Key::Digit(digit) => {
                in_entry += 1;
                if in_entry <= 2 {
                    text += &digit.get().to_string();
                    if in_entry == 2 {
                        text.push(' ');
                    }
                } else {
                    text.push('·');
                }
            }
            Key::Back => text += " back ",
            Key::Ok => {
                picks = in_entry == 0 && place == 0;
                text += if in_entry == 0 { "OK " } else { " OK  " };
            }
        }
        if matches!(key, Key::Back | Key::Ok) {
            in_entry = 0;
        }
    }
    text.trim_end().to_owned()
}

fn print_audit(
    lock: &str,
    world: &mut World,
    site: &Site,
    out: &mut dyn io::Write,
) -> io::Result<()> {
    writeln!(out, "\n{lock}")?;
    let Some(memory) = world.memory() else { return Ok(()) };
    for entry in memory.records(Seq(0)) {
        writeln!(out, "{}", audit::line(&entry, site))?;
    }
    Ok(())
}
