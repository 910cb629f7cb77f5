//! Power cuts: a life is lived once; then every act of it is torn in every
//! class, a fresh store boots on what is left, and what it holds is judged, at
//! this boot and the next ones. With two cuts the recovery is torn as well, at
//! each of its steps; with three that recovery's recovery, at random ones.

use emulated_board::flash::RamFlash;
use emulated_board::fuse::{Act, Class, Cut, Fuse};
use lock_core::audit::{Event, Record};
use lock_core::port::{Tally, Write};
use lock_core::store::{FlashStore, Layout};

use super::chip::{self, Cells, Kept, Mains, Size};
use super::judge::Expected;
use super::life::{self, Ask};
use super::unborn;
use crate::rig::{Cases, Covered, Dice, Failure, shrink};

/// Lives, and cuts of the power in them.
#[derive(Clone, Copy, Debug)]
pub struct Cuts {
    /// Where the random numbers start.
    pub seed: u64,
    /// How many cuts follow one another, 1 to 3.
    pub cuts: u8,
    /// How many seeds each class is tried with at each act.
    pub seeds: u64,
}

/// Events before the life that is swept, so that every region is turned over.
const AGED: u64 = 200;
/// Events of a life: few, as each of their acts is torn many times.
const LIVED: u64 = 12;

impl Cases for Cuts {
    fn count(&self) -> Option<u64> {
        None
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        let dice = &mut Dice::of(self.seed, case);
        match case % 9 {
            0 => self.sweep::<4, 256>(case, Size::Smallest, covered),
            1 => self.sweep::<8, 512>(case, Size::Smallest, covered),
            2 => self.sweep::<8, 256>(case, Size::Smallest, covered),
            3 => self.sweep::<16, 1_024>(case, Size::Smallest, covered),
            4 => self.sweep::<32, 2_048>(case, Size::Smallest, covered),
            5 => unborn::sweep::<32, 2_048>(dice, covered),
            6 => unborn::sweep::<16, 512>(dice, covered),
            7 => unborn::sweep::<4, 256>(dice, covered),
            _ => self.sweep::<32, 4_096>(case, Size::Smallest, covered),
        }
    }
}

impl Cuts {
    fn sweep<const WORD: usize, const PAGE: usize>(
        &self,
        case: u64,
        size: Size,
        covered: &mut Covered,
    ) -> Result<(), Failure> {
        let mut dice = Dice::of(self.seed, case);
        let layout = chip::layout(PAGE, size);
        let aged = dice.below(AGED);
        let past = life::random(&mut dice, aged);
        // A second cut multiplies the runs by the steps of a recovery.
        let lived = if self.cuts > 1 { 1 } else { LIVED };
        let asks = life::random_after(&mut dice, &past, lived);
        let seed = dice.roll();
        let sweep = Sweep { plan: self, layout, seed };
        let failed = match sweep.live::<WORD, PAGE>(&past, &asks, covered) {
            Ok(()) => return Ok(()),
            Err(failed) => failed,
        };
        let fails =
            |asks: &[Ask]| sweep.live::<WORD, PAGE>(&past, asks, &mut Covered::default()).is_err();
        let asks = shrink(&asks, fails);
        let mut events: Vec<String> = asks.iter().map(|ask| format!("{ask:?}")).collect();
        events.insert(0, format!("words of {WORD} bytes, pages of {PAGE}, {aged} events before"));
        events.push(failed.cut);
        Err(Failure { what: failed.what, repeat: String::new(), events })
    }
}

struct Sweep<'p> {
    plan: &'p Cuts,
    layout: Layout,
    seed: u64,
}

/// What did not hold, and after which cuts.
struct Failed {
    what: String,
    cut: String,
}

/// A cell's state after some cut, and what it may hold.
struct Torn<'t, const WORD: usize, const PAGE: usize> {
    chip: &'t Cells<WORD, PAGE>,
    /// What must hold if the event that was cut did not happen, and if it did.
    before: &'t Expected,
    after: &'t Expected,
}

impl Sweep<'_> {
    /// Lives a life and tears each act of it.
    fn live<const WORD: usize, const PAGE: usize>(
        &self,
        past: &[Ask],
        asks: &[Ask],
        covered: &mut Covered,
    ) -> Result<(), Failed> {
        let mut expected = Expected::nothing();
        let chip = chip::commissioned::<WORD, PAGE>(self.layout);
        let whole = |what| Failed { what, cut: "without a cut".into() };
        let (chip, _) =
            live(chip, self.layout, past, &mut expected).map_err(|failed| whole(failed.what))?;
        let (_, acts) = live(chip.clone(), self.layout, asks, &mut expected.clone())?;
        expected.spend();
        let mut rolling = chip;
        let mut torn = rolling.clone();
        for (ask, acts) in asks.iter().zip(acts) {
            let mut after = expected.clone();
            after.ask(ask);
            for (place, kept) in acts.iter().enumerate() {
                let act = kept.act();
                covered.add("cut points", 1);
                for (class, n) in
                    Class::ALL.iter().flat_map(|c| (0..self.plan.seeds).map(move |n| (*c, n)))
                {
                    torn.clone_from(&rolling);
                    let seed = Dice::of(self.seed ^ n, u64::try_from(place).unwrap_or(0)).roll();
                    refused(torn.tear(&act, class, seed))?;
                    let case = Torn { chip: &torn, before: &expected, after: &after };
                    self.boots(&case, self.plan.cuts, seed, covered).map_err(|failed| Failed {
                        what: failed.what,
                        cut: format!(
                            "cut in {ask:?}, act {place} ({}), {}, seed {seed}{}",
                            shape(&act),
                            class.name(),
                            failed.cut
                        ),
                    })?;
                }
                refused(rolling.complete(&act))?;
            }
            rolling.power_up();
            expected = after;
        }
        Ok(())
    }

    /// Boots on a torn chip: to the end, and torn again where cuts are left.
    fn boots<const WORD: usize, const PAGE: usize>(
        &self,
        torn: &Torn<'_, WORD, PAGE>,
        cuts: u8,
        seed: u64,
        covered: &mut Covered,
    ) -> Result<(), Failed> {
        let steps = self.boot_and_judge(torn, covered)?;
        if cuts <= 1 {
            return Ok(());
        }
        let mut again = torn.chip.clone();
        // One act costs a slot more, whatever the boots come to.
        let (mut before, mut after) = (torn.before.clone(), torn.after.clone());
        before.cut();
        after.cut();
        let mut dice = Dice::of(seed, u64::from(cuts));
        // The third cut falls where it may.
        let sampled = usize::from(self.plan.cuts) > 2 && cuts < self.plan.cuts;
        let places: Vec<u64> = if sampled { vec![dice.below(steps)] } else { (0..steps).collect() };
        for place in places {
            let class = dice.pick(&Class::ALL).copied().unwrap_or(Class::Subset);
            let seed = dice.roll();
            again.clone_from(torn.chip);
            let fuse = Fuse::new();
            fuse.arm(Cut { after: place, class, seed });
            let (store, _) = FlashStore::mount(RamFlash::new(again, &fuse), self.layout);
            again = store.into_flash().into_chip();
            let case = Torn { chip: &again, before: &before, after: &after };
            self.boots(&case, cuts - 1, seed, covered).map_err(|failed| Failed {
                what: failed.what,
                cut: format!(
                    "; then in step {place} of the boot, {}, seed {seed}{}",
                    class.name(),
                    failed.cut
                ),
            })?;
        }
        Ok(())
    }

    /// Boots three times, goes on a little and boots again; how many steps the
    /// first boot took.
    fn boot_and_judge<const WORD: usize, const PAGE: usize>(
        &self,
        torn: &Torn<'_, WORD, PAGE>,
        covered: &mut Covered,
    ) -> Result<u64, Failed> {
        covered.add("cut runs", 1);
        let failed = |what: String| Failed { what, cut: String::new() };
        let fuse = Fuse::new();
        let flash = RamFlash::new(torn.chip.clone(), &fuse);
        let (mut store, found) = FlashStore::mount(flash, self.layout);
        let steps = fuse.steps();
        if steps > u64::from(self.layout.boot_steps(WORD)) {
            return Err(failed(format!("Invariant 3: the boot took {steps} steps.")));
        }
        let (mut before, mut after) = (torn.before.clone(), torn.after.clone());
        for expected in [&mut before, &mut after] {
            expected.cut();
            expected.spend();
        }
        let mut expected = match before.holds(&mut store, &found, self.layout) {
            Ok(()) => before,
            Err(not_before) => match after.holds(&mut store, &found, self.layout) {
                Ok(()) => after,
                Err(not_after) => {
                    return Err(failed(format!("{not_before} If the event counts: {not_after}")));
                }
            },
        };
        for _ in 0..2 {
            store = self.reboot(store, &mut expected, &fuse).map_err(failed)?;
        }
        for ask in GOES_ON {
            life::ask(&mut store, &ask)
                .map_err(|_| failed("Invariant 3: a write after the boot failed.".into()))?;
            expected.ask(&ask);
        }
        let store = self.reboot(store, &mut expected, &fuse).map_err(failed)?;
        if !store.into_flash().chip().violations().is_none() {
            return Err(failed(
                "Invariant 13: a word was programmed twice, or a bit raised.".into(),
            ));
        }
        Ok(steps)
    }

    fn reboot<'f, const WORD: usize, const PAGE: usize>(
        &self,
        store: FlashStore<RamFlash<WORD, PAGE, Vec<u8>, &'f Fuse>>,
        expected: &mut Expected,
        fuse: &'f Fuse,
    ) -> Result<FlashStore<RamFlash<WORD, PAGE, Vec<u8>, &'f Fuse>>, String> {
        fuse.power_cycle();
        expected.spend();
        let (mut store, found) = FlashStore::mount(store.into_flash(), self.layout);
        expected
            .holds(&mut store, &found, self.layout)
            .map_err(|what| format!("At a later boot: {what}"))?;
        Ok(store)
    }
}

/// What every store goes on with after its boots.
const GOES_ON: [Ask; 3] = [
    Ask::Write(Write::Record(Record { at: None, event: Event::Opened })),
    Ask::Write(Write::Record(Record { at: None, event: Event::LeftOpen })),
    Ask::Write(Write::Tally(Tally::Served)),
];

/// Lives through events without a cut; the acts of each.
fn live<const WORD: usize, const PAGE: usize>(
    chip: Cells<WORD, PAGE>,
    layout: Layout,
    asks: &[Ask],
    expected: &mut Expected,
) -> Result<(Cells<WORD, PAGE>, Vec<Vec<Kept>>), Failed> {
    let failed = |what: String| Failed { what, cut: "without a cut".into() };
    let mains = Mains::default();
    let (mut store, _) = FlashStore::mount(RamFlash::new(chip, &mains), layout);
    // The mount's own acts belong to nobody: they are done before the first.
    let mut first = mains.take();
    expected.spend();
    let mut acts = Vec::new();
    for ask in asks {
        if *ask == Ask::Boot {
            let (again, found) = FlashStore::mount(store.into_flash(), layout);
            store = again;
            expected.ask(ask);
            expected.holds(&mut store, &found, layout).map_err(failed)?;
        } else {
            life::ask(&mut store, ask).map_err(|_| failed(format!("{ask:?} failed.")))?;
            expected.ask(ask);
        }
        first.extend(mains.take());
        acts.push(core::mem::take(&mut first));
    }
    let chip = store.into_flash().into_chip();
    if !chip.violations().is_none() {
        return Err(failed("Invariant 13: a word was programmed twice, or a bit raised.".into()));
    }
    Ok((chip, acts))
}

fn refused<E: core::fmt::Debug>(result: Result<(), E>) -> Result<(), Failed> {
    result.map_err(|why| Failed { what: format!("Invariant 13: {why:?}."), cut: String::new() })
}

fn shape(act: &Act<'_>) -> String {
    match act {
        Act::Program { address, .. } => format!("word at {address:#x}"),
        Act::Erase { page } => format!("page {page}"),
        Act::Effect => "effect".into(),
    }
}
