//! Source: the scope of UL 887 (2018), from a third-party copy: delays of five
//! minutes at the least, manual timers of 120 hours or more. So 120 hours are the least
//! that such a timer must reach, not the most that it may. How far a hold-shut reaches, 31
//! days, is our own choice. No conformity is claimed; what is checked is that lengths of
//! that size are kept to the second and survive arithmetic, also across a change of the
//! clock.

use crate::lock_of_a_site::{TOMASZ, audit, enter, lock, screen, wait};
use lock_core::keys::{Digit, Key};
use lock_core::rules::hold_shut::MOST_AHEAD;
use lock_core::screen::Screen;
use lock_core::time::{Seconds, Uptime, Utc};

const ALL_DAY: &str = "mon = [\"00:00-24:00\"]";

/// Monday 2027-03-01 00:00 UTC.
const MONDAY: u32 = 1_803_859_200;
const HOUR: u32 = 3_600;

/// 300 s: refused at 299, accepted at 300.
#[test]
fn five_minutes_are_three_hundred_seconds_to_the_second() {
    for (after, state) in [(298, "waiting"), (299, "waiting"), (300, "released"), (301, "released")]
    {
        let mut world = lock("delay = \"5m\"", ALL_DAY, MONDAY + HOUR);
        enter(&mut world, TOMASZ);
        assert_eq!(world.access(), Some("waiting"));
        wait(&mut world, after);
        enter(&mut world, TOMASZ);
        assert_eq!(world.access(), Some(state), "after {after} s");
    }
}

/// The longest delay that the policy allows, 99 minutes, to the second.
#[test]
fn the_longest_delay_is_kept_to_the_second() {
    for (after, state) in [(99 * 60 - 1, "waiting"), (99 * 60, "released")] {
        let mut world = lock("delay = \"99m\"", ALL_DAY, MONDAY + HOUR);
        enter(&mut world, TOMASZ);
        wait(&mut world, after);
        enter(&mut world, TOMASZ);
        assert_eq!(world.access(), Some(state), "after {after} s");
    }
}

/// 120 hours are 432,000 s, within what a lock may be held shut for, and no sum with
/// them overflows or wraps.
#[test]
fn a_hundred_and_twenty_hours_do_not_overflow() {
    let hours = Seconds::from_hours(120);
    assert_eq!(hours, Seconds::new(432_000));
    assert!(hours <= MOST_AHEAD, "a manual timer reaches 120 hours at the least");
    let last = Utc::from_secs(u32::MAX);
    assert_eq!(last.after(hours), last);
    assert_eq!(last.checked_add(hours), None);
    let late = Uptime::from_millis(u64::MAX - 1);
    assert_eq!(late.after(hours), Uptime::from_millis(u64::MAX));
    assert_eq!(Uptime::from_millis(432_000_000).since(Uptime::from_millis(0)), hours);
}

/// A hold-shut of exactly 120 hours lasts for 432,000 s, although the clock goes
/// forward in between (Dublin, 2027-03-28 01:00 UTC).
#[test]
fn a_hold_of_120_hours_across_a_clock_change_lasts_432_000_seconds() {
    // The window starts on Tuesday 2027-03-30 at 09:00 local, 08:00 UTC.
    let start = MONDAY + 29 * 24 * HOUR + 8 * HOUR;
    let mut world = lock("", "tue = [\"09:00-10:00\"]", start - 432_000);
    world.press(Key::Ok);
    world.press(Key::Digit(Digit::new(1).unwrap()));
    enter(&mut world, TOMASZ);
    // It asks whether nobody is inside.
    world.press(Key::Ok);
    assert!(matches!(screen(&world), Screen::HoldSet { .. }), "{:?}", screen(&world));
    wait(&mut world, 431_999);
    enter(&mut world, TOMASZ);
    assert_eq!(world.access(), Some("secured"), "a second too early");
    wait(&mut world, 1);
    enter(&mut world, TOMASZ);
    assert_eq!(world.access(), Some("released"));
    let kinds: Vec<&str> = audit(&mut world).iter().map(|(_, r)| r.event.kind()).collect();
    assert_eq!(kinds, ["powered-up", "asked", "held-shut", "refused-held-shut", "released"]);
}
