//! Invariants 1, 2, 3 and 6: what comes before a release, and silence without
//! power.

use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::{Change, Event, People, Record};
use lock_core::policy::Stricter;
use lock_core::port::{Drive, Effect, Write};
use lock_core::screen::Screen;
use lock_core::time::{Seconds, Uptime};

use super::{Invariant, Suffered, Terms, Violation};
use crate::memory::{Entry, Look};

/// What a release would need, as far as the trace has come.
#[derive(Clone, Debug, Default)]
pub(super) struct Releases {
    power: Power,
    /// The record that authorises a release at this very moment.
    authorised: Option<People>,
    /// The wait that was recorded in this run.
    wait: Option<Wait>,
    /// Whether the drive stands where a release has put it.
    freed: bool,
    /// Until when a bolt that is drawn was drawn after a release.
    hand: Option<Uptime>,
    /// What the list of records said last of the bolt when this run began.
    word: Option<Word>,
    /// A write failed in this run: the lock is in service.
    failed: bool,
    /// The screen asks for service.
    service: bool,
    /// Changes of the settings in this run.
    edits: u64,
    /// Boots in a row that ended in service.
    in_service: u32,
}

/// A wait, as long as was asked for when it began.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Wait {
    people: People,
    since: Uptime,
    ready: Uptime,
    over: Uptime,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
enum Power {
    #[default]
    Off,
    /// On, and the lock has not come to rest since.
    Booting,
    On,
}

/// What a record says of the bolt (section 9).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Word {
    Released,
    Opened,
    Forced,
    Thrown,
}

impl Word {
    fn of(event: &Event) -> Option<Self> {
        match event {
            Event::Released { .. } => Some(Self::Released),
            Event::Opened
            | Event::Changed { change: Change::Commissioned(_) | Change::Reset, .. } => {
                Some(Self::Opened)
            }
            Event::Forced => Some(Self::Forced),
            Event::Secured { .. } | Event::NotDrawn | Event::FoundThrown { .. } => {
                Some(Self::Thrown)
            }
            _ => None,
        }
    }
}

/// A hand may have been faster than the blocker (section 6).
const GRACE: Seconds = Seconds::new(2);

/// Whether the lock is in service, so that less is asked of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Service {
    No,
    Yes,
}

impl Releases {
    pub(super) fn line(
        &mut self,
        line: &Line,
        terms: &Terms,
        besides: Option<Stricter>,
    ) -> Result<(), Violation> {
        if self.power == Power::Off && line.what != What::PowerOn {
            let what = match line.what {
                What::Did(effect) => format!("without power the board did {effect:?}"),
                What::Told(told) => format!("without power the lock took {told:?}"),
                What::Wrote(write, _) => format!("without power the lock wrote {write:?}"),
                What::Tended(_) => "without power the lock tended its store".to_owned(),
                What::PowerCut | What::PowerOn => return Ok(()),
            };
            return Err(Violation::new(Invariant::SilentWithoutPower, what));
        }
        self.edits += u64::from(matches!(line.what, What::Wrote(Write::Edit(_), _)));
        match line.what {
            What::PowerOn => self.begin(Power::Booting),
            What::PowerCut => self.begin(Power::Off),
            What::Told(_) => self.authorised = None,
            What::Wrote(Write::Record(record) | Write::Edit(record), Durable::Yes) => {
                return self.recorded(record, line, terms, besides);
            }
            What::Wrote(_, Durable::No) => self.failed = true,
            What::Wrote(..) | What::Tended(_) => {}
            What::Did(effect) => return self.did(effect, line, terms, besides),
        }
        Ok(())
    }

    fn begin(&mut self, power: Power) {
        *self = Self { power, in_service: self.in_service, ..Self::default() };
    }

    fn recorded(
        &mut self,
        record: Record,
        line: &Line,
        terms: &Terms,
        besides: Option<Stricter>,
    ) -> Result<(), Violation> {
        if !self.failed {
            self.bolt_is_told_of(&record.event, line.uptime)?;
        }
        match record.event {
            Event::Released { people, .. } => self.authorised = Some(people),
            Event::DelayStarted { people, .. } => {
                let since = line.uptime;
                let ready = since.after(delay(terms, besides));
                let over = ready.after(terms.settings.policy.claim);
                self.wait = Some(Wait { people, since, ready, over });
            }
            Event::Cancelled { .. } => self.wait = None,
            // No release survives a boot, nor does what a hand may do behind one.
            Event::NotDrawn if self.power == Power::On => {
                self.hand = Some(line.uptime.after(GRACE));
            }
            Event::Opened => self.hand = None,
            // What lapses while the wait can be claimed is a first of two.
            Event::Lapsed => self.wait = self.wait.filter(|wait| line.uptime < wait.over),
            _ => {}
        }
        Ok(())
    }

    /// What a record says of the bolt is what came before it.
    fn bolt_is_told_of(&self, event: &Event, at: Uptime) -> Result<(), Violation> {
        let released = self.hand.is_some_and(|end| at < end);
        let right = match (event, self.power, self.word) {
            (Event::Opened | Event::NotDrawn, Power::Booting, Some(word)) => word == Word::Released,
            (Event::FoundThrown { .. }, Power::Booting, Some(word)) => word == Word::Opened,
            (Event::Forced, Power::Booting, Some(word)) => word == Word::Thrown,
            (Event::FoundThrown { .. }, Power::On, _) => false,
            (Event::Opened, Power::On, _) => released,
            (Event::Forced, Power::On, _) => !released,
            _ => true,
        };
        if right {
            return Ok(());
        }
        let (kind, word) = (event.kind(), self.word);
        let what = format!("{kind} is recorded; released: {released}, at the boot: {word:?}");
        Err(Violation::new(Invariant::RecordedRelease, what))
    }

    fn did(
        &mut self,
        effect: Effect,
        line: &Line,
        terms: &Terms,
        besides: Option<Stricter>,
    ) -> Result<(), Violation> {
        let wrong = |of, what: &str| Err(Violation::new(of, what));
        match effect {
            Effect::Drive(Drive::Free) => {
                if self.power == Power::Booting {
                    return wrong(Invariant::BootEnds, "a boot freed the bolt");
                }
                let Some(people) = self.authorised.take() else {
                    let what = "the bolt was freed without a durable record of that opening";
                    return wrong(Invariant::RecordedRelease, what);
                };
                if self.failed {
                    let what = "the bolt was freed although a write had failed";
                    return wrong(Invariant::RecordedRelease, what);
                }
                self.freed = true;
                self.hand = Some(line.uptime.after(terms.settings.policy.release).after(GRACE));
                self.waited(people, line, terms, besides)
            }
            Effect::Drive(Drive::Block) => {
                self.freed = false;
                Ok(())
            }
            Effect::Show(Screen::Released { .. }) if !self.freed => {
                wrong(Invariant::RecordedRelease, "the picture says released before it is true")
            }
            Effect::Show(screen) => {
                self.service = matches!(screen, Screen::Service(_));
                Ok(())
            }
            Effect::Alarm(_) | Effect::Sound(_) | Effect::SetClock(_) => Ok(()),
        }
    }

    fn waited(
        &mut self,
        people: People,
        line: &Line,
        terms: &Terms,
        besides: Option<Stricter>,
    ) -> Result<(), Violation> {
        let wrong = |what: String| Err(Violation::new(Invariant::WaitWaited, what));
        let Some(wait) = self.wait.take() else {
            if delay(terms, besides).get() == 0 {
                return Ok(());
            }
            return wrong("the bolt was freed without a wait in this run".to_owned());
        };
        if line.uptime < wait.ready || line.uptime >= wait.over {
            let seconds = line.uptime.since(wait.since).get();
            return wrong(format!("the bolt was freed {seconds} s after the wait began"));
        }
        if !same(wait.people, people) {
            return wrong(format!("{people:?} were released on the wait of {:?}", wait.people));
        }
        Ok(())
    }

    /// A boot has found what is there.
    pub(super) fn mounted(
        &mut self,
        look: &Look,
        steps: u64,
        terms: &Terms,
    ) -> Result<(), Violation> {
        let records = look.list.iter().rev().filter_map(|entry| match entry {
            Entry::Record(_, record) => Some(record),
            Entry::Gap { .. } => None,
        });
        self.word = records.filter_map(|record| Word::of(&record.event)).next();

        let most = terms.mount_steps;
        if steps > most {
            let what = format!("a mount took {steps} steps; {most} are the most");
            return Err(Violation::new(Invariant::BootEnds, what));
        }
        Ok(())
    }

    /// The lock rests. Says whether it is in service.
    pub(super) fn rest(
        &mut self,
        steps: u64,
        terms: &Terms,
        suffered: &Suffered,
    ) -> Result<Service, Violation> {
        self.authorised = None;
        if self.power == Power::Booting {
            let most = terms.boot_steps.saturating_add(self.edits.saturating_mul(terms.edit_steps));
            if steps > most {
                let what = format!("a boot took {steps} steps; {most} are the most");
                return Err(Violation::new(Invariant::BootEnds, what));
            }
            // A lock in which nobody is enrolled asks for it.
            let asked = self.service && terms.settings.enrolled > 0;
            self.in_service = if asked { self.in_service + 1 } else { 0 };
            if self.in_service > 1 && !suffered.costs_a_row() && suffered.failures == 0 {
                let what = "nothing but power cuts and single turned bits keep the lock in service";
                return Err(Violation::new(Invariant::BootEnds, what));
            }
            self.power = Power::On;
        }
        Ok(if self.service || self.failed { Service::Yes } else { Service::No })
    }
}

/// How long an opening waits at that moment: as long as the policy says, or what holds
/// besides (section 6).
fn delay(terms: &Terms, besides: Option<Stricter>) -> Seconds {
    let delay = terms.settings.policy.delay;
    besides.map_or(delay, |besides| delay.max(besides.delay))
}

/// The same people, in whatever order.
fn same(a: People, b: People) -> bool {
    let swapped = b.second.map(|second| People { first: second, second: Some(b.first) });
    a == b || Some(a) == swapped
}

/// The wording of invariants 1, 2, 3 and 6, each broken once.
#[cfg(test)]
mod tests {
    use lock_core::policy::Policy;

    use super::super::forge::*;
    use super::*;
    use crate::memory::Print;
    use crate::world::{Happening, Restless};

    #[test]
    fn an_opening_that_is_recorded_first_is_fine() {
        let mut story = Forge::booted();
        story.opening(12).rest();
        assert_eq!(story.violated(), None);
    }

    #[test]
    fn a_release_without_a_record_is_seen() {
        let mut story = Forge::booted();
        story.try_on(12).did(FREE);
        assert_eq!(story.violated(), Some(Invariant::RecordedRelease));
    }

    #[test]
    fn a_record_that_is_not_durable_authorises_nothing() {
        for durable in [Durable::No, Durable::Unknown] {
            let mut story = Forge::booted();
            story.try_on(12).wrote_so(released(12), durable).did(FREE);
            assert_eq!(story.violated(), Some(Invariant::RecordedRelease), "{durable:?}");
        }
    }

    #[test]
    fn a_record_authorises_one_release_and_at_once() {
        let mut story = Forge::booted();
        story.opening(12).did(FREE);
        assert_eq!(story.violated(), Some(Invariant::RecordedRelease));
        let mut story = Forge::booted();
        story.try_on(12).wrote(released(12)).told_digit().did(FREE);
        assert_eq!(story.violated(), Some(Invariant::RecordedRelease));
        let mut story = Forge::booted();
        story.try_on(12).wrote(released(12)).rest().did(FREE);
        assert_eq!(story.violated(), Some(Invariant::RecordedRelease));
    }

    #[test]
    fn a_release_after_a_failed_write_is_seen() {
        let mut story = Forge::booted();
        story.try_on(12).wrote_so(DOUBT, Durable::No).wrote(released(12)).did(FREE);
        assert_eq!(story.violated(), Some(Invariant::RecordedRelease));
    }

    #[test]
    fn a_picture_that_claims_a_release_is_seen() {
        let mut story = Forge::booted();
        story.try_on(12).wrote(released(12)).did(SAYS_RELEASED);
        assert_eq!(story.violated(), Some(Invariant::RecordedRelease));
    }

    #[test]
    fn output_without_power_is_seen() {
        for effect in [FREE, BLOCK, SILENT, KEY, SAYS_RELEASED] {
            let mut story = Forge::booted();
            story.cut().did(effect);
            assert_eq!(story.violated(), Some(Invariant::SilentWithoutPower));
        }
        let mut story = Forge::booted();
        story.cut().wrote(record(Event::Opened));
        assert_eq!(story.violated(), Some(Invariant::SilentWithoutPower));
    }

    #[test]
    fn a_boot_that_releases_is_seen() {
        let mut story = Forge::booted();
        story.try_on(12).wrote(released(12)).cut().on().boot().did(FREE);
        assert_eq!(story.violated(), Some(Invariant::BootEnds));
    }

    #[test]
    fn a_lock_that_does_not_rest_is_seen() {
        for restless in [Restless::Turns, Restless::Wakes] {
            let mut story = Forge::booted();
            story.rest().see(&Happening::Restless(restless));
            assert_eq!(story.violated(), Some(Invariant::BootEnds));
        }
    }

    #[test]
    fn a_boot_that_takes_too_long_is_seen() {
        let mut story = Forge::booted();
        story.cut().on().boot().rested_after(TERMS.boot_steps + 1);
        assert_eq!(story.violated(), Some(Invariant::BootEnds));
        let mut story = Forge::booted();
        story.cut().on().mounted_in(TERMS.mount_steps + 1);
        assert_eq!(story.violated(), Some(Invariant::BootEnds));
    }

    /// What waited for its time, a timetable file say, may be due at a boot.
    #[test]
    fn a_boot_that_makes_a_change_takes_as_much_longer() {
        for (steps, violated) in [(1_100, None), (1_101, Some(Invariant::BootEnds))] {
            let mut story = Forge::booted();
            story.cut().on().boot().edited(print(2), Durable::Yes, true);
            story.rested_after(steps);
            assert_eq!(story.violated(), violated);
        }
        let mut earlier = Forge::booted();
        earlier.edited(print(2), Durable::Yes, true).rest().cut();
        earlier.look.settings = Ok(print(2));
        earlier.on().boot().rested_after(101);
        assert_eq!(earlier.violated(), Some(Invariant::BootEnds));
    }

    #[test]
    fn service_is_for_faults_not_for_cuts() {
        let mut story = Forge::booted();
        story.cut().on().boot().did(SAYS_SERVICE).rest();
        story.cut().on().boot().rest();
        story.cut().on().boot().did(SAYS_SERVICE).rest();
        assert_eq!(story.violated(), None);
        story.cut().on().boot().did(SAYS_SERVICE).rest();
        assert_eq!(story.violated(), Some(Invariant::BootEnds));
        let mut story = Forge::booted();
        story.wrote_so(DOUBT, Durable::No).cut().on().boot().did(SAYS_SERVICE).rest();
        story.cut().on().boot().did(SAYS_SERVICE).rest();
        assert_eq!(story.violated(), None);
    }

    #[test]
    fn a_release_that_was_not_waited_for_is_seen() {
        let whole = |story: &mut Forge| {
            story.try_on(12).wrote(delay_started(12)).did(KEY).wrote(cleared(12)).rest();
        };
        let mut story = Forge::delayed();
        whole(&mut story);
        story.later(600).opening(12).rest();
        assert_eq!(story.violated(), None);

        let mut early = Forge::delayed();
        whole(&mut early);
        early.later(599).opening(12);
        let mut late = Forge::delayed();
        whole(&mut late);
        late.later(780).opening(12);
        let mut unasked = Forge::delayed();
        unasked.later(700).opening(12);
        let mut other = Forge::delayed();
        whole(&mut other);
        other.later(600).opening(13);
        let mut cancelled = Forge::delayed();
        whole(&mut cancelled);
        let why = lock_core::audit::CancelReason::Inhibit;
        cancelled.later(600).wrote(record(Event::Cancelled { why })).opening(12);
        let mut cut = Forge::delayed();
        whole(&mut cut);
        cut.later(300).cut().on().boot().rest().later(600).opening(12);
        for story in [early, late, unasked, other, cancelled, cut] {
            assert_eq!(story.violated(), Some(Invariant::WaitWaited));
        }
    }

    /// A bolt that is drawn in a release, or within two seconds of its end, was opened.
    #[test]
    fn what_a_hand_did_is_told_as_it_was() {
        let (opened, forced) = (record(Event::Opened), record(Event::Forced));
        for (later, write, violated) in [
            (7, opened, None),
            (7, forced, Some(Invariant::RecordedRelease)),
            (8, opened, Some(Invariant::RecordedRelease)),
            (8, forced, None),
        ] {
            let mut story = Forge::booted();
            story.opening(12).rest().later(later).told_bolt().wrote(write);
            assert_eq!(story.violated(), violated, "{later} {write:?}");
        }
        // Inhibit ends a release at once.
        for (later, violated) in [(1, None), (2, Some(Invariant::RecordedRelease))] {
            let mut story = Forge::booted();
            story.opening(12).rest().did(BLOCK).wrote(record(Event::NotDrawn));
            story.later(later).told_bolt().wrote(opened);
            assert_eq!(story.violated(), violated, "{later}");
        }
        let mut twice = Forge::booted();
        twice.opening(12).wrote(opened).wrote(opened);
        assert_eq!(twice.violated(), Some(Invariant::RecordedRelease));
    }

    /// A boot goes by the last word on the bolt.
    #[test]
    fn a_boot_goes_by_the_last_word() {
        let found = Event::FoundThrown { open_for: None };
        let secured = Event::Secured { open_for: Seconds::ZERO };
        let reset = Event::Changed { by: None, change: Change::Reset };
        let words = [
            (released(12), [true, true, false, false]),
            (record(Event::Opened), [false, false, true, false]),
            (record(reset), [false, false, true, false]),
            (record(Event::Forced), [false, false, false, false]),
            (record(secured), [false, false, false, true]),
            (record(Event::NotDrawn), [false, false, false, true]),
            (record(found), [false, false, false, true]),
        ];
        for (word, may) in words {
            let says = [Event::Opened, Event::NotDrawn, found, Event::Forced];
            for (says, may) in says.into_iter().zip(may) {
                let mut story = Forge::booted();
                story.reached(word).unjudged().on().boot().wrote(record(says));
                let violated = (!may).then_some(Invariant::RecordedRelease);
                assert_eq!(story.violated(), violated, "{word:?} {says:?}");
            }
        }
        let mut story = Forge::booted();
        story.wrote(record(found));
        assert_eq!(story.violated(), Some(Invariant::RecordedRelease));
    }

    /// What holds besides the policy asks for more until its time, and a wait is
    /// as long as it was when it began.
    #[test]
    fn a_shorter_delay_holds_from_its_time_on() {
        use lock_core::policy::{Control, Deputies};
        use lock_core::time::Steady;
        let none = Print { policy: Policy { delay: Seconds::ZERO, ..Policy::DEFAULT }, ..print(2) };
        let until = |secs| {
            let (made, until) = (Steady::from_secs(5), Steady::from_secs(secs));
            let (delay, control) = (Seconds::new(600), Control::Single);
            let stricter = Stricter { until, made, delay, control, deputies: Deputies::Enrol };
            Print { stricter: Some(stricter), ..none }
        };
        // Forged clocks read 9.
        for (after, violated) in
            [(none, None), (until(9), None), (until(10), Some(Invariant::WaitWaited))]
        {
            let mut story = Forge::delayed();
            story.edited(after, Durable::Yes, true).opening(12);
            assert_eq!(story.violated(), violated);
            let mut begun = Forge::delayed();
            begun.try_on(12).wrote(delay_started(12)).did(KEY).rest();
            begun.edited(after, Durable::Yes, true).later(599).opening(12);
            assert_eq!(begun.violated(), Some(Invariant::WaitWaited));
        }
    }

    /// `rig power-loss --seed 7001` and `rig soak --seed 7106`: a wait that nobody
    /// claimed lapses, the policy asks for no delay by then, and somebody opens at
    /// once. The judge had not taken the lapse in, and held the release to the wait.
    #[test]
    fn a_wait_that_lapsed_binds_nobody() {
        let none = Print { policy: Policy { delay: Seconds::ZERO, ..Policy::DEFAULT }, ..print(2) };
        for (claims, lapses, made, violated) in [
            (12, true, true, None),
            (13, true, true, None),
            (12, true, false, Some(Invariant::WaitWaited)),
            (12, false, true, Some(Invariant::WaitWaited)),
        ] {
            let mut story = Forge::delayed();
            story.try_on(12).wrote(delay_started(12)).did(KEY).wrote(cleared(12)).rest();
            if made {
                story.edited(none, Durable::Yes, true);
            }
            story.later(780);
            if lapses {
                story.wrote(record(Event::Lapsed)).rest();
            }
            story.later(85_620).opening(claims);
            assert_eq!(story.violated(), violated, "{claims} {lapses} {made}");
        }
        // A first of two lapses, and both come again in time.
        let mut story = Forge::delayed();
        story.try_on(12).wrote(delay_started(12)).did(KEY).rest();
        story.later(660).wrote(record(Event::Lapsed)).rest().later(60).opening(12);
        assert_eq!(story.violated(), None);
    }

    #[test]
    fn two_people_claim_in_any_order() {
        let number = |n| lock_core::holder::Number::new(n).unwrap();
        let people = |a, b| People { first: number(a), second: Some(number(b)) };
        assert!(same(people(12, 13), people(13, 12)) && same(people(12, 13), people(12, 13)));
        assert!(!same(people(12, 13), people(12, 14)));
        let alone = People { first: number(12), second: None };
        assert!(same(alone, alone) && !same(alone, people(12, 13)));
    }
}
