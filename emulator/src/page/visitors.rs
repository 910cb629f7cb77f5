//! Who may act: everybody on this machine; from elsewhere, whoever gave the join
//! code.

use std::sync::Mutex;
use std::time::{Duration, Instant};

use subtle::ConstantTimeEq as _;

/// Trainers at a time, at most.
pub const TRAINERS: usize = 8;
/// Viewers at a time, at most: a class, and some.
pub const VIEWERS: usize = 64;
/// A trainer who has done nothing for so long has to join again.
const IDLE: Duration = Duration::from_secs(2 * 60 * 60);
/// Wrong join codes that are taken in [`WINDOW`], from everybody together.
const WRONG: usize = 10;
const WINDOW: Duration = Duration::from_secs(60);

/// Letters and digits that are not taken for one another when they are read
/// out; 30 of them, so eight are 39 bits.
const ALPHABET: &[u8; 30] = b"23456789ABCDEFGHJKMNPQRSTVWXYZ";
const LETTERS: usize = 8;
/// Bytes of a trainer's token.
const TOKEN: usize = 16;

/// The join code and those who gave it. No `Debug`.
pub(super) struct Visitors {
    code: String,
    state: Mutex<State>,
}

lock_core::silent!(Visitors);

#[derive(Default)]
struct State {
    trainers: Vec<Trainer>,
    wrong: Vec<Instant>,
}

lock_core::silent!(State);

struct Trainer {
    token: String,
    seen: Instant,
}

lock_core::silent!(Trainer);

/// Why somebody cannot join.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum NotJoined {
    /// Another code.
    Wrong,
    /// Too many wrong codes in the last minute.
    TooOften,
    /// As many trainers as there can be.
    Full,
}

impl Visitors {
    /// Nobody has joined; the code is new.
    pub(super) fn new() -> Result<Self, getrandom::Error> {
        let mut code = String::with_capacity(LETTERS);
        while code.len() < LETTERS {
            let mut byte = [0];
            getrandom::fill(&mut byte)?;
            // 240 is the largest multiple of 30 in a byte: no letter is likelier.
            if byte[0] < 240 {
                let at = usize::from(byte[0]) % ALPHABET.len();
                code.extend(ALPHABET.get(at).map(|letter| char::from(*letter)));
            }
        }
        Ok(Self { code, state: Mutex::default() })
    }

    /// The code, to be printed where the program runs.
    pub(super) fn code(&self) -> &str {
        &self.code
    }

    /// A new trainer's token.
    pub(super) fn join(&self, typed: &str, now: Instant) -> Result<String, NotJoined> {
        let typed: String = typed
            .chars()
            .filter(char::is_ascii_alphanumeric)
            .map(|letter| letter.to_ascii_uppercase())
            .collect();
        let mut bytes = [0; TOKEN];
        let drawn = getrandom::fill(&mut bytes);
        let mut state = self.state.lock().map_err(|_| NotJoined::Full)?;
        state.forget(now);
        if state.wrong.len() >= WRONG {
            return Err(NotJoined::TooOften);
        }
        if !bool::from(typed.as_bytes().ct_eq(self.code.as_bytes())) {
            state.wrong.push(now);
            return Err(NotJoined::Wrong);
        }
        if state.trainers.len() >= TRAINERS || drawn.is_err() {
            return Err(NotJoined::Full);
        }
        let token: String = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
        state.trainers.push(Trainer { token: token.clone(), seen: now });
        Ok(token)
    }

    /// Whether that is a trainer's token; the trainer is here now.
    pub(super) fn knows(&self, token: &str, now: Instant) -> bool {
        let Ok(mut state) = self.state.lock() else { return false };
        state.forget(now);
        let mut known = false;
        for trainer in &mut state.trainers {
            if bool::from(trainer.token.as_bytes().ct_eq(token.as_bytes())) {
                trainer.seen = now;
                known = true;
            }
        }
        known
    }
}

impl State {
    fn forget(&mut self, now: Instant) {
        self.trainers.retain(|trainer| now.saturating_duration_since(trainer.seen) < IDLE);
        self.wrong.retain(|wrong| now.saturating_duration_since(*wrong) < WINDOW);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_code_lets_in_and_only_so_many() {
        let visitors = Visitors::new().unwrap();
        let now = Instant::now();
        let code = visitors.code().to_lowercase();
        let spaced = format!("{} {}", &code[..4], &code[4..]);
        for _ in 0..TRAINERS {
            let token = visitors.join(&spaced, now).unwrap();
            assert!(visitors.knows(&token, now));
        }
        assert_eq!(visitors.join(&code, now), Err(NotJoined::Full));
        assert!(!visitors.knows("", now) && !visitors.knows(&"0".repeat(2 * TOKEN), now));
        let later = now + IDLE;
        assert!(visitors.join(&code, later).is_ok());
    }

    #[test]
    fn guessing_is_slow() {
        let visitors = Visitors::new().unwrap();
        let now = Instant::now();
        for _ in 0..WRONG {
            assert_eq!(visitors.join("WRONG", now), Err(NotJoined::Wrong));
        }
        let code = visitors.code().to_owned();
        assert_eq!(visitors.join(&code, now), Err(NotJoined::TooOften));
        assert!(visitors.join(&code, now + WINDOW).is_ok());
    }

    #[test]
    fn codes_differ() {
        let code = || Visitors::new().unwrap().code().to_owned();
        assert!(code() != code() && code().len() == LETTERS);
    }
}
