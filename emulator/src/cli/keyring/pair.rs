//! `emulator keyring pair`: a new key for a lock.

use std::io;

use clap::Args;
use lock_core::pairing::LockNumber;
use lock_core::pairing_code::{LAST_GENERATION, PairingCode, SECRET_DIGITS};
use miette::Diagnostic;
use serde_json::json;
use zeroize::Zeroizing;

use super::{OpenRing, RingArguments, parse_lock};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Reader, Streams};
use crate::keyring::{COST, Held, Keyring, Passphrase};

#[derive(Args)]
pub(in crate::cli) struct Arguments {
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

impl Arguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let ring = &self.ring;
        if streams.reader == Reader::Program && !self.print {
            let what = "The pairing code would be written where no terminal is.";
            let remedy = "It is a key in clear. Run this at a terminal, or say --print.";
            return refuse(streams, &Unusable::new(what, remedy));
        }
        let (mut keyring, passphrase, _held) = match self.open() {
            Ok(open) => open,
            Err(why) => return refuse(streams, &*why),
        };
        let generation = keyring.newest(self.lock).unwrap_or_default().saturating_add(1);
        let Some(code) = new_code(self.lock, generation) else {
            let what = "No new key can be made.";
            let remedy = format!(
                "A lock takes {LAST_GENERATION} keys, and the system must have random numbers."
            );
            return refuse(streams, &Unusable::new(what, remedy));
        };
        let added = code.pairing().ok().map(|pairing| keyring.add_unconfirmed(pairing));
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

    /// The keyring, its passphrase, and what keeps others from it.
    fn open(&self) -> Result<(Keyring, Passphrase, Held), Box<dyn Diagnostic>> {
        let ring = &self.ring;
        if ring.keyring.exists() {
            let OpenRing { keyring, passphrase, _held: held, .. } = ring.open()?;
            return Ok((keyring, passphrase, held));
        }
        let passphrase = ring.passphrase.get_new()?;
        let held = Keyring::hold(&ring.keyring)?;
        if ring.keyring.exists() {
            let what = "Somebody else made this keyring just now.";
            return Err(Unusable::new(what, "Run the command again.").into());
        }
        Ok((Keyring::default(), passphrase, held))
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
                    "\nWrite it on paper, type it at the open lock (pair, in its list), burn it.\nThen: \
                     emulator keyring confirm --keyring FILE --lock {lock}"
                )?;
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
