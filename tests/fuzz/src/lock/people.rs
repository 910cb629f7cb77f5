//! Who is enrolled, with which codes, under which policy.

use lock_core::code::{Code, LockKey, Salt, digest};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::policy::{Control, DuressCodes, Policy};
use lock_core::role::Role;
use lock_core::settings::Settings;
use lock_core::time::{Minute, Seconds};
use lock_core::timetable::{Calendar, Follows, TimetableId, Window};

/// Policies that a lock can have here.
pub const POLICIES: u8 = 6;

/// What is typed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum How {
    /// The code.
    Right,
    /// The code, its last digit plus one.
    Duress,
    /// The code, its first digit plus one.
    Wrong,
    /// The code without its last digit.
    Short,
}

impl How {
    /// By a byte; right codes are more frequent.
    #[must_use]
    pub const fn of(byte: u8) -> Self {
        match byte % 8 {
            0..=3 => Self::Right,
            4 => Self::Duress,
            5 | 6 => Self::Wrong,
            _ => Self::Short,
        }
    }
}

/// Number, code, and what the row says. Nobody else is enrolled.
pub(super) const PEOPLE: [(u8, [u8; 6]); 5] = [
    (1, [7, 3, 9, 2, 0, 4]),
    (2, [5, 1, 8, 2, 6, 3]),
    (3, [9, 0, 4, 6, 1, 7]),
    (4, [2, 7, 5, 9, 1, 8]),
    (5, [6, 4, 1, 8, 2, 9]),
];

/// Those who may open at all: a keyholder, a keyholder of timetable A, a
/// warden whose row says so.
pub(super) const OPENERS: [u8; 3] = [1, 2, 3];

/// The one who follows timetable A: Monday to Friday, 08:00 to 18:00 UTC.
pub(super) const BY_DAY: u8 = 2;
/// From and to, in minutes after midnight.
pub(super) const DAY: [u16; 2] = [480, 1_080];

/// The code of a number; that of nobody is all zeros.
pub(super) fn code(who: u8) -> [u8; 6] {
    PEOPLE.iter().find(|(number, _)| *number == who).map_or([0; 6], |(_, code)| *code)
}

/// The keys of an entry, as bytes: digits, and 11 for *OK*.
pub(super) fn keys(who: u8, how: How) -> Vec<u8> {
    let mut code = code(who % 8).to_vec();
    match how {
        How::Right => {}
        How::Duress => code.iter_mut().skip(5).for_each(|d| *d = (*d + 1) % 10),
        How::Wrong => code.iter_mut().take(1).for_each(|d| *d = (*d + 1) % 10),
        How::Short => code.truncate(5),
    }
    let mut keys = vec![0, who % 8];
    keys.extend(code);
    keys.push(11);
    keys
}

/// The policy of a number below [`POLICIES`].
pub(super) fn policy(n: u8) -> Policy {
    let delay = Seconds::new(60);
    match n {
        0 => Policy::DEFAULT,
        1 => Policy { delay, ..Policy::DEFAULT },
        2 => Policy { control: Control::Dual, ..Policy::DEFAULT },
        3 => Policy { control: Control::Dual, delay, ..Policy::DEFAULT },
        4 => Policy {
            duress: DuressCodes::Off,
            wrong_codes: 3,
            penalty: Seconds::new(60),
            ..Policy::DEFAULT
        },
        _ => Policy {
            wrong_codes: 10,
            release: Seconds::new(20),
            alarm_hold: Seconds::new(600),
            ..Policy::DEFAULT
        },
    }
}

/// The settings of a lock under that policy.
pub(super) fn settings(n: u8) -> Settings {
    let key = LockKey::from_bytes([0x3C; LockKey::LEN]);
    let mut holders = [const { None }; Number::COUNT];
    for (who, _) in PEOPLE {
        if let (Some(row), Some(number)) = (holders.get_mut(usize::from(who)), Number::new(who)) {
            *row = enrolled(&key, number);
        }
    }
    let mut calendar = Calendar::default();
    let [from, to] = DAY.map(Minute::new);
    let window = from.zip(to).and_then(|(from, to)| Window::new(from, to));
    for day in calendar.weeks.iter_mut().take(1).flat_map(|week| week.iter_mut().take(5)) {
        day.extend(window);
    }
    Settings {
        policy: policy(n),
        zone: heapless::String::try_from("UTC0").unwrap_or_default(),
        key,
        pairing: None,
        holders,
        calendar,
    }
}

fn enrolled(key: &LockKey, number: Number) -> Option<HolderRow> {
    let who = number.get();
    let text: String = code(who).iter().map(|digit| char::from(b'0' + digit)).collect();
    let salt = Salt::from_bytes([who; Salt::LEN]);
    Some(HolderRow {
        role: match who {
            3 => Role::Warden,
            5 => Role::Steward,
            _ => Role::Keyholder,
        },
        opens: Opens::Yes,
        standing: if who == 4 { Standing::Suspended } else { Standing::Active },
        follows: match who {
            BY_DAY => Follows::Timetable(TimetableId::A),
            _ => Follows::Always,
        },
        digest: digest(key, &salt, number, &Code::parse(&text)?),
        salt,
        counter: 0,
        pending: None,
    })
}
