//! `lock_core::rules`

use lock_core::audit::Refusal;
use lock_core::decide::{Conditions, by_time};
use lock_core::port::{Chip, Now};
use lock_core::rules::clock::Clock;
use lock_core::rules::ends::Ends;
use lock_core::rules::limit::{Stood, WayIn};
use lock_core::rules::{delay, hold_shut, opening_time, penalty, supply};
use lock_core::tally::ClockMark;
use lock_core::time::{Uptime, Utc, Zone};

use crate::exercise::{calendar, policy};
use crate::outside;

fn put_instant(at: Option<Utc>) {
    outside::put(at.map_or(0, Utc::as_secs));
}

#[inline(never)]
pub fn openings() {
    let calendar = calendar::any();
    let mut days = &calendar;
    let Ok(zone) = Zone::from_bytes(&outside::bytes()) else { return };
    let Some((follows, inhibit, held_until, supply, utc, settles)) = outside::any() else { return };
    let asked = Conditions { inhibit, held_until, supply, utc, settles };
    match by_time(follows, &asked, &zone, &mut days) {
        Ok(Ok(ends)) => put_ends(ends),
        Ok(Err(refused)) => {
            put_instant(refused.until);
            outside::put(refused.why == Refusal::Clock);
        }
        Err(_) => outside::put(b'?'),
    }
    let Some((now, id)) = outside::any() else { return };
    let asked = Conditions::unhindered(now);
    outside::put(by_time(follows, &asked, &zone, &mut days).is_ok());
    put_instant(hold_shut::end(follows, now, &zone, &mut days).ok().flatten());
    put_instant(opening_time::next_start(&mut days, &zone, id, now).ok().flatten());
}

fn put_ends(ends: Ends) {
    let other = outside::any().unwrap_or(Ends::Beyond);
    let ends = ends.earlier(other);
    let now = outside::any();
    outside::put(ends.reached(now));
    put_instant(ends.instant());
    outside::put(delay::fits(policy::any().delay, now, ends));
}

/// Any moment.
pub fn now() -> Now {
    let uptime = Uptime::from_millis(u64::from_le_bytes(outside::bytes()));
    Now { uptime, chip: outside::any().unwrap_or(Chip::Lost) }
}

#[inline(never)]
pub fn clocks() {
    let mut clock = Clock::at_boot(
        now(),
        outside::any(),
        outside::any().unwrap_or(Utc::MIN),
        if outside::byte() == 0 { ClockMark::Doubted } else { ClockMark::Believed },
    );
    for _ in 0..outside::byte() {
        let now = now();
        clock = clock.looked_at(now);
        put_instant(clock.utc(now));
    }
}

#[inline(never)]
pub fn limits() {
    let policy = policy::any();
    outside::put(penalty::length(&policy, outside::byte()).get());
    if let Some(role) = outside::any() {
        let way_in = if outside::byte() == 0 { WayIn::Yes } else { WayIn::No };
        outside::put(Stood::with(outside::byte(), way_in).bars(role));
    }
    if let Some(level) = outside::any() {
        let measured = supply::measured(&policy, level, policy::millivolts());
        outside::put(measured == supply::Level::Spent);
    }
}
