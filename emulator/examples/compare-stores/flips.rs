//! Cells that fail at rest: each bit of a used image flipped, then two boots.

use std::panic::{AssertUnwindSafe, catch_unwind};

use emulator::rig::Dice;
use emulator::rig::store::chip::Cells;

use crate::judge::{Expected, Seen};
use crate::life::{self, Ask, Numbers};
use crate::subject::{Fault, KEYS, Listed, Shape, Subject};

/// Events of the life that leaves the image.
const LIVED: u64 = 300;

/// What flipped bits did, in flips.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct Harm {
    pub(crate) bits: u64,
    /// The list begins later than was promised, and is whole from there on.
    pub(crate) oldest_early: u64,
    /// A record is gone from the middle or the end of the list, and nothing says
    /// so.
    pub(crate) lost_silently: u64,
    /// Records are gone from anywhere, and a call failed or the list says so.
    pub(crate) lost_and_said: u64,
    /// A record is listed that was not there.
    pub(crate) invented: u64,
    /// A setting reads otherwise or as never set, and nothing says so.
    pub(crate) setting_changed: u64,
    /// A setting cannot be read, which is said.
    pub(crate) setting_refused: u64,
}

impl Harm {
    pub(crate) fn add(&mut self, other: &Self) {
        let Self {
            bits,
            oldest_early,
            lost_silently,
            lost_and_said,
            invented,
            setting_changed,
            setting_refused,
        } = other;
        self.oldest_early += oldest_early;
        self.bits += bits;
        self.lost_silently += lost_silently;
        self.lost_and_said += lost_and_said;
        self.invented += invented;
        self.setting_changed += setting_changed;
        self.setting_refused += setting_refused;
    }
}

/// The image of a used store, and what it shows unharmed.
pub(crate) struct Image<const WORD: usize, const PAGE: usize> {
    chip: Cells<WORD, PAGE>,
    shape: Shape,
    seen: Seen,
    promised: Vec<u32>,
}

impl<const WORD: usize, const PAGE: usize> Image<WORD, PAGE> {
    pub(crate) fn of<S: Subject<WORD, PAGE>>(seed: u64, shape: Shape) -> Result<Self, Fault> {
        let mut dice = Dice::of(seed, u64::MAX);
        let mut numbers = Numbers::default();
        let mut asks = life::first(&mut numbers);
        asks.extend(life::random(&mut dice, LIVED, &mut numbers));
        // At rest: a boot comes last.
        asks.push(Ask::Boot);
        let mut expected = Expected::nothing(S::promise(&shape));
        let mut subject = S::boot(S::commission(&shape)?, &shape);
        expected.boot();
        for ask in asks {
            if ask == Ask::Boot {
                subject = life::reboot(subject, &shape);
            } else {
                life::ask(&mut subject, ask)?;
                subject.rest()?;
            }
            expected.ask(ask);
        }
        let seen = Seen::of(&mut subject)?;
        if expected.judge(&seen).any() {
            return Err(Fault(format!("{}: not as it must be, unharmed", S::NAME)));
        }
        // The two boots below may use up places too.
        expected.boot();
        expected.boot();
        let promised = expected.promised();
        Ok(Self { chip: subject.off(), shape, seen, promised })
    }

    pub(crate) fn bits(&self) -> u64 {
        u64::try_from(self.chip.capacity()).unwrap_or(0) * 8
    }

    /// Flips that bit.
    pub(crate) fn flip<S: Subject<WORD, PAGE>>(&self, bit: u64) -> Result<Harm, Fault> {
        let mut chip = self.chip.clone();
        let address = u32::try_from(bit / 8).map_err(|why| Fault(why.to_string()))?;
        let place = u8::try_from(bit % 8).map_err(|why| Fault(why.to_string()))?;
        chip.flip_bit(address, place).map_err(|why| Fault(format!("{why:?}")))?;
        let look = || {
            let mut subject = S::boot(chip, &self.shape);
            let first = Look::of(&mut subject);
            let second = Look::of(&mut life::reboot(subject, &self.shape));
            (first, second)
        };
        let said = Look {
            listed: Err(Fault("panicked".into())),
            settings: [const { None }; KEYS],
            said: true,
        };
        let (first, second) =
            catch_unwind(AssertUnwindSafe(look)).unwrap_or_else(|_| (said.clone(), said));
        Ok(self.harm(&first, &second))
    }

    /// What either look shows to be wrong. What was said once was said.
    fn harm(&self, first: &Look, second: &Look) -> Harm {
        let was = &self.seen.listed;
        let mut harm = Harm { bits: 1, ..Harm::default() };
        let (mut early, mut lost, mut said, mut invented) = (false, false, false, false);
        for look in [first, second] {
            said |= look.said;
            match &look.listed {
                Err(_) => lost = true,
                Ok(listed) => {
                    said |= listed.lost > was.lost;
                    let some = !listed.records.is_empty();
                    let whole = some && was.records.ends_with(&listed.records);
                    early |= whole && self.lacks(listed);
                    lost |= !whole && self.lacks(listed);
                    invented |= listed.records.iter().any(|n| !was.records.contains(n));
                }
            }
        }
        harm.oldest_early = u64::from(early && !lost && !said);
        harm.lost_silently = u64::from(lost && !said);
        harm.lost_and_said = u64::from((early || lost) && said);
        harm.invented = u64::from(invented);
        let settings = first.settings.iter().chain(&second.settings);
        let were = self.seen.settings.iter().cycle();
        let (mut changed, mut refused) = (false, false);
        for (is, was) in settings.zip(were) {
            match is {
                Some(is) => changed |= is != was,
                None => refused = true,
            }
        }
        harm.setting_changed = u64::from(changed);
        harm.setting_refused = u64::from(refused);
        harm
    }

    /// Whether a record is missing that must be there: one of the promised, or
    /// one that has older ones listed before it.
    fn lacks(&self, listed: &Listed) -> bool {
        let oldest = listed.records.iter().flatten().min();
        let due = |n: &&u32| self.promised.contains(n) || oldest.is_some_and(|oldest| oldest < *n);
        let mut were = self.seen.listed.records.iter().flatten().filter(due);
        were.any(|n| !listed.records.contains(&Some(*n)))
    }
}

/// What a boot on a harmed image shows.
#[derive(Clone)]
struct Look {
    listed: Result<Listed, Fault>,
    /// Each setting; `None` if it could not be read.
    settings: [Option<Option<u32>>; KEYS],
    /// Whether any call failed.
    said: bool,
}

impl Look {
    fn of<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>>(subject: &mut S) -> Self {
        let listed = life::insist(|| subject.list());
        let mut said = !matches!(listed, Ok((_, false)));
        let mut settings = [None; KEYS];
        for (setting, key) in settings.iter_mut().zip(life::keys()) {
            let found = life::insist(|| subject.setting(key));
            said |= !matches!(found, Ok((_, false)));
            *setting = found.ok().map(|(found, _)| found);
        }
        Self { listed: listed.map(|(listed, _)| listed), settings, said }
    }
}
