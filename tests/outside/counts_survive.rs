//! Source: FIPS 140-2 section 4.3.3 (superseded) and NIST SP 800-63B (5.2.2) limit
//! *consecutive* failures; a limit that a reboot or a moved clock resets is
//! none. So between any two wrong codes anything may happen to power and clock,
//! and the fourth starts the penalty all the same (R2).

use crate::lock_of_a_site::{MAEVE, enter, lock, wait};
use proptest::prelude::*;

/// Monday 2027-03-01 09:00 UTC.
const START: u32 = 1_803_891_600;

/// What happens between two wrong codes.
#[derive(Clone, Copy, Debug)]
enum Meanwhile {
    PowerCut(u64),
    Clock(i64),
    ClockLost,
    /// Less than the day after which the count fades.
    Wait(u64),
    /// A right code on a number that is not guessed at.
    Insider,
}

fn meanwhile() -> impl Strategy<Value = Vec<Meanwhile>> {
    let one = prop_oneof![
        (0..90_000u64).prop_map(Meanwhile::PowerCut),
        (-400_000..400_000i64).prop_map(Meanwhile::Clock),
        Just(Meanwhile::ClockLost),
        (0..20_000u64).prop_map(Meanwhile::Wait),
        Just(Meanwhile::Insider),
    ];
    proptest::collection::vec(one, 0..4)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    /// R2: three wrong codes and whatever in between are no penalty; the
    /// fourth is, on whichever numbers they were tried.
    #[test]
    fn no_reboot_clock_or_insider_resets_a_count(
        between in proptest::collection::vec(meanwhile(), 4),
        numbers in proptest::collection::vec(prop_oneof![Just(12u8), Just(0u8), 2..100u8], 4),
    ) {
        let mut world = lock("", "mon = [\"00:00-24:00\"]", START);
        for (place, (events, number)) in between.iter().zip(numbers).enumerate() {
            for event in events {
                match *event {
                    Meanwhile::PowerCut(seconds) => {
                        world.cut_power();
                        wait(&mut world, seconds);
                        world.restore_power();
                    }
                    Meanwhile::Clock(by) => world.shift_clock(by),
                    Meanwhile::ClockLost => world.lose_clock(),
                    Meanwhile::Wait(seconds) => wait(&mut world, seconds),
                    Meanwhile::Insider => {
                        enter(&mut world, MAEVE);
                        wait(&mut world, 10);
                    }
                }
            }
            prop_assert!(!world.in_penalty(), "no penalty before the fourth");
            enter(&mut world, &format!("{number:02}999123"));
            prop_assert_eq!(world.in_penalty(), place == 3);
        }
    }
}
