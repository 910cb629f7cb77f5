//! Durations and voltages as people write them: `"5m"`, `"90s"`, `"4.8V"`.

use lock_core::policy::Unit;

/// Reads a duration: a whole number and `s`, `m`, `h` or `d`. The seconds.
pub(crate) fn seconds(text: &str) -> Option<u32> {
    let unit = text.chars().last()?;
    let factor = match unit {
        's' => 1,
        'm' => 60,
        'h' => 3_600,
        'd' => 86_400,
        _ => return None,
    };
    let number = text.strip_suffix(unit)?;
    whole(number)?.checked_mul(factor)
}

/// Reads a voltage: volts with up to three decimals and `V`, or whole
/// millivolts and `mV`. The millivolts.
pub(crate) fn millivolts(text: &str) -> Option<u32> {
    if let Some(number) = text.strip_suffix("mV") {
        return whole(number.trim_end());
    }
    let number = text.strip_suffix('V')?.trim_end();
    let (volts, decimals) = number.split_once('.').unwrap_or((number, "0"));
    if decimals.len() > 3 {
        return None;
    }
    let thousandths = whole(&format!("{decimals:0<3}")).filter(|_| !decimals.is_empty())?;
    whole(volts)?.checked_mul(1_000)?.checked_add(thousandths)
}

/// A value of the policy table with its unit, for sentences.
pub(crate) fn written(value: u32, unit: Unit) -> String {
    match unit {
        Unit::Seconds if value != 0 && value.is_multiple_of(3_600) => format!("{}h", value / 3_600),
        Unit::Seconds if value != 0 && value.is_multiple_of(60) => format!("{}m", value / 60),
        Unit::Seconds => format!("{value}s"),
        Unit::Millivolts if value.is_multiple_of(100) => {
            format!("{}.{}V", value / 1_000, value % 1_000 / 100)
        }
        Unit::Millivolts => format!("{value}mV"),
        Unit::Digits | Unit::Tries | Unit::People | Unit::Switch | Unit::Choice(_) => {
            value.to_string()
        }
    }
}

/// Digits and nothing else; no sign, no blanks.
fn whole(digits: &str) -> Option<u32> {
    let only_digits = !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
    only_digits.then(|| digits.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_have_one_unit() {
        for (text, expected) in [
            ("0s", Some(0)),
            ("90s", Some(90)),
            ("5m", Some(300)),
            ("7d", Some(604_800)),
            ("8h", Some(28_800)),
            ("5", None),
            ("m", None),
            ("", None),
            ("-5m", None),
            ("+5m", None),
            ("1.5h", None),
            ("5 m", None),
            ("1h30m", None),
            ("4294967295s", Some(u32::MAX)),
            ("4294967296s", None),
            ("71582789m", None),
            ("5ä", None),
        ] {
            assert_eq!(seconds(text), expected, "{text}");
        }
    }

    #[test]
    fn voltages_are_volts_or_millivolts() {
        for (text, expected) in [
            ("4.8V", Some(4_800)),
            ("4.85V", Some(4_850)),
            ("4.805V", Some(4_805)),
            ("5V", Some(5_000)),
            ("4800mV", Some(4_800)),
            ("4.8 V", Some(4_800)),
            ("4.8", None),
            ("4.V", None),
            (".8V", None),
            ("4.8055V", None),
            ("4.8mV", None),
            ("V", None),
        ] {
            assert_eq!(millivolts(text), expected, "{text}");
        }
    }

    /// What is written reads back, over all values that the table allows.
    #[test]
    fn what_is_written_reads_back() {
        for value in 0..=86_400 {
            assert_eq!(seconds(&written(value, Unit::Seconds)), Some(value));
        }
        for value in 0..=9_000 {
            assert_eq!(millivolts(&written(value, Unit::Millivolts)), Some(value));
        }
    }
}
