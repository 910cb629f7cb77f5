//! Each value by its place, its number and its bounds.

use super::*;

#[test]
fn the_defaults_are_those_of_the_table_and_within_bounds() {
    assert_eq!(Policy::DEFAULT.values(), TABLE.map(|row| row.default));
    assert_eq!(Policy::DEFAULT.check(), Ok(()));
}

#[test]
fn a_number_names_one_place() {
    for (place, key) in (0..).zip(KEYS) {
        assert_eq!(number_of(place).and_then(place_of), Some(place), "{key}");
    }
    let unknown = (0..=u8::MAX).filter(|number| place_of(*number).is_none());
    assert_eq!(unknown.count(), 256 - KEYS.len());
    assert_eq!((number_of(255), bounds(255)), (None, None));
}

#[test]
fn what_a_lock_has_of_a_row_is_the_row_s() {
    for (place, row) in (0..).zip(TABLE) {
        assert_eq!((number_of(place), KEYS[usize::from(place)]), (Some(row.number), row.key));
        assert_eq!(bounds(place), Some((row.least, row.most)), "{}", row.key);
    }
}

#[test]
fn a_value_is_set_and_read_by_its_place() {
    for key in 0..=u8::MAX {
        let within = usize::from(key) < KEYS.len();
        assert_eq!(Policy::DEFAULT.value(key).is_some(), within, "{key}");
        for value in 0..=10_000 {
            if let Some(new) = Policy::DEFAULT.with(key, value) {
                assert_eq!((new.value(key), new.check()), (Some(value), Ok(())), "{key}");
                let others = (0..u8::MAX).filter(|other| *other != key);
                assert!(others.into_iter().all(|o| new.value(o) == Policy::DEFAULT.value(o)));
            }
        }
    }
}

#[test]
fn a_cap_below_the_penalty_is_out_of_bounds() {
    let policy = Policy { penalty_cap: Seconds::new(299), ..Policy::DEFAULT };
    let error = OutOfBounds { key: PENALTY_CAP, least: 300, most: 86_400 };
    assert_eq!(policy.check(), Err(error));
}

#[test]
fn a_spent_supply_keeps_its_distance_from_a_low_one() {
    let policy = Policy { supply_spent: Millivolts::new(4_601), ..Policy::DEFAULT };
    assert_eq!(policy.check().map_err(|e| e.most), Err(4_600));
}
