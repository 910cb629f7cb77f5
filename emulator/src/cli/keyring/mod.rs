//! `emulator keyring`: the keys that laptop and locks share; and what `emulator
//! plan` makes with them.
//!
//! | file | command |
//! | --- | --- |
//! | this one | `keyring list` |
//! | `pair.rs` | `keyring pair`: a new key for a lock |
//! | `standing.rs` | `keyring confirm`, `drop`, `adopt`: which keys are used |
//! | `change.rs` | `keyring passphrase`: another passphrase |
//! | `codes.rs` | `keyring codes`, `keyring used`: what was given out |
//! | `update.rs` | `keyring update`: what extracts tell |
//! | `seal.rs` | `plan seal`: a lock's opening times, sealed |
//! | `code.rs` | `plan code`: a courier's next one-time code |

mod change;
mod code;
mod codes;
mod pair;
mod seal;
mod standing;
mod update;

pub(super) use code::Arguments as CodeArguments;
pub(super) use seal::Arguments as SealArguments;

use std::io;
use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use lock_core::pairing::LockNumber;
use lock_core::time::Utc;
use miette::Diagnostic;
use serde_json::json;

use super::passphrase::PassphraseArguments;
use super::report::{Unusable, refuse};
use super::{Format, Outcome, Streams};
use crate::keyring::{COST, Held, Keyring, KeyringFault, Passphrase, Standing};
use crate::site::{LockPlan, Site};

#[derive(Subcommand)]
pub(super) enum Command {
    /// Make a new pairing key for a lock, and the code to be typed at it.
    ///
    /// The key goes into the keyring, which is made if there is none. The code
    /// is printed once: write it on paper, have a warden and a steward type it
    /// at the open lock, and burn the paper. Then say that the lock has it (keyring
    /// confirm); before that nothing is sealed under it. Older keys of the lock stay
    /// in the keyring, for what was sealed under them.
    #[command(
        after_help = "Example:\n  emulator keyring pair --keyring bakery.keyring --lock 1001"
    )]
    Pair(pair::Arguments),
    /// Say that a lock has its new key.
    ///
    /// From then on opening times are sealed under it and couriers' codes come from
    /// it.
    #[command(
        after_help = "Example:\n  emulator keyring confirm --keyring bakery.keyring --lock 1001"
    )]
    Confirm(standing::Arguments),
    /// Say that a lock never got its new key.
    ///
    /// The key stays in the keyring, retired: nothing is made with it.
    #[command(
        after_help = "Example:\n  emulator keyring drop --keyring bakery.keyring --lock 1001"
    )]
    Drop(standing::Arguments),
    /// Give the keyring another passphrase.
    ///
    /// All of it is sealed anew. Copies keep the passphrase that they had: if somebody
    /// may have both, pair the locks anew.
    #[command(after_help = "Example:\n  emulator keyring passphrase --keyring bakery.keyring")]
    Passphrase(change::Arguments),
    /// Go on with a keyring that is a copy.
    ///
    /// Its keys are retired, because the other keyring may count on with them: pair
    /// each lock anew. Say --moved if the other one is gone and nothing was made with
    /// it since the copy; then the keys stay.
    #[command(after_help = "Example:\n  emulator keyring adopt --keyring bakery.keyring --moved")]
    Adopt(standing::AdoptArguments),
    /// List the codes that were given to couriers, and what became of them.
    ///
    /// The codes themselves are not in it.
    #[command(after_help = "Example:\n  emulator keyring codes --keyring bakery.keyring")]
    Codes(codes::ListArguments),
    /// Say which of a courier's codes was used.
    ///
    /// Those given out before it are good for nothing any more.
    #[command(
        after_help = "Example:\n  emulator keyring used --keyring bakery.keyring --lock 1001 --holder 40 --code 12"
    )]
    Used(codes::UsedArguments),
    /// Take over what extracts tell: codes that were used, keys that locks have.
    #[command(
        after_help = "Example:\n  emulator keyring update --keyring bakery.keyring extracts/"
    )]
    Update(update::Arguments),
    /// List which keys a keyring holds.
    #[command(after_help = "Example:\n  emulator keyring list --keyring bakery.keyring")]
    List(ListArguments),
}

#[derive(Args)]
struct RingArguments {
    /// The keyring.
    #[arg(long, value_name = "FILE")]
    keyring: PathBuf,
    #[command(flatten)]
    passphrase: PassphraseArguments,
    /// How the result is written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

#[derive(Args)]
pub(super) struct ListArguments {
    #[command(flatten)]
    ring: RingArguments,
}

fn parse_lock(text: &str) -> Result<LockNumber, String> {
    let number = text.parse().ok().and_then(LockNumber::new);
    number.ok_or_else(|| "locks are numbered from 1 to 65535".to_owned())
}

impl Command {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self {
            Self::Pair(arguments) => arguments.run(streams),
            Self::Confirm(arguments) => arguments.confirm(streams),
            Self::Drop(arguments) => arguments.give_up(streams),
            Self::Passphrase(arguments) => arguments.run(streams),
            Self::Adopt(arguments) => arguments.run(streams),
            Self::Codes(arguments) => arguments.run(streams),
            Self::Used(arguments) => arguments.run(streams),
            Self::Update(arguments) => arguments.run(streams),
            Self::List(arguments) => arguments.run(streams),
        }
    }
}

/// A keyring that is about to be changed, and that nobody else changes meanwhile.
struct OpenRing<'a> {
    keyring: Keyring,
    passphrase: Passphrase,
    path: &'a Path,
    _held: Held,
}

impl RingArguments {
    /// Opens a keyring that is there, to be read.
    fn read(&self) -> Result<Keyring, Box<dyn Diagnostic>> {
        let passphrase = self.passphrase.get(PROMPT)?;
        Ok(Keyring::load(&self.keyring, &passphrase)?)
    }

    /// Opens a keyring that is there, to be changed.
    fn open(&self) -> Result<OpenRing<'_>, Box<dyn Diagnostic>> {
        let ring = self.open_any()?;
        if ring.keyring.is_copied() {
            return Err(copied().into());
        }
        Ok(ring)
    }

    /// The same, if it is a copy too.
    fn open_any(&self) -> Result<OpenRing<'_>, Box<dyn Diagnostic>> {
        let passphrase = self.passphrase.get(PROMPT)?;
        let held = Keyring::hold(&self.keyring)?;
        let keyring = Keyring::load(&self.keyring, &passphrase)?;
        Ok(OpenRing { keyring, passphrase, path: &self.keyring, _held: held })
    }
}

impl OpenRing<'_> {
    fn save(&self) -> Result<(), KeyringFault> {
        self.keyring.save(self.path, &self.passphrase, COST)
    }
}

const PROMPT: &str = "Passphrase of the keyring: ";

/// What to say where a keyring is not the one that was written last.
fn copied() -> Unusable {
    Unusable::new(
        "This keyring is a copy, or an older state that was put back: codes and versions that \
         were counted elsewhere would come again.",
        "Work with the keyring that was used last. If it is lost: emulator keyring adopt --keyring FILE.",
    )
}

/// The time now.
fn now() -> Utc {
    let secs = jiff::Timestamp::now().as_second();
    Utc::from_secs(u32::try_from(secs).unwrap_or(u32::MAX))
}

/// The lock of a site file, and its number.
fn lock_of<'s>(site: &'s Site, id: &str) -> Result<(&'s LockPlan, LockNumber), Unusable> {
    let found = site.lock(id).and_then(|plan| {
        let number = u16::try_from(plan.number).ok().and_then(LockNumber::new)?;
        Some((plan, number))
    });
    found.ok_or_else(|| {
        let ids: Vec<&str> = site.locks.iter().map(|lock| lock.id.as_str()).collect();
        let what = format!("The site file has no lock \"{id}\".");
        Unusable::new(what, format!("Its locks are: {}.", ids.join(", ")))
    })
}

/// What to say where the keyring lacks a key that the lock has.
fn no_key(keyring: &Keyring, lock: LockNumber) -> Unusable {
    let number = lock.get();
    match keyring.waiting(lock) {
        Some(generation) => Unusable::new(
            format!("Nobody has said yet that lock {number} has its key {generation}."),
            format!(
                "Once it was typed there: emulator keyring confirm --keyring FILE --lock {number}."
            ),
        ),
        None => Unusable::new(
            format!("The keyring holds no key that lock {number} has."),
            format!("Make one: emulator keyring pair --keyring FILE --lock {number}."),
        ),
    }
}

/// Says that a newer key is not used yet.
fn tell_waiting(waiting: Option<u32>, streams: &mut Streams<'_>) -> io::Result<()> {
    let Some(generation) = waiting else { return Ok(()) };
    writeln!(
        streams.out,
        "Nobody has said yet that the lock has key {generation}. If it has, this is of no use: \
         emulator keyring confirm, and again."
    )
}

impl ListArguments {
    fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let keyring = match self.ring.read() {
            Ok(keyring) => keyring,
            Err(why) => return refuse(streams, &*why),
        };
        match self.ring.format {
            Format::Json => {
                let rows = keyring.standings().map(|(lock, generation, standing)| {
                    json!({
                        "lock": lock.get(), "generation": generation, "standing": standing.name(),
                    })
                });
                writeln!(streams.out, "{}", rows.collect::<serde_json::Value>())?;
            }
            Format::Text => {
                for (lock, generation, standing) in keyring.standings() {
                    let standing = match standing {
                        Standing::Confirmed => String::new(),
                        other => format!("  {}", other.name()),
                    };
                    writeln!(streams.out, "lock {:>5}  key {generation}{standing}", lock.get())?;
                }
            }
        }
        Ok(Outcome::Fine)
    }
}
