//! `emulator plan code`: a courier's next one-time code.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::holder::{Number, Standing};
use lock_core::role::Role;
use miette::Diagnostic;
use serde_json::json;
use zeroize::Zeroizing;

use super::{RingArguments, lock_of, no_key, now, tell_waiting};
use crate::cli::plan::parse_number;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::keyring::{CourierCode, NoCode, OUTSTANDING};
use crate::site::Site;

/// A code, and what is told beside it. No `Debug`: it holds a code.
struct Told {
    lock: u16,
    code: CourierCode,
    /// How many of the courier's codes are out.
    out: usize,
    /// A newer key, of which nobody said that the lock has it.
    waiting: Option<u32>,
}

lock_core::silent!(Told);

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    /// The site file.
    site: PathBuf,
    /// The lock's id.
    #[arg(long, value_name = "ID")]
    lock: String,
    /// The courier's number.
    #[arg(long, value_name = "NUMBER", value_parser = parse_number)]
    holder: Number,
    /// The lock was reset since this courier's last code, and counts from 0.
    #[arg(long)]
    lock_reset: bool,
    #[command(flatten)]
    ring: RingArguments,
}

impl Arguments {
    pub(in crate::cli) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self.issue() {
            Ok(told) => self.tell(&told, streams),
            Err(why) => refuse(streams, &*why),
        }
    }

    fn issue(&self) -> Result<Told, Box<dyn Diagnostic>> {
        let site = Site::load(&self.site)?;
        let (_, lock) = lock_of(&site, &self.lock)?;
        self.check_holder(&site)?;
        let mut ring = self.ring.open()?;
        let code = ring.keyring.next_code(lock, self.holder, self.lock_reset, now());
        let code = code.map_err(|why| match why {
            NoCode::NoKey => no_key(&ring.keyring, lock),
            NoCode::Outstanding => Unusable::new(
                format!("{OUTSTANDING} codes of this courier are out; the lock might not know the next."),
                "Collect an extract and run emulator keyring update, or say which was used: \
                 emulator keyring used.",
            ),
            NoCode::Spent => {
                Unusable::new("This courier's codes are used up.", "Pair the lock anew.")
            }
            NoCode::Again => Unusable::new(
                "Under this key codes were handed out before; counted from 0 they would come again.",
                "Pair the lock anew first: emulator keyring pair.",
            ),
        })?;
        // A code that might be forgotten could be handed out twice.
        ring.save()?;
        Ok(Told {
            lock: lock.get(),
            out: ring.keyring.outstanding(lock, self.holder),
            waiting: ring.keyring.waiting(lock),
            code,
        })
    }

    fn check_holder(&self, site: &Site) -> Result<(), Unusable> {
        let number = self.holder.get();
        let person = site.holder(self.holder).ok_or_else(|| {
            let what = format!("The site file has no holder {number:02}.");
            Unusable::new(what, "Enter the courier there, with a timetable.")
        })?;
        if person.role != Role::Courier {
            let what = format!("Holder {number:02} is a {}.", person.role.name());
            return Err(Unusable::new(what, "Only couriers open with one-time codes."));
        }
        if person.standing == Standing::Suspended {
            let what = format!("Holder {number:02} is suspended.");
            return Err(Unusable::new(what, "A code would open nothing; take `suspended` out."));
        }
        Ok(())
    }

    fn tell(&self, told: &Told, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let Told { lock, out, waiting, code } = told;
        let number = self.holder.get();
        let mut text = Zeroizing::new(String::with_capacity(code.digits.len()));
        text.extend(code.digits.iter().map(|digit| char::from(b'0' + digit % 10)));
        match self.ring.format {
            Format::Json => {
                let object = json!({
                    "lock": lock,
                    "generation": code.generation,
                    "holder": number,
                    "counter": code.counter,
                    "code": &*text,
                    "outstanding": out,
                    "unconfirmed": waiting,
                });
                writeln!(streams.out, "{object}")?;
            }
            Format::Text => {
                writeln!(
                    streams.out,
                    "One-time code {} for holder {number:02} at lock {lock} ({}), under key {}:\n\n  \
                     {}\n\nGood for one opening within the timetable. Tell it to the courier \
                     alone.\n{out} of at most {OUTSTANDING} are out.",
                    code.counter, self.lock, code.generation, &*text
                )?;
                tell_waiting(*waiting, streams)?;
            }
        }
        Ok(Outcome::Fine)
    }
}
