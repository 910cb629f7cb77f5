//! The row of the policy: what is in force, and the stricter one that it waits to
//! replace. `docs/flash-layout.md` has its bytes.

use super::bytes::{Put, Take};
use crate::policy::{Control, Deputies, DuressCodes, Millivolts, Policy, Stricter};
use crate::time::{Seconds, Steady};

/// Each value at a place of its own, whatever the order of the policy table.
pub(super) fn put(policy: &Policy, stricter: Option<&Stricter>, out: &mut Put<'_>) {
    let Policy {
        code_digits,
        wrong_codes,
        penalty,
        penalty_cap,
        delay,
        claim,
        control,
        dual_limit,
        duress,
        alarm_hold,
        release,
        supply_low,
        supply_spent,
        deputies,
    } = *policy;
    out.u8(code_digits);
    out.u8(wrong_codes);
    for seconds in [penalty, penalty_cap, delay, claim, dual_limit, alarm_hold, release] {
        out.u32(seconds.get());
    }
    out.u32(supply_low.get().into());
    out.u32(supply_spent.get().into());
    out.u8(people(control));
    out.u8(match duress {
        DuressCodes::Off => 0,
        DuressCodes::On => 1,
    });
    out.u8(deputies.number());
    out.u8(u8::from(stricter.is_some()));
    if let Some(stricter) = stricter {
        out.u8(people(stricter.control));
        out.u8(stricter.deputies.number());
        out.u16(u16::try_from(stricter.delay.get()).unwrap_or(u16::MAX));
        out.u32(stricter.until.as_secs());
        out.u32(stricter.made.as_secs());
    }
}

const fn people(control: Control) -> u8 {
    match control {
        Control::Single => 1,
        Control::Dual => 2,
    }
}

const fn control(people: u8) -> Option<Control> {
    match people {
        1 => Some(Control::Single),
        2 => Some(Control::Dual),
        _ => None,
    }
}

pub(super) fn take(from: &mut Take<'_>) -> Option<(Policy, Option<Stricter>)> {
    let policy = Policy {
        code_digits: from.u8(),
        wrong_codes: from.u8(),
        penalty: Seconds::new(from.u32()),
        penalty_cap: Seconds::new(from.u32()),
        delay: Seconds::new(from.u32()),
        claim: Seconds::new(from.u32()),
        dual_limit: Seconds::new(from.u32()),
        alarm_hold: Seconds::new(from.u32()),
        release: Seconds::new(from.u32()),
        supply_low: Millivolts::new(u16::try_from(from.u32()).ok()?),
        supply_spent: Millivolts::new(u16::try_from(from.u32()).ok()?),
        control: control(from.u8())?,
        duress: match from.u8() {
            0 => DuressCodes::Off,
            1 => DuressCodes::On,
            _ => return None,
        },
        deputies: Deputies::numbered(u32::from(from.u8()))?,
    };
    policy.check().ok()?;
    let [waits, people, deputies] = from.array();
    let (delay, until, made) = (from.u16(), from.u32(), from.u32());
    let stricter = match waits {
        0 => None,
        1 => Some(Stricter {
            until: Steady::from_secs(until),
            made: Steady::from_secs(made),
            delay: Seconds::new(u32::from(delay)),
            control: control(people)?,
            deputies: Deputies::numbered(u32::from(deputies))?,
        }),
        _ => return None,
    };
    Some((policy, stricter))
}
