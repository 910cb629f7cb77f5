//! `emulator keyring codes` and `used`: what was given to couriers.

use std::io;

use clap::Args;
use lock_core::holder::Number;
use lock_core::pairing::LockNumber;
use serde_json::{Value, json};

use super::{RingArguments, parse_lock};
use crate::audit::names::{Names, rfc3339};
use crate::cli::plan::parse_number;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::keyring::{Fate, Issued, OUTSTANDING};

#[derive(Args)]
pub(in crate::cli) struct ListArguments {
    #[command(flatten)]
    ring: RingArguments,
    /// Of this lock only.
    #[arg(long, value_name = "NUMBER", value_parser = parse_lock)]
    lock: Option<LockNumber>,
}

impl ListArguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let keyring = match self.ring.read() {
            Ok(keyring) => keyring,
            Err(why) => return refuse(streams, &*why),
        };
        let names = Names::of(None);
        let codes = keyring.issued().filter(|(lock, ..)| self.lock.is_none_or(|of| of == *lock));
        match self.ring.format {
            Format::Json => {
                let rows = codes.map(|(lock, number, code)| {
                    let (fate, record) = fate(&code);
                    json!({
                        "lock": lock.get(), "holder": number.get(), "code": code.counter,
                        "generation": code.generation, "at": rfc3339(names.zone(), code.at),
                        "fate": fate, "record": record,
                    })
                });
                writeln!(streams.out, "{}", rows.collect::<Value>())?;
            }
            Format::Text => {
                let mut out = 0;
                for (lock, number, code) in codes {
                    out += u32::from(code.fate == Fate::Out);
                    let (fate, record) = fate(&code);
                    let record =
                        record.map_or(String::new(), |record| format!(" (record {record})"));
                    writeln!(
                        streams.out,
                        "lock {:>5}  holder {:02}  code {:>4}  key {}  {} UTC  {fate}{record}",
                        lock.get(),
                        number.get(),
                        code.counter,
                        code.generation,
                        names.moment(Some(code.at)),
                    )?;
                }
                writeln!(streams.out, "{out} out; at most {OUTSTANDING} for each courier")?;
            }
        }
        Ok(Outcome::Fine)
    }
}

fn fate(code: &Issued) -> (&'static str, Option<u32>) {
    match code.fate {
        Fate::Out => ("out", None),
        Fate::Used(record) => ("used", record.map(|seq| seq.0)),
        Fate::Passed => ("passed", None),
    }
}

#[derive(Args)]
pub(in crate::cli) struct UsedArguments {
    #[command(flatten)]
    ring: RingArguments,
    /// The lock's number.
    #[arg(long, value_name = "NUMBER", value_parser = parse_lock)]
    lock: LockNumber,
    /// The courier's number.
    #[arg(long, value_name = "NUMBER", value_parser = parse_number)]
    holder: Number,
    /// The code's place in the ledger, as `plan code` and `keyring codes` say it. Not the
    /// code itself.
    #[arg(long, value_name = "PLACE")]
    code: u32,
}

impl UsedArguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let mut ring = match self.ring.open() {
            Ok(ring) => ring,
            Err(why) => return refuse(streams, &*why),
        };
        if !ring.keyring.told_used(self.lock, self.holder, self.code) {
            let (lock, holder) = (self.lock.get(), self.holder.get());
            let what = format!("No such code of holder {holder:02} at lock {lock} is out.");
            let remedy = "See which are: emulator keyring codes.";
            return refuse(streams, &Unusable::new(what, remedy));
        }
        if let Err(why) = ring.save() {
            return refuse(streams, &why);
        }
        let out = ring.keyring.outstanding(self.lock, self.holder);
        match self.ring.format {
            Format::Json => writeln!(streams.out, "{}", json!({ "outstanding": out }))?,
            Format::Text => writeln!(streams.out, "{out} of this courier's codes are out.")?,
        }
        Ok(Outcome::Fine)
    }
}
