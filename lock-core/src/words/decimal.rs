//! Numbers, digit by digit.

/// How many digits `number` has without leading zeros.
pub(crate) fn digits(number: u32) -> u32 {
    let (mut rest, mut digits) = (number / 10, 1_u32);
    while rest > 0 {
        (rest, digits) = (rest / 10, digits.saturating_add(1));
    }
    digits
}

/// The digit of `number` in front of `place` others: its last one in place 0.
#[inline(never)] // one copy
pub(crate) fn digit(number: u32, place: u32) -> char {
    let power = 10_u32.checked_pow(place).unwrap_or(u32::MAX);
    let digit = number.checked_div(power).unwrap_or(0) % 10;
    char::from(b'0'.wrapping_add(u8::try_from(digit).unwrap_or(0)))
}
