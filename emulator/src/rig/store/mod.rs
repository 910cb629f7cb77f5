//! The store alone under faults: random lives of a store, the power cut at
//! every step of them and again at every step of the recovery, and cells that
//! fail at rest.
//!
//! | module | concept |
//! | --- | --- |
//! | [`life`] | what is asked of a store, as random events |
//! | [`judge`] | what it must hold then, from plain lists |
//! | [`counts`] | what a tally must add up to, counted by hand |
//! | [`cuts`] | every cut point × class × seed, double and triple cuts |
//! | [`faults`] | calls that fail, and writes that lie |
//! | [`flips`] | every bit of an image flipped, and pairs of bits |
//! | `unborn` | a flash that was never formatted gets its first warden |
//! | [`chip`] | the geometries, and the chip on which a life begins |
//!
//! Only the store's public calls are used, and nothing of its inside is known.

pub mod chip;
pub mod counts;
pub mod cuts;
pub mod faults;
pub mod flips;
pub mod judge;
pub mod life;
mod unborn;
