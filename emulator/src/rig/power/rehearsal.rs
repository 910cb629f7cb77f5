//! A script, played once with everything written down, so that the flash can be
//! rolled to any of its steps without playing it again.

use std::sync::Arc;

use emulated_board::fuse::Step;
use emulated_board::trace::What;
use lock_core::store::FormatError;
use lock_core::time::Utc;

use super::ground::Ground;
use super::judge::{Judge, Violation};
use super::story::{Event, Hands};
use crate::drill::{Drill, Play};
use crate::memory::{Cells, Flash, Lasting, Room};
use crate::site::Site;
use crate::world::{Fitted, Happening, Keeping, World};

/// Steps between two places from which a roll can start.
const STRIDE: usize = 32;

/// What is played: a drill that somebody wrote, or a random story.
pub enum Script {
    /// A drill.
    Drill(Arc<Drill>),
    /// A story.
    Story {
        /// What it is called.
        name: String,
        /// The site of its lock.
        site: Arc<Site>,
        /// When it starts.
        start: Utc,
        /// What happens.
        events: Vec<Event>,
    },
}

impl Script {
    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Drill(drill) => &drill.file,
            Self::Story { name, .. } => name,
        }
    }

    /// When it starts.
    #[must_use]
    pub fn start(&self) -> Utc {
        match self {
            Self::Drill(drill) => drill.start,
            Self::Story { start, .. } => *start,
        }
    }
}

/// A script that was played, and its flash on the way.
pub struct Rehearsal<const W: usize, const P: usize> {
    script: Script,
    ground: Ground<W, P>,
    journal: Vec<Happening>,
    /// Where the steps stand in the journal.
    steps: Vec<usize>,
    /// How long the journal was after each part of the script.
    marks: Vec<usize>,
    waypoints: Vec<State<W, P>>,
    /// What was wrong without any cut.
    flaw: Option<Violation>,
}

/// The flash and its judge at some place of a journal.
#[derive(Clone)]
pub struct State<const W: usize, const P: usize> {
    /// How much of the journal lies behind.
    pub place: usize,
    /// The cells.
    pub cells: Cells<W, P>,
    /// The judge, who has seen that much.
    pub judge: Judge,
}

impl<const W: usize, const P: usize> State<W, P> {
    /// Goes on to `place` in the journal.
    ///
    /// # Errors
    /// What the judge says of something on the way.
    pub fn roll(&mut self, journal: &[Happening], place: usize) -> Result<(), Violation> {
        while self.place < place
            && let Some(happening) = journal.get(self.place)
        {
            match happening {
                // What the flash refused it has not done; the lock was told.
                Happening::Step { deed, power, .. } => drop(match power {
                    Step::Whole => self.cells.complete(&deed.act()),
                    Step::Torn(class, seed) => self.cells.tear(&deed.act(), *class, *seed),
                    Step::Nothing => Ok(()),
                }),
                Happening::Line(line) if line.what == What::PowerOn => {
                    self.cells.power_up();
                }
                _ => {}
            }
            self.judge.see(happening)?;
            self.place += 1;
        }
        Ok(())
    }
}

impl<const W: usize, const P: usize> Rehearsal<W, P> {
    /// Plays a drill on flash that has as little room as can be.
    ///
    /// # Errors
    /// [`FormatError`] if its lock's settings cannot be stored.
    pub fn of_drill<M, B>(drill: Arc<Drill>) -> Result<Self, FormatError>
    where
        M: Lasting<Flash = Flash<W, P>>,
        B: Fitted,
    {
        let ground = Ground::of_drill(&drill, Room::Least)?;
        Ok(Self::of::<M, B>(Script::Drill(drill), ground))
    }

    /// Plays a script to the lock on that ground.
    #[must_use]
    pub fn of<M, B>(script: Script, ground: Ground<W, P>) -> Self
    where
        M: Lasting<Flash = Flash<W, P>>,
        B: Fitted,
    {
        let mut world = ground.world::<M, B>(script.start(), Keeping::Steps);
        world.restore_power();
        let mut journal = world.take_journal();
        let mut marks = Vec::new();
        let mut note = |world: &mut World<M, B>| {
            journal.append(&mut world.take_journal());
            marks.push(journal.len());
        };
        match &script {
            Script::Drill(drill) => {
                let mut play = Play::at(drill, world, 0);
                while play.act_next().is_some() {
                    note(play.world_mut());
                }
                play.world_mut().look();
                note(play.world_mut());
            }
            Script::Story { site, events, .. } => {
                let mut hands = Hands::on(&ground, site, world);
                for event in events {
                    hands.event(*event);
                    note(hands.world());
                }
                hands.world().look();
                note(hands.world());
            }
        }
        let steps: Vec<usize> = (0..journal.len())
            .filter(|place| matches!(journal.get(*place), Some(Happening::Step { .. })))
            .collect();
        let mut state = State { place: 0, cells: ground.cells().clone(), judge: ground.judge() };
        let mut waypoints = vec![state.clone()];
        let mut flaw = None;
        for place in steps.iter().skip(STRIDE).step_by(STRIDE).chain([&journal.len()]) {
            if let Err(violation) = state.roll(&journal, *place) {
                flaw = Some(violation);
                break;
            }
            waypoints.push(state.clone());
        }
        Self { script, ground, journal, steps, marks, waypoints, flaw }
    }

    /// What was played.
    #[must_use]
    pub const fn script(&self) -> &Script {
        &self.script
    }

    /// The lock's ground.
    #[must_use]
    pub const fn ground(&self) -> &Ground<W, P> {
        &self.ground
    }

    /// What happened.
    #[must_use]
    pub fn journal(&self) -> &[Happening] {
        &self.journal
    }

    /// How many steps the power can end within.
    #[must_use]
    pub const fn steps(&self) -> usize {
        self.steps.len()
    }

    /// What was wrong without any cut.
    #[must_use]
    pub const fn flaw(&self) -> Option<&Violation> {
        self.flaw.as_ref()
    }

    /// The flash and its judge right before a step.
    ///
    /// # Errors
    /// What the judge says of something on the way.
    pub fn before(&self, step: usize) -> Result<State<W, P>, Violation> {
        let place = self.steps.get(step).copied().unwrap_or(self.journal.len());
        let near = self.waypoints.iter().rev().find(|state| state.place <= place);
        let start =
            || State { place: 0, cells: self.ground.cells().clone(), judge: self.ground.judge() };
        let mut state = near.cloned().unwrap_or_else(start);
        state.roll(&self.journal, place)?;
        Ok(state)
    }

    /// How many parts of the script had been begun there.
    #[must_use]
    pub fn begun(&self, place: usize) -> usize {
        (self.marks.partition_point(|mark| *mark <= place) + 1).min(self.marks.len())
    }
}

/// The rolled flash against the one that was played on.
#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;
    use crate::drill::Fresh;
    use crate::memory::Memory;
    use crate::world::Bench;

    #[test]
    fn what_is_rolled_is_what_was_played() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/drills");
        for file in crate::drill::files(&[folder]).unwrap() {
            let drill = Arc::new(Drill::load(&file).map_err(|why| why.to_string()).unwrap());
            if drill.fresh == Fresh::Erased {
                continue;
            }
            let played = Arc::clone(&drill);
            let rehearsal = Rehearsal::<8, 256>::of_drill::<Memory<8, 256>, Bench>(played).unwrap();
            assert_eq!(rehearsal.flaw(), None, "{}", file.display());
            let mut world: World<Memory<8, 256>> =
                rehearsal.ground().world(drill.start, Keeping::Lines);
            world.restore_power();
            let mut play = Play::at(&drill, world, 0);
            while play.act_next().is_some() {}
            let mut world = play.into_world();
            let rolled = rehearsal.before(rehearsal.steps()).unwrap();
            assert_eq!(world.flash().unwrap().content(), rolled.cells.content());
        }
    }
}
