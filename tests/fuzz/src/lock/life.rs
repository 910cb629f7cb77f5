//! The lock, with and without power, and the hands round it.

use std::cell::OnceCell;

use emulated_board::flash::{Chip, Limits, PerWord, RamFlash};
use emulated_board::fuse::{Cut, Fuse, Power as _};
use lock_core::audit::{Event as Recorded, Record};
use lock_core::board::Noticed;
use lock_core::device::{Device, Progress};
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Contacts, Drive, Effect};
use lock_core::store::{FlashStore, Layout};

use super::Event;
use super::judge::Judge;
use super::people::{self, POLICIES, keys};
use crate::bench::{Bench, Outside, Stuck};
use crate::boot;
use crate::image::key_of;
use crate::list;

const WORD: usize = 8;
const PAGE: usize = 512;

type Cells = Chip<WORD, PAGE, Vec<u8>>;
type Flash<'o> = RamFlash<WORD, PAGE, Vec<u8>, &'o Fuse>;
type Lock<'o> = Device<Bench<'o>, FlashStore<Flash<'o>>>;

fn layout() -> Layout {
    Layout::smallest(PAGE).expect("a store takes pages of 512 bytes")
}

/// Turns that one moment takes at most: many keys, each a try with its writes
/// and effects.
const TURNS: u32 = 2_000;

/// A chip of a lock that was just commissioned under that policy.
fn commissioned(policy: u8) -> Cells {
    thread_local! {
        static CHIPS: [OnceCell<Cells>; POLICIES as usize] =
            const { [const { OnceCell::new() }; POLICIES as usize] };
    }
    let make = || {
        let bytes = layout().bytes(PAGE).and_then(|bytes| usize::try_from(bytes).ok());
        let limits = Limits { programs: PerWord::Once, endurance: None };
        let chip = Cells::erased(vec![0; bytes.unwrap_or(0)]).with_limits(limits);
        let fuse = Fuse::new();
        let flash = RamFlash::new(chip, &fuse);
        match FlashStore::format(flash, layout(), &people::settings(policy)) {
            Ok(store) => store.into_flash().into_chip(),
            Err(why) => panic!("a sound flash was not commissioned: {why:?}"),
        }
    };
    CHIPS
        .with(|chips| chips.get(usize::from(policy)).map(|chip| chip.get_or_init(make).clone()))
        .expect("there is such a policy")
}

/// A lock and its surroundings.
pub(super) struct Life<'o> {
    outside: &'o Outside,
    judge: Judge,
    power: Power<'o>,
    /// Where the drive last went.
    blocker: Drive,
    /// A cut that was ordered while there was no power.
    ordered: Option<Cut>,
}

enum Power<'o> {
    On(Box<Lock<'o>>),
    Off(Box<Cells>),
    /// Between the two, within one call.
    Changing,
}

impl<'o> Life<'o> {
    pub(super) fn new(outside: &'o Outside, policy: u8) -> Self {
        Self {
            outside,
            judge: Judge::new(policy),
            power: Power::Off(Box::new(commissioned(policy))),
            blocker: Drive::Block,
            ordered: None,
        }
    }

    pub(super) fn happens(&mut self, event: Event) {
        let outside = self.outside;
        match event {
            Event::Cut(cut) if self.has_power() => outside.fuse.arm(cut),
            Event::Cut(cut) => self.ordered = Some(cut),
            Event::Wait(time) => self.wait(time),
            Event::Sleep => self.sleep(),
            Event::Pull => self.power_went(),
            Event::Draw if self.blocker == Drive::Block => {}
            Event::Draw | Event::Force => self.contacts(|now| now.bolt = Bolt::Drawn),
            Event::Throw => self.contacts(|now| now.bolt = Bolt::Thrown),
            Event::Door(door) => self.contacts(|now| now.door = door),
            Event::Inhibit(inhibit) => self.contacts(|now| now.inhibit = inhibit),
            Event::Switch(switch) => self.contacts(|now| now.switch = switch),
            Event::Shift(by) => {
                outside.ahead.set(outside.ahead.get().map(|ahead| ahead + i64::from(by)));
                self.nudge();
            }
            Event::Lost => {
                outside.ahead.set(None);
                self.nudge();
            }
            Event::Drive(stuck) => outside.stuck.set(stuck),
            Event::Writes(how, many) => self.spoil(how, many.into()),
            Event::Key(key) => self.notices(key_of(key).map(Noticed::Key)),
            Event::Enter(who, how) => {
                self.notices(keys(who, how).into_iter().filter_map(key_of).map(Noticed::Key));
            }
            Event::Ask(task, who, how) => {
                let mut typed = vec![11; usize::from(task / 3) + 1];
                typed.push(task % 3 + 1);
                typed.extend(keys(who, how));
                self.notices(typed.into_iter().filter_map(key_of).map(Noticed::Key));
            }
            Event::Line(value, digits) => {
                let digits = (0..u32::from(digits)).rev().map(|place| value / 10_u32.pow(place));
                let typed = digits.filter_map(|n| u8::try_from(n % 10).ok()).chain([11]);
                self.notices(typed.filter_map(key_of).map(Noticed::Key));
            }
            Event::Supply(mv) => self.notices([Noticed::Supply(Millivolts::new(mv))]),
        }
    }

    /// Pulls the battery once more, and has the lock boot without a fault.
    pub(super) fn end(&mut self) {
        self.power_went();
        self.ordered = None;
        self.outside.stuck.set(Stuck::No);
        self.restore_power();
        let Power::On(lock) = &mut self.power else {
            panic!("Invariant 3: power that lasts, and the lock has none");
        };
        let violations = lock.store_mut().flash_mut().chip().violations();
        assert!(violations.is_none(), "Invariant 13: {violations:?}");
    }

    fn has_power(&self) -> bool {
        matches!(self.power, Power::On(_))
    }

    fn notices(&mut self, noticed: impl IntoIterator<Item = Noticed>) {
        self.restore_power();
        if self.has_power() {
            self.outside.noticed.borrow_mut().extend(noticed);
        }
        self.settle();
    }

    fn spoil(&mut self, how: u8, many: u32) {
        self.restore_power();
        if let Power::On(lock) = &mut self.power {
            let flash = lock.store_mut().flash_mut();
            match how {
                0 => flash.fail_next_writes(many),
                1 => flash.lie_next_writes(many),
                _ => flash.deny_next_writes(many),
            }
        }
    }

    fn contacts(&mut self, change: impl FnOnce(&mut Contacts)) {
        let before = self.outside.contacts.get();
        let mut after = before;
        change(&mut after);
        self.outside.contacts.set(after);
        if !self.has_power() {
            return;
        }
        {
            let mut noticed = self.outside.noticed.borrow_mut();
            noticed.extend((before.bolt != after.bolt).then_some(Noticed::Bolt(after.bolt)));
            noticed.extend((before.door != after.door).then_some(Noticed::Door(after.door)));
            let inhibit = Noticed::Inhibit(after.inhibit);
            noticed.extend((before.inhibit != after.inhibit).then_some(inhibit));
            let switch = Noticed::Switch(after.switch);
            noticed.extend((before.switch != after.switch).then_some(switch));
        }
        self.settle();
    }

    /// The lock looks at its clock although it asked for no wake-up.
    fn nudge(&mut self) {
        self.settle();
        if let Power::On(lock) = &mut self.power {
            lock.nudge();
        }
        self.settle();
    }

    fn restore_power(&mut self) {
        self.power = match std::mem::replace(&mut self.power, Power::Changing) {
            Power::Off(chip) => self.boot(*chip),
            unchanged => unchanged,
        };
        self.settle();
    }

    fn boot(&mut self, chip: Cells) -> Power<'o> {
        let outside = self.outside;
        outside.fuse.power_cycle();
        if let Some(cut) = self.ordered.take() {
            outside.fuse.arm(cut);
        }
        outside.booted.set(outside.now.get());
        outside.noticed.borrow_mut().clear();
        let before = outside.fuse.steps();
        let (mut store, found) = FlashStore::mount(RamFlash::new(chip, &outside.fuse), layout());
        boot::took(outside.fuse.steps() - before, layout(), WORD);
        self.judge.booted(outside.contacts.get());
        if !outside.fuse.is_on() {
            return Power::Off(Box::new(store.into_flash().into_chip()));
        }
        assert!(found.known.is_ok(), "Invariant 7: the settings are gone");
        self.judge.listed(&list::of(&mut store));
        Power::On(Box::new(Device::power_up(Bench(outside), store, found)))
    }

    /// Nothing is left of the lock but its flash.
    fn power_went(&mut self) {
        self.outside.fuse.power_cut();
        self.power = match std::mem::replace(&mut self.power, Power::Changing) {
            Power::On(lock) => {
                let (_, store) = lock.power_down();
                Power::Off(Box::new(store.into_flash().into_chip()))
            }
            unchanged => unchanged,
        };
        self.judge.power_went();
    }

    fn wait(&mut self, time: u64) {
        let outside = self.outside;
        let until = outside.now.get() + time;
        let mut wakes = 0;
        while let Some(wake) = self.settle()
            && wake <= until
        {
            outside.now.set(wake.max(outside.now.get()));
            wakes += 1;
            // Minutes are shown, and every timer ends once.
            assert!(wakes <= 64 + time / 10_000, "Invariant 3: it wakes again and again");
        }
        outside.now.set(until);
        self.settle();
    }

    /// Until the next wake-up, and no time if none is asked for.
    fn sleep(&mut self) {
        if let Some(wake) = self.settle() {
            self.outside.now.set(wake.max(self.outside.now.get()));
            self.settle();
        }
    }

    /// Lets the lock do all it has to do at this moment; its next wake-up, in
    /// true time.
    fn settle(&mut self) -> Option<u64> {
        for _ in 0..TURNS {
            let Power::On(lock) = &mut self.power else { return None };
            let progress = lock.advance();
            let on = self.outside.fuse.is_on();
            for effect in self.outside.done.take() {
                self.judge.did(effect, &self.outside.reading());
                if let Effect::Drive(to) = effect {
                    self.blocker = to;
                    if to == Drive::Free {
                        on_record(lock);
                    }
                }
            }
            match progress {
                _ if !on => {
                    self.judge.cut(&progress);
                    self.power_went();
                }
                Progress::Did(_) | Progress::Tended(_) => {}
                Progress::Wrote(write, result) => self.judge.wrote(&write, result),
                Progress::Took(input) => self.judge.told(&input),
                Progress::Asleep(wake) => {
                    self.judge.rests();
                    let booted = self.outside.booted.get();
                    return wake.map(|wake| booted.saturating_add(wake.as_millis()));
                }
            }
        }
        panic!("Invariant 3: the lock does not come to rest");
    }
}

/// A boot at this moment, on a copy of the flash, would list the release as
/// the newest record.
fn on_record(lock: &mut Lock<'_>) {
    let chip = lock.store_mut().flash_mut().chip().clone();
    let fuse = Fuse::new();
    let (mut store, _) = FlashStore::mount(RamFlash::new(chip, &fuse), layout());
    let newest = list::of(&mut store).last().map(|(_, record)| *record);
    assert!(
        matches!(newest, Some(Record { event: Recorded::Released { .. }, .. })),
        "R1: the bolt is free, and the newest record is {newest:?}"
    );
}
