//! `lock_core::seal`, `lock_core::link`, keys of `lock_core::pairing`, and
//! one-time codes

use lock_core::audit::{Entry, Seq};
use lock_core::code::one_time::{self, Digits};
use lock_core::code::{Code, Verdict};
use lock_core::link::extract::{
    ExtractHeader, ExtractReader, ExtractWriter, Item, Scope, sealed_by,
};
use lock_core::link::frame::{self, Decoder, PAYLOAD};
use lock_core::link::message::{Hello, Reason, Reply, Request};
use lock_core::link::timetable_file::{self, Sealer, TimetableFile};
use lock_core::link::{FileFault, Fingerprint, Version};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::seal::{self, CHUNK, Direction, SealKey, Series};
use lock_core::time::Utc;

use crate::outside;

fn number() -> u32 {
    u32::from_le_bytes(outside::bytes())
}

pub fn pairing() -> Option<Pairing> {
    let lock = LockNumber::new(u16::from_le_bytes(outside::bytes()))?;
    Some(Pairing::new(lock, number(), outside::bytes()))
}

fn put_fault(fault: FileFault) {
    outside::keep(&fault);
    outside::keep(&Reason::from(fault));
}

#[inline(never)]
pub fn seals() {
    let key = SealKey::from_bytes(outside::bytes());
    outside::put_all(key.as_bytes());
    let series = Series {
        direction: if outside::byte() == 0 { Direction::Inbound } else { Direction::Outbound },
        lock: u16::from_le_bytes(outside::bytes()),
        generation: number(),
        counter: number(),
    };
    let header: [u8; 40] = outside::bytes();
    let header = header.get(..usize::from(outside::byte())).unwrap_or_default();
    let mut chunk = [0; CHUNK];
    let (index, length) = (u16::from(outside::byte()), usize::from(outside::byte()));
    if let Ok(sealed) = seal::seal_chunk(&key, &series, header, index, &mut chunk, length) {
        outside::put(seal::is_last(sealed));
        outside::put_all(&chunk);
    }
    let opened = seal::open_chunk(&key, &series, header, index, &mut chunk, length * 2);
    outside::put(opened.is_ok());
    let tag = seal::seal_plain(&key, outside::bytes(), header, &mut chunk);
    let opened =
        seal::open_plain(&key, outside::bytes(), header, &mut chunk, tag.unwrap_or_default());
    outside::put(opened.is_ok());
}

#[inline(never)]
pub fn timetable_files() {
    let Some(pairing) = pairing() else { return };
    let opened = timetable_file::open(
        &outside::bytes(),
        |_, chunk| {
            *chunk = outside::bytes();
            let length = usize::from(u16::from_le_bytes(outside::bytes()));
            (length > 0).then_some(length)
        },
        &pairing,
    );
    let file: TimetableFile = match opened {
        Ok((Version(version), fingerprint, file)) => {
            outside::put(version);
            outside::print(fingerprint);
            file
        }
        Err(fault) => return put_fault(fault),
    };
    outside::put(file.check().is_ok());
    let Ok(mut sealer) = Sealer::new(&pairing, Version(number()), &file) else { return };
    outside::put_all(sealer.header());
    let mut chunk = [0; CHUNK];
    while let Some(length) = sealer.chunk(&mut chunk) {
        outside::put_all(chunk.get(..length).unwrap_or_default());
    }
    outside::put(sealer.fingerprint().map_or(0, Fingerprint::get));
}

#[inline(never)]
pub fn extracts() {
    let Some(pairing) = pairing() else { return };
    let scope = outside::any::<Scope>().unwrap_or(Scope::All);
    let header = ExtractHeader {
        number: number(),
        scope,
        since_last: outside::byte() == 0,
        from: Seq(number()),
        newest: Some(Seq(number())),
        made: Some(Utc::from_secs(number())),
    };
    let key = pairing.outbound();
    let mut writer = ExtractWriter::new(&pairing, &header);
    outside::put_all(writer.header());
    let listed = core::iter::from_fn(outside::any::<Entry>);
    match writer.chunk(u16::from(outside::byte()), &key, |_| listed) {
        Ok(chunk) => outside::put_all(chunk),
        Err(why) => outside::keep(&why),
    }
    outside::put(writer.is_done());

    let bytes = outside::bytes();
    outside::put(sealed_by(&bytes).is_ok());
    let mut reader = match ExtractReader::open(&bytes, &pairing) {
        Ok(reader) => reader,
        Err(fault) => return put_fault(fault),
    };
    outside::keep(reader.header());
    match reader.chunk(&mut outside::bytes(), usize::from(outside::byte()) * 2) {
        Ok(items) => {
            for item in &items {
                outside::put(item.first().0);
                outside::put(item.last().0);
                outside::put(matches!(item, Item::Record(_, record) if scope.takes(&record.event)));
            }
        }
        Err(fault) => put_fault(fault),
    }
    outside::put(reader.is_whole());
}

#[inline(never)]
pub fn frames() {
    let mut decoder = Decoder::default();
    for _ in 0..outside::byte() {
        match decoder.push(outside::byte()) {
            None => {}
            Some(Err(fault)) => outside::keep(&fault),
            Some(Ok(payload)) => answer(payload),
        }
    }
}

fn answer(asked: &[u8]) {
    let mut payload = [0; PAYLOAD];
    let send = |length: Option<usize>, payload: &[u8; PAYLOAD]| {
        let payload = length.and_then(|length| payload.get(..length)).unwrap_or_default();
        frame::encode(payload).into_iter().flatten().for_each(outside::put);
    };
    if let Ok((number, request)) = Request::read(asked) {
        send(request.write(number, &mut payload), &payload);
    }
    if let Ok((number, reply)) = Reply::read(asked) {
        send(reply.write(number, &mut payload), &payload);
    }
    let hello = Hello { protocol: 1, pairing: None, file: None, newest: None, collected: None };
    send(Reply::Hello(hello).write(1, &mut payload), &payload);
}

#[inline(never)]
pub fn one_time_codes() {
    let (Some(pairing), Some(digits)) = (pairing(), Digits::new(outside::byte())) else { return };
    outside::put(digits.get());
    let key = pairing.courier(outside::byte());
    let text: [u8; 8] = outside::bytes();
    let typed = core::str::from_utf8(&text).ok().and_then(Code::parse);
    if let Some(typed) = typed {
        let (verdict, next) = one_time::judge(&key, number(), digits, &typed);
        outside::put(verdict == Verdict::Right);
        outside::put(next);
    }
    if let Some(counter) = one_time::next_usable(&key, number(), digits) {
        outside::put_all(&one_time::code(&key, counter, digits).len().to_le_bytes());
    }
}
