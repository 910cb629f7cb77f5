//! Local times of a script as instants.

use lock_core::time::{Date, Instants, Utc, Zone};
use toml::value::Datetime;
use toml::value::Offset;

use crate::document::{Field, Read, Value, Wrong};
use toml::de::DeValue;

/// The instant that a TOML date-time names in `zone`.
pub(super) fn instant(field: &Field<'_>, zone: &Zone) -> Read<Utc> {
    let value: &Value<'_> = field.value;
    let DeValue::Datetime(moment) = value.get_ref() else {
        return Err(field.wrong_type("a date and time such as 2027-03-01T08:45:00"));
    };
    let Datetime { date: Some(date), time: Some(time), offset } = moment else {
        return Err(field.wrong_type("a date and time such as 2027-03-01T08:45:00"));
    };
    let outside = || {
        let what = format!("`{}` lies outside the years that a lock knows.", field.key);
        Wrong::new(&field.at(), what, "Write a date from 1970 to 2105.")
    };
    let day = Date::from_ymd(date.year, date.month, date.day).ok_or_else(outside)?;
    let second = u32::from(time.hour) * 3_600
        + u32::from(time.minute) * 60
        + u32::from(time.second.unwrap_or(0));
    if let Some(offset) = offset {
        let east = match offset {
            Offset::Z => 0,
            Offset::Custom { minutes } => i64::from(*minutes) * 60,
        };
        let utc = i64::from(day.days()) * 86_400 + i64::from(second) - east;
        return u32::try_from(utc).map(Utc::from_secs).map_err(|_| outside());
    }
    match zone.instants(day, second) {
        Instants::One(utc) | Instants::Two(utc, _) => Ok(utc),
        Instants::None => {
            let what = format!("`{}` is a local time that the clock change skips.", field.key);
            let remedy = "Write a time before or after the change, or add an offset.";
            Err(Wrong::new(&field.at(), what, remedy).here("no clock on a wall ever shows this"))
        }
    }
}
