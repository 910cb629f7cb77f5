//! `lock_core::task`, `lock_core::seed` and the changes of `lock_core::audit`

use lock_core::audit::Change;
use lock_core::role::{Grant, Role, grant};
use lock_core::seed::Seed;
use lock_core::task::Task;

use crate::outside;

#[inline(never)]
pub fn tasks() {
    for task in Task::LIST.as_flattened().iter().flatten() {
        outside::put_all(task.name().as_bytes());
        for role in Role::ALL {
            outside::put(grant(role, task.right()) == Grant::Always);
        }
    }
    if let Some(change) = outside::any::<Change>() {
        outside::put_all(change.kind().as_bytes());
    }
}

#[inline(never)]
pub fn draws() {
    let mut seed = Seed::new(outside::bytes());
    outside::put_all(seed.salt().as_bytes());
    outside::put_all(&seed.draw());
}
