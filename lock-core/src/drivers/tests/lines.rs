//! Alarm line, buzzer, divider; judged by arithmetic that the lock does not have.
#![expect(clippy::float_arithmetic, reason = "a meter at the far end, and Ohm's law as the judge")]

use std::vec::Vec;

use super::*;
use crate::drivers::{
    ALARMED, AlarmPins, Buzzer, Divider, END_OF_LINE, LineSeen, POWERED, Resistance, TAMPERED,
    nominal, pattern,
};
use crate::policy::Millivolts;
use crate::port::{Alarm, Sound};
use crate::time::Uptime;

/// The lock's end of the loop: what each gate is at.
struct Gates {
    power: bool,
    duress: Wire,
    tamper: Wire,
}

/// Wires and leaks in ohms, and how far each resistor is off.
type Worst = (f64, f64, [f64; 4]);

/// The worst resistors, wires and leaks that are promised.
fn worst() -> impl Iterator<Item = Worst> {
    let ends = [(0.0, 1e9), (400.0, 1e9), (0.0, 1e5), (400.0, 1e5)];
    (0..81_usize).flat_map(move |n| {
        let off = [1, 3, 9, 27].map(|place| [0.95, 1.0, 1.05][n / place % 3]);
        ends.map(|(wires, leak)| (wires, leak, off))
    })
}

impl Gates {
    /// The resistance of the loop as the far end measures it.
    fn measured(&self, (wires, leak, off): Worst) -> Resistance {
        let resistors = [
            (END_OF_LINE, true),
            (POWERED, self.power),
            (ALARMED, self.duress.0.get()),
            (TAMPERED, self.tamper.0.get()),
        ];
        let across = resistors.iter().zip(off).filter(|((_, on), _)| *on);
        let conductance: f64 =
            across.map(|((resistor, _), off)| 1.0 / (f64::from(resistor.0) * off)).sum();
        Resistance((wires + 1.0 / (conductance + 1.0 / leak)) as u32)
    }
}

/// Each level and a lock without power, with the worst that is promised.
#[test]
fn duress_is_told_from_tampering_from_a_fault_and_from_a_dead_lock() {
    let mut gates = Gates { power: true, duress: Wire::default(), tamper: Wire::default() };
    let mut pins = AlarmPins::new(gates.duress.clone(), gates.tamper.clone());
    for level in [Alarm::Quiet, Alarm::Tamper, Alarm::Duress, Alarm::Quiet] {
        pins.signal(level);
        for worst in worst() {
            let ohms = gates.measured(worst);
            assert_eq!(LineSeen::judge(ohms), LineSeen::Level(level), "{ohms:?}");
        }
        let ideal = gates.measured((0.0, 1e12, [1.0; 4]));
        assert!(ideal.0.abs_diff(nominal(level).0) <= 1, "{level:?}: {ideal:?}");
    }
    gates.power = false;
    for worst in worst() {
        assert_eq!(LineSeen::judge(gates.measured(worst)), LineSeen::NoPower);
    }
    assert_eq!(worst().count(), 81 * 4);
    for (ohms, fault) in [
        (0, LineSeen::Shorted),
        (400, LineSeen::Shorted),
        (100_000, LineSeen::Cut),
        (u32::MAX, LineSeen::Cut),
    ] {
        assert_eq!(LineSeen::judge(Resistance(ohms)), fault);
    }
}

/// A pin behind a bus that fails for a moment: the call for help is not lost by that.
#[test]
fn a_pin_that_fails_is_set_again() {
    use embedded_hal::digital::{ErrorKind, ErrorType, OutputPin};

    struct Flaky(Wire, u32);

    impl ErrorType for Flaky {
        type Error = ErrorKind;
    }

    impl OutputPin for Flaky {
        fn set_low(&mut self) -> Result<(), ErrorKind> {
            self.0.set_low().map_err(|never| match never {})
        }

        fn set_high(&mut self) -> Result<(), ErrorKind> {
            match self.1.checked_sub(1) {
                Some(left) => {
                    self.1 = left;
                    Err(ErrorKind::Other)
                }
                None => self.0.set_high().map_err(|never| match never {}),
            }
        }
    }

    for (fails, set) in [(0, true), (1, true), (2, true), (100, false)] {
        let (duress, tamper) = (Wire::default(), Wire::default());
        let mut pins = AlarmPins::new(Flaky(duress.clone(), fails), tamper.clone());
        pins.signal(Alarm::Duress);
        assert_eq!((duress.0.get(), tamper.0.get()), (set, false), "{fails} times");
    }
}

/// The pin over time, a sample a millisecond.
fn heard(sound: Sound, late: u64) -> Vec<bool> {
    let wire = Wire::default();
    let mut buzzer = Buzzer::new(wire.clone());
    buzzer.play(sound, Uptime::from_millis(1_000));
    let mut next = Some(1_000);
    (1_000..2_000)
        .map(|now| {
            if next.is_some_and(|next| now >= next + late) {
                next = buzzer.poll(Uptime::from_millis(now)).map(|next| next.as_millis());
            }
            wire.0.get()
        })
        .collect()
}

#[test]
fn each_sound_is_its_pattern_and_ends() {
    let mut all = Vec::new();
    for sound in [Sound::Key, Sound::Accepted, Sound::Refused, Sound::Warning] {
        let samples = heard(sound, 0);
        let mut at = 0;
        for (place, length) in pattern(sound).iter().enumerate() {
            let part = &samples[at..at + usize::from(*length)];
            assert!(part.iter().all(|on| *on == (place % 2 == 0)), "{sound:?}, part {place}");
            at += usize::from(*length);
        }
        assert!(samples[at..].iter().all(|on| !on), "{sound:?} ends");
        assert!(pattern(sound).len() % 2 == 1, "it ends with a part that sounds");
        // Polled late it still ends.
        assert!(!heard(sound, 7)[900]);
        all.push(samples);
    }
    for (one, other) in (0..4).flat_map(|a| (0..a).map(move |b| (a, b))) {
        assert!(all[one] != all[other], "sounds differ");
    }
}

/// Against the arithmetic of Ohm's law in floating point, over every reading.
#[test]
fn the_divider_is_never_above_the_supply() {
    let dividers = [
        Divider {
            upper: 100_000,
            lower: 47_000,
            reference: Millivolts::new(3_300),
            full_scale: 4_095,
        },
        Divider { upper: 0, lower: 10_000, reference: Millivolts::new(1_200), full_scale: 1_023 },
        Divider {
            upper: 1_000_000,
            lower: 220_000,
            reference: Millivolts::new(2_048),
            full_scale: 65_535,
        },
    ];
    for divider in dividers {
        let Divider { upper, lower, reference, full_scale } = divider;
        let ratio = f64::from(upper + lower) / f64::from(lower);
        for reading in 0..=full_scale {
            let exact =
                f64::from(reading) * f64::from(reference.get()) / f64::from(full_scale) * ratio;
            let supply = f64::from(divider.supply(reading).get());
            assert!(supply <= exact + 1e-6 && exact - supply < 1.0 + 1e-6, "{exact} {supply}");
        }
    }
    let nothing = Divider { lower: 0, ..dividers[0] };
    assert_eq!(nothing.supply(4_095), Millivolts::new(0));
    let nothing = Divider { full_scale: 0, ..dividers[0] };
    assert_eq!(nothing.supply(4_095), Millivolts::new(0));
}
