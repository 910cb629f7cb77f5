//! `lock_core::time`

use lock_core::time::{Date, Instants, Local, Minute, Offset, Seconds, Uptime, Utc, Weekday, Zone};

use crate::outside;

fn word() -> u32 {
    u32::from_le_bytes(outside::bytes())
}

fn half() -> u16 {
    u16::from_le_bytes(outside::bytes())
}

#[inline(never)]
pub fn lengths() {
    let a = Seconds::new(word());
    let b = Seconds::from_minutes(word()).saturating_add(Seconds::from_hours(word()));
    outside::put(a.saturating_sub(b).get());

    let up = Uptime::from_millis(u64::from_le_bytes(outside::bytes()));
    outside::put(up.since(Uptime::ZERO.after(a)).get());
    outside::put_all(&up.after(b).as_millis().to_le_bytes());

    let utc = Utc::from_secs(word());
    outside::put(utc.after(a).since(Utc::from_secs(word())).get());
    outside::put(utc.checked_add(b).map_or(0, Utc::as_secs));
}

#[inline(never)]
pub fn dates() {
    let day = Date::from_days(half());
    put_date(day);
    for other in [
        Date::from_ymd(half(), outside::byte(), outside::byte()),
        day.next(),
        day.prev(),
        day.checked_add(half()),
        day.checked_sub(half()),
    ]
    .into_iter()
    .flatten()
    {
        put_date(other);
    }
    if let Some(weekday) = Weekday::from_index(usize::from(outside::byte())) {
        put_weekday(weekday.next());
        put_weekday(weekday.prev());
    }
}

#[inline(never)]
pub fn minutes() {
    for minute in [Minute::new(half()), Minute::from_hm(outside::byte(), outside::byte())]
        .into_iter()
        .flatten()
    {
        put_minute(minute);
    }
    match Minute::try_from(half()) {
        Ok(minute) => outside::put(u16::from(minute)),
        Err(error) => outside::print(error),
    }
    let seconds = word().cast_signed();
    outside::put(Offset::from_secs(seconds).is_some());
    match Offset::try_from(seconds) {
        Ok(offset) => outside::put(i32::from(offset).cast_unsigned()),
        Err(error) => outside::print(error),
    }
    // Fields of a Local are public, so they may be anything.
    put_local(Local {
        date: Date::from_days(half()),
        second: word(),
        offset: Offset::from_secs(seconds).unwrap_or_default(),
    });
}

#[inline(never)]
pub fn zones() {
    let text: [u8; 64] = outside::bytes();
    let text = text.get(..usize::from(outside::byte())).unwrap_or_default();
    match core::str::from_utf8(text).map(Zone::parse) {
        Ok(Ok(zone)) => zone_answers(&zone),
        Ok(Err(error)) => outside::print(error),
        Err(_) => {}
    }
    match Zone::from_bytes(&outside::bytes()) {
        Ok(zone) => zone_answers(&zone),
        Err(error) => outside::print(error),
    }
}

#[inline(never)]
fn zone_answers(zone: &Zone) {
    let at = Utc::from_secs(word());
    outside::put_all(&zone.to_bytes());
    outside::put(zone.offset(at).as_secs().cast_unsigned());
    put_local(zone.local(at));
    outside::put(zone.next_change(at).map_or(0, Utc::as_secs));
    match zone.instants(Date::from_days(half()), word()) {
        Instants::None => {}
        Instants::One(at) => outside::put(at.as_secs()),
        Instants::Two(first, second) => {
            outside::put(first.as_secs());
            outside::put(second.as_secs());
        }
    }
}

fn put_date(date: Date) {
    let (year, month, day) = date.ymd();
    outside::put(year);
    outside::put_all(&[month, day]);
    outside::put(date.year());
    let (year, week) = date.iso_week();
    outside::put(year);
    outside::put(week);
    put_weekday(date.weekday());
}

fn put_weekday(weekday: Weekday) {
    outside::put(Weekday::ALL.get(weekday.index()) == Some(&Weekday::Sun));
}

fn put_minute(minute: Minute) {
    let (hour, past) = minute.hm();
    outside::put_all(&[hour, past]);
    outside::put(minute.seconds());
}

fn put_local(local: Local) {
    put_minute(local.minute());
    let (hour, minute, second) = local.hms();
    outside::put_all(&[hour, minute, second]);
    put_date(local.date);
}
