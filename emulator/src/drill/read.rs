//! From TOML to a drill, or why not.

use std::sync::Arc;

use lock_core::holder::Number;
use lock_core::keys::{self, Key};
use lock_core::link::extract::Scope;
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Bolt, Door, Inhibit, Switch};
use lock_core::time::Utc;
use toml::de::DeTable;

use super::beside::{Beside, Missing, NEWEST, Named, site_named};
use super::expect::{Expect, KINDS, Line, STATES};
use super::moment::instant;
use super::{Act, ClockChip, Drill, Fresh, Hand, OneTime, Power, Since, Step, Which};
use crate::document::{
    Field, LoadError, Read, Source, Table, Wrong, millivolts, nearest, no_toml, seconds,
};
use crate::site::Site;

/// Most characters of a title, and of a `say`.
const TITLE_MOST: usize = 80;
const SAY_MOST: usize = 400;
/// Most one-time codes that are left out: more than any lock looks ahead.
const SKIP_MOST: u32 = 99;

const ACTS: [&str; 15] = [
    "keys", "wait", "until", "bolt", "door", "power", "supply", "inhibit", "switch", "clock",
    "cut", "courier", "stick", "load", "collect",
];

pub(super) fn drill(name: &str, text: &str, beside: &mut dyn Beside) -> Result<Drill, LoadError> {
    let source = Source::new(name, text);
    let refused = |wrong: Box<Wrong>| LoadError::from(wrong.in_source(&source));
    let document = DeTable::parse(text).map_err(|error| refused(no_toml(&error)))?;
    let file = Table::new("the drill file", document.get_ref(), &(0..0));
    let missing = |missing| match missing {
        Missing::Wrong(wrong) => refused(wrong),
        Missing::Site(why) => why,
    };
    let field = head(&file).map_err(refused)?;
    let own = site_named(&field, beside).map_err(missing)?;
    let named = Named::read(&file, beside).map_err(missing)?;
    body(&file, name, own, &named, &source).map_err(refused)
}

/// What names the site file.
fn head<'t>(file: &Table<'t>) -> Read<Field<'t>> {
    file.only(&["title", "teaches", "site", "lock", "fresh", "start", "step"])?;
    file.need("site", "site = \"harbour-bakery.toml\"")
}

fn body(
    file: &Table<'_>,
    name: &str,
    site: Arc<Site>,
    named: &Named,
    source: &Source<'_>,
) -> Read<Drill> {
    let title = file.need("title", "title = \"Closed is closed\"")?.name(TITLE_MOST)?;
    let lock = file.need("lock", "lock = \"till\"")?;
    let id = lock.text()?;
    if site.lock(id).is_none() {
        let ids: Vec<&str> = site.locks.iter().map(|lock| lock.id.as_str()).collect();
        let remedy = match nearest(id, ids.iter().copied()) {
            Some(near) => format!("Did you mean `{near}`?"),
            None => format!("Locks of this site: {}.", ids.join(", ")),
        };
        let what = format!("`{id}` is no lock of {}.", site.places.file);
        return Err(Wrong::new(&lock.at(), what, remedy).here("unknown lock"));
    }
    let field = file.need("start", "start = 2027-03-01T08:45:00")?;
    let start = instant(&field, &site.zone)?;
    if start < site.zone_since {
        let what = format!("The clock of {} had other rules at that time.", site.zone_name);
        let remedy = "A lock keeps one yearly rule: start later.";
        return Err(Wrong::new(&field.at(), what, remedy));
    }
    let teaches = match file.get("teaches") {
        Some(teaches) => Some(teaches.name(SAY_MOST)?.to_owned()),
        None => None,
    };
    let fresh = file.get("fresh").map_or(Ok(Fresh::No), |field| fresh(&field))?;
    let steps = match file.get("step") {
        Some(steps) => steps.tables("a [[step]]")?,
        None => Vec::new(),
    };
    if steps.is_empty() {
        let what = "This drill has no step, so it shows nothing.";
        return Err(Wrong::new(&file.at(), what, "Add a [[step]] with keys, say."));
    }
    let mut far = Far { now: start, couriers: Vec::new() };
    let steps = steps
        .iter()
        .map(|table| step(table, (&site, named), &mut far, source))
        .collect::<Read<Vec<Step>>>()?;
    let (title, file, lock) = (title.to_owned(), name.to_owned(), id.to_owned());
    Ok(Drill { title, teaches, file, site, lock, fresh, paired: None, start, steps })
}

/// What the lock has in it.
fn fresh(field: &Field<'_>) -> Read<Fresh> {
    match (field.flag(), field.text()) {
        (Ok(true), _) => Ok(Fresh::Factory),
        (Ok(false), _) => Ok(Fresh::No),
        (_, Ok("erased")) => Ok(Fresh::Erased),
        _ => {
            let what = "`fresh` says what the lock has in it when the drill starts.";
            let remedy = "Write true for a lock from the factory, or \"erased\" for erased flash.";
            Err(Wrong::new(&field.at(), what, remedy))
        }
    }
}

/// How far a drill was read.
struct Far {
    /// The time at which the next step starts.
    now: Utc,
    /// The couriers who have typed a code.
    couriers: Vec<Number>,
}

/// One step.
fn step(
    table: &Table<'_>,
    (site, named): (&Site, &Named),
    far: &mut Far,
    source: &Source<'_>,
) -> Read<Step> {
    let mut known = vec!["say", "pace", "expect"];
    known.extend(ACTS);
    table.only(&known)?;
    let say = match table.get("say") {
        Some(say) => Some(say.name(SAY_MOST)?.to_owned()),
        None => None,
    };
    let mut acts = ACTS.iter().filter_map(|key| table.get(key));
    let first = acts.next();
    if let (Some(first), Some(second)) = (&first, acts.next()) {
        let what = format!("`{}` and `{}` are in one step.", first.key, second.key);
        return Err(Wrong::new(&second.at(), what, "Give each a [[step]] of its own."));
    }
    let pace = pace(table, first.as_ref())?;
    let act = match first {
        Some(field) => Some(act(&field, pace, (site, named), far)?),
        None => None,
    };
    far.now = end_of(act.as_ref(), far.now);
    let expect = table.get("expect");
    let place = expect.as_ref().map_or_else(|| table.at().start, |field| field.at().start);
    let expect = match expect {
        Some(field) => Some(expectation(&field.table("an `expect`")?)?),
        None => None,
    };
    if say.is_none() && act.is_none() && expect.is_none() {
        let what = "This step is empty.";
        return Err(Wrong::new(&table.at(), what, "Write keys, wait, expect or say in it."));
    }
    Ok(Step { place: source.place(place), say, act, expect })
}

fn pace(table: &Table<'_>, act: Option<&Field<'_>>) -> Read<u32> {
    let Some(pace) = table.get("pace") else { return Ok(0) };
    if act.is_none_or(|act| act.key != "keys") {
        let what = "`pace` is the time between keys, and this step has no `keys`.";
        return Err(Wrong::new(&pace.at(), what, "Take it out, or add the keys."));
    }
    duration(&pace)
}

fn end_of(act: Option<&Act>, now: Utc) -> Utc {
    let length = match act {
        Some(Act::Keys(keys, pace)) => {
            let gaps = u32::try_from(keys.len().saturating_sub(1)).unwrap_or(u32::MAX);
            pace.saturating_mul(gaps)
        }
        Some(Act::Wait(seconds)) => *seconds,
        Some(Act::Until(moment)) => return *moment,
        Some(
            Act::Bolt(_)
            | Act::Door(_)
            | Act::Power(_)
            | Act::Supply(_)
            | Act::Inhibit(_)
            | Act::Switch(_)
            | Act::Courier(_)
            | Act::Stick(..)
            | Act::Load(_)
            | Act::LoadNewest
            | Act::Collect(..)
            | Act::Clock(_)
            | Act::Cut(..),
        )
        | None => 0,
    };
    now.after(lock_core::time::Seconds::new(length))
}

fn act(field: &Field<'_>, pace: u32, (site, named): (&Site, &Named), far: &mut Far) -> Read<Act> {
    Ok(match field.key {
        "keys" => Act::Keys(keys(field)?, pace),
        "wait" => Act::Wait(duration(field)?),
        "until" => {
            let moment = instant(field, &site.zone)?;
            if moment <= far.now {
                let what = "`until` lies in the past: the drill is later than that here.";
                let remedy = "Write a later time, or use wait = \"10s\".";
                return Err(Wrong::new(&field.at(), what, remedy).here("not ahead"));
            }
            Act::Until(moment)
        }
        "bolt" => Act::Bolt(choice(
            field,
            &[
                ("draw", Hand::Turn(Bolt::Drawn)),
                ("throw", Hand::Turn(Bolt::Thrown)),
                ("force", Hand::Force),
            ],
        )?),
        "door" => Act::Door(choice(field, &[("open", Door::Open), ("close", Door::Closed)])?),
        "power" => Act::Power(choice(field, &[("cut", Power::Cut), ("restore", Power::Restore)])?),
        "supply" => Act::Supply(voltage(field)?),
        "inhibit" => Act::Inhibit(if field.flag()? { Inhibit::Set } else { Inhibit::Clear }),
        "switch" => Act::Switch(choice(field, &[("on", Switch::On), ("off", Switch::Off)])?),
        "courier" => {
            let code = courier(field)?;
            if code.which == Which::Again && !far.couriers.contains(&code.number) {
                let what = "This courier has typed no code yet.";
                let remedy = "Take `again` out, or let them type one in a [[step]] before.";
                return Err(Wrong::new(&field.at(), what, remedy).here("not again"));
            }
            far.couriers.push(code.number);
            Act::Courier(code)
        }
        "stick" => Act::Stick(field.text()?.to_owned(), named.stick(field)?),
        "load" if field.text()? == NEWEST => Act::LoadNewest,
        "load" => Act::Load(named.site(field)?),
        "collect" => {
            let (scope, since) = choice(
                field,
                &[
                    ("all", (Scope::All, Since::Ever)),
                    ("openings", (Scope::Openings, Since::Ever)),
                    ("changes", (Scope::Changes, Since::Ever)),
                    ("alarms", (Scope::Alarms, Since::Ever)),
                    ("since-last", (Scope::All, Since::Last)),
                ],
            )?;
            Act::Collect(scope, since)
        }
        "cut" => {
            let (fall, cut) = super::cut::read(field)?;
            Act::Cut(fall, cut)
        }
        _ => Act::Clock(clock_chip(field)?),
    })
}

/// A courier's number, or a table with it and which code is typed.
fn courier(field: &Field<'_>) -> Read<OneTime> {
    let wrong = |what: &str, remedy: &str, at: &Field<'_>| Wrong::new(&at.at(), what, remedy);
    let number = |field: &Field<'_>| {
        let number = field.text()?.parse().ok().and_then(Number::new).filter(|n| n.get() > 0);
        let remedy = "Write it as \"40\"; the code comes from the laptop.";
        number.ok_or_else(|| wrong("`courier` is the number of a courier.", remedy, field))
    };
    if field.text().is_ok() {
        let (number, which) = (number(field)?, Which::Next(0));
        return Ok(OneTime { number, which, duress: false });
    }
    let Ok(table) = field.table("a `courier`") else {
        let remedy = "Write \"40\", or { number = \"40\", again = true }.";
        return Err(wrong("`courier` says who types which one-time code.", remedy, field));
    };
    table.only(&["number", "again", "skip", "duress"])?;
    let number = number(&table.need("number", "number = \"40\"")?)?;
    let flag = |key| table.get(key).map_or(Ok(false), |field| field.flag());
    let (again, duress) = (flag("again")?, flag("duress")?);
    let which = match table.get("skip") {
        Some(skip) if again => {
            let remedy = "Take one of the two out.";
            return Err(wrong("`again` types no later code.", remedy, &skip));
        }
        Some(skip) => Which::Next(skip.whole(0, SKIP_MOST, "Write how many are left out.")?),
        None if again => Which::Again,
        None => Which::Next(0),
    };
    Ok(OneTime { number, which, duress })
}

fn choice<T: Copy>(field: &Field<'_>, choices: &[(&str, T)]) -> Read<T> {
    let text = field.text()?;
    let found = choices.iter().find(|(word, _)| *word == text);
    found.map(|(_, value)| *value).ok_or_else(|| {
        let words: Vec<String> = choices.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        let what = format!("`{}` cannot be that.", field.key);
        Wrong::new(&field.at(), what, format!("Write one of {}.", words.join(", ")))
    })
}

fn duration(field: &Field<'_>) -> Read<u32> {
    seconds(field.text()?).ok_or_else(|| {
        let what = format!("`{}` must be a duration.", field.key);
        Wrong::new(
            &field.at(),
            what,
            "Write a whole number and a unit: \"90s\", \"5m\", \"8h\", \"7d\".",
        )
    })
}

fn voltage(field: &Field<'_>) -> Read<Millivolts> {
    let mv = millivolts(field.text()?).and_then(|mv| u16::try_from(mv).ok());
    mv.map(Millivolts::new).ok_or_else(|| {
        let what = format!("`{}` must be a voltage up to 65 V.", field.key);
        Wrong::new(&field.at(), what, "Write it as \"4.8V\" or \"4800mV\".")
    })
}

fn clock_chip(field: &Field<'_>) -> Read<ClockChip> {
    let text = field.text()?;
    let jump = |digits: &str, sign: i64| {
        seconds(digits).map(|length| ClockChip::Jumps(sign * i64::from(length)))
    };
    let chip = match (text.strip_prefix('+'), text.strip_prefix('-')) {
        (Some(ahead), _) => jump(ahead, 1),
        (None, Some(back)) => jump(back, -1),
        (None, None) => (text == "lost").then_some(ClockChip::Lost),
    };
    chip.ok_or_else(|| {
        let what = "`clock` says what happens to the clock chip.";
        Wrong::new(&field.at(), what, "Write \"lost\", or a jump such as \"+2h\" or \"-10m\".")
    })
}

/// Digits, `ok` and `back`; blanks are for reading.
fn keys(field: &Field<'_>) -> Read<Vec<Key>> {
    let keys: Option<Vec<Key>> = keys::named(field.text()?).collect();
    let keys = keys.ok_or_else(|| {
        let what = "There is a word among the keys that is no key.";
        Wrong::new(&field.at(), what, "Keys are digits, `ok` and `back`, with blanks between them.")
    })?;
    if keys.is_empty() {
        let what = "`keys` names no key.";
        return Err(Wrong::new(&field.at(), what, "Write digits, `ok` or `back`."));
    }
    Ok(keys)
}

fn expectation(table: &Table<'_>) -> Read<Expect> {
    table.only(&["state", "bolt", "alarm", "screen", "audit", "penalty", "link"])?;
    let mut expect = Expect::default();
    if let Some(field) = table.get("state") {
        expect.state = Some(known_word(&field, field.text()?, &STATES, "a state")?);
    }
    if let Some(field) = table.get("bolt") {
        let bolts = [("drawn", Bolt::Drawn), ("thrown", Bolt::Thrown)];
        expect.bolt = Some(choice(&field, &bolts)?);
    }
    if let Some(field) = table.get("alarm") {
        expect.alarm = Some(match field.flag() {
            Ok(true) => Line::Raised,
            Ok(false) => Line::Level(Alarm::Quiet),
            Err(_) => Line::Level(choice(
                &field,
                &[("quiet", Alarm::Quiet), ("tamper", Alarm::Tamper), ("duress", Alarm::Duress)],
            )?),
        });
    }
    if let Some(field) = table.get("screen") {
        expect.screen = Some(part(&field)?);
    }
    if let Some(field) = table.get("link") {
        expect.link = Some(part(&field)?);
    }
    if let Some(field) = table.get("penalty") {
        expect.penalty = Some(field.flag()?);
    }
    if let Some(field) = table.get("audit") {
        let each = field.list()?.iter().map(|value| {
            let item = Field { key: "audit", value };
            known_word(&item, item.text()?, &KINDS, "a kind of record")
        });
        expect.audit = Some(each.collect::<Read<Vec<String>>>()?);
    }
    if expect == Expect::default() {
        let what = "This `expect` expects nothing, so it checks nothing.";
        return Err(Wrong::new(&table.at(), what, "Write expect = { state = \"secured\" }, say."));
    }
    Ok(expect)
}

/// A part of what is to be seen.
fn part(field: &Field<'_>) -> Read<String> {
    match field.text()? {
        "" => {
            let what = "An empty text is a part of every text, so it checks nothing.";
            Err(Wrong::new(&field.at(), what, "Write some words of what is to be seen."))
        }
        text => Ok(text.to_owned()),
    }
}

pub(super) fn known_word(
    field: &Field<'_>,
    word: &str,
    known: &[&str],
    what: &str,
) -> Read<String> {
    if known.contains(&word) {
        return Ok(word.to_owned());
    }
    let remedy = match nearest(word, known.iter().copied()) {
        Some(near) => format!("Did you mean `{near}`?"),
        None => format!("Known here: {}.", known.join(", ")),
    };
    Err(Wrong::new(&field.at(), format!("`{word}` is not {what}."), remedy))
}
