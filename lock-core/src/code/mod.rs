//! Codes: entry, digest, guessable, duress.
