//! Dates and moments as the command line spells them.

use lock_core::time::{Date, Local, Utc, Weekday, Zone};

/// The last year whose dates can be planned.
const LAST_YEAR: u16 = 2_100;

/// Reads a date written `2027-03-01`.
pub(super) fn parse_date(text: &str) -> Result<Date, String> {
    let mut parts = text.split('-').map(|part| {
        let plain = part.bytes().all(|b| b.is_ascii_digit());
        plain.then_some(part)
    });
    let mut part = |digits: usize| parts.next().flatten().filter(|part| part.len() == digits);
    let (year, month, day) = (part(4), part(2), part(2));
    let read = || {
        let year = year?.parse().ok().filter(|year| (1_970..=LAST_YEAR).contains(year))?;
        Date::from_ymd(year, month?.parse().ok()?, day?.parse().ok()?)
    };
    read().filter(|_| text.len() == 10).ok_or_else(|| {
        format!("write a date such as 2027-03-01, from 1970-01-01 to {LAST_YEAR}-12-31")
    })
}

/// Reads a local date and time written `2027-03-01T08:30` or with seconds: the
/// date, and the second of it.
#[cfg(feature = "page")]
pub(crate) fn local_moment(text: &str) -> Result<(Date, u32), String> {
    let wrong = || "Write a date and a time such as 2027-03-01T08:30.".to_owned();
    let (date, time) = text.split_once('T').ok_or_else(wrong)?;
    let date = parse_date(date).map_err(|_| wrong())?;
    let parts: Vec<&str> = time.split(':').collect();
    let two = |part: &str| {
        let plain = part.len() == 2 && part.bytes().all(|b| b.is_ascii_digit());
        plain.then(|| part.parse::<u32>().ok()).flatten()
    };
    let numbers: Option<Vec<u32>> = parts.iter().map(|part| two(part)).collect();
    let (hour, minute, second) = match numbers.ok_or_else(wrong)?.as_slice() {
        [hour, minute] => (*hour, *minute, 0),
        [hour, minute, second] => (*hour, *minute, *second),
        _ => return Err(wrong()),
    };
    let sensible = hour < 24 && minute < 60 && second < 60;
    if sensible { Ok((date, hour * 3_600 + minute * 60 + second)) } else { Err(wrong()) }
}

/// An instant in RFC 3339 with the zone's offset.
pub(super) fn rfc3339(zone: &Zone, at: Utc) -> String {
    let mut local = zone.local(at);
    let mut offset = local.offset.as_secs();
    if offset % 60 != 0 {
        // RFC 3339 has no seconds of offset; the instant counts.
        local = Zone::UTC.local(at);
        offset = 0;
    }
    let sign = if offset < 0 { '-' } else { '+' };
    let minutes = offset.unsigned_abs() / 60;
    let (hour, minute, second) = local.hms();
    format!(
        "{}T{hour:02}:{minute:02}:{second:02}{sign}{:02}:{:02}",
        date_text(local.date),
        minutes / 60,
        minutes % 60,
    )
}

/// A date as it is typed.
pub(super) fn date_text(date: Date) -> String {
    let (year, month, day) = date.ymd();
    format!("{year}-{month:02}-{day:02}")
}

/// `Mon 2027-03-01`.
pub(super) fn day_text(date: Date) -> String {
    let day = match date.weekday() {
        Weekday::Mon => "Mon",
        Weekday::Tue => "Tue",
        Weekday::Wed => "Wed",
        Weekday::Thu => "Thu",
        Weekday::Fri => "Fri",
        Weekday::Sat => "Sat",
        Weekday::Sun => "Sun",
    };
    format!("{day} {}", date_text(date))
}

/// `08:30`, with seconds where there are any.
pub(super) fn time_text(local: Local) -> String {
    let (hour, minute, second) = local.hms();
    if second == 0 {
        format!("{hour:02}:{minute:02}")
    } else {
        format!("{hour:02}:{minute:02}:{second:02}")
    }
}

/// Today's date in a zone.
pub(super) fn today(zone: &Zone) -> Date {
    let now = u32::try_from(jiff::Timestamp::now().as_second()).unwrap_or(u32::MAX);
    zone.local(Utc::from_secs(now)).date
}
