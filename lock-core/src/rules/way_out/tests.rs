//! Behaviour, section 13 (R11), on a calendar in memory. Dates by hand: 1 March 2027
//! is a Monday.

use super::*;
use crate::audit::Seq;
use crate::code::{Digest, Salt};
use crate::holder::{Opens, Pending};
use crate::pairing::Pairing;
use crate::time::{Minute, Steady};
use crate::timetable::{Calendar, Closure, Timetables, Week, Window};

use crate::role::Role::{Courier, Deputy, Keyholder, Steward, Warden};
use crate::rules::way_out::Future::{Enrollable, Openable, Stuck};

const A: Follows = Follows::Timetable(TimetableId::A);
const B: Follows = Follows::Timetable(TimetableId::B);

/// A lock of which only the people, the calendar and a file that waits count.
struct Lock {
    people: std::vec::Vec<HolderRow>,
    calendar: Calendar,
    to_come: Option<Calendar>,
    policy: Policy,
    barred: std::vec::Vec<u8>,
}

impl Days for Lock {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        Ok(self.calendar.day(id, date))
    }
}

impl Reads for Lock {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        Ok(n.index().checked_sub(1).and_then(|at| self.people.get(at)).cloned())
    }
    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        Ok(u8::try_from(self.people.len()).unwrap())
    }
    fn day_to_come(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        Ok(self.to_come.as_ref().unwrap_or(&self.calendar).day(id, date))
    }
    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        Ok(None)
    }
    fn newest_seq(&mut self) -> Option<Seq> {
        None
    }
}

fn person(role: Role, opens: Opens, follows: Follows) -> HolderRow {
    HolderRow {
        role,
        opens,
        standing: Standing::Active,
        follows,
        salt: Salt::from_bytes([0; Salt::LEN]),
        digest: Digest::from_bytes([0; Digest::LEN]),
        pending: None,
        counter: 0,
    }
}

fn opens(role: Role, follows: Follows) -> HolderRow {
    person(role, Opens::Yes, follows)
}

fn never_opens(role: Role) -> HolderRow {
    person(role, Opens::No, Follows::Always)
}

/// Timetable A on weekdays from 08:00 to 12:00, B from 13:00 to 17:00.
fn calendar() -> Calendar {
    let mut calendar = Calendar::default();
    calendar.weeks[0] = weekdays((8, 12));
    calendar.weeks[1] = weekdays((13, 17));
    calendar
}

fn weekdays((from, to): (u8, u8)) -> Week {
    let window = Window::new(Minute::from_hm(from, 0).unwrap(), Minute::from_hm(to, 0).unwrap());
    let day = || window.into_iter().collect();
    let mut week = Week::default();
    for windows in week.iter_mut().take(5) {
        *windows = day();
    }
    week
}

fn monday() -> Date {
    Date::from_ymd(2027, 3, 1).unwrap()
}

/// The hour of that Monday.
fn at(hour: u32) -> Utc {
    Utc::from_secs(u32::from(monday().days()) * 86_400 + hour * 3_600)
}

fn lock(people: &[HolderRow]) -> Lock {
    Lock {
        people: people.to_vec(),
        calendar: calendar(),
        to_come: None,
        policy: Policy::DEFAULT,
        barred: std::vec::Vec::new(),
    }
}

impl Lock {
    fn dual(mut self) -> Self {
        self.policy.control = Control::Dual;
        self
    }

    fn delay(mut self, minutes: u32) -> Self {
        self.policy.delay = Seconds::new(minutes * 60);
        self
    }

    fn barring(mut self, numbers: &[u8]) -> Self {
        self.barred = numbers.to_vec();
        self
    }

    /// All timetables closed for so many dates from Monday on.
    fn closed_for(mut self, dates: u16) -> Self {
        let to = monday().checked_add(dates - 1).unwrap();
        let closure = Closure { from: monday(), to, timetables: Timetables::ALL };
        self.calendar.closures.push(closure).unwrap();
        self
    }

    fn future_at(&mut self, now: Utc, clock: Trusted) -> Future {
        let (policy, barred) = (self.policy, self.barred.clone());
        let is_at_limit = move |number: Number| barred.contains(&number.get());
        let judged = future(&policy, (now, clock), &Zone::UTC, (self, &is_at_limit));
        judged.unwrap()
    }

    fn future(mut self) -> Future {
        self.future_at(at(7), Trusted::Yes)
    }

    /// Where the clock is invalid.
    fn unset(mut self) -> Future {
        self.future_at(at(7), Trusted::OnceSet)
    }
}

#[test]
fn somebody_who_may_open_at_some_window_could_open() {
    assert_eq!(lock(&[opens(Keyholder, A)]).future(), Openable);
    assert_eq!(lock(&[opens(Courier, B)]).future(), Openable);
    assert_eq!(lock(&[opens(Warden, A)]).future(), Openable);
    // Nobody may: the warden may enrol somebody, the others may not.
    assert_eq!(lock(&[never_opens(Warden)]).future(), Enrollable);
    assert_eq!(lock(&[opens(Steward, Follows::Always)]).future(), Stuck);
    assert_eq!(lock(&[never_opens(Deputy)]).future(), Stuck);
    assert_eq!(lock(&[]).future(), Stuck);
    // Nobody follows what opens.
    let c = Follows::Timetable(TimetableId::C);
    assert_eq!(lock(&[opens(Keyholder, c)]).future(), Stuck);
    assert_eq!(lock(&[opens(Keyholder, c), never_opens(Warden)]).future(), Enrollable);
}

#[test]
fn a_lock_without_windows_is_stuck_unless_somebody_opens_always() {
    for people in [
        std::vec![opens(Warden, A), opens(Keyholder, A), never_opens(Steward)],
        std::vec![never_opens(Warden)],
    ] {
        let mut empty = lock(&people);
        empty.calendar = Calendar::default();
        assert_eq!(empty.future(), Stuck);
    }
    let mut empty = lock(&[opens(Keyholder, Follows::Always)]);
    empty.calendar = Calendar::default();
    assert_eq!(empty.future(), Openable);
}

/// What waits counts as in force: a row, and a file.
#[test]
fn what_waits_counts() {
    let (made, from) = (Steady::from_secs(0), Steady::from_secs(u32::MAX));
    let pending = Some(Pending { made, from, held: None });
    let waits = HolderRow { pending, ..opens(Keyholder, A) };
    assert_eq!(lock(&[waits]).future(), Openable);
    let mut filed = lock(&[opens(Keyholder, A), never_opens(Warden)]);
    filed.to_come = Some(Calendar::default());
    assert_eq!(filed.future(), Stuck);
    let mut filed = lock(&[opens(Keyholder, A)]);
    (filed.calendar, filed.to_come) = (Calendar::default(), Some(calendar()));
    assert_eq!(filed.future(), Openable);
}

#[test]
fn two_people_must_be_permitted_at_one_instant() {
    let (a, b) = (opens(Keyholder, A), opens(Keyholder, B));
    let always = opens(Keyholder, Follows::Always);
    assert_eq!(lock(&[a.clone(), a.clone()]).dual().future(), Openable);
    assert_eq!(lock(&[a.clone(), b.clone()]).dual().future(), Stuck);
    assert_eq!(lock(&[a.clone(), b.clone()]).future(), Openable);
    assert_eq!(lock(&[a.clone(), always.clone()]).dual().future(), Openable);
    assert_eq!(lock(&[always.clone(), always.clone()]).dual().future(), Openable);
    assert_eq!(lock(std::slice::from_ref(&always)).dual().future(), Stuck);
    assert_eq!(lock(std::slice::from_ref(&a)).dual().future(), Stuck);
    // B begins an hour before A ends, on one day of the year.
    let mut both = lock(&[a, b]).dual();
    let late = Window::new(Minute::from_hm(11, 0).unwrap(), Minute::from_hm(17, 0).unwrap());
    let date = monday().checked_add(364).unwrap();
    let windows = late.into_iter().collect();
    let timetables = Timetables::default().with(TimetableId::B);
    let special = crate::timetable::Special { date, timetables, windows };
    both.calendar.specials.push(special).unwrap();
    assert_eq!(both.delay(59).future(), Openable);
}

/// Two wardens, or a warden and a steward, may enrol somebody under dual control;
/// one warden may not.
#[test]
fn under_dual_control_enrolling_takes_two_privileged_people() {
    let warden = || never_opens(Warden);
    assert_eq!(lock(&[warden()]).dual().future(), Stuck);
    assert_eq!(lock(&[warden(), never_opens(Deputy)]).dual().future(), Stuck);
    assert_eq!(lock(&[warden(), warden()]).dual().future(), Enrollable);
    assert_eq!(lock(&[warden(), never_opens(Steward)]).dual().future(), Enrollable);
    assert_eq!(lock(&[never_opens(Steward), never_opens(Steward)]).dual().future(), Stuck);
}

/// A wait must end before the permit: four hours are not longer than four hours.
#[test]
fn a_delay_must_be_shorter_than_the_window() {
    // The longest delay that a policy can have is 99 minutes.
    let short = |minutes: u16, delay| {
        let mut short = lock(&[opens(Keyholder, A), never_opens(Warden)]).delay(delay);
        let from = Minute::from_hm(8, 0).unwrap();
        let window = Window::new(from, Minute::new(from.get() + minutes).unwrap());
        short.calendar = Calendar::default();
        short.calendar.weeks[0][2] = window.into_iter().collect();
        short
    };
    assert_eq!(short(60, 59).future(), Openable);
    assert_eq!(short(60, 60).future(), Stuck);
    assert_eq!(short(60, 61).future(), Stuck);
    // Nothing outlasts `always`.
    let always = lock(&[opens(Keyholder, Follows::Always)]).delay(99);
    assert_eq!(always.future(), Openable);
    // What is left of the window that runs is too short; the next one is not.
    let mut running = short(60, 30);
    let wednesday = at(0).after(Seconds::from_hours(48));
    let late = wednesday.after(Seconds::new(8 * 3_600 + 45 * 60));
    assert_eq!(running.future_at(late, Trusted::Yes), Openable);
}

/// The last of the 400 local dates counts, of which today is the first; the one
/// behind it does not.
#[test]
fn a_closure_of_399_dates_is_a_wait_and_one_of_400_is_no_future() {
    let keyholder = || lock(&[opens(Keyholder, A)]);
    // The 400th is Monday 3 April 2028.
    assert_eq!(keyholder().closed_for(399).future(), Openable);
    assert_eq!(keyholder().closed_for(400).future(), Stuck);
    // A warden looks 62 dates ahead; the 61st is Friday 30 April 2027, the 62nd a Saturday.
    let warden = || lock(&[never_opens(Warden)]);
    assert_eq!(warden().closed_for(60).future(), Enrollable);
    assert_eq!(warden().closed_for(61).future(), Stuck);
    let keyholder = || lock(&[opens(Keyholder, A), never_opens(Warden)]);
    assert_eq!(keyholder().closed_for(61).future(), Openable);
    assert_eq!(keyholder().closed_for(400).future(), Stuck);
}

/// A window that runs now counts, also where no other one comes.
#[test]
fn now_is_an_instant_that_counts() {
    let only_today = || {
        let mut lock = lock(&[opens(Keyholder, A)]);
        let from = monday().next().unwrap();
        let to = from.checked_add(500).unwrap();
        let closure = Closure { from, to, timetables: Timetables::ALL };
        lock.calendar.closures.push(closure).unwrap();
        lock
    };
    assert_eq!(only_today().future_at(at(11), Trusted::Yes), Openable);
    assert_eq!(only_today().future_at(at(12), Trusted::Yes), Stuck);
    assert_eq!(only_today().delay(60).future_at(at(11), Trusted::Yes), Stuck);
    // Whom a warden enrols now waits for the next start.
    let mut warden = only_today();
    warden.people = std::vec![never_opens(Warden)];
    assert_eq!(warden.future_at(at(7), Trusted::Yes), Enrollable);
    assert_eq!(warden.future_at(at(12), Trusted::Yes), Enrollable);
    assert_eq!(warden.future_at(at(13), Trusted::Yes), Stuck);
}

/// An invalid clock counts for nothing unless the two who may set it are able.
#[test]
fn without_a_clock_it_takes_who_may_set_it() {
    let (keyholder, warden) = (opens(Keyholder, A), never_opens(Warden));
    let steward = never_opens(Steward);
    assert_eq!(lock(std::slice::from_ref(&keyholder)).unset(), Stuck);
    assert_eq!(lock(&[keyholder.clone(), warden.clone()]).unset(), Stuck);
    assert_eq!(lock(&[keyholder.clone(), steward.clone()]).unset(), Stuck);
    let three = || lock(&[keyholder.clone(), warden.clone(), steward.clone()]);
    assert_eq!(three().unset(), Openable);
    assert_eq!(three().barring(&[2]).unset(), Openable);
    assert_eq!(three().barring(&[3]).unset(), Stuck);
    assert_eq!(lock(&[warden.clone(), steward]).unset(), Enrollable);
    assert_eq!(lock(std::slice::from_ref(&warden)).unset(), Stuck);
    assert_eq!(lock(&[opens(Keyholder, Follows::Always)]).unset(), Openable);
    // One who opens always and one who does not are no two without a clock.
    let mixed = || [opens(Keyholder, Follows::Always), keyholder.clone()];
    assert_eq!(lock(&mixed()).dual().unset(), Stuck);
    assert_eq!(lock(&mixed()).dual().future(), Openable);
}

/// Suspended and barred people do nothing; a barred warden keeps a way in.
#[test]
fn only_able_people_count() {
    let keyholder = opens(Keyholder, A);
    let suspended = HolderRow { standing: Standing::Suspended, ..keyholder.clone() };
    assert_eq!(lock(&[suspended]).future(), Stuck);
    assert_eq!(lock(std::slice::from_ref(&keyholder)).barring(&[1]).future(), Stuck);
    assert_eq!(lock(&[keyholder.clone(), keyholder.clone()]).barring(&[1]).future(), Openable);
    assert_eq!(lock(&[keyholder.clone(), keyholder]).dual().barring(&[2]).future(), Stuck);
    let warden = never_opens(Warden);
    let away = HolderRow { standing: Standing::Suspended, ..warden.clone() };
    assert_eq!(lock(&[away]).future(), Stuck);
    assert_eq!(lock(std::slice::from_ref(&warden)).barring(&[1]).future(), Enrollable);
    assert_eq!(lock(&[opens(Warden, A)]).barring(&[1]).future(), Openable);
    let two = [warden, never_opens(Steward)];
    assert_eq!(lock(&two).dual().barring(&[2]).future(), Stuck);
}

proptest::proptest! {
    /// Whoever is enrolled besides, or a longer window, never makes it worse; a
    /// suspension never makes it better.
    #[test]
    fn more_people_and_more_time_are_never_worse(
        people in proptest::collection::vec((0..5usize, 0..3usize, 0..2u8), 1..5),
        more in (0..5usize, 0..3usize, 0..2u8),
        dual: bool,
        unset: bool,
        delay in 0..100u32,
        out in 0..4usize,
    ) {
        let row = |(role, follows, may): (usize, usize, u8)| {
            let may = if may == 1 { Opens::Yes } else { Opens::No };
            person(Role::ALL[role], may, [A, B, Follows::Always][follows])
        };
        let rows: std::vec::Vec<_> = people.into_iter().map(row).collect();
        let judged = |rows: &[HolderRow], delay| {
            let lock = lock(rows).delay(delay);
            let mut lock = if dual { lock.dual() } else { lock };
            lock.future_at(at(7), if unset { Trusted::OnceSet } else { Trusted::Yes })
        };
        let rank = |future| match future {
            Stuck => 0,
            Enrollable => 1,
            Openable => 2,
        };
        let before = rank(judged(&rows, delay));
        let mut wider = rows.clone();
        wider.push(row(more));
        proptest::prop_assert!(rank(judged(&wider, delay)) >= before);
        proptest::prop_assert!(rank(judged(&rows, delay / 2)) >= before);
        let mut fewer = rows;
        let out = out % fewer.len();
        fewer[out].standing = Standing::Suspended;
        proptest::prop_assert!(rank(judged(&fewer, delay)) <= before);
    }
}
