//! The one place where the command line opens, reads and writes files.
//!
//! | file | concept |
//! | --- | --- |
//! | `read.rs` | a file that is there: no pipe, no device, and no more of it than is wanted |
//! | `write.rs` | a new file: whole under its name, or not there at all |
//!
//! The keyring keeps its own file (`keyring/file.rs`), under a lock.

mod read;
mod write;

pub use read::{open, read, read_text};
pub use write::{Eyes, NewFile, There, write};
