//! Time, in the five kinds that a lock must not mix up.
//!
//! | kind | type | what it is good for |
//! | --- | --- | --- |
//! | a length | [`Seconds`] | delays, penalties, limits |
//! | uptime | [`Uptime`] | everything that nobody may shift by setting the clock: waits and penalties run on it |
//! | a moment | [`Utc`] | records, windows and closures |
//! | steady time | [`Steady`] | whatever waits for an instant, also over a power cut |
//! | wall clock | [`Date`], [`Minute`], [`Local`] | opening windows and closures, as people write them |
//!
//! Uptime and UTC do not convert into one another: one starts at zero with
//! every boot, the other is set by hands and by a clock chip. Steady time is UTC
//! less the [`Shift`], the sum of what hands have set. A moment becomes
//! wall-clock time only through a [`Zone`], a POSIX TZ rule of a few bytes; a
//! wall-clock time becomes none, one or two moments ([`Instants`]), because
//! clock changes skip some and repeat others.
//!
//! Nothing here reads a clock: the moment is always an argument.
//!
//! ```
//! use lock_core::time::{Date, Instants, Utc, Weekday, Zone};
//!
//! let dublin = Zone::parse("IST-1GMT0,M10.5.0,M3.5.0/1").unwrap();
//! let local = dublin.local(Utc::from_secs(1_803_890_700));
//! assert_eq!(local.date.ymd(), (2027, 3, 1));
//! assert_eq!(local.date.weekday(), Weekday::Mon);
//! assert_eq!(local.minute().hm(), (8, 45));
//!
//! // At 01:00 on 28 March 2027 the clocks go forward: 01:30 does not happen.
//! let day = Date::from_ymd(2027, 3, 28).unwrap();
//! assert_eq!(dublin.instants(day, 5_400), Instants::None);
//! ```

mod date;
mod local;
mod minute;
mod seconds;
mod steady;
mod uptime;
mod utc;
mod weekday;
mod zone;

pub use date::Date;
pub use local::{Local, NotAnOffset, Offset};
pub use minute::{Minute, NotAMinute};
pub use seconds::Seconds;
pub use steady::{Shift, Steady};
pub use uptime::Uptime;
pub use utc::Utc;
pub use weekday::Weekday;
pub use zone::{Instants, NotAZone, Zone, ZoneError, ZoneErrorKind};

/// Seconds in a day of UTC, and in a wall-clock day without a clock change.
pub const DAY_SECONDS: u32 = 86_400;
