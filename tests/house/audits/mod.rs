//! Audits on the laptop: openings put together, extracts one after the other,
//! findings, and what nobody may be told.

mod absent;
mod collections;
mod command_line;
mod documented;
mod emulated;
mod findings;
mod folder;
mod keyring_changes;
mod keyring_paths;
mod keyrings;
mod ledger;
mod made_with_keys;
mod openings;
mod page;
#[path = "../../outside/rfc4180/records.rs"]
mod records;
mod shelf;
mod sites;
mod stick;
