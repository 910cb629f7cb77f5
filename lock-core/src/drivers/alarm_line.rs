//! The alarm line as a supervised loop: what its far end makes of its resistance.
//!
//! Two wires leave the safe for an alarm panel. The panel sends a small current of
//! its own through the loop and measures the resistance. At the lock's end there is
//! [`END_OF_LINE`] across the wires; two transistors, switched by
//! [`AlarmPins`](super::AlarmPins), put [`TAMPERED`] or [`ALARMED`] across it as well. So
//! the line is silent, costs the lock's battery nothing while it is quiet and a gate's
//! charge while it is not (no relay is held), and duress is told from a cut or a
//! shorted wire: those are line faults, and look like none of the three.
//!
//! Supervision by a resistor at the end of the line is common practice; the values are
//! ours. What a panel reports to whom is between the installer and the alarm company.

use crate::port::Alarm;

/// A resistance in ohms.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Resistance(pub u32);

/// Across the wires at the lock's end, always.
pub const END_OF_LINE: Resistance = Resistance(10_000);
/// Put across as well while the line says *tamper*: 5 kΩ together.
pub const TAMPERED: Resistance = Resistance(10_000);
/// Put across as well while the line says *duress*: 2.5 kΩ together.
pub const ALARMED: Resistance = Resistance(3_333);

/// What the far end sees.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LineSeen {
    /// The line says this.
    Level(Alarm),
    /// A wire is cut, or pulled out.
    Cut,
    /// The wires touch.
    Shorted,
}

/// Half way, in ratio, between neighbours: shorted and duress, duress and tamper,
/// tamper and quiet, quiet and cut.
const BOUNDS: [Resistance; 4] =
    [Resistance(1_200), Resistance(3_536), Resistance(7_071), Resistance(20_000)];

impl LineSeen {
    /// What a measured resistance means. Wires of up to 400 Ω, contacts of up to
    /// 100 kΩ of leakage across them and resistors of 5 % change nothing.
    #[must_use]
    pub fn judge(measured: Resistance) -> Self {
        let [short, duress, tamper, quiet] = BOUNDS;
        if measured < short {
            Self::Shorted
        } else if measured < duress {
            Self::Level(Alarm::Duress)
        } else if measured < tamper {
            Self::Level(Alarm::Tamper)
        } else if measured < quiet {
            Self::Level(Alarm::Quiet)
        } else {
            Self::Cut
        }
    }
}

/// The resistance of the loop while it says `level`, wires and tolerances aside.
#[must_use]
pub const fn nominal(level: Alarm) -> Resistance {
    match level {
        Alarm::Quiet => END_OF_LINE,
        Alarm::Tamper => Resistance(5_000),
        Alarm::Duress => Resistance(2_500),
    }
}
