//! What arithmetic says about guessing, without a lock.
//!
//! Source: sums over blocks of tries. A block is `k` tries of `t` seconds each,
//! then a penalty; the *n*th penalty lasts `P` · 2ⁿ, at most the cap, and *n* is
//! back at its start after 24 h without a wrong code. With a
//! constant penalty the mean time until one of `N` codes is found is
//! `t (N + 1) / 2 + P (N / k - 1) / 2` where `k` divides `N`.

use lock_core::policy::Policy;

/// Tries that can be judged in the first `horizon` seconds, its last instant
/// included, each taking `pace` seconds, by somebody who never pauses.
#[must_use]
pub fn judged(policy: &Policy, pace: u64, horizon: u64) -> u64 {
    let block = u64::from(policy.wrong_codes);
    let cap = u64::from(policy.penalty_cap.get());
    let first = u64::from(policy.penalty.get()).min(cap);
    let mut penalty = first;
    let (mut tries, mut start) = (0, 0);
    while start + pace <= horizon {
        if penalty == cap && penalty + pace < DAY {
            // From here on every block is like the next.
            let period = block * pace + penalty;
            let blocks = (horizon - start) / period;
            tries += blocks * block;
            start += blocks * period;
        }
        let fit = (horizon - start).checked_div(pace).unwrap_or(u64::MAX);
        if fit < block {
            return tries + fit;
        }
        tries += block;
        start += block * pace + penalty;
        // A penalty is time without a wrong code as well.
        let faded = penalty + pace >= DAY;
        penalty = if faded { first } else { (penalty * 2).min(cap) };
    }
    tries
}

/// The same for somebody who pauses for a day after every `blocks` blocks, so
/// that the doubling falls. A penalty runs within the pause; up to the last it
/// must be shorter than one.
#[must_use]
pub fn judged_with_pauses(policy: &Policy, pace: u64, horizon: u64, blocks: u32) -> u64 {
    let cycle = cycle(policy, pace, blocks);
    let whole = u64::from(blocks) * u64::from(policy.wrong_codes);
    // The last cycle is cut short by the horizon, or by its own pause.
    let last = judged(policy, pace, horizon % cycle).min(whole);
    horizon / cycle * whole + last
}

/// Seconds from the start of such a cycle to the start of the next.
fn cycle(policy: &Policy, pace: u64, blocks: u32) -> u64 {
    let tries = u64::from(blocks) * u64::from(policy.wrong_codes);
    let penalties: u64 = (0..blocks.saturating_sub(1)).map(|n| length(policy, n)).sum();
    tries * pace + penalties + length(policy, blocks.saturating_sub(1)).max(DAY)
}

/// The number of blocks between two pauses that gets most tries through, of
/// those that pause at least every [`BLOCKS_MOST`] blocks.
#[must_use]
pub fn best_blocks(policy: &Policy, pace: u64) -> u32 {
    let rate = |blocks: &u32| {
        // Tries in the time of a hundred million cycles of a second: a whole
        // number that orders as the rate does.
        u64::from(*blocks) * 100_000_000_000 / cycle(policy, pace, *blocks)
    };
    (1..=blocks_most(policy)).max_by_key(rate).unwrap_or(1)
}

/// Blocks up to the first penalty that is a pause by itself.
fn blocks_most(policy: &Policy) -> u32 {
    let is_pause = |n: &u32| length(policy, *n) >= DAY;
    (0..BLOCKS_MOST - 1).find(is_pause).map_or(BLOCKS_MOST, |n| n + 1)
}

/// Seconds of the penalty after `n` others.
fn length(policy: &Policy, n: u32) -> u64 {
    let doubled = u64::from(policy.penalty.get()) << n.min(20);
    doubled.min(policy.penalty_cap.get().into())
}

/// Most blocks before a pause; more come ever closer to no pause at all.
pub const BLOCKS_MOST: u32 = 16;

const DAY: u64 = 86_400;

/// The chance that `tries` different codes include the one, when each leaves
/// out `each` of `codes` equally likely ones. Never more than one.
#[must_use]
pub fn chance(tries: u64, each: u64, codes: u64) -> f64 {
    ratio(tries.saturating_mul(each).min(codes), codes)
}

/// Tries until the first hit on average, when `valid` of `codes` codes are
/// right and all are tried in random order: (N + 1) / (M + 1).
#[must_use]
pub fn tries_until_hit(codes: u64, valid: u64) -> f64 {
    ratio(codes + 1, valid + 1)
}

/// A quotient; 0 of nothing.
#[must_use]
pub fn ratio(part: u64, of: u64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "counts of codes are far below 2^52")]
    let quotient = part as f64 / of.max(1) as f64;
    quotient
}

#[cfg(test)]
mod tests {
    use super::*;
    use lock_core::time::Seconds;

    fn policy(k: u8, penalty: u32, cap: u32) -> Policy {
        let (penalty, penalty_cap) = (Seconds::new(penalty), Seconds::new(cap));
        Policy { wrong_codes: k, penalty, penalty_cap, ..Policy::DEFAULT }
    }

    /// The time of each try, one after the other.
    fn counted(policy: &Policy, pace: u64, horizon: u64) -> u64 {
        let (mut now, mut last, mut tries, mut penalties) = (0, 0, 0, 0);
        loop {
            for _ in 0..policy.wrong_codes {
                now += pace;
                if now > horizon {
                    return tries;
                }
                if now - last >= 86_400 {
                    penalties = 0;
                }
                (last, tries) = (now, tries + 1);
            }
            let doubled = u64::from(policy.penalty.get()) << u32::min(penalties, 20);
            now += doubled.min(policy.penalty_cap.get().into());
            penalties += 1;
        }
    }

    #[test]
    fn blocks_add_up_to_what_single_tries_do() {
        for (k, penalty, cap) in [(4, 300, 300), (4, 300, 2_400), (3, 60, 86_400), (10, 61, 100)] {
            let policy = policy(k, penalty, cap);
            for pace in [0, 1, 7, 30] {
                for horizon in [0, 1, 299, 300, 301, 4_000, 86_399, 86_400, 2_592_000] {
                    let expected = counted(&policy, pace, horizon);
                    assert_eq!(judged(&policy, pace, horizon), expected, "{pace} {horizon}");
                }
            }
        }
    }

    /// The same, one try after the other, for somebody who pauses: 24 h after the
    /// last wrong code the doubling is back at its start.
    fn counted_with_pauses(policy: &Policy, pace: u64, horizon: u64, blocks: u32) -> u64 {
        let (mut now, mut tries) = (0, 0);
        loop {
            for penalty in 0..blocks {
                for _ in 0..policy.wrong_codes {
                    now += pace;
                    if now > horizon {
                        return tries;
                    }
                    tries += 1;
                }
                let doubled = u64::from(policy.penalty.get()) << penalty.min(20);
                let served = doubled.min(policy.penalty_cap.get().into());
                now += if penalty + 1 == blocks { served.max(86_400) } else { served };
            }
        }
    }

    #[test]
    fn cycles_add_up_to_what_single_tries_do() {
        for (k, penalty, cap) in [(4, 300, 2_400), (3, 60, 86_400), (10, 61, 100)] {
            let policy = policy(k, penalty, cap);
            for (pace, blocks) in [(0, 1), (1, 2), (7, 7), (0, 16)] {
                let blocks = blocks.min(blocks_most(&policy));
                for horizon in [0, 86_399, 86_400, 86_401, 172_799, 172_800, 2_592_000, 31_536_000]
                {
                    let expected = counted_with_pauses(&policy, pace, horizon, blocks);
                    let judged = judged_with_pauses(&policy, pace, horizon, blocks);
                    assert_eq!(judged, expected, "{pace} {blocks} {horizon}");
                }
            }
        }
    }

    /// With the default cap a pause never pays; with a cap of a day the doubling
    /// starts anew after each penalty of a day, and sooner for whoever pauses.
    #[test]
    fn pauses_pay_where_the_cap_is_long() {
        let year = 365 * 86_400;
        for (cap, blocks, steady, pausing) in
            [(2_400, 16, 52_572, 17_216), (86_400, 7, 5_276, 8_400)]
        {
            let policy = policy(4, 300, cap);
            assert_eq!(best_blocks(&policy, 0), blocks);
            assert_eq!(judged(&policy, 0, year), steady);
            assert_eq!(judged_with_pauses(&policy, 0, year, blocks), pausing);
        }
    }

    #[test]
    fn the_default_policy_takes_156_tries_in_its_first_day() {
        let judged = |days: u64| judged(&Policy::DEFAULT, 0, days * 86_400);
        assert_eq!([1, 30, 365].map(judged), [156, 4_332, 52_572]);
    }
}
