//! The promises of `embedded_storage::nor_flash` and of the fault model.

use embedded_storage::nor_flash::{NorFlash, ReadNorFlash};

use super::*;

mod alike;
mod limits;
mod looks;
mod power;
mod tears;

type Small = RamFlash<4, 256, [u8; 512]>;

fn small() -> Small {
    Small::erased([0; 512])
}

#[test]
fn programming_clears_bits_and_never_raises_one() {
    let mut flash = small();
    assert_eq!(flash.write(4, &[0xF0; 4]), Ok(()));
    assert_eq!(flash.write(4, &[0x30; 4]), Ok(()));
    assert_eq!(flash.write(4, &[0x31; 4]), Err(FlashError::RaisesBits));
    assert_eq!(flash.content()[3..9], [0xFF, 0x30, 0x30, 0x30, 0x30, 0xFF]);
}

#[test]
fn erasing_sets_one_page_and_counts() {
    let mut flash = Small::with_content([0; 512]);
    assert_eq!(flash.erase(256, 512), Ok(()));
    assert_eq!(flash.content()[255..257], [0, 0xFF]);
    assert_eq!(flash.erases(), [0, 1]);
    assert_eq!(flash.steps(), 1);
}

#[test]
fn asks_for_alignment_and_bounds() {
    let mut flash = small();
    assert_eq!(flash.write(2, &[0; 4]), Err(FlashError::Alignment));
    assert_eq!(flash.write(4, &[0; 3]), Err(FlashError::Alignment));
    assert_eq!(flash.write(512, &[0; 4]), Err(FlashError::Bounds));
    assert_eq!(flash.erase(0, 128), Err(FlashError::Alignment));
    assert_eq!(flash.erase(256, 768), Err(FlashError::Bounds));
    assert_eq!(flash.erase(256, 0), Err(FlashError::Bounds));
    assert_eq!(flash.read(u32::MAX, &mut [0; 2]), Err(FlashError::Bounds));
    assert_eq!(flash.chip(), small().chip());
}

#[test]
fn a_cut_falls_between_words_and_lasts_until_the_power_is_back() {
    let mut flash = small();
    flash.cut_after(2);
    assert_eq!(flash.write(0, &[0; 12]), Err(FlashError::PowerOut));
    assert_eq!(flash.read(0, &mut [0; 1]), Err(FlashError::PowerOut));
    assert_eq!(flash.erase(0, 256), Err(FlashError::PowerOut));
    flash.power_cycle();
    let mut bytes = [1; 12];
    assert_eq!(flash.read(0, &mut bytes), Ok(()));
    assert_eq!(bytes, [0, 0, 0, 0, 0, 0, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF]);
}

#[test]
fn fails_lies_and_denies_when_told_to() {
    let mut flash = small();
    flash.fail_next_writes(1);
    assert_eq!(flash.write(0, &[0; 4]), Err(FlashError::Ordered));
    flash.lie_next_writes(1);
    assert_eq!(flash.write(0, &[0; 4]), Ok(()));
    assert_eq!(flash.content()[0], 0xFF);
    assert_eq!(flash.write(0, &[0; 4]), Ok(()));
    assert_eq!(flash.content()[0], 0);
    flash.deny_next_writes(1);
    assert_eq!(flash.erase(0, 256), Err(FlashError::Ordered));
    assert_eq!(flash.content()[0], 0xFF);
}

#[test]
fn a_trace_names_kind_address_and_length() {
    let mut flash = small();
    flash.start_trace();
    let _ = (flash.write(8, &[0; 8]), flash.read(1, &mut [0; 3]), flash.erase(256, 512));
    let op = |kind, address, length| Op { kind, address, length };
    let trace = flash.take_trace();
    let expected = [op(OpKind::Program, 8, 8), op(OpKind::Read, 1, 3), op(OpKind::Erase, 256, 256)];
    assert_eq!(trace.ops, expected);
    assert_eq!(trace.more, 0);
    assert_eq!(flash.take_trace(), Trace::default());
}
