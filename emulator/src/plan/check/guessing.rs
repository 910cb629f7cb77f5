//! How likely a guess succeeds, and whether a policy is as strong as asked for.
//!
//! A guesser is taken to know which codes are refused and to choose evenly
//! among the others. A duress code opens as well, so it doubles the chance.
//!
//! | figure | source |
//! | --- | --- |
//! | less than 1 in 1,000,000 a try, less than 1 in 100,000 a minute | FIPS 140-2 section 4.3.3 (superseded by FIPS 140-3) |
//! | at most 100 failures in a row for one number | NIST SP 800-63B |
//! | usable codes of a class | EN 1300, from memory ([`Class`]) |

use lock_core::policy::{DuressCodes, NUMBER_LIMIT, Policy};

use super::Outlook;
use crate::document::Place;
use crate::plan::{Finding, Severity};
use crate::site::{Class, LockPlan};

/// A try must succeed in less than one of these.
const TRY_LEAST: u64 = 1_000_000;
/// The tries of a minute must succeed in less than one of these.
const MINUTE_LEAST: u64 = 100_000;

/// How many codes of that many digits the lock accepts: those that are neither
/// guessable nor have a guessable duress variant. Counted one by one; the test
/// counts again.
#[must_use]
pub const fn usable_codes(digits: u8) -> u32 {
    match digits {
        0..=6 => 889_354,
        7 => 9_343_662,
        8.. => 93_212_148,
    }
}

pub(super) fn check(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let mut told: Vec<(Odds, Place, Vec<&str>)> = Vec::new();
    for lock in &outlook.site.locks {
        findings.extend(weaker_than_asked(lock));
        let odds = Odds::of(&lock.policy);
        match told.iter_mut().find(|(other, ..)| *other == odds) {
            Some((_, _, ids)) => ids.push(&lock.id),
            None => told.push((odds, lock.place, vec![&lock.id])),
        }
    }
    for (odds, place, ids) in told {
        findings.extend(odds.finding(place, &ids));
    }
}

fn weaker_than_asked(lock: &LockPlan) -> Option<Finding> {
    let (class, place) = lock.class?;
    let (usable, least) = (usable_codes(lock.policy.code_digits), class.least_codes());
    let odds = Odds::of(&lock.policy);
    let asked = format!(
        "Class {} asks for {} usable codes (EN 1300, from memory)",
        class.letter(),
        grouped(least.into()),
    );
    let digits = lock.policy.code_digits;
    let own = grouped(usable.into());
    let (severity, what) = if usable < least {
        let what = format!(
            "The lock {} is weaker than asked for. {asked}; its codes of {digits} digits are {own}.",
            lock.id,
        );
        (Severity::Error, what)
    } else if u64::from(usable) < u64::from(least) * odds.right {
        let what = format!(
            "{asked}; the lock {} has {own}, but duress codes double the chance of a guess, as \
             if there were {}.",
            lock.id,
            grouped(u64::from(usable) / odds.right),
        );
        (Severity::Warning, what)
    } else {
        return None;
    };
    Some(Finding::new(severity, place, what, longer(digits, class, odds.right)))
}

/// The fewest digits that reach a class.
fn longer(digits: u8, class: Class, right: u64) -> String {
    let reaches =
        |digits: &u8| u64::from(usable_codes(*digits)) >= u64::from(class.least_codes()) * right;
    match (digits + 1..=8).find(reaches) {
        Some(enough) => format!("Set code_digits = {enough}, or ask for a lower class."),
        None => "Ask for a lower class: no length of code reaches this one.".into(),
    }
}

/// What bears on the chance of a guess.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Odds {
    digits: u8,
    /// Codes that open for one number: 1, or 2 with duress codes.
    right: u64,
    /// Tries until the penalty, which lasts a minute at least, so that no
    /// minute has more.
    tries: u64,
}

impl Odds {
    fn of(policy: &Policy) -> Self {
        let right = match policy.duress {
            DuressCodes::On => 2,
            DuressCodes::Off => 1,
        };
        Self { digits: policy.code_digits, right, tries: policy.wrong_codes.into() }
    }

    fn finding(self, place: Place, ids: &[&str]) -> Option<Finding> {
        let usable = u64::from(usable_codes(self.digits));
        let of = |tries: u64| usable / (tries * self.right);
        let (per_try, per_minute) = (of(1), of(self.tries));
        // "Less than": a chance of exactly one in a million is too much.
        let try_misses = usable <= TRY_LEAST * self.right;
        let minute_misses = usable <= MINUTE_LEAST * self.right * self.tries;
        if !try_misses && !minute_misses {
            return None;
        }
        let with = if self.right == 2 { "with duress codes" } else { "without duress codes" };
        let word = if ids.len() == 1 { "lock" } else { "locks" };
        let what = format!(
            "Guessing at the {word} {}: {} digits {with} give a try one chance in {}, the {} \
             tries of a minute one in {}, and the {} failures that a number may have in a row \
             (NIST SP 800-63B) one in {}.",
            ids.join(", "),
            self.digits,
            grouped(per_try),
            self.tries,
            grouped(per_minute),
            NUMBER_LIMIT,
            grouped(of(NUMBER_LIMIT.into())),
        );
        let missed = match (try_misses, minute_misses) {
            (true, true) => "Both the try and the minute miss",
            (true, false) => "The try misses",
            (false, _) => "The minute misses",
        };
        let severity = if minute_misses { Severity::Warning } else { Severity::Note };
        let remedy = format!(
            "{missed} FIPS 140-2 section 4.3.3 (superseded): less than one in {} a try, one in {} \
             a minute. Where that matters, take more digits or fewer wrong codes.",
            grouped(TRY_LEAST),
            grouped(MINUTE_LEAST),
        );
        Some(Finding::new(severity, place, what, remedy))
    }
}

/// `1,000,000`.
fn grouped(number: u64) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}
