//! What a chip takes, after data sheets: programs of a word, erases of a page.
//! Faults at rest and of the bus.

use std::vec;
use std::vec::Vec;

use super::looks::{Cells, Seen, look};
use super::*;
use crate::fuse::Class;

fn limited(programs: PerWord) -> Cells<4> {
    Cells::erased(vec![0; 512]).with_limits(Limits { programs, endurance: None })
}

fn program(chip: &mut Cells<4>, word: &[u8; 4]) -> Result<(), FlashError> {
    chip.complete(&Act::Program { address: 4, word })
}

#[test]
fn a_word_takes_as_many_programs_as_its_limit() {
    use FlashError::ProgramLimit;
    // Three programs of the same word, and what each limit says to them.
    let cases = [
        (PerWord::Once, [Ok(()), Err(ProgramLimit), Err(ProgramLimit)]),
        (PerWord::Twice, [Ok(()), Ok(()), Err(ProgramLimit)]),
        (PerWord::TwiceIfZero, [Ok(()), Err(ProgramLimit), Err(ProgramLimit)]),
        (PerWord::Unlimited, [Ok(()); 3]),
    ];
    for (limit, says) in cases {
        let mut chip = limited(limit);
        for _ in 0..2 {
            let said = [[0xFF; 4], [0x77; 4], [0x33; 4]].map(|word| program(&mut chip, &word));
            assert_eq!(said, says, "{limit:?}");
            assert_eq!(chip.complete(&Act::Erase { page: 0 }), Ok(()));
        }
        let refused = u32::try_from(says.iter().filter(|said| said.is_err()).count()).unwrap();
        assert_eq!(chip.violations(), Violations { raised: 0, over_limit: 2 * refused });
        assert_eq!(chip.violations().is_none(), refused == 0);
    }
    let mut chip = limited(PerWord::TwiceIfZero);
    let said = [[0x77; 4], [0; 4], [0; 4]].map(|word| program(&mut chip, &word));
    assert_eq!(said, [Ok(()), Ok(()), Err(ProgramLimit)]);
}

#[test]
fn a_limit_counts_what_is_in_the_chip_already() {
    let mut chip = Cells::<4>::erased(vec![0; 512]);
    chip.content_mut()[7] = 0xFE;
    let mut chip = chip.with_limits(Limits { programs: PerWord::Once, endurance: None });
    assert_eq!(program(&mut chip, &[0; 4]), Err(FlashError::ProgramLimit));
    assert_eq!(chip.complete(&Act::Program { address: 8, word: &[0; 4] }), Ok(()));
}

#[test]
fn a_torn_program_counts_if_it_did_anything() {
    for class in Class::ALL {
        for seed in 0..50 {
            for word in [[0xFF; 4], [0xFF, 0xFE, 0xFF, 0xFF], [0x12; 4]] {
                let mut chip = limited(PerWord::Once);
                let blank = look(&chip);
                chip.tear(&Act::Program { address: 4, word: &word }, class, seed).unwrap();
                chip.power_up();
                chip.power_up();
                let acted = look(&chip) != blank || class == Class::After;
                let says = if acted { Err(FlashError::ProgramLimit) } else { Ok(()) };
                // What of the word is settled at 0 is not asked for again.
                assert_eq!(program(&mut chip, &[0; 4]), says, "{class:?} {seed} {word:?}");
            }
        }
    }
}

/// A word that a torn erase left without a 0 looks blank to any lock, and
/// takes a program; one with a 0 settled does not.
#[test]
fn a_torn_erase_frees_the_words_that_no_lock_can_tell_from_blank_ones() {
    let mut freed = 0;
    for class in Class::ALL {
        for seed in 0..50 {
            let mut chip = limited(PerWord::Once);
            for address in (0..256).step_by(4) {
                let act = Act::Program { address, word: &[0xFF, 0x0F, 0xFF, 0xF7] };
                // Some words have weak bits already, and a 0 settled.
                let was = if address % 16 == 0 { Class::LooksDone } else { Class::After };
                chip.tear(&act, was, seed + u64::from(address)).unwrap();
            }
            chip.power_up();
            chip.power_up();
            let erases = chip.erases()[0];
            chip.tear(&Act::Erase { page: 0 }, class, seed).unwrap();
            let wears = u32::from(class != Class::Before);
            assert_eq!(chip.erases()[0], erases + wears);
            chip.power_up();
            chip.power_up();
            let seen = look(&chip);
            for address in (0..256).step_by(4) {
                let from = usize::try_from(address).unwrap() * 8;
                let blank = !seen[from..from + 32].contains(&Seen::Zero);
                let says = chip.complete(&Act::Program { address, word: &[0; 4] });
                assert_eq!(says.is_ok(), blank, "{class:?} {seed} {address}");
                freed += u32::from(blank);
            }
        }
    }
    assert!(freed > 1_000);
}

/// Words that were programmed with nothing but ones are freed too, where the
/// erase reached them.
#[test]
fn a_torn_erase_frees_words_of_ones_that_it_reached() {
    for class in Class::ALL {
        for seed in 0..50 {
            let mut chip = limited(PerWord::Once);
            for address in (0..256).step_by(4) {
                let word = if address == 128 { [0xFF; 4] } else { [0; 4] };
                chip.complete(&Act::Program { address, word: &word }).unwrap();
            }
            chip.tear(&Act::Erase { page: 0 }, class, seed).unwrap();
            let (front, back) = (chip.content()[124] != 0, chip.content()[132] != 0);
            let says = chip.complete(&Act::Program { address: 128, word: &[0xFF; 4] });
            let freed = match class {
                Class::Before => false,
                Class::After | Class::Subset | Class::Unstable | Class::LooksDone => true,
                Class::Prefix => back,
                Class::Suffix => front,
                // It may have any content.
                Class::Random => continue,
            };
            // A part may end within the word.
            if !(matches!(class, Class::Prefix | Class::Suffix) && front != back) {
                assert_eq!(says.is_ok(), freed, "{class:?} {seed}");
            }
        }
    }
}

#[test]
fn a_worn_page_fails_or_does_nothing() {
    for then in [Worn::Fails, Worn::DoesNothing] {
        let endurance = Some(Endurance { erases: 3, then });
        let limits = Limits { programs: PerWord::Unlimited, endurance };
        let mut chip = Cells::<4>::erased(vec![0; 512]).with_limits(limits);
        for _ in 0..2 {
            assert_eq!(chip.complete(&Act::Erase { page: 0 }), Ok(()));
            assert_eq!(program(&mut chip, &[0x55; 4]), Ok(()));
        }
        assert_eq!(chip.complete(&Act::Erase { page: 0 }), Ok(()));
        let worn = chip.clone();
        let says = match then {
            Worn::Fails => Err(FlashError::Worn),
            Worn::DoesNothing => Ok(()),
        };
        assert_eq!(program(&mut chip, &[0x55; 4]), says);
        assert_eq!(chip.complete(&Act::Erase { page: 0 }), says);
        for class in Class::ALL {
            assert_eq!(chip.tear(&Act::Erase { page: 0 }, class, 1), Ok(()));
            let act = Act::Program { address: 8, word: &[0; 4] };
            assert_eq!(chip.tear(&act, class, 1), Ok(()));
        }
        assert_eq!(chip, worn);
        // The other page is as good as ever.
        let other = Act::Program { address: 256, word: &[0; 4] };
        assert_eq!(chip.complete(&other), Ok(()));
        assert_eq!(chip.content()[256], 0);
    }
}

#[test]
fn a_raised_bit_is_refused_and_counted() {
    let mut flash = small();
    assert_eq!(flash.write(4, &[0; 4]), Ok(()));
    let before = flash.chip().clone();
    assert_eq!(flash.write(0, &[0, 0, 0, 0, 1, 0, 0, 0]), Err(FlashError::RaisesBits));
    let erase = Act::Program { address: 4, word: &[0x80, 0, 0, 0] };
    assert_eq!(flash.chip_mut().tear(&erase, Class::Subset, 1), Err(FlashError::RaisesBits));
    assert_eq!(flash.chip().violations(), Violations { raised: 2, over_limit: 0 });
    assert!(flash.chip().same_cells(&before));
    assert_eq!(flash.steps(), 1);
}

#[test]
fn bits_flip_and_stick_at_rest() {
    let mut chip = Cells::<4>::erased(vec![0; 512]);
    assert_eq!(chip.flip_bit(5, 7), Ok(()));
    assert_eq!(chip.content()[5], 0x7F);
    assert_eq!(chip.flip_bit(5, 7), Ok(()));
    assert_eq!(chip, Cells::erased(vec![0; 512]));
    assert_eq!(chip.flip_bit(5, 8), Err(FlashError::Bounds));
    assert_eq!(chip.flip_bit(512, 0), Err(FlashError::Bounds));
    assert_eq!(chip.stick_bit(4, 0, StuckAt::Zero), Ok(()));
    assert_eq!(chip.stick_bit(4, 1, StuckAt::One), Ok(()));
    let mut byte = [0];
    for class in Class::ALL {
        for seed in 0..20 {
            let mut chip = chip.clone();
            let act = Act::Program { address: 4, word: &[0; 4] };
            assert_eq!(chip.tear(&act, class, seed), Ok(()));
            for _ in 0..50 {
                chip.read(4, &mut byte).unwrap();
                assert_eq!(byte[0] & 3, 2, "{class:?} {seed}");
            }
            assert_eq!(chip.complete(&Act::Erase { page: 0 }), Ok(()));
            assert_eq!(chip.content()[4], 0xFE);
        }
    }
    let more: Vec<_> = (0..STUCK).map(|_| chip.stick_bit(9, 0, StuckAt::One)).collect();
    assert_eq!(more.last(), Some(&Err(FlashError::TooMany)));
}

#[test]
fn the_bus_fails_when_told_to_and_recovers() {
    let mut flash = small();
    let mut byte = [0];
    flash.fail_calls(OpKind::Read, 1, 2);
    let reads: Vec<_> = (0..4).map(|_| flash.read(0, &mut byte)).collect();
    assert_eq!(reads, [Ok(()), Err(FlashError::Ordered), Err(FlashError::Ordered), Ok(())]);
    flash.fail_calls(OpKind::Program, 0, 1);
    flash.fail_calls(OpKind::Erase, 0, 1);
    assert_eq!(flash.write(0, &[0; 4]), Err(FlashError::Ordered));
    assert_eq!(flash.erase(0, 256), Err(FlashError::Ordered));
    assert_eq!(flash.steps(), 0);
    assert_eq!((flash.write(0, &[0; 4]), flash.erase(0, 256)), (Ok(()), Ok(())));
}
