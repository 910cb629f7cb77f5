//! Audits on the laptop: openings put together, extracts one after the other,
//! findings, and what nobody may be told.

mod collections;
mod findings;
mod openings;
mod page;
mod shelf;
