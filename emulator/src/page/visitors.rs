//! Who may act: everybody on this machine; from elsewhere, whoever gave the join
//! code, and whoever has the trainer's own link.

use std::collections::BTreeMap;
use std::sync::Mutex;
use std::time::{Duration, Instant};

use subtle::ConstantTimeEq as _;

use super::crowd::Address;

/// Trainers at a time, at most, by join code.
pub const TRAINERS: usize = 8;
/// Viewers at a time, at most: a class, and some.
pub const VIEWERS: usize = 64;
/// Streams of trainers at a time, at most.
pub(super) const TRAINER_STREAMS: usize = 32;
/// Of each, from one address.
pub(super) const FROM_ONE: usize = 12;
/// Pages at a time that the trainer's own link opened; one more ends the oldest.
const OWN: usize = 4;
/// A trainer who has done nothing for so long has to join again.
const IDLE: Duration = Duration::from_secs(2 * 60 * 60);
/// Wrong join codes that are taken in [`WINDOW`] from one address.
const WRONG: usize = 10;
const WINDOW: Duration = Duration::from_secs(60);
/// Addresses whose wrong codes are remembered; of more, the oldest are forgotten.
const REMEMBERED: usize = 1_024;

/// Letters and digits that are not taken for one another when they are read
/// out; 30 of them, so eight are 39 bits.
const ALPHABET: &[u8; 30] = b"23456789ABCDEFGHJKMNPQRSTVWXYZ";
const LETTERS: usize = 8;
/// Bytes of a trainer's token, and of the own link's secret.
const TOKEN: usize = 16;

/// The join code, the own link's secret, and those who gave them. No `Debug`.
pub(super) struct Visitors {
    code: String,
    link: String,
    state: Mutex<State>,
}

lock_core::silent!(Visitors);

#[derive(Default)]
struct State {
    trainers: Vec<Trainer>,
    /// Those of the own link, the oldest first.
    own: Vec<Trainer>,
    wrong: BTreeMap<Address, Vec<Instant>>,
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
    /// Too many wrong codes from there in the last minute.
    TooOften,
    /// As many trainers as there can be.
    Full,
}

impl Visitors {
    /// Nobody has joined; code and link are new.
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
        Ok(Self { code, link: secret()?, state: Mutex::default() })
    }

    /// The code, to be printed where the program runs.
    pub(super) fn code(&self) -> &str {
        &self.code
    }

    /// The own link's secret, to be printed there too.
    pub(super) fn link(&self) -> &str {
        &self.link
    }

    /// A new trainer's token, for the join code.
    pub(super) fn join(
        &self,
        typed: &str,
        from: Address,
        now: Instant,
    ) -> Result<String, NotJoined> {
        let typed: String = typed
            .chars()
            .filter(char::is_ascii_alphanumeric)
            .map(|letter| letter.to_ascii_uppercase())
            .collect();
        let token = secret();
        let mut state = self.state.lock().map_err(|_| NotJoined::Full)?;
        state.forget(now);
        if state.wrong.get(&from).is_some_and(|wrong| wrong.len() >= WRONG) {
            return Err(NotJoined::TooOften);
        }
        if !bool::from(typed.as_bytes().ct_eq(self.code.as_bytes())) {
            state.note_wrong(from, now);
            return Err(NotJoined::Wrong);
        }
        let token = token.map_err(|_| NotJoined::Full)?;
        if state.trainers.len() >= TRAINERS {
            return Err(NotJoined::Full);
        }
        state.trainers.push(Trainer { token: token.clone(), seen: now });
        Ok(token)
    }

    /// A new trainer's token, for the own link. Nobody guesses 128 bits, so wrong ones
    /// are not counted, and nobody else's wrong codes matter.
    pub(super) fn join_by_link(&self, secret_of: &str, now: Instant) -> Result<String, NotJoined> {
        if !bool::from(secret_of.as_bytes().ct_eq(self.link.as_bytes())) {
            return Err(NotJoined::Wrong);
        }
        let token = secret().map_err(|_| NotJoined::Full)?;
        let mut state = self.state.lock().map_err(|_| NotJoined::Full)?;
        state.forget(now);
        if state.own.len() >= OWN {
            state.own.remove(0);
        }
        state.own.push(Trainer { token: token.clone(), seen: now });
        Ok(token)
    }

    /// Whether that is a trainer's token; the trainer is here now.
    pub(super) fn knows(&self, token: &str, now: Instant) -> bool {
        let Ok(mut state) = self.state.lock() else { return false };
        state.forget(now);
        let mut known = false;
        let State { trainers, own, .. } = &mut *state;
        for trainer in trainers.iter_mut().chain(own) {
            if bool::from(trainer.token.as_bytes().ct_eq(token.as_bytes())) {
                trainer.seen = now;
                known = true;
            }
        }
        known
    }
}

/// Random bytes as digits.
fn secret() -> Result<String, getrandom::Error> {
    let mut bytes = [0; TOKEN];
    getrandom::fill(&mut bytes)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

impl State {
    fn forget(&mut self, now: Instant) {
        let here = |trainer: &Trainer| now.saturating_duration_since(trainer.seen) < IDLE;
        self.trainers.retain(here);
        self.own.retain(here);
        self.wrong.retain(|_, wrong| {
            wrong.retain(|wrong| now.saturating_duration_since(*wrong) < WINDOW);
            !wrong.is_empty()
        });
    }

    fn note_wrong(&mut self, from: Address, now: Instant) {
        if self.wrong.len() >= REMEMBERED && !self.wrong.contains_key(&from) {
            let oldest = self.wrong.iter().min_by_key(|(_, wrong)| wrong.last().copied());
            if let Some(oldest) = oldest.map(|(address, _)| *address) {
                self.wrong.remove(&oldest);
            }
        }
        self.wrong.entry(from).or_default().push(now);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(last: u8) -> Address {
        Address::of([10, 0, 0, last].into())
    }

    #[test]
    fn only_the_code_lets_in_and_only_so_many() {
        let visitors = Visitors::new().unwrap();
        let now = Instant::now();
        let code = visitors.code().to_lowercase();
        let spaced = format!("{} {}", &code[..4], &code[4..]);
        for _ in 0..TRAINERS {
            let token = visitors.join(&spaced, at(1), now).unwrap();
            assert!(visitors.knows(&token, now));
        }
        assert_eq!(visitors.join(&code, at(1), now), Err(NotJoined::Full));
        assert!(!visitors.knows("", now) && !visitors.knows(&"0".repeat(2 * TOKEN), now));
        let later = now + IDLE;
        assert!(visitors.join(&code, at(1), later).is_ok());
    }

    #[test]
    fn guessing_is_slow_and_shuts_nobody_else_out() {
        let visitors = Visitors::new().unwrap();
        let now = Instant::now();
        let code = visitors.code().to_owned();
        for _ in 0..WRONG {
            assert_eq!(visitors.join("WRONG", at(1), now), Err(NotJoined::Wrong));
        }
        assert_eq!(visitors.join(&code, at(1), now), Err(NotJoined::TooOften));
        assert!(visitors.join(&code, at(2), now).is_ok());
        assert!(visitors.join(&code, at(1), now + WINDOW).is_ok());
    }

    /// Whatever others do: guess, or take every place.
    #[test]
    fn the_own_link_always_works() {
        let visitors = Visitors::new().unwrap();
        let now = Instant::now();
        let code = visitors.code().to_owned();
        for address in 0..=u8::MAX {
            for _ in 0..=WRONG {
                assert!(visitors.join("WRONG", at(address), now).is_err());
                assert!(visitors.join_by_link("0".repeat(32).as_str(), now).is_err());
            }
        }
        assert!(visitors.join_by_link(&code, now).is_err());
        let last = visitors.join_by_link(visitors.link(), now).unwrap();
        assert!(visitors.knows(&last, now));
        let later = now + WINDOW;
        for _ in 0..TRAINERS {
            visitors.join(&code, at(1), later).unwrap();
        }
        let first = visitors.join_by_link(visitors.link(), later).unwrap();
        for _ in 1..OWN {
            visitors.join_by_link(visitors.link(), later).unwrap();
        }
        assert!(visitors.knows(&first, later) && !visitors.knows(&last, later));
    }

    /// Guessing from everywhere takes no more memory than that.
    #[test]
    fn so_many_addresses_are_remembered() {
        let visitors = Visitors::new().unwrap();
        let now = Instant::now();
        for n in 0..3 * u32::try_from(REMEMBERED).unwrap() {
            let from = Address::of(std::net::Ipv4Addr::from(n).into());
            let _ = visitors.join("WRONG", from, now + Duration::from_millis(n.into()));
        }
        assert_eq!(visitors.state.lock().unwrap().wrong.len(), REMEMBERED);
    }

    #[test]
    fn codes_and_links_differ() {
        let made = || {
            let visitors = Visitors::new().unwrap();
            (visitors.code().to_owned(), visitors.link().to_owned())
        };
        let (one, other) = (made(), made());
        assert!(one.0 != other.0 && one.1 != other.1);
        assert_eq!((one.0.len(), one.1.len()), (LETTERS, 2 * TOKEN));
    }
}
