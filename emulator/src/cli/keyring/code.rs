//! `emulator plan code`: a courier's next one-time code.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::code::one_time::Digits;
use lock_core::holder::{Number, Standing};
use lock_core::role::Role;
use miette::Diagnostic;
use serde_json::json;
use zeroize::Zeroizing;

use super::{RingArguments, lock_of, no_key};
use crate::cli::plan::parse_number;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::keyring::{CourierCode, NoCode};
use crate::site::Site;

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
            Ok((lock, code)) => self.tell(lock, &code, streams),
            Err(why) => refuse(streams, &*why),
        }
    }

    /// The lock's number, and the code.
    fn issue(&self) -> Result<(u16, CourierCode), Box<dyn Diagnostic>> {
        let site = Site::load(&self.site)?;
        let (plan, lock) = lock_of(&site, &self.lock)?;
        self.check_holder(&site)?;
        let digits = Digits::new(plan.policy.code_digits).ok_or_else(|| {
            Unusable::new("Codes of that length cannot be made.", "Set code_digits to 6, 7 or 8.")
        })?;
        let mut ring = self.ring.open()?;
        let code = ring.keyring.next_code(lock, self.holder, digits, self.lock_reset);
        let code = code.map_err(|why| match why {
            NoCode::NoKey => no_key(lock),
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
        Ok((lock.get(), code))
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

    fn tell(
        &self,
        lock: u16,
        code: &CourierCode,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
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
                });
                writeln!(streams.out, "{object}")?;
            }
            Format::Text => writeln!(
                streams.out,
                "One-time code for holder {number:02} at lock {lock} ({}):\n\n  {}\n\nGood for \
                 one opening within the timetable. Tell it to the courier alone.",
                self.lock, &*text
            )?,
        }
        Ok(Outcome::Fine)
    }
}
