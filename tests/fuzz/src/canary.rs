//! Bugs on purpose: in a build with `--cfg canary` the environment variable
//! `CANARY` chooses one of `lock_core::canary` by name. In any other build
//! there is none.

/// Chooses what the environment names.
///
/// # Panics
/// If there is no such bug.
#[cfg(canary)]
pub fn choose() {
    use lock_core::canary::{Bug, choose};
    static CHOSEN: std::sync::Once = std::sync::Once::new();
    CHOSEN.call_once(|| {
        let Ok(name) = std::env::var("CANARY") else { return };
        let bug = Bug::ALL.iter().find(|bug| bug.name() == name);
        choose(Some(*bug.unwrap_or_else(|| panic!("there is no bug {name}"))));
    });
}

/// Nothing to choose.
#[cfg(not(canary))]
pub const fn choose() {}
