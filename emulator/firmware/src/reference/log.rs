//! The device log: defmt frames in a file of the host.
//!
//! A logger of our own, since those that write to semihosting have a panic path
//! for a case that cannot come up here: nothing interrupts this machine.

use core::cell::UnsafeCell;

use defmt::Encoder;

use super::host::File;

struct Log {
    file: Option<File>,
    encoder: Encoder,
}

struct Cell(UnsafeCell<Log>);

// SAFETY: there is one core and no interrupt, and no call below makes another.
unsafe impl Sync for Cell {}

static LOG: Cell = Cell(UnsafeCell::new(Log { file: None, encoder: Encoder::new() }));

/// Runs `act` on the log.
fn with(act: impl FnOnce(&mut Option<File>, &mut Encoder)) {
    // SAFETY: nobody else has it, see above.
    let Log { file, encoder } = unsafe { &mut *LOG.0.get() };
    act(file, encoder);
}

fn put(file: &mut Option<File>) -> impl FnMut(&[u8]) {
    move |bytes| {
        if let Some(file) = file {
            file.write(bytes);
        }
    }
}

/// The log goes to that file from now on.
pub fn to(file: File) {
    with(|place, _| *place = Some(file));
}

/// The log ends, and its file is whole.
pub fn end() {
    with(|place, _| *place = None);
}

#[defmt::global_logger]
struct Logger;

// SAFETY: between `acquire` and `release` nobody else comes, since nothing
// interrupts; nothing is lost but what the host does not take.
unsafe impl defmt::Logger for Logger {
    fn acquire() {
        with(|file, encoder| encoder.start_frame(put(file)));
    }

    unsafe fn flush() {}

    unsafe fn release() {
        with(|file, encoder| encoder.end_frame(put(file)));
    }

    unsafe fn write(bytes: &[u8]) {
        with(|file, encoder| encoder.write(bytes, put(file)));
    }
}
