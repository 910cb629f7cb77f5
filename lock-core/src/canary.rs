//! Bugs on purpose, for the rig to catch: one can be chosen at run time in a
//! build with `--cfg canary`, and none exists in any other.
//!
//! A check that has never failed proves nothing. Each of these is a mistake
//! that a store or a lock could well have; the rig must find every one
//! (`emulator rig canaries`).

use core::sync::atomic::{AtomicU8, Ordering};

macro_rules! bugs {
    ($($(#[doc = $doc:literal])+ $bug:ident = $name:literal,)+) => {
        /// A mistake that can be chosen.
        #[derive(Clone, Copy, PartialEq, Eq, Debug)]
        pub enum Bug { $($(#[doc = $doc])+ $bug,)+ }

        impl Bug {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$bug,)+];

            /// Its name on the command line.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$bug => $name,)+ }
            }

            /// What is wrong with it.
            #[must_use]
            pub const fn about(self) -> &'static str {
                match self { $(Self::$bug => concat!($($doc),+),)+ }
            }

            const fn number(self) -> u8 {
                let mut n = 1;
                $(if matches!(self, Self::$bug) { return n; } n += 1;)+
                n
            }
        }
    };
}
