//! `emulator keyring passphrase`: another passphrase.

use std::io;
use std::path::PathBuf;

use clap::Args;
use miette::Diagnostic;
use serde_json::json;

use super::RingArguments;
use crate::cli::passphrase::PassphraseArguments;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::keyring::COST;

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    #[command(flatten)]
    ring: RingArguments,
    /// Read the new passphrase from the first line of this file; without it, it is
    /// asked for twice at the terminal.
    #[arg(long, value_name = "FILE")]
    new_passphrase_file: Option<PathBuf>,
}

impl Arguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        if let Err(why) = self.change() {
            return refuse(streams, &*why);
        }
        match self.ring.format {
            Format::Json => writeln!(streams.out, "{}", json!({ "changed": true }))?,
            Format::Text => writeln!(
                streams.out,
                "The keyring has its new passphrase. Copies keep the one that they had: whoever \
                 has\none and the old passphrase has the keys in it. If somebody may, pair the \
                 locks anew."
            )?,
        }
        Ok(Outcome::Fine)
    }

    fn change(&self) -> Result<(), Box<dyn Diagnostic>> {
        let ring = self.ring.open()?;
        let new = PassphraseArguments::from_file(self.new_passphrase_file.clone()).get_new()?;
        if *new == *ring.passphrase {
            let what = "The new passphrase is the old one.";
            return Err(Unusable::new(what, "Choose another one.").into());
        }
        Ok(ring.keyring.save(ring.path, &new, COST)?)
    }
}
