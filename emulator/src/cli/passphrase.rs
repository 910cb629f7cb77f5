//! Where a passphrase comes from: asked at the terminal, or read from a file.
//! Never from an argument, which others on the machine could see.

use std::io::{self, Read as _};
use std::path::PathBuf;

use clap::Args;

use super::report::Unusable;
use crate::keyring::Passphrase;
use crate::keyring::strength::{self, LEAST, Weak};
use crate::{files, plain};

/// Most bytes of a passphrase.
const MOST: usize = 1_024;

/// What to do about one that is easily guessed.
const RANDOM: &str = "Take four or five words at random: drawn by dice or a machine, no saying.";

fn unasked(why: &io::Error) -> Unusable {
    let what = format!("No passphrase can be asked for here: {why}.");
    Unusable::new(what, "Type it at the terminal, or give --passphrase-file.")
}

/// A new passphrase, asked for twice: a slip would shut everything in.
fn typed_twice(ask: &mut dyn FnMut(&str) -> io::Result<String>) -> Result<Passphrase, Unusable> {
    let mut typed = |prompt| ask(prompt).map(Passphrase::new).map_err(|why| unasked(&why));
    let first = typed("New passphrase of the keyring: ")?;
    let second = typed("The same once more: ")?;
    if *first == *second {
        return Ok(first);
    }
    Err(Unusable::new("The two passphrases differ.", "Run the command again."))
}

/// Where the passphrase comes from.
#[derive(Args)]
pub(super) struct PassphraseArguments {
    /// Read the passphrase from the first line of this file; without it, it is
    /// asked for at the terminal.
    #[arg(long, value_name = "FILE")]
    passphrase_file: Option<PathBuf>,
}

impl PassphraseArguments {
    /// Those of a passphrase in that file, or asked for.
    pub(super) const fn from_file(passphrase_file: Option<PathBuf>) -> Self {
        Self { passphrase_file }
    }

    /// A new passphrase: asked for twice at the terminal, and refused if it is easily
    /// guessed.
    pub(super) fn get_new(&self) -> Result<Passphrase, Unusable> {
        let passphrase = match &self.passphrase_file {
            Some(_) => self.get("")?,
            None => typed_twice(&mut |prompt| rpassword::prompt_password(prompt))?,
        };
        strength::judge(&passphrase, &[]).map_err(|why| match why {
            Weak::Short => {
                let what = format!("The passphrase has fewer than {LEAST} characters.");
                Unusable::new(what, RANDOM)
            }
            Weak::Guessable(why) => {
                let why = why.map_or(String::new(), |why| format!(" {why}"));
                Unusable::new(format!("The passphrase is easily guessed.{why}"), RANDOM)
            }
        })?;
        Ok(passphrase)
    }

    /// The passphrase.
    pub(super) fn get(&self, prompt: &str) -> Result<Passphrase, Unusable> {
        let remedy = "Type it at the terminal, or give --passphrase-file.";
        let Some(path) = &self.passphrase_file else {
            let typed = rpassword::prompt_password(prompt);
            return typed.map(Passphrase::new).map_err(|why| unasked(&why));
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

#[cfg(test)]
mod tests {
    use super::*;

    /// A slip in one of the two is told, and no passphrase comes of it; nor does one
    /// where nobody can be asked.
    #[test]
    fn a_new_passphrase_is_asked_for_twice() {
        let typed = |texts: &[&str]| {
            let mut texts = texts.iter();
            let mut prompts = Vec::new();
            let typed = typed_twice(&mut |prompt| {
                prompts.push(prompt.to_owned());
                let text = texts.next().ok_or(io::ErrorKind::UnexpectedEof)?;
                Ok((*text).to_owned())
            });
            (typed.map(|typed| typed.to_string()).map_err(|why| why.to_string()), prompts.len())
        };
        assert_eq!(typed(&["one", "one", "two"]), (Ok("one".to_owned()), 2));
        assert_eq!(typed(&["one", "onf"]), (Err("The two passphrases differ.".to_owned()), 2));
        assert!(typed(&["one"]).0.is_err() && typed(&[]).0.is_err());
    }
}
