//! `lock_core::policy`

use lock_core::policy::{Control, KEYS, Millivolts, Policy, Stricter, TABLE};
use lock_core::time::Seconds;

use crate::outside;

/// Any policy that the bounds allow, or the default.
pub fn any() -> Policy {
    outside::any().filter(|policy: &Policy| policy.check().is_ok()).unwrap_or_default()
}

/// Anything that an opening may take besides.
pub fn stricter() -> Option<Stricter> {
    let (until, made, delay, deputies) = outside::any()?;
    let control = if outside::byte() == 0 { Control::Single } else { Control::Dual };
    Some(Stricter { until, made, delay: Seconds::new(delay), control, deputies })
}

/// Any voltage.
pub fn millivolts() -> Millivolts {
    Millivolts::new(u16::from_le_bytes(outside::bytes()))
}

#[inline(never)]
pub fn bounds() {
    let Some(policy) = outside::any::<Policy>() else { return };
    for (value, bound) in policy.values().into_iter().zip(TABLE) {
        outside::put(value);
        outside::put_all(bound.why.as_bytes());
    }
    if let Some(key) = KEYS.get(usize::from(outside::byte())) {
        outside::put_all(key.as_bytes());
    }
    if let Err(bound) = policy.check() {
        outside::put_all(&[bound.key]);
        outside::put(bound.most);
    }
    outside::put(policy.supply_low.saturating_add(millivolts()).get());
}
