//! A recording, played again without the world that it was made in, gives the
//! same outputs and the same flash. On ARM: `.ci/conformance`.

use std::path::Path;

use emulator::conformance::play;
use emulator::drill::{Drill, Play, files};
use emulator::world::Recording;

fn recordings() -> impl Iterator<Item = (String, Recording)> {
    let drills = Path::new(env!("CARGO_MANIFEST_DIR")).join("../emulator/demo/drills");
    files(&[drills]).unwrap().into_iter().map(|path| {
        let drill = Drill::load(&path).unwrap();
        let (played, recording) = Play::recorded(&drill).unwrap().finish_recorded();
        assert!(played.failures.is_empty(), "{}", drill.file);
        (drill.file, recording.unwrap())
    })
}

/// R10: every drill, each life on nothing but the saved flash.
#[test]
fn a_recording_played_again_gives_the_same() {
    for (name, recording) in recordings() {
        let (did, end) = play(&recording.flash, &recording.told).expect(&name);
        let first = did.iter().zip(&recording.did).position(|(seen, told)| seen != told);
        assert_eq!((first, did.len()), (None, recording.did.len()), "{name}");
        assert!(end == recording.end, "{name}: another flash at the end");
    }
}
