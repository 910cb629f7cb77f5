//! The model's set-up as the lock's settings.

use jiff::civil;
use lock_core::code::{Code, Digest, LockKey, Salt, digest};
use lock_core::holder::{self, HolderRow, Number, Standing};
use lock_core::policy::{self, Millivolts};
use lock_core::role;
use lock_core::settings::{Settings, ZONE_TEXT};
use lock_core::time::{Date, Minute};
use lock_core::timetable::{self, TimetableId, Timetables, Windows};

use super::desk;
use crate::office::LOCK;
use crate::reference::{Calendar, Follows, Holder, Policy, Role, Setup, TIMETABLES, Window};

/// Any key will do: the codes are those of the set-up.
const KEY: LockKey = LockKey::from_bytes([7; LockKey::LEN]);

/// A set-up in which nothing waits and no file has come, as every story begins.
pub(super) fn settings(setup: &Setup) -> Settings {
    assert!(setup.file.is_none() && setup.stricter.is_none(), "nothing waits at the start");
    assert_eq!(setup.version, 0, "no file came yet");
    let mut holders = [const { None }; Number::COUNT];
    for holder in setup.holders.values() {
        holders[usize::from(holder.number)] = Some(row(setup, holder));
    }
    Settings {
        policy: policy(&setup.policy),
        zone: zone(&setup.calendar.zone),
        key: LockKey::from_bytes(*KEY.as_bytes()),
        pairing: setup.key.map(|generation| desk::pairing(LOCK, generation)),
        holders,
        calendar: calendar(&setup.calendar),
    }
}

pub(super) fn zone(rule: &str) -> heapless::String<ZONE_TEXT> {
    rule.try_into().expect("a zone rule fits")
}

fn row(setup: &Setup, holder: &Holder) -> HolderRow {
    assert_eq!(holder.waits, None, "nothing waits at the start");
    let number = Number::new(holder.number).expect("at most 99");
    let salt = Salt::from_bytes([holder.number; Salt::LEN]);
    let digest = match holder.role {
        Role::Courier => Digest::from_bytes([0; Digest::LEN]),
        Role::Warden | Role::Deputy | Role::Keyholder | Role::Steward => {
            let code = Code::parse(&holder.code).expect("six to eight digits");
            digest(&KEY, &salt, number, &code)
        }
    };
    HolderRow {
        role: match holder.role {
            Role::Warden => role::Role::Warden,
            Role::Deputy => role::Role::Deputy,
            Role::Keyholder => role::Role::Keyholder,
            Role::Courier => role::Role::Courier,
            Role::Steward => role::Role::Steward,
        },
        opens: if holder.opens { holder::Opens::Yes } else { holder::Opens::No },
        standing: if holder.suspended { Standing::Suspended } else { Standing::Active },
        follows: match holder.follows {
            Follows::Always => timetable::Follows::Always,
            Follows::Timetable(index) => timetable::Follows::Timetable(TimetableId::ALL[index]),
        },
        salt,
        digest,
        pending: None,
        counter: setup.counters.get(&holder.number).copied().unwrap_or_default(),
    }
}

fn policy(ours: &Policy) -> policy::Policy {
    let values = policy::KEYS.map(|key| u32::try_from(ours.value(key)).expect("a small number"));
    policy::Policy::from_values(&values).expect("the generator keeps to the bounds")
}

pub(super) fn millivolts(mv: u32) -> Millivolts {
    Millivolts::new(u16::try_from(mv).expect("a battery"))
}

pub(super) fn calendar(ours: &Calendar) -> timetable::Calendar {
    let mut calendar = timetable::Calendar::default();
    for (week, days) in calendar.weeks.iter_mut().zip(&ours.timetables) {
        for (day, ours) in week.iter_mut().zip(days) {
            *day = windows(ours);
        }
    }
    for closure in &ours.closures {
        let closure = timetable::Closure {
            from: date(closure.from),
            to: date(closure.to),
            timetables: timetables(closure.timetables),
        };
        calendar.closures.push(closure).expect("there is room");
    }
    for special in &ours.specials {
        let special = timetable::Special {
            date: date(special.date),
            timetables: timetables(special.timetables),
            windows: windows(&special.windows),
        };
        calendar.specials.push(special).expect("there is room");
    }
    calendar
}

fn windows(windows: &[Window]) -> Windows {
    windows
        .iter()
        .map(|window| {
            let window = timetable::Window::new(minute(window.from), minute(window.to));
            window.expect("a window has a length")
        })
        .collect()
}

fn minute(minute: u32) -> Minute {
    u16::try_from(minute).ok().and_then(Minute::new).expect("a minute of a day")
}

fn date(date: civil::Date) -> Date {
    let year = u16::try_from(date.year()).expect("this century");
    let [month, day] = [date.month(), date.day()].map(|part| part.cast_unsigned());
    Date::from_ymd(year, month, day).expect("a date")
}

fn timetables(chosen: [bool; TIMETABLES]) -> Timetables {
    let mut set = Timetables::default();
    for (id, chosen) in TimetableId::ALL.into_iter().zip(chosen) {
        if chosen {
            set = set.with(id);
        }
    }
    set
}
