//! The reference firmware: the lock of lock-core on a Cortex-M3, told what a
//! recording says.
//!
//! Started under QEMU with the name of a recording and the number of a life (and
//! with the word `blind`, to draw no pictures), it
//! boots a lock on the flash in `NAME.flash`, tells it what `NAME.told` holds for
//! that life, and writes what the lock does to `NAME.out`. When the power ends, or
//! the recording, it saves the flash and ends the machine: nothing but the file
//! outlives it. `.ci/conformance` runs all lives of all drills and compares.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | one life, from file to file |
//! | `cells.rs` | memory that stands in for flash |
//! | `host.rs` | files and exit, by semihosting |
//! | `log.rs` | the device log, with the feature `defmt` |
//! | `marks.rs` | places in a run that whoever counts instructions finds by name |
//! | `stack.rs` | how deep the stack was |
#![no_std]
#![no_main]

mod cells;
mod host;
#[cfg(feature = "defmt")]
mod log;
mod marks;
#[path = "../panic_path.rs"]
mod panic_path;
mod stack;

use core::cell::RefCell;
use core::ffi::CStr;

// Its critical section: interrupts off, on a chip with one core.
use cortex_m as _;
use cortex_m_rt::entry;
use emulated_board::conformance::{Ended, Mark, Sink, Source, Teller, Wrong, life, seek};
use emulated_board::flash::{Chip, RamFlash, WEAK_STATE};
use emulated_board::fuse::Fuse;
use lock_core::draw::Frame;

use cells::{BYTES, Cells, LAYOUT, PAGE, WORD};
use host::{File, Mode, NAME};

/// Exit codes beside 0, the recording is over, and those of [`Fault::code`].
const POWER_GONE: u32 = 10;

/// Why nothing could be played.
enum Fault {
    /// The arguments are not a name and a number.
    Arguments,
    /// A file cannot be opened, read or written.
    File,
    /// It cannot be played as it was recorded.
    Recording(Wrong),
}

impl Fault {
    const fn code(&self) -> u32 {
        match self {
            Self::Arguments => 20,
            Self::File => 21,
            Self::Recording(Wrong::Malformed) => 30,
            Self::Recording(Wrong::NoSuchLife) => 31,
            Self::Recording(Wrong::EndedEarly) => 32,
            Self::Recording(Wrong::OutlivedCut) => 33,
            Self::Recording(Wrong::Restless) => 34,
        }
    }
}

#[entry]
fn main() -> ! {
    host::exit(match play() {
        Ok(Ended::Over) => 0,
        Ok(Ended::Power) => POWER_GONE,
        Err(fault) => fault.code(),
    })
}

fn play() -> Result<Ended, Fault> {
    let mut room = [0; NAME];
    let mut words = host::arguments(&mut room);
    let (Some(name), Some(number)) = (words.next(), words.next()) else {
        return Err(Fault::Arguments);
    };
    let number = core::str::from_utf8(number).ok().and_then(|number| number.parse().ok());
    let number = number.ok_or(Fault::Arguments)?;

    let mut told = Told(open(name, b".told", Mode::Read)?, Buffer::EMPTY);
    let (at, start) = seek(&mut told, number).map_err(Fault::Recording)?;
    let fuse = Fuse::new();
    let mut flash = RamFlash::<WORD, PAGE, Cells, _>::new(load(name)?, &fuse);
    let out = Out(RefCell::new((open(name, b".out", Mode::Write)?, Buffer::EMPTY)));
    let teller = Teller::new(out);
    #[cfg(feature = "defmt")]
    log::to(open(name, b".log", Mode::Write)?);
    let mut frame = (words.next() != Some(b"blind")).then(Frame::new);
    let bus = (&mut flash, LAYOUT);
    stack::paint();
    let ended = life((at, &start), &mut told, bus, &fuse, &teller, frame.as_mut());
    let deepest = stack::deepest();
    #[cfg(feature = "defmt")]
    log::end();
    teller.into_sink().flush()?;
    save(name, flash.chip())?;
    open(name, b".stack", Mode::Write)?.write(&deepest.to_le_bytes());
    ended.map_err(Fault::Recording)
}

/// The file of a recording with that ending.
fn open(name: &[u8], ending: &[u8], mode: Mode) -> Result<File, Fault> {
    let mut room = [0; NAME];
    for (to, from) in room.iter_mut().zip(name.iter().chain(ending)) {
        *to = *from;
    }
    // A name too long has no final zero in the room.
    let name = CStr::from_bytes_until_nul(&room).map_err(|_| Fault::Arguments)?;
    File::open(name, mode).ok_or(Fault::File)
}

fn load(name: &[u8]) -> Result<Chip<WORD, PAGE, Cells>, Fault> {
    let mut file = open(name, b".flash", Mode::Read)?;
    let mut content = Cells::new();
    if file.read(content.as_mut()) < BYTES {
        return Err(Fault::File);
    }
    let chip = Chip::with_content(content);
    let mut mask = Cells::new();
    match file.read(mask.as_mut()) {
        0 => Ok(chip),
        BYTES => {
            let mut state = [0; WEAK_STATE];
            let whole = file.read(&mut state) == state.len();
            chip.with_weak(mask, &state).filter(|_| whole).ok_or(Fault::File)
        }
        _ => Err(Fault::File),
    }
}

fn save(name: &[u8], chip: &Chip<WORD, PAGE, Cells>) -> Result<(), Fault> {
    let mut file = open(name, b".flash", Mode::Write)?;
    let mut whole = file.write(chip.content());
    if let (Some(mask), Some(state)) = (chip.weak_mask(), chip.weak_state()) {
        whole = whole && file.write(mask) && file.write(&state);
    }
    if whole { Ok(()) } else { Err(Fault::File) }
}

/// Bytes on their way from or to a file.
struct Buffer {
    bytes: [u8; 512],
    from: usize,
    to: usize,
}

impl Buffer {
    const EMPTY: Self = Self { bytes: [0; 512], from: 0, to: 0 };
}

/// The file of cues.
struct Told(File, Buffer);

impl Source for Told {
    fn fill(&mut self, to: &mut [u8]) -> bool {
        let Self(file, buffer) = self;
        for byte in to {
            if buffer.from >= buffer.to {
                (buffer.from, buffer.to) = (0, file.read(&mut buffer.bytes));
            }
            let Some(next) = buffer.bytes.get(..buffer.to).and_then(|all| all.get(buffer.from))
            else {
                return false;
            };
            *byte = *next;
            buffer.from += 1;
        }
        true
    }
}

/// The file of outputs.
struct Out(RefCell<(File, Buffer)>);

impl Out {
    fn flush(self) -> Result<(), Fault> {
        let (mut file, buffer) = self.0.into_inner();
        let left = buffer.bytes.get(..buffer.to).unwrap_or_default();
        if file.write(left) { Ok(()) } else { Err(Fault::File) }
    }
}

impl Sink for Out {
    fn mark(&self, mark: Mark) {
        marks::pass(mark);
    }

    fn take(&self, item: &[u8]) {
        let Ok(mut inner) = self.0.try_borrow_mut() else { return };
        let (file, buffer) = &mut *inner;
        for byte in item {
            if buffer.to >= buffer.bytes.len() {
                file.write(&buffer.bytes);
                buffer.to = 0;
            }
            if let Some(slot) = buffer.bytes.get_mut(buffer.to) {
                *slot = *byte;
                buffer.to += 1;
            }
        }
    }
}
