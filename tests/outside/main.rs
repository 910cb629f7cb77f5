//! Checks from outside: what is not ours judges what is.
//!
//! A module a source. Each names its source at the top: a published table, a
//! standard, or somebody else's implementation that shares no code with the
//! lock. What a source cannot say is not asserted here.

mod audit_content;
mod brute_force;
mod calendar;
mod calendar_file;
mod cells;
mod civil_membership;
mod clock_chip;
mod counts_survive;
mod guess_limits;
mod guessable;
mod hmac_vectors;
mod holidays;
mod keypad_layout;
mod legibility;
mod lock_of_a_site;
mod one_time_codes;
mod openings;
mod page_contrast;
mod planner;
mod rfc4180;
mod sealed_vectors;
mod stretching;
mod time_delay;
mod unix_time;
mod weekly_windows;
mod wire_format;
mod zone_rules;
mod zone_tables;
