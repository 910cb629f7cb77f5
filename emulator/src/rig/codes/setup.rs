//! The lock that is attacked, and who holds codes for it.

use lock_core::code::one_time::{Digits, LOOK_AHEAD};
use lock_core::code::{Code, LockKey, Salt, digest};
use lock_core::holder::{HolderRow, Number, Standing};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::policy::Policy;
use lock_core::role::Role;
use lock_core::settings::Settings;
use lock_core::store::FormatError;
use lock_core::time::Utc;

use super::couriers::Courier;
use super::space::{Space, raised};
use crate::rig::Dice;
use crate::site::{LockPlan, Site};
use crate::world::World;

/// The key of the attacked lock. Of no use anywhere else.
const KEY: [u8; LockKey::LEN] = *b"a lock under attack, no real key";
/// The key that it shares with its laptop. Of no use anywhere else.
const PAIRING: [u8; Pairing::LEN] = *b"emulated pairing, no real key!!!";

/// Somebody who holds a code.
struct Holder {
    number: Number,
    role: Role,
    may_open: bool,
    codes: Codes,
}

/// Which entries open for somebody.
enum Codes {
    /// One chosen code, and its duress variant.
    Chosen(u32),
    /// One-time codes.
    OneTime(Courier),
}

/// What is attacked: a lock of a site, with codes of our own for its holders, so
/// that a real site file, which holds none, can be tried as well.
pub struct Setup {
    site: Site,
    lock: LockPlan,
    space: Space,
    /// The codes that couriers may be given, where there are couriers.
    one_time: Option<Space>,
    start: Utc,
    pace: u64,
    holders: Vec<Holder>,
    target: Number,
    insider: Number,
}

/// Why a site cannot be attacked.
#[derive(Clone, Copy, PartialEq, Eq, Debug, thiserror::Error)]
pub enum NoTarget {
    /// Nobody of that number holds a code and may open.
    #[error("nobody of that number may open this lock")]
    Number,
    /// Nobody at all may.
    #[error("nobody may open this lock")]
    Nobody,
    /// The insider must be somebody else.
    #[error("the site has one active holder only: there is no insider")]
    Alone,
}

impl Setup {
    /// A lock of `site`, powered up at `start`, with codes of as many digits as
    /// its policy says. Guessed at is `target`'s code, by default the first
    /// keyholder's who may open; each try takes `pace` seconds of typing.
    ///
    /// # Errors
    /// [`NoTarget`] if there is nobody to attack, or nobody else.
    pub fn new(
        site: Site,
        lock: LockPlan,
        target: Option<Number>,
        start: Utc,
        pace: u64,
    ) -> Result<Self, NoTarget> {
        let space = Space::counted(lock.policy.code_digits);
        let holders: Vec<Holder> = site
            .holders
            .iter()
            .map(|person| Holder {
                number: person.number,
                role: person.role,
                may_open: person.may_open(),
                codes: match person.role {
                    Role::Courier => {
                        let key = pairing(&lock).courier(person.number.get());
                        Codes::OneTime(Courier::new(key))
                    }
                    Role::Warden | Role::Deputy | Role::Keyholder | Role::Steward => {
                        Codes::Chosen(draw(&space, person.number))
                    }
                },
            })
            .collect();
        let couriers = holders.iter().any(|holder| holder.role == Role::Courier);
        let one_time = couriers.then(|| Space::counted(Digits::COURIER.get()));
        let openers = || holders.iter().filter(|holder| holder.may_open);
        let found = match target {
            Some(number) => openers().find(|holder| holder.number == number),
            None => {
                openers().find(|holder| holder.role == Role::Keyholder).or_else(|| openers().next())
            }
        };
        let missing = if target.is_some() { NoTarget::Number } else { NoTarget::Nobody };
        let target = found.ok_or(missing)?.number;
        let active = |person: &&crate::site::Person| {
            person.standing == Standing::Active && person.number != target
        };
        let insider = site.holders.iter().find(active).ok_or(NoTarget::Alone)?.number;
        Ok(Self { site, lock, space, one_time, start, pace, holders, target, insider })
    }

    /// The lock, commissioned and powered up.
    ///
    /// # Errors
    /// If its settings cannot be stored.
    pub fn world(&self) -> Result<World, FormatError> {
        World::commission(&self.settings(), self.start)
    }

    fn settings(&self) -> Settings {
        let mut settings = self.site.settings(&self.lock, KEY);
        if self.one_time.is_some() {
            settings.pairing = Some(pairing(&self.lock));
        }
        for person in &self.site.holders {
            // What a courier's row keeps of a chosen code is never asked for.
            let code = self.code(person.number).unwrap_or_else(|| draw(&self.space, person.number));
            let Some(code) = Code::parse(&self.space.text(code)) else { continue };
            let salt = Salt::from_bytes([person.number.get(); Salt::LEN]);
            let row = HolderRow {
                role: person.role,
                opens: person.opens,
                standing: person.standing,
                follows: person.follows,
                digest: digest(&settings.key, &salt, person.number, &code),
                salt,
                counter: 0,
                opens_from: None,
            };
            if let Some(slot) = settings.holders.get_mut(person.number.index()) {
                *slot = Some(row);
            }
        }
        settings
    }

    /// The policy of the lock.
    #[must_use]
    pub const fn policy(&self) -> &Policy {
        &self.lock.policy
    }

    /// The site's name and the lock's id.
    #[must_use]
    pub fn named(&self) -> (&str, &str) {
        (&self.site.name, &self.lock.id)
    }

    /// The codes that somebody may choose.
    #[must_use]
    pub const fn space(&self) -> &Space {
        &self.space
    }

    /// The codes that may be those of that number.
    #[must_use]
    pub fn space_of(&self, number: Number) -> &Space {
        match (self.courier(number), &self.one_time) {
            (Some(_), Some(one_time)) => one_time,
            _ => &self.space,
        }
    }

    /// Of how many codes one entry may be on that number: a courier's lock looks at
    /// several counters at once.
    #[must_use]
    pub fn counters(&self, number: Number) -> u64 {
        let ahead = u64::try_from(LOOK_AHEAD).unwrap_or(u64::MAX);
        self.courier(number).map_or(1, |_| ahead)
    }

    /// How many codes of that number are equally likely: chosen ones are usable, one-time
    /// codes come from a counter, and those that are not usable are left out.
    #[must_use]
    pub fn codes(&self, number: Number) -> u64 {
        let space = self.space_of(number);
        self.courier(number).map_or(space.count(), |_| space.size().into())
    }

    /// Seconds of typing that a try takes.
    #[must_use]
    pub const fn pace(&self) -> u64 {
        self.pace
    }

    /// Whose code is guessed at.
    #[must_use]
    pub const fn target(&self) -> Number {
        self.target
    }

    /// Somebody else who holds a code and is active.
    #[must_use]
    pub const fn insider(&self) -> Number {
        self.insider
    }

    /// Everybody who may open.
    #[must_use]
    pub fn openers(&self) -> Vec<Number> {
        let openers = self.holders.iter().filter(|holder| holder.may_open);
        openers.map(|holder| holder.number).collect()
    }

    /// The code that somebody of that number chose.
    #[must_use]
    pub fn code(&self, number: Number) -> Option<u32> {
        match &self.holder(number)?.codes {
            Codes::Chosen(code) => Some(*code),
            Codes::OneTime(_) => None,
        }
    }

    /// The one-time codes of that number.
    #[must_use]
    pub fn courier(&self, number: Number) -> Option<&Courier> {
        match &self.holder(number)?.codes {
            Codes::Chosen(_) => None,
            Codes::OneTime(courier) => Some(courier),
        }
    }

    /// Whether that entry is right on that number, or may come to be.
    #[must_use]
    pub fn may_be_right(&self, number: Number, entry: u32) -> bool {
        match self.holder(number).map(|holder| &holder.codes) {
            None => false,
            Some(Codes::Chosen(code)) => *code == entry || raised(*code) == entry,
            Some(Codes::OneTime(courier)) => courier.may_be_right(entry),
        }
    }

    /// A code that is nobody's and nobody's variant.
    #[must_use]
    pub fn never_right(&self) -> u32 {
        let taken =
            |code: &u32| self.holders.iter().any(|holder| self.may_be_right(holder.number, *code));
        (0..self.space.size()).find(|code| !taken(code)).unwrap_or_default()
    }

    /// The role of that number, if somebody holds it.
    #[must_use]
    pub fn role(&self, number: Number) -> Option<Role> {
        self.holder(number).map(|holder| holder.role)
    }

    fn holder(&self, number: Number) -> Option<&Holder> {
        self.holders.iter().find(|holder| holder.number == number)
    }
}

/// The key that lock and laptop share.
fn pairing(lock: &LockPlan) -> Pairing {
    let number = u16::try_from(lock.number).ok().and_then(LockNumber::new);
    Pairing::new(number.unwrap_or(LockNumber::FIRST), 1, PAIRING)
}

/// A code for that number that the lock would take.
fn draw(space: &Space, number: Number) -> u32 {
    let mut dice = Dice::of(0, number.get().into());
    loop {
        let code = u32::try_from(dice.below(space.size().into())).unwrap_or_default();
        if space.is_usable(code) {
            return code;
        }
    }
}
