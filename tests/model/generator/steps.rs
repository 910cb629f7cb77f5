//! What happens in a story, step by step: keys, contacts, time, and deeds.

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

use super::Kind;
use crate::deeds::{Deed, What};
use crate::reference::{Input, Key, Setup, duress_variant};
use crate::walk::{Step, digits, typed};

/// One step, or what people have in mind.
pub(super) fn pieces(setup: &Setup, kind: Kind) -> BoxedStrategy<Vec<Step>> {
    prop_oneof![
        3 => deeds(kind).prop_map(|deed| vec![deed]).boxed(),
        4 => vec(steps(setup), 1..=3).boxed(),
    ]
    .boxed()
}

fn deeds(kind: Kind) -> BoxedStrategy<Step> {
    let often = select(vec![
        What::Tidy,
        What::Open,
        What::Open,
        What::CourierOpens,
        What::Meddle,
        What::Meddle,
        What::Meddle,
        What::Task("hold-shut"),
        What::Task("change-code"),
        What::Task("enrol"),
        What::Task("enrol"),
        What::Task("suspend"),
        What::Task("restore"),
        What::Task("remove"),
        What::Task("change-role"),
        What::Task("choose-timetable"),
        What::Task("numbers"),
        What::Task("files"),
        What::Task("files"),
        What::Task("set-clock"),
        What::Task("set-clock"),
        What::Task("set-policy"),
        What::Task("set-policy"),
        What::Task("test-alarm"),
        What::Task("pair"),
        What::WaitOut,
        What::WaitOut,
        What::WaitOut,
        What::EmptyFile,
        What::Task("way-out"),
    ]);
    let seldom = select(vec![What::Bar, What::Task("reset"), What::SlowReset, What::SlowReset]);
    let stuck = select(vec![What::Task("way-out"), What::WaitOut, What::Object]);
    let weights = match kind {
        Kind::Stuck => (20, 1),
        Kind::Clockless => (1, 60),
        Kind::InUse | Kind::Fresh(_) => (1, 1),
    };
    let what =
        prop_oneof![60 => often, 2 => seldom, weights.0 => stuck, weights.1 => Just(What::Outlive)];
    (what, any::<u64>()).prop_map(|(what, pick)| Step::Deed(Deed { what, pick })).boxed()
}

fn steps(setup: &Setup) -> BoxedStrategy<Step> {
    prop_oneof![
        10 => knowing(setup).prop_map(Step::Keys).boxed(),
        2 => guessing(setup).prop_map(Step::Keys).boxed(),
        3 => loose_keys().prop_map(Step::Keys).boxed(),
        2 => listing(setup).prop_map(Step::Keys).boxed(),
        12 => waits(setup).boxed(),
        3 => prop::bool::weighted(0.15).prop_map(|drawn| Step::Contact(Input::Bolt(drawn))),
        1 => prop::bool::weighted(0.3).prop_map(|open| Step::Contact(Input::Door(open))),
        2 => prop::bool::weighted(0.2).prop_map(|set| Step::Contact(Input::Inhibit(set))),
        1 => prop::bool::weighted(0.5).prop_map(|on| Step::Contact(Input::Switch(on))),
        2 => supplies(setup).prop_map(|mv| Step::Contact(Input::SupplyMv(mv))),
        2 => rare(setup).boxed(),
    ]
    .boxed()
}

/// A right code, or now and then its duress variant.
fn knowing(setup: &Setup) -> impl Strategy<Value = Vec<Key>> + use<> {
    let with_code = setup.holders.values().filter(|holder| !holder.code.is_empty());
    let rows: Vec<(u8, String)> =
        with_code.map(|holder| (holder.number, holder.code.clone())).collect();
    let someone = select(rows);
    (someone, prop::bool::weighted(0.2)).prop_map(|((number, code), pressed)| {
        typed(number, &if pressed { duress_variant(&code) } else { code })
    })
}

/// Wrong codes, a few in a row, on enrolled and other numbers.
fn guessing(setup: &Setup) -> impl Strategy<Value = Vec<Key>> + use<> {
    let numbers: Vec<u8> = setup.holders.keys().copied().collect();
    let number = prop_oneof![4 => select(numbers), 2 => 1..=99_u8];
    (number, "[0-9]{6,8}", 1..=4_usize)
        .prop_map(|(number, code, times)| typed(number, &code).repeat(times))
}

/// Keys that make little sense: entries cut short, too long, or left.
fn loose_keys() -> impl Strategy<Value = Vec<Key>> {
    let key = prop_oneof![
        6 => (0..=9_u8).prop_map(Key::Digit),
        1 => Just(Key::Back),
        2 => Just(Key::Ok),
    ];
    let partial = "[0-9]{1,11}".prop_map(|text| digits(&text));
    prop_oneof![vec(key, 1..=4), partial, Just(vec![Key::Back]), Just(vec![Key::Ok])]
}

fn listing(setup: &Setup) -> impl Strategy<Value = Vec<Key>> + use<> {
    let page = prop_oneof![3 => Just(0_usize), 4 => 0..=6_usize];
    let item = prop_oneof![Just(1_u8), Just(2), 1..=4_u8];
    (page, item, knowing(setup), any::<[bool; 2]>()).prop_map(
        |(page, item, code, [back_first, nobody])| {
            let mut keys = if back_first { vec![Key::Back] } else { Vec::new() };
            keys.extend(vec![Key::Ok; page + 1]);
            keys.push(Key::Digit(item));
            // Nobody says who they are: too short, but for a reset.
            if nobody && page == 5 {
                keys.push(Key::Ok)
            } else {
                keys.extend(code)
            }
            keys
        },
    )
}

fn waits(setup: &Setup) -> impl Strategy<Value = Step> + use<> {
    let policy = &setup.policy;
    let deadlines = vec![
        policy.penalty_s,
        policy.penalty_cap_s,
        policy.delay_s,
        policy.delay_s + policy.claim_s,
        policy.claim_s,
        policy.dual_limit_s,
        policy.alarm_hold_s,
        policy.release_s,
        10,
        20,
        86_400,
    ];
    let nudge = -1..=1_i64;
    prop_oneof![
        4 => (select(deadlines), nudge.clone())
            .prop_map(|(wait, nudge)| Step::Wait(wait.saturating_add_signed(nudge))),
        4 => nudge.clone().prop_map(Step::WaitForWake),
        3 => (0..4_usize, prop_oneof![nudge, -6_000..0_i64])
            .prop_map(|(timetable, offset)| Step::WaitForEdge { timetable, offset }),
        3 => (0..120_u64).prop_map(Step::Wait),
        1 => (0..40_000_u64).prop_map(Step::Wait),
        1 => (0..250_000_u64).prop_map(Step::Wait),
    ]
}

fn supplies(setup: &Setup) -> impl Strategy<Value = u32> + use<> {
    let (low, spent) = (setup.policy.supply_low_mv, setup.policy.supply_spent_mv);
    let near = vec![low, low + 200, spent, spent + 200, low + 1_000, low + 1_000];
    (select(near), -1..=1_i32).prop_map(|(mv, nudge)| mv.saturating_add_signed(nudge))
}

fn rare(setup: &Setup) -> impl Strategy<Value = Step> + use<> {
    let numbers: Vec<u8> = setup.holders.keys().copied().collect();
    let cut = (prop_oneof![0..60_u64, 0..100_000_u64], prop::bool::weighted(0.02))
        .prop_map(|(off_s, chip_lost)| Step::PowerCut { off_s, chip_lost });
    let jump = prop_oneof![
        8 => -2..=2_i64,
        1 => select(vec![-7_200, -3, 3, 3_600]),
    ];
    prop_oneof![
        80 => cut,
        10 => jump.prop_map(Step::ChipJump),
        2 => Just(Step::ChipLost),
        2 => (0..7_u32).prop_map(Step::StoreFails),
        2 => Just(Step::DriveSticks),
        4 => (select(numbers), 0..=2_u32)
            .prop_map(|(number, short_of)| Step::Siege { number, short_of }),
    ]
}
