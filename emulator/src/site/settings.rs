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
            };
            if let Some(slot) = holders.get_mut(person.number.index()) {
                *slot = Some(row);
            }
        }
        Settings {
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
