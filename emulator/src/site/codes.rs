//! `[demo.codes]`: codes for drills. A real site file holds none.
//!
//! Nothing here repeats a digit of a code, and what an error shows of the file
//! is masked (`source.rs`).

use lock_core::code::{Code, MAX_DIGITS, MIN_DIGITS, refused};
use lock_core::holder::Number;

use super::people::Person;
use crate::document::{Field, Table};
use crate::document::{Read, Wrong};

/// A holder's code for drills. No `Debug`: it is a code.
pub struct DemoCode {
    number: Number,
    digits: String,
}

lock_core::silent!(DemoCode);

impl DemoCode {
    /// Whose it is.
    #[must_use]
    pub const fn number(&self) -> Number {
        self.number
    }

    /// The digits, for typing them.
    #[must_use]
    pub fn digits(&self) -> &str {
        &self.digits
    }

    /// The code, for enrolling it.
    #[must_use]
    pub fn code(&self) -> Option<Code> {
        Code::parse(&self.digits)
    }
}

/// Reads `[demo.codes]`, if it is there.
pub(super) fn read(file: &Table<'_>, people: &[Person]) -> Read<Vec<DemoCode>> {
    let Some(field) = file.get("demo") else {
        return Ok(Vec::new());
    };
    let table = field.table("the [demo] table")?;
    table.only(&["codes"])?;
    let Some(field) = table.get("codes") else {
        return Ok(Vec::new());
    };
    let codes = field.table("[demo.codes]")?;
    codes
        .entries
        .iter()
        .map(|(key, value)| {
            let number = read_number(key.get_ref()).ok_or_else(|| {
                let what = "Demo codes stand behind a holder's number.";
                Wrong::new(&key.span(), what, "Write the number in two digits, \"01\" to \"99\".")
                    .here("no such number")
            })?;
            if !people.iter().any(|person| person.number == number) {
                let what = format!("Nobody has the number {:02} of this demo code.", number.get());
                let remedy = "Add a [[holder]] with that number, or take the code out.";
                return Err(Wrong::new(&key.span(), what, remedy).here("not enrolled"));
            }
            let digits = read_code(number, &Field { key: key.get_ref(), value })?;
            Ok(DemoCode { number, digits })
        })
        .collect()
}

/// 01 to 99, in two digits.
fn read_number(key: &str) -> Option<Number> {
    let plain = key.len() == 2 && key.bytes().all(|b| b.is_ascii_digit());
    let number = plain.then(|| key.parse().ok()).flatten()?;
    Number::new(number).filter(|number| number.get() != 0)
}

fn read_code(number: Number, field: &Field<'_>) -> Read<String> {
    let at = field.at();
    let number = number.get();
    let digits = field.text()?;
    if !digits.bytes().all(|b| b.is_ascii_digit()) {
        let what = format!("The demo code of {number:02} has something else than digits in it.");
        return Err(Wrong::new(&at, what, "Write digits only, without blanks."));
    }
    let Some(code) = Code::parse(digits) else {
        let what = format!("The demo code of {number:02} has the wrong length.");
        let remedy = format!("A code has {MIN_DIGITS} to {MAX_DIGITS} digits.");
        return Err(Wrong::new(&at, what, remedy).here("wrong length"));
    };
    if let Some(why) = refused(&code) {
        let what = format!("The demo code of {number:02} is too easy to guess: {why}.");
        let remedy = "Choose another one; the lock would refuse this one too.";
        return Err(Wrong::new(&at, what, remedy).here("too easy to guess"));
    }
    Ok(digits.to_owned())
}
