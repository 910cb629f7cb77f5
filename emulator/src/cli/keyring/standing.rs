//! `emulator keyring confirm`, `drop` and `adopt`: which keys are used.

use std::io;

use clap::Args;
use lock_core::pairing::LockNumber;
use serde_json::json;

use super::{RingArguments, parse_lock};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::keyring::{Keyring, NoSuchKey, Other, Standing};

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    #[command(flatten)]
    ring: RingArguments,
    /// The lock's number.
    #[arg(long, value_name = "NUMBER", value_parser = parse_lock)]
    lock: LockNumber,
    /// Which of its keys; the newest that waits, if left out.
    #[arg(long, value_name = "GENERATION")]
    generation: Option<u32>,
}

impl Arguments {
    pub(super) fn confirm(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        self.change(Keyring::confirm, Standing::Confirmed, streams)
    }

    pub(super) fn give_up(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        self.change(Keyring::give_up, Standing::Retired, streams)
    }

    fn change(
        &self,
        change: fn(&mut Keyring, LockNumber, Option<u32>) -> Result<u32, NoSuchKey>,
        to: Standing,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        let mut ring = match self.ring.open() {
            Ok(ring) => ring,
            Err(why) => return refuse(streams, &*why),
        };
        let generation = match change(&mut ring.keyring, self.lock, self.generation) {
            Ok(generation) => generation,
            Err(why) => return refuse(streams, &self.unusable(why)),
        };
        if let Err(why) = ring.save() {
            return refuse(streams, &why);
        }
        let lock = self.lock.get();
        match self.ring.format {
            Format::Json => {
                let standing = to.name();
                let object =
                    json!({ "lock": lock, "generation": generation, "standing": standing });
                writeln!(streams.out, "{object}")?;
            }
            Format::Text if to == Standing::Confirmed => {
                writeln!(streams.out, "Lock {lock} has key {generation}: it is used from now on.")?;
            }
            Format::Text => {
                writeln!(streams.out, "Key {generation} of lock {lock} is retired.")?;
            }
        }
        Ok(Outcome::Fine)
    }

    fn unusable(&self, why: NoSuchKey) -> Unusable {
        let lock = self.lock.get();
        let list = "See which there are: emulator keyring list --keyring FILE.";
        match why {
            NoSuchKey::None => {
                Unusable::new(format!("The keyring holds no such key of lock {lock}."), list)
            }
            NoSuchKey::NothingWaits => {
                Unusable::new(format!("No key of lock {lock} waits to be confirmed."), list)
            }
            NoSuchKey::Retired => Unusable::new(
                format!("That key of lock {lock} is retired: it may have been used elsewhere."),
                format!("Make a new one: emulator keyring pair --keyring FILE --lock {lock}."),
            ),
            NoSuchKey::Confirmed => Unusable::new(
                format!("Lock {lock} has that key."),
                "Pair the lock anew: that retires it.",
            ),
            NoSuchKey::Older => {
                Unusable::new(format!("Lock {lock} has a newer key than that."), list)
            }
        }
    }
}

#[derive(Args)]
pub(in crate::cli) struct AdoptArguments {
    #[command(flatten)]
    ring: RingArguments,
    /// The keyring that this one is a copy of is gone, and nothing was made with it
    /// since.
    #[arg(long)]
    moved: bool,
}

impl AdoptArguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let mut ring = match self.ring.open_any() {
            Ok(ring) => ring,
            Err(why) => return refuse(streams, &*why),
        };
        if !ring.keyring.is_copied() {
            let what = "This keyring is no copy: it is the one that was written last.";
            return refuse(streams, &Unusable::new(what, "Just go on working with it."));
        }
        ring.keyring.adopt(if self.moved { Other::Gone } else { Other::MayCount });
        if let Err(why) = ring.save() {
            return refuse(streams, &why);
        }
        match self.ring.format {
            Format::Json => {
                writeln!(streams.out, "{}", json!({ "adopted": true, "retired": !self.moved }))?;
            }
            Format::Text if self.moved => {
                writeln!(streams.out, "Go on with this keyring, and with no other copy.")?;
            }
            Format::Text => writeln!(
                streams.out,
                "Its keys are retired: they open what was sealed under them. Pair each lock \
                 anew,\nand give its version in force once: emulator plan seal --after."
            )?,
        }
        Ok(Outcome::Fine)
    }
}
