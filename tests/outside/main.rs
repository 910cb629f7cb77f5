//! What is not ours and judges us: published sources and other people's code.

mod civil_membership;
mod openings;
mod planner;
mod weekly_windows;
mod zone_tables;
