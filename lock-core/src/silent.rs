//! Secrets that cannot speak.
//!
//! A code, a key, and what derives from them have no `Debug`, no `Display`, no
//! way into `serde` and no `Format` of the device log (R5). The file of such a
//! type says [`silent!`](crate::silent!); nothing compiles in which it has one of
//! them, be it derived by mistake years from now.
//!
//! So this does not compile:
//!
//! ```compile_fail,E0277
//! let code = lock_core::code::Code::parse("739204");
//! println!("{code:?}");
//! ```
//!
//! nor this:
//!
//! ```compile_fail,E0599
//! let key = lock_core::code::LockKey::from_bytes([7; 32]);
//! key.to_string();
//! ```
//!
//! while both can be had and used:
//!
//! ```
//! let code = lock_core::code::Code::parse("739204").unwrap();
//! let key = lock_core::code::LockKey::from_bytes([7; 32]);
//! assert_eq!((code.len(), key.as_bytes().len()), (6, 32));
//! ```

/// A way in which a type can show what is in it; [`Nothing`] is everybody's.
pub trait Shows<How> {
    /// Asked while compiling only: who can answer in two ways does not compile.
    fn ask() {}
}

/// Every type's answer, and the only one of a secret.
pub struct Nothing;
/// It has `Debug`.
pub struct Debugged;
/// It has `Display`.
pub struct Displayed;
/// It has one of the formats of numbers: hexadecimal digits of a key are a key.
pub struct InDigits;
/// It has serde's `Serialize`.
pub struct Serialized;
/// It has `Format`, with the feature `defmt`.
pub struct Logged;

impl<T: ?Sized> Shows<Nothing> for T {}
impl<T: core::fmt::Debug + ?Sized> Shows<Debugged> for T {}
impl<T: core::fmt::Display + ?Sized> Shows<Displayed> for T {}
impl<T: core::fmt::LowerHex + ?Sized> Shows<InDigits> for T {}
impl<T: serde::Serialize + ?Sized> Shows<Serialized> for T {}
#[cfg(feature = "defmt")]
impl<T: defmt::Format + ?Sized> Shows<Logged> for T {}

/// Does not compile if one of the types can show what is in it.
///
/// ```
/// struct Combination([u8; 3]);
/// lock_core::silent!(Combination);
/// ```
///
/// ```compile_fail,E0283
/// #[derive(Debug)]
/// struct Combination([u8; 3]);
/// lock_core::silent!(Combination);
/// ```
///
/// ```compile_fail,E0283
/// struct Combination([u8; 3]);
/// impl core::fmt::Display for Combination {
///     fn fmt(&self, f: &mut core::fmt::Formatter) -> core::fmt::Result { f.write_str("1-2-3") }
/// }
/// lock_core::silent!(Combination);
/// ```
#[macro_export]
macro_rules! silent {
    ($($secret:ty),+ $(,)?) => {
        const _: fn() = || {
            $(<$secret as $crate::silent::Shows<_>>::ask();)+
        };
    };
}

/// Wipes those types when they are dropped, as a derived `ZeroizeOnDrop` does, but
/// by one copy: a lock drops them in dozens of places.
macro_rules! wiped {
    ($($secret:ty),+ $(,)?) => {$(
        impl Drop for $secret {
            #[inline(never)] // one copy
            fn drop(&mut self) {
                zeroize::Zeroize::zeroize(self);
            }
        }

        impl zeroize::ZeroizeOnDrop for $secret {}
    )+};
}
