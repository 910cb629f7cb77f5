//! `emulator keyring`: the keys that laptop and locks share; and what `emulator
//! plan` makes with them.
//!
//! | file | command |
//! | --- | --- |
//! | this one | `keyring pair`, `keyring list` |
//! | `seal.rs` | `plan seal`: a lock's opening times, sealed |
//! | `code.rs` | `plan code`: a courier's next one-time code |

mod code;
mod seal;

pub(super) use code::Arguments as CodeArguments;
pub(super) use seal::Arguments as SealArguments;

use std::io;
use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use lock_core::pairing::LockNumber;
use lock_core::pairing_code::{LAST_GENERATION, PairingCode, SECRET_DIGITS};
use miette::Diagnostic;
use serde_json::json;
use zeroize::Zeroizing;

use super::passphrase::PassphraseArguments;
use super::report::{Unusable, refuse};
use super::{Format, Outcome, Reader, Streams};
use crate::keyring::{COST, Held, Keyring, KeyringFault, Passphrase};
use crate::site::{LockPlan, Site};

/// Fewest characters of a new keyring's passphrase. Ours: four words, or twelve
/// random characters.
const PASSPHRASE_LEAST: usize = 12;

#[derive(Subcommand)]
pub(super) enum Command {
    /// Make a new pairing key for a lock, and the code to be typed at it.
    ///
    /// The key goes into the keyring, which is made if there is none. The code
    /// is printed once: write it on paper, have a warden and a steward type it
    /// at the open lock, and burn the paper. Older keys of the lock stay in the
    /// keyring, for what was sealed under them.
    #[command(
        after_help = "Example:\n  emulator keyring pair --keyring bakery.keyring --lock 1001"
    )]
    Pair(PairArguments),
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
pub(super) struct PairArguments {
    #[command(flatten)]
    ring: RingArguments,
    /// The lock's number.
    #[arg(long, value_name = "NUMBER", value_parser = parse_lock)]
    lock: LockNumber,
    /// Print the code where no terminal is: into a file or to another program, which
    /// then holds the key in clear.
    #[arg(long)]
    print: bool,
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
    /// Opens a keyring that is there, to be changed.
    fn open(&self) -> Result<OpenRing<'_>, Box<dyn Diagnostic>> {
        let passphrase = self.passphrase.get("Passphrase of the keyring: ")?;
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

/// What to say where the keyring lacks a lock's key.
fn no_key(lock: LockNumber) -> Unusable {
    let lock = lock.get();
    let what = format!("The keyring holds no key of lock {lock}.");
    Unusable::new(what, format!("Make one: emulator keyring pair --lock {lock}."))
}

impl PairArguments {
    fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let ring = &self.ring;
        if streams.reader == Reader::Program && !self.print {
            let what = "The pairing code would be written where no terminal is.";
            let remedy = "It is a key in clear. Run this at a terminal, or say --print.";
            return refuse(streams, &Unusable::new(what, remedy));
        }
        let passphrase = match ring.passphrase.get("Passphrase of the keyring: ") {
            Ok(passphrase) => passphrase,
            Err(why) => return refuse(streams, &why),
        };
        let _held = match Keyring::hold(&ring.keyring) {
            Ok(held) => held,
            Err(why) => return refuse(streams, &why),
        };
        let mut keyring = if ring.keyring.exists() {
            match Keyring::load(&ring.keyring, &passphrase) {
                Ok(keyring) => keyring,
                Err(why) => return refuse(streams, &why),
            }
        } else if passphrase.chars().count() < PASSPHRASE_LEAST {
            let what = format!("The passphrase has fewer than {PASSPHRASE_LEAST} characters.");
            return refuse(streams, &Unusable::new(what, "Four or five words at random will do."));
        } else {
            Keyring::default()
        };
        let generation = keyring.newest(self.lock).map_or(1, |newest| newest.generation() + 1);
        let Some(code) = new_code(self.lock, generation) else {
            let what = "No new key can be made.";
            let remedy = format!(
                "A lock takes {LAST_GENERATION} keys, and the system must have random numbers."
            );
            return refuse(streams, &Unusable::new(what, remedy));
        };
        let added = code.pairing().ok().map(|pairing| keyring.add(pairing));
        if added != Some(Ok(())) {
            let what = "The new key has no place in the keyring.";
            return refuse(streams, &Unusable::new(what, "Report this: it should not happen."));
        }
        // Only a key that is kept may reach a lock.
        if let Err(why) = keyring.save(&ring.keyring, &passphrase, COST) {
            return refuse(streams, &why);
        }
        self.tell(generation, &code, streams)
    }

    fn tell(
        &self,
        generation: u32,
        code: &PairingCode,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        let group = |group: [u8; 6]| Zeroizing::new(group.map(|d| char::from(b'0' + d % 10)));
        let lock = self.lock.get();
        match self.ring.format {
            Format::Json => {
                let groups: Vec<String> =
                    code.groups().map(|digits| group(digits).iter().collect()).collect();
                let object = json!({ "lock": lock, "generation": generation, "code": groups });
                writeln!(streams.out, "{object}")?;
            }
            Format::Text => {
                writeln!(streams.out, "Pairing code for lock {lock}, key {generation}:\n")?;
                for (place, digits) in code.groups().enumerate() {
                    let text: Zeroizing<String> = group(digits).iter().collect::<String>().into();
                    writeln!(streams.out, "  {}.  {} {}", place + 1, &text[..3], &text[3..])?;
                }
                writeln!(
                    streams.out,
                    "\nWrite it on paper, type it at the open lock (pair, in its list), burn it."
                )?;
            }
        }
        Ok(Outcome::Fine)
    }
}

impl ListArguments {
    fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let passphrase = match self.ring.passphrase.get("Passphrase of the keyring: ") {
            Ok(passphrase) => passphrase,
            Err(why) => return refuse(streams, &why),
        };
        let keyring = match Keyring::load(&self.ring.keyring, &passphrase) {
            Ok(keyring) => keyring,
            Err(why) => return refuse(streams, &why),
        };
        match self.ring.format {
            Format::Json => {
                let rows = keyring.names().map(
                    |(lock, generation)| json!({ "lock": lock.get(), "generation": generation }),
                );
                writeln!(streams.out, "{}", rows.collect::<serde_json::Value>())?;
            }
            Format::Text => {
                for (lock, generation) in keyring.names() {
                    writeln!(streams.out, "lock {:>5}  key {generation}", lock.get())?;
                }
            }
        }
        Ok(Outcome::Fine)
    }
}

/// A code of random digits: each byte below 250 is one, so that none is likelier.
fn new_code(lock: LockNumber, generation: u32) -> Option<PairingCode> {
    let mut secret = Zeroizing::new([0; SECRET_DIGITS]);
    let mut bytes = Zeroizing::new([0; 4 * SECRET_DIGITS]);
    getrandom::fill(bytes.as_mut()).ok()?;
    let mut digits = bytes.iter().filter(|byte| **byte < 250).map(|byte| byte % 10);
    for digit in secret.iter_mut() {
        *digit = digits.next()?;
    }
    PairingCode::new(lock, generation, &secret)
}
