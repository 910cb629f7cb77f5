//! A fortnight of the demo site, lived through by emulated locks: what sample
//! audits, tests and benches are made from. Nothing of it is written by hand
//! but what people do.

use lock_core::audit::{Entry, Seq};
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::link::extract::{ExtractHeader, ExtractWriter, Scope};
use lock_core::pairing::Pairing;
use lock_core::policy::Millivolts;
use lock_core::port::Bolt;
use lock_core::store::FormatError;
use lock_core::time::{Date, Utc};

use crate::plan::first_instant;
use crate::site::{LockPlan, Site};
use crate::world::World;

/// Days that are lived through.
pub const DAYS: u16 = 14;

/// What somebody does.
#[derive(Clone, Copy)]
enum Deed {
    /// Those people open for so many seconds; with a delay they come back.
    Open(&'static [u8], u32),
    /// The same, and the last of them types a duress code.
    Duress(&'static [u8], u32),
    /// A right code, and nobody comes back or draws the bolt.
    Ask(u8),
    /// Wrong codes on a number.
    Wrong(u8, u32),
    /// The battery is out for so many seconds.
    Battery(u32),
    /// The battery gives so many millivolts.
    Supply(u16),
    /// The bolt is forced, and thrown again after so many seconds.
    Force(u32),
    /// The clock chip jumps by so many seconds while the power is out.
    Clock(i64),
}

/// The day from 0, a Monday; the time; and what happens.
type Line = (u16, (u32, u32), Deed);

use Deed::{Ask, Battery, Clock, Duress, Force, Open, Supply, Wrong};

/// Tomasz and Aoife at the counter, Lena at night, Maeve and Ines.
const TILL: &[Line] = &[
    (0, (18, 20), Ask(12)),
    (2, (9, 40), Wrong(12, 4)),
    (2, (9, 42), Battery(30)),
    (3, (16, 58), Open(&[13], 1_260)),
    (4, (11, 5), Duress(&[13], 95)),
    (5, (15, 30), Ask(13)),
    (6, (19, 45), Open(&[1], 5_400)),
    (7, (10, 15), Ask(14)),
    (8, (3, 10), Wrong(21, 6)),
    (8, (3, 20), Wrong(21, 4)),
    (8, (3, 40), Wrong(77, 3)),
    (8, (3, 41), Wrong(21, 1)),
    (8, (4, 40), Wrong(21, 2)),
    (9, (12, 5), Supply(4_700)),
    (10, (14, 0), Supply(4_100)),
    (10, (14, 5), Ask(12)),
    (10, (14, 30), Supply(6_300)),
    (12, (23, 15), Force(240)),
    (13, (12, 0), Clock(-172_800)),
];

const STORE: &[Line] = &[
    (0, (9, 15), Open(&[12], 420)),
    (1, (9, 20), Open(&[13], 380)),
    (1, (12, 25), Ask(12)),
    (2, (14, 0), Ask(13)),
    (3, (9, 10), Open(&[12], 510)),
    (4, (10, 0), Ask(12)),
    (4, (10, 4), Battery(60)),
    (7, (9, 30), Open(&[13], 300)),
    (8, (9, 30), Open(&[12], 640)),
    (10, (9, 45), Duress(&[12], 180)),
    (11, (9, 25), Open(&[3], 290)),
];

const VAULT: &[Line] = &[
    (0, (10, 0), Open(&[3, 12], 900)),
    (2, (10, 0), Ask(12)),
    (4, (10, 30), Open(&[3, 13], 1_020)),
    (7, (10, 0), Open(&[3, 12], 840)),
    (9, (16, 0), Open(&[1, 3], 600)),
    (11, (10, 0), Open(&[3, 13], 960)),
];

/// What happens at a lock: its own lines, and the counter's daily round.
fn lines(id: &str) -> Vec<Line> {
    let mut lines: Vec<Line> = match id {
        "till" => TILL.to_vec(),
        "store" => STORE.to_vec(),
        "vault" => VAULT.to_vec(),
        _ => Vec::new(),
    };
    if id == "till" {
        for day in 0..DAYS {
            let late = u32::from(day % 5);
            match day % 7 {
                5 => lines.push((day, (9, 2 + late), Open(&[12], 160 + late * 11))),
                6 => {}
                _ => lines.extend([
                    (day, (8, 31 + late), Open(&[12], 140 + late * 23)),
                    (day, (13, 32 + late), Open(&[13], 95 + late * 17)),
                    (day, (16, 40 + late), Open(&[12], 420 + late * 31)),
                ]),
            }
            lines.push((day, (22, 4 + late), Open(&[21], 210 + late * 13)));
        }
    }
    lines.sort_by_key(|(day, (hour, minute), _)| (*day, *hour, *minute));
    lines
}

/// Lets lock `id` of the site live through a fortnight from `start`, a Monday.
/// Somebody collects its audit at the end of each week: `collect` gets the lock.
///
/// # Errors
/// If the site has no such lock, or its settings cannot be stored.
pub fn fortnight(
    site: &Site,
    id: &str,
    start: Date,
    collect: &mut dyn FnMut(&mut World),
) -> Result<(), FormatError> {
    let plan = site.lock(id).ok_or(FormatError::Layout)?;
    let first = first_instant(&site.zone, start).ok_or(FormatError::Layout)?;
    let settings = site.settings(plan, *b"emulated locks only: no real key");
    let mut life = Life { site, plan, world: World::commission(&settings, first)? };
    let mut lines = lines(id).into_iter().peekable();
    for day in 0..DAYS {
        let date = start.checked_add(day).ok_or(FormatError::Layout)?;
        let midnight = first_instant(&site.zone, date).ok_or(FormatError::Layout)?;
        while let Some((_, (hour, minute), deed)) = lines.next_if(|(on, ..)| *on == day) {
            life.until(midnight, hour * 3_600 + minute * 60);
            life.does(deed);
        }
        if day % 7 == 6 {
            life.until(midnight, 86_340);
            collect(&mut life.world);
        }
        life.world.take_trace();
    }
    Ok(())
}

/// Seals what a lock has on record into an extract, as the lock does.
#[must_use]
pub fn extract(pairing: &Pairing, header: &ExtractHeader, entries: &[Entry]) -> Option<Vec<u8>> {
    let mut writer = ExtractWriter::new(pairing, header);
    let (key, mut file) = (pairing.outbound(), writer.header().to_vec());
    for index in 0..=u16::MAX {
        let from = |due: Seq| entries.iter().filter(move |e| e.last() >= due).copied();
        file.extend_from_slice(writer.chunk(index, &key, from).ok()?);
        if writer.is_done() {
            return Some(file);
        }
    }
    None
}

/// What a steward carries away from a lock: everything, or what is new since
/// `collected`.
#[must_use]
pub fn carried_out(
    world: &mut World,
    pairing: &Pairing,
    number: u32,
    scope: Scope,
    collected: Option<Seq>,
) -> Option<Vec<u8>> {
    let from = collected.map_or(Seq(1), |seq| Seq(seq.0.saturating_add(1)));
    let entries: Vec<Entry> = world.memory()?.records(from).collect();
    let newest = entries.last().map(Entry::last);
    // A lock whose clock is invalid does not know when it was.
    let timed = entries.iter().rev().find_map(Entry::record).is_none_or(|(_, r)| r.at.is_some());
    let made = timed.then(|| world.utc());
    let since_last = collected.is_some();
    extract(pairing, &ExtractHeader { number, scope, since_last, from, newest, made }, &entries)
}

struct Life<'s> {
    site: &'s Site,
    plan: &'s LockPlan,
    world: World,
}

impl Life<'_> {
    fn until(&mut self, midnight: Utc, second: u32) {
        let at = u64::from(midnight.as_secs().saturating_add(second)) * 1_000;
        self.world.run_until(at.max(self.world.now()));
    }

    fn wait(&mut self, seconds: u32) {
        self.world.run_until(self.world.now() + u64::from(seconds) * 1_000);
    }

    fn does(&mut self, deed: Deed) {
        match deed {
            Open(people, seconds) => self.open(people, seconds, 0),
            Duress(people, seconds) => self.open(people, seconds, 1),
            Ask(who) => {
                self.enter(who, 0);
                self.wait(20);
            }
            Wrong(who, times) => {
                for _ in 0..times {
                    self.type_digits(&format!("{who:02}194728"));
                    self.wait(7);
                }
            }
            Battery(seconds) => {
                self.world.cut_power();
                self.wait(seconds);
                self.world.restore_power();
            }
            Supply(mv) => self.world.supply(Millivolts::new(mv)),
            Force(seconds) => {
                self.world.force_bolt();
                self.wait(seconds);
                let _ = self.world.move_bolt(Bolt::Thrown);
            }
            Clock(by) => {
                self.world.cut_power();
                self.world.shift_clock(by);
                self.world.restore_power();
            }
        }
    }

    fn open(&mut self, people: &[u8], seconds: u32, last_digit: u8) {
        self.everybody(people, last_digit);
        let delay = self.plan.policy.delay.get();
        if delay > 0 {
            self.wait(delay + 25);
            self.everybody(people, last_digit);
        }
        self.wait(3);
        if self.world.move_bolt(Bolt::Drawn).is_ok() {
            self.wait(seconds);
            let _ = self.world.move_bolt(Bolt::Thrown);
        }
    }

    fn everybody(&mut self, people: &[u8], last_digit: u8) {
        for (place, who) in people.iter().enumerate() {
            let last = place + 1 == people.len();
            self.enter(*who, if last { last_digit } else { 0 });
            // Released, the bolt must be drawn within seconds.
            if !last {
                self.wait(9);
            }
        }
    }

    /// Types the demo code of `who`, its last digit raised by `raised`.
    fn enter(&mut self, who: u8, raised: u8) {
        let mut codes = self.site.demo_codes.iter();
        let code = codes.find(|demo| Some(demo.number()) == Number::new(who));
        let Some(code) = code.map(|demo| demo.digits()) else { return };
        let (head, last) = code.split_at(code.len() - 1);
        let last = last.parse::<u8>().map_or(0, |digit| (digit + raised) % 10);
        self.type_digits(&format!("{who:02}{head}{last}"));
    }

    fn type_digits(&mut self, digits: &str) {
        for digit in digits.bytes().filter_map(|byte| Digit::new(byte.wrapping_sub(b'0'))) {
            self.world.press(Key::Digit(digit));
        }
        self.world.press(Key::Ok);
    }
}
