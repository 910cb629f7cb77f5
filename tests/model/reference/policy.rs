//! The policy (section 10): its keys, bounds and defaults, and the stricter
//! one that holds as well after a change that widened opening.

/// What deputies may do to keyholders, each including the former.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Deputies {
    Suspend,
    Remove,
    Enrol,
}

/// `_s` is seconds, `_mv` millivolts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Policy {
    pub(crate) code_digits: usize,
    pub(crate) wrong_codes: u32,
    pub(crate) penalty_s: u64,
    pub(crate) penalty_cap_s: u64,
    pub(crate) delay_s: u64,
    pub(crate) claim_s: u64,
    pub(crate) dual_control: bool,
    pub(crate) dual_limit_s: u64,
    pub(crate) duress: bool,
    pub(crate) alarm_hold_s: u64,
    pub(crate) release_s: u64,
    pub(crate) supply_low_mv: u32,
    pub(crate) supply_spent_mv: u32,
    pub(crate) deputies: Deputies,
}

impl Default for Policy {
    fn default() -> Self {
        Self {
            code_digits: 6,
            wrong_codes: 4,
            penalty_s: 5 * 60,
            penalty_cap_s: 40 * 60,
            delay_s: 0,
            claim_s: 3 * 60,
            dual_control: false,
            dual_limit_s: 60,
            duress: true,
            alarm_hold_s: 60,
            release_s: 6,
            supply_low_mv: 4_800,
            supply_spent_mv: 4_200,
            deputies: Deputies::Enrol,
        }
    }
}

/// The old values of what was widened, until an instant in steady time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Stricter {
    pub(crate) until: i64,
    /// When it was made to wait, in steady time.
    pub(crate) made: i64,
    pub(crate) delay_s: u64,
    pub(crate) dual_control: bool,
    pub(crate) deputies: Deputies,
}

/// The keys in the order in which pages of three show them.
pub(crate) const KEYS: [&str; 14] = [
    "code_digits",
    "wrong_codes",
    "penalty",
    "penalty_cap",
    "delay",
    "claim",
    "dual_limit",
    "alarm_hold",
    "release",
    "supply_low",
    "supply_spent",
    "dual_control",
    "duress",
    "deputies",
];

impl Policy {
    /// The bounds of a key beside the other values, in the unit of the table; what
    /// is no number is typed as one.
    pub(crate) fn bounds(&self, key: &str) -> (u64, u64) {
        let low = u64::from(self.supply_low_mv);
        let spent = u64::from(self.supply_spent_mv);
        match key {
            "code_digits" => (6, 8),
            "wrong_codes" => (3, 10),
            "penalty" => (1, 60.min(self.penalty_cap_s / 60)),
            "penalty_cap" => (self.penalty_s / 60, 24 * 60),
            "delay" => (0, 99),
            "claim" => (1, 15),
            "dual_limit" => (10, 300),
            "alarm_hold" => (10, 600),
            "release" => (3, 20),
            "supply_low" => (3_000.max(spent + 200), 9_000),
            "supply_spent" => (2_500, low - 200),
            "dual_control" => (1, 2),
            "duress" => (0, 1),
            "deputies" => (1, 3),
            unknown => panic!("no such key: {unknown}"),
        }
    }

    /// The same with another value: `dual_control` is told as people, `duress` as 0
    /// for off, `deputies` from 1, suspend, to 3, enrol.
    pub(crate) fn with(&self, key: &str, value: u64) -> Self {
        let mut new = self.clone();
        let mv = u32::try_from(value).expect("within bounds");
        match key {
            "code_digits" => new.code_digits = usize::try_from(value).expect("within bounds"),
            "wrong_codes" => new.wrong_codes = mv,
            "penalty" => new.penalty_s = value * 60,
            "penalty_cap" => new.penalty_cap_s = value * 60,
            "delay" => new.delay_s = value * 60,
            "claim" => new.claim_s = value * 60,
            "dual_control" => new.dual_control = value == 2,
            "dual_limit" => new.dual_limit_s = value,
            "duress" => new.duress = value == 1,
            "alarm_hold" => new.alarm_hold_s = value,
            "release" => new.release_s = value,
            "supply_low" => new.supply_low_mv = mv,
            "supply_spent" => new.supply_spent_mv = mv,
            "deputies" => {
                new.deputies = match value {
                    1 => Deputies::Suspend,
                    2 => Deputies::Remove,
                    _ => Deputies::Enrol,
                }
            }
            unknown => panic!("no such key: {unknown}"),
        }
        new
    }

    /// A value as a record has it: lengths in seconds, voltages in millivolts, what
    /// is no number as it is typed.
    pub(crate) fn value(&self, key: &str) -> u64 {
        match key {
            "code_digits" => u64::try_from(self.code_digits).expect("a digit"),
            "wrong_codes" => self.wrong_codes.into(),
            "penalty" => self.penalty_s,
            "penalty_cap" => self.penalty_cap_s,
            "delay" => self.delay_s,
            "claim" => self.claim_s,
            "dual_limit" => self.dual_limit_s,
            "alarm_hold" => self.alarm_hold_s,
            "release" => self.release_s,
            "supply_low" => self.supply_low_mv.into(),
            "supply_spent" => self.supply_spent_mv.into(),
            "dual_control" => 1 + u64::from(self.dual_control),
            "duress" => self.duress.into(),
            "deputies" => match self.deputies {
                Deputies::Suspend => 1,
                Deputies::Remove => 2,
                Deputies::Enrol => 3,
            },
            unknown => panic!("no such key: {unknown}"),
        }
    }

    /// The three values that bear on opening, and the stricter ones if they
    /// still hold.
    pub(crate) fn held(&self, stricter: Option<&Stricter>) -> Stricter {
        let old = stricter.cloned().unwrap_or(Stricter {
            until: i64::MIN,
            made: i64::MIN,
            delay_s: 0,
            dual_control: false,
            deputies: Deputies::Enrol,
        });
        Stricter {
            until: old.until,
            made: old.made,
            delay_s: old.delay_s.max(self.delay_s),
            dual_control: old.dual_control || self.dual_control,
            deputies: old.deputies.min(self.deputies),
        }
    }

    /// Whether this policy widens anything that `held` keeps narrow.
    pub(crate) fn widens(&self, held: &Stricter) -> bool {
        self.delay_s < held.delay_s
            || (held.dual_control && !self.dual_control)
            || self.deputies > held.deputies
    }
}
