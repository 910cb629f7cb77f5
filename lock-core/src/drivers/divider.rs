//! The supply, through a divider of two resistors and an analogue converter.
//!
//! `embedded-hal` 1.0 has no trait for converters: the board reads its own and hands
//! the number over. Measure under load, while a resistor or the motor draws current:
//! tired cells look fresh without (R8).

use crate::policy::Millivolts;

/// A divider: the upper resistor towards the supply, the lower one towards ground,
/// the converter between them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Divider {
    /// The upper resistor in ohms.
    pub upper: u32,
    /// The lower resistor in ohms.
    pub lower: u32,
    /// The converter's reference.
    pub reference: Millivolts,
    /// What the converter reads at its reference: 4,095 for one of 12 bits.
    pub full_scale: u16,
}

impl Divider {
    /// The supply at this reading of the converter, rounded down: a supply is never
    /// taken for better than it is. Without a lower resistor or a scale: 0 mV.
    #[must_use]
    pub fn supply(&self, reading: u16) -> Millivolts {
        let divided = u64::from(self.lower).saturating_mul(u64::from(self.full_scale));
        let whole = u64::from(self.upper).saturating_add(u64::from(self.lower));
        let scaled = u64::from(reading)
            .saturating_mul(u64::from(self.reference.get()))
            .saturating_mul(whole);
        let millivolts = scaled.checked_div(divided).unwrap_or(0);
        Millivolts::new(u16::try_from(millivolts).unwrap_or(u16::MAX))
    }
}
