//! Counts and penalty: what stands between a guesser and the bolt (R2).

use crate::audit::{People, Seq};
use crate::holder::Number;
use crate::policy::Policy;
use crate::port::Tally;
use crate::recovered::Recovered;
use crate::role::Role;
use crate::rules::limit::{Stood, WARDEN_TRIES_A_DAY, WayIn};
use crate::rules::penalty;
use crate::tally::{PenaltyMark, SetUp, TallyState, WEIGHTS};
use crate::time::{Seconds, Shift, Steady, Uptime};

/// Entries in one penalty that are still judged, for duress alone (R4). Ours.
const LOOKS: u8 = 8;

/// For so long a wrong try weighs; and so long after the end of a penalty the step
/// falls, if no other one began. Ours.
const FADE: Seconds = Seconds::from_hours(24);

/// The region of counts and penalty.
pub(super) struct Counts {
    tally: TallyState,
    penalty: Penalty,
    /// Until when each of the tally's weights counts, in its order.
    fades: heapless::Vec<Uptime, WEIGHTS, u8>,
    /// When the step falls, unless another penalty begins.
    eases: Option<Uptime>,
    /// The day of uptime for which `tries` counts.
    day: u64,
    tries: Tries,
    /// The privileged person who gave a right code last, and until when that lets
    /// a barred warden in.
    vouch: Option<(Number, Uptime)>,
}

/// Whether codes are taken.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Penalty {
    None,
    Running {
        until: Uptime,
        /// Entries that may still be judged.
        looks: u8,
    },
}

/// Tries of a day on each number, up to 15; two numbers a byte.
struct Tries([u8; Number::COUNT / 2]);

impl Tries {
    const MOST: u8 = 15;

    const fn all(n: u8) -> Self {
        Self([n | n << 4; Number::COUNT / 2])
    }

    fn of(&self, number: Number) -> u8 {
        let pair = self.0.get(number.index() / 2).copied().unwrap_or(u8::MAX);
        if number.index().is_multiple_of(2) { pair & Self::MOST } else { pair >> 4 }
    }

    /// One more; how many that makes.
    fn add(&mut self, number: Number) -> u8 {
        let tries = self.of(number).saturating_add(1).min(Self::MOST);
        if let Some(pair) = self.0.get_mut(number.index() / 2) {
            *pair = if number.index().is_multiple_of(2) {
                *pair & !Self::MOST | tries
            } else {
                *pair & Self::MOST | tries << 4
            };
        }
        tries
    }
}

impl Counts {
    /// From what a boot found; a penalty that was running restarts, whole.
    pub(super) fn at_boot(found: &Recovered, policy: &Policy, at: Uptime) -> Self {
        let mut tally = found.tally.clone();
        // Some record is as late as its end: it was over before this boot.
        let newest = found.floor.map(|floor| tally.shift.steady(floor));
        tally.held_until = tally.held_until.filter(|end| newest.is_none_or(|n| n < *end));
        let penalty = match tally.penalty {
            PenaltyMark::Running => {
                let lasts = penalty::length(policy, tally.step.saturating_sub(1));
                Penalty::Running { until: at.after(lasts), looks: LOOKS }
            }
            PenaltyMark::Served => Penalty::None,
        };
        let mut fades = heapless::Vec::new();
        for _ in &tally.weights {
            // As many as the tally has: there is room.
            let _ = fades.push(at.after(FADE));
        }
        let eases = match penalty {
            Penalty::None => Some(at.after(FADE)),
            Penalty::Running { .. } => None,
        };
        Self {
            tally,
            penalty,
            fades,
            eases,
            day: 0,
            // A boot counts as a full day's tries, so that a power cut gives
            // no barred warden new ones.
            tries: Tries::all(WARDEN_TRIES_A_DAY),
            vouch: None,
        }
    }

    /// Takes an entry that is on its way to the store into account.
    pub(super) fn apply(&mut self, entry: Tally, at: Uptime) {
        match entry {
            Tally::Counted(_) => {
                // What finds no room finds none in the tally either.
                let _ = self.fades.push(at.after(FADE));
            }
            Tally::Cleared(number) => {
                let mut weights = self.tally.weights.iter();
                self.fades.retain(|_| weights.next() != Some(&number));
            }
            Tally::Penalty => self.fades.clear(),
            Tally::Faded(number) => {
                let oldest = self.tally.weights.iter().position(|n| *n == number);
                let mut place = 0_usize;
                // As in the tally.
                self.fades.retain(|_| {
                    let stays = Some(place) != oldest;
                    place = place.saturating_add(1);
                    stays
                });
            }
            Tally::Served
            | Tally::Eased
            | Tally::HeldShut(_)
            | Tally::ClockDoubt(_)
            | Tally::Corrected { .. }
            | Tally::CorrectionsOver
            | Tally::ClockSet(_)
            | Tally::Settled
            | Tally::Collected(_)
            | Tally::Brought(_)
            | Tally::SettingUp
            | Tally::SetUp
            | Tally::PoweredUp
            | Tally::WayOut(_)
            | Tally::WayOutOver => {}
        }
        self.tally.apply(entry);
    }

    /// Notes a try on `number`; how that number stood before it. `drawn` is a way in
    /// for a barred warden.
    pub(super) fn try_on(&mut self, number: Number, drawn: WayIn, at: Uptime) -> Stood {
        self.turn_day(at);
        let failures = self.tally.total(number);
        let nth_today = self.tries.add(number);
        Stood::with(failures, self.way_in(number, drawn, nth_today, at))
    }

    /// How `number` would stand when a try on it began now.
    pub(super) fn next_try(&self, number: Number, drawn: WayIn, at: Uptime) -> Stood {
        let tries = if at.days() == self.day { self.tries.of(number) } else { 0 };
        let way_in = self.way_in(number, drawn, tries.saturating_add(1), at);
        Stood::with(self.tally.total(number), way_in)
    }

    fn way_in(&self, number: Number, drawn: WayIn, nth_today: u8, at: Uptime) -> WayIn {
        let vouched = self.vouch.is_some_and(|(who, until)| who != number && at < until);
        if vouched || nth_today <= WARDEN_TRIES_A_DAY { WayIn::Yes } else { drawn }
    }

    /// A privileged person gave a right code.
    pub(super) fn vouch(&mut self, who: Number, until: Uptime) {
        self.vouch = Some((who, until));
    }

    fn turn_day(&mut self, at: Uptime) {
        let day = at.days();
        if day != self.day {
            self.day = day;
            self.tries = Tries::all(0);
        }
    }

    /// Whether `number` has failed too often: barred, unless a warden has a way in.
    pub(super) fn is_at_limit(&self, number: Number) -> bool {
        Stood::with(self.tally.total(number), WayIn::No).bars(Role::Keyholder)
    }

    /// Wrong codes left before a penalty; 0: it is due.
    pub(super) fn left(&self, policy: &Policy) -> u8 {
        let count = u8::try_from(self.tally.lock_count()).unwrap_or(u8::MAX);
        policy.wrong_codes.saturating_sub(count)
    }

    /// Starts a penalty; its length. The caller writes [`Tally::Penalty`].
    pub(super) fn start_penalty(&mut self, policy: &Policy, at: Uptime) -> Seconds {
        let lasts = penalty::length(policy, self.tally.step);
        self.penalty = Penalty::Running { until: at.after(lasts), looks: LOOKS };
        self.eases = None;
        lasts
    }

    /// When the running penalty ends.
    pub(super) fn penalty_until(&self) -> Option<Uptime> {
        match self.penalty {
            Penalty::None => None,
            Penalty::Running { until, .. } => Some(until),
        }
    }

    /// Whether one more entry of this penalty is judged for duress.
    pub(super) fn look(&mut self) -> bool {
        match &mut self.penalty {
            Penalty::None | Penalty::Running { looks: 0, .. } => false,
            Penalty::Running { looks, .. } => {
                *looks = looks.saturating_sub(1);
                true
            }
        }
    }

    /// The running penalty was served to its end; the tally's entry for that.
    pub(super) fn serve(&mut self) -> Tally {
        self.eases = self.penalty_until().map(|until| until.after(FADE));
        self.penalty = Penalty::None;
        Tally::Served
    }

    /// When the step falls.
    pub(super) fn eases(&self) -> Option<Uptime> {
        self.eases.filter(|_| self.tally.step > 0)
    }

    /// The step falls; the tally's entry for that.
    pub(super) const fn ease(&mut self) -> Tally {
        self.eases = None;
        Tally::Eased
    }

    /// The tally's entry for one wrong try that weighs no more: of those that fall
    /// by now that of the lowest number.
    pub(super) fn faded(&self, at: Uptime) -> Option<Tally> {
        let weights = self.tally.weights.iter().zip(&self.fades);
        let over = weights.filter(|(_, until)| at >= **until);
        over.map(|(number, _)| *number).min().map(Tally::Faded)
    }

    /// When the next wrong try weighs no more.
    pub(super) fn fades(&self) -> Option<Uptime> {
        self.fades.iter().min().copied()
    }

    /// The hold-shut is over.
    pub(super) const fn end_hold(&mut self) {
        self.tally.held_until = None;
    }

    /// The sum of corrections by stewards alone.
    pub(super) const fn corrected(&self) -> Seconds {
        self.tally.corrected
    }

    /// The sum of all settings of the clock.
    pub(super) const fn shift(&self) -> Shift {
        self.tally.shift
    }

    /// When the lock was opened last while something may have waited.
    pub(super) const fn brought(&self) -> Option<Steady> {
        self.tally.brought
    }

    /// How far the lock is with being set up.
    pub(super) const fn set_up(&self) -> SetUp {
        self.tally.set_up
    }

    /// Who asked for a way out, while one runs.
    pub(super) const fn way_out(&self) -> Option<People> {
        self.tally.way_out
    }

    /// Power-ups that are not on record.
    pub(super) const fn power_ups(&self) -> u32 {
        self.tally.power_ups
    }

    /// The newest record that a reader has.
    pub(super) const fn collected(&self) -> Seq {
        self.tally.collected
    }

    /// The end of the hold-shut that is in force.
    pub(super) const fn held_until(&self) -> Option<Steady> {
        self.tally.held_until
    }
}

/// Behaviour, sections 3 and 4 (R2), with lengths spelled out in milliseconds.
#[cfg(test)]
mod tests {
    use super::*;
    use crate::port::Fault;

    const HOUR: u64 = 3_600_000;
    const DAY: u64 = 24 * HOUR;

    fn number(n: u8) -> Number {
        Number::new(n).unwrap()
    }

    fn millis(ms: u64) -> Uptime {
        Uptime::from_millis(ms)
    }

    fn booted(tally: TallyState, at: u64) -> Counts {
        let found = Recovered { tally, ..Recovered::nothing(Fault::Blank) };
        Counts::at_boot(&found, &Policy::DEFAULT, millis(at))
    }

    fn new() -> Counts {
        booted(TallyState::NEW, 0)
    }

    /// A wrong try on `n`.
    fn wrong(counts: &mut Counts, n: u8, at: u64) {
        counts.apply(Tally::Counted(number(n)), millis(at));
    }

    /// Applies whatever falls by now, as the machine does, one after the other.
    fn falls(counts: &mut Counts, at: u64) -> std::vec::Vec<u8> {
        let mut fallen = std::vec::Vec::new();
        while let Some(entry @ Tally::Faded(n)) = counts.faded(millis(at)) {
            counts.apply(entry, millis(at));
            fallen.push(n.get());
        }
        fallen
    }

    fn due(counts: &Counts) -> Option<Uptime> {
        [counts.penalty_until(), counts.eases(), counts.fades()].into_iter().flatten().min()
    }

    #[test]
    fn each_wrong_try_weighs_for_a_day_of_its_own() {
        let mut counts = new();
        wrong(&mut counts, 7, HOUR);
        wrong(&mut counts, 7, 2 * HOUR);
        wrong(&mut counts, 3, 3 * HOUR);
        assert_eq!(counts.left(&Policy::DEFAULT), 1);
        assert_eq!(falls(&mut counts, DAY + HOUR - 1), []);
        assert_eq!(due(&counts), Some(millis(DAY + HOUR)));
        assert_eq!(falls(&mut counts, DAY + HOUR), [7]);
        assert_eq!(counts.left(&Policy::DEFAULT), 2);
        assert_eq!(due(&counts), Some(millis(DAY + 2 * HOUR)));
        assert_eq!(falls(&mut counts, DAY + 3 * HOUR), [3, 7]);
        assert_eq!((counts.left(&Policy::DEFAULT), due(&counts)), (4, None));
        assert_eq!(counts.tally.total(number(7)), 2);
    }

    /// What falls at one moment falls in turn, lowest number first, one each.
    #[test]
    fn what_falls_together_falls_lowest_number_first() {
        let mut counts = new();
        for n in [9, 2, 9, 0] {
            wrong(&mut counts, n, HOUR);
        }
        assert_eq!(falls(&mut counts, DAY + HOUR), [0, 2, 9, 9]);
    }

    /// A right code takes its own number's tries only, wherever they stand between
    /// those of others; what is left falls when it would have.
    #[test]
    fn a_right_code_leaves_the_others_their_time() {
        let mut counts = new();
        for (n, hour) in [(1, 1), (2, 2), (1, 3), (3, 4)] {
            wrong(&mut counts, n, hour * HOUR);
        }
        counts.apply(Tally::Cleared(number(1)), millis(5 * HOUR));
        assert_eq!(due(&counts), Some(millis(DAY + 2 * HOUR)));
        assert_eq!(falls(&mut counts, DAY + 2 * HOUR), [2]);
        assert_eq!(due(&counts), Some(millis(DAY + 4 * HOUR)));
        assert_eq!(falls(&mut counts, DAY + 4 * HOUR), [3]);
    }

    /// A boot begins every share's day anew.
    #[test]
    fn a_boot_begins_the_day_anew() {
        let mut tally = TallyState::NEW;
        for n in [5, 5, 6] {
            tally.apply(Tally::Counted(number(n)));
        }
        let mut counts = booted(tally, 10 * HOUR);
        assert_eq!(falls(&mut counts, DAY + 10 * HOUR - 1), []);
        assert_eq!(falls(&mut counts, DAY + 10 * HOUR), [5, 5, 6]);
    }

    /// The step falls 24 h after the end of the penalty, not after its start, and not
    /// while or after another one began.
    #[test]
    fn the_step_falls_a_day_after_the_end_of_the_last_penalty() {
        let mut counts = new();
        let begin = |counts: &mut Counts, at| {
            let lasts = counts.start_penalty(&Policy::DEFAULT, millis(at));
            counts.apply(Tally::Penalty, millis(at));
            u64::from(lasts.get()) * 1_000
        };
        wrong(&mut counts, 7, 0);
        let first = HOUR + begin(&mut counts, HOUR);
        assert_eq!(first, HOUR + 5 * 60_000);
        assert_eq!((counts.left(&Policy::DEFAULT), due(&counts)), (4, Some(millis(first))));
        assert_eq!(counts.serve(), Tally::Served);
        assert_eq!(due(&counts), Some(millis(first + DAY)));
        // Another one, just before the step would fall, lasts twice as long.
        assert_eq!(counts.eases(), Some(millis(first + DAY)));
        let second = first + DAY - 1;
        let end = second + begin(&mut counts, second);
        assert_eq!(end - second, 10 * 60_000);
        assert_eq!(counts.eases(), None);
        assert_eq!(counts.serve(), Tally::Served);
        assert_eq!(counts.eases(), Some(millis(end + DAY)));
        assert_eq!(counts.ease(), Tally::Eased);
        counts.apply(Tally::Eased, millis(end + DAY));
        assert_eq!((counts.tally.step, due(&counts)), (0, None));
    }

    /// A boot in a penalty restarts it whole, with the step that it had, and the step
    /// falls a day after its end.
    #[test]
    fn a_boot_restarts_a_penalty_whole() {
        let mut tally = TallyState::NEW;
        for entry in [Tally::Penalty, Tally::Served, Tally::Penalty] {
            tally.apply(entry);
        }
        let mut counts = booted(tally.clone(), HOUR);
        let end = HOUR + 10 * 60_000;
        assert_eq!((counts.penalty_until(), due(&counts)), (Some(millis(end)), Some(millis(end))));
        assert_eq!(counts.serve(), Tally::Served);
        assert_eq!(due(&counts), Some(millis(end + DAY)));
        // Without one that runs the day begins at the boot.
        tally.apply(Tally::Served);
        assert_eq!(due(&booted(tally, HOUR)), Some(millis(HOUR + DAY)));
    }

    /// A barred warden has four tries on a day of uptime, none on the first day after
    /// a boot; the drawn bolt and another privileged person, not oneself, are a way
    /// in at any time.
    #[test]
    fn a_barred_warden_has_four_tries_a_day_or_a_way_in() {
        let mut tally = TallyState::NEW;
        tally.totals[12] = 100;
        let mut counts = booted(tally, 0);
        let bars = |stood: Stood| stood.bars(Role::Warden);
        let n = number(12);
        for at in [0, DAY - 1] {
            assert!(bars(counts.next_try(n, WayIn::No, millis(at))));
            assert!(bars(counts.try_on(n, WayIn::No, millis(at))));
            assert!(!bars(counts.try_on(n, WayIn::Yes, millis(at))));
        }
        for at in [DAY, 5 * DAY] {
            for _ in 0..4 {
                assert!(!bars(counts.next_try(n, WayIn::No, millis(at))));
                assert!(!bars(counts.try_on(n, WayIn::No, millis(at))));
            }
            for _ in 0..20 {
                assert!(bars(counts.next_try(n, WayIn::No, millis(at))));
                assert!(bars(counts.try_on(n, WayIn::No, millis(at))));
            }
            // The tries on the number beside it are its own.
            assert!(!bars(counts.next_try(number(13), WayIn::No, millis(at))));
        }
        let (now, limit) = (5 * DAY + HOUR, 5 * DAY + HOUR + 60_000);
        counts.vouch(n, millis(limit));
        assert!(bars(counts.try_on(n, WayIn::No, millis(now))));
        counts.vouch(number(1), millis(limit));
        assert!(!bars(counts.try_on(n, WayIn::No, millis(limit - 1))));
        assert!(bars(counts.try_on(n, WayIn::No, millis(limit))));
        assert!(counts.is_at_limit(n) && !counts.is_at_limit(number(1)));
    }

    proptest::proptest! {
        /// Times of falling stay beside the tries they belong to, whatever comes in
        /// whatever order: against a list of tries, each with its own time.
        #[test]
        fn times_stay_with_their_tries(
            story in proptest::collection::vec((0..8u8, 0..4u8, 0..3 * HOUR), 1..120),
        ) {
            let mut counts = new();
            let mut tries: std::vec::Vec<(u8, u64)> = std::vec::Vec::new();
            let mut now = 0;
            for (what, n, passes) in story {
                now += passes;
                match what {
                    0..=4 if tries.len() < 10 => {
                        wrong(&mut counts, n, now);
                        tries.push((n, now + DAY));
                    }
                    5 | 6 => {
                        counts.apply(Tally::Cleared(number(n)), millis(now));
                        tries.retain(|(other, _)| *other != n);
                    }
                    7 if n == 0 => {
                        counts.apply(Tally::Penalty, millis(now));
                        tries.clear();
                    }
                    _ => now += 5 * HOUR,
                }
                let mut over: std::vec::Vec<u8> =
                    tries.iter().filter(|(_, until)| now >= *until).map(|(n, _)| *n).collect();
                over.sort_unstable();
                tries.retain(|(_, until)| now < *until);
                proptest::prop_assert_eq!(falls(&mut counts, now), over);
                proptest::prop_assert_eq!(usize::from(counts.tally.lock_count()), tries.len());
                let next = tries.iter().map(|(_, until)| millis(*until)).min();
                proptest::prop_assert_eq!(counts.fades(), next);
            }
        }
    }
}
