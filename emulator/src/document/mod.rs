//! Documents that people write in TOML: read with their places, refused with
//! errors that point at them.
//!
//! | file | concept |
//! | --- | --- |
//! | `source.rs` | the text, places in it, and the copy without codes that errors show |
//! | `refusal.rs` | [`Refusal`]: what is wrong, where, and what to do |
//! | `field.rs` | one key: its type, its neighbours |
//! | `quantity.rs` | durations and voltages |

mod field;
mod quantity;
mod refusal;
mod source;

pub(crate) use field::{Field, LAST_YEAR, Table, Value, nearest};
pub(crate) use quantity::{millivolts, seconds, written};
pub use refusal::{LoadError, Refusal};
pub(crate) use refusal::{Read, Wrong};
pub use source::{Place, TEXT_MOST};
pub(crate) use source::{Source, read_text};

/// The text is no TOML at all. Its parser's messages name what it expected, not
/// what it found, except for a key that is written twice.
pub(crate) fn no_toml(error: &toml::de::Error) -> Box<Wrong> {
    let at = error.span().unwrap_or(0..0);
    if error.message().contains("duplicate key") {
        let what = "This is written twice.";
        return Wrong::new(&at, what, "Keep one of the two.").here("the second");
    }
    let what = "This is no TOML, the format of this file.";
    let remedy = "Texts stand in quotes, lists in square brackets, one key on each line.";
    Wrong::new(&at, what, remedy).here(error.message().to_owned())
}
