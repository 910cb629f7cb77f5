//! A time lock on the desk.
