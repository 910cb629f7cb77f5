//! Which passphrases are refused: what stands between whoever has the file and all
//! keys in it.
//!
//! How many guesses one takes is estimated by `zxcvbn` (Wheeler, *zxcvbn: Low-Budget
//! Password Strength Estimation*, USENIX Security 2016), with its lists of common
//! passwords, names and words. Its highest mark means 10^10 guesses and more. At the
//! cost of our Argon2id, about a tenth of a second each, that is thirty years of one
//! core.

use zxcvbn::{Score, zxcvbn};

/// Fewest characters of a new passphrase. Ours: four words, or twelve random characters.
pub const LEAST: usize = 12;

/// Words that whoever guesses at a keyring tries first.
const OURS: [&str; 6] = ["keyring", "emulator", "lock", "timelock", "passphrase", "safe"];

/// Why a passphrase is refused; it says nothing of what it is.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Weak {
    /// It has fewer than [`LEAST`] characters.
    Short,
    /// It is easily guessed, and perhaps why.
    Guessable(Option<String>),
}

/// Why that cannot be a new passphrase; `known` are words that belong to the site.
///
/// # Errors
/// [`Weak`].
pub fn judge(passphrase: &str, known: &[&str]) -> Result<(), Weak> {
    if passphrase.chars().count() < LEAST {
        return Err(Weak::Short);
    }
    let known: Vec<&str> = OURS.iter().chain(known).copied().collect();
    let judged = zxcvbn(passphrase, &known);
    if judged.score() == Score::Four {
        return Ok(());
    }
    let why = judged.feedback().and_then(|feedback| feedback.warning());
    Err(Weak::Guessable(why.map(|why| why.to_string())))
}
