//! Drills and stories, cut at every step: each case is one step of one of them,
//! within which the power ends in every way.

use std::sync::Arc;

use lock_core::store::FormatError;

use super::blow::{Wreck, wrecks};
use super::judge::{Judge, Violation};
use super::recovery::{Cuts, Found, Recovery, told};
use super::rehearsal::{Rehearsal, Script};
use super::stories::{locks, tale};
use super::story::{Event, Hands, Teller};
use crate::drill::{Drill, Fresh, Play};
use crate::memory::{Flash, Lasting, Room};
use crate::rig::{Cases, Covered, Dice, Failure};
use crate::site::Site;
use crate::world::{Fitted, Happening, Keeping, World};

/// One case in so many also plays the rest of its script after the cut.
const GO_ON: u64 = 4;

/// The scripts of a sweep, played on flash of that geometry by that store on
/// that board.
pub struct Sweep<M, B, const W: usize, const P: usize> {
    rehearsals: Vec<Rehearsal<W, P>>,
    seed: u64,
    seeds: u64,
    cuts: Cuts,
    lock: std::marker::PhantomData<fn() -> (M, B)>,
}

impl<M, B, const W: usize, const P: usize> Sweep<M, B, W, P>
where
    M: Lasting<Flash = Flash<W, P>>,
    B: Fitted,
{
    /// Plays each of `drills` once.
    ///
    /// # Errors
    /// [`FormatError`] if the settings of a drill's lock cannot be stored.
    pub fn of(
        drills: impl IntoIterator<Item = Arc<Drill>>,
        seed: u64,
        seeds: u64,
        cuts: Cuts,
    ) -> Result<Self, FormatError> {
        // A flash that nobody wrote to has no settings to judge by: `rig store` cuts the
        // power within its first life.
        let drills = drills.into_iter().filter(|drill| drill.fresh != Fresh::Erased);
        let rehearsals = drills.map(Rehearsal::of_drill::<M, B>);
        let rehearsals = rehearsals.collect::<Result<Vec<_>, _>>()?;
        Ok(Self { rehearsals, seed, seeds, cuts, lock: std::marker::PhantomData })
    }

    /// Tells so many random stories once, at locks of `site`.
    ///
    /// # Errors
    /// [`FormatError`] if the settings of a lock cannot be stored.
    pub fn of_stories(
        site: &Arc<Site>,
        stories: u64,
        seed: u64,
        seeds: u64,
        cuts: Cuts,
    ) -> Result<Self, FormatError> {
        let grounds = locks::<W, P>(site, Room::Least)?;
        let rehearsal = |story| {
            let mut dice = Dice::of(seed, story);
            let (ground, start, events) = tale(&grounds, &mut dice)?;
            // The sweep cuts everywhere; a story of its own without cuts.
            let events: Vec<Event> =
                events.into_iter().filter(|event| !matches!(event, Event::Cut(_))).collect();
            let (name, site) = (format!("story {story}"), Arc::clone(site));
            let script = Script::Story { name, site, start, events };
            Some(Rehearsal::of::<M, B>(script, ground.clone()))
        };
        let rehearsals = (0..stories).filter_map(rehearsal).collect();
        Ok(Self { rehearsals, seed, seeds, cuts, lock: std::marker::PhantomData })
    }

    /// The script of a case, and its step.
    fn place(&self, case: u64) -> Option<(&Rehearsal<W, P>, usize)> {
        let mut step = usize::try_from(case).ok()?;
        for rehearsal in &self.rehearsals {
            match step.checked_sub(rehearsal.steps()) {
                None => return Some((rehearsal, step)),
                Some(left) => step = left,
            }
        }
        None
    }

    fn cut(&self, case: u64, covered: &mut Covered) -> Result<(), Found> {
        let Some((rehearsal, step)) = self.place(case) else { return Ok(()) };
        if let (0, Some(flaw)) = (step, rehearsal.flaw()) {
            return Err(Found::new(flaw.clone()).after("without any cut".to_owned()));
        }
        let Ok(before) = rehearsal.before(step) else {
            // The flaw before it was told by the script's first case.
            return Ok(());
        };
        let mut dice = Dice::of(self.seed, case);
        let seeds = (0..self.seeds).map(|_| dice.roll()).collect::<Vec<_>>();
        let wrecks = wrecks(&before, rehearsal.journal(), seeds.iter().copied())?;
        let what = match rehearsal.journal().get(before.place) {
            Some(Happening::Step { deed, .. }) => format!("{deed:?}"),
            _ => String::new(),
        };
        covered.add("cut points", 1);
        let look_after = rehearsal.ground().look_after();
        let mut recovery = Recovery { look_after, seeds: self.seeds, covered };
        for wreck in &wrecks {
            let say = |found: Found| found.after(format!("cut within {what}: {}", wreck.how));
            recovery.boots::<M, B, W, P>(wreck).map_err(say)?;
            recovery.cut_again::<M, B, W, P>(wreck, self.cuts, &mut dice).map_err(say)?;
        }
        if dice.below(GO_ON) == 0
            && let Some(wreck) = dice.pick(&wrecks)
        {
            let say = |found: Found| found.after(format!("cut within {what}: {}", wreck.how));
            recovery.covered.add("scripts gone on with", 1);
            Self::go_on(rehearsal, wreck, before.place, &recovery).map_err(say)?;
        }
        Ok(())
    }

    /// The lock boots and the script goes on where it was cut.
    fn go_on(
        rehearsal: &Rehearsal<W, P>,
        wreck: &Wreck<W, P>,
        place: usize,
        recovery: &Recovery<'_>,
    ) -> Result<(), Found> {
        let mut world = recovery.world::<M, B, W, P>(wreck);
        world.keep(Keeping::Happenings, recovery.look_after);
        let (judge, begun) = (wreck.state.judge.clone(), rehearsal.begun(place));
        match rehearsal.script() {
            Script::Drill(drill) => Self::drill_goes_on(drill, begun, world, judge),
            Script::Story { site, events, .. } => {
                let hands = Hands::on(rehearsal.ground(), site, world);
                let mut teller = Teller::with(hands, judge)?;
                let rest = events.get(begun..).unwrap_or_default();
                teller.tell(rest, &mut Covered::default()).map_err(|violation| {
                    let mut found = Found::new(violation);
                    found.way.push(format!("the story goes on behind event {begun}"));
                    found.way.extend(teller.last_words());
                    found
                })
            }
        }
    }

    /// A drill goes on, whatever it expected.
    fn drill_goes_on(
        drill: &Drill,
        begun: usize,
        mut world: World<M, B>,
        mut judge: Judge,
    ) -> Result<(), Found> {
        world.restore_power();
        let mut play = Play::at(drill, world, begun);
        loop {
            let seen = play.world_mut().take_journal();
            for happening in &seen {
                judge.see(happening).map_err(|violation| {
                    let mut found = Found::new(violation);
                    found.way.extend(seen.iter().filter_map(told));
                    found.after(format!("the drill goes on to its step {}", play.played()))
                })?;
            }
            if play.act_next().is_none() {
                return Ok(());
            }
        }
    }
}

impl<M, B, const W: usize, const P: usize> Cases for Sweep<M, B, W, P>
where
    M: Lasting<Flash = Flash<W, P>>,
    B: Fitted,
{
    fn count(&self) -> Option<u64> {
        let steps = self.rehearsals.iter().map(Rehearsal::steps).sum::<usize>();
        Some(u64::try_from(steps).unwrap_or(u64::MAX))
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        self.cut(case, covered).map_err(|found| {
            let (file, step) = self
                .place(case)
                .map_or(("", 0), |(rehearsal, step)| (rehearsal.script().name(), step));
            failure(found, format!("{file}, step {step}"))
        })
    }
}

/// The failure that a rig reports.
pub(super) fn failure(found: Found, first: String) -> Failure {
    let Found { violation, way } = found;
    let events = std::iter::once(first).chain(way).collect();
    Failure { what: sentence(&violation), repeat: String::new(), events }
}

fn sentence(violation: &Violation) -> String {
    violation.to_string()
}
