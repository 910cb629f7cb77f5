//! A life of a store: asks, boots, power cuts and flipped bits in any order.
//!
//! Until the first bit is flipped everything must hold that the rig's judge
//! asks for, and what was reported durable before a cut must have happened. A
//! first flipped bit changes no count and no setting. After it, the numbers of
//! the list must follow one another, boots must end, and what is reported
//! durable from then on must be listed.

use std::any::Any;
use std::cell::RefCell;
use std::collections::HashMap;

use arbitrary::{Arbitrary, Result, Unstructured};
use emulated_board::flash::RamFlash;
use emulated_board::fuse::{Class, Cut, Fuse};
use emulator::rig::Dice;
use emulator::rig::store::chip::{self, Cells, Size};
use emulator::rig::store::judge::Expected;
use emulator::rig::store::life::{self, Ask};
use lock_core::audit::{Event as Recorded, Record};
use lock_core::port::{Store, Tally, Write};
use lock_core::recovered::Recovered;
use lock_core::store::{FlashStore, Layout};

use crate::asks;
use crate::boot;
use crate::list::{self, Promised};

/// One input.
#[derive(Debug)]
pub struct Story {
    geometry: u8,
    /// How much the store was used before, in steps of [`A_WHILE`] events.
    past: u8,
    events: Vec<Event>,
}

#[derive(Debug)]
enum Event {
    /// Something is asked, and the store rests afterwards.
    Ask(Ask),
    /// The same, but it has no rest.
    Press(Ask),
    Boot,
    /// The power will end within a step.
    Cut(Cut),
    /// The power goes, a bit is flipped, and it comes back.
    Flip(u32),
}

/// Events of one story, at most.
const MOST: usize = 40;
/// Stories that a store's past is one of.
const PASTS: u8 = 8;
const A_WHILE: u64 = 29;

impl<'a> Arbitrary<'a> for Story {
    fn arbitrary(u: &mut Unstructured<'a>) -> Result<Self> {
        let [geometry, past]: [u8; 2] = u.arbitrary()?;
        let mut events = Vec::new();
        while events.len() < MOST && !u.is_empty() {
            let Ok(event) = u.arbitrary() else { break };
            events.push(event);
        }
        Ok(Self { geometry: geometry % 6, past: past % PASTS, events })
    }
}

impl<'a> Arbitrary<'a> for Event {
    fn arbitrary(u: &mut Unstructured<'a>) -> Result<Self> {
        Ok(match u.arbitrary::<u8>()? % 32 {
            0..=14 => Self::Ask(asks::ask(u)?),
            15..=18 => Self::Press(asks::ask(u)?),
            19..=21 => Self::Boot,
            22..=30 => Self::Cut(cut(u)?),
            _ => Self::Flip(u.arbitrary()?),
        })
    }
}

/// A cut within the next 64 steps, or the next 65,536.
///
/// # Errors
/// When the bytes are used up.
pub fn cut(u: &mut Unstructured<'_>) -> Result<Cut> {
    let [class, after, seed]: [u8; 3] = u.arbitrary()?;
    let class_at = usize::from(class) % Class::ALL.len();
    let class_of = Class::ALL.get(class_at).copied().unwrap_or(Class::Subset);
    let far = if class & 0x80 == 0 { 0 } else { u64::from(u.arbitrary::<u8>()?) << 6 };
    Ok(Cut { after: u64::from(after & 0x3F) | far, class: class_of, seed: u64::from(seed) })
}

/// One input.
///
/// # Panics
/// If anything does not hold.
pub fn run(story: &Story) {
    match story.geometry {
        0 => live::<4, 256>(story),
        1 => live::<8, 512>(story),
        2 => live::<8, 256>(story),
        3 => live::<16, 1_024>(story),
        4 => live::<32, 2_048>(story),
        _ => live::<32, 4_096>(story),
    }
}

type Flash<'f, const WORD: usize, const PAGE: usize> = RamFlash<WORD, PAGE, Vec<u8>, &'f Fuse>;

fn live<const WORD: usize, const PAGE: usize>(story: &Story) {
    let layout = chip::layout(PAGE, Size::Smallest);
    let (chip, expected) = past::<WORD, PAGE>(layout, story.past);
    let fuse = Fuse::new();
    let law = Law::Whole(vec![expected]);
    let (store, found) = FlashStore::mount(RamFlash::new(chip, &fuse), layout);
    let mut life = Life { layout, fuse: &fuse, law, cuts: 0, unrested: 0, last: found, store };
    life.law.boot();
    life.judge();
    for event in &story.events {
        match event {
            Event::Ask(ask) => life = life.ask(ask, Rest::Yes),
            Event::Press(ask) => life = life.ask(ask, Rest::No),
            Event::Boot => life = life.boot(None),
            Event::Cut(cut) => fuse.arm(*cut),
            Event::Flip(bit) => life = life.flip(*bit),
        }
    }
    life.end();
}

/// A chip with that much of a past, and what must be in it.
fn past<const WORD: usize, const PAGE: usize>(
    layout: Layout,
    past: u8,
) -> (Cells<WORD, PAGE>, Expected) {
    /// By word, page and past.
    type Pasts = HashMap<(usize, usize, u8), (Box<dyn Any>, Expected)>;
    thread_local! {
        static PASTS: RefCell<Pasts> = RefCell::default();
    }
    PASTS.with_borrow_mut(|pasts| {
        let (chip, expected) = pasts.entry((WORD, PAGE, past)).or_insert_with(|| {
            let (chip, expected) = aged::<WORD, PAGE>(layout, past);
            (Box::new(chip), expected)
        });
        let chip = chip.downcast_ref::<Cells<WORD, PAGE>>().expect("the key names the type");
        (chip.clone(), expected.clone())
    })
}

fn aged<const WORD: usize, const PAGE: usize>(
    layout: Layout,
    past: u8,
) -> (Cells<WORD, PAGE>, Expected) {
    let fuse = Fuse::new();
    let flash = RamFlash::new(chip::commissioned::<WORD, PAGE>(layout), &fuse);
    let (mut store, _) = FlashStore::mount(flash, layout);
    let mut expected = Expected::nothing();
    expected.spend();
    let mut dice = Dice::of(0x5E9, u64::from(past));
    for ask in life::random(&mut dice, u64::from(past) * A_WHILE) {
        if ask == Ask::Boot {
            store = FlashStore::mount(store.into_flash(), layout).0;
        } else {
            life::ask(&mut store, &ask).expect("a sound flash takes everything");
        }
        expected.ask(&ask);
    }
    (store.into_flash().into_chip(), expected)
}

/// What must hold.
enum Law {
    /// One of these, to the letter: what is under way may have happened.
    Whole(Vec<Expected>),
    /// A bit was flipped: these are listed.
    Listed(Promised),
}

impl Law {
    fn durable(&mut self, ask: &Ask) {
        match self {
            Self::Whole(cases) => cases.iter_mut().for_each(|case| case.ask(ask)),
            Self::Listed(promised) => {
                if let Some(record) = asks::record_of(ask) {
                    promised.durable(record);
                }
            }
        }
    }

    /// The power was cut while that was under way.
    fn cut(&mut self, ask: Option<&Ask>) {
        match self {
            Self::Whole(cases) => {
                if let Some(ask) = ask {
                    let mut done = cases.clone();
                    done.iter_mut().for_each(|case| case.ask(ask));
                    cases.extend(done);
                }
                cases.iter_mut().for_each(Expected::cut);
            }
            Self::Listed(promised) => {
                if let Some(record) = ask.and_then(asks::record_of) {
                    promised.failed(record.event.ring());
                }
                promised.spend();
            }
        }
    }

    fn boot(&mut self) {
        match self {
            Self::Whole(cases) => cases.iter_mut().for_each(Expected::spend),
            Self::Listed(promised) => promised.spend(),
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Rest {
    Yes,
    No,
}

/// A store, and what must hold of it.
struct Life<'f, const WORD: usize, const PAGE: usize> {
    layout: Layout,
    fuse: &'f Fuse,
    law: Law,
    cuts: u32,
    /// Asks since the store last had its rest.
    unrested: u32,
    last: Recovered,
    store: FlashStore<Flash<'f, WORD, PAGE>>,
}

impl<const WORD: usize, const PAGE: usize> Life<'_, WORD, PAGE> {
    fn ask(mut self, ask: &Ask, rest: Rest) -> Self {
        let done = asks::put(&mut self.store, ask);
        if done.is_ok() {
            self.law.durable(ask);
        }
        if self.fuse.blown() {
            self.cuts += 1;
            self.law.cut(done.is_err().then_some(ask));
            return self.boot(None);
        }
        if done.is_err() {
            self.refused(ask);
        }
        self.unrested += 1;
        if rest == Rest::No {
            return self;
        }
        // One call does all that is due; but none may be needed.
        let rested = self.store.tend();
        if self.fuse.blown() {
            self.cuts += 1;
            self.law.cut(None);
            return self.boot(None);
        }
        if matches!(self.law, Law::Whole(_)) {
            assert!(rested.is_ok(), "Invariant 3: a sound flash was not tended");
        }
        self.unrested = 0;
        self
    }

    /// It failed, and the power is on.
    fn refused(&mut self, ask: &Ask) {
        match &mut self.law {
            // Nothing is refused but what needs a page that nobody had the
            // time to erase; nothing of it was begun.
            Law::Whole(_) => {
                assert!(self.unrested > 0, "Invariant 3: {ask:?} failed on a sound flash");
            }
            Law::Listed(promised) => {
                if let Some(record) = asks::record_of(ask) {
                    promised.failed(record.event.ring());
                }
            }
        }
    }

    /// The power goes, perhaps a bit is flipped, and it comes back; it may be
    /// cut again within the boot, by a cut that was ordered before.
    fn boot(self, flipped: Option<u32>) -> Self {
        let Self { layout, fuse, mut law, mut cuts, store, .. } = self;
        let mut chip = store.into_flash().into_chip();
        if let Some(at) = flipped {
            let bits = u32::try_from(chip.capacity() * 8).unwrap_or(u32::MAX);
            let bit = at % bits;
            chip.flip_bit(bit / 8, u8::try_from(bit % 8).unwrap_or(0)).expect("it is in the chip");
        }
        // Power that was cut comes back without a further cut; power that was
        // on went between two steps, and what was ordered still comes.
        if fuse.blown() {
            fuse.power_cycle();
            fuse.cut_after(u64::MAX);
        }
        let mut flash = RamFlash::new(chip, fuse);
        loop {
            let before = fuse.steps();
            let (store, found) = FlashStore::mount(flash, layout);
            boot::took(fuse.steps() - before, layout, WORD);
            if !fuse.blown() {
                law.boot();
                let mut life = Self { layout, fuse, law, cuts, unrested: 0, last: found, store };
                life.judge();
                return life;
            }
            cuts += 1;
            law.cut(None);
            fuse.power_cycle();
            fuse.cut_after(u64::MAX);
            flash = RamFlash::new(store.into_flash().into_chip(), fuse);
        }
    }

    /// A bit flips while the power is off.
    fn flip(self, at: u32) -> Self {
        // At rest: the image is what a boot leaves.
        let mut life = self.boot(None);
        let first = matches!(life.law, Law::Whole(_));
        let settled = life.store.flash_mut().chip().weak_bits() == 0;
        let cuts = life.cuts;
        match &mut life.law {
            Law::Whole(_) => life.law = Law::Listed(Promised::default()),
            // A second one may hit what the first did.
            Law::Listed(promised) => promised.forget(),
        }
        let before = (life.last.tally.clone(), policy(&life.last));
        let life = life.boot(Some(at));
        if first && settled && life.cuts == cuts {
            let after = (life.last.tally.clone(), policy(&life.last));
            assert!(before.0 == after.0, "Invariant 12: one flipped bit changed a count");
            assert!(before.1 == after.1, "Invariant 12: one flipped bit changed the policy");
        }
        life
    }

    /// Whether the store holds what it must.
    fn judge(&mut self) {
        match &mut self.law {
            Law::Whole(cases) => {
                let (store, found, layout) = (&mut self.store, &self.last, self.layout);
                let mut wrong = Vec::new();
                cases.retain_mut(|case| match case.holds(store, found, layout) {
                    Ok(()) => true,
                    Err(what) => {
                        wrong.push(what);
                        false
                    }
                });
                assert!(!cases.is_empty(), "{}", wrong.join(" If the event counts: "));
                // Two that both hold hold the same.
                cases.truncate(2);
            }
            Law::Listed(promised) => promised.are_in(&list::of(&mut self.store)),
        }
    }

    /// Boots again, goes on a little, and boots once more.
    fn end(self) {
        let mut life = self.boot(None).boot(None);
        life.fuse.cut_after(u64::MAX);
        for ask in GOES_ON {
            life = life.ask(&ask, Rest::Yes);
        }
        let mut life = life.boot(None);
        let violations = life.store.flash_mut().chip().violations();
        assert!(violations.is_none(), "Invariant 13: {violations:?}");
    }
}

fn policy(found: &Recovered) -> Option<lock_core::policy::Policy> {
    found.known.as_ref().ok().map(|known| known.policy)
}

/// What every store goes on with at its end.
const GOES_ON: [Ask; 3] = [
    Ask::Write(Write::Record(Record { at: None, event: Recorded::Opened })),
    Ask::Write(Write::Record(Record { at: None, event: Recorded::LeftOpen })),
    Ask::Write(Write::Tally(Tally::Served)),
];
