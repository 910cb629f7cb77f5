//! What people type into a dialogue, mostly as it should be.

use lock_core::code::{Code, refused};
use lock_core::keys::{Digit, Key};
use lock_core::pairing::LockNumber;
use lock_core::pairing_code::{PairingCode, SECRET_DIGITS};
use lock_core::screen::{Field, Form, Topic, Whom};
use lock_core::task::{TASKS_A_PAGE, Task};
use lock_core::time::{Utc, Zone};

use crate::rig::Dice;

/// Whom dialogues are about: holders of the demo site, and some that nobody has.
const NUMBERS: [u8; 10] = [2, 3, 12, 13, 14, 21, 50, 60, 61, 62];

/// Whoever is enrolled anew, mostly.
const NEWCOMERS: [u8; 4] = [12, 60, 61, 62];

/// Values of the policy that are set, as typed, by the places of their keys.
const VALUES: [&[u32]; 14] = [
    &[6, 6, 6, 7],
    &[3, 4, 5],
    &[1, 5],
    &[5, 40],
    &[0, 1, 10, 100],
    &[1, 3],
    &[30, 60],
    &[30, 60],
    &[6, 10],
    &[4_800, 5_000],
    &[4_200, 4_000],
    &[1, 2],
    &[0, 1],
    &[1, 2, 3],
];

/// Keys, in order.
#[derive(Default)]
pub(super) struct Typist(Vec<Key>);

/// Somebody who leads a dialogue, and what they have in mind.
pub(super) struct Leader<'k> {
    /// Who.
    who: u8,
    /// Whom it is about.
    number: u8,
    /// The code that they choose.
    code: String,
    /// What the clock is to say.
    target: Utc,
    /// The zone of the lock.
    zone: &'k Zone,
    /// Which value of the policy is to be set.
    key: usize,
    /// The groups of the pairing code.
    groups: Vec<String>,
}

/// The code that somebody takes when they choose one: always the same for a
/// number, and never one that is refused.
pub(super) fn new_code(number: u8, digits: usize) -> String {
    let most = 10_u64.pow(u32::try_from(digits).unwrap_or(6));
    let tried = (0..).map(|n: u64| {
        let mixed = (u64::from(number) + 1) * 7_919_317 + n * 104_729_003;
        format!("{:0digits$}", mixed % most)
    });
    let mut usable = tried.filter(|text| Code::parse(text).is_some_and(|c| refused(&c).is_none()));
    usable.next().unwrap_or_default()
}

impl Typist {
    /// From rest to the question who it is, for `task`.
    pub(super) fn pick(task: Task) -> Self {
        let place = Task::ALL.iter().position(|other| *other == task).unwrap_or_default();
        let mut typist = Self::default();
        for _ in 0..=place / TASKS_A_PAGE {
            typist.ok();
        }
        typist.choice(place % TASKS_A_PAGE + 1);
        typist
    }

    /// The keys.
    pub(super) fn keys(self) -> Vec<Key> {
        self.0
    }

    fn ok(&mut self) {
        self.0.push(Key::Ok);
    }

    fn digits(&mut self, text: &str) {
        let digits = text.bytes().filter_map(|byte| Digit::new(byte.wrapping_sub(b'0')));
        self.0.extend(digits.map(Key::Digit));
    }

    fn choice(&mut self, n: usize) {
        self.digits(&n.to_string());
    }

    /// Digits, and *OK*.
    pub(super) fn line(&mut self, text: &str) {
        self.digits(text);
        self.ok();
    }
}

impl<'k> Leader<'k> {
    /// Who has `task` in mind at `utc`, on their own watch.
    pub(super) fn of(who: u8, task: Task, utc: Utc, zone: &'k Zone, dice: &mut Dice) -> Self {
        let number = match task {
            Task::Enrol => pick(dice, &NEWCOMERS),
            Task::ChangeCode => who,
            Task::Restore => pick(dice, &[13, 14, 14]),
            _ => pick(dice, &NUMBERS),
        };
        let code = new_code(number, if dice.below(12) == 0 { 7 } else { 6 });
        let by: i64 = pick(dice, &[-120, 60, 60, 120, 240, 7_200, -7_200, 86_400, 100_000]);
        let target = i64::from(utc.as_secs()).saturating_add(by);
        let target = Utc::from_secs(u32::try_from(target).unwrap_or_default());
        let key = usize::try_from(dice.below(VALUES.len() as u64)).unwrap_or_default();
        let groups = pairing(dice);
        Self { who, number, code, target, zone, key, groups }
    }

    /// What they type at what the lock shows; `None` where they are done.
    pub(super) fn answer(
        &self,
        form: &Form,
        code: &mut dyn FnMut(u8) -> String,
        dice: &mut Dice,
    ) -> Option<Vec<Key>> {
        let mut typist = Typist::default();
        match form {
            // Who does not get on gives up.
            Form::Ask { trouble: Some(_), .. } if dice.below(3) == 0 => {
                typist.0.extend([Key::Back, Key::Back]);
            }
            Form::Ask { field, .. } => self.field(*field, &mut typist, dice),
            Form::Second { whom, topic, .. } => {
                if *topic == Topic::Task(Task::WayOut) && dice.below(2) == 0 {
                    typist.ok();
                } else {
                    let second = self.second(*whom, dice);
                    typist.line(&format!("{second:02}{}", code(second)));
                }
            }
            Form::Confirm { .. } => typist.ok(),
            Form::Numbers { .. } | Form::Files => {
                typist.ok();
                typist.0.push(Key::Back);
            }
            Form::Done { .. } => return None,
        }
        Some(typist.0)
    }

    fn field(&self, field: Field, typist: &mut Typist, dice: &mut Dice) {
        let local = self.zone.local(self.target);
        let ((year, month, day), (hour, minute, _)) = (local.date.ymd(), local.hms());
        match field {
            Field::Number => typist.line(&format!("{:02}", self.number)),
            Field::Role => typist.choice(pick(dice, &[1, 2, 3, 3, 3, 4, 5])),
            Field::Opens | Field::Which => typist.choice(pick(dice, &[1, 2])),
            Field::Timetable => typist.choice(pick(dice, &[1, 1, 2, 4, 5])),
            Field::NewCode => typist.line(&self.code),
            Field::Again => {
                typist.line(if dice.below(8) == 0 { "528406" } else { &self.code });
            }
            Field::Date => typist.line(&format!("{day:02}{month:02}{year:04}")),
            Field::Time => typist.line(&format!("{hour:02}{minute:02}")),
            Field::Key { page } if usize::from(page) == self.key / 3 => {
                typist.choice(self.key % 3 + 1);
            }
            Field::Key { .. } => typist.ok(),
            Field::Value { key } => {
                let values = VALUES.get(usize::from(key)).unwrap_or(&VALUES[0]);
                typist.line(&pick(dice, values).to_string());
            }
            Field::Group { index } => {
                typist.line(self.groups.get(usize::from(index)).map_or("", String::as_str));
            }
        }
    }

    /// Who comes along: mostly one of those who are asked for.
    fn second(&self, whom: Whom, dice: &mut Dice) -> u8 {
        if dice.below(6) == 0 {
            return pick(dice, &NUMBERS);
        }
        let asked: &[u8] = match whom {
            Whom::Warden => &[1, 2],
            Whom::Steward => &[50],
            Whom::Privileged => &[50, 1, 2],
        };
        let mut others = asked.iter().filter(|n| ![self.who, self.number].contains(n));
        others.next().copied().unwrap_or(1)
    }
}

/// The groups of a pairing code.
fn pairing(dice: &mut Dice) -> Vec<String> {
    let secret: [u8; SECRET_DIGITS] =
        std::array::from_fn(|_| u8::try_from(dice.below(10)).unwrap_or_default());
    let generation = u32::try_from(1 + dice.below(900)).unwrap_or(1);
    let lock = LockNumber::new(1_001);
    let code = lock.and_then(|lock| PairingCode::new(lock, generation, &secret));
    let text = |group: &[u8]| group.iter().map(|digit| char::from(b'0' + digit)).collect();
    code.iter().flat_map(PairingCode::groups).map(|group| text(&group[..])).collect()
}

/// One of a few, of which there is one at least.
fn pick<T: Copy>(dice: &mut Dice, choices: &[T]) -> T {
    dice.pick(choices).copied().unwrap_or(choices[0])
}

/// What dialogues make of it.
#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chosen_codes_differ_and_are_taken() {
        let codes: Vec<String> = (0..100).map(|number| new_code(number, 6)).collect();
        let mut apart = codes.clone();
        apart.sort();
        apart.dedup();
        assert!(apart.len() > 95, "{}", apart.len());
        assert!(codes.iter().all(|code| code.len() == 6));
    }
}
