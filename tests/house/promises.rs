//! Rules that only a whole machine can keep, held on one whose store is paper:
//! every write succeeds, two people are enrolled, nobody follows a timetable.
//! Source: the rules as numbered in `lock-core/src/lib.rs`, and sections 3, 6
//! and 9 of docs/behaviour.md.

use lock_core::audit::{Event, Outcome, Record, Refusal, Seq};
use lock_core::code::{Code, LockKey, Salt, digest};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::keys::{Digit, Key};
use lock_core::machine::{Machine, PowerUp};
use lock_core::pairing::Pairing;
use lock_core::policy::{Millivolts, Policy};
use lock_core::port::{
    Alarm, Bolt, Chip, Contacts, Door, Drive, Effect, Inhibit, Input, Now, Reads, Sound, Switch,
    Then, Turn, Write,
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
use proptest::prelude::*;

const KEY: [u8; LockKey::LEN] = [0x5a; LockKey::LEN];

/// Tomasz 12 and Maeve 01, with their codes.
const ENROLLED: [(u8, &str, Role); 2] =
    [(12, "739204", Role::Keyholder), (1, "480317", Role::Warden)];

struct Paper;

impl Days for Paper {
    fn day(&mut self, _: TimetableId, _: Date) -> Result<Day, Unreadable> {
        Ok(Day::Closed)
    }
}

impl Reads for Paper {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        let found = ENROLLED.iter().find(|(number, ..)| *number == n.get());
        Ok(found.map(|(number, code, role)| {
            let salt = Salt::from_bytes([*number; Salt::LEN]);
            let code = Code::parse(code).unwrap();
            let digest = digest(&LockKey::from_bytes(KEY), &salt, n, &code);
            let (opens, standing) = (Opens::Yes, Standing::Active);
            let follows = Follows::Always;
            HolderRow {
                role: *role,
                opens,
                standing,
                follows,
                salt,
                digest,
                counter: 0,
                pending: None,
            }
        }))
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

/// A machine and the turns that it made.
struct Lock {
    machine: Machine,
    millis: u64,
    turns: Vec<Turn>,
}

impl Lock {
    fn boot(delay: Seconds) -> Self {
        let known = Known {
            policy: Policy { delay, ..Policy::DEFAULT },
            stricter: None,
            enrolled: 1,
            zone: Zone::UTC,
            key: LockKey::from_bytes(KEY),
            file: FileState::default(),
        };
        let found = Recovered {
            known: Ok(known),
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
        let built = Utc::from_secs(1_803_000_000);
        let power_up = PowerUp { now: now(0), contacts, seed, built };
        let (machine, turn) = Machine::boot(found, power_up);
        let mut lock = Self { machine, millis: 0, turns: vec![turn] };
        lock.settle();
        lock
    }

    /// One input, and all writes that it leads to.
    fn give(&mut self, input: Input) {
        self.turns.push(self.machine.step(now(self.millis), input, &mut Paper));
        self.settle();
    }

    fn settle(&mut self) {
        while let Some(Turn { then: Then::Write(_), .. }) = self.turns.last() {
            let stored = Input::Stored(Ok(()));
            self.turns.push(self.machine.step(now(self.millis), stored, &mut Paper));
        }
    }

    fn type_keys(&mut self, keys: &str) {
        for key in keys.chars() {
            self.give(Input::Key(match key {
                'k' => Key::Ok,
                'b' => Key::Back,
                digit => {
                    let digit = digit.to_digit(10).unwrap().try_into().unwrap();
                    Key::Digit(Digit::new(digit).unwrap())
                }
            }));
        }
    }

    fn wait(&mut self, millis: u64) {
        self.millis += millis;
        self.give(Input::Woken);
    }

    fn effects(&self) -> impl Iterator<Item = Effect> {
        self.turns.iter().flat_map(|turn| turn.effects.iter().copied())
    }

    fn records(&self) -> impl Iterator<Item = Event> {
        self.turns.iter().filter_map(|turn| match turn.then {
            Then::Write(Write::Record(record) | Write::Edit(record)) => Some(record.event),
            Then::Write(Write::Tally(_)) | Then::Sleep(_) => None,
        })
    }
}

fn now(millis: u64) -> Now {
    let seconds = u32::try_from(millis / 1_000).unwrap();
    let chip = Chip::At(Utc::from_secs(1_804_000_000 + seconds));
    Now { uptime: Uptime::from_millis(millis), chip }
}

/// R8: what a spent supply could not finish is not started; a low one warns;
/// what went down comes back only 200 mV higher. Each row: the measurements
/// in turn, whether a code opens then, and how that sounds.
#[test]
fn a_spent_supply_starts_no_release() {
    let cases: [(&[u16], Option<Sound>); 9] = [
        (&[6_300], Some(Sound::Accepted)),
        (&[4_800], Some(Sound::Accepted)),
        (&[4_799], Some(Sound::Warning)),
        (&[4_200], Some(Sound::Warning)),
        (&[4_199], None),
        (&[4_199, 4_399], None),
        (&[4_199, 4_400], Some(Sound::Warning)),
        (&[4_199, 4_999], Some(Sound::Warning)),
        (&[4_199, 5_000], Some(Sound::Accepted)),
    ];
    for (measured, opens) in cases {
        let mut lock = Lock::boot(Seconds::ZERO);
        for millivolts in measured {
            lock.give(Input::Supply(Millivolts::new(*millivolts)));
        }
        lock.turns.clear();
        lock.type_keys("12739204k");
        let freed = lock.effects().any(|effect| effect == Effect::Drive(Drive::Free));
        assert_eq!(freed, opens.is_some(), "{measured:?} mV");
        let sounded = opens.unwrap_or(Sound::Refused);
        let sound = lock.effects().filter(|effect| matches!(effect, Effect::Sound(_))).last();
        assert_eq!(sound, Some(Effect::Sound(sounded)), "{measured:?} mV");
        let refused = lock.records().any(|event| match event {
            Event::Refused { why, .. } => why == Refusal::Supply,
            _ => false,
        });
        assert_eq!(refused, opens.is_none(), "{measured:?} mV");
    }
}

/// What differs where a duress code was used, made the same; the alarm line
/// left out.
fn masked(turns: &[Turn]) -> Vec<Turn> {
    let mut turns = turns.to_vec();
    for turn in &mut turns {
        turn.effects.retain(|effect| !matches!(effect, Effect::Alarm(_)));
        let Then::Write(Write::Record(Record { event, .. })) = &mut turn.then else { continue };
        if let Event::Released { outcome, .. }
        | Event::DelayStarted { outcome, .. }
        | Event::FirstOfTwo { outcome, .. }
        | Event::Refused { outcome, .. }
        | Event::Asked { outcome, .. }
        | Event::Status { outcome, .. } = event
        {
            *outcome = Outcome::Plain;
        }
    }
    turns
}

/// What somebody does with a code.
type Story = fn(&mut Lock, &str);

/// A delay in seconds, and what is done: opening with and without a delay, drawing the
/// bolt; the list; a refusal; in a penalty.
fn stories() -> Vec<(u32, Story)> {
    vec![
        (0, |lock, code| {
            lock.type_keys(&format!("12{code}k"));
            lock.give(Input::Bolt(Bolt::Drawn));
            lock.wait(70_000);
            lock.give(Input::Bolt(Bolt::Thrown));
        }),
        (0, |lock, code| {
            lock.type_keys(&format!("12{code}k"));
            lock.wait(6_000);
            lock.wait(54_000);
        }),
        (60, |lock, code| {
            lock.type_keys(&format!("12{code}k"));
            lock.wait(60_000);
            lock.type_keys("01480317k");
            lock.type_keys(&format!("12{code}k"));
        }),
        (0, |lock, code| {
            lock.type_keys(&format!("k212{code}k"));
            lock.type_keys(&format!("k112{code}kk"));
        }),
        (0, |lock, code| {
            lock.give(Input::Inhibit(Inhibit::Set));
            lock.type_keys(&format!("12{code}k"));
        }),
        (0, |lock, code| {
            for _ in 0..4 {
                lock.type_keys("33111111k");
            }
            for _ in 0..10 {
                lock.type_keys(&format!("12{code}k"));
            }
            lock.wait(300_000);
            lock.type_keys(&format!("12{code}k"));
        }),
    ]
}

/// R4: turn by turn, screens, sounds, drive, wake-ups and writes are those of
/// the plain code; only the outcome field and the alarm line tell.
#[test]
fn a_duress_code_is_seen_in_the_alarm_line_and_the_outcome_only() {
    for (nth, (delay, story)) in stories().into_iter().enumerate() {
        let [plain, duress] = ["739204", "739205"].map(|code| {
            let mut lock = Lock::boot(Seconds::new(delay));
            story(&mut lock, code);
            lock
        });
        assert_eq!(masked(&plain.turns), masked(&duress.turns), "story {nth}");
        let raised = Effect::Alarm(Alarm::Duress);
        assert!(!plain.effects().any(|effect| effect == raised), "story {nth}");
        assert!(duress.effects().any(|effect| effect == raised), "story {nth}");
        let told = |lock: &Lock| lock.records().any(|e| e.outcome() == Some(Outcome::Duress));
        assert!(told(&duress) && !told(&plain), "story {nth}");
    }
}

#[derive(Clone, Debug)]
enum Done {
    Keys(String),
    Wait(u64),
    Bolt(Bolt),
    Inhibit(Inhibit),
    Supply(u16),
}

const TYPED: [&str; 8] = ["12739204k", "12739205k", "01480317k", "33111111k", "k1", "k2", "b", "7"];

fn done() -> impl Strategy<Value = Done> {
    prop_oneof![
        4 => proptest::sample::select(&TYPED).prop_map(|keys| Done::Keys(keys.to_owned())),
        2 => (0..400_000_u64).prop_map(Done::Wait),
        1 => prop_oneof![Just(Bolt::Drawn), Just(Bolt::Thrown)].prop_map(Done::Bolt),
        1 => prop_oneof![Just(Inhibit::Set), Just(Inhibit::Clear)].prop_map(Done::Inhibit),
        1 => (4_000..6_500_u16).prop_map(Done::Supply),
    ]
}

fn turns_of(story: &[Done]) -> Vec<Turn> {
    let mut lock = Lock::boot(Seconds::new(60));
    for done in story {
        match done {
            Done::Keys(keys) => lock.type_keys(keys),
            Done::Wait(millis) => lock.wait(*millis),
            Done::Bolt(bolt) => lock.give(Input::Bolt(*bolt)),
            Done::Inhibit(inhibit) => lock.give(Input::Inhibit(*inhibit)),
            Done::Supply(millivolts) => lock.give(Input::Supply(Millivolts::new(*millivolts))),
        }
    }
    lock.turns
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// R10: what came before, in the same process, and which thread it is make
    /// no difference: nothing is kept outside the machine.
    #[test]
    fn the_same_inputs_have_the_same_outputs(story in prop::collection::vec(done(), 1..30)) {
        let once = turns_of(&story);
        turns_of(&[Done::Keys("33111111k".to_owned()), Done::Bolt(Bolt::Drawn)]);
        let again = std::thread::spawn(move || turns_of(&story)).join().unwrap();
        prop_assert_eq!(once, again);
    }
}
