//! A contact, on a switch that bounces.

use std::vec::Vec;

use embedded_hal::digital::ErrorKind;
use proptest::prelude::*;

use super::*;
use crate::drivers::{Active, Contact, STEADY_MILLIS};
use crate::time::Uptime;

/// What is told of a pin that reads so, a sample a millisecond.
fn told(levels: &[bool]) -> Vec<(usize, bool)> {
    let wire = Wire::default();
    let mut contact = Contact::new(wire.clone(), Active::High);
    assert!(!contact.read());
    let told = levels.iter().enumerate().filter_map(|(at, level)| {
        wire.0.set(*level);
        let now = Uptime::from_millis(5_000 + u64::try_from(at).unwrap());
        contact.steady(now).map(|active| (at, active))
    });
    told.collect()
}

#[test]
fn a_change_is_told_once_it_stays() {
    let steady = usize::from(STEADY_MILLIS);
    assert_eq!(told(&[false; 100]), []);
    assert_eq!(told(&[true; 100]), [(steady, true)]);
    // So far and no further: it fell back.
    let mut short = [false; 100];
    short[10..10 + steady].fill(true);
    assert_eq!(told(&short), []);
}

/// What moves on until it is told, and only that, keeps the board awake.
#[test]
fn it_says_whether_it_has_to_be_asked_again() {
    let wire = Wire::default();
    let mut contact = Contact::new(wire.clone(), Active::Low);
    assert!(contact.read());
    assert!(!contact.is_settling());
    wire.0.set(true);
    let at = |millis| Uptime::from_millis(millis);
    assert_eq!(contact.steady(at(100)), None);
    assert!(contact.is_settling());
    // Asked late: it counts, as it still reads so.
    assert_eq!(contact.steady(at(900)), Some(false));
    assert!(!contact.is_settling());
    wire.0.set(false);
    assert_eq!(contact.steady(at(u64::MAX - 1)), None);
    wire.0.set(true);
    assert_eq!(contact.steady(at(u64::MAX)), None);
    assert!(!contact.is_settling(), "back where it was");
}

/// A pin that cannot be read is active: at once at boot, and as any other change.
#[test]
fn a_pin_that_fails_is_active() {
    struct Broken;
    impl ErrorType for Broken {
        type Error = ErrorKind;
    }
    impl InputPin for Broken {
        fn is_high(&mut self) -> Result<bool, ErrorKind> {
            Err(ErrorKind::Other)
        }
        fn is_low(&mut self) -> Result<bool, ErrorKind> {
            Err(ErrorKind::Other)
        }
    }
    for active in [Active::High, Active::Low] {
        assert!(Contact::new(Broken, active).read());
    }
}

proptest! {
    /// However it bounces, as long as no bounce is as long as a change has to stay: a
    /// hand that draws the bolt is one change, and so is one that throws it.
    #[test]
    fn a_bouncing_contact_is_one_change(
        drawn in prop::collection::vec(1..=usize::from(STEADY_MILLIS), 0..20),
        thrown in prop::collection::vec(1..=usize::from(STEADY_MILLIS), 0..20),
    ) {
        let mut levels = Vec::new();
        for (bounces, end) in [(&drawn, true), (&thrown, false)] {
            for (place, millis) in bounces.iter().enumerate() {
                levels.extend(std::iter::repeat_n((place % 2 == 0) == end, *millis));
            }
            levels.extend(std::iter::repeat_n(end, 100));
        }
        let told: Vec<bool> = told(&levels).into_iter().map(|(_, active)| active).collect();
        prop_assert_eq!(told, [true, false]);
    }
}
