//! Guessing through the real state machine, against closed forms.
//!
//! Source: arithmetic. With `k` tries to a block, a penalty `P` after each, `t` a
//! try and `N` codes of which one is right, tried in order, `k` dividing `N`, the
//! mean time over all codes is `t (N + 1) / 2 + P (N / k - 1) / 2`: for N = 1,000,
//! k = 4, t = 1 s, P = 300 s that is 37,850.5 s. A day that includes its last
//! instant takes 86,400 / 300 + 1 = 289 blocks, 1,156 tries, at t = 0.
//!
//! The policy is for these tests only: the penalty is constant (its cap is its
//! length) and there is no duress code. The lock has no three-digit codes and
//! bars a number after a hundred failures. So the guesser knows the first three
//! of six digits, and the holder, who stands by, reads the status before every
//! 97th try: that takes no time, clears the failures of the number, and comes
//! where the lock's own count is nought anyway.

use emulator::rig::codes::space::Space;
use emulator::world::World;
use lock_core::audit::{Event, Record, Seq};
use lock_core::code::{Code, LockKey, Salt, digest};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::keys::{Digit, Key};
use lock_core::machine::{Machine, PowerUp};
use lock_core::pairing::Pairing;
use lock_core::policy::{DuressCodes, Policy};
use lock_core::port::{
    Bolt, Chip, Contacts, Door, Drive, Effect, Inhibit, Input, Now, Reads, Switch, Then, Turn,
};
use lock_core::recovered::{Known, LastWord, Recovered};
use lock_core::role::Role;
use lock_core::rules::supply::Level;
use lock_core::rules::{Days, Unreadable};
use lock_core::seed::Seed;
use lock_core::settings::FileState;
use lock_core::tally::TallyState;
use lock_core::time::{Date, Seconds, Uptime, Utc, Zone};
use lock_core::timetable::{Day, Follows, TimetableId};

use crate::guessable::USABLE_6;
use crate::lock_of_a_site::{audit, enter, lock};

const PENALTY: u64 = 300;
const BLOCK: u64 = 4;
/// The three digits that the guesser knows.
const KNOWN: &str = "739";

/// Monday 2027-03-01 09:00 UTC.
const START: u32 = 1_803_891_600;

/// What the site of `lock_of_a_site` calls this policy.
const POLICY: &str = "penalty = \"5m\"\npenalty_cap = \"5m\"\nduress = false\n";

/// The holder's row; everything written is durable at once.
struct Paper {
    row: HolderRow,
}

impl Days for Paper {
    fn day(&mut self, _: TimetableId, _: Date) -> Result<Day, Unreadable> {
        Ok(Day::Closed)
    }
}

impl Reads for Paper {
    fn holder(&mut self, number: Number) -> Result<Option<HolderRow>, Unreadable> {
        Ok((number == holder()).then(|| self.row.clone()))
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        Ok(1)
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        Ok(None)
    }

    fn newest_seq(&mut self) -> Option<Seq> {
        None
    }
}

fn holder() -> Number {
    Number::new(12).unwrap()
}

fn key() -> LockKey {
    LockKey::from_bytes([0x5a; LockKey::LEN])
}

/// A machine whose holder has that code; time passes only when told.
struct Lock {
    machine: Machine,
    paper: Paper,
    millis: u64,
    freed: bool,
}

impl Lock {
    fn boot(code: &str) -> Self {
        let salt = Salt::from_bytes([12; Salt::LEN]);
        let digest = digest(&key(), &salt, holder(), &Code::parse(code).unwrap());
        let (role, opens, standing) = (Role::Keyholder, Opens::Yes, Standing::Active);
        let follows = Follows::Always;
        let row =
            HolderRow { role, opens, standing, follows, salt, digest, counter: 0, pending: None };
        let policy = Policy {
            wrong_codes: u8::try_from(BLOCK).unwrap(),
            penalty: Seconds::new(u32::try_from(PENALTY).unwrap()),
            penalty_cap: Seconds::new(u32::try_from(PENALTY).unwrap()),
            duress: DuressCodes::Off,
            ..Policy::DEFAULT
        };
        let found = Recovered {
            known: Ok(Known {
                policy,
                stricter: None,
                enrolled: 1,
                zone: Zone::UTC,
                key: key(),
                file: FileState::default(),
            }),
            tally: TallyState::NEW,
            floor: None,
            newest_outcome: None,
            last_word: LastWord::Shut,
            supply: Level::Good,
            powered_up_twice: false,
        };
        let contacts = Contacts {
            bolt: Bolt::Thrown,
            door: Door::Closed,
            inhibit: Inhibit::Clear,
            switch: Switch::Off,
        };
        let seed = Seed::new([9; Seed::LEN]);
        let power = PowerUp { now: now(0), contacts, seed, built: Utc::MIN };
        let (machine, turn) = Machine::boot(found, power);
        let mut lock = Self { machine, paper: Paper { row }, millis: 0, freed: false };
        lock.follow(turn);
        lock
    }

    fn give(&mut self, input: Input) {
        let turn = self.machine.step(now(self.millis), input, &mut self.paper);
        self.follow(turn);
    }

    fn follow(&mut self, mut turn: Turn) {
        loop {
            self.freed |= turn.effects.contains(&Effect::Drive(Drive::Free));
            let Then::Write(_) = turn.then else { return };
            let stored = Input::Stored(Ok(()));
            turn = self.machine.step(now(self.millis), stored, &mut self.paper);
        }
    }

    fn digits(&mut self, digits: &str) {
        for byte in digits.bytes() {
            self.give(Input::Key(Key::Digit(Digit::new(byte - b'0').unwrap())));
        }
        self.give(Input::Key(Key::Ok));
    }

    fn wait_out(&mut self, penalty_until: Uptime) {
        self.millis = penalty_until.as_millis();
        self.give(Input::Woken);
    }
}

fn now(millis: u64) -> Now {
    let chip = Chip::At(Utc::from_secs(START + u32::try_from(millis / 1_000).unwrap()));
    Now { uptime: Uptime::from_millis(millis), chip }
}

/// Tries all codes in order against `code`, a second each; the seconds until the
/// bolt was free, and the tries.
fn time_until_free(code: u32) -> (u64, u64) {
    let right = format!("{KNOWN}{code:03}");
    let mut lock = Lock::boot(&right);
    for guess in 0..1_000_u64 {
        if let Some(until) = lock.machine.penalty_until() {
            lock.wait_out(until);
        }
        if guess.is_multiple_of(96) && guess > 0 {
            lock.give(Input::Key(Key::Ok));
            lock.give(Input::Key(Key::Digit(Digit::new(2).unwrap())));
            lock.digits(&format!("12{right}"));
        }
        assert!(!lock.freed, "{code} was free before its try");
        lock.millis += 1_000;
        lock.digits(&format!("12{KNOWN}{guess:03}"));
        if lock.freed {
            assert_eq!(guess, u64::from(code), "the wrong code freed the bolt");
            return (lock.millis / 1_000, guess + 1);
        }
    }
    panic!("{code} was never found");
}

/// Check: all thousand codes, each from a fresh lock, half a million tries.
#[test]
fn a_three_digit_code_takes_37850_and_a_half_seconds_on_average() {
    let (low, high) = std::thread::scope(|scope| {
        let part = |codes: std::ops::Range<u32>| {
            scope.spawn(move || codes.map(|code| time_until_free(code).0).collect::<Vec<u64>>())
        };
        // Two threads with about the same work.
        let (low, high) = (part(0..707), part(707..1_000));
        (low.join().unwrap(), high.join().unwrap())
    });
    let times: Vec<u64> = low.into_iter().chain(high).collect();
    assert_eq!(times.len(), 1_000);
    for (place, time) in (0..).zip(&times) {
        assert_eq!(*time, (place + 1) + PENALTY * (place / BLOCK), "code {place}");
    }
    // A thousand times the mean.
    assert_eq!(times.iter().sum::<u64>(), 37_850_500);
    let closed_form_twice = (1_000 + 1) + PENALTY * (1_000 / BLOCK - 1);
    assert_eq!(closed_form_twice, 2 * 37_850 + 1);
}

/// The same guesser at a lock with flash and wires: the same seconds.
#[test]
fn a_whole_lock_takes_as_long_as_its_machine() {
    // What lock_of_a_site enrols for number 12 is 739204.
    let mut world = lock(POLICY, "mon = [\"00:00-24:00\"]\ntue = [\"00:00-24:00\"]", START);
    let begun = world.now();
    for guess in 0..=204 {
        sit_out(&mut world);
        if guess % 96 == 0 && guess > 0 {
            world.press(Key::Ok);
            world.press(Key::Digit(Digit::new(2).unwrap()));
            enter(&mut world, "12739204");
        }
        assert_ne!(world.access(), Some("released"));
        world.run_until(world.now() + 1_000);
        enter(&mut world, &format!("12{KNOWN}{guess:03}"));
    }
    assert_eq!(world.access(), Some("released"));
    assert_eq!((world.now() - begun) / 1_000, time_until_free(204).0);
}

fn sit_out(world: &mut World) {
    while world.in_penalty() {
        let wake = world.next_wake().unwrap();
        world.run_until(wake);
    }
}

/// The seconds at which a lock judged each try of a guesser who never pauses.
fn judged_at(pace: u64, until: u64) -> Vec<u64> {
    let mut world = lock(POLICY, "mon = []", START);
    let begun = world.now();
    let mut judged = vec![];
    let mut newest = audit(&mut world).last().unwrap().0;
    loop {
        sit_out(&mut world);
        world.run_until(world.now() + pace * 1_000);
        let second = (world.now() - begun) / 1_000;
        if second > until {
            return judged;
        }
        // Any code that is not the right one.
        let guess = 100_000 + judged.len();
        enter(&mut world, &format!("12{guess}"));
        let mut records = audit(&mut world);
        records.retain(|(seq, _)| *seq > newest);
        let wrong = |(_, record): &&(_, Record)| matches!(record.event, Event::WrongCode { .. });
        assert_eq!(records.iter().filter(wrong).count(), 1, "at {second} s");
        newest = records.last().unwrap().0;
        judged.push(second);
    }
}

/// Check: a day from its first instant to its last. Each try is another code of a
/// million, so that one of them is right with a chance of 1.156 in a thousand.
#[test]
fn a_day_has_1156_tries_with_its_last_instant_and_1152_without() {
    const DAY: u64 = 86_400;
    let at = judged_at(0, DAY);
    assert_eq!(at.len(), 1_156);
    assert_eq!(at.iter().filter(|second| **second < DAY).count(), 1_152);
    assert_eq!(at.last(), Some(&DAY));
    assert_eq!(judged_at(1, DAY).len(), 1_140);
}

/// The rig's count of usable codes is that of the strings written down in
/// `guessable.rs`.
#[test]
fn the_rig_counts_the_usable_codes_as_the_oracle_does() {
    assert_eq!(Space::counted(6).count(), USABLE_6);
}
