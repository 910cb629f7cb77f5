//! The region of the bolt × everything that can happen to it. Source: sections
//! 6 and 9 of docs/behaviour.md; what time alone does is in `access_time.rs`.

use std::collections::BTreeSet;

use lock_core::audit::{self, CancelReason, People};
use lock_core::holder::Number;
use lock_core::machine::bolt::{
    Access, Began, Consequences, Event, Forced, How, Moment, Open, Released, Waiting,
};
use lock_core::policy::Policy;
use lock_core::port::{Drive, Sound};
use lock_core::rules::ends::Ends;
use lock_core::screen::Late;
use lock_core::time::{Seconds, Uptime, Utc};

use super::Table;

/// `.` stays as it is, nothing follows. The other words: see [`promise`].
const TABLE: &str = "
from              ajar shut window-end inhibit held-shut forced barred clock changed begin-wait release
secured         forced    .          .       .         .      .      .     .       .       wait    free
secured-blocked forced    .          .       .         .      .      .     .       .       wait    free
waiting         broken    .     cancel  cancel    cancel cancel cancel cancel cancel          .       .
waiting-always  broken    .     cancel  cancel    cancel cancel cancel cancel cancel          .       .
waiting-beyond  broken    .     cancel  cancel    cancel cancel cancel cancel cancel          .       .
claimable       broken    .     cancel  cancel    cancel cancel cancel cancel cancel          .    free
claimable-always broken   .     cancel  cancel    cancel cancel cancel cancel cancel          .    free
claimable-beyond broken   .     cancel  cancel    cancel cancel cancel cancel cancel          .    free
released        opened    .          .   ended     ended      .      .     .       .          .       .
released-always opened    .          .   ended     ended      .      .     .       .          .       .
open                 . shut          .       .         .      .      .     .       .          .       .
open-late            . shut          .       .         .      .      .     .       .          .       .
open-always          . shut          .       .         .      .      .     .       .          .       .
open-forced          . shut          .       .         .      .      .     .       .          .       .
";

/// UTC at uptime zero.
const START: u32 = 1_804_000_000;

/// The policy of the tables: the defaults, but a delay.
pub(super) const POLICY: Policy = Policy { delay: Seconds::new(600), ..Policy::DEFAULT };

/// When the delay of the replays is over: [`POLICY`]'s 600 s.
pub(super) const READY: u64 = 600_000;
/// When their claim is over: 3 minutes later.
pub(super) const CLAIMED: u64 = 780_000;
/// When their permit ends.
pub(super) const PERMIT: u64 = 700_000;

/// Uptime in milliseconds, with a clock that is right.
pub(super) fn at(millis: u64) -> Moment {
    let utc = u64::from(START) + millis / 1_000;
    Moment {
        uptime: Uptime::from_millis(millis),
        utc: Some(Utc::from_secs(utc.try_into().unwrap())),
        steady: None,
    }
}

/// The same with a clock that is not believed.
pub(super) fn blind(millis: u64) -> Moment {
    Moment { utc: None, ..at(millis) }
}

/// The instant at which uptime is that.
pub(super) fn ends(millis: u64) -> Ends {
    Ends::At(at(millis).utc.unwrap())
}

pub(super) fn people() -> People {
    People { first: Number::new(12).unwrap(), second: Number::new(7) }
}

/// A courier's code that began a wait goes with it.
pub(super) fn began() -> Began {
    [Some((Number::new(12).unwrap(), 41)), None]
}

fn others() -> People {
    People { first: Number::new(44).unwrap(), second: None }
}

/// A state, reached by replaying events from `secured`.
pub(super) fn reached(name: &str) -> Access {
    let wait = |ends| (Event::BeginWait(people(), ends, began()), 0);
    let free = |ends| (Event::Release(people(), ends), 0);
    let over = (Event::Time, READY);
    let drawn = (Event::Ajar, 2_000);
    let permit = ends(PERMIT);
    let replay: Vec<(Event, u64)> = match name {
        "secured" => vec![],
        "secured-blocked" => vec![free(permit), (Event::Time, 6_000)],
        "waiting" => vec![wait(permit)],
        "waiting-always" => vec![wait(Ends::Never)],
        "waiting-beyond" => vec![wait(Ends::Beyond)],
        // The permit ends before the delay does: the clock was set meanwhile.
        "waiting-short" => vec![wait(ends(300_000))],
        "claimable" => vec![wait(permit), over],
        "claimable-always" => vec![wait(Ends::Never), over],
        "claimable-beyond" => vec![wait(Ends::Beyond), over],
        // The claim ends before the permit does.
        "claimable-long" => vec![wait(ends(900_000)), over],
        "released" => vec![free(permit)],
        "released-always" => vec![free(Ends::Never)],
        // The permit ends before the release does.
        "released-short" => vec![free(ends(3_000))],
        "open" => vec![free(permit), drawn],
        "open-late" => vec![free(permit), drawn, (Event::Time, PERMIT)],
        "open-always" => vec![free(Ends::Never), drawn],
        "open-beyond" => vec![free(Ends::Beyond), drawn],
        "open-forced" => vec![drawn],
        unknown => panic!("no replay leads to {unknown}"),
    };
    let access = replay
        .into_iter()
        .fold(Access::Secured, |access, (event, millis)| access.on(event, at(millis), &POLICY).0);
    assert_eq!(access.name(), name.split('-').next().unwrap(), "the replay to {name}");
    access
}

/// One list for the match and for what is tried, so that a new event can't be
/// in the one only.
macro_rules! every_event {
    ($($pattern:pat => $name:literal $event:expr;)*) => {
        /// The column of an event; time has a table of its own.
        fn column(event: Event) -> Option<&'static str> {
            match event {
                Event::Time => None,
                $($pattern => Some($name),)*
            }
        }

        /// Every event of the table.
        fn events() -> Vec<Event> {
            vec![$($event),*]
        }
    };
}

// The permit of the last two differs from that of the replays, and so do the
// people: what was granted now counts.
every_event! {
    Event::Ajar => "ajar" Event::Ajar;
    Event::Shut => "shut" Event::Shut;
    Event::Cancel(CancelReason::WindowEnd) => "window-end" Event::Cancel(CancelReason::WindowEnd);
    Event::Cancel(CancelReason::Inhibit) => "inhibit" Event::Cancel(CancelReason::Inhibit);
    Event::Cancel(CancelReason::HeldShut) => "held-shut" Event::Cancel(CancelReason::HeldShut);
    Event::Cancel(CancelReason::Forced) => "forced" Event::Cancel(CancelReason::Forced);
    Event::Cancel(CancelReason::Barred) => "barred" Event::Cancel(CancelReason::Barred);
    Event::Cancel(CancelReason::Clock) => "clock" Event::Cancel(CancelReason::Clock);
    Event::Cancel(CancelReason::Changed) => "changed" Event::Cancel(CancelReason::Changed);
    Event::BeginWait(..) => "begin-wait" Event::BeginWait(others(), ends(9_000_000), began());
    Event::Release(..) => "release" Event::Release(others(), ends(9_000_000));
}

pub(super) const NOTHING: Consequences =
    Consequences { cancelled: None, record: None, drive: None, sound: None, forced: Forced::No };

/// What a word of the tables promises.
pub(super) fn promise(word: &str, from: Access, at: Moment) -> (Access, Consequences) {
    let now = at.uptime;
    let record = |event| Consequences { record: Some(event), ..NOTHING };
    let forced = Consequences { forced: Forced::Yes, ..record(audit::Event::Forced) };
    let found = Access::Open(open(How::Forced, None, Ends::Never, now));
    let later = |seconds: u64| Uptime::from_millis(now.as_millis() + seconds * 1_000);
    match word {
        "." => (from, NOTHING),
        // "Ajar without a release: record `forced`, alarm tamper, state open (no
        // drive; no left-open)".
        "forced" => (found, forced),
        // The same, and "waiting and claimable end with record `cancelled`".
        "broken" => (found, Consequences { cancelled: Some(CancelReason::Forced), ..forced }),
        // "Record `delay-started`, sound accepted, state waiting".
        "wait" => (
            Access::Waiting(Waiting {
                people: others(),
                ends: ends(9_000_000),
                delay: Seconds::new(600),
                ready: later(600),
                began: began(),
            }),
            Consequences { sound: Some(Sound::Accepted), ..NOTHING },
        ),
        // "Record `released`, and when it is durable: drive free, state
        // released", for six seconds.
        "free" => (
            Access::Released(Released { people: others(), ends: ends(9_000_000), until: later(6) }),
            Consequences { drive: Some(Drive::Free), ..NOTHING },
        ),
        // "When ajar: open, record `opened`"; the permit goes on.
        "opened" => (
            Access::Open(open(How::Opened, Some(people()), permit(from), now)),
            record(audit::Event::Opened),
        ),
        // "When inhibit is set, or a hold-shut: the same at once": drive block, record
        // `not-drawn`; for two seconds more a hand may have been faster.
        "ended" => (
            Access::Blocked(Released { people: people(), ends: permit(from), until: later(2) }),
            Consequences { drive: Some(Drive::Block), ..record(audit::Event::NotDrawn) },
        ),
        // "When no longer ajar: drive block, record `secured` with the seconds
        // it was open".
        "shut" => (
            Access::Secured,
            Consequences {
                drive: Some(Drive::Block),
                ..record(audit::Event::Secured { open_for: since(from, now) })
            },
        ),
        unknown => panic!("a word without a promise: {unknown}"),
    }
}

/// The end of the permit that a state was reached with.
fn permit(of: Access) -> Ends {
    match of {
        Access::Secured => Ends::Never,
        Access::Waiting(waiting) => waiting.ends,
        Access::Claimable(claim) => claim.ends,
        Access::Released(released) | Access::Blocked(released) => released.ends,
        Access::Open(open) => open.ends,
    }
}

/// Open since that moment, and not late.
const fn open(how: How, people: Option<People>, ends: Ends, since: Uptime) -> Open {
    Open { since, earlier: Seconds::ZERO, how, people, ends, late: Late::No }
}

/// All replays that open do so at 2 s.
fn since(of: Access, now: Uptime) -> Seconds {
    assert_eq!(of.name(), "open");
    Seconds::new(u32::try_from((now.as_millis() - 2_000) / 1_000).unwrap())
}

/// R9: an open lock is left by shutting it, and blocked only then; a bolt drawn
/// without a release is forced; what was under way is said to have ended.
#[test]
fn each_event_does_in_each_state_what_the_contract_says() {
    let table = Table::read(TABLE);
    let mut tried = BTreeSet::new();
    for (from, name, word) in table.cells() {
        let (before, event) = (reached(from), event(name));
        // Whether timers are due is not for these events to judge, nor is the
        // time of day: at, before and long after every deadline, or unknown.
        for at in [800_000, READY, PERMIT, CLAIMED, 90_000_000].map(at) {
            for at in [at, blind(at.uptime.as_millis())] {
                let cancelled = Consequences { cancelled: reason(event), ..NOTHING };
                let expected = match word {
                    "cancel" => (Access::Secured, cancelled),
                    word => promise(word, before, at),
                };
                assert_eq!(before.on(event, at, &POLICY), expected, "{from} × {name} at {at:?}");
            }
        }
        tried.insert((before.name(), name));
    }
    let states = ["secured", "waiting", "claimable", "released", "open"];
    assert_eq!(tried.len(), states.len() * events().len(), "a state or an event has no cell");
}

/// "Ajar within 2 s (exclusive) after a release ended is open and recorded `opened`",
/// whether it ran out or was ended; later it is forced.
#[test]
fn a_hand_may_be_faster_than_the_blocker_by_two_seconds() {
    let early = reached("released").on(Event::Cancel(CancelReason::Inhibit), at(3_000), &POLICY).0;
    for (blocked, ended) in [(reached("secured-blocked"), 6_000), (early, 3_000)] {
        for (after, word) in [(0, "opened"), (1_999, "opened"), (2_000, "forced")] {
            let at = at(ended + after);
            let expected = promise(word, blocked, at);
            assert_eq!(blocked.on(Event::Ajar, at, &POLICY), expected, "{after} ms after it");
        }
    }
}

fn event(name: &str) -> Event {
    let mut named = events().into_iter().filter(|event| column(*event) == Some(name));
    let event = named.next().unwrap_or_else(|| panic!("no event is called {name}"));
    assert!(named.next().is_none(), "two events are called {name}");
    event
}

fn reason(event: Event) -> Option<CancelReason> {
    match event {
        Event::Cancel(why) => Some(why),
        Event::Time | Event::Ajar | Event::Shut | Event::BeginWait(..) | Event::Release(..) => None,
    }
}
