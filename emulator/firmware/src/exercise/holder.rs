//! `lock_core::holder` and `lock_core::role`

use lock_core::code::{Digest, Salt};
use lock_core::holder::{HolderRow, Number, Pending};
use lock_core::policy::Deputies;
use lock_core::role::{Grant, Right, Role, grant};

use crate::outside;

#[inline(never)]
pub fn numbers() {
    if let Some(number) = Number::new(outside::byte()) {
        outside::put(number.get());
    }
    match Number::try_from(outside::byte()) {
        Ok(number) => {
            let table: [u8; Number::COUNT] = outside::bytes();
            outside::put_all(table.get(number.index()..).unwrap_or_default());
        }
        Err(error) => outside::print(error),
    }
}

/// Any row, or none.
pub fn row() -> Option<HolderRow> {
    let (role, opens, standing, follows) = outside::any()?;
    Some(HolderRow {
        role,
        opens,
        standing,
        follows,
        salt: Salt::from_bytes(outside::bytes()),
        digest: Digest::from_bytes(outside::bytes()),
        counter: outside::any()?,
        pending: outside::any().map(|(made, from, held)| Pending { made, from, held }),
    })
}

#[inline(never)]
pub fn rights() {
    let Some(row) = row() else { return };
    for right in Right::ALL {
        outside::put(row.may(right, outside::any().unwrap_or(Deputies::Suspend)));
    }
    for role in Role::ALL {
        outside::put_all(role.name().as_bytes());
        if let Some(right) = outside::any() {
            outside::put(grant(role, right) == Grant::Always);
        }
    }
}
