//! What is written is what is read. Source: the store's own promise; the
//! calendar is judged by `timetable::Calendar`, which does not know the store.

use super::super::bytes::{Put, Take, seal};
use super::super::layout::LAST_GENERATION;
use super::super::memo::{Memo, Word};
use super::super::record_slot::Kept;
use super::super::tally_slot::{self, Checkpoint, Entry, Fill, Generation};
use super::super::{SLOT, policy_row, record_slot, rows};
use super::*;
use crate::audit::Seq;
use crate::policy::{FIGURES, Stricter};
use crate::port::Reads;
use crate::rules::{Days, Unreadable};
use crate::tally::{ClockMark, PenaltyMark, SetUp, Settling, TallyState, WEIGHTS, Weights};
use crate::timetable::Few;

fn any_state() -> impl Strategy<Value = TallyState> {
    let counts = (list(0..=100u8, 100), list(any_number(), 0..=WEIGHTS), any::<u8>());
    let times = [(); 3].map(|()| maybe(any_steady()));
    let rest = (any_shift(), any::<[u32; 3]>(), maybe(any_people()));
    (counts, any::<[bool; 4]>(), times, rest).prop_map(
        |((totals, weights, step), [running, doubted, settles, done], times, rest)| {
            let [held_until, doubted_at, brought] = times;
            let (shift, [corrected, collected, power_ups], way_out) = rest;
            TallyState {
                totals: totals.try_into().unwrap(),
                weights: weights.into_iter().collect::<Weights>(),
                step,
                penalty: if running { PenaltyMark::Running } else { PenaltyMark::Served },
                held_until,
                clock: if doubted { ClockMark::Doubted } else { ClockMark::Believed },
                doubted_at,
                shift,
                settling: if settles { Settling::Yes } else { Settling::No },
                corrected: Seconds::new(corrected),
                collected: Seq(collected),
                brought,
                set_up: if done { SetUp::Done } else { SetUp::Going },
                way_out,
                power_ups,
            }
        },
    )
}

fn any_kept() -> impl Strategy<Value = Kept> {
    let copied = (0..=127u8).prop_map(Fill::new);
    (any::<u32>(), any::<u32>(), any::<u32>(), any::<u8>(), copied, any_record()).prop_map(
        |(seq, ordinal, generation, tally, copied, record)| Kept {
            seq: Seq(seq),
            ordinal,
            generation,
            tally,
            copied,
            record,
        },
    )
}

fn any_memo() -> impl Strategy<Value = Memo> {
    let word = prop_oneof![
        select(&[Word::Shut, Word::Forced, Word::Released][..]),
        maybe(any_utc()).prop_map(Word::Opened),
    ];
    let levels = select(&[Level::Spent, Level::Low, Level::Good][..]);
    (
        (maybe(any_utc()), maybe(any_outcome()), word),
        (maybe(any_people()), 0..=2u8, levels, any::<u32>().prop_map(Seq)),
    )
        .prop_map(|((floor, outcome, word), (people, power_ups, supply, next))| Memo {
            floor,
            outcome,
            word,
            people,
            power_ups,
            supply,
            next,
        })
}

fn any_stricter() -> impl Strategy<Value = Stricter> {
    (any_steady(), any_steady(), 0..=5_940u32, any::<bool>(), select(&Deputies::ALL[..])).prop_map(
        |(until, made, delay, dual, deputies)| Stricter {
            until,
            made,
            delay: Seconds::new(delay),
            control: if dual { Control::Dual } else { Control::Single },
            deputies,
        },
    )
}

fn same_holder(a: Option<&HolderRow>, b: Option<&HolderRow>) -> bool {
    match (a, b) {
        (None, None) => true,
        (Some(a), Some(b)) => {
            a.role == b.role
                && a.opens == b.opens
                && a.standing == b.standing
                && a.follows == b.follows
                && a.salt == b.salt
                && a.digest == b.digest
                && a.counter == b.counter
                && a.pending == b.pending
        }
        (None, Some(_)) | (Some(_), None) => false,
    }
}

proptest! {
    #[test]
    fn every_record_reads_back(kept in any_kept()) {
        let slot = record_slot::encode(&kept).unwrap();
        prop_assert_eq!(record_slot::decode(&slot), Some(kept));
    }

    #[test]
    fn every_tally_entry_reads_back_in_its_own_generation_only(
        generation: u32,
        other: u32,
        index: u8,
        tally in maybe(any_tally()),
    ) {
        let entry = Entry { generation: Generation(generation), index, tally };
        let slot = tally_slot::encode(&entry).unwrap();
        prop_assert_eq!(tally_slot::decode(Generation(generation), &slot), Some(entry));
        prop_assume!(generation != other);
        prop_assert_eq!(tally_slot::decode(Generation(other), &slot), None);
    }

    #[test]
    fn every_checkpoint_reads_back(
        generation in 0..=LAST_GENERATION, state in any_state(), memo in any_memo(),
    ) {
        let checkpoint = Checkpoint { generation: Generation(generation), state, memo };
        let Checkpoint { generation, state, memo } = &checkpoint;
        let block = tally_slot::encode_checkpoint(*generation, state, memo).unwrap();
        prop_assert_eq!(tally_slot::decode_checkpoint(&block), Some(checkpoint));
    }

    /// R4: whatever an entry was for, its record differs in the outcome and
    /// the check value only.
    #[test]
    fn duress_shows_in_the_outcome_and_the_check_value_only(kept in any_kept()) {
        let record = kept.record;
        let with =
            |outcome| record_slot::encode(&Kept { record: under(record, outcome), ..kept }).unwrap();
        let (plain, duress) = (with(Outcome::Plain), with(Outcome::Duress));
        for at in (0..SLOT).filter(|at| *at != 5 && *at < 28) {
            prop_assert_eq!(plain[at], duress[at], "byte {}", at);
        }
        prop_assert_eq!(plain != duress, record.event.outcome().is_some());
    }

    /// What the store builds on: a first word of four bytes or more that has
    /// begun to be programmed does not read blank.
    #[test]
    fn the_first_four_bytes_clear_eight_bits_or_more(
        kept in any_kept(),
        index: u8,
        tally in maybe(any_tally()),
        state in any_state(),
        memo in any_memo(),
    ) {
        let generation = Generation(kept.generation);
        let entry = tally_slot::encode(&Entry { generation, index, tally }).unwrap();
        let checkpoint = tally_slot::encode_checkpoint(generation, &state, &memo).unwrap();
        let record = record_slot::encode(&kept).unwrap();
        for first in [&record[..4], &entry[..4], &checkpoint[..4]] {
            prop_assert!(first.iter().map(|byte| byte.count_zeros()).sum::<u32>() >= 8);
        }
    }

    #[test]
    fn any_bytes_are_a_row_or_none(bytes: [u8; 60]) {
        // No panic, and whatever is read as windows or policy is in bounds.
        let mut take = Take::from(&bytes);
        if let Some((policy, _)) = policy_row::take(&mut take) {
            prop_assert!(policy.check().is_ok());
        }
        let _ = rows::take_holder(&mut Take::from(&bytes)).is_some();
        let _ = rows::take_zone(bytes[0], &mut Take::from(&bytes));
        let _ = rows::take_closures(&mut Take::from(&bytes), &mut Few::new());
        let (mut day, mut special) = (Windows::new(), Windows::new());
        let _ = rows::take_windows(&mut Take::from(&bytes), &mut day);
        let _ = rows::take_special(&mut Take::from(&bytes), &mut special);
        for window in day.iter().chain(&special) {
            prop_assert!(window.from() < Minute::END && window.from() != window.to());
        }
    }

    /// What holds besides for a while is read back with the policy.
    #[test]
    fn a_policy_reads_back_with_what_is_stricter(
        policy in any_policy(), stricter in maybe(any_stricter()),
    ) {
        let mut bytes = [0xFF; 60];
        policy_row::put(&policy, stricter.as_ref(), &mut Put::into(&mut bytes));
        prop_assert_eq!(policy_row::take(&mut Take::from(&bytes)), Some((policy, stricter)));
    }

    /// The check on the policy in flash is the policy's own.
    #[test]
    fn a_policy_out_of_bounds_is_not_read(mut policy in any_policy(), wrong_codes in 11..255u8) {
        policy.wrong_codes = wrong_codes;
        let mut bytes = [0xFF; 60];
        policy_row::put(&policy, None, &mut Put::into(&mut bytes));
        prop_assert_eq!(policy_row::take(&mut Take::from(&bytes)), None);
    }

    /// A row that was written before there was a key reads as the key's default: any
    /// key may be the new one, but for those that bound one another.
    #[test]
    fn what_was_never_written_of_a_policy_is_the_default(policy in any_policy()) {
        let mut whole = [0xFF; 60];
        policy_row::put(&policy, None, &mut Put::into(&mut whole));
        for (key, row) in (0..).zip(&FIGURES) {
            let mut bytes = whole;
            bytes[usize::from(row.at.0) - 4..usize::from(row.at.1) - 4].fill(0xFF);
            let read = policy_row::take(&mut Take::from(&bytes)).map(|(policy, _)| policy);
            prop_assert_eq!(read, policy.with(key, row.default));
        }
    }
}

/// Formats with `settings`, mounts anew and compares all of them.
fn settings_read_back<const WORD: usize, const PAGE: usize>(settings: &Settings) {
    let layout = Layout::smallest(PAGE).unwrap();
    let store = FlashStore::format(erased::<WORD, PAGE>(layout), layout, settings).ok().unwrap();
    let (mut store, found) = FlashStore::mount(store.into_flash(), layout);
    let known = found.known.ok().unwrap();
    assert_eq!(known.policy, settings.policy);
    assert_eq!(known.key.as_bytes(), settings.key.as_bytes());
    let zone = crate::time::Zone::parse(&settings.zone).ok().unwrap();
    assert_eq!(known.zone, zone);
    let pairing = store.pairing().ok().unwrap();
    let both = pairing.as_ref().map(Pairing::key).zip(settings.pairing.as_ref().map(Pairing::key));
    assert_eq!(pairing.is_some(), settings.pairing.is_some());
    assert!(both.is_none_or(|(read, set)| read == set));
    for (n, row) in (0..100u8).zip(&settings.holders) {
        let read = store.holder(number(n)).ok().unwrap();
        assert!(same_holder(read.as_ref(), row.as_ref()), "{n:02}");
    }
    for days in (0..u16::MAX).step_by(997).chain(19_998..20_110) {
        let date = Date::from_days(days);
        for id in TimetableId::ALL {
            assert_eq!(store.day(id, date), Ok(settings.calendar.day(id, date)), "{days}");
        }
    }
    assert_eq!(store.newest(), None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn settings_read_back_whole(parts in any_settings(), geometry in 0..6usize) {
        let settings = settings_of(parts);
        match geometry {
            0 => settings_read_back::<4, 256>(&settings),
            1 => settings_read_back::<8, 512>(&settings),
            2 => settings_read_back::<16, 1_024>(&settings),
            3 => settings_read_back::<32, 2_048>(&settings),
            4 => settings_read_back::<8, 2_048>(&settings),
            _ => settings_read_back::<32, 4_096>(&settings),
        }
    }
}

/// R7: a row that cannot be read is said to be so, never taken for an empty
/// one; every row of the bank, every byte of it.
#[test]
fn a_spoiled_row_is_unreadable_and_spoils_no_other() {
    let layout = Layout::smallest(256).unwrap();
    let flash = formatted::<4, 256>(layout).into_flash();
    for n in 0..100u8 {
        for byte in 0..64 {
            let mut flash = flash.clone();
            flash.content_mut()[(12 + 2 * usize::from(n)) * 32 + byte] ^= 3;
            let (mut store, found) = FlashStore::mount(flash, layout);
            assert!(found.known.is_ok());
            assert!(matches!(store.holder(number(n)), Err(Unreadable)), "{n:02} {byte}");
            let other = number(if n == 1 { 2 } else { 1 });
            assert!(store.holder(other).is_ok_and(|row| row.is_some() == (n != 1)));
        }
    }
    let monday = Date::from_ymd(2027, 3, 1).unwrap();
    let calendar = usize::try_from(layout.calendar(0).first).unwrap() * 8;
    for slot in [0, 56, 72] {
        for byte in 0..32 {
            let mut flash = flash.clone();
            flash.content_mut()[(calendar + slot) * 32 + byte] ^= 0x11;
            let (mut store, found) = FlashStore::mount(flash, layout);
            assert!(found.known.is_ok());
            assert_eq!(store.day(TimetableId::A, monday), Err(Unreadable), "{slot} {byte}");
        }
    }
    for slot in [0, 4, 6, 8] {
        for byte in 0..64 {
            let mut flash = flash.clone();
            flash.content_mut()[slot * 32 + byte] ^= 0x81;
            let (_, found) = FlashStore::mount(flash, layout);
            assert_eq!(found.known.err(), Some(Fault::Settings), "{slot} {byte}");
        }
    }
    // Whether a file waits, and which version is in force, is never guessed.
    for byte in 0..32 {
        let mut flash = flash.clone();
        flash.content_mut()[212 * 32 + byte] ^= 0x81;
        let (_, found) = FlashStore::mount(flash, layout);
        assert_eq!(found.known.err(), Some(Fault::Settings), "{byte}");
    }
}

/// R7: erasing a row is not the same as nobody being enrolled.
#[test]
fn a_row_that_reads_erased_is_unreadable() {
    let layout = Layout::smallest(256).unwrap();
    let mut flash = formatted::<4, 256>(layout).into_flash();
    flash.content_mut()[14 * 32..16 * 32].fill(0xFF);
    let (mut store, _) = FlashStore::mount(flash, layout);
    assert!(matches!(store.holder(number(1)), Err(Unreadable)));
    assert!(matches!(store.holder(number(2)), Ok(None)));
}

/// R7: a row in another's place, or one that an older generation left, is not
/// taken for the one that belongs there.
#[test]
fn a_row_out_of_place_is_unreadable() {
    let layout = Layout::smallest(256).unwrap();
    let flash = formatted::<4, 256>(layout).into_flash();
    let mut moved = flash.clone();
    moved.content_mut().copy_within(14 * 32..16 * 32, 16 * 32);
    let (mut store, _) = FlashStore::mount(moved, layout);
    assert!(matches!(store.holder(number(1)), Ok(Some(_))));
    assert!(matches!(store.holder(number(2)), Err(Unreadable)));

    let mut older = flash;
    let mut row = [0; 64];
    row.copy_from_slice(&older.content()[14 * 32..16 * 32]);
    row[2] = 0;
    seal(&mut row);
    older.content_mut()[14 * 32..16 * 32].copy_from_slice(&row);
    let (mut store, _) = FlashStore::mount(older, layout);
    assert!(matches!(store.holder(number(1)), Err(Unreadable)));
}
