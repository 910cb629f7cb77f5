//! Steps, cuts and returns of the power, through the flash as a store sees it.

use core::cell::RefCell;
use std::vec;
use std::vec::Vec;

use proptest::collection::vec as list;
use proptest::prelude::*;
use proptest::sample::select;

use super::looks::{Cells, Seen, done, look};
use super::*;
use crate::fuse::{Class, Cut};

/// An act that outlives the call.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Kept {
    Program(u32, Vec<u8>),
    Erase(u32),
}

impl Kept {
    fn act(&self) -> Act<'_> {
        match self {
            Self::Program(address, word) => Act::Program { address: *address, word },
            Self::Erase(page) => Act::Erase { page: *page },
        }
    }
}

/// Power that keeps a journal.
#[derive(Default)]
struct Journal(RefCell<Vec<Kept>>);

impl Power for Journal {
    fn step(&self, act: Act<'_>) -> Step {
        self.0.borrow_mut().push(match act {
            Act::Program { address, word } => Kept::Program(address, word.to_vec()),
            Act::Erase { page } => Kept::Erase(page),
            Act::Effect => return Step::Whole,
        });
        Step::Whole
    }

    fn is_on(&self) -> bool {
        true
    }

    fn returns(&self) -> u64 {
        0
    }
}

/// Calls of a store: programs of several words and erases of several pages.
#[derive(Clone, Debug)]
enum Call {
    Write(u32, Vec<u8>),
    Erase(u32, u32),
}

fn any_call() -> impl Strategy<Value = Call> {
    let write = (0..180u32, list(any::<u8>(), 0..10)).prop_map(|(word, bytes)| {
        let bytes = bytes.into_iter().flat_map(|byte| [byte, 0xFF, byte, 0]).collect();
        Call::Write(word * 4, bytes)
    });
    let erase = (0..3u32, 0..3u32).prop_map(|(from, more)| Call::Erase(from, (from + more).min(3)));
    prop_oneof![4 => write, 1 => erase]
}

fn ask<P: Power>(flash: &mut RamFlash<4, 256, Vec<u8>, P>, call: &Call) -> Result<(), FlashError> {
    match call {
        Call::Write(address, bytes) => flash.write(*address, bytes),
        Call::Erase(from, to) => flash.erase(from * 256, to * 256),
    }
}

proptest! {
    /// A flash that is cut within step `after` has the cells of a chip that
    /// did the steps before, and tore this one: a sweep may tear from a
    /// journal and never run the lock again.
    #[test]
    fn a_journal_tears_as_the_flash_does(
        calls in list(any_call(), 1..20),
        class in select(&Class::ALL[..]),
        seed: u64,
    ) {
        let fresh = Cells::<4>::erased(vec![0; 768])
            .with_limits(Limits { programs: PerWord::Twice, endurance: None });
        let journal = Journal::default();
        let mut flash = RamFlash::new(fresh.clone(), &journal);
        for call in &calls {
            let _ = ask(&mut flash, call);
        }
        let journal = journal.0.take();
        let mut rolled = fresh.clone();
        for (after, kept) in journal.iter().enumerate() {
            let mut flash = RamFlash::new(fresh.clone(), Fuse::new());
            flash.power().arm(Cut { after: u64::try_from(after).unwrap(), class, seed });
            let out = calls.iter().any(|call| ask(&mut flash, call) == Err(FlashError::PowerOut));
            prop_assert!(out && !flash.has_power() && flash.power().blown());
            prop_assert_eq!(flash.read(0, &mut [0]), Err(FlashError::PowerOut));
            prop_assert_eq!(flash.steps(), u64::try_from(after).unwrap() + 1);
            let mut torn = rolled.clone();
            prop_assert_eq!(torn.tear(&kept.act(), class, seed), Ok(()));
            prop_assert!(flash.chip().same_cells(&torn), "step {}", after);
            prop_assert_eq!(flash.erases(), torn.erases());
            prop_assert_eq!(rolled.complete(&kept.act()), Ok(()));
        }
        prop_assert!(flash.chip().same_cells(&rolled));
    }
}

/// Reads of the first boot that still find a step complete that only looks
/// done; `None`: all of them.
fn sleeps(seed: u64) -> Option<u32> {
    let fuse = Fuse::new();
    let mut flash = RamFlash::new(Cells::<4>::erased(vec![0; 512]), &fuse);
    fuse.arm(Cut { after: 0, class: Class::LooksDone, seed });
    assert_eq!(flash.write(8, &[0; 4]), Err(FlashError::PowerOut));
    let weak = flash.chip().weak_bits();
    assert!((1..32).contains(&weak), "{weak}");
    fuse.power_cycle();
    let mut word = [1; 4];
    let woke = (0..3_000).find(|_| {
        flash.read(8, &mut word).unwrap();
        word != [0; 4]
    });
    // The second boot finds it either way, whatever the first saw.
    fuse.power_cycle();
    flash.read(0, &mut word).unwrap();
    let whole = Act::Program { address: 8, word: &[0; 4] };
    let expected = done(&look(&Cells::<4>::erased(vec![0; 512])), &whole);
    let seen = look(flash.chip());
    let differs = seen.iter().zip(&expected).filter(|(seen, expected)| seen != expected);
    assert!(differs.clone().all(|(seen, _)| *seen == Seen::Either));
    assert_eq!(differs.count(), usize::try_from(weak).unwrap());
    woke
}

#[test]
fn what_looks_done_reads_complete_for_a_boot_or_for_some_reads() {
    let slept: Vec<_> = (0..200).map(sleeps).collect();
    let whole_boot = slept.iter().filter(|woke| woke.is_none()).count();
    assert!((60..140).contains(&whole_boot), "{whole_boot}");
    let woke = || slept.iter().flatten();
    assert!(woke().any(|reads| *reads < 4) && woke().any(|reads| *reads > 100), "{slept:?}");
}

/// A chip that moves to another board was without power, as one is that is
/// torn again.
#[test]
fn a_chip_that_is_plugged_in_again_wakes() {
    for seed in 0..20 {
        let mut chip = Cells::<4>::erased(vec![0; 256]);
        chip.tear(&Act::Program { address: 0, word: &[0; 4] }, Class::LooksDone, seed).unwrap();
        let mut torn_again = chip.clone();
        torn_again.tear(&Act::Effect, Class::Before, seed).unwrap();
        assert!(look(&torn_again).contains(&Seen::Either));
        let first = RamFlash::new(chip, Fuse::new()).into_chip();
        let second = RamFlash::new(first, Fuse::new()).into_chip();
        assert!(look(&second).contains(&Seen::Either));
    }
}
