//! Codes, keys and digests that drills use, in the forms in which they could get
//! out: digits and bytes as text, and as they are.

use std::collections::BTreeSet;

use emulator::drill::{Act, Drill};
use lock_core::code::one_time::{self, Digits};
use lock_core::code::{MAX_DIGITS, MIN_DIGITS};
use lock_core::holder::Number;
use lock_core::keys::Key;
use lock_core::seed::Seed;

/// One-time codes of a courier that are searched for: more than any drill uses.
const ONE_TIME: u32 = 8;

/// So many bytes of a key in a row are no coincidence.
const PART: usize = 8;

/// What the emulated board's generator gives, but for its first eight bytes.
const GENERATED: [u8; Seed::LEN - PART] = [0x5E; Seed::LEN - PART];

/// Secrets that were collected.
#[derive(Default)]
pub(super) struct Secrets {
    /// Runs of digits.
    codes: BTreeSet<String>,
    /// Parts of keys and digests.
    parts: BTreeSet<[u8; PART]>,
}

impl Secrets {
    /// Those of everybody in the drill's site, and all that its keys type.
    pub(super) fn of(&mut self, drill: &Drill) {
        for demo in &drill.site.demo_codes {
            self.code(demo.number(), demo.digits());
        }
        let settings = drill.settings().expect("a lock of its site");
        self.bytes(settings.key.as_bytes());
        for row in settings.holders.iter().flatten() {
            self.bytes(row.digest.as_bytes());
        }
        self.bytes(&GENERATED);
        if let Some(pairing) = drill.pairing() {
            self.bytes(pairing.key());
        }
        for step in &drill.steps {
            match &step.act {
                Some(Act::Keys(keys, _)) => self.typed(keys),
                Some(Act::Courier(number)) => self.courier(drill, *number),
                Some(_) | None => {}
            }
        }
    }

    /// A code and its duress variant, alone and behind its number.
    pub(super) fn code(&mut self, number: Number, digits: &str) {
        let (head, last) = digits.split_at(digits.len() - 1);
        let variant = format!("{head}{}", (last.parse::<u8>().unwrap() + 1) % 10);
        for code in [digits, &variant] {
            self.codes.insert(code.to_owned());
            self.codes.insert(format!("{:02}{code}", number.get()));
        }
    }

    /// Runs of digits in what is typed that are long enough for a number and a code,
    /// and their ends, which are codes. Dates are shown as they are typed.
    fn typed(&mut self, keys: &[Key]) {
        let digits = |keys: &[Key]| -> String {
            let digits = keys.iter().filter_map(|key| match key {
                Key::Digit(digit) => Some(char::from(b'0' + digit.get())),
                Key::Back | Key::Ok => None,
            });
            digits.collect()
        };
        for run in keys.split(|key| matches!(key, Key::Back | Key::Ok)).map(digits) {
            let code = run.get(2..).unwrap_or_default();
            let length = (MIN_DIGITS..=MAX_DIGITS).contains(&code.len());
            // No lock takes noughts for a code, and 12000000 is an uptime too.
            let noughts = code.bytes().all(|digit| digit == b'0');
            if length && !noughts && !is_date(&run) {
                self.codes.insert(code.to_owned());
                self.codes.insert(run.clone());
            }
        }
    }

    fn courier(&mut self, drill: &Drill, number: Number) {
        let key = drill.pairing().expect("a key").courier(number.get());
        for counter in 0..ONE_TIME {
            let issued = one_time::issue(&key, counter, Digits::COURIER);
            let code: String = issued.iter().map(|digit| char::from(b'0' + digit)).collect();
            self.code(number, &code);
        }
    }

    /// The end of a key: those of the demonstration begin with a plain word.
    fn bytes(&mut self, bytes: &[u8]) {
        let end = bytes.last_chunk::<{ 2 * PART }>().expect("a key");
        self.parts.extend(end.as_chunks().0);
    }

    /// All forms that are searched for, and in what.
    pub(super) fn forms(&self) -> Vec<Form> {
        let code = |code: &String| {
            let values: Vec<u8> = code.bytes().map(|digit| digit - b'0').collect();
            [Form::Digits(code.clone()), Form::Text(list(&values))]
        };
        let part = |part: &[u8; PART]| {
            let hex: String = part.iter().map(|byte| format!("{byte:02x}")).collect();
            let upper = hex.to_uppercase();
            [Form::Text(hex), Form::Text(upper), Form::Text(list(part)), Form::Bytes(part.to_vec())]
        };
        self.codes.iter().flat_map(code).chain(self.parts.iter().flat_map(part)).collect()
    }

    /// How many codes there are, and how many parts of keys and digests.
    pub(super) fn count(&self) -> (usize, usize) {
        (self.codes.len(), self.parts.len())
    }
}

/// Day, month and year of this century, as a lock's clock is set.
fn is_date(run: &str) -> bool {
    run.get(4..6) == Some("20") && jiff::civil::Date::strptime("%d%m%Y", run).is_ok()
}

/// Bytes as `Debug` shows them, without the brackets.
fn list(bytes: &[u8]) -> String {
    let numbers: Vec<String> = bytes.iter().map(u8::to_string).collect();
    numbers.join(", ")
}

/// A form of a secret.
pub(super) enum Form {
    /// As a number: a longer number is another one.
    Digits(String),
    /// As text.
    Text(String),
    /// As it is.
    Bytes(Vec<u8>),
}

impl Form {
    /// Whether it is in `text`.
    pub(super) fn is_in(&self, text: &[u8]) -> bool {
        match self {
            Self::Digits(digits) => places(text, digits.as_bytes()).any(|at| {
                let before = at.checked_sub(1).and_then(|before| text.get(before));
                let after = text.get(at + digits.len());
                !before.into_iter().chain(after).any(u8::is_ascii_digit)
            }),
            Self::Text(part) => places(text, part.as_bytes()).next().is_some(),
            Self::Bytes(part) => places(text, part).next().is_some(),
        }
    }

    /// The secret as somebody who leaks it would write it.
    pub(super) fn leaked(&self) -> Vec<u8> {
        match self {
            Self::Digits(text) | Self::Text(text) => format!("\"{text}\"").into_bytes(),
            Self::Bytes(bytes) => bytes.clone(),
        }
    }
}

fn places<'t>(text: &'t [u8], part: &'t [u8]) -> impl Iterator<Item = usize> + 't {
    let first = part[0];
    let begins = move |(at, byte): (usize, &u8)| (*byte == first).then_some(at);
    text.iter().enumerate().filter_map(begins).filter(|at| text[*at..].starts_with(part))
}
