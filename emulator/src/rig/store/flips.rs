//! Cells that fail at rest: every bit of an image flipped, and pairs of bits.
//!
//! One flipped bit changes nothing at all. Two may cost a record, which is then
//! named as missing, or the settings or the tally, which is then said; they
//! never bring back what was replaced, and never lower a count (but by the
//! newest entry, which a power cut could have torn as well).

use embedded_storage::nor_flash::NorFlash;
use emulated_board::flash::RamFlash;
use emulated_board::fuse::Fuse;
use lock_core::audit::{Entry, Record, Ring, Seq};
use lock_core::port::{Fault, Reads};
use lock_core::recovered::{Known, Recovered};
use lock_core::rules::Days;
use lock_core::settings::FileState;
use lock_core::store::{FlashStore, Layout};
use lock_core::time::Date;
use lock_core::timetable::{Day, TimetableId};

use super::chip::{self, Cells, Mains, Size};
use super::life;
use crate::rig::{Cases, Covered, Dice, Failure};

/// Flipped bits of a used store's image.
#[derive(Clone, Copy, Debug)]
pub struct Flips {
    /// Where the random numbers start.
    pub seed: u64,
    /// One bit, every one of them, or pairs at random.
    pub pairs: Option<u64>,
}

/// A chip of a small lock: words of 8 bytes, pages of 512.
type Small = Cells<8, 512>;
const PAGE: usize = 512;
/// Bits, or pairs, that one case goes through.
const A_CASE: u64 = 1_024;

/// What lies in the image, as a store lists it.
struct Image {
    chip: Small,
    layout: Layout,
    listed: Vec<(Seq, Record)>,
    /// What was listed before the last boots made room: a boot that finds no
    /// settings leaves all as it is, and lists it still.
    before: Vec<(Seq, Record)>,
    found: Recovered,
    changes: [Option<u32>; 3],
    /// Who of the first three is enrolled.
    enrolled: [Option<bool>; 3],
}

impl Image {
    fn of(seed: u64) -> Self {
        let layout = chip::layout(PAGE, Size::Smallest);
        let mut dice = Dice::of(seed, 0);
        let flash = RamFlash::new(chip::commissioned(layout), Mains::default());
        let (mut store, _) = FlashStore::mount(flash, layout);
        for ask in life::random(&mut dice, 500) {
            // A chip without faults takes everything.
            let _ = life::ask(&mut store, &ask);
        }
        let (before, _) = list(&mut store).unwrap_or_default();
        // At rest: one more boot, so that the image is what a boot leaves.
        let (store, _) = FlashStore::mount(store.into_flash(), layout);
        let chip = store.into_flash().into_chip();
        let (mut store, found) = boot(chip.clone(), layout);
        let (listed, _) = list(&mut store).unwrap_or_default();
        let changes = changes(&mut store);
        let enrolled = enrolled(&mut store);
        Self { chip, layout, listed, before, found, changes, enrolled }
    }
}

type Store = FlashStore<RamFlash<8, PAGE, Vec<u8>, Fuse>>;

fn boot(chip: Small, layout: Layout) -> (Store, Recovered) {
    FlashStore::mount(RamFlash::new(chip, Fuse::new()), layout)
}

/// The last changes of two kinds, as far as they can be read.
fn changes(store: &mut Store) -> [Option<u32>; 3] {
    let holder = lock_core::holder::Number::new(1).and_then(|n| store.holder(n).ok().flatten());
    let pairing = store.pairing().ok().map(|pairing| pairing.map_or(0, |p| p.generation()));
    // A Monday of the first timetable.
    let monday = match store.day(TimetableId::A, Date::from_days(4)) {
        Ok(Day::Windows(windows)) => {
            Some(windows.first().map_or(0, |window| u32::from(window.from().get()) + 1))
        }
        Ok(Day::Closed) | Err(_) => None,
    };
    [holder.map(|row| row.counter), pairing, monday]
}

/// Who of the first three is enrolled; `None` where nobody can tell.
fn enrolled(store: &mut Store) -> [Option<bool>; 3] {
    [1, 2, 3].map(|n| {
        let row = store.holder(lock_core::holder::Number::new(n)?);
        row.ok().map(|row| row.is_some())
    })
}

/// The records, and how many are said to be lost.
fn list<F: NorFlash>(store: &mut FlashStore<F>) -> Result<(Vec<(Seq, Record)>, u32), String> {
    let (mut records, mut lost, mut due) = (Vec::new(), 0, 1);
    for entry in store.records(Seq(0)) {
        let first = match entry {
            Entry::Record(seq, record) => {
                records.push((seq, record));
                seq
            }
            Entry::Gap(gap) => {
                lost += gap.lost;
                gap.from
            }
        };
        if first.0 != due {
            return Err(format!("Invariant 8: {} is listed where {due} is due.", first.0));
        }
        due = entry.last().0.saturating_add(1);
    }
    Ok((records, lost))
}

impl Cases for Flips {
    fn count(&self) -> Option<u64> {
        let bits = chip::layout(PAGE, Size::Smallest).bytes(PAGE).map_or(0, |b| u64::from(b) * 8);
        Some(self.pairs.unwrap_or(bits).div_ceil(A_CASE))
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        let image = Image::of(self.seed);
        let bits = u64::try_from(image.chip.capacity()).unwrap_or(0) * 8;
        let mut dice = Dice::of(self.seed, case.saturating_add(1));
        for n in case * A_CASE..(case + 1) * A_CASE {
            let flipped = match self.pairs {
                None if n < bits => vec![n],
                Some(pairs) if n < pairs => near(&mut dice, bits),
                _ => break,
            };
            covered.add(if flipped.len() > 1 { "pairs of bits" } else { "bits" }, 1);
            judge(&image, &flipped).map_err(|what| Failure {
                what,
                repeat: String::new(),
                events: flipped.iter().map(|bit| format!("bit {bit} flipped")).collect(),
            })?;
        }
        Ok(())
    }
}

/// Two bits, half of the time in one block: there they do most harm.
fn near(dice: &mut Dice, bits: u64) -> Vec<u64> {
    let layout = chip::layout(PAGE, Size::Smallest);
    let bits_of = |pages: u32| u64::from(pages) * u64::try_from(PAGE).unwrap_or(0) * 8;
    let bank = bits_of(layout.bank_pages);
    let one = match dice.below(8) {
        // Where one block speaks for a whole bank of settings,
        0 => dice.below(2) * bank + dice.below(256),
        // and for all counts.
        1 => 2 * bank + dice.below(bits_of(layout.tally_pages)),
        _ => dice.below(bits),
    };
    let other =
        if dice.below(2) == 0 { dice.below(bits) } else { one / 256 * 256 + dice.below(256) };
    vec![one, other]
}

fn judge(image: &Image, flipped: &[u64]) -> Result<(), String> {
    let mut chip = image.chip.clone();
    for bit in flipped {
        let (address, bit) = (u32::try_from(bit / 8), u8::try_from(bit % 8));
        let (Ok(address), Ok(bit)) = (address, bit) else { continue };
        chip.flip_bit(address, bit).map_err(|why| format!("{why:?}"))?;
    }
    let (store, first) = boot(chip, image.layout);
    let (mut store, second) = boot(store.into_flash().into_chip(), image.layout);
    let (listed, lost) = list(&mut store)?;
    for found in [&first, &second] {
        counts(image, found, flipped.len())?;
    }
    for (n, (was, is)) in (1..).zip(image.enrolled.iter().zip(enrolled(&mut store))) {
        match is {
            Some(_) if is == *was => {}
            Some(_) => return Err(format!("Invariant 12: holder {n} came or went.")),
            None if flipped.len() > 1 || first.known.is_err() => {}
            None => return Err(format!("Invariant 12: holder {n} cannot be read.")),
        }
    }
    for (was, is) in image.changes.iter().zip(changes(&mut store)) {
        if is.is_some() && is != *was {
            return Err("Invariant 7: settings that were replaced came back.".into());
        }
    }
    records(image, &listed, lost, flipped.len())
}

fn counts(image: &Image, found: &Recovered, flipped: usize) -> Result<(), String> {
    match &found.known {
        Ok(known) => {
            let told = |known: &Known| (known.policy, known.enrolled, *known.key.as_bytes());
            let Ok(before) = &image.found.known else {
                return Err("Invariant 12: settings came from nowhere.".into());
            };
            if told(before) != told(known) {
                return Err("Invariant 12: another policy is in force.".into());
            }
            let lost = before.file.waits.map(|waiting| waiting.version);
            let lost = FileState { waits: None, lost, ..before.file };
            if known.file != before.file && (flipped == 1 || known.file != lost) {
                return Err("Invariant 12: another file is in force, or waits.".into());
            }
        }
        Err(Fault::Settings) if flipped > 1 => return Ok(()),
        Err(fault) => return Err(format!("Invariant 12: {fault:?} after {flipped} flips.")),
    }
    let (was, is) = (&image.found.tally, &found.tally);
    if was == is {
        return Ok(());
    }
    let totals = was.totals.iter().zip(&is.totals).filter(|(was, is)| was != is).count();
    let weights = was.weights.len().abs_diff(is.weights.len());
    // The newest entry may be lost: one number's total and weight, or, with a penalty, all
    // that weighs.
    if flipped > 1 && totals <= 1 && (totals == 0 || weights <= 1) {
        return Ok(());
    }
    Err("Invariant 12: counts or marks of the tally changed.".into())
}

fn records(
    image: &Image,
    listed: &[(Seq, Record)],
    lost: u32,
    flipped: usize,
) -> Result<(), String> {
    let known = |item| image.listed.contains(item) || image.before.contains(item);
    if !listed.iter().all(known) {
        return Err("Invariant 12: a record is listed that was not there.".into());
    }
    // A flip in a blank slot may look like a record that was being written, for
    // which a page is begun: the oldest of a ring are overwritten earlier.
    let tail = |all: &[(Seq, Record)], ring| -> Vec<(Seq, Record)> {
        all.iter().filter(|(_, r)| r.event.ring() == ring).copied().collect()
    };
    for (ring, kept) in [
        (Ring::Openings, image.layout.openings_kept(PAGE)),
        (Ring::Refusals, image.layout.refusals_kept(PAGE)),
    ] {
        let (was, is) = (tail(&image.listed, ring), tail(listed, ring));
        // Boots of the past copied records too.
        let enough = usize::try_from(kept).unwrap_or(0).div_ceil(2).min(was.len());
        if flipped == 1 && (!was.ends_with(&is) || is.len() < enough || lost > 1) {
            return Err("Invariant 12: one flipped bit cost a record.".into());
        }
    }
    Ok(())
}
