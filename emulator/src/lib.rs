//! A time lock on the desk: the lock of `lock-core` in a simulated world.
//!
//! | module | concept |
//! | --- | --- |
//! | [`world`] | simulated time, hands, wires and power round one lock |
//! | [`memory`] | the lock's flash and the store in it |
//! | [`drill`] | scripted runs with what must be seen |
//! | [`conformance`] | a lock recorded, and played again as any board plays it |
//! | [`tour`] | a day of the demo site, played from drills |
//! | [`site`] | the site file: locks, holders, timetables, policy |
//! | [`rig`] | attacks and faults by the thousand, and what must hold in each |
//! | [`plan`] | when may who open, and what will not work out |
//! | [`audit`] | records as people read them; extracts verified, reported, exported |
//! | [`keyring`] | the pairing keys of a site, sealed by a passphrase |
//! | [`picture`] | the display in a terminal or a file |
//! | `page` | the trainer's page: a lock in the browser |
//! | [`files`] | files read and written: the one place |
//! | [`plain`] | what files say and are called, as a terminal may show it |
//! | [`document`] | TOML with places, and errors that point at them |
//! | [`cli`] | the command line |

#![forbid(unsafe_code)]

pub mod audit;
pub mod carry;
pub mod cli;
pub mod conformance;
pub mod document;
pub mod drill;
pub mod files;
pub mod keyring;
pub mod memory;
#[cfg(feature = "page")]
pub mod page;
pub mod picture;
pub mod plain;
pub mod plan;
pub mod rig;
pub mod site;
pub mod tour;
pub mod world;
