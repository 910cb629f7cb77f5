//! R6 and R7: a first warden and a reset apply whole or not at all, at every
//! cut; what they leave, and what they take away for good. Source: rules R6 and
//! R7, and [`Edit`].

use super::super::bytes::seal;
use super::super::{FlashStore, Layout};
use super::model::{listed, lost};
use super::*;
use crate::port::Reads;
use crate::recovered::Recovered;
use crate::rules::Days;
use crate::settings::Edit;
use crate::time::Zone;
use crate::timetable::Day;

/// What a secret looks like in the flash of a lock that is reset.
const OLD_KEY: [u8; 32] = [0x33; LockKey::LEN];
const NEW_KEY: [u8; 32] = [0x44; LockKey::LEN];
const PAIRING_KEY: [u8; 32] = [0xA5; Pairing::LEN];

fn warden() -> HolderRow {
    HolderRow {
        role: Role::Warden,
        opens: Opens::Yes,
        standing: Standing::Active,
        follows: Follows::Always,
        salt: Salt::from_bytes([0x55; Salt::LEN]),
        digest: Digest::from_bytes([0x66; Digest::LEN]),
        pending: None,
        counter: 0,
    }
}

fn commission() -> Edit {
    Edit::Commission(LockKey::from_bytes(NEW_KEY), number(7), warden())
}

fn changed(change: Change) -> Record {
    Record { at: None, event: Event::Changed { by: None, change } }
}

fn commissioned() -> Record {
    changed(Change::Commissioned(number(7)))
}

/// What a lock does whenever it boots, whatever its settings are.
fn powers_up<F: NorFlash>(store: &mut FlashStore<F>) {
    let record = Record { at: None, event: Event::PoweredUp { unrecorded: 0 } };
    let _out_of_order_locks_may_fail_to = put(store, &Write::Record(record));
}

/// Whether everything is as from the factory, but the zone, for `enrolled`.
fn as_from_the_factory<F: NorFlash>(
    store: &mut FlashStore<F>,
    found: &Recovered,
    zone: &str,
    enrolled: Option<u8>,
) {
    let known = found.known.as_ref().ok().unwrap();
    assert_eq!(known.key.as_bytes(), &NEW_KEY);
    assert_eq!((known.policy, known.stricter), (Policy::DEFAULT, None));
    assert_eq!(known.zone, Zone::parse(zone).ok().unwrap());
    assert_eq!(known.enrolled, u8::from(enrolled.is_some()));
    assert!(store.pairing().ok().unwrap().is_none());
    for n in 0..100 {
        let row = store.holder(number(n)).ok().unwrap();
        assert_eq!(row.is_some(), enrolled == Some(n), "{n:02}");
        assert!(row.is_none_or(|row| row.role == Role::Warden && row.digest == warden().digest));
    }
    for days in 20_000..20_110 {
        for id in TimetableId::ALL {
            let day = store.day(id, Date::from_days(days));
            assert_eq!(day, Ok(Day::Windows(Windows::new())));
        }
    }
}

/// A flash on which `edit` was cut short after `steps`; whether it was done.
fn cut_short<const WORD: usize, const PAGE: usize>(
    flash: &Flash<WORD, PAGE>,
    layout: Layout,
    (edit, record): (&Edit, &Record),
    steps: u64,
) -> (Flash<WORD, PAGE>, bool) {
    let (mut store, _) = FlashStore::mount(flash.clone(), layout);
    powers_up(&mut store);
    store.flash_mut().cut_after(steps);
    let done = store.edit(edit, record).is_ok();
    let mut flash = store.into_flash();
    assert_eq!(done, flash.has_power());
    flash.power_cycle();
    (flash, done)
}

/// Whether the lock is blank; then a warden can be enrolled, at once or after
/// the lock was powered up once more.
fn blank_or_commissioned<const WORD: usize, const PAGE: usize>(
    flash: Flash<WORD, PAGE>,
    layout: Layout,
    step: u64,
) -> bool {
    let (mut store, mut found) = FlashStore::mount(flash, layout);
    let is_blank = |found: &Recovered| match &found.known {
        Ok(known) => known.enrolled == 0,
        Err(fault) => {
            assert_eq!(*fault, Fault::Blank, "step {step}");
            true
        }
    };
    let blank = is_blank(&found);
    powers_up(&mut store);
    (store, found) = FlashStore::mount(store.into_flash(), layout);
    assert_eq!(is_blank(&found), blank, "step {step}");
    if blank {
        assert_eq!(store.edit(&commission(), &commissioned()), Ok(()), "step {step}");
        (store, found) = FlashStore::mount(store.into_flash(), layout);
    }
    as_from_the_factory(&mut store, &found, "UTC0", Some(7));
    let count = |(_, record): &(Seq, Record)| *record == commissioned();
    assert_eq!(listed(&mut store).iter().filter(|listed| count(listed)).count(), 1, "step {step}");
    blank
}

fn first_warden<const WORD: usize, const PAGE: usize>() {
    let layout = Layout::smallest(PAGE).unwrap();
    let unborn = erased::<WORD, PAGE>(layout);
    let ask = (&commission(), &commissioned());
    let mut was_blank = true;
    let mut step = 0;
    loop {
        let (flash, done) = cut_short(&unborn, layout, ask, step);
        let blank = blank_or_commissioned(flash, layout, step);
        // Once commissioned at some step, commissioned at every later one.
        assert!(was_blank || !blank, "step {step}");
        was_blank = blank;
        if done {
            break;
        }
        step += 1;
    }
    assert!(!was_blank && step > 400, "{step}");
}

/// A cut in the first commissioning leaves a lock that is blank or has its
/// warden, never one that only a workshop can help.
#[test]
fn a_cut_at_any_step_leaves_a_blank_lock_or_one_with_its_warden() {
    first_warden::<32, 256>();
    first_warden::<32, 2_048>();
    first_warden::<16, 512>();
}

/// The second try is cut as well, at every step of it after some of the first.
#[test]
fn nor_does_a_second_cut_end_what_a_first_one_left_open() {
    let layout = Layout::smallest(2_048).unwrap();
    let unborn = erased::<32, 2_048>(layout);
    let ask = (&commission(), &commissioned());
    for first in [3, 40, 294, 299, 301, 304, 306, 307, 308, 309, 310, 400] {
        let (once, done) = cut_short(&unborn, layout, ask, first);
        assert!(!done);
        for second in (0..24).chain((24..340).step_by(37)).chain(298..312) {
            let (twice, _) = cut_short(&once, layout, ask, second);
            blank_or_commissioned(twice, layout, first * 1_000 + second);
        }
    }
}

/// Settings that were lost are told apart from settings that never were, however
/// few records the lock has left: they ask for service, and end only when somebody
/// enrols a first warden anew.
#[test]
fn a_lock_that_lost_its_settings_is_not_blank() {
    let layout = Layout::smallest(256).unwrap();
    for at in [0, 8, 63] {
        let mut flash = formatted::<4, 256>(layout).into_flash();
        flash.content_mut()[at] ^= 0x11;
        let (_, found) = FlashStore::mount(flash.clone(), layout);
        assert_eq!(found.known.err(), Some(Fault::Settings), "{at}");
        begun_anew(flash, layout, Fault::Settings);
    }
}

/// Enrols a first warden on a flash that has that fault. Afterwards the lock is new.
fn begun_anew<const WORD: usize, const PAGE: usize>(
    flash: Flash<WORD, PAGE>,
    layout: Layout,
    fault: Fault,
) {
    let (mut store, found) = FlashStore::mount(flash, layout);
    assert_eq!(found.known.err(), Some(fault));
    assert_eq!(store.edit(&commission(), &commissioned()), Ok(()));
    let (mut store, found) = FlashStore::mount(store.into_flash(), layout);
    as_from_the_factory(&mut store, &found, "UTC0", Some(7));
    assert_eq!(found.tally.total(number(9)), 0);
    let kinds: Vec<_> = listed(&mut store).iter().map(|(_, r)| r.event.kind()).collect();
    assert_eq!(kinds, ["commissioned"]);
    let flash = store.into_flash();
    for secret in [&OLD_KEY[..], &PAIRING_KEY, &[0x22; Digest::LEN], &[0x66; Digest::LEN]] {
        let warden_s = secret == &[0x66; Digest::LEN][..];
        assert_eq!(holds(&flash, secret), warden_s);
    }
}

/// Every cut of a first warden's enrolment on such a flash, and what it may then
/// be: what it was, another layout's or blank, and from each of them a warden can
/// still be enrolled.
fn taken_over_at_every_cut<const WORD: usize, const PAGE: usize>(
    flash: &Flash<WORD, PAGE>,
    layout: Layout,
    may_be: &[Fault],
) {
    let ask = (&commission(), &commissioned());
    let mut seen = [false; 3];
    let mut step = 0;
    loop {
        let (cut, done) = cut_short(flash, layout, ask, step);
        let (mut store, found) = FlashStore::mount(cut, layout);
        match &found.known {
            Ok(known) if known.enrolled == 1 => {
                as_from_the_factory(&mut store, &found, "UTC0", Some(7));
            }
            Ok(known) => assert_eq!(known.enrolled, 0, "step {step}"),
            Err(fault) => {
                let which = may_be.iter().position(|may| may == fault);
                assert!(which.is_some(), "step {step}: {fault:?}");
                seen[which.unwrap()] = true;
                // Cut a second time, somewhere else, it is still one of them.
                if step % 7 == 0 {
                    let cut = store.into_flash();
                    let (cut, _) = cut_short(&cut, layout, ask, 11 + step * 5 % 97);
                    let found = FlashStore::mount(cut.clone(), layout).1;
                    assert!(
                        found.known.is_ok_and(|known| known.enrolled <= 1) || {
                            let fault = FlashStore::mount(cut, layout).1.known.err();
                            fault.is_some_and(|fault| may_be.contains(&fault))
                        }
                    );
                } else if step % 5 == 0 {
                    let fault = *fault;
                    begun_anew(store.into_flash(), layout, fault);
                }
            }
        }
        if done {
            break;
        }
        step += 1;
    }
    assert!(seen[..may_be.len()].iter().all(|seen| *seen), "{seen:?}");
}

/// Makes the headers of both banks those of another version.
fn of_another_layout<const WORD: usize, const PAGE: usize>(
    mut flash: Flash<WORD, PAGE>,
    layout: Layout,
) -> Flash<WORD, PAGE> {
    let second = usize::try_from(layout.bank_pages).unwrap() * PAGE;
    for at in [0, second] {
        let row = &mut flash.content_mut()[at..at + 64];
        if row[0] != 0xFF {
            row[1] = 3;
            seal(row);
        }
    }
    flash
}

/// Flash of another layout is neither blank nor lost, whichever bank is in force
/// there, and wherever that layout has its tally.
#[test]
fn flash_of_another_layout_is_neither_blank_nor_lost() {
    let layout = Layout::smallest(256).unwrap();
    for flash in [formatted::<32, 256>(layout).into_flash(), in_use::<32, 256>(layout)] {
        let other = of_another_layout(flash, layout);
        let mut elsewhere = other.clone();
        let tally = usize::try_from(2 * layout.bank_pages).unwrap() * 256;
        elsewhere.content_mut()[tally..].fill(0xFF);
        for flash in [other, elsewhere] {
            let before = flash.content().to_vec();
            let (store, found) = FlashStore::mount(flash.clone(), layout);
            assert_eq!(found.known.err(), Some(Fault::Layout));
            // Nothing is erased before somebody asked for it.
            assert!(store.into_flash().content() == before);
            begun_anew(flash, layout, Fault::Layout);
        }
    }
}

#[test]
fn taking_over_another_layout_is_that_layouts_or_blank_at_every_cut() {
    let layout = Layout::smallest(256).unwrap();
    let may_be = [Fault::Layout, Fault::Blank];
    let other = |flash| of_another_layout(flash, layout);
    taken_over_at_every_cut(&other(formatted::<32, 256>(layout).into_flash()), layout, &may_be);
    taken_over_at_every_cut(&other(in_use::<32, 256>(layout)), layout, &may_be);
    let layout = Layout::smallest(2_048).unwrap();
    let flash = of_another_layout(in_use::<32, 2_048>(layout), layout);
    taken_over_at_every_cut(&flash, layout, &may_be);
}

/// A zone that cannot be read, a tally that is lost: the bank counts, the lock does
/// not know what it needs.
#[test]
fn settings_that_cannot_be_read_end_with_a_first_warden_at_every_cut() {
    let layout = Layout::smallest(256).unwrap();
    let may_be = [Fault::Settings, Fault::Layout, Fault::Blank];
    let tally = usize::try_from(2 * layout.bank_pages).unwrap() * 256;
    for at in [6 * 32, tally + 20] {
        let mut flash = formatted::<32, 256>(layout).into_flash();
        flash.content_mut()[at] ^= 3;
        begun_anew(flash.clone(), layout, Fault::Settings);
        taken_over_at_every_cut(&flash, layout, &may_be);
    }
}

/// Codes of two couriers are used up both or neither, and a counter never falls.
#[test]
fn codes_are_used_up_both_or_neither_at_every_cut() {
    let layout = Layout::smallest(256).unwrap();
    let mut store = formatted::<32, 256>(layout);
    let asked = Record { at: None, event: Event::WrongCode { who: number(3) } };
    let courier = |counter| HolderRow { role: Role::Courier, counter, ..warden() };
    for (n, counter) in [(40, 5), (41, 9)] {
        let enrol = Edit::Holder(number(n), Some(courier(counter)));
        assert_eq!(store.edit(&enrol, &asked), Ok(()));
        assert!(store.tend().is_ok());
    }
    let flash = store.into_flash();
    let counters = |flash: Flash<32, 256>| {
        let (mut store, _) = FlashStore::mount(flash, layout);
        [40, 41].map(|n| {
            let row = store.holder(number(n)).ok().flatten().unwrap();
            assert!(row.role == Role::Courier && row.digest == warden().digest);
            row.counter
        })
    };
    let people = People { first: number(40), second: Some(number(41)) };
    let event = Event::Released { people, outcome: Outcome::Plain };
    let released = Record { at: None, event };
    let both = Edit::Spend([Some((number(40), 6)), Some((number(41), 12))]);
    let (mut step, mut spent) = (0, false);
    loop {
        let (cut, done) = cut_short(&flash, layout, (&both, &released), step);
        let mut again = FlashStore::mount(cut.clone(), layout).0;
        let recorded = listed(&mut again).iter().any(|(_, record)| *record == released);
        assert_eq!(counters(cut.clone()), if recorded { [6, 12] } else { [5, 9] }, "step {step}");
        // Once it happened at some step it happened at every later one.
        assert!(recorded || !spent, "step {step}");
        spent = recorded;
        if done {
            // An older counter takes nothing back.
            let older = Edit::Spend([Some((number(41), 2)), None]);
            assert_eq!(again.edit(&older, &released), Ok(()));
            assert_eq!(counters(again.into_flash()), [6, 12]);
            break;
        }
        step += 1;
    }
    assert!(spent && step > 200, "{step}");
    let (mut store, _) = FlashStore::mount(flash, layout);
    let nobody = Edit::Spend([Some((number(42), 1)), None]);
    assert_eq!(store.edit(&nobody, &released), Err(StoreFault));
}

/// A lock in use: people, a policy of its own, windows, a pairing key, wrong
/// tries and records.
fn in_use<const WORD: usize, const PAGE: usize>(layout: Layout) -> Flash<WORD, PAGE> {
    let mut settings = plain_settings();
    settings.calendar.weeks[2][4] =
        Window::new(Minute::new(480).unwrap(), Minute::END).into_iter().collect();
    let store = FlashStore::format(erased(layout), layout, &settings);
    let mut store: FlashStore<Flash<WORD, PAGE>> = store.ok().unwrap();
    let policy = Policy { wrong_codes: 7, ..Policy::DEFAULT };
    for edit in [
        Edit::Policy(policy, None),
        Edit::Holder(number(2), Some(warden())),
        Edit::Pairing(Pairing::new(LockNumber::new(1_001).unwrap(), 3, PAIRING_KEY)),
    ] {
        let asked = Event::Status { who: number(1), outcome: Outcome::Plain };
        assert_eq!(store.edit(&edit, &Record { at: None, event: asked }), Ok(()));
        assert!(store.tend().is_ok());
    }
    for write in [
        Write::Tally(Tally::Counted(number(9))),
        Write::Record(Record { at: None, event: Event::WrongCode { who: number(9) } }),
    ] {
        assert_eq!(put(&mut store, &write), Ok(()));
    }
    store.into_flash()
}

fn holds<const WORD: usize, const PAGE: usize>(flash: &Flash<WORD, PAGE>, secret: &[u8]) -> bool {
    flash.content().windows(secret.len()).any(|bytes| bytes == secret)
}

/// R7: audit, sequence and wrong counts survive a reset, and the zone; codes,
/// the pairing key and the key of the digests don't.
fn reset_is_whole<const WORD: usize, const PAGE: usize>() {
    let layout = Layout::smallest(PAGE).unwrap();
    let used = in_use::<WORD, PAGE>(layout);
    let secrets = [&OLD_KEY[..], &PAIRING_KEY, &[0x22; Digest::LEN], &[0x66; Digest::LEN]];
    for secret in secrets {
        assert!(holds(&used, secret));
    }
    let reset = (&Edit::Reset(LockKey::from_bytes(NEW_KEY)), &changed(Change::Reset));
    let mut step = 0;
    let mut was_reset = false;
    loop {
        let (flash, done) = cut_short(&used, layout, reset, step);
        let (mut store, found) = FlashStore::mount(flash, layout);
        let known = found.known.as_ref().ok().unwrap();
        let is_reset = known.enrolled == 0;
        assert!(is_reset || (known.enrolled, known.policy.wrong_codes) == (2, 7), "step {step}");
        assert!(is_reset || !was_reset, "step {step}");
        was_reset = is_reset;
        assert_eq!(found.tally.total(number(9)), 1, "step {step}");
        let list = listed(&mut store);
        let kinds: Vec<&str> = list.iter().map(|(_, record)| record.event.kind()).collect();
        let before = ["status", "status", "status", "wrong-code", "powered-up"];
        assert_eq!(&kinds[..5], before, "step {step}");
        assert_eq!(&kinds[5..], if is_reset { &["reset"][..] } else { &[] }, "step {step}");
        assert_eq!(lost(&mut store), 0);
        if is_reset {
            as_from_the_factory(&mut store, &found, "GMT0IST,M3.5.0/1,M10.5.0", None);
        }
        let flash = store.into_flash();
        for secret in secrets {
            // A boot has erased the bank that is not in force.
            assert_eq!(holds(&flash, secret), !is_reset, "step {step}");
        }
        if done {
            break;
        }
        step += 1;
    }
    assert!(was_reset && step > 210, "{step}");
}

#[test]
fn a_reset_is_whole_at_every_cut_and_takes_every_secret() {
    reset_is_whole::<32, 256>();
    reset_is_whole::<32, 4_096>();
}

/// Without a boot it is the lock's next rest that takes the secrets.
#[test]
fn after_a_reset_a_rest_takes_the_secrets() {
    let layout = Layout::smallest(256).unwrap();
    let (mut store, _) = FlashStore::mount(in_use::<4, 256>(layout), layout);
    let key = LockKey::from_bytes(NEW_KEY);
    assert_eq!(store.edit(&Edit::Reset(key), &changed(Change::Reset)), Ok(()));
    let secrets = [&OLD_KEY[..], &PAIRING_KEY, &[0x22; Digest::LEN], &[0x66; Digest::LEN]];
    assert!(secrets.iter().all(|secret| holds(store.flash_mut(), secret)));
    assert!(store.tend().is_ok());
    assert!(!secrets.iter().any(|secret| holds(store.flash_mut(), secret)));
}

/// A lock that was reset gets a warden as a blank one does, and keeps its zone,
/// its records and its numbers.
#[test]
fn a_first_warden_after_a_reset_follows_in_the_same_audit() {
    let layout = Layout::smallest(256).unwrap();
    let (mut store, _) = FlashStore::mount(in_use::<4, 256>(layout), layout);
    let key = LockKey::from_bytes([0x77; LockKey::LEN]);
    assert_eq!(store.edit(&Edit::Reset(key), &changed(Change::Reset)), Ok(()));
    assert!(store.tend().is_ok());
    let newest = store.newest_seq().unwrap();
    assert_eq!(store.edit(&commission(), &commissioned()), Ok(()));
    assert_eq!(store.newest(), Some((Seq(newest.0 + 1), commissioned())));
    let (mut store, found) = FlashStore::mount(store.into_flash(), layout);
    as_from_the_factory(&mut store, &found, "GMT0IST,M3.5.0/1,M10.5.0", Some(7));
    assert_eq!(found.tally.total(number(9)), 1);
}

/// Who commissions is a warden with a number.
#[test]
fn a_first_warden_is_a_warden_and_has_a_number() {
    let layout = Layout::smallest(256).unwrap();
    for (n, role) in [(0, Role::Warden), (7, Role::Deputy), (7, Role::Steward)] {
        let (mut store, _) = FlashStore::mount(erased::<4, 256>(layout), layout);
        let edit = Edit::Commission(
            LockKey::from_bytes(NEW_KEY),
            number(n),
            HolderRow { role, ..warden() },
        );
        assert_eq!(store.edit(&edit, &commissioned()), Err(StoreFault));
        assert_eq!(store.into_flash().steps(), 0);
    }
}

/// A courier's used codes stay used: removed and enrolled anew under the same
/// number, also after a boot in between, the counter goes on where it was.
#[test]
fn a_counter_of_one_time_codes_never_falls() {
    let mut store = formatted::<8, 512>(Layout::smallest(512).unwrap());
    let record =
        Record { at: None, event: Event::Status { who: number(1), outcome: Outcome::Plain } };
    let courier = |counter| HolderRow { role: Role::Courier, counter, ..warden() };
    let edits = [
        (Some(courier(0)), Some(0)),
        (Some(courier(7)), Some(7)),
        (None, None),
        (Some(courier(0)), Some(7)),
        (Some(courier(9)), Some(9)),
        (None, None),
        (Some(HolderRow { role: Role::Keyholder, ..courier(0) }), Some(9)),
        (None, None),
        (Some(courier(0)), Some(9)),
    ];
    for (row, counter) in edits {
        assert!(store.edit(&Edit::Holder(number(40), row), &record).is_ok());
        assert!(store.tend().is_ok());
        let (again, _) = FlashStore::mount(store.into_flash(), Layout::smallest(512).unwrap());
        store = again;
        let found = store.holder(number(40)).ok().unwrap();
        assert_eq!(found.map(|row| row.counter), counter);
    }
}
