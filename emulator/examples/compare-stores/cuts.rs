//! Power cuts: a life is lived once; then every act of it is torn in every
//! class, a fresh object boots on what is left, and the judge looks.

use emulated_board::fuse::{Act, Class};
use emulator::rig::Dice;
use emulator::rig::store::chip::{Cells, Kept};

use crate::judge::{self, Broken, Case, Expected, Seen};
use crate::life::{self, Ask, Numbers};
use crate::subject::{Fault, Shape, Subject};

/// Events before those that are swept, at most, so that every page was turned
/// over.
const AGED: u64 = 120;
/// Events that are swept.
const LIVED: u64 = 20;

/// A life, the same for every subject.
pub(crate) struct Life {
    past: Vec<Ask>,
    lived: Vec<Ask>,
    goes_on: Vec<Ask>,
    seed: u64,
}

impl Life {
    pub(crate) fn of(seed: u64, case: u64) -> Self {
        let mut dice = Dice::of(seed, case);
        let mut numbers = Numbers::default();
        let mut past = life::first(&mut numbers);
        let aged = dice.below(AGED);
        past.extend(life::random(&mut dice, aged, &mut numbers));
        let lived = life::random(&mut dice, LIVED, &mut numbers);
        let mut goes_on: Vec<Ask> = (0..3).map(|_| Ask::Record(numbers.next())).collect();
        goes_on.insert(1, Ask::Set(0, numbers.next()));
        Self { past, lived, goes_on, seed: dice.roll() }
    }
}

/// Acts of which each is torn, and what was asked when they were done.
struct Stretch {
    under_way: Option<Ask>,
    acts: Vec<Kept>,
}

/// Tears every act of a life, with `seeds` seeds a class, and tells what came
/// of each run.
pub(crate) fn sweep<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>>(
    life: &Life,
    shape: &Shape,
    seeds: u64,
    tell: &mut dyn FnMut(&Act<'_>, Class, Broken),
) -> Result<(), Fault> {
    let mut expected = Expected::nothing(S::promise(shape));
    let chip = S::commission(shape)?;
    let (mut rolling, _) = live::<WORD, PAGE, S>(chip, shape, &life.past, &mut expected)?;
    let mut after = expected.clone();
    let (_, stretches) = live::<WORD, PAGE, S>(rolling.clone(), shape, &life.lived, &mut after)?;
    expected.boot();
    let mut torn = rolling.clone();
    for (number, stretch) in (0..).zip(&stretches) {
        for (place, kept) in (0..).zip(&stretch.acts) {
            let act = kept.act();
            for (class, n) in
                Class::ALL.iter().flat_map(|class| (0..seeds).map(move |n| (*class, n)))
            {
                torn.clone_from(&rolling);
                let seed = Dice::of(Dice::of(life.seed ^ n, number).roll(), place).roll();
                torn.tear(&act, class, seed).map_err(|why| Fault(format!("{why:?}")))?;
                let case = Case {
                    chip: &torn,
                    shape,
                    before: &expected,
                    under_way: stretch.under_way,
                    goes_on: &life.goes_on,
                };
                tell(&act, class, judge::boots::<WORD, PAGE, S>(&case));
            }
            rolling.complete(&act).map_err(|why| Fault(format!("{why:?}")))?;
        }
        if let Some(ask) = stretch.under_way {
            expected.ask(ask);
        }
    }
    Ok(())
}

/// Lives through events without a cut; what was done to the chip.
fn live<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>>(
    chip: Cells<WORD, PAGE>,
    shape: &Shape,
    asks: &[Ask],
    expected: &mut Expected,
) -> Result<(Cells<WORD, PAGE>, Vec<Stretch>), Fault> {
    let mut subject = S::boot(chip, shape);
    expected.boot();
    let mut stretches = vec![Stretch { under_way: None, acts: subject.acts() }];
    for ask in asks {
        if *ask == Ask::Boot {
            subject = life::reboot(subject, shape);
        } else {
            life::ask(&mut subject, *ask)?;
        }
        expected.ask(*ask);
        stretches.push(Stretch { under_way: Some(*ask), acts: subject.acts() });
        if *ask == Ask::Boot {
            let seen = Seen::of(&mut subject)?;
            if expected.judge(&seen).any() {
                return Err(Fault(format!("{}: not as it must be, without a cut", S::NAME)));
            }
        } else {
            subject.rest()?;
        }
        stretches.push(Stretch { under_way: None, acts: subject.acts() });
    }
    Ok((subject.off(), stretches))
}
