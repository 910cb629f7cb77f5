//! Inputs to begin with: a few that get far, from which the fuzzer goes on.

use crate::image::{self, Seal};

/// An input, and the name of its file.
pub type Seed = (&'static str, Vec<u8>);

/// Inputs of the target `text`.
#[must_use]
pub fn of_texts() -> Vec<Seed> {
    let of = |what: u8, text: &str| [&[what], text.as_bytes()].concat();
    vec![
        ("site", of(0, emulator::tour::SITE)),
        ("longer", of(0, include_str!("../../../emulator/demo/files/longer-mondays.toml"))),
        ("drill", of(1, include_str!("../../../emulator/demo/drills/r03-hold-shut.toml"))),
        (
            "cut",
            of(1, include_str!("../../../emulator/demo/drills/r02-a-cut-shortens-no-penalty.toml")),
        ),
        ("files", of(1, include_str!("../../../emulator/demo/drills/files-wider-waits.toml"))),
        ("stick", of(1, include_str!("../../../emulator/demo/drills/files-by-memory-stick.toml"))),
    ]
}

/// Inputs of the target `link`.
#[must_use]
pub fn of_links() -> Vec<Seed> {
    let mut timetables = vec![2, 4];
    timetables.extend(b"UTC0");
    // Monday of A from 08:30 to 12:30, one closure, one special day.
    timetables.extend([1, 0xFE, 0x03, 0xEE, 0x05]);
    timetables.extend([0; 27]);
    timetables.extend([1, 0xB9, 0xA5, 0x01, 0xBA, 0xA5, 0x01, 0x0F]);
    timetables.extend([1, 0xB8, 0xA5, 0x01, 0x0F, 1, 0xFE, 0x03, 0xD0, 0x05]);
    let item = |head: [u8; 7], numbers: [u32; 3]| {
        let mut item = head.to_vec();
        item.push(0);
        item.extend(numbers.into_iter().flat_map(u32::to_le_bytes));
        item
    };
    let mut records = vec![3, 0, 3];
    records.extend(item([1, 0, 12, 7, 255, 255, 255], [1, 0, u32::MAX]));
    records.extend(item([2, 0, 0, 0, 0, 0, 0], [2, 3, 1]));
    records.extend(item([4, 0, 0, 0, 0, 0, 0], [2, 3, 0]));
    vec![
        ("hello", vec![0, 1, 0]),
        ("load", vec![0, 1, 2, 0, 3, 7, 8, 9]),
        ("frame", vec![0, 1, 8, 1, 6, 0x7B, 0x5C, 0x4E, 0x1D, 0]),
        ("raw", [&[1, 0x9C, 0x4C, 0x6B, 0x0A, 1, 1, 0xE9, 3, 3, 0, 0, 0][..], &[7; 40]].concat()),
        ("timetables", timetables),
        ("records", records),
    ]
}

/// Inputs of the target `image`.
#[must_use]
pub fn of_images() -> Vec<Seed> {
    // Where the regions of a flash of 80 pages of 256 bytes begin.
    let [tally, openings, refusals] = [72, 74, 77_u16].map(|page| page * 256);
    let mut record = [0xFF; 28];
    for (to, from) in record.iter_mut().zip([3, 0, 0xFF, 0xFF, 0xFF, 0xFF, 0, 1]) {
        *to = from;
    }
    let sealed = |base: u8, at: u16, seal: Seal, bytes: &[u8]| {
        let mut input = vec![base, 1];
        input.extend(image::patch(at, seal, bytes));
        // Two asks and an entry.
        input.extend([2, 0, 0, 1, 112, 2, 1, 9, 0, 0, 1, 7, 3, 9, 2, 0, 4, 11]);
        input
    };
    let whole = |base: u8| {
        let mut input = image::content(&mut arbitrary::Unstructured::new(&[base]));
        input.extend([0, 1, 112, 2, 1, 9]);
        input
    };
    vec![
        ("erased", vec![0, 0]),
        ("new", vec![2, 0, 4, 112, 2, 1, 9, 0, 0, 1, 240, 4, 2, 1, 9, 0, 6, 1]),
        ("used", vec![9, 0, 4, 112, 2, 1, 9, 0, 0, 1, 240, 5, 2, 1, 9, 0, 6, 1]),
        ("old", vec![15, 0, 2, 112, 1, 1, 9, 112, 16, 1, 9]),
        ("record", sealed(9, openings + 64, Seal::Slot, &record)),
        ("refusal", sealed(10, refusals + 32, Seal::Slot, &[16, 0, 1, 0xFF])),
        ("checkpoint", sealed(11, tally, Seal::Checkpoint, &[64, 1, 1, 1, 9, 0, 0, 0])),
        ("row", sealed(12, 64 * 7, Seal::Row, &[132, 1, 1, 0, 3, 1, 1, 0])),
        ("header", sealed(12, 0, Seal::Row, &[128, 4, 1, 0, 1, 0, 0, 0])),
        ("whole", whole(12)),
        // What was found once: a tally that is behind, and is believed again
        // after the next record; a record that names a tally so far away that it
        // seems older than the next page; a record under the last number there is.
        ("behind", vec![11, 1, 0, 72, 19, 64, 1, 1, 1, 9, 0, 136, 136, 136, 136, 136]),
        (
            "far-tally",
            vec![
                12, 1, 0, 74, 57, 3, 0, 0, 1, 2, 0, 0, 181, 255, 245, 245, 245, 245, 245, 255, 255,
                255, 255, 255, 255, 255, 255, 255, 255, 221, 255, 255, 8, 11, 72, 19, 0, 255, 0, 0,
                0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 141, 255, 255, 255, 255, 255, 255, 255,
                255, 112, 112, 16, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 9, 0, 11,
            ],
        ),
        (
            "last-number",
            vec![
                12, 1, 0, 74, 57, 3, 0, 0, 1, 2, 0, 0, 0, 255, 255, 255, 255, 255, 255, 255, 0, 0,
                0, 255, 255, 255, 250, 255, 255, 57, 3, 0, 255, 17, 17, 17, 255, 255, 255, 255,
                255, 0, 0, 0, 0, 255, 255, 31, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255,
                255, 0, 0, 0, 0, 170, 255, 31, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255,
                255, 255, 255, 255, 255, 255, 244, 0, 4, 11,
            ],
        ),
    ]
}

/// Inputs of the target `sequence`.
#[must_use]
pub fn of_sequences() -> Vec<Seed> {
    let tally = [0, 0, 0, 1];
    let record = [0, 112, 2, 1, 9];
    let edit = [0, 240, 4, 2, 1, 9];
    let (boot, flip) = ([20], [31, 0x10, 0x91, 2, 0]);
    let cut = |class: u8, after: u8| [25, class, after, 7];
    let cut_in = |ask: &[u8], class: u8, after: u8| [&cut(class, after)[..], ask, &boot].concat();
    let mut seeds = vec![
        ("asks", [&[0, 3][..], &tally, &record, &edit, &boot, &record].concat()),
        ("press", [&[0, 2][..], &[15, 112, 2, 1, 9].repeat(12), &boot].concat()),
        ("flip", [&[1, 4][..], &record, &flip, &record, &boot].concat()),
    ];
    // What was found once: a boot that turns the tally's page twice.
    seeds.push(("boots", [&[0, 4][..], &[20; 9]].concat()));
    for (name, geometry, class) in
        [("cut-a", 0, 2), ("cut-b", 1, 4), ("cut-c", 2, 6), ("cut-d", 3, 7), ("cut-e", 5, 5)]
    {
        let mut input = vec![geometry, 5];
        for (ask, after) in [(&tally[..], 3), (&record, 5), (&edit, 40)] {
            input.extend(cut_in(ask, class, after));
        }
        seeds.push((name, input));
    }
    seeds
}

/// Inputs of the target `lock`.
#[must_use]
pub fn of_locks() -> Vec<Seed> {
    let [right, duress, wrong] = [0, 4, 5];
    let enter = |who: u8, how: u8| [12, who, how];
    let (draw, throw, sleep, pull) = ([38], [42], [34], [63]);
    let wait = |order: u8, length: u8| [28, order, length];
    let cut = |class: u8, after: u8| [57, class, after, 3];
    let seed = |policy: u8, events: &[&[u8]]| [&[policy][..], &events.concat()].concat();
    let opening = [&enter(1, right)[..], &draw, &wait(2, 30), &throw, &wait(2, 60)].concat();
    let slow = [&enter(1, right)[..], &wait(2, 61), &enter(1, right), &draw, &throw].concat();
    let two = [&enter(1, right)[..], &enter(3, duress), &draw, &throw].concat();
    let guesses = [&enter(2, wrong)[..]; 4].concat();
    let ask = |task: u8, who: u8, how: u8| [62, task, who, how];
    let line = |value: u32, digits: u8| {
        let [a, b, c, d] = value.to_le_bytes();
        [62, 127 + digits, a, b, c, d]
    };
    let (ok, code) = ([11], [line(528_406, 6); 2].concat());
    let enrol = [&ask(3, 3, right)[..], &line(7, 2), &[3, 1], &code, &ok].concat();
    let policy = [&ask(12, 3, duress)[..], &[2], &line(3, 1), &ok].concat();
    let set_clock = [&ask(11, 5, right)[..], &line(1_032_027, 8), &line(847, 4), &ok].concat();
    vec![
        ("open", seed(0, &[&opening, &enter(2, right), &sleep, &sleep])),
        ("delay", seed(1, &[&slow, &enter(1, duress), &wait(7, 2)])),
        ("two", seed(2, &[&two, &enter(1, right), &enter(1, right)])),
        ("slow-two", seed(3, &[&two, &wait(2, 61), &two])),
        ("penalty", seed(4, &[&guesses, &enter(2, duress), &wait(7, 1), &opening])),
        ("cut", seed(0, &[&cut(4, 9), &opening, &cut(6, 3), &opening, &pull, &opening])),
        ("duress", seed(5, &[&enter(1, duress), &cut(7, 2), &wait(5, 9), &opening])),
        ("hold", seed(0, &[&[11, 1], &enter(3, right), &enter(2, right), &sleep])),
        ("faults", seed(0, &[&[56, 0, 1], &opening, &pull, &[54], &opening])),
        ("clock", seed(0, &[&[52, 90, 0], &enter(2, right), &enter(1, right), &[53]])),
        ("change-code", seed(0, &[&ask(2, 1, right), &code, &ok, &enter(1, right)])),
        ("enrol", seed(0, &[&enrol, &ask(9, 3, right), &ok, &enrol])),
        ("suspend", seed(1, &[&ask(4, 3, right), &line(1, 2), &ok, &opening, &enter(1, right)])),
        ("policy", seed(3, &[&policy, &guesses, &wait(7, 3), &policy])),
        ("set-clock", seed(0, &[&set_clock, &enter(2, right), &pull, &set_clock])),
        ("test", seed(0, &[&opening[..4], &ask(13, 3, right), &ok, &throw, &wait(2, 99)])),
        ("cut-edit", seed(0, &[&cut(4, 200), &enrol, &pull, &cut(6, 90), &enrol])),
        ("supply", seed(0, &[&[50, 0x04, 0x10], &opening, &[51, 0x10, 0x27], &opening])),
    ]
}
