//! Recordings on a laptop: written to files, and played again as any board plays
//! them.

use std::cell::RefCell;
use std::io;
use std::path::Path;

use emulated_board::conformance::{Ended, Sink, Source, Teller, Wrong, life, seek};
use emulated_board::flash::RamFlash;
use emulated_board::fuse::Fuse;
use lock_core::draw::Frame;
use lock_core::store::Layout;

use crate::files::{Eyes, There, write};
use crate::memory::{Cells, PAGE, WORD};
use crate::world::Recording;

/// More lives than any drill has: a recording that claims more is none.
const LIVES: u32 = 1_000;

/// Writes the four files of a recording into `folder`.
///
/// # Errors
/// Whatever the file system reports.
pub fn save(recording: &Recording, folder: &Path, name: &str) -> io::Result<()> {
    let Recording { flash, told, did, end } = recording;
    for (ending, bytes) in [("flash", flash), ("told", told), ("did", did), ("end", end)] {
        let path = folder.join(format!("{name}.{ending}"));
        // They hold the drill's codes.
        write(&path, bytes, There::Goes, Eyes::Owner)?;
    }
    Ok(())
}

/// Bytes that cues are read from.
struct Told<'b>(&'b [u8]);

impl Source for Told<'_> {
    fn fill(&mut self, to: &mut [u8]) -> bool {
        let Some((bytes, rest)) = self.0.split_at_checked(to.len()) else { return false };
        to.copy_from_slice(bytes);
        self.0 = rest;
        true
    }
}

/// Bytes that outputs are added to.
struct Out(RefCell<Vec<u8>>);

impl Sink for Out {
    fn take(&self, item: &[u8]) {
        self.0.borrow_mut().extend_from_slice(item);
    }
}

/// Plays what a recording's lock was told once more, each life with nothing of
/// the one before it but the image of its flash: what it did then, and the flash
/// at the end.
///
/// # Errors
/// [`Wrong`] if a life does not end as it is recorded to end.
pub fn play(flash: &[u8], told: &[u8]) -> Result<(Vec<u8>, Vec<u8>), Wrong> {
    let layout = Layout::for_pages_of(PAGE).ok_or(Wrong::Malformed)?;
    let capacity = layout.bytes(PAGE).and_then(|bytes| usize::try_from(bytes).ok());
    let capacity = capacity.ok_or(Wrong::Malformed)?;
    let (mut image, mut out) = (flash.to_vec(), Vec::new());
    for number in 0..LIVES {
        let mut cues = Told(told);
        let begun = match seek(&mut cues, number) {
            Ok(begun) => begun,
            // The recording ended without power.
            Err(Wrong::NoSuchLife) if number > 0 => return Ok((out, image)),
            Err(wrong) => return Err(wrong),
        };
        let fuse = Fuse::new();
        let chip: Cells = Recording::cells(&image, capacity).ok_or(Wrong::Malformed)?;
        let mut flash = RamFlash::<WORD, PAGE, _, _>::new(chip, &fuse);
        let teller = Teller::new(Out(RefCell::new(out)));
        let bus = (&mut flash, layout);
        let ended =
            life((begun.0, &begun.1), &mut cues, bus, &fuse, &teller, Some(&mut Frame::new()))?;
        out = teller.into_sink().0.into_inner();
        image = Recording::image(flash.chip());
        if ended == Ended::Over {
            return Ok((out, image));
        }
    }
    Err(Wrong::Malformed)
}
