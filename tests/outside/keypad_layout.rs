//! The keypad against ITU-T E.161 (from memory): three columns and four rows,
//! 1 2 3 on top, the zero below the eight.

use lock_core::keys::Key;

/// The digits of ITU-T E.161 as a person reads them; the places beside the zero
/// hold no digit.
const E161: [&str; 4] = ["123", "456", "789", " 0 "];

#[test]
fn digits_lie_as_e161_has_them() {
    let read = Key::LAYOUT.map(|row| {
        row.iter()
            .map(|key| match key {
                Key::Digit(d) => char::from_digit(d.get().into(), 10).unwrap(),
                Key::Back | Key::Ok => ' ',
            })
            .collect::<String>()
    });
    assert_eq!(read, E161);
}

#[test]
fn each_of_the_twelve_keys_stands_once() {
    let keys = Key::LAYOUT.concat();
    assert_eq!(keys.len(), 12);
    for (place, key) in keys.iter().enumerate() {
        let first = keys.iter().position(|k| k == key);
        assert_eq!(first, Some(place), "key {place} stands twice");
    }
}
