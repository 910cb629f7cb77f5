//! Why a keyring cannot be used.

use std::io;

use miette::Diagnostic;
use thiserror::Error;

/// Why a keyring cannot be used.
#[derive(Debug, Error, Diagnostic)]
pub enum KeyringFault {
    /// The file cannot be read or written.
    #[error("The keyring {path} cannot be read or written: {why}.")]
    #[diagnostic(help("Name the file that `emulator keyring pair` made."))]
    Unreadable {
        /// The file.
        path: String,
        /// Why not.
        why: io::Error,
    },
    /// It is none.
    #[error("{path} is no keyring.")]
    #[diagnostic(help("Name the file that `emulator keyring pair` made."))]
    Alien {
        /// The file.
        path: String,
    },
    /// It is one, of a later format.
    #[error("The keyring {path} was made by a newer version.")]
    #[diagnostic(help("Open it with that version, or a later one."))]
    Newer {
        /// The file.
        path: String,
    },
    /// Others on this machine may read or change it.
    #[error("Others on this machine may read or change the keyring {path}.")]
    #[diagnostic(help("Type chmod 600; if anybody may have copied it, pair the locks anew."))]
    Exposed {
        /// The file.
        path: String,
    },
    /// It has a second name.
    #[error("The keyring {path} has a second name (a hard link).")]
    #[diagnostic(help(
        "Two names would count apart, and hand out codes twice. Remove all names but one."
    ))]
    NamedTwice {
        /// The file.
        path: String,
    },
    /// It lies on another machine.
    #[error("The keyring {path} lies on a network's file system.")]
    #[diagnostic(help(
        "Two machines could count apart there, and hand out codes twice. Keep it on this machine's own disk."
    ))]
    Network {
        /// The file.
        path: String,
    },
    /// Its seal does not hold.
    #[error("The passphrase does not open the keyring {path}, or the file was altered.")]
    #[diagnostic(help("Type the passphrase again; if it is right, use a copy of the file."))]
    Sealed {
        /// The file.
        path: String,
    },
    /// The machine has no room for what the file asks for, or no randomness.
    #[error("This machine cannot seal or open the keyring {path}.")]
    #[diagnostic(help("It takes 64 MiB of memory and the system's random numbers."))]
    Machine {
        /// The file.
        path: String,
    },
}
