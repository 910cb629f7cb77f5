//! The byte tables of the flash layout, version 4, spelled out byte by byte
//! from `docs/flash-layout.md`; check values from an independent CRC-32
//! (Python's `zlib.crc32`). They may not drift: locks in the field hold them.

use std::format;
use std::string::String;

use super::super::memo::{Memo, Word};
use super::super::record_slot::Kept;
use super::super::tally_slot::{self, Entry, Generation};
use super::super::{Layout, record_slot};
use super::*;
use crate::audit::Seq;
use crate::tally::{ClockMark, PenaltyMark, SetUp, Settling, TallyState, Weights};
use crate::task::Task;

fn hex(bytes: &[u8]) -> String {
    let words = bytes
        .chunks(4)
        .map(|word| word.iter().map(|byte| format!("{byte:02x}")).collect::<String>());
    words.collect::<Vec<_>>().join(" ")
}

fn kept(record: Record) -> Kept {
    let (ordinal, generation) = (0x1112_1314, 0x2122_2324);
    Kept { seq: Seq(0x0102_0304), ordinal, generation, tally: 0xA5, copied: None, record }
}

fn record(at: Option<u32>, event: Event) -> String {
    let record = Record { at: at.map(Utc::from_secs), event };
    hex(&record_slot::encode(&kept(record)).unwrap())
}

#[test]
fn records() {
    let two = People { first: number(7), second: Some(number(42)) };
    let released = |outcome| record(Some(0x6500_0000), Event::Released { people: two, outcome });
    assert_eq!(
        released(Outcome::Plain),
        "0200072a ff0101a5 04030201 00000065 ffffffff 14131211 24232221 bb96b341"
    );
    assert_eq!(
        released(Outcome::Duress),
        "0200072a ff0201a5 04030201 00000065 ffffffff 14131211 24232221 86af5637"
    );
    assert_eq!(
        record(None, Event::PoweredUp { unrecorded: 7 }),
        "0100ffff ffff00a5 04030201 ffffffff 07000000 14131211 24232221 fc5642b2"
    );
    assert_eq!(
        record(None, Event::FoundThrown { open_for: Some(Seconds::new(0x1234)) }),
        "2800ffff ffff00a5 04030201 ffffffff 34120000 14131211 24232221 5779ca1d"
    );
    let held = Event::HeldShut { who: number(7), until: Utc::from_secs(0x6500_0001) };
    assert_eq!(
        record(Some(1), held),
        "0f0007ff ffff01a5 04030201 01000000 01000065 14131211 24232221 fbf92d0f"
    );
    let before = Some(Utc::from_secs(0x6500_0001));
    assert_eq!(
        record(Some(1), Event::Changed { by: Some(two), change: Change::ClockSet(before) }),
        "1e00072a ffff01a5 04030201 01000000 01000065 14131211 24232221 e782e105"
    );
    let hold = Event::Refused { who: number(99), why: Refusal::Hold, outcome: Outcome::Plain };
    assert_eq!(
        record(Some(1), hold),
        "0d0063ff 0e0101a5 04030201 01000000 ffffffff 14131211 24232221 fe88e1ef"
    );
    let low = Event::Supply { level: Level::Low, measured: Millivolts::new(0x1234) };
    assert_eq!(
        record(Some(1), low),
        "1100ffff 02ff01a5 04030201 01000000 34120000 14131211 24232221 7716c246"
    );
    let asked = Event::Asked { who: number(7), task: Task::SetClock, outcome: Outcome::Duress };
    assert_eq!(
        record(Some(1), asked),
        "140007ff 0b0201a5 04030201 01000000 ffffffff 14131211 24232221 d2cff907"
    );
    let corrected = Event::Changed { by: Some(two), change: Change::ClockCorrected(-300) };
    assert_eq!(
        record(Some(1), corrected),
        "1d00072a ffff01a5 04030201 01000000 d4feffff 14131211 24232221 e29469a6"
    );
    let enrolled = Change::Enrolled(number(12), Role::Keyholder);
    assert_eq!(
        record(None, Event::Changed { by: None, change: enrolled }),
        "1600ffff 0cff00a5 04030201 ffffffff 03000000 14131211 24232221 b068d41c"
    );
}

/// The numbers of kinds and details that the table above leaves out.
#[test]
fn kinds_and_details() {
    let who = number(1);
    let people = People { first: who, second: None };
    let outcome = Outcome::Plain;
    let kinds = [
        (1, Event::PoweredUp { unrecorded: 0 }),
        (2, Event::Released { people, outcome }),
        (3, Event::Opened),
        (4, Event::Secured { open_for: Seconds::new(1) }),
        (5, Event::NotDrawn),
        (6, Event::LeftOpen),
        (7, Event::Forced),
        (8, Event::DelayStarted { people, outcome }),
        (9, Event::Lapsed),
        (10, Event::Cancelled { why: CancelReason::Clock }),
        (11, Event::FirstOfTwo { who, outcome }),
        (12, Event::WrongCode { who }),
        (13, Event::Refused { who, why: Refusal::Closed, outcome }),
        (14, Event::Penalty { lasts: Seconds::new(1) }),
        (15, Event::HeldShut { who, until: Utc::from_secs(1) }),
        (16, Event::Status { who, outcome }),
        (17, Event::Supply { level: Level::Good, measured: Millivolts::new(1) }),
        (18, Event::ClockInvalid),
        (19, Event::Fault { fault: Fault::Bug }),
        (20, Event::Asked { who, task: Task::Status, outcome }),
        (40, Event::FoundThrown { open_for: None }),
    ];
    let slot = |event| record_slot::encode(&kept(Record { at: None, event })).unwrap();
    for (kind, event) in kinds {
        assert_eq!(slot(event)[0], kind, "{event:?}");
    }
    let detail = |event| slot(event)[4];
    let refused = |why| Event::Refused { who, why, outcome };
    let places: Vec<u8> = Refusal::ALL.into_iter().map(|why| detail(refused(why))).collect();
    assert_eq!(places, (0..17).collect::<Vec<u8>>());
    let cancelled = |why| detail(Event::Cancelled { why });
    assert_eq!(CANCELS.map(cancelled), [1, 2, 3, 4, 5, 6, 7]);
    let fault = |fault| detail(Event::Fault { fault });
    let faults = [Fault::Blank, Fault::Drive, Fault::Bug, Fault::Layout];
    assert_eq!(faults.map(fault), [1, 4, 5, 6]);
    let supply = |level| detail(Event::Supply { level, measured: Millivolts::new(1) });
    assert_eq!((supply(Level::Spent), supply(Level::Good)), (1, 3));
}

/// The numbers of changes, of their roles, timetables and tasks.
#[test]
fn changes() {
    let who = number(1);
    let (role, follows) = (Role::Warden, Follows::Always);
    let kinds = [
        (21, Change::Commissioned(who)),
        (22, Change::Enrolled(who, role)),
        (23, Change::CodeChanged(who)),
        (24, Change::RoleChanged(who, role)),
        (25, Change::TimetableChosen(who, follows)),
        (26, Change::Suspended(who)),
        (27, Change::Restored(who)),
        (28, Change::Removed(who)),
        (29, Change::ClockCorrected(1)),
        (30, Change::ClockSet(None)),
        (31, Change::PolicySet(0, 1)),
        (32, Change::Paired(1)),
        (33, Change::FileLoaded(1)),
        (34, Change::FileWaits(1)),
        (35, Change::Collected(Seq(1))),
        (36, Change::AlarmTested),
        (37, Change::ResetBegun),
        (38, Change::ResetCancelled),
        (39, Change::Reset),
        (41, Change::WayOutBegun),
        (42, Change::WayOutEnded),
        (43, Change::WayOut),
    ];
    let slot = |event| record_slot::encode(&kept(Record { at: None, event })).unwrap();
    let of = |change| slot(Event::Changed { by: None, change });
    for (kind, change) in kinds {
        assert_eq!(of(change)[0], kind, "{change:?}");
    }
    let values = Role::ALL.map(|role| of(Change::RoleChanged(who, role))[16]);
    assert_eq!(values, [1, 2, 3, 4, 5]);
    let follows = [Follows::Always, Follows::Timetable(TimetableId::H)];
    assert_eq!(follows.map(|follows| of(Change::TimetableChosen(who, follows))[16]), [0, 8]);
    let outcome = Outcome::Plain;
    let places = Task::ALL.map(|task| slot(Event::Asked { who, task, outcome })[4]);
    assert!(places.into_iter().eq(0..17));
    assert_eq!(of(Change::PolicySet(13, 1))[4], 13);
}

#[test]
fn tally_entries() {
    let generation = Generation(0x0A0B_0C0D);
    let slot = |tally| tally_slot::encode(&Entry { generation, index: 0x5B, tally }).unwrap();
    let entry = |tally| hex(&slot(Some(tally)));
    let rest = "0d0c0b0a ffffffff ffffffff ffffffff ffffffff ffffffff";
    assert_eq!(entry(Tally::Counted(number(12))), format!("41000c5b {rest} a0a03f31"));
    assert_eq!(entry(Tally::Cleared(number(0))), format!("4200005b {rest} e51c5c4c"));
    assert_eq!(entry(Tally::Penalty), format!("4300ff5b {rest} 8ff39b73"));
    assert_eq!(
        entry(Tally::HeldShut(Steady::from_secs(0x6500_0001))),
        "4600ff5b 0d0c0b0a 01000065 ffffffff ffffffff ffffffff ffffffff 501eff66"
    );
    assert_eq!(entry(Tally::Faded(number(12))), format!("45000c5b {rest} d454e837"));
    let doubt = |at: Option<u32>| entry(Tally::ClockDoubt(at.map(Steady::from_secs)));
    assert_eq!(
        doubt(Some(0x6500_0001)),
        "4700ff5b 0d0c0b0a 01000065 ffffffff ffffffff ffffffff ffffffff 4de34a67"
    );
    assert_eq!(doubt(None), format!("4700ff5b {rest} fb074c75"));
    let corrected = Tally::Corrected { by: Seconds::new(300), shift: Shift::from_secs(-300) };
    assert_eq!(
        entry(corrected),
        "4900ff5b 0d0c0b0a 2c010000 d4feffff ffffffff ffffffff ffffffff bfe34267"
    );
    assert_eq!(
        entry(Tally::ClockSet(Shift::from_secs(0x102))),
        "4b00ff5b 0d0c0b0a ffffffff 02010000 ffffffff ffffffff ffffffff 46512b53"
    );
    assert_eq!(
        entry(Tally::WayOut(People { first: number(7), second: Some(number(42)) })),
        "5300075b 0d0c0b0a ffffffff ffffffff 2affffff ffffffff ffffffff f2096a4a"
    );
    let kinds = [
        (68, Some(Tally::Served)),
        (72, None),
        (74, Some(Tally::CorrectionsOver)),
        (76, Some(Tally::Settled)),
        (77, Some(Tally::Collected(Seq(1)))),
        (78, Some(Tally::Eased)),
        (79, Some(Tally::Brought(Steady::from_secs(1)))),
        (80, Some(Tally::SettingUp)),
        (81, Some(Tally::SetUp)),
        (82, Some(Tally::PoweredUp)),
        (84, Some(Tally::WayOutOver)),
    ];
    for (kind, tally) in kinds {
        assert_eq!(slot(tally)[0], kind, "{tally:?}");
    }
}

#[test]
fn checkpoints() {
    let mut totals = [0; 100];
    (totals[0], totals[99]) = (100, 3);
    let state = TallyState {
        totals,
        weights: [98, 99, 98].into_iter().map(number).collect::<Weights>(),
        step: 5,
        penalty: PenaltyMark::Running,
        held_until: Some(Steady::from_secs(0x6500_0001)),
        clock: ClockMark::Doubted,
        doubted_at: Some(Steady::from_secs(0x6500_0005)),
        shift: Shift::from_secs(-300),
        settling: Settling::Yes,
        corrected: Seconds::new(0x0102),
        collected: Seq(0x0506_0708),
        brought: Some(Steady::from_secs(0x6500_0006)),
        set_up: SetUp::Done,
        way_out: Some(People { first: number(9), second: Some(number(10)) }),
        power_ups: 0x0203,
    };
    let memo = Memo {
        floor: Some(Utc::from_secs(0x6500_0002)),
        outcome: Some(Outcome::Duress),
        word: Word::Opened(Some(Utc::from_secs(0x6500_0004))),
        people: Some(People { first: number(7), second: Some(number(42)) }),
        power_ups: 2,
        supply: Level::Low,
        next: Seq(0x0102_0304),
    };
    let block = tally_slot::encode_checkpoint(Generation(0x0A0B_0C0D), &state, &memo).unwrap();
    assert_eq!(hex(&block[..14]), "40010101 0d0c0b0a 01000065 0564");
    assert_eq!(block[14..112], [0; 98]);
    assert_eq!(block[112], 3);
    assert_eq!(hex(&block[113..125]), "626362ff ffffffff ffffffff");
    assert_eq!(hex(&block[125..144]), "0202072a 01040000 65020102 00006504 030201");
    assert_eq!(hex(&block[144..168]), "01010201 00000807 0605d4fe ffff0105 00006501 06000065");
    assert_eq!(hex(&block[168..192]), "090a0302 000002ff ffffffff ffffffff ffffffff c67e1add");
}

/// The bank of [`plain_settings`], and the calendar of one window, one closure and one
/// special day, at the addresses of the document.
#[test]
fn a_bank_and_a_calendar() {
    let window = Window::new(Minute::from_hm(8, 30).unwrap(), Minute::END).unwrap();
    let mut settings = plain_settings();
    settings.calendar.weeks[1][6] = [window].into_iter().collect();
    let date = Date::from_days(0x5051);
    let only_h = Timetables::default().with(TimetableId::H);
    let closure = Closure { from: date, to: date.next().unwrap(), timetables: only_h };
    settings.calendar.closures.push(closure).unwrap();
    let special =
        Special { date, timetables: Timetables::ALL, windows: [window; 2].into_iter().collect() };
    settings.calendar.specials.push(special).unwrap();
    let layout = Layout::for_pages_of(2_048).unwrap();
    let store = FlashStore::format(erased::<8, 2_048>(layout), layout, &settings).ok().unwrap();
    let flash = store.into_flash();
    let row = |slot: usize, length: usize| hex(&flash.content()[slot * 32..slot * 32 + length]);

    assert_eq!(row(0, 12), "80040100 01000000 01ffffff");
    assert_eq!(row(2, 8), "8a000100 ffffffff");
    assert_eq!(row(3, 32), ["ffffffff"; 8].join(" "));
    assert_eq!(
        row(4, 60),
        "81000100 06042c01 00006009 00000000 0000b400 00003c00 00003c00 00000600 \
         0000c012 00006810 00000101 0300ffff ffffffff ffffffff ffffffff"
    );
    assert_eq!(row(6, 12), "82180100 474d5430 4953542c");
    assert_eq!(row(8, 8), "83000100 33333333");
    assert_eq!(row(8, 40).len(), 89);
    assert_eq!(row(12, 8), "85000100 ffffffff");
    assert_eq!(
        row(14, 56),
        "84010100 01010101 11111111 11111111 11111111 11111111 \
         22222222 22222222 22222222 22222222 04030201 00ffffff ffffffff ffffffff"
    );
    assert_eq!(row(10, 8), "8c000100 ffffffff");
    assert_eq!(row(212, 28), "8d000100 00000000 0000ffff ffffffff ffffffff 01000000 ffffffff");
    let first_page_of_tally = 2 * 4 * 2_048 / 32;
    let calendar = (8 + 4 + 18 + 6 + 2) * 2_048 / 32;
    // Sunday of B: 7 + 6. 510 and 1,440 are 0x1FE and 0x5A0.
    assert_eq!(row(calendar + 13, 12), "860d0100 01fe015a ffffffff");
    assert_eq!(row(calendar + 56, 20), "87000100 51505250 8001ffff ffffff00 ffffffff");
    assert_eq!(row(calendar + 72, 16), "88000100 5150ff02 fe015afe 015affff");
    assert_eq!(row(calendar + 73, 8), "89010100 ffffffff");
    assert_eq!(row(calendar + 104, 12), "8f180100 474d5430 4953542c");
    assert_eq!(row(first_page_of_tally, 8), "40000000 01000000");
    assert_eq!(row(first_page_of_tally + 6, 8), "4800ff00 01000000");
}
