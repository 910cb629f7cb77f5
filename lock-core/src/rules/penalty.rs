//! How long a penalty lasts.

use crate::policy::Policy;
use crate::time::Seconds;

/// The length of the penalty that starts while the step stands at `step`
/// (0 for the first): doubled for each step, at most the policy's cap.
#[must_use]
pub fn length(policy: &Policy, step: u8) -> Seconds {
    let factor = 1u32.checked_shl(u32::from(step)).unwrap_or(u32::MAX);
    Seconds::new(policy.penalty.get().saturating_mul(factor)).min(policy.penalty_cap)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn doubles_up_to_the_cap_and_never_overflows() {
        let minutes = |step| length(&Policy::DEFAULT, step).get() / 60;
        assert_eq!([0, 1, 2, 3, 4].map(minutes), [5, 10, 20, 40, 40]);
        assert_eq!(minutes(31), 40);
        assert_eq!(minutes(u8::MAX), 40);
    }
}
