//! A blow: the power ends within one step, in one of the ways in which it can.

use emulated_board::fuse::{Class, Step};
use emulated_board::trace::{Durable, Line, What};
use lock_core::port::{Effect, Write};

use super::judge::Violation;
use super::rehearsal::State;
use crate::rig::Dice;
use crate::world::{Deed, Happening, Scene};

/// What a blow leaves: cells, a scene, and a judge who has seen it fall.
#[derive(Clone)]
pub struct Wreck<const W: usize, const P: usize> {
    /// The flash and its judge.
    pub state: State<W, P>,
    /// Where everything is.
    pub scene: Scene,
    /// How it fell.
    pub how: How,
}

/// How a blow fell.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct How {
    /// The class of the torn step.
    pub class: Class,
    /// What decided the rest.
    pub seed: u64,
}

impl std::fmt::Display for How {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "class {}, seed {}", self.class.name(), self.seed)
    }
}

/// Every different wreck of the step at `before.place` of `journal`: each class,
/// each of `seeds` seeds. `before` is the state right before the step.
///
/// What differs in nothing that a lock could find is there once.
///
/// # Errors
/// What the judge says of the cut itself.
pub fn wrecks<const W: usize, const P: usize>(
    before: &State<W, P>,
    journal: &[Happening],
    seeds: impl Iterator<Item = u64> + Clone,
) -> Result<Vec<Wreck<W, P>>, Violation> {
    let Some(Happening::Step { deed, scene, .. }) = journal.get(before.place) else {
        return Ok(Vec::new());
    };
    let under_way = in_flight(journal, before.place);
    let mut wrecks = Vec::new();
    let mut prints = Vec::new();
    for class in Class::ALL {
        let exact = matches!(class, Class::Before | Class::After);
        for seed in seeds.clone().take(if exact { 1 } else { usize::MAX }) {
            let mut state = before.clone();
            let mut scene = **scene;
            let print = if deed.is_of_flash() {
                // What the flash refuses it has not done.
                let _refused = state.cells.tear(&deed.act(), class, seed);
                state.cells.fingerprint()
            } else {
                let reaches = Step::Torn(class, seed).reaches_the_world();
                if reaches {
                    effect(deed, &mut scene);
                }
                u64::from(reaches)
            };
            if prints.contains(&print) {
                continue;
            }
            prints.push(print);
            let reached = !deed.is_of_flash() && print == 1;
            fall(&mut state, under_way, reached)?;
            wrecks.push(Wreck { state, scene, how: How { class, seed } });
        }
    }
    Ok(wrecks)
}

/// Some wreck of that step.
///
/// # Errors
/// As [`wrecks`].
pub fn any_wreck<const W: usize, const P: usize>(
    before: &State<W, P>,
    journal: &[Happening],
    dice: &mut Dice,
) -> Result<Option<Wreck<W, P>>, Violation> {
    let mut wrecks = wrecks(before, journal, std::iter::once(dice.roll()))?;
    let place = dice.below(u64::try_from(wrecks.len()).unwrap_or(u64::MAX));
    let place = usize::try_from(place).unwrap_or_default();
    Ok((place < wrecks.len()).then(|| wrecks.swap_remove(place)))
}

/// The judge sees the power go.
fn fall<const W: usize, const P: usize>(
    state: &mut State<W, P>,
    under_way: Option<&Happening>,
    reached: bool,
) -> Result<(), Violation> {
    if let Some(Happening::Edited { line, record, after, .. }) = under_way {
        let (record, after, durable) = (*record, *after, Durable::Unknown);
        let line = Line { what: What::Wrote(Write::Edit(record), durable), ..*line };
        state.judge.see(&Happening::Edited { line, record, durable, after })?;
    }
    let line = match under_way {
        Some(Happening::Line(line)) => Some(*line),
        _ => None,
    };
    let seen = match line {
        Some(Line { what: What::Wrote(write, _), .. }) => {
            Some(What::Wrote(write, Durable::Unknown))
        }
        Some(Line { what: What::Tended(_), .. }) => Some(What::Tended(Durable::Unknown)),
        Some(Line { what: what @ What::Did(_), .. }) if reached => Some(what),
        _ => None,
    };
    if let (Some(what), Some(line)) = (seen, line) {
        state.judge.see(&Happening::Line(Line { what, ..line }))?;
    }
    let cut = Line { what: What::PowerCut, ..line.unwrap_or(NOWHEN) };
    state.judge.see(&Happening::Line(cut))
}

/// A line whose moment nobody asks for.
const NOWHEN: Line = Line {
    uptime: lock_core::time::Uptime::ZERO,
    chip: lock_core::port::Chip::Lost,
    what: What::PowerCut,
};

/// What the step at `place` is a part of: it is told behind its last step.
fn in_flight(journal: &[Happening], place: usize) -> Option<&Happening> {
    journal.get(place..)?.iter().find(|happening| !matches!(happening, Happening::Step { .. }))
}

/// An effect reaches the world.
fn effect(deed: &Deed, scene: &mut Scene) {
    match deed {
        Deed::Effect(Effect::Drive(to)) => scene.blocker = *to,
        Deed::Effect(Effect::Show(screen)) => scene.screen = Some(*screen),
        Deed::Effect(Effect::SetClock(utc)) => scene.clock.set_to(*utc),
        Deed::Effect(Effect::Alarm(_) | Effect::Sound(_))
        | Deed::Clock
        | Deed::Program { .. }
        | Deed::Erase { .. } => {}
    }
}

/// Which wrecks a step leaves.
#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;
    use std::sync::Arc;

    use super::*;
    use crate::memory::Memory;
    use crate::rig::power::Rehearsal;
    use crate::world::Bench;

    /// Each wreck of a step of the flash is another one, the first is as if
    /// nothing had happened, and *after* is as if all had; an effect has
    /// happened or not; and the judge takes nothing for granted.
    #[test]
    fn a_step_leaves_every_wreck_once() {
        let file =
            concat!(env!("CARGO_MANIFEST_DIR"), "/demo/drills/r01-nothing-opens-unrecorded.toml");
        let drill = crate::drill::Drill::load(file.as_ref()).map_err(|why| why.to_string());
        let drill = Arc::new(drill.unwrap());
        let rehearsal = Rehearsal::<8, 256>::of_drill::<Memory<8, 256>, Bench>(drill).unwrap();
        let (mut programs, mut effects) = (0, 0);
        for step in 0..rehearsal.steps() {
            let before = rehearsal.before(step).unwrap();
            let journal = rehearsal.journal();
            let Happening::Step { deed, .. } = &journal[before.place] else { panic!("no step") };
            let wrecks = wrecks(&before, journal, 0..4).unwrap();
            let first = wrecks.first().unwrap();
            assert_eq!((first.how.class, &first.state.cells), (Class::Before, &before.cells));
            if !deed.is_of_flash() {
                effects += 1;
                assert_eq!(wrecks.len(), 2);
                continue;
            }
            let prints: BTreeSet<u64> =
                wrecks.iter().map(|wreck| wreck.state.cells.fingerprint()).collect();
            assert_eq!(prints.len(), wrecks.len());
            let mut whole = before.cells.clone();
            whole.complete(&deed.act()).unwrap();
            assert!(prints.contains(&whole.fingerprint()) || wrecks.len() == 1);
            programs += usize::from(wrecks.len() > 8);
        }
        assert!(programs > 20 && effects > 20, "{programs} {effects}");
    }
}
