//! What people type into a dialogue, mostly as it should be.

use lock_core::code::{Code, refused};
use lock_core::keys::{Digit, Key};
use lock_core::pairing::LockNumber;
use lock_core::pairing_code::{PairingCode, SECRET_DIGITS};
use lock_core::task::{TASKS_A_PAGE, Task};
use lock_core::time::{Utc, Zone};

use crate::rig::Dice;

/// Whom dialogues are about: holders of the demo site, and some that nobody has.
const NUMBERS: [u8; 10] = [2, 3, 12, 13, 14, 21, 50, 60, 61, 62];

/// Whoever is enrolled anew, mostly.
const NEWCOMERS: [u8; 4] = [12, 60, 61, 62];

/// Values of the policy that are set, as typed, by the places of their keys.
const VALUES: [&[u32]; 13] = [
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
];

/// Keys, in order.
#[derive(Default)]
pub(super) struct Typist(Vec<Key>);

/// Who types, and what they know.
pub(super) struct Knows<'k> {
    /// The time on their watch.
    pub utc: Utc,
    /// The zone of the lock.
    pub zone: &'k Zone,
    /// The code of a number.
    pub code: &'k mut dyn FnMut(u8) -> String,
    /// Who leads the dialogue.
    pub who: u8,
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

    fn number(&mut self, n: u8) {
        self.line(&format!("{n:02}"));
    }

    /// Somebody's number and code.
    fn person(&mut self, n: u8, knows: &mut Knows<'_>) {
        let code = (knows.code)(n);
        self.line(&format!("{n:02}{code}"));
    }

    fn chosen_code(&mut self, number: u8, dice: &mut Dice) {
        let digits = if dice.below(12) == 0 { 7 } else { 6 };
        let code = new_code(number, digits);
        self.line(&code);
        self.line(if dice.below(8) == 0 { "528406" } else { &code });
    }

    /// Everything behind the code of whoever leads the dialogue.
    pub(super) fn answers(&mut self, task: Task, knows: &mut Knows<'_>, dice: &mut Dice) {
        match task {
            Task::HoldShut => {}
            Task::Status => return,
            Task::ChangeCode => self.chosen_code(knows.who, dice),
            Task::Enrol => {
                let number = pick(dice, &NEWCOMERS);
                self.number(number);
                if self.role(dice) {
                    self.chosen_code(number, dice);
                }
            }
            Task::Suspend | Task::Restore | Task::Remove => self.whom(knows, dice),
            Task::ChangeRole => {
                self.number(pick(dice, &NUMBERS));
                self.role(dice);
                self.perhaps(50, knows, dice);
            }
            Task::ChooseTimetable => {
                self.number(pick(dice, &NUMBERS));
                self.choice(pick(dice, &[1, 1, 2, 4, 5]));
            }
            Task::Numbers | Task::Files => {
                self.ok();
                self.0.push(Key::Back);
                return;
            }
            Task::SetClock => self.clock(knows, dice),
            Task::SetPolicy => {
                let key = usize::try_from(dice.below(14)).unwrap_or_default();
                for _ in 0..key / 3 {
                    self.ok();
                }
                self.choice(key % 3 + 1);
                self.line(&pick(dice, VALUES.get(key).unwrap_or(&VALUES[0])).to_string());
            }
            Task::TestAlarm | Task::Reset | Task::WayOut => {}
            Task::Pair => {
                self.person(if knows.who == 50 { 1 } else { 50 }, knows);
                self.pairing(dice);
            }
        }
        self.ok();
    }

    /// Whom it is about; where that is a warden, a steward comes too.
    fn whom(&mut self, knows: &mut Knows<'_>, dice: &mut Dice) {
        let number = pick(dice, &NUMBERS);
        self.number(number);
        if number == 2 {
            self.person(50, knows);
        }
    }

    fn perhaps(&mut self, who: u8, knows: &mut Knows<'_>, dice: &mut Dice) {
        if dice.below(3) == 0 {
            self.person(who, knows);
        }
    }

    /// A role and what it asks for; whether it has a code of its own.
    fn role(&mut self, dice: &mut Dice) -> bool {
        let role = pick(dice, &[1, 2, 3, 3, 3, 4, 5]);
        self.choice(role);
        let opens = match role {
            1 | 2 => {
                let choice = pick(dice, &[1, 2]);
                self.choice(choice);
                choice == 1
            }
            3 | 4 => true,
            _ => false,
        };
        if opens {
            self.choice(pick(dice, &[1, 1, 2, 5]));
        }
        role != 4
    }

    fn clock(&mut self, knows: &mut Knows<'_>, dice: &mut Dice) {
        let by: i64 = pick(dice, &[-120, 60, 60, 120, 240, 7_200, -7_200, 86_400, 100_000]);
        let target = i64::from(knows.utc.as_secs()).saturating_add(by);
        let local = knows.zone.local(Utc::from_secs(u32::try_from(target).unwrap_or_default()));
        let ((year, month, day), (hour, minute, _)) = (local.date.ymd(), local.hms());
        self.line(&format!("{day:02}{month:02}{year:04}"));
        self.line(&format!("{hour:02}{minute:02}"));
        if by.abs() > 300 {
            self.person(1, knows);
        }
    }

    fn pairing(&mut self, dice: &mut Dice) {
        let secret: [u8; SECRET_DIGITS] =
            std::array::from_fn(|_| u8::try_from(dice.below(10)).unwrap_or_default());
        let generation = u32::try_from(1 + dice.below(900)).unwrap_or(1);
        let lock = LockNumber::new(1_001);
        let code = lock.and_then(|lock| PairingCode::new(lock, generation, &secret));
        for group in code.iter().flat_map(PairingCode::groups) {
            let text: String = group.iter().map(|digit| char::from(b'0' + digit)).collect();
            self.line(&text);
        }
    }
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
