//! Stores that are spoiled on purpose: the judge must catch each, and must
//! find nothing in the stores as they are. The rules are those of the fault
//! model; no outside source.

use std::cell::Cell;

use emulator::rig::store::chip::{Cells, Kept};

use crate::flips::{Harm, Image};
use crate::judge::{Broken, Case, Expected, Rule, Seen, boots};
use crate::library::Library;
use crate::life::{self, Ask, Numbers};
use crate::ours::Ours;
use crate::subject::{Fault, Listed, Promise, Raise, Shape, Subject};

/// What is wrong with a store.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Flaw {
    None,
    ForgetsTheNewest,
    ForgetsTheOldest,
    ForgetsOneInTheMiddle,
    ListsTheNewestTwice,
    ListsInReverse,
    ListsWhatNobodyWrote,
    ForgetsASetting,
    KeepsAnOlderSetting,
    ShowsTheNewestEveryOtherBoot,
    CannotList,
    CannotReadASetting,
    CannotWrite,
    CannotRest,
    SaysFirstThatItFailed,
    Panics,
    FailsTheFirstTime,
}

thread_local! {
    /// The flaw of the stores of this test; each test has a thread.
    static FLAW: Cell<Flaw> = const { Cell::new(Flaw::None) };
    static BOOTS: Cell<u32> = const { Cell::new(0) };
}

/// A store with the flaw of its thread.
struct Spoiled<S> {
    inner: S,
    odd: bool,
    calls: u32,
}

impl<S> Spoiled<S> {
    /// Whether this call, at that flaw, fails.
    fn fails(&mut self, flaw: Flaw) -> Result<(), Fault> {
        self.calls += 1;
        let first = FLAW.get() == Flaw::FailsTheFirstTime && self.calls % 2 == 1;
        if first || FLAW.get() == flaw { Err(Fault("spoiled".into())) } else { Ok(()) }
    }
}

impl<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>> Subject<WORD, PAGE>
    for Spoiled<S>
{
    const NAME: &'static str = "spoiled";

    fn promise(shape: &Shape) -> Promise {
        S::promise(shape)
    }

    fn commission(shape: &Shape) -> Result<Cells<WORD, PAGE>, Fault> {
        S::commission(shape)
    }

    fn boot(chip: Cells<WORD, PAGE>, shape: &Shape) -> Self {
        BOOTS.set(BOOTS.get() + 1);
        assert!(FLAW.get() != Flaw::Panics, "spoiled");
        Self { inner: S::boot(chip, shape), odd: BOOTS.get() % 2 == 1, calls: 0 }
    }

    fn off(self) -> Cells<WORD, PAGE> {
        self.inner.off()
    }

    fn acts(&mut self) -> Vec<Kept> {
        self.inner.acts()
    }

    fn list(&mut self) -> Result<Listed, Fault> {
        self.fails(Flaw::CannotList)?;
        let mut listed = self.inner.list()?;
        let records = &mut listed.records;
        match FLAW.get() {
            Flaw::ForgetsTheNewest => drop(records.pop()),
            Flaw::ForgetsTheOldest => drop(records.drain(..records.len().min(8))),
            Flaw::ShowsTheNewestEveryOtherBoot if self.odd => drop(records.pop()),
            Flaw::ForgetsOneInTheMiddle => drop(records.remove(records.len() / 2)),
            Flaw::ListsTheNewestTwice => records.extend(records.last().copied()),
            Flaw::ListsInReverse => records.reverse(),
            Flaw::ListsWhatNobodyWrote => records.push(None),
            _ => {}
        }
        Ok(listed)
    }

    fn setting(&mut self, key: u8) -> Result<Option<u32>, Fault> {
        self.fails(Flaw::CannotReadASetting)?;
        let found = self.inner.setting(key)?;
        Ok(match FLAW.get() {
            Flaw::ForgetsASetting if key == 1 => None,
            Flaw::KeepsAnOlderSetting if key == 1 => found.map(|_| 2),
            _ => found,
        })
    }

    fn record(&mut self, n: u32) -> Result<(), Fault> {
        self.fails(Flaw::CannotWrite)?;
        self.inner.record(n)?;
        // It is written all the same, and then once more.
        self.odd = !self.odd;
        let denied = FLAW.get() == Flaw::SaysFirstThatItFailed && !self.odd;
        if denied { Err(Fault("spoiled".into())) } else { Ok(()) }
    }

    fn set(&mut self, key: u8, n: u32) -> Result<(), Fault> {
        self.fails(Flaw::CannotWrite)?;
        self.inner.set(key, n)
    }

    fn rest(&mut self) -> Result<(), Fault> {
        self.fails(Flaw::CannotRest)?;
        self.inner.rest()
    }
}

const SHAPE: Shape = Shape { map_pages: 2, raise: Raise::Refused };

/// A life of 60 records and some settings, sound; then the boots of a store
/// with that flaw, as after a cut in `under_way`.
fn after_a_life<S: Subject<8, 256>>(flaw: Flaw, happens: bool) -> Broken {
    FLAW.set(Flaw::None);
    let mut numbers = Numbers::default();
    let mut asks = life::first(&mut numbers);
    for n in 0..60 {
        asks.push(Ask::Record(numbers.next()));
        if n % 7 == 0 {
            asks.push(Ask::Set(n % 3, numbers.next()));
        }
    }
    let mut expected = Expected::nothing(S::promise(&SHAPE));
    let mut subject = S::boot(S::commission(&SHAPE).unwrap(), &SHAPE);
    for ask in asks {
        life::ask(&mut subject, ask).unwrap();
        subject.rest().unwrap();
        expected.ask(ask);
    }
    let under_way = Ask::Record(numbers.next());
    if happens {
        life::ask(&mut subject, under_way).unwrap();
        subject.rest().unwrap();
    }
    let goes_on = [Ask::Record(numbers.next()), Ask::Set(0, numbers.next())];
    let chip = subject.off();
    let case = Case {
        chip: &chip,
        shape: &SHAPE,
        before: &expected,
        under_way: Some(under_way),
        goes_on: &goes_on,
    };
    FLAW.set(flaw);
    BOOTS.set(0);
    boots::<8, 256, Spoiled<S>>(&case)
}

fn rules(broken: Broken) -> Vec<Rule> {
    Rule::ALL.into_iter().filter(|rule| broken.has(*rule)).collect()
}

/// Each flaw, what it breaks if the record that was under way was not written,
/// and if it was.
fn every_flaw_is_caught<S: Subject<8, 256>>() {
    use Rule::{Boots, Changes, Invented, Lost, Settings, Writes};
    let cases: [(Flaw, &[Rule], &[Rule]); 17] = [
        (Flaw::None, &[], &[]),
        (Flaw::FailsTheFirstTime, &[], &[]),
        (Flaw::ForgetsTheNewest, &[Lost], &[Lost, Changes]),
        (Flaw::ForgetsTheOldest, &[Lost], &[Lost]),
        (Flaw::ForgetsOneInTheMiddle, &[Lost], &[Lost]),
        (Flaw::ListsTheNewestTwice, &[Invented], &[Invented]),
        (Flaw::ListsInReverse, &[Invented], &[Invented]),
        (Flaw::ListsWhatNobodyWrote, &[Invented], &[Invented]),
        (Flaw::ForgetsASetting, &[Settings], &[Settings]),
        (Flaw::KeepsAnOlderSetting, &[Settings], &[Settings]),
        (Flaw::ShowsTheNewestEveryOtherBoot, &[Lost, Changes], &[Changes]),
        (Flaw::CannotList, &[Boots], &[Boots]),
        (Flaw::CannotReadASetting, &[Boots], &[Boots]),
        (Flaw::CannotWrite, &[Writes], &[Writes]),
        (Flaw::CannotRest, &[Writes], &[Writes]),
        (Flaw::SaysFirstThatItFailed, &[], &[]),
        (Flaw::Panics, &[Boots], &[Boots]),
    ];
    for (flaw, without, with) in cases {
        assert_eq!(rules(after_a_life::<S>(flaw, false)), without, "{flaw:?}, not written");
        assert_eq!(rules(after_a_life::<S>(flaw, true)), with, "{flaw:?}, written");
    }
}

#[test]
fn each_flaw_of_ours_is_caught_and_without_one_nothing_is() {
    every_flaw_is_caught::<Ours<8, 256>>();
}

#[test]
fn each_flaw_of_the_library_is_caught_and_without_one_nothing_is() {
    every_flaw_is_caught::<Library<8, 256>>();
}

#[test]
fn what_a_flipped_bit_did_is_told_apart() {
    FLAW.set(Flaw::None);
    type Store = Ours<8, 256>;
    let image = Image::of::<Store>(1, SHAPE).unwrap();
    let clean = Harm { bits: 1, ..Harm::default() };
    for (flaw, harm) in [
        (Flaw::None, clean),
        (Flaw::ForgetsTheOldest, Harm { oldest_early: 1, ..clean }),
        (Flaw::ForgetsTheNewest, Harm { lost_silently: 1, ..clean }),
        (Flaw::ForgetsOneInTheMiddle, Harm { lost_silently: 1, ..clean }),
        (Flaw::ListsWhatNobodyWrote, Harm { invented: 1, ..clean }),
        (Flaw::ForgetsASetting, Harm { setting_changed: 1, ..clean }),
        (Flaw::KeepsAnOlderSetting, Harm { setting_changed: 1, ..clean }),
        (Flaw::CannotReadASetting, Harm { setting_refused: 1, ..clean }),
        (Flaw::CannotList, Harm { lost_and_said: 1, ..clean }),
        (Flaw::FailsTheFirstTime, clean),
    ] {
        FLAW.set(flaw);
        // A bit that the store gets over.
        assert_eq!(image.flip::<Spoiled<Store>>(0), Ok(harm), "{flaw:?}");
    }
}

/// By hand: ten places, of which a cut took one.
#[test]
fn the_newest_are_demanded_less_what_cuts_and_boots_took_up() {
    let promised = |boot_costs| {
        let mut expected = Expected::nothing(Promise { newest: 5, boot_costs });
        for n in 1..=9 {
            expected.ask(Ask::Record(n));
        }
        expected.boot();
        expected
    };
    assert_eq!(promised(false).promised(), [5, 6, 7, 8, 9]);
    assert_eq!(promised(true).promised(), [6, 7, 8, 9]);
    let seen = |records: &[u32]| Seen {
        listed: Listed { records: records.iter().copied().map(Some).collect(), lost: 0 },
        settings: [None; 3],
    };
    for (records, broken) in [
        (&[6, 7, 8, 9][..], vec![]),
        (&[3, 4, 5, 6, 7, 8, 9], vec![]),
        (&[7, 8, 9], vec![Rule::Lost]),
        (&[3, 5, 6, 7, 8, 9], vec![Rule::Lost]),
        (&[], vec![Rule::Lost]),
        (&[6, 7, 8, 9, 10], vec![Rule::Invented]),
        (&[6, 7, 8, 9, 9], vec![Rule::Invented]),
        (&[6, 8, 7, 9], vec![Rule::Invented]),
    ] {
        assert_eq!(rules(promised(true).judge(&seen(records))), broken, "{records:?}");
    }
}
