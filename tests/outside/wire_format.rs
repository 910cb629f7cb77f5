//! What travels, made a second time from `docs/wire-format.md` alone: by the crates
//! `ascon-aead`, `hmac`, `sha2`, `postcard` and `cobs`, not by the lock's code. And
//! the published rows of the encodings: CRC-32/ISO-HDLC of crc-catalog 2.5; COBS of
//! Cheshire and Baker 1999 and of PyPI's cobs 1.2.2; postcard's wire-format
//! specification, in the crate as linked here. Derived keys are from Python's `hmac`.

use ascon_aead::aead::{AeadInOut, KeyInit};
use ascon_aead::{AsconAead128, AsconAead128Key, AsconAead128Nonce};
use hmac::{Hmac, Mac};
use lock_core::audit::{Entry, Event, Gap, Outcome, People, Record, Seq};
use lock_core::code::{Code, one_time};
use lock_core::holder::Number;
use lock_core::link::extract::{ExtractHeader, ExtractReader, ExtractWriter, Item, Scope};
use lock_core::link::frame::{self, PAYLOAD};
use lock_core::link::message::{Reply, Request};
use lock_core::link::timetable_file::{self, Sealer, TimetableFile};
use lock_core::link::{Fingerprint, Version};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::seal::CHUNK;
use lock_core::time::{Date, Minute, Utc};
use lock_core::timetable::{Calendar, Closure, Special, Timetables, Window};
use proptest::prelude::*;
use sha2::{Digest as _, Sha256};

const ZONE: &str = "IST-1GMT0,M10.5.0,M3.5.0/1";

fn pairing() -> Pairing {
    Pairing::new(LockNumber::new(1_001).unwrap(), 3, [0xA5; Pairing::LEN])
}

/// A derived key, by the table "Keys".
fn derived(label: &[u8; 16], number: u8) -> Vec<u8> {
    let mut mac = Hmac::<Sha256>::new_from_slice(&[0xA5; 32]).unwrap();
    mac.update(label);
    mac.update(&1_001_u16.to_le_bytes());
    mac.update(&3_u32.to_le_bytes());
    mac.update(&[number]);
    mac.finalize().into_bytes().to_vec()
}

/// Seals content under those tables, chunk after chunk.
fn sealed(direction: u8, counter: u32, header: &[u8], contents: &[Vec<u8>]) -> Vec<Vec<u8>> {
    let label = if direction == 1 { b"laptop to lock\0\x01" } else { b"lock to laptop\0\x01" };
    let key: [u8; 16] = derived(label, 0)[..16].try_into().unwrap();
    let cipher = AsconAead128::new(&AsconAead128Key::from(key));
    let mut chunks = Vec::new();
    for (index, content) in (0_u16..).zip(contents) {
        let mut nonce = vec![direction];
        nonce.extend(index.to_le_bytes());
        nonce.extend(1_001_u16.to_le_bytes());
        nonce.extend(3_u32.to_le_bytes());
        nonce.extend(counter.to_le_bytes());
        nonce.extend([0; 3]);
        let nonce: [u8; 16] = nonce.try_into().unwrap();
        let mut associated = header.to_vec();
        associated.extend(index.to_le_bytes());
        associated.push(u8::from(content.len() < 240));
        let mut chunk = content.clone();
        let tag = cipher
            .encrypt_inout_detached(
                &AsconAead128Nonce::from(nonce),
                &associated,
                chunk.as_mut_slice().into(),
            )
            .unwrap();
        chunk.extend_from_slice(&tag);
        chunks.push(chunk);
    }
    chunks
}

#[test]
fn derived_keys_are_what_python_makes_of_the_table() {
    assert_eq!(hex(pairing().inbound().as_bytes()), "d561d4a49344eb4372e1d849e21ecddf");
    assert_eq!(hex(pairing().outbound().as_bytes()), "45b1890d9098d31c38044ec093d26f3f");
    // An emulated lock's, under a salt of 0 to 15.
    let own = pairing().emulated(&std::array::from_fn(|n| u8::try_from(n).unwrap()));
    assert_eq!(hex(own.key()), "7374f31745d9634dbb60785f55a76f8413532802d6ad048523b325f62b46247e");
    // A courier's key has no way out; its codes do.
    let key = pairing().courier(7);
    let six = one_time::Digits::new(6).unwrap();
    for (counter, code) in (0..).zip(["299797", "263430", "079316", "504785"]) {
        assert!(one_time::code(&key, counter, six) == Code::parse(code).unwrap(), "{counter}");
    }
}

/// Each purpose, courier, lock and generation has a key of its own.
#[test]
fn no_two_derived_keys_are_equal() {
    let mut keys = Vec::new();
    for (lock, generation) in [(1_001, 3), (1_002, 3), (1_001, 4), (3, 1_001)] {
        let lock = LockNumber::new(lock).unwrap();
        let pairing = Pairing::new(lock, generation, [0xA5; Pairing::LEN]);
        keys.push(*pairing.inbound().as_bytes());
        keys.push(*pairing.outbound().as_bytes());
        for salt in [[0; 16], [1; 16]] {
            let own = pairing.emulated(&salt);
            keys.push(*own.key().first_chunk().unwrap());
            keys.push(*own.outbound().as_bytes());
        }
    }
    let all = keys.len();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), all);
}

fn window(from: u16, to: u16) -> Window {
    Window::new(Minute::new(from).unwrap(), Minute::new(to).unwrap()).unwrap()
}

/// So many days' worth of windows that it takes several chunks.
fn file() -> TimetableFile {
    let mut calendar = Calendar::default();
    for (day, windows) in (0_u16..).zip(calendar.weeks.iter_mut().flatten()) {
        windows.push(window(480 + day, 720)).unwrap();
        windows.push(window(800, 1_440 - day)).unwrap();
    }
    for n in 0..20 {
        let (from, to) = (Date::from_days(21_177 + n * 30), Date::from_days(21_178 + n * 30));
        let timetables = Timetables::from_bits(3);
        calendar.closures.push(Closure { from, to, timetables }).unwrap();
    }
    let windows = [window(510, 720)].into_iter().collect();
    let special = Special { date: Date::from_days(21_176), timetables: Timetables::ALL, windows };
    calendar.specials.push(special).unwrap();
    TimetableFile { zone: ZONE.try_into().unwrap(), calendar }
}

/// The same by the table "Timetable file".
fn file_by_hand() -> (Vec<u8>, Vec<Vec<u8>>) {
    let mut weeks: [[Vec<(u16, u16)>; 7]; 4] = Default::default();
    for (day, windows) in (0_u16..).zip(weeks.iter_mut().flatten()) {
        *windows = vec![(480 + day, 720), (800, 1_440 - day)];
    }
    let closures: Vec<(u16, u16, u8)> =
        (0..20).map(|n| (21_177 + n * 30, 21_178 + n * 30, 3)).collect();
    let specials = vec![(21_176_u16, 15_u8, vec![(510_u16, 720_u16)])];
    let content = postcard::to_stdvec(&(ZONE, weeks, closures, specials)).unwrap();
    let mut header = vec![0x9C, 0x4C, 0x6B, 0x0A, 1, 1];
    header.extend(1_001_u16.to_le_bytes());
    header.extend(3_u32.to_le_bytes());
    header.extend(7_u32.to_le_bytes());
    let mut contents: Vec<_> = content.chunks(240).map(<[u8]>::to_vec).collect();
    if content.len().is_multiple_of(240) {
        contents.push(Vec::new());
    }
    assert!(contents.len() > 1);
    let chunks = sealed(1, 7, &header, &contents);
    (header, chunks)
}

fn fingerprint(header: &[u8], chunks: &[Vec<u8>]) -> u32 {
    let hash = Sha256::digest([header, &chunks.concat()].concat());
    u32::from_be_bytes(hash[..4].try_into().unwrap()) % 100_000_000
}

#[test]
fn a_timetable_file_is_what_the_document_says() {
    let (header, chunks) = file_by_hand();
    let mut sealer = Sealer::new(&pairing(), Version(7), &file()).unwrap();
    assert_eq!(sealer.header().as_slice(), header);
    let mut chunk = [0; CHUNK];
    for expected in &chunks {
        let length = sealer.chunk(&mut chunk).unwrap();
        assert_eq!(chunk[..length], *expected);
    }
    assert_eq!(sealer.chunk(&mut chunk), None);
    let expected = fingerprint(&header, &chunks);
    assert_eq!(sealer.fingerprint().map(Fingerprint::get), Some(expected));

    let source = |index: u16, chunk: &mut [u8; CHUNK]| {
        let from = chunks.get(usize::from(index))?;
        chunk[..from.len()].copy_from_slice(from);
        Some(from.len())
    };
    let header = header.as_slice().try_into().unwrap();
    let (version, own, opened) = timetable_file::open(header, source, &pairing()).unwrap();
    assert_eq!((version, own.get(), opened), (Version(7), expected, file()));
    assert_eq!(own.to_string(), format!("{:04} {:04}", expected / 10_000, expected % 10_000));
}

/// A file as it was sealed by version 1: whatever changes, a lock still opens it.
#[test]
fn a_file_of_version_1_opens_for_ever() {
    let (header, chunks) = file_by_hand();
    let all = [header, chunks.concat()].concat();
    assert_eq!(hex(&all), include_str!("golden/timetables-1.hex").trim());
}

fn entries() -> Vec<Entry> {
    let at = Some(Utc::from_secs(1_803_890_700));
    let who = Number::new(12).unwrap();
    let people = People { first: who, second: Number::new(3) };
    let mut entries = vec![
        Entry::Gap(Gap { from: Seq(5), to: Seq(9), lost: 2 }),
        Entry::Record(Seq(10), Record { at: None, event: Event::PoweredUp }),
        Entry::Record(Seq(11), Record { at, event: Event::WrongCode { who } }),
    ];
    for n in 12..22 {
        let event = Event::Released { people, outcome: Outcome::Duress };
        entries.push(Entry::Record(Seq(n), Record { at, event }));
    }
    entries
}

/// The same in the scope of openings, by the tables "Extract".
fn extract_by_hand() -> (Vec<u8>, Vec<Vec<u8>>) {
    let item = |head: [u8; 8], numbers: [u32; 3]| {
        let mut bytes = head.to_vec();
        bytes.extend(numbers.into_iter().flat_map(u32::to_le_bytes));
        bytes
    };
    let mut items = vec![
        item([2, 0, 0, 0, 0, 0, 0, 0], [5, 9, 2]),
        item([3, 0, 0, 0, 0, 0, 0, 0], [10, 11, 0]),
    ];
    for n in 12..22 {
        items.push(item([1, 1, 2, 12, 3, 0xFF, 2, 0], [n, 1_803_890_700, u32::MAX]));
    }
    let sum = |items, told| item([4, 0, 0, 0, 0, 0, 0, 0], [items, told, 0]);
    let first = [items[..11].concat(), sum(11, 20)].concat();
    let last = [items[11..].concat(), sum(12, 21)].concat();
    let mut header = vec![0x9C, 0x4C, 0x6B, 0x0A, 1, 2];
    header.extend(1_001_u16.to_le_bytes());
    for number in [3, 77, 5, 21, 1_803_890_700_u32] {
        header.extend(number.to_le_bytes());
    }
    header.extend([1, 1, 1, 0]);
    let chunks = sealed(2, 77, &header, &[first, last]);
    (header, chunks)
}

#[test]
fn an_extract_is_what_the_document_says() {
    let (header, chunks) = extract_by_hand();
    let says = ExtractHeader {
        number: 77,
        scope: Scope::Openings,
        since_last: true,
        from: Seq(5),
        newest: Some(Seq(21)),
        made: Some(Utc::from_secs(1_803_890_700)),
    };
    let mut writer = ExtractWriter::new(&pairing(), &says);
    assert_eq!(writer.header().as_slice(), header);
    let (key, list) = (pairing().outbound(), entries());
    for (index, expected) in (0..).zip(&chunks) {
        let made = writer.chunk(index, &key, |_| list.iter().copied()).unwrap();
        assert_eq!(made, expected);
    }
    assert!(writer.is_done());

    let mut reader =
        ExtractReader::open(header.as_slice().try_into().unwrap(), &pairing()).unwrap();
    assert_eq!(*reader.header(), says);
    let mut read = Vec::new();
    for chunk in &chunks {
        let mut bytes = [0; CHUNK];
        bytes[..chunk.len()].copy_from_slice(chunk);
        read.extend(reader.chunk(&mut bytes, chunk.len()).unwrap());
    }
    assert!(reader.is_whole());
    assert_eq!(read.len(), 12);
    assert_eq!(read[1], Item::LeftOut { from: Seq(10), to: Seq(11) });
}

/// An extract as a lock of version 1 made it: whatever changes, a laptop reads it.
#[test]
fn an_extract_of_version_1_reads_for_ever() {
    let (header, chunks) = extract_by_hand();
    let all = [header, chunks.concat()].concat();
    assert_eq!(hex(&all), include_str!("golden/extract-1.hex").trim());
}

/// What `serve --stick --keyring` leaves on a stick, by its table: the mark, and behind it
/// the extract as its own key seals it.
#[test]
fn an_emulated_locks_extract_is_what_the_document_says() {
    use emulator::carry::emulated::marked;
    let (header, chunks) = extract_by_hand();
    let real = [header.clone(), chunks.concat()].concat();
    let made = marked(&real, &pairing()).unwrap();
    let (mark, rest) = made.split_at(32);
    assert_eq!(mark[..12], [0x9C, 0x4C, 0x6B, 0x0A, 1, 4, 0xE9, 3, 3, 0, 0, 0]);
    assert_eq!(mark[28..], [0; 4]);
    let mut mac = Hmac::<Sha256>::new_from_slice(&[0xA5; 32]).unwrap();
    for part in [b"emulated lock\0\0\x01".as_slice(), &mark[6..12], &[0], &mark[12..28]] {
        mac.update(part);
    }
    let own: [u8; 32] = mac.finalize().into_bytes().into();
    let own = Pairing::new(pairing().lock(), 3, own);
    assert_eq!(rest[..32], header);
    let mut reader = ExtractReader::open(rest[..32].try_into().unwrap(), &own).unwrap();
    for chunk in rest[32..].chunks(CHUNK) {
        let mut bytes = [0; CHUNK];
        bytes[..chunk.len()].copy_from_slice(chunk);
        reader.chunk(&mut bytes, chunk.len()).unwrap();
    }
    assert!(reader.is_whole());
    assert_ne!(marked(&real, &pairing()).unwrap()[12..28], mark[12..28], "a salt comes once");
}

/// Rows of the paper and of PyPI's cobs 1.2.2.
#[test]
fn cobs_rows() {
    let counted: Vec<u8> = (1..=255).collect();
    let rows: [(&[u8], Vec<u8>); 6] = [
        (&[], vec![1]),
        (&[0], vec![1, 1]),
        (&[0x11, 0x22, 0, 0x33], vec![3, 0x11, 0x22, 2, 0x33]),
        (&[0x11, 0, 0, 0], vec![2, 0x11, 1, 1, 1]),
        (&counted[..254], [&[255], &counted[..254]].concat()),
        (&counted[..255], [&[255], &counted[..254], &[2, 255]].concat()),
    ];
    for (plain, expected) in rows {
        let out: Vec<u8> = frame::stuff(plain.iter().copied()).collect();
        assert_eq!(out, expected, "{plain:?}");
        let mut back = expected;
        let length = frame::unstuff(&mut back).unwrap();
        assert_eq!(back[..length], *plain);
    }
    for no_cobs in [&[0_u8][..], &[3, 1], &[2, 0], &[255, 1]] {
        assert_eq!(frame::unstuff(&mut no_cobs.to_vec()), None, "{no_cobs:?}");
    }
}

proptest! {
    /// The crate `cobs` 0.3 stuffs the same; of nothing it makes nothing.
    #[test]
    fn cobs_agrees_with_another_implementation(
        plain in proptest::collection::vec(prop_oneof![Just(0_u8), 1..=255_u8, Just(7)], 1..300),
        dense in any::<bool>(),
    ) {
        let plain: Vec<u8> =
            if dense { plain.into_iter().map(|b| b.max(1)).collect() } else { plain };
        let out: Vec<u8> = frame::stuff(plain.iter().copied()).collect();
        let mut theirs = vec![0; cobs::max_encoding_length(plain.len()) + 1];
        let their_length = cobs::encode(&plain, &mut theirs);
        prop_assert_eq!(cobs::decode_vec(&out).unwrap(), plain.clone());
        // Behind a full last block it writes one byte that says nothing more follows.
        let full = their_length == out.len() + 1 && theirs[out.len()] == 1;
        prop_assert!(full || theirs[..their_length] == out);
        let mut back = theirs[..their_length].to_vec();
        let length = frame::unstuff(&mut back).unwrap();
        prop_assert_eq!(&back[..length], plain);
    }
}

/// CRC-32/ISO-HDLC of the digits 1 to 9 is CBF43926; it stands low byte first, and
/// none of its bytes needs stuffing.
#[test]
fn a_frame_ends_with_the_check_value_of_the_catalogue() {
    let out: Vec<u8> = frame::encode(b"123456789").unwrap().collect();
    assert_eq!(crc_catalog::CRC_32_ISO_HDLC.check, 0xCBF4_3926);
    assert_eq!(out, *b"\x0E123456789\x26\x39\xF4\xCB\0");
}

/// A request with one number of 16 bits in it.
fn next(chunk: &[u8]) -> Option<u16> {
    match Request::read(&[&[1, 4], chunk].concat()) {
        Ok((1, Request::Next { chunk })) => Some(chunk),
        Ok(_) | Err(_) => None,
    }
}

/// The rows of the specification for numbers of 16 bits: written by hand, read by
/// the crate.
#[test]
fn postcard_rows() {
    let rows: [(u16, &[u8]); 7] = [
        (0, &[0]),
        (127, &[0x7F]),
        (128, &[0x80, 0x01]),
        (16_383, &[0xFF, 0x7F]),
        (16_384, &[0x80, 0x80, 0x01]),
        (16_385, &[0x81, 0x80, 0x01]),
        (65_535, &[0xFF, 0xFF, 0x03]),
    ];
    for (chunk, bytes) in rows {
        let mut payload = [0; PAYLOAD];
        let length = Request::Next { chunk }.write(1, &mut payload).unwrap();
        assert_eq!(payload[..length], [&[1, 4], bytes].concat());
        assert_eq!(next(bytes), Some(chunk));
    }
    for refused in [&[0x80, 0x80, 0x80, 0x00][..], &[0xFF, 0xFF, 0x07], &[0xFF, 0xFF, 0x83, 0x00]] {
        assert_eq!(next(refused), None, "{refused:02X?}");
    }
    for (number, bytes) in [(-1_i16, &[1_u8][..]), (63, &[0x7E]), (-65, &[0x81, 0x01])] {
        assert_eq!(postcard::to_stdvec(&number).unwrap(), bytes);
    }
    let whole = postcard::to_stdvec(&(300_u16, -65_i16, true, "ab")).unwrap();
    assert_eq!(whole, [0xAC, 0x02, 0x81, 0x01, 0x01, 0x02, 0x61, 0x62]);
}

/// What was said in version 1 of the protocol, as bytes.
#[test]
fn messages_of_version_1_stay_as_they_are() {
    let request = |request: Request<'_>| {
        let mut payload = [0; PAYLOAD];
        let length = request.write(300, &mut payload).unwrap();
        hex(&payload[..length])
    };
    assert_eq!(request(Request::Hello), "ac0200");
    assert_eq!(
        request(Request::Load { index: 2, bytes: &[7, 8] }),
        "ac0202020207".to_owned() + "08"
    );
    let collect = Request::Collect { scope: Scope::Alarms, since_last: true };
    assert_eq!(request(collect), "ac02030301");
    assert_eq!(request(Request::Collected { up_to: Seq(128) }), "ac02058001");
    assert_eq!(request(Request::Bye), "ac0206");
    let mut payload = [0; PAYLOAD];
    let length = Reply::Chunk { index: 1, bytes: &[9] }.write(300, &mut payload).unwrap();
    assert_eq!(hex(&payload[..length]), "ac0204010109");
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
