//! Where a passphrase comes from: asked at the terminal, or read from a file.
//! Never from an argument, which others on the machine could see.

use std::io::Read as _;
use std::path::PathBuf;

use clap::Args;

use super::report::Unusable;
use crate::keyring::Passphrase;
use crate::{files, plain};

/// Most bytes of a passphrase.
const MOST: usize = 1_024;

/// Where the passphrase comes from.
#[derive(Args)]
pub(super) struct PassphraseArguments {
    /// Read the passphrase from the first line of this file; without it, it is
    /// asked for at the terminal.
    #[arg(long, value_name = "FILE")]
    passphrase_file: Option<PathBuf>,
}

impl PassphraseArguments {
    /// The passphrase.
    pub(super) fn get(&self, prompt: &str) -> Result<Passphrase, Unusable> {
        let remedy = "Type it at the terminal, or give --passphrase-file.";
        let Some(path) = &self.passphrase_file else {
            let typed = rpassword::prompt_password(prompt);
            return typed.map(Passphrase::new).map_err(|why| {
                Unusable::new(format!("No passphrase can be asked for here: {why}."), remedy)
            });
        };
        let unreadable = |why: String| {
            let what = format!("The passphrase file {} cannot be read: {why}.", plain::path(path));
            Unusable::new(what, remedy)
        };
        // Of a set size: what a growing text leaves behind would not be wiped.
        let mut text = Passphrase::new(String::with_capacity(MOST));
        let file = files::open(path).map_err(|why| unreadable(why.to_string()))?;
        let read = file.take(MOST as u64).read_to_string(&mut text);
        read.map_err(|why| unreadable(why.to_string()))?;
        let line = text.lines().next().unwrap_or_default();
        if line.is_empty() {
            return Err(unreadable("its first line is empty".to_owned()));
        }
        Ok(Passphrase::new(line.to_owned()))
    }
}
