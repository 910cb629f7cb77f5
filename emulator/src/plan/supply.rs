//! How long a battery lasts: what the emulated lock does in an idle day and for an
//! opening, counted, and what each of that costs, assumed.
//!
//! The counts are the real lock's; `costs.rs` has what they cost. `docs/energy.md` has
//! both.

use emulated_board::trace::{Line, Told, What};
use lock_core::code::{Code, LockKey, Salt, digest};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::keys::{Digit, Key};
use lock_core::policy::{Control, Millivolts, Policy, Unit};
use lock_core::port::{Bolt, Drive, Effect};
use lock_core::role::Role;
use lock_core::store::FormatError;
use lock_core::time::Utc;
use lock_core::timetable::Follows;

use crate::document::written;
use crate::site::{LockPlan, Site};
use crate::world::{Deed, Happening, Keeping, World};

/// What a lock did.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Work {
    /// Wake-ups by its own timers.
    pub wakes: f64,
    /// Keys that were typed.
    pub keys: f64,
    /// Pictures that the display took.
    pub refreshes: f64,
    /// Moves of the drive.
    pub moves: f64,
    /// Sounds.
    pub sounds: f64,
    /// Words of flash that were programmed.
    pub words: f64,
    /// Pages of flash that were erased.
    pub pages: f64,
}

impl Work {
    /// Each count, by name.
    #[must_use]
    pub const fn counts(&self) -> [(&'static str, f64); 7] {
        [
            ("wake-ups", self.wakes),
            ("keys", self.keys),
            ("display refreshes", self.refreshes),
            ("drive moves", self.moves),
            ("sounds", self.sounds),
            ("flash words", self.words),
            ("flash pages erased", self.pages),
        ]
    }

    /// So much of it.
    #[must_use]
    pub fn times(self, n: f64) -> Self {
        self.with(self, |count, _| count * n)
    }

    /// This and that.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        self.with(other, |one, other| one + other)
    }

    /// This without that; never below nothing.
    #[must_use]
    pub fn without(self, other: Self) -> Self {
        self.with(other, |one, other| (one - other).max(0.0))
    }

    fn with(self, other: Self, count: impl Fn(f64, f64) -> f64) -> Self {
        Self {
            wakes: count(self.wakes, other.wakes),
            keys: count(self.keys, other.keys),
            refreshes: count(self.refreshes, other.refreshes),
            moves: count(self.moves, other.moves),
            sounds: count(self.sounds, other.sounds),
            words: count(self.words, other.words),
            pages: count(self.pages, other.pages),
        }
    }

    fn take(&mut self, happening: &Happening) {
        match happening {
            Happening::Line(Line { what, .. }) => match what {
                What::Told(Told::Woken) => self.wakes += 1.0,
                What::Told(Told::Digit | Told::Back | Told::Ok) => self.keys += 1.0,
                What::Did(Effect::Show(_)) => self.refreshes += 1.0,
                What::Did(Effect::Drive(Drive::Free | Drive::Block)) => self.moves += 1.0,
                What::Did(Effect::Sound(_)) => self.sounds += 1.0,
                _ => {}
            },
            Happening::Step { deed: Deed::Program { .. }, .. } => self.words += 1.0,
            Happening::Step { deed: Deed::Erase { .. }, .. } => self.pages += 1.0,
            // What it would have used after that nobody knows.
            Happening::Restless(restless) => panic!("{restless}"),
            _ => {}
        }
    }
}

/// A lock on the bench, with two people who may open it at any time.
pub struct Bench {
    world: World,
    people: Vec<Vec<Key>>,
    delay: u64,
    work: Work,
}

/// Who opens on the bench, and with which code. Of no use anywhere else.
const PEOPLE: [(u8, &str); 2] = [(98, "739204"), (99, "480317")];
const KEY: [u8; LockKey::LEN] = *b"a bench of the emulator: no key!";
const SALT: [u8; Salt::LEN] = *b"bench, no secret";
/// For how long each opening lasts, in seconds. Ours.
const OPEN_FOR: u64 = 180;
/// Seconds of a day.
pub(super) const DAY: u64 = 86_400;

impl Bench {
    /// The lock of a site, on a Monday.
    ///
    /// # Errors
    /// If the settings cannot be stored.
    pub fn new(site: &Site, lock: &LockPlan) -> Result<Self, FormatError> {
        let mut settings = site.settings(lock, KEY);
        let key = LockKey::from_bytes(KEY);
        let mut people = Vec::new();
        for (number, code) in PEOPLE {
            let (Some(number), Some(code)) = (Number::new(number), Code::parse(code)) else {
                continue;
            };
            let salt = Salt::from_bytes(SALT);
            let row = HolderRow {
                role: Role::Keyholder,
                opens: Opens::Yes,
                standing: Standing::Active,
                follows: Follows::Always,
                digest: digest(&key, &salt, number, &code),
                salt,
                counter: 0,
                pending: None,
            };
            if let Some(slot) = settings.holders.get_mut(number.index()) {
                *slot = Some(row);
            }
        }
        for (number, code) in PEOPLE {
            let text = format!("{number:02}{code}");
            let digits = text.bytes().filter_map(|byte| Digit::new(byte.wrapping_sub(b'0')));
            people.push(digits.map(Key::Digit).chain([Key::Ok]).collect());
        }
        if lock.policy.control == Control::Single {
            people.truncate(1);
        }
        // 2027-03-01; the rules of every zone that can be planned hold by then.
        let start = Utc::from_secs(1_803_859_200).max(site.zone_since);
        let mut world = World::commission(&settings, start)?;
        world.keep(Keeping::Steps, u32::MAX);
        let mut bench =
            Self { world, people, delay: lock.policy.delay.get().into(), work: Work::default() };
        bench.passes(0);
        bench.work = Work::default();
        Ok(bench)
    }

    /// What it did since the last call.
    pub fn take_work(&mut self) -> Work {
        std::mem::take(&mut self.work)
    }

    /// So many seconds pass.
    pub fn passes(&mut self, seconds: u64) {
        self.world.run_until(self.world.now() + seconds * 1_000);
        self.note();
    }

    /// The supply has so many millivolts under load.
    pub fn supply(&mut self, millivolts: u16) {
        self.world.supply(Millivolts::new(millivolts));
        self.note();
    }

    /// Somebody opens, and closes again; whether the bolt could be drawn.
    pub fn opening(&mut self) -> bool {
        self.codes();
        if self.delay > 0 {
            self.passes(self.delay);
            self.codes();
        }
        let drawn = self.world.move_bolt(Bolt::Drawn).is_ok();
        self.passes(OPEN_FOR);
        let thrown = self.world.move_bolt(Bolt::Thrown).is_ok();
        self.note();
        drawn && thrown
    }

    /// How long an opening takes, in seconds.
    #[must_use]
    pub const fn opening_takes(&self) -> u64 {
        self.delay + OPEN_FOR
    }

    fn codes(&mut self) {
        for key in self.people.iter().flatten() {
            self.world.press(*key);
        }
        self.note();
    }

    fn note(&mut self) {
        for happening in self.world.take_journal() {
            self.work.take(&happening);
        }
        // Nobody reads it.
        drop(self.world.take_trace());
    }
}

/// What a lock does in an idle day, and besides for an opening.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Counted {
    /// In a day on which nobody comes.
    pub idle_day: Work,
    /// For one opening, its share of erased pages included.
    pub opening: Work,
}

/// Days and openings that are averaged over.
const DAYS: u32 = 28;
const OPENINGS: u32 = 500;

/// Counts what the lock does.
///
/// # Errors
/// If the settings cannot be stored.
pub fn count(site: &Site, lock: &LockPlan) -> Result<Counted, FormatError> {
    let mut bench = Bench::new(site, lock)?;
    bench.passes(u64::from(DAYS) * DAY);
    let idle_day = bench.take_work().times(1.0 / f64::from(DAYS));
    // Apart enough that each finds the lock at rest.
    let apart = bench.opening_takes() + 3_600;
    for _ in 0..OPENINGS {
        bench.opening();
        bench.passes(3_600);
    }
    let days = (apart * u64::from(OPENINGS)) as f64 / DAY as f64;
    let opening = bench.take_work().without(idle_day.times(days));
    Ok(Counted { idle_day, opening: opening.times(1.0 / f64::from(OPENINGS)) })
}

/// A battery.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Battery {
    /// What it is called by IEC 60086-2.
    pub name: &'static str,
    /// Its nominal voltage.
    pub volts: f64,
    /// What it holds, in milliampere hours, at small currents.
    pub milliampere_hours: f64,
    /// For how many years it keeps, used or not.
    pub keeps: f64,
}

/// Capacities of alkaline cells at small currents and room temperature, and how long they
/// keep, from memory of makers' data sheets in general: 550 mAh and 5 years, 2,500 mAh and
/// 10 years. A cell has 1.5 V (IEC 60086-2).
pub const BATTERIES: [Battery; 3] = [
    Battery { name: "6LR61", volts: 9.0, milliampere_hours: 550.0, keeps: 5.0 },
    Battery { name: "4 × LR6", volts: 6.0, milliampere_hours: 2_500.0, keeps: 10.0 },
    Battery { name: "2 × LR6", volts: 3.0, milliampere_hours: 2_500.0, keeps: 10.0 },
];

/// What reaches the lock: a converter of 85 %, and a fifth left in the cells when they
/// no longer bear the drive. Ours.
const REACHES: f64 = 0.85 * 0.8;
/// What an alkaline cell loses by itself in a year: 3 % (from memory).
const LOST_A_YEAR: f64 = 0.03;
const DAYS_A_YEAR: f64 = 365.25;

impl Battery {
    /// Years until it is spent, if a day costs so many millijoules and it kept for ever.
    #[must_use]
    pub fn years(&self, millijoules_a_day: f64) -> f64 {
        // mAh × 3.6 = coulombs; × V = joules.
        let holds = self.milliampere_hours * 3.6 * self.volts * 1_000.0;
        let a_year = millijoules_a_day * DAYS_A_YEAR / REACHES + LOST_A_YEAR * holds;
        holds / a_year
    }

    /// Why a lock with these thresholds cannot live on it, if it cannot: what is new has
    /// no more than its nominal voltage for long.
    #[must_use]
    pub fn refused(&self, policy: &Policy) -> Option<String> {
        let (volts, millivolts) = (self.volts, self.volts * 1_000.0);
        let (low, spent) = (policy.supply_low.get(), policy.supply_spent.get());
        let written = |threshold: u16| written(threshold.into(), Unit::Millivolts);
        if millivolts < f64::from(spent) {
            let spent = written(spent);
            Some(format!(
                "it has {volts} V when new, and below {spent} (supply_spent) the lock releases nothing"
            ))
        } else if millivolts <= f64::from(low) {
            let low = written(low);
            Some(format!(
                "it has {volts} V when new, and below {low} (supply_low) the lock calls it low"
            ))
        } else {
            None
        }
    }

    /// The same as a sentence's end: no longer than it keeps.
    #[must_use]
    pub fn lasts(&self, millijoules_a_day: f64) -> String {
        let years = self.years(millijoules_a_day);
        if years >= self.keeps {
            format!("for as long as such cells keep, {:.0} years", self.keeps)
        } else if years >= 1.0 {
            format!("{years:.1} years")
        } else {
            format!("{:.0} days", years * DAYS_A_YEAR)
        }
    }
}
