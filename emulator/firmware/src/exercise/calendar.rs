//! `lock_core::timetable`

use core::hint::black_box;

use lock_core::time::Date;
use lock_core::timetable::{
    Calendar, Closure, Day, Special, TimetableId, Timetables, Window, Windows,
};

use crate::outside;

/// Any windows of one day.
pub fn windows() -> Windows {
    let mut windows = Windows::new();
    for _ in 0..outside::byte() {
        let window = outside::any().and_then(|(from, to)| Window::new(from, to));
        if let Some(window) = window {
            outside::put(windows.push(window).is_ok());
        }
    }
    windows
}

/// Any calendar.
pub fn any() -> Calendar {
    let mut calendar = black_box(Calendar::default());
    for day in calendar.weeks.iter_mut().flatten() {
        *day = windows();
    }
    while let Some(closure) = outside::any::<Closure>() {
        outside::put(calendar.closures.push(closure).is_ok());
    }
    while let Some(date) = outside::any::<Date>() {
        let timetables = Timetables::from_bits(outside::byte());
        let special = Special { date, timetables, windows: windows() };
        outside::put(calendar.specials.push(special).is_ok());
    }
    calendar
}

#[inline(never)]
pub fn days() {
    let calendar = any();
    let (Some(id), Some(date)) = (outside::any::<TimetableId>(), outside::any()) else { return };
    outside::put(id.letter());
    outside::put(Timetables::ALL.bits());
    outside::put(Timetables::default().with(id).has(id));
    let Day::Windows(windows) = calendar.day(id, date) else { return };
    for window in windows {
        outside::put(window.from().get());
        outside::put(window.to().get());
        outside::put(window.end());
        outside::put(window.holds(window.to().get()));
    }
}
