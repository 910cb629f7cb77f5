//! What time alone does to the bolt: each state before, at and after each of
//! its deadlines. Source: sections 1 and 6 of docs/behaviour.md: the end of a
//! wait is inclusive, a claim, a release and a window are over at their end.
//!
//! Replays start waits, claims and releases at 0 s; the delay is over at 600 s,
//! the claim at 780 s, the release at 6 s, the permit at 700 s (*short*: 300 s
//! of a wait, 3 s of a release; *long*: 900 s).

use std::collections::BTreeSet;

use lock_core::audit::{self, CancelReason};
use lock_core::machine::bolt::{
    Access, Claimable, Consequences, Event, How, Moment, Open, Released,
};
use lock_core::port::{Drive, Sound};
use lock_core::rules::ends::Ends;
use lock_core::screen::Late;
use lock_core::time::{Seconds, Uptime};

use super::Table;
use super::access::{
    CLAIMED, NOTHING, PERMIT, POLICY, READY, at, began, blind, people, promise, reached,
};

/// By the uptime in milliseconds: with a clock that is believed, and without.
const TABLE: &str = "
from@uptime               believed invalid
secured@0                        .       .
secured@90000000                 .       .
secured-blocked@7999             .       .
secured-blocked@8000          over    over
secured-blocked@90000000      over    over
waiting@599999                   .       .
waiting@600000               claim   claim
waiting@699999               claim   claim
waiting@700000              window   claim
waiting@790000              window   claim
waiting-always@599999            .       .
waiting-always@600000        claim   claim
waiting-always@90000000      claim   claim
waiting-beyond@599999            .       .
waiting-beyond@600000        claim   claim
waiting-beyond@90000000      claim   claim
waiting-short@299999             .       .
waiting-short@300000        window       .
waiting-short@599999        window       .
waiting-short@600000        window   claim
claimable@699999                 .       .
claimable@700000            window       .
claimable@779999            window       .
claimable@780000            window  lapsed
claimable-long@779999            .       .
claimable-long@780000       lapsed  lapsed
claimable-long@899999       lapsed  lapsed
claimable-long@900000       window  lapsed
claimable-always@779999          .       .
claimable-always@780000     lapsed  lapsed
claimable-always@90000000   lapsed  lapsed
claimable-beyond@779999          .       .
claimable-beyond@780000     lapsed  lapsed
released@5999                    .       .
released@6000                undrawn undrawn
released@700000              undrawn undrawn
released-short@3000              .       .
released-short@5999              .       .
released-short@6000          undrawn undrawn
released-always@5999             .       .
released-always@6000         undrawn undrawn
open@699999                      .       .
open@700000                   late       .
open@90000000                 late       .
open-late@700000                 .       .
open-late@90000000               .       .
open-always@90000000             .       .
open-beyond@90000000             .       .
open-forced@90000000             .       .
";

// The rows rely on this order.
const _: () = assert!(READY < PERMIT && PERMIT < CLAIMED);

fn expected(word: &str, from: Access, at: Moment) -> (Access, Consequences) {
    let record = |event| Consequences { record: Some(event), ..NOTHING };
    match word {
        // Claimable "for `claim`" from the end of the delay, however late the
        // lock looks at it.
        "claim" => {
            let until = Uptime::from_millis(CLAIMED);
            (
                Access::Claimable(Claimable {
                    people: people(),
                    ends: permit(from),
                    delay: POLICY.delay,
                    until,
                    began: began(),
                }),
                NOTHING,
            )
        }
        "window" => {
            let cancelled = Some(CancelReason::WindowEnd);
            (Access::Secured, Consequences { cancelled, ..NOTHING })
        }
        "lapsed" => (Access::Secured, record(audit::Event::Lapsed)),
        "undrawn" => {
            let drive = Some(Drive::Block);
            // Two seconds from the end of the release, however late the lock looks at it.
            let until = Uptime::from_millis(8_000);
            let blocked = Released { people: people(), ends: permit(from), until };
            (Access::Blocked(blocked), Consequences { drive, ..record(audit::Event::NotDrawn) })
        }
        // Nobody is faster than the blocker any more.
        "over" => (Access::Secured, NOTHING),
        "late" => {
            let ends = Ends::At(super::access::at(PERMIT).utc.unwrap());
            let open = Open {
                since: Uptime::from_millis(2_000),
                earlier: Seconds::ZERO,
                how: How::Opened,
                people: Some(people()),
                ends,
                late: Late::Yes,
            };
            let sound = Some(Sound::Warning);
            (Access::Open(open), Consequences { sound, ..record(audit::Event::LeftOpen) })
        }
        word => promise(word, from, at),
    }
}

fn permit(of: Access) -> Ends {
    match of {
        Access::Waiting(waiting) => waiting.ends,
        Access::Released(released) => released.ends,
        Access::Secured | Access::Claimable(_) | Access::Blocked(_) | Access::Open(_) => {
            panic!("{} passes no permit on", of.name())
        }
    }
}

/// R3: a permit ends a wait and a claim by UTC, unless the time is unknown;
/// what uptime measures goes on without a clock.
#[test]
fn time_alone_does_in_each_state_what_the_contract_says() {
    let table = Table::read(TABLE);
    let mut tried = BTreeSet::new();
    for (row, clock, word) in table.cells() {
        let (from, uptime) = row.split_once('@').unwrap();
        let uptime = uptime.parse().unwrap();
        let moment = match clock {
            "believed" => at(uptime),
            "invalid" => blind(uptime),
            unknown => panic!("{unknown}"),
        };
        let before = reached(from);
        let seen = before.on(Event::Time, moment, &POLICY);
        assert_eq!(seen, expected(word, before, moment), "{row}, clock {clock}");
        tried.insert((before.name(), word));
    }
    for outcome in [
        ("waiting", "claim"),
        ("waiting", "window"),
        ("claimable", "lapsed"),
        ("claimable", "window"),
        ("released", "undrawn"),
        ("open", "late"),
    ] {
        assert!(tried.contains(&outcome), "{outcome:?} is in no row");
    }
    for state in ["secured", "waiting", "claimable", "released", "open"] {
        assert!(tried.contains(&(state, ".")), "{state} never stays");
    }
}

/// A second look at the same moment finds nothing more to do, except that a
/// claim which was slept through lapses.
#[test]
fn a_second_look_does_nothing_more() {
    for (row, clock, _) in Table::read(TABLE).cells() {
        let (from, uptime) = row.split_once('@').unwrap();
        let uptime: u64 = uptime.parse().unwrap();
        let moment = if clock == "believed" { at(uptime) } else { blind(uptime) };
        let once = reached(from).on(Event::Time, moment, &POLICY).0;
        let twice = once.on(Event::Time, moment, &POLICY);
        let slept = uptime >= CLAIMED && reached(from).name() == "waiting";
        if slept && once.name() == "claimable" {
            assert_eq!(twice.1.record, Some(audit::Event::Lapsed), "{row}, clock {clock}");
        } else {
            // A release that was slept through is over, and so are its two seconds.
            let over = matches!(once, Access::Blocked(blocked) if moment.uptime >= blocked.until);
            let expected = if over { Access::Secured } else { once };
            assert_eq!(twice, (expected, NOTHING), "{row}, clock {clock}");
        }
    }
}
