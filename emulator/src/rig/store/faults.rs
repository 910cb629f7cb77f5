//! A flash that answers wrongly: reads, programs and erases that fail once,
//! writes that do nothing and say that all is well, writes that are done and
//! said to have failed. What a store reports as durable must be so all the
//! same (invariant 11), and after a fault it goes on.

use emulated_board::flash::{OpKind, RamFlash};
use emulated_board::fuse::Fuse;
use lock_core::store::{FlashStore, Layout};

use super::chip::{self, Size};
use super::judge::Expected;
use super::life::{self, Ask};
use crate::rig::{Cases, Covered, Dice, Failure, shrink};

/// Random lives on such a flash.
#[derive(Clone, Copy, Debug)]
pub struct Faults {
    /// Where the random numbers start.
    pub seed: u64,
}

/// Events of a life.
const LIVED: u64 = 120;

/// An event, and what goes wrong with it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Lived {
    ask: Ask,
    wrong: Wrong,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Wrong {
    Nothing,
    /// The next program or erase does nothing and says that it did.
    Lies,
    /// It fails.
    Fails,
    /// It is done and said to have failed.
    Denies,
    /// Some later call of that kind fails.
    Call(OpKind, u32),
}

type Store<const WORD: usize, const PAGE: usize> = FlashStore<RamFlash<WORD, PAGE, Vec<u8>, Fuse>>;

impl Cases for Faults {
    fn count(&self) -> Option<u64> {
        None
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        match case % 4 {
            0 => self.lives::<4, 256>(case, covered),
            1 => self.lives::<8, 512>(case, covered),
            2 => self.lives::<16, 1_024>(case, covered),
            _ => self.lives::<32, 2_048>(case, covered),
        }
    }
}

impl Faults {
    fn lives<const WORD: usize, const PAGE: usize>(
        &self,
        case: u64,
        covered: &mut Covered,
    ) -> Result<(), Failure> {
        let mut dice = Dice::of(self.seed, case);
        let asks = life::random(&mut dice, LIVED);
        let lived: Vec<Lived> =
            asks.into_iter().map(|ask| Lived { ask, wrong: wrong(&mut dice) }).collect();
        let Err(what) = live::<WORD, PAGE>(&lived, covered) else { return Ok(()) };
        let fails = |lived: &[Lived]| live::<WORD, PAGE>(lived, &mut Covered::default()).is_err();
        let mut events = vec![format!("words of {WORD} bytes, pages of {PAGE}")];
        events.extend(shrink(&lived, fails).iter().map(|lived| format!("{lived:?}")));
        Err(Failure { what, repeat: String::new(), events })
    }
}

fn wrong(dice: &mut Dice) -> Wrong {
    let later = u32::try_from(dice.below(12)).unwrap_or(0);
    match dice.below(16) {
        0 => Wrong::Lies,
        1 => Wrong::Fails,
        2 => Wrong::Denies,
        3 => Wrong::Call(OpKind::Read, later),
        4 => Wrong::Call(OpKind::Program, later),
        5 => Wrong::Call(OpKind::Erase, 0),
        _ => Wrong::Nothing,
    }
}

fn live<const WORD: usize, const PAGE: usize>(
    lived: &[Lived],
    covered: &mut Covered,
) -> Result<(), String> {
    let layout = chip::layout(PAGE, Size::Smallest);
    let chip = chip::commissioned::<WORD, PAGE>(layout);
    let mut expected = Expected::nothing();
    expected.spend();
    let (mut store, _) = FlashStore::mount(RamFlash::new(chip, Fuse::new()), layout);
    for Lived { ask, wrong } in lived {
        let flash = store.flash_mut();
        match wrong {
            Wrong::Nothing => {}
            Wrong::Lies => flash.lie_next_writes(1),
            Wrong::Fails => flash.fail_next_writes(1),
            Wrong::Denies => flash.deny_next_writes(1),
            Wrong::Call(kind, after) => flash.fail_calls(*kind, *after, 1),
        }
        covered.add("events", 1);
        let done = life::ask(&mut store, ask);
        let mut after = expected.clone();
        after.ask(ask);
        // A fault that did not show yet must not fall into the boot.
        let flash = store.flash_mut();
        flash.lie_next_writes(0);
        for kind in [OpKind::Read, OpKind::Program, OpKind::Erase] {
            flash.fail_calls(kind, 0, 0);
        }
        if done.is_ok() && *ask != Ask::Boot {
            expected = after;
            continue;
        }
        covered.add("boots", 1);
        store = boot(store, layout, &mut expected, after)?;
    }
    let after = expected.clone();
    boot(store, layout, &mut expected, after).map(drop)
}

/// A boot after an event that may have reached the flash.
fn boot<const WORD: usize, const PAGE: usize>(
    store: Store<WORD, PAGE>,
    layout: Layout,
    expected: &mut Expected,
    mut after: Expected,
) -> Result<Store<WORD, PAGE>, String> {
    let mut flash = store.into_flash();
    flash.power_cycle();
    let (mut store, found) = FlashStore::mount(flash, layout);
    // What failed may have been done over by the store before it gave up.
    for one in [&mut *expected, &mut after] {
        one.cut();
        one.spend();
        one.spend();
    }
    if let Err(not_before) = expected.holds(&mut store, &found, layout) {
        after
            .holds(&mut store, &found, layout)
            .map_err(|not_after| format!("{not_before} If the event counts: {not_after}"))?;
        *expected = after;
    }
    Ok(store)
}
