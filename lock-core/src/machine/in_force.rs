//! What is in force of the settings: what the machine keeps in memory of them. Rows stay
//! in the store.

use crate::code::LockKey;
use crate::policy::{Policy, Stricter};
use crate::port::Reads;
use crate::recovered::Recovered;
use crate::rules::Unreadable;
use crate::settings::FileState;
use crate::time::Zone;

/// The region of what is in force. No `Debug`: it holds the key of the digests.
pub(super) struct InForce {
    policy: Policy,
    /// What besides the policy holds for a while.
    stricter: Option<Stricter>,
    zone: Zone,
    key: LockKey,
    /// What is known of timetable files.
    file: FileState,
}

silent!(InForce);

impl InForce {
    /// As a boot found it. The key moves: it is kept once.
    pub(super) fn at_boot(found: &mut Recovered) -> Self {
        let nothing = LockKey::from_bytes([0; LockKey::LEN]);
        match &mut found.known {
            Ok(known) => Self {
                policy: known.policy,
                stricter: known.stricter,
                zone: known.zone,
                key: core::mem::replace(&mut known.key, nothing),
                file: known.file,
            },
            Err(_) => Self {
                policy: Policy::DEFAULT,
                stricter: None,
                zone: Zone::UTC,
                key: nothing,
                file: FileState::NONE,
            },
        }
    }

    pub(super) const fn policy(&self) -> &Policy {
        &self.policy
    }

    pub(super) const fn stricter(&self) -> Option<Stricter> {
        self.stricter
    }

    pub(super) const fn zone(&self) -> &Zone {
        &self.zone
    }

    pub(super) const fn key(&self) -> &LockKey {
        &self.key
    }

    pub(super) const fn file(&self) -> FileState {
        self.file
    }

    /// Everything is as from the factory but the zone; digests are made with this key.
    pub(super) fn begin_anew(&mut self, key: LockKey) {
        self.key = key;
        self.set_policy(Policy::DEFAULT, None);
        self.file = FileState::NONE;
    }

    pub(super) const fn set_policy(&mut self, policy: Policy, stricter: Option<Stricter>) {
        self.policy = policy;
        self.stricter = stricter;
    }

    /// What the settings say is read anew: a file is in force, or waits.
    pub(super) fn read_file_anew(&mut self, reads: &mut impl Reads) -> Result<(), Unreadable> {
        let zone = reads.zone()?;
        self.file = reads.file_state()?;
        self.zone = zone;
        Ok(())
    }
}
