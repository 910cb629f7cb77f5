//! The alarm line as a supervised loop: what its far end makes of its resistance.
//!
//! Two wires leave the safe for an alarm panel. The panel sends a small current of
//! its own through the loop and measures the resistance. At the lock's end resistors
//! lie across the wires, each but the first behind a transistor:
//!
//! | resistor | across the wires | together |
//! | --- | --- | --- |
//! | [`END_OF_LINE`] | always | 20 kΩ: the lock has no power |
//! | [`POWERED`] | while the lock has power | 10 kΩ: quiet |
//! | [`TAMPERED`] | while [`AlarmPins`](super::AlarmPins) says *tamper* | 5 kΩ |
//! | [`ALARMED`] | while it says *duress* | 2.5 kΩ |
//!
//! So the line is silent, and costs the lock's battery no more than the charge and the
//! leak of a gate: no relay is held. Duress is told from a cut or a shorted wire, which
//! look like none of the four. And a lock that is dead does not look quiet: the gate
//! behind [`POWERED`] hangs on the reset output of a supply supervisor, not on a pin of
//! the processor, so that neither a spent battery nor a processor that is held in reset
//! can keep it up. A panel should report that as a fault to be looked into soon: nobody
//! could call for help.
//!
//! Supervision by a resistor at the end of the line is common practice; the values are
//! ours. What a panel reports to whom is between the installer and the alarm company.

use crate::port::Alarm;

/// A resistance in ohms.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Resistance(pub u32);

/// Across the wires at the lock's end, always.
pub const END_OF_LINE: Resistance = Resistance(20_000);
/// Put across as well while the lock has power: 10 kΩ together.
pub const POWERED: Resistance = Resistance(20_000);
/// Put across as well while the line says *tamper*: 5 kΩ together.
pub const TAMPERED: Resistance = Resistance(10_000);
/// Put across as well while the line says *duress*: 2.5 kΩ together.
pub const ALARMED: Resistance = Resistance(3_333);

/// What the far end sees.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LineSeen {
    /// The line says this.
    Level(Alarm),
    /// The lock has no power: it can call nobody.
    NoPower,
    /// A wire is cut, or pulled out.
    Cut,
    /// The wires touch.
    Shorted,
}

/// Half way, in ratio, between neighbours: shorted and duress, duress and tamper,
/// tamper and quiet, quiet and no power, no power and cut.
const BOUNDS: [Resistance; 5] = [
    Resistance(1_200),
    Resistance(3_536),
    Resistance(7_071),
    Resistance(14_142),
    Resistance(28_284),
];

impl LineSeen {
    /// What a measured resistance means. Wires of up to 400 Ω, contacts of up to
    /// 100 kΩ of leakage across them and resistors of 5 % change nothing.
    #[must_use]
    pub fn judge(measured: Resistance) -> Self {
        let [short, duress, tamper, quiet, no_power] = BOUNDS;
        if measured < short {
            Self::Shorted
        } else if measured < duress {
            Self::Level(Alarm::Duress)
        } else if measured < tamper {
            Self::Level(Alarm::Tamper)
        } else if measured < quiet {
            Self::Level(Alarm::Quiet)
        } else if measured < no_power {
            Self::NoPower
        } else {
            Self::Cut
        }
    }
}

/// The resistance of the loop while it says `level`, wires and tolerances aside.
#[must_use]
pub const fn nominal(level: Alarm) -> Resistance {
    match level {
        Alarm::Quiet => Resistance(10_000),
        Alarm::Tamper => Resistance(5_000),
        Alarm::Duress => Resistance(2_500),
    }
}
