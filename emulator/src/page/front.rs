//! The lock's front and the room behind it; the clock; the records.

use std::sync::Arc;

use base64::prelude::{BASE64_STANDARD, Engine as _};
use lock_core::audit::{Entry, Seq};
use lock_core::port::{Alarm, Bolt, Door, Inhibit, Sound, Switch};
use lock_core::role::Role;
use lock_core::time::{Utc, Weekday, Zone};
use lock_core::words;
use serde_json::{Value, json};

use super::lesson::lessons;
use crate::audit;
use crate::drill::Drill;
use crate::picture;
use crate::site::Site;
use crate::world::World;

/// Records that the page lists, the newest ones.
const RECORDS: u32 = 60;

/// The site as the page needs it; no code is in it.
pub(super) fn site(drill: &Drill, serial: u64, chosen: u8, stick: &[String]) -> Value {
    let site: &Arc<Site> = &drill.site;
    let holders = site.holders.iter().map(|person| {
        let number = person.number;
        json!({
            "number": number.get(),
            "name": person.name,
            "role": person.role.name(),
            "demo_code": site.demo_codes.iter().any(|code| code.number() == number),
            "courier": person.role == Role::Courier,
        })
    });
    let lessons = lessons().iter().map(|lesson| {
        let Drill { title, teaches, .. } = &*lesson.drill;
        json!({ "id": lesson.id, "title": title, "teaches": teaches })
    });
    json!({
        "serial": serial,
        "site": site.name,
        "zone": site.zone_name,
        "lock": drill.lock,
        "locks": site.locks.iter().map(|lock| lock.id.as_str()).collect::<Vec<_>>(),
        "holders": holders.collect::<Vec<_>>(),
        "chosen": chosen,
        "stick": stick,
        "lessons": lessons.collect::<Vec<_>>(),
    })
}

/// The site to somebody who stands in front of the lock: no names.
pub(super) fn sign(drill: &Drill, serial: u64) -> Value {
    json!({
        "serial": serial,
        "site": drill.site.name,
        "zone": drill.site.zone_name,
        "lock": drill.lock,
        "locks": [drill.lock],
        "holders": [],
        "chosen": null,
        "stick": [],
        "lessons": [],
    })
}

/// What is seen and heard in front of the lock: no alarm, nothing of the room behind.
pub(super) fn outside(world: &World, (sounds, made): (&[Sound], u64)) -> Value {
    let all = front(world, (sounds, made), "");
    let seen = ["power", "screen", "bolt", "blocked", "door", "sounds", "sounds_made"];
    seen.into_iter().map(|key| (key, all[key].clone())).collect()
}

/// What is to be seen in front and behind. `sounds` were made since the last
/// time; `made` counts all of them.
pub(super) fn front(world: &World, (sounds, made): (&[Sound], u64), link: &str) -> Value {
    let scene = world.scene();
    let screen = scene.screen.map(|screen| {
        let lines = words::english(&screen);
        let body: Vec<&str> = lines.body().collect();
        json!({
            "title": lines.title(),
            "lines": body,
            "pixels": BASE64_STANDARD.encode(picture::frame(&screen).bytes()),
        })
    });
    let sounds: Vec<&str> = sounds.iter().map(|sound| sound_name(*sound)).collect();
    json!({
        "power": world.has_power(),
        "state": world.access().unwrap_or("no power"),
        "penalty": world.in_penalty(),
        "screen": screen,
        "bolt": match scene.bolt { Bolt::Drawn => "drawn", Bolt::Thrown => "thrown" },
        "blocked": scene.blocker == lock_core::port::Drive::Block,
        "door": match scene.door { Door::Open => "open", Door::Closed => "closed" },
        "inhibit": scene.inhibit == Inhibit::Set,
        "switch": scene.switch == Switch::On,
        "supply": scene.supply.get(),
        "alarm": match world.alarm() {
            Alarm::Quiet => "quiet",
            Alarm::Tamper => "tamper",
            Alarm::Duress => "duress",
        },
        "sounds": sounds,
        "sounds_made": made,
        "link": link,
    })
}

const fn sound_name(sound: Sound) -> &'static str {
    match sound {
        Sound::Key => "key",
        Sound::Accepted => "accepted",
        Sound::Refused => "refused",
        Sound::Warning => "warning",
    }
}

/// The time on the wall, and what the lock makes of it.
pub(super) fn clock(world: &World, zone: &Zone, speed: u32, wake: Option<Utc>) -> Value {
    let now = world.utc();
    let ahead = world.scene().clock.ahead;
    json!({
        "utc": now.as_secs(),
        "local": day_and_time(zone, now, Seconds::Always),
        "iso": local_iso(zone, now),
        "offset": offset(zone, now),
        "speed": speed,
        "chip": ahead,
        "believed": world.believed().is_some(),
        "next": wake.map(|wake| moment(zone, wake, now)),
    })
}

/// Whether whole minutes are written with their seconds.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Seconds {
    Always,
    IfAny,
}

/// `Mon 1 Mar 2027 08:45:00`.
fn day_and_time(zone: &Zone, at: Utc, seconds: Seconds) -> String {
    let (year, _, _) = zone.local(at).date.ymd();
    format!("{} {year} {}", day(zone, at), time(zone, at, seconds))
}

/// `08:30` on the same day as `now`, otherwise `Tue 2 Mar 08:30`.
pub(super) fn moment(zone: &Zone, at: Utc, now: Utc) -> String {
    let (there, here) = (zone.local(at).date, zone.local(now).date);
    let time = time(zone, at, Seconds::IfAny);
    if there == here {
        return time;
    }
    let (year, _, _) = there.ymd();
    if year == here.ymd().0 {
        format!("{} {time}", day(zone, at))
    } else {
        format!("{} {year} {time}", day(zone, at))
    }
}

fn day(zone: &Zone, at: Utc) -> String {
    day_of(zone.local(at).date)
}

/// `Mon 1 Mar`.
pub(super) fn day_of(date: lock_core::time::Date) -> String {
    let (_, month, day) = date.ymd();
    let weekday = match date.weekday() {
        Weekday::Mon => "Mon",
        Weekday::Tue => "Tue",
        Weekday::Wed => "Wed",
        Weekday::Thu => "Thu",
        Weekday::Fri => "Fri",
        Weekday::Sat => "Sat",
        Weekday::Sun => "Sun",
    };
    const MONTHS: [&str; 12] =
        ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    let month = usize::from(month).checked_sub(1).and_then(|month| MONTHS.get(month));
    format!("{weekday} {day} {}", month.unwrap_or(&"?"))
}

fn time(zone: &Zone, at: Utc, seconds: Seconds) -> String {
    let (hour, minute, second) = zone.local(at).hms();
    if second == 0 && seconds == Seconds::IfAny {
        format!("{hour:02}:{minute:02}")
    } else {
        format!("{hour:02}:{minute:02}:{second:02}")
    }
}

/// As a field for dates and times takes it.
pub(super) fn local_iso(zone: &Zone, at: Utc) -> String {
    let local = zone.local(at);
    let ((year, month, day), (hour, minute, second)) = (local.date.ymd(), local.hms());
    format!("{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}:{second:02}")
}

fn offset(zone: &Zone, at: Utc) -> String {
    let east = zone.local(at).offset.as_secs();
    let (sign, minutes) = (if east < 0 { '-' } else { '+' }, east.unsigned_abs() / 60);
    format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
}

/// The newest records, the newest first; `None` without power, when nobody can
/// read them.
pub(super) fn records(world: &mut World, site: &Site) -> Option<Value> {
    let memory = world.memory()?;
    let newest = memory.newest().map_or(0, |(seq, _)| seq.0);
    let from = Seq(newest.saturating_sub(RECORDS - 1));
    let mut rows: Vec<Value> = memory.records(from).map(|entry| row(&entry, site)).collect();
    rows.reverse();
    Some(json!({ "newest": newest, "rows": rows }))
}

fn row(entry: &Entry, site: &Site) -> Value {
    match entry {
        Entry::Record(seq, record) => {
            let at = record.at.map(|at| audit::local(at, &site.zone));
            json!({
                "seq": seq.0,
                "at": at,
                "kind": record.event.kind(),
                "detail": audit::detail(&record.event, site),
            })
        }
        Entry::Gap(gap) => json!({
            "seq": gap.from.0,
            "at": null,
            "kind": "gap",
            "detail": audit::words::gap_words(gap),
        }),
    }
}
