//! Messages are what postcard, the crate, makes of the same types.

use core::fmt::Debug;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

use super::*;

const REASONS: [Reason; 11] = [
    Reason::Unknown,
    Reason::NotAsked,
    Reason::OutOfTurn,
    Reason::NoKey,
    Reason::NotOurs,
    Reason::OtherLock,
    Reason::OtherKey,
    Reason::Broken,
    Reason::Wrong,
    Reason::Older,
    Reason::Memory,
];

/// Compares with what the crate writes, and reads it back.
fn same<T: Serialize + PartialEq + Debug>(number: u16, what: &T, written: &[u8]) {
    let mut room = [0; PAYLOAD];
    assert_eq!(written, &*postcard::to_slice(&(number, what), &mut room).unwrap(), "{what:?}");
}

fn asked(number: u16, request: Request<'_>) {
    let mut payload = [0; PAYLOAD];
    let length = request.write(number, &mut payload).unwrap();
    same(number, &request, &payload[..length]);
    assert_eq!(Request::read(&payload[..length]), Ok((number, request)));
    assert_eq!(Request::read(&payload[..=length]), Err(Senseless));
}

fn replied(number: u16, reply: Reply<'_>) {
    let mut payload = [0; PAYLOAD];
    let length = reply.write(number, &mut payload).unwrap();
    same(number, &reply, &payload[..length]);
    assert_eq!(Reply::read(&payload[..length]), Ok((number, reply)));
    assert_eq!(Reply::read(&payload[..=length]), Err(Senseless));
}

proptest! {
    #[test]
    fn requests_are_written_as_postcard_writes_them(
        (number, index, chunk, since_last) in any::<(u16, u8, u16, bool)>(),
        (wide, shift) in (any::<u32>(), 0..32_u32),
        bytes in vec(any::<u8>(), 0..=CHUNK),
        header in any::<[u8; timetable_file::HEADER]>(),
        scope in select(&Scope::ALL[..]),
    ) {
        let requests = [
            Request::Hello,
            Request::File(header),
            Request::Load { index, bytes: &bytes },
            Request::Collect { scope, since_last },
            Request::Next { chunk },
            Request::Collected { up_to: Seq(wide >> shift) },
            Request::Bye,
        ];
        requests.into_iter().for_each(|request| asked(number, request));
    }

    #[test]
    fn replies_are_written_as_postcard_writes_them(
        (number, index) in any::<(u16, u16)>(),
        (wide, shift) in (any::<u32>(), 0..32_u32),
        lock in 1..=u16::MAX,
        known in any::<[bool; 4]>(),
        bytes in vec(any::<u8>(), 0..=CHUNK),
        header in any::<[u8; extract::HEADER]>(),
        reason in select(&REASONS[..]),
    ) {
        let wide = wide >> shift;
        let hello = Hello {
            protocol: PROTOCOL,
            pairing: known[0].then_some((LockNumber::new(lock).unwrap(), wide)),
            file: known[1].then_some(Version(wide)),
            newest: known[2].then_some(Seq(wide)),
            collected: known[3].then_some(Seq(wide)),
        };
        let fingerprint = Fingerprint(wide % Fingerprint::ALL);
        let replies = [
            Reply::Hello(hello),
            Reply::Taken,
            Reply::File { version: Version(wide), fingerprint },
            Reply::Extract(header),
            Reply::Chunk { index, bytes: &bytes },
            Reply::Refused(reason),
        ];
        replies.into_iter().for_each(|reply| replied(number, reply));
    }

    /// What says nothing is refused, and nothing worse.
    #[test]
    fn any_bytes_are_a_message_or_refused(bytes in vec(any::<u8>(), 0..400)) {
        let _ = Reply::read(&bytes);
        if let Ok((number, request)) = Request::read(&bytes) {
            let mut payload = [0; PAYLOAD];
            let length = request.write(number, &mut payload).unwrap();
            prop_assert_eq!(Request::read(&payload[..length]), Ok((number, request)));
        }
    }
}

#[test]
fn a_chunk_that_is_too_long_is_no_request() {
    let long = [7; CHUNK + 1];
    let mut room = [0; PAYLOAD];
    let load = Request::Load { index: 0, bytes: &long };
    let length = load.write(1, &mut room).unwrap();
    assert_eq!(Request::read(&room[..length]), Err(Senseless));
}
