//! Audits on the laptop: openings put together, extracts one after the other,
//! findings, and what nobody may be told.

mod absent;
mod collections;
mod command_line;
mod documented;
mod findings;
mod folder;
mod keyrings;
mod made_with_keys;
mod openings;
mod page;
#[path = "../../outside/rfc4180/records.rs"]
mod records;
mod shelf;
mod stick;
