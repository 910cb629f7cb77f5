//! What arrives from outside: frames, and files behind a seal that holds, so that
//! the fuzzer gets past it to what is inside.

use lock_core::audit::Seq;
use lock_core::link::extract::{self, ExtractHeader, ExtractReader, ExtractWriter, Scope};
use lock_core::link::frame::{self, Decoder, FRAME, PAYLOAD};
use lock_core::link::message::{Reply, Request};
use lock_core::link::timetable_file::{self, Sealer, TimetableFile};
use lock_core::link::{FileFault, Version};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::seal::{self, CHUNK, CONTENT, Direction, SealKey, Series};

const LOCK: u16 = 1_001;
const GENERATION: u32 = 3;
const COUNTER: u32 = 7;

/// The first byte says what the others are.
///
/// # Panics
/// If something is taken that says other things when it is written again.
pub fn run(bytes: &[u8]) {
    match bytes.split_first() {
        None => {}
        Some((0, rest)) => frames(rest),
        Some((1, rest)) => raw(rest),
        Some((2, rest)) => timetables(rest),
        Some((_, rest)) => records(rest),
    }
}

fn pairing() -> Pairing {
    let lock = LockNumber::new(LOCK).expect("a lock's number");
    Pairing::new(lock, GENERATION, [0xA5; Pairing::LEN])
}

fn frames(bytes: &[u8]) {
    let mut decoder = Decoder::new();
    for byte in bytes {
        if let Some(Ok(payload)) = decoder.push(*byte) {
            messages(payload);
        }
    }
    messages(bytes);
}

fn messages(payload: &[u8]) {
    let mut again = [0; PAYLOAD];
    if let Ok((number, request)) = Request::read(payload) {
        let length = request.write(number, &mut again).expect("what was read fits");
        assert_eq!(Request::read(&again[..length]), Ok((number, request)));
        let frame = frame::encode(&again[..length]).expect("what fits is framed");
        assert!(frame.count() <= FRAME);
    }
    if let Ok((number, reply)) = Reply::read(payload)
        && let Some(length) = reply.write(number, &mut again)
    {
        assert!(Reply::read(&again[..length]).is_ok());
    }
}

/// Nothing that was not sealed is ever taken.
fn raw(bytes: &[u8]) {
    if let Some((header, rest)) = bytes.split_first_chunk() {
        assert!(open(header, &chunks(rest, CHUNK)).is_err());
    }
    if let Some((header, rest)) = bytes.split_first_chunk()
        && let Ok(mut reader) = ExtractReader::open(header, &pairing())
    {
        let mut chunk = [0; CHUNK];
        let length = rest.len().min(CHUNK);
        chunk[..length].copy_from_slice(&rest[..length]);
        assert_eq!(reader.chunk(&mut chunk, length), Err(FileFault::Broken));
    }
}

fn chunks(bytes: &[u8], length: usize) -> Vec<Vec<u8>> {
    bytes.chunks(length).map(<[u8]>::to_vec).collect()
}

fn open(
    header: &[u8; timetable_file::HEADER],
    chunks: &[Vec<u8>],
) -> Result<TimetableFile, FileFault> {
    let source = |index: u16, chunk: &mut [u8; CHUNK]| {
        let from = chunks.get(usize::from(index))?;
        chunk[..from.len()].copy_from_slice(from);
        Some(from.len())
    };
    timetable_file::open(header, source, &pairing()).map(|(_, _, file)| file)
}

/// Seals any content as chunks.
fn sealed(key: &SealKey, direction: Direction, header: &[u8], content: &[u8]) -> Vec<Vec<u8>> {
    let series = Series { direction, lock: LOCK, generation: GENERATION, counter: COUNTER };
    let mut contents = chunks(content, CONTENT);
    if content.len().is_multiple_of(CONTENT) {
        contents.push(Vec::new());
    }
    let seal = |(index, content): (u16, Vec<u8>)| {
        let mut chunk = [0; CHUNK];
        chunk[..content.len()].copy_from_slice(&content);
        let length = seal::seal_chunk(key, &series, header, index, &mut chunk, content.len());
        chunk[..length.expect("there is room")].to_vec()
    };
    (0..).zip(contents).map(seal).collect()
}

fn timetables(content: &[u8]) {
    let nothing = TimetableFile {
        zone: "UTC0".try_into().expect("a short text"),
        calendar: lock_core::timetable::Calendar::default(),
    };
    let sealer = Sealer::new(&pairing(), Version(COUNTER), &nothing).expect("a plain file");
    let header = *sealer.header();
    let chunks = sealed(&pairing().inbound(), Direction::Inbound, &header, content);
    let Ok(file) = open(&header, &chunks) else { return };
    assert_eq!(file.check(), Ok(()));
    let mut sealer = Sealer::new(&pairing(), Version(COUNTER), &file).expect("it was checked");
    let (mut again, mut chunk) = (Vec::new(), [0; CHUNK]);
    while let Some(length) = sealer.chunk(&mut chunk) {
        again.push(chunk[..length].to_vec());
    }
    assert_eq!(open(&header, &again), Ok(file));
}

fn records(content: &[u8]) {
    let Some(([scope, newest], content)) = content.split_first_chunk::<2>() else { return };
    let says = ExtractHeader {
        number: COUNTER,
        scope: Scope::ALL[usize::from(*scope) % Scope::ALL.len()],
        since_last: false,
        from: Seq(1),
        newest: Some(Seq(u32::from(*newest))),
        made: None,
    };
    let header: [u8; extract::HEADER] = *ExtractWriter::new(&pairing(), &says).header();
    let mut reader = ExtractReader::open(&header, &pairing()).expect("its own header");
    let mut due = Seq(1);
    for sealed in sealed(&pairing().outbound(), Direction::Outbound, &header, content) {
        let mut chunk = [0; CHUNK];
        chunk[..sealed.len()].copy_from_slice(&sealed);
        let Ok(items) = reader.chunk(&mut chunk, sealed.len()) else { return };
        for item in items {
            assert_eq!(item.first(), due);
            due = Seq(item.last().0 + 1);
        }
    }
    assert!(reader.is_whole() && due.0 > u32::from(*newest));
}
