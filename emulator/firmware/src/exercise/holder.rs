//! `lock_core::holder`

use lock_core::holder::Number;

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
