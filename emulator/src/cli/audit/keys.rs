//! The keyring of the command line.

use std::io;
use std::path::PathBuf;

use clap::Args;

use super::super::passphrase::PassphraseArguments;
use super::super::report::refuse;
use super::super::{Outcome, Streams};
use crate::audit::sealed::Sealed;
use crate::keyring::Keyring;

/// The keys with which extracts are opened.
#[derive(Args)]
pub(super) struct KeyringArguments {
    /// The keyring that holds the keys of the locks.
    #[arg(long, value_name = "FILE")]
    keyring: PathBuf,
    #[command(flatten)]
    passphrase: PassphraseArguments,
}

impl KeyringArguments {
    /// The opener of extracts; the outcome if that was refused.
    pub(super) fn open(
        &self,
        streams: &mut Streams<'_>,
    ) -> io::Result<Result<Sealed<Keyring>, Outcome>> {
        let passphrase = match self.passphrase.get("Passphrase of the keyring: ") {
            Ok(passphrase) => passphrase,
            Err(why) => return refuse(streams, &why).map(Err),
        };
        match Keyring::load(&self.keyring, &passphrase) {
            Ok(keyring) => Ok(Ok(Sealed(keyring))),
            Err(why) => refuse(streams, &why).map(Err),
        }
    }
}
