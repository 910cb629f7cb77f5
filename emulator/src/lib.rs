//! A time lock on the desk.

pub mod picture;
