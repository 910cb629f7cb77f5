//! A lock without hardware: hands set it up and open it, and it says what it did.

use lock_core::board::{Bench, NotTaken};
use lock_core::device::{Device, Progress};
use lock_core::port::{Drive, Effect, Write};
use lock_core::store::{Ram, RamStore};
use lock_core::time::Utc;

fn main() -> Result<(), NotTaken> {
    // Monday, 1 March 2027, 09:00 UTC. The door is open, and nobody is enrolled.
    let mut bench = Bench::at(Utc::from_secs(1_803_891_600));
    // The first warden: number 01, and a code twice.
    bench.press("ok 01 ok 480317 ok 480317 ok ok")?;
    // The warden enrols 12 as a keyholder (3), who may open at all hours (9).
    bench.press("ok ok 1 01 480317 ok 12 ok 3 9 739204 ok 739204 ok ok")?;
    // The door is closed, and 12's code frees the bolt: number, code, OK.
    bench.shut()?;
    bench.press("12 739204 ok")?;

    let (store, found) = RamStore::mount(Ram::blank(), Ram::LAYOUT);
    let mut lock = Device::power_up(bench, store, found);
    loop {
        match lock.advance() {
            Progress::Wrote(Write::Record(record) | Write::Edit(record), Ok(())) => {
                println!("on record: {}", record.event.kind());
            }
            Progress::Did(Effect::Drive(to)) => println!("the blocker: {to:?}"),
            Progress::Asleep(_) => break, // A board sleeps here, and goes on.
            Progress::Did(_) | Progress::Wrote(..) | Progress::Took(_) | Progress::Tended(_) => {}
        }
    }
    assert_eq!(lock.board().blocker, Drive::Free);
    Ok(())
}
