//! What a power cut leaves: the audit, the tally added up, the settings.

use std::collections::BTreeMap;
use std::fmt;

use super::seen::Record;
use super::setup::Setup;

pub(crate) const MOST_FAILURES: u32 = 100;

/// What the flash holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Flash {
    #[default]
    Ours,
    /// As it comes from its maker: nothing can be kept before the first warden.
    Erased,
    OtherLayout,
}

/// An entry of the tally.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Tally {
    Counted(u8),
    Cleared(u8),
    Faded(u8),
    /// With the full length in seconds.
    Penalty(u64),
    Served,
    Eased,
    /// The end, in steady time.
    HeldShut(i64),
    /// The steady time at which it stood still.
    ClockDoubt(Option<i64>),
    /// Two people set the clock: the new shift.
    ClockSet(i64),
    /// Added to the sum of corrections, in seconds, and the new shift.
    Corrected(u64, i64),
    CorrectionsOver,
    Settled,
    /// The steady time up to which nothing waits any more.
    Brought(i64),
    PoweredUp,
    SettingUp,
    SetUp,
    /// By whom, and whether one of two did without the other.
    WayOut(Vec<u8>, bool),
    WayOutOver,
}

impl fmt::Display for Tally {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Counted(number) => write!(out, "counted {number:02}"),
            Self::Cleared(number) => write!(out, "cleared {number:02}"),
            Self::Faded(number) => write!(out, "faded {number:02}"),
            Self::Penalty(_) => out.write_str("penalty"),
            Self::Served => out.write_str("served"),
            Self::Eased => out.write_str("eased"),
            Self::HeldShut(end) => write!(out, "held-shut ={end}"),
            Self::ClockDoubt(Some(steady)) => write!(out, "clock-doubt ={steady}"),
            Self::ClockDoubt(None) => out.write_str("clock-doubt"),
            Self::ClockSet(shift) => write!(out, "clock-set shift={shift}"),
            Self::Corrected(by, shift) => write!(out, "corrected ={by} shift={shift}"),
            Self::CorrectionsOver => out.write_str("corrections-over"),
            Self::Settled => out.write_str("settled"),
            Self::Brought(steady) => write!(out, "brought ={steady}"),
            Self::PoweredUp => out.write_str("powered-up"),
            Self::SettingUp => out.write_str("setting-up"),
            Self::SetUp => out.write_str("set-up"),
            Self::WayOut(..) => out.write_str("way-out"),
            Self::WayOutOver => out.write_str("way-out-over"),
        }
    }
}

/// Counts are by number; a missing one is nought.
#[derive(Clone, Debug)]
pub(crate) struct Durable {
    pub(crate) flash: Flash,
    pub(crate) settings: Setup,
    pub(crate) records: Vec<Record>,
    pub(crate) totals: BTreeMap<u8, u32>,
    pub(crate) shares: BTreeMap<u8, u32>,
    pub(crate) step: u32,
    /// The full length of the penalty that runs, in seconds.
    pub(crate) penalty_s: Option<u64>,
    /// In steady time.
    pub(crate) held_until: Option<i64>,
    pub(crate) clock_doubt: bool,
    /// Steady time as it was when the clock came into doubt.
    pub(crate) doubt_at: Option<i64>,
    /// The steady time of the newest `brought`.
    pub(crate) brought: Option<i64>,
    /// The sum of all settings of the clock.
    pub(crate) shift: i64,
    /// What stewards have corrected by, in seconds.
    pub(crate) corrected_s: u64,
    pub(crate) settling: bool,
    /// Power-ups in the life of the lock that have no record.
    pub(crate) power_ups: u32,
    pub(crate) setting_up: bool,
    /// Who asked for the way out that runs, and whether it is the long one.
    pub(crate) way_out: Option<(Vec<u8>, bool)>,
}

impl Durable {
    pub(crate) fn new(settings: Setup, flash: Flash) -> Self {
        // Nobody could open yet where nobody is enrolled.
        let setting_up = settings.holders.is_empty();
        Self {
            flash,
            settings,
            records: Vec::new(),
            totals: BTreeMap::new(),
            shares: BTreeMap::new(),
            step: 0,
            penalty_s: None,
            held_until: None,
            clock_doubt: false,
            doubt_at: None,
            brought: None,
            shift: 0,
            corrected_s: 0,
            settling: false,
            power_ups: 0,
            setting_up,
            way_out: None,
        }
    }

    /// The latest time in any record, of those that follow the newest setting
    /// of the clock, its record included.
    pub(crate) fn floor(&self) -> Option<i64> {
        let is_setting =
            |record: &Record| record.kind == "clock-set" || record.kind == "clock-corrected";
        let since = self.records.iter().rposition(is_setting).unwrap_or(0);
        self.records[since..].iter().filter_map(|record| record.utc).max()
    }

    pub(crate) fn record(&mut self, record: Record) {
        self.records.push(record);
    }

    /// Adds one entry of the tally.
    pub(crate) fn add(&mut self, entry: &Tally) {
        match entry {
            Tally::Counted(number) => {
                let total = self.totals.entry(*number).or_default();
                *total = (*total + 1).min(MOST_FAILURES);
                *self.shares.entry(*number).or_default() += 1;
            }
            Tally::Cleared(number) => {
                self.totals.remove(number);
                self.shares.remove(number);
            }
            Tally::Faded(number) => {
                let share = self.shares.entry(*number).or_default();
                *share = share.saturating_sub(1);
            }
            Tally::Penalty(length_s) => {
                self.shares.clear();
                self.step += 1;
                self.penalty_s = Some(*length_s);
            }
            Tally::Served => self.penalty_s = None,
            Tally::Eased => self.step = 0,
            Tally::HeldShut(end) => self.held_until = Some(*end),
            Tally::ClockDoubt(steady) => {
                self.clock_doubt = true;
                self.doubt_at = *steady;
            }
            Tally::ClockSet(shift) => {
                self.believe(*shift);
                self.settling = true;
            }
            Tally::Corrected(by, shift) => {
                self.believe(*shift);
                self.corrected_s += by;
            }
            Tally::CorrectionsOver => self.corrected_s = 0,
            Tally::Settled => self.settling = false,
            Tally::Brought(steady) => {
                self.brought = Some(*steady);
                for holder in self.settings.holders.values_mut() {
                    holder.waits = holder.waits.filter(|waits| waits.made >= *steady);
                }
                self.settings.stricter.take_if(|stricter| stricter.made < *steady);
            }
            Tally::PoweredUp => self.power_ups += 1,
            Tally::SettingUp => {
                self.setting_up = true;
                self.way_out = None;
            }
            Tally::SetUp => self.setting_up = false,
            Tally::WayOut(people, long) => self.way_out = Some((people.clone(), *long)),
            Tally::WayOutOver => self.way_out = None,
        }
    }

    fn believe(&mut self, shift: i64) {
        self.clock_doubt = false;
        self.doubt_at = None;
        self.shift = shift;
    }

    /// The sum of the shares.
    pub(crate) fn lock_count(&self) -> u32 {
        self.shares.values().sum()
    }

    /// The level of the supply that was recorded last; good at first.
    pub(crate) fn recorded_supply(&self) -> &str {
        let mut newest = self.records.iter().rev().map(|record| record.kind.as_str());
        newest.find(|kind| kind.starts_with("supply-")).unwrap_or("supply-good")
    }

    /// The outcome that a boot goes by: the newest one, but that a plain entry in a
    /// penalty takes nothing back.
    pub(crate) fn newest_outcome(&self) -> Option<&'static str> {
        self.records.iter().fold(None, |before, record| match record.outcome {
            Some("plain") if record.kind == "refused-penalty" => before.or(Some("plain")),
            Some(outcome) => Some(outcome),
            None => before,
        })
    }

    /// The newest record that says where the bolt was left.
    pub(crate) fn last_word(&self) -> Option<&Record> {
        let told = [
            "released",
            "opened",
            "secured",
            "not-drawn",
            "forced",
            "found-thrown",
            "commissioned",
            "reset",
        ];
        self.records.iter().rev().find(|record| told.contains(&record.kind.as_str()))
    }
}
