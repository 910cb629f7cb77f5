//! The row of the policy: what is in force, and the stricter one that it waits to
//! replace. `docs/flash-layout.md` has its bytes.

use super::bytes::{ERASED, Put, Take};
use super::rows::LONG;
use crate::policy::{Control, Deputies, FIGURES, Figures, KEYS, Policy, Stricter, lies_within};
use crate::time::{Seconds, Steady};

/// The bytes of the row's fields: the first, and the one behind the last.
const FIELDS: (u8, u8) = (4, 60);
/// The same of the stricter policy among them.
const STRICTER: (u8, u8) = (45, 58);

/// The fields of the row.
type Fields = [u8; 56];

const _: () = assert!(LONG == size_of::<Fields>() + 8, "a head and a check value");
const _: () = assert!(
    lies_within(FIELDS, STRICTER),
    "two keys of the policy share a byte of its row, or one has no room there"
);

/// Each value at a place of its own, whatever the order of the policy table.
pub(super) fn put(policy: &Policy, stricter: Option<&Stricter>, out: &mut Put<'_>) {
    let mut fields: Fields = [ERASED; _];
    for (value, row) in policy.values().into_iter().zip(&FIGURES) {
        for (to, from) in within(&mut fields, row.at).iter_mut().zip(value.to_le_bytes()) {
            *to = from;
        }
    }
    let mut besides = Put::into(within(&mut fields, STRICTER));
    besides.u8(u8::from(stricter.is_some()));
    if let Some(stricter) = stricter {
        besides.u8(stricter.control.people());
        besides.u8(stricter.deputies.number());
        besides.u16(u16::try_from(stricter.delay.get()).unwrap_or(u16::MAX));
        besides.u32(stricter.until.as_secs());
        besides.u32(stricter.made.as_secs());
    }
    out.bytes(&fields);
}

pub(super) fn take(from: &mut Take<'_>) -> Option<(Policy, Option<Stricter>)> {
    let mut fields: Fields = from.array();
    let mut values = [0; KEYS.len()];
    for (value, row) in values.iter_mut().zip(&FIGURES) {
        *value = value_in(within(&mut fields, row.at), row);
    }
    let policy = Policy::from_values(&values).ok()?;
    let mut besides = Take::from(within(&mut fields, STRICTER));
    let [waits, people, deputies] = besides.array();
    let (delay, until, made) = (besides.u16(), besides.u32(), besides.u32());
    let stricter = match waits {
        0 => None,
        1 => Some(Stricter {
            until: Steady::from_secs(until),
            made: Steady::from_secs(made),
            delay: Seconds::new(u32::from(delay)),
            control: Control::of_people(people)?,
            deputies: Deputies::numbered(u32::from(deputies))?,
        }),
        _ => return None,
    };
    Some((policy, stricter))
}

/// A value in its bytes. What reads erased was not written: whoever wrote the row did
/// not know the key yet, and its default holds.
fn value_in(bytes: &[u8], row: &Figures) -> u32 {
    if bytes.iter().all(|byte| *byte == ERASED) {
        return row.default;
    }
    let mut value = [0; 4];
    for (to, from) in value.iter_mut().zip(bytes) {
        *to = *from;
    }
    u32::from_le_bytes(value)
}

/// Those bytes of the row, which lie among its fields.
fn within(fields: &mut Fields, (from, to): (u8, u8)) -> &mut [u8] {
    let place = |byte: u8| usize::from(byte.saturating_sub(FIELDS.0));
    fields.get_mut(place(from)..place(to)).unwrap_or_default()
}
