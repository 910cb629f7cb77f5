//! From a site file to the settings of one lock.

use lock_core::code::{LockKey, Salt, digest, mac};
use lock_core::holder::{HolderRow, Number};
use lock_core::settings::Settings;

use super::{LockPlan, Site};

/// Sets the salts apart from whatever else a key may make.
const SALT_LABEL: &[u8] = b"salt of a demo code, emulator only";

impl Site {
    /// The settings of `lock` under `key`, with every holder enrolled who has a
    /// demo code; the others are left out, as nobody ever gave them a code.
    ///
    /// **For the emulator only:** salts are derived from key and number, so
    /// that a drill runs the same every time (R10). A lock draws them at
    /// random whenever a code is set.
    #[must_use]
    pub fn settings(&self, lock: &LockPlan, key: [u8; LockKey::LEN]) -> Settings {
        let key = LockKey::from_bytes(key);
        let mut holders = [const { None }; Number::COUNT];
        for demo in &self.demo_codes {
            let person = self.holders.iter().find(|person| person.number == demo.number());
            let (Some(person), Some(code)) = (person, demo.code()) else { continue };
            let salt = salt(&key, person.number);
            let row = HolderRow {
                role: person.role,
                opens: person.opens,
                standing: person.standing,
                follows: person.follows,
                salt,
                digest: digest(&key, &salt, person.number, &code),
                counter: 0,
                pending: None,
            };
            if let Some(slot) = holders.get_mut(person.number.index()) {
                *slot = Some(row);
            }
        }
        Settings {
            pairing: None,
            policy: lock.policy,
            zone: self.zone_rule.clone(),
            key,
            holders,
            calendar: self.calendar.clone(),
        }
    }
}

fn salt(key: &LockKey, number: Number) -> Salt {
    let whole = mac(key.as_bytes(), &[SALT_LABEL, &[number.get()]]);
    let mut salt = [0; Salt::LEN];
    for (to, from) in salt.iter_mut().zip(whole) {
        *to = from;
    }
    Salt::from_bytes(salt)
}

#[cfg(test)]
mod tests {
    use lock_core::code::{Code, Kept, Verdict, judge};
    use lock_core::time::Zone;

    use super::*;

    /// Whoever has a demo code can use it, and nobody else is enrolled; another
    /// key makes other salts and digests.
    #[test]
    fn holders_with_a_demo_code_are_enrolled() {
        let text = include_str!("../../demo/harbour-bakery.toml");
        let text = text.replace("\"13\" = \"918053\"\n", "");
        let site = Site::parse("demo", &text).map_err(|why| why.to_string()).unwrap();
        let lock = site.lock("store").unwrap();
        let settings = site.settings(lock, [7; LockKey::LEN]);
        let other = site.settings(lock, [8; LockKey::LEN]);
        assert_eq!(settings.policy.delay.get(), 600);
        assert_eq!(Zone::parse(&settings.zone), Ok(site.zone));
        for (number, row) in (0_u8..).zip(&settings.holders) {
            let number = Number::new(number).unwrap();
            let demo = site.demo_codes.iter().find(|demo| demo.number() == number);
            assert_eq!(row.is_some(), demo.is_some(), "{number:?}");
            let (Some(row), Some(demo)) = (row, demo) else { continue };
            let kept = Kept { salt: &row.salt, digest: &row.digest, enrolled: true };
            let verdict = |code: &Code| judge(&settings.key, number, kept, code);
            assert_eq!(verdict(&demo.code().unwrap()), Verdict::Right);
            assert_eq!(verdict(&Code::parse("102938").unwrap()), Verdict::Wrong);
            let theirs = other.holders[number.index()].as_ref().unwrap();
            assert!(theirs.salt != row.salt && theirs.digest != row.digest);
        }
        let enrolled = settings.holders.iter().flatten().count();
        assert_eq!((enrolled, site.holders.len()), (7, 8));
    }
}
