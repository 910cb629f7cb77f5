//! Locks and stories for both sides to live through. Stories are biased to
//! what is rare in random keys: right codes, penalties, and moments one second
//! either side of a deadline.

mod steps;

use jiff::ToSpan;
use jiff::civil::Date;
use proptest::collection::{btree_set, vec};
use proptest::prelude::*;
use proptest::sample::{Index, select};

use crate::dice::Dice;
use crate::reference::{
    Calendar, Closure, Deputies, Flash, Follows, Holder, Policy, Role, Setup, Special, TIMETABLES,
    Week, Window, Zone,
};
use crate::walk::Step;

use steps::pieces;

pub(crate) const STEPS: usize = 200;

/// Rules as of the IANA data's footers, with negative saving, half hours, and
/// times outside 0–24 h among them.
const ZONES: [&str; 8] = [
    "IST-1GMT0,M10.5.0,M3.5.0/1",
    "GMT0BST,M3.5.0/1,M10.5.0",
    "EST5EDT,M3.2.0,M11.1.0",
    "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0",
    "<-02>2<-01>,M3.5.0/-1,M10.5.0/0",
    "EET-2EEST,M4.5.5/0,M10.5.4/24",
    "UTC0",
    "<+0545>-5:45",
];

#[derive(Clone, Debug)]
pub(crate) struct Story {
    pub(crate) setup: Setup,
    pub(crate) flash: Flash,
    pub(crate) start_utc: i64,
    pub(crate) steps: Vec<Step>,
}

pub(crate) fn stories() -> BoxedStrategy<Story> {
    (select(&ZONES[..]), any::<Index>(), -3_i64 * 86_400..3 * 86_400, any::<bool>())
        .prop_map(|(zone, which, offset, near_change)| {
            let new_year = 1_798_761_600; // 2027-01-01T00:00Z
            let changes = Zone::new(zone).changes(new_year, new_year + 360 * 86_400);
            let start_utc = if near_change && !changes.is_empty() {
                changes[which.index(changes.len())] + offset
            } else {
                let hour = i64::try_from(which.index(360 * 24)).expect("small");
                new_year + hour * 3_600
            };
            (zone.to_owned(), start_utc)
        })
        .prop_flat_map(|(zone, start_utc)| (kinds(), setups(zone, start_utc), Just(start_utc)))
        .prop_flat_map(|(kind, setup, start_utc)| {
            let pieces = vec(pieces(&setup, kind), STEPS / 2);
            let flash = match kind {
                Kind::Fresh(flash) => flash,
                Kind::InUse | Kind::Stuck | Kind::Clockless => Flash::Ours,
            };
            let first = match kind {
                Kind::Clockless => vec![Step::ChipLost],
                Kind::InUse | Kind::Fresh(_) | Kind::Stuck => Vec::new(),
            };
            let steps = pieces.prop_map(move |pieces| {
                first.iter().cloned().chain(pieces.concat()).take(STEPS).collect()
            });
            (Just(kind.applied_to(setup)), Just(flash), Just(start_utc), steps)
        })
        .prop_map(|(setup, flash, start_utc, steps)| Story { setup, flash, start_utc, steps })
        .boxed()
}

/// In what state a lock is when its story begins.
#[derive(Clone, Copy, Debug)]
enum Kind {
    InUse,
    /// Nobody is enrolled.
    Fresh(Flash),
    /// No window is ahead, and nobody follows `always`.
    Stuck,
    /// It has lost its clock, and nobody may set it: whoever opens follows a timetable,
    /// and no steward is able. The wardens can mend that.
    Clockless,
}

fn kinds() -> impl Strategy<Value = Kind> {
    prop_oneof![
        68 => Just(Kind::InUse),
        4 => Just(Kind::Fresh(Flash::Ours)),
        9 => Just(Kind::Fresh(Flash::Erased)),
        2 => Just(Kind::Fresh(Flash::OtherLayout)),
        18 => Just(Kind::Stuck),
        12 => Just(Kind::Clockless),
    ]
}

impl Kind {
    fn applied_to(self, mut setup: Setup) -> Setup {
        match self {
            Kind::InUse => setup,
            Kind::Fresh(Flash::Ours) => Setup::factory(&setup.calendar.zone),
            Kind::Fresh(Flash::Erased | Flash::OtherLayout) => Setup::factory("UTC0"),
            Kind::Stuck => {
                setup.calendar = Calendar::empty(&setup.calendar.zone);
                // Two wardens and a steward are there to ask, and to object.
                let suspended = |holder: &Holder| holder.suspended && !holder.role.is_privileged();
                by_timetables(&mut setup, suspended);
                setup
            }
            Kind::Clockless => {
                by_timetables(&mut setup, |holder| holder.role == Role::Steward);
                setup
            }
        }
    }
}

/// Nobody follows `always`; suspended are those.
fn by_timetables(setup: &mut Setup, suspended: impl Fn(&Holder) -> bool) {
    for holder in setup.holders.values_mut() {
        if holder.follows == Follows::Always {
            holder.follows = Follows::Timetable(0);
        }
        holder.suspended = suspended(holder);
    }
}

fn setups(zone: String, start_utc: i64) -> BoxedStrategy<Setup> {
    let today = Zone::new(&zone).local(start_utc).date();
    (
        policies(),
        holders(),
        [weeks(), weeks(), weeks(), weeks()],
        prop_oneof![4 => Just(Week::default()), 1 => weeks()],
        vec(closures(today), 0..=2),
        vec(specials(today), 0..=3),
        prop::bool::weighted(0.8),
    )
        .prop_map(move |(policy, holders, four, fifth, closures, specials, paired)| {
            let mut calendar = Calendar::empty(&zone);
            for (week, each) in calendar.timetables.iter_mut().zip(four.into_iter().chain([fifth]))
            {
                *week = each;
            }
            (calendar.closures, calendar.specials) = (closures, specials);
            let mut setup = Setup::factory(&zone);
            setup.calendar = tidy(calendar);
            setup.policy = policy;
            setup.holders = holders.into_iter().map(|holder| (holder.number, holder)).collect();
            if paired {
                (setup.key, setup.last_generation) = (Some(1), 1);
            }
            setup
        })
        .boxed()
}

fn policies() -> BoxedStrategy<Policy> {
    let lengths = (
        prop_oneof![Just(5_u64), Just(1), 1..=60_u64],
        prop_oneof![Just(0_u64), 0..=40_u64, Just(1_440)],
        prop_oneof![3 => Just(0_u64), 2 => Just(1), 2 => 1..=99_u64],
        prop_oneof![Just(3_u64), 1..=15_u64],
    );
    let seconds = (
        prop_oneof![Just(60_u64), 10..=300_u64],
        prop_oneof![Just(60_u64), 10..=600_u64],
        prop_oneof![Just(6_u64), 3..=20_u64],
    );
    let supply = (3_000..=9_000_u32, any::<Index>(), any::<bool>());
    let deputies = select(vec![Deputies::Enrol, Deputies::Remove, Deputies::Suspend]);
    let others = (prop::bool::weighted(0.4), prop::bool::weighted(0.85), deputies, 6..=8_usize);
    (3..=10_u32, lengths, seconds, supply, others)
        .prop_map(|(wrong_codes, lengths, seconds, supply, others)| {
            let (dual_control, duress, deputies, code_digits) = others;
            let (penalty, more, delay, claim) = lengths;
            let (low, which, usual) = supply;
            let span = usize::try_from(low - 200 - 2_500).expect("at least 300") + 1;
            let spent = 2_500 + u32::try_from(which.index(span)).expect("small");
            let (supply_low_mv, supply_spent_mv) =
                if usual { (4_800, 4_200) } else { (low, spent) };
            Policy {
                code_digits,
                deputies,
                wrong_codes,
                penalty_s: penalty * 60,
                penalty_cap_s: (penalty + more).min(1_440) * 60,
                delay_s: delay * 60,
                claim_s: claim * 60,
                dual_control,
                dual_limit_s: seconds.0,
                duress,
                alarm_hold_s: seconds.1,
                release_s: seconds.2,
                supply_low_mv,
                supply_spent_mv,
            }
        })
        .boxed()
}

/// Two wardens and a steward first, two keyholders and as a rule a courier, and
/// a few more; a code each.
fn holders() -> BoxedStrategy<Vec<Holder>> {
    let role = prop_oneof![
        1 => Just(Role::Warden),
        2 => Just(Role::Deputy),
        3 => Just(Role::Keyholder),
        2 => Just(Role::Courier),
        1 => Just(Role::Steward),
    ];
    let follows = prop_oneof![
        1 => Just(Follows::Always),
        3 => Just(Follows::Timetable(0)),
        3 => (0..5_usize).prop_map(Follows::Timetable),
    ];
    let one = (role, any::<u64>(), follows, prop::bool::weighted(0.4), prop::bool::weighted(0.12));
    (btree_set(1..=99_u8, 6..=10), vec(one, 10))
        .prop_map(|(numbers, rows)| {
            let fixed = [
                Role::Warden,
                Role::Steward,
                Role::Warden,
                Role::Keyholder,
                Role::Keyholder,
                Role::Courier,
            ];
            let mut holders = Vec::new();
            for (at, (number, row)) in numbers.into_iter().zip(rows).enumerate() {
                let (role, seed, follows, opens, suspended) = row;
                let role = fixed.get(at).copied().unwrap_or(role);
                let courier = role == Role::Courier;
                let follows = match follows {
                    Follows::Always if courier => Follows::Timetable(0),
                    follows => follows,
                };
                let mut dice = Dice::new(seed);
                let digits = 6 + dice.below(3);
                let code = if courier { String::new() } else { dice.code(digits) };
                // Nobody is suspended whom a story cannot do without.
                let suspended = suspended && at >= 5;
                let opens = opens && matches!(role, Role::Warden | Role::Deputy);
                holders.push(Holder { number, role, code, follows, opens, suspended, waits: None });
            }
            holders
        })
        .boxed()
}

fn weeks() -> BoxedStrategy<Week> {
    [days(), days(), days(), days(), days(), days(), days()].boxed()
}

fn days() -> BoxedStrategy<Vec<Window>> {
    let fixed: [&[(u32, u32)]; 9] = [
        &[],
        &[(510, 750), (810, 1_020)],
        &[(360, 720), (720, 1_080)],
        &[(1_320, 120)],
        &[(120, 480), (1_320, 120)],
        &[(0, 1_440)],
        &[(60, 90), (90, 180)],
        &[(0, 1), (1_439, 1_440)],
        &[(150, 155), (600, 900), (1_380, 0)],
    ];
    let usual = select(fixed.map(windows).to_vec());
    let odd = vec(0..=1_440_u32, 2..=8).prop_map(|mut minutes| {
        minutes.sort_unstable();
        minutes.dedup();
        windows(&minutes.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect::<Vec<_>>())
    });
    prop_oneof![4 => usual, 1 => odd].boxed()
}

fn windows(spans: &[(u32, u32)]) -> Vec<Window> {
    spans.iter().map(|(from, to)| Window { from: *from, to: *to }).collect()
}

fn closures(today: Date) -> impl Strategy<Value = Closure> {
    (-1..=6_i64, 0..=2_i64, any::<[bool; TIMETABLES]>()).prop_map(
        move |(ahead, days, timetables)| {
            let from = today + ahead.days();
            Closure { from, to: from + days.days(), timetables }
        },
    )
}

fn specials(today: Date) -> impl Strategy<Value = Special> {
    (-1..=6_i64, any::<[bool; TIMETABLES]>(), days()).prop_map(
        move |(ahead, timetables, windows)| Special {
            date: today + ahead.days(),
            timetables,
            windows,
        },
    )
}

/// Takes out what a site file may not hold: exceptions for no timetable, two
/// for one date, and windows that overlap.
fn tidy(mut calendar: Calendar) -> Calendar {
    calendar.closures.retain(|closure| closure.timetables.contains(&true));
    let mut specials: Vec<Special> = Vec::new();
    for mut special in std::mem::take(&mut calendar.specials) {
        for timetable in 0..TIMETABLES {
            let taken = specials
                .iter()
                .any(|other| other.date == special.date && other.timetables[timetable]);
            let closed = calendar.is_closure(timetable, special.date);
            special.timetables[timetable] &= !taken && !closed;
        }
        if special.timetables.contains(&true) && !special.windows.is_empty() {
            specials.push(special);
        }
    }
    for week in &mut calendar.timetables {
        for day in 0..7 {
            let next = week[(day + 1) % 7].clone();
            while overlap(&week[day], &next) {
                week[day].pop();
            }
        }
    }
    for mut special in specials {
        while neighbours_overlap(&calendar, &special) {
            special.windows.pop();
        }
        if !special.windows.is_empty() {
            calendar.specials.push(special);
        }
    }
    calendar
}

/// Whether a calendar holds what no site file may.
pub(crate) fn contradicts(calendar: &Calendar) -> bool {
    let weeks = calendar
        .timetables
        .iter()
        .any(|week| (0..7).any(|day| overlap(&week[day], &week[(day + 1) % 7])));
    weeks || calendar.specials.iter().any(|special| neighbours_overlap(calendar, special))
}

fn neighbours_overlap(calendar: &Calendar, special: &Special) -> bool {
    // A closure may be lifted without the special day: its weekday counts.
    let open = Calendar { closures: Vec::new(), ..calendar.clone() };
    (0..TIMETABLES).filter(|timetable| special.timetables[*timetable]).any(|timetable| {
        let before = open.windows_starting_on(timetable, special.date - 1.day());
        let after = open.windows_starting_on(timetable, special.date + 1.day());
        overlap(before, &special.windows) || overlap(&special.windows, after)
    })
}

/// Whether windows of a day overlap each other or the next day's.
fn overlap(day: &[Window], next: &[Window]) -> bool {
    let end = |window: &Window| {
        if window.to < window.from { window.to + 1_440 } else { window.to }
    };
    let mut spans: Vec<(u32, u32)> = day.iter().map(|it| (it.from, end(it))).collect();
    spans.sort_unstable();
    spans.extend(next.iter().map(|it| (it.from + 1_440, end(it) + 1_440)).min());
    spans.windows(2).any(|pair| pair[0].1 > pair[1].0)
}
