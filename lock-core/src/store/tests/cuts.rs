//! R2, R6: a boot after a cut finds what was written before it, and the write
//! under way whole or not at all. Judge: [`super::model`].
//!
//! Cuts fall between two words or two erases, at every place or at random ones.

use super::super::{FlashStore, Layout};
use super::model::{Kept, Model, Says, listed};
use super::*;

/// A lock's flash, and what must be in it.
struct Bench<const WORD: usize, const PAGE: usize> {
    flash: Flash<WORD, PAGE>,
    layout: Layout,
    model: Model,
    cuts: usize,
}

impl<const WORD: usize, const PAGE: usize> Bench<WORD, PAGE> {
    fn new(layout: Layout) -> Self {
        let flash = formatted::<WORD, PAGE>(layout).into_flash();
        Self { flash, layout, model: Model::default(), cuts: 0 }
    }

    /// Mounts, writes until the power is cut after `steps` (or all is written),
    /// mounts again and judges. Says how many writes were begun.
    fn run(&mut self, writes: &[Write], steps: u64) -> usize {
        let mut flash = self.flash.clone();
        flash.power_cycle();
        flash.cut_after(steps);
        let (mut store, _) = FlashStore::mount(flash, self.layout);
        let mut begun = 0;
        let mut open = None;
        for write in writes {
            begun += 1;
            if put(&mut store, write).is_err() {
                assert!(!store.flash_mut().has_power(), "a write failed without a cut");
                open = Some(write);
                break;
            }
            self.model.write(write);
        }
        self.cuts += 1;
        self.flash = store.into_flash();
        self.judge(open);
        begun
    }

    /// The write that was `open` may be there or not; the model learns which.
    fn judge(&mut self, open: Option<&Write>) {
        self.flash.power_cycle();
        let (mut store, found) = FlashStore::mount(self.flash.clone(), self.layout);
        assert!(found.known.is_ok());
        let list = listed(&mut store);
        let mut after = self.model.clone();
        if let Some(write) = open {
            after.write(write);
        }
        // A cut may cost the slot it fell into, and each boot costs one for
        // its copy of the newest record; there are three boots a run.
        let less = |kept: u32| usize::try_from(kept).unwrap().saturating_sub(4 * self.cuts);
        let kept = Kept {
            openings: less(self.layout.openings_kept(PAGE)),
            refusals: less(self.layout.refusals_kept(PAGE)),
        };
        let fits = |model: &Model| model.lists(&list, kept).and(model.adds_up_to(&found));
        match (fits(&self.model), fits(&after)) {
            (Ok(()), _) => {}
            (Err(_), Ok(())) => self.model = after,
            (Err(before), Err(after)) => panic!("neither before ({before}) nor after ({after})"),
        }
        assert_eq!(store.newest(), list.last().copied());
        let (store, again) = FlashStore::mount(store.into_flash(), self.layout);
        for found in [&found, &again] {
            assert_eq!(self.model.concluded(&Says::of(found)), Ok(()));
        }
        self.flash = store.into_flash();
    }
}

/// Cuts a run at every step, and goes on after each cut to the end.
fn cut_everywhere<const WORD: usize, const PAGE: usize>(writes: &[Write]) -> u64 {
    let layout = Layout::smallest(PAGE).unwrap();
    let fresh = Bench::<WORD, PAGE>::new(layout);
    let mut whole = Bench { flash: fresh.flash.clone(), model: Model::default(), ..fresh };
    let before = whole.flash.steps();
    whole.run(writes, u64::MAX);
    let steps = whole.flash.steps() - before;
    for step in 0..steps {
        let flash = fresh.flash.clone();
        let mut bench = Bench { flash, model: Model::default(), ..fresh };
        let begun = bench.run(writes, step);
        bench.run(&writes[begun..], u64::MAX);
    }
    steps
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    fn a_cut_at_any_step_leaves_before_or_after(writes in list(any_write(), 60..90)) {
        // Long enough that every region is turned over.
        prop_assert!(cut_everywhere::<4, 256>(&writes) > 400);
        prop_assert!(cut_everywhere::<32, 256>(&writes) > 60);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Rings and tally are turned over many times, with cuts on the way.
    #[test]
    fn many_cuts_in_a_long_life(
        runs in list((list(any_write(), 1..120), 1..3_000u64), 1..12),
        geometry in 0..3usize,
    ) {
        fn live<const WORD: usize, const PAGE: usize>(runs: &[(Vec<Write>, u64)]) {
            let mut bench = Bench::<WORD, PAGE>::new(Layout::smallest(PAGE).unwrap());
            for (writes, steps) in runs {
                bench.run(writes, *steps);
            }
        }
        match geometry {
            0 => live::<4, 256>(&runs),
            1 => live::<8, 512>(&runs),
            _ => live::<16, 1_024>(&runs),
        }
    }
}

/// R6: commissioning is whole or not at all, at every cut.
#[test]
fn a_cut_in_commissioning_leaves_a_lock_that_is_not_commissioned() {
    let layout = Layout::smallest(256).unwrap();
    let settings = plain_settings();
    // Over a lock that was in use, so that there is something to erase.
    let mut used = Bench::<32, 256>::new(layout);
    let wrong = Write::Record(Record { at: None, event: Event::WrongCode { who: number(5) } });
    let counted = Write::Tally(Tally::Counted(number(5)));
    used.run(&[wrong, counted], u64::MAX);
    for start in [erased::<32, 256>(layout), used.flash] {
        let before = start.steps();
        let store = FlashStore::format(start.clone(), layout, &settings).ok().unwrap();
        let steps = store.into_flash().steps() - before;
        assert!(steps > 280);
        for step in 1..=steps {
            let mut flash = start.clone();
            flash.cut_after(step);
            let whole = FlashStore::format(&mut flash, layout, &settings).is_ok();
            // The power ends with the last word, before it was read back.
            assert!(!whole);
            flash.power_cycle();
            let (mut store, found) = FlashStore::mount(&mut flash, layout);
            assert_eq!(found.known.is_ok(), step == steps, "{step}");
            if found.known.is_ok() {
                assert!(listed(&mut store).is_empty());
                assert_eq!(found.tally.lock_count(), 0);
            }
        }
    }
}

/// A word in the first bank alone may be of a commissioning that was cut short;
/// beside a tally it is what is left of settings.
#[test]
fn an_erased_flash_is_blank_and_one_word_beside_a_tally_makes_it_unreadable() {
    let layout = Layout::smallest(256).unwrap();
    let unborn = erased::<4, 256>(layout);
    let mut lived = formatted::<4, 256>(layout).into_flash();
    lived.content_mut()[..2 * 27 * 256].fill(0xFF);
    let found = |flash: &Flash<4, 256>, at: Option<usize>| {
        let mut flash = flash.clone();
        if let Some(at) = at {
            flash.content_mut()[at] = 0xFE;
        }
        FlashStore::mount(flash, layout).1.known.err()
    };
    for flash in [&unborn, &lived] {
        assert_eq!(found(flash, None), Some(Fault::Blank));
        for at in [27 * 256, 27 * 256 + 6_815] {
            assert_eq!(found(flash, Some(at)), Some(Fault::Settings), "{at}");
        }
    }
    for at in [0, 64, 6_815] {
        assert_eq!(found(&unborn, Some(at)), Some(Fault::Blank), "{at}");
        assert_eq!(found(&lived, Some(at)), Some(Fault::Settings), "{at}");
    }
}
