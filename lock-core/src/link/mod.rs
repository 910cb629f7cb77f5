//! What travels between lock and laptop, over any byte link or on a stick.
//!
//! | file | concept |
//! | --- | --- |
//! | `frame.rs` | one message on a byte link: COBS, CRC-32, a number |
//! | `message.rs` | what is asked, and what is answered |
//!
//! A lock answers only while a steward's session for files is open at its keypad:
//! no code ever crosses the link, and nothing that arrives over it opens a lock,
//! lengthens a session, or changes a setting before somebody pressed *OK*.

pub mod frame;
pub mod message;
