//! Nothing that arrives over the link opens a lock, lengthens a session or
//! changes a setting: without a steward's session it is refused and nothing is
//! written; within one nothing is in force before somebody presses *OK*.

use emulator::carry::{Sealed, Wire, sealed};
use emulator::drill::{Drill, Play};
use emulator::memory::{Lasting, Look, Memory};
use emulator::site::Site;
use emulator::tour;
use emulator::world::{Bench, World};
use lock_core::audit::Seq;
use lock_core::keys::{Digit, Key};
use lock_core::link::Version;
use lock_core::link::extract::Scope;
use lock_core::link::frame::PAYLOAD;
use lock_core::link::message::{Reason, Reply, Request};
use proptest::prelude::*;
use std::sync::Arc;

const DRILL: &str = r#"
title = "A lock at its desk"
site = "harbour-bakery.toml"
lock = "till"
start = 2027-03-01T09:00:00
[[step]]
wait = "1s"
"#;

fn site() -> Arc<Site> {
    Arc::new(Site::parse("harbour-bakery.toml", tour::SITE).map_err(|why| why.to_string()).unwrap())
}

fn drill() -> Drill {
    let parsed = Drill::parse("desk.toml", DRILL, &mut |_: &str| Ok(site()));
    parsed.map_err(|why| why.to_string()).unwrap()
}

type Lock = World<Memory, Bench>;

/// What a boot at this moment would find: settings, counts, records.
fn look(world: &mut Lock) -> Look {
    <Memory as Lasting>::look(world.flash().unwrap())
}

fn press(world: &mut Lock, keys: &str) {
    for word in keys.split_whitespace() {
        match word {
            "ok" => world.press(Key::Ok),
            "back" => world.press(Key::Back),
            digits => {
                for digit in digits.bytes() {
                    world.press(Key::Digit(Digit::new(digit - b'0').unwrap()));
                }
            }
        }
    }
}

/// One thing that a stranger sends.
#[derive(Clone, Debug)]
enum Sent {
    Bytes(Vec<u8>),
    Hello,
    Header(Vec<u8>),
    Load(u8, Vec<u8>),
    /// A piece of a file that was sealed rightly.
    Piece(u8),
    Collect(u8, bool),
    Next(u16),
    Collected(u32),
    Bye,
}

fn sent() -> impl Strategy<Value = Sent> {
    let bytes = |most| proptest::collection::vec(any::<u8>(), 0..most);
    prop_oneof![
        1 => bytes(280).prop_map(Sent::Bytes),
        1 => Just(Sent::Hello),
        1 => bytes(20).prop_map(Sent::Header),
        1 => (any::<u8>(), bytes(257)).prop_map(|(index, bytes)| Sent::Load(index, bytes)),
        3 => (0..9_u8).prop_map(Sent::Piece),
        1 => (0..4_u8, any::<bool>()).prop_map(|(scope, last)| Sent::Collect(scope, last)),
        1 => (0..40_u16).prop_map(Sent::Next),
        1 => (0..200_u32).prop_map(Sent::Collected),
        1 => Just(Sent::Bye),
    ]
}

fn ask(world: &mut Lock, number: u16, sent: &Sent, file: &Sealed) -> Option<Vec<u8>> {
    let mut room = [0; PAYLOAD];
    let request = match sent {
        Sent::Bytes(bytes) => return world.ask(bytes),
        Sent::Hello => Request::Hello,
        Sent::Header(bytes) => {
            let mut header = [0; 16];
            header.iter_mut().zip(bytes).for_each(|(to, from)| *to = *from);
            Request::File(header)
        }
        Sent::Load(index, bytes) => Request::Load { index: *index, bytes },
        Sent::Piece(0) => Request::File(file.header),
        Sent::Piece(n) => {
            let index = n - 1;
            Request::Load { index, bytes: file.chunks.get(usize::from(index))? }
        }
        Sent::Collect(scope, since_last) => {
            Request::Collect { scope: Scope::ALL[usize::from(*scope)], since_last: *since_last }
        }
        Sent::Next(chunk) => Request::Next { chunk: *chunk },
        Sent::Collected(up_to) => Request::Collected { up_to: Seq(*up_to) },
        Sent::Bye => Request::Bye,
    };
    let length = request.write(number, &mut room)?;
    world.ask(&room[..length])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// Without a session: every request is refused, nothing is written, nothing
    /// moves.
    #[test]
    fn a_stranger_on_the_cable_gets_nothing(
        all in proptest::collection::vec(sent(), 1..30),
    ) {
        let drill = drill();
        let (file, _) = sealed(&site(), &drill.pairing().unwrap(), Version(1)).unwrap();
        let mut world = Play::start(&drill).map_err(|_| "no lock").unwrap().into_world();
        world.run_until(world.now() + 1_000);
        let (before, screen) = (look(&mut world), world.screen());
        for (number, sent) in (1..).zip(&all) {
            if let Some(answer) = ask(&mut world, number, sent, &file) {
                let (_, reply) = Reply::read(&answer).unwrap();
                prop_assert_eq!(reply, Reply::Refused(Reason::NotAsked));
            }
        }
        prop_assert!(look(&mut world) == before, "something was written");
        prop_assert_eq!((world.screen(), world.access()), (screen, Some("secured")));
    }

    /// Within a session: no setting changes and nothing opens before *OK*; the
    /// session ends when it would have.
    #[test]
    fn within_a_session_nothing_is_in_force_before_ok(
        all in proptest::collection::vec((sent(), 0..40_u64), 1..30),
    ) {
        let drill = drill();
        let (file, _) = sealed(&site(), &drill.pairing().unwrap(), Version(1)).unwrap();
        let mut world = Play::start(&drill).map_err(|_| "no lock").unwrap().into_world();
        world.run_until(world.now() + 1_000);
        press(&mut world, "ok ok ok ok 2 50 805231 ok");
        let began = world.now();
        let settings = look(&mut world).settings;
        for (number, (sent, pause)) in (1..).zip(&all) {
            let _ = ask(&mut world, number, sent, &file);
            prop_assert_eq!(world.access(), Some("secured"));
            prop_assert!(look(&mut world).settings == settings, "a setting changed");
            world.run_until(world.now() + pause * 1_000);
        }
        // Ten minutes after it began it is over, whatever was sent.
        world.run_until(began + 600_000);
        let answer = ask(&mut world, 60_000, &Sent::Hello, &file).unwrap();
        let (_, reply) = Reply::read(&answer).unwrap();
        prop_assert_eq!(reply, Reply::Refused(Reason::NotAsked));
        prop_assert!(look(&mut world).settings == settings, "a setting changed");
    }
}
