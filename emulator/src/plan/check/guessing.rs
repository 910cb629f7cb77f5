//! How likely a guess succeeds, and whether a policy is as strong as asked for.
//!
//! A guesser is taken to know which codes are refused and to choose evenly
//! among the others. A duress code opens as well, so it doubles the chance. On a courier's
//! number the lock takes the codes of [`LOOK_AHEAD`] counters, each with its variant.
//!
//! | figure | source |
//! | --- | --- |
//! | less than 1 in 1,000,000 a try, less than 1 in 100,000 a minute | FIPS 140-2 section 4.3.3 (superseded by FIPS 140-3) |
//! | at most 100 failures in a row for one number | NIST SP 800-63B |
//! | usable codes of a class | EN 1300, from memory ([`Class`]) |

use lock_core::code::one_time::{Digits, LOOK_AHEAD};
use lock_core::policy::{DuressCodes, NUMBER_LIMIT, Policy};
use lock_core::role::Role;

use super::Outlook;
use crate::document::Place;
use crate::plan::{Finding, Severity};
use crate::site::{Class, LockPlan, Person};

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
    let couriers = |person: &Person| person.role == Role::Courier && person.may_open();
    let courier = outlook.site.holders.iter().any(couriers);
    for lock in &outlook.site.locks {
        let kinds = [Some(Numbers::Chosen), courier.then_some(Numbers::Courier)];
        for numbers in kinds.into_iter().flatten() {
            let odds = Odds::of(&lock.policy, numbers);
            findings.extend(weaker_than_asked(lock, odds));
            match told.iter_mut().find(|(other, ..)| *other == odds) {
                Some((_, _, ids)) => ids.push(&lock.id),
                None => told.push((odds, lock.place, vec![&lock.id])),
            }
        }
    }
    for (odds, place, ids) in told {
        findings.extend(odds.finding(place, &ids));
    }
}

fn weaker_than_asked(lock: &LockPlan, odds: Odds) -> Option<Finding> {
    let (class, place) = lock.class?;
    let least = class.least_codes();
    if odds.numbers == Numbers::Courier {
        return weaker_by_couriers(lock, class, place, odds);
    }
    let usable = usable_codes(lock.policy.code_digits);
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

/// A courier's number, if it is weaker than a class asks: as if there were only so many
/// codes, because the lock takes several.
fn weaker_by_couriers(lock: &LockPlan, class: Class, place: Place, odds: Odds) -> Option<Finding> {
    let (least, own) = (u64::from(class.least_codes()), odds.codes / odds.right);
    if own >= least {
        return None;
    }
    let what = format!(
        "Class {} asks for {} usable codes (EN 1300, from memory); on a courier's number the lock \
         {} takes {} entries of {}, as if there were {}.",
        class.letter(),
        grouped(least),
        lock.id,
        odds.right,
        grouped(odds.codes),
        grouped(own),
    );
    let remedy = "Give couriers chosen codes, as keyholders, or ask for a lower class.";
    Some(Finding::new(Severity::Warning, place, what, remedy.to_owned()))
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

/// Whose numbers are guessed at.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Numbers {
    /// Those of people who chose a code.
    Chosen,
    /// Those of couriers.
    Courier,
}

/// What bears on the chance of a guess.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Odds {
    numbers: Numbers,
    digits: u8,
    /// Codes that are equally likely.
    codes: u64,
    duress: bool,
    /// Entries that open for one number, at most: 1, or 2 with duress codes; so many for
    /// each of a courier's counters.
    right: u64,
    /// Tries until the penalty, which lasts a minute at least, so that no
    /// minute has more.
    tries: u64,
}

impl Odds {
    fn of(policy: &Policy, numbers: Numbers) -> Self {
        let each = match policy.duress {
            DuressCodes::On => 2,
            DuressCodes::Off => 1,
        };
        let (tries, duress) = (policy.wrong_codes.into(), policy.duress == DuressCodes::On);
        match numbers {
            Numbers::Chosen => {
                let digits = policy.code_digits;
                let codes = usable_codes(digits).into();
                Self { numbers, digits, codes, duress, right: each, tries }
            }
            Numbers::Courier => {
                // A counter's code is any of them; one that is not usable is left out.
                let digits = Digits::COURIER.get();
                let counters = u64::try_from(LOOK_AHEAD).unwrap_or(u64::MAX);
                let codes = 10_u64.pow(digits.into());
                Self { numbers, digits, codes, duress, right: each * counters, tries }
            }
        }
    }

    fn finding(self, place: Place, ids: &[&str]) -> Option<Finding> {
        let usable = self.codes;
        let of = |tries: u64| usable / (tries * self.right);
        let (per_try, per_minute) = (of(1), of(self.tries));
        // "Less than": a chance of exactly one in a million is too much.
        let try_misses = usable <= TRY_LEAST * self.right;
        let minute_misses = usable <= MINUTE_LEAST * self.right * self.tries;
        if !try_misses && !minute_misses {
            return None;
        }
        let with = if self.duress { "with duress codes" } else { "without duress codes" };
        let with = match self.numbers {
            Numbers::Chosen => with.to_owned(),
            Numbers::Courier => format!("on a courier's number, {LOOK_AHEAD} counters {with}"),
        };
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
