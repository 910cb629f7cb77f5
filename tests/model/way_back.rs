//! R11 as a promise about every story: from its end the people of the lock, who
//! know their codes and have time, reach an opening. Nobody forces anything; a
//! service fault is mended by a boot; a bolt is drawn only where it is free.
//! Source: `docs/behaviour.md`, section 13.

use crate::deeds::{Deed, What, enter, open, rest, tidy};
use crate::dice::Dice;
use crate::leads;
use crate::reference::Input;
use crate::seeds::{self, Name};
use crate::walk::{Step, Walk, Walker, Witness};

/// Stories told where nothing is said.
const STORIES: u32 = 60;
/// How often people try again; each time they wait, enrol, or ask for a way out.
const MOST_ROUNDS: u64 = 120;

#[test]
fn people_reach_an_opening_from_the_end_of_every_story() {
    let mut longest = 0;
    let mut by_way_out = 0;
    for name in seeds::names_or(STORIES) {
        match days_to_an_opening(name) {
            Ok((days, asked)) => {
                longest = longest.max(days);
                by_way_out += u32::from(asked);
            }
            Err(stands) => {
                let again = seeds::repeat(name, "people_reach_an_opening");
                panic!("story {name}: nobody gets in: {stands}\n{again}")
            }
        }
    }
    println!("the longest took {longest} days; {by_way_out} by a way out");
}

/// How many days it took, and whether a way out was asked for.
fn days_to_an_opening(name: Name) -> Result<(u64, bool), String> {
    let story = name.story();
    let mut walk = Walk::new(story.start_utc);
    let (mut model, _) = walk.boot(&story.setup, story.flash);
    for step in &story.steps {
        walk.play(&mut model, step, &mut |_, _, _| ());
    }
    let mut asked = false;
    let nothing: &mut Witness<'_> = &mut |_, _, _| ();
    let mut walker = Walker::new(&mut walk, &mut model, nothing);
    walker.step(&Step::PowerCut { off_s: 0, chip_lost: false });
    for round in 0..MOST_ROUNDS {
        if walker.model.fault.is_some() {
            walker.step(&Step::PowerCut { off_s: 0, chip_lost: false });
        }
        let mut dice = Dice::new(u64::from(name.number()) << 16 | round);
        if round_of_a_pair(&mut walker, &mut dice, &mut asked) {
            return Ok((walker.model.now.uptime_ms / 86_400_000, asked));
        }
    }
    let setup = walker.model.setup();
    let stuck = walker.model.is_stuck(setup);
    Err(format!("stuck={stuck} shows={} {setup:#?}", walker.model.screen()))
}

/// True: the lock was opened.
fn round_of_a_pair(walker: &mut Walker<'_>, dice: &mut Dice, asked: &mut bool) -> bool {
    tidy(walker);
    if walker.model.nobody_is_enrolled() {
        Deed { what: What::Commission, pick: dice.up_to(u64::MAX - 1) }.act(walker);
        return false;
    }
    if walker.model.utc().is_none() {
        leads::task(walker, dice, "set-clock");
    }
    if walker.model.is_stuck(walker.model.setup()) && !walker.model.kept.setting_up {
        if walker.model.way_out_ms.is_none() {
            leads::task(walker, dice, "way-out");
            *asked |= walker.model.way_out_ms.is_some();
        }
        if let Some(until_ms) = walker.model.way_out_ms {
            rest(walker);
            walker.wait((until_ms - walker.model.now.uptime_ms) / 1_000);
        }
    }
    if open(walker, dice, false) || walker.model.access.name() == "released" {
        return true;
    }
    if walker.model.is_opened() {
        walker.contact(Input::Bolt(false));
    }
    match dice.below(4) {
        // A barred warden has tries from the second day on.
        0 => walker.wait(86_400),
        1 => Deed { what: What::WaitOut, pick: dice.up_to(1 << 40) }.act(walker),
        2 => leads::task(walker, dice, "restore"),
        _ => leads::task(walker, dice, "enrol"),
    }
    let numbers: Vec<u8> = walker.model.setup().holders.keys().copied().collect();
    if let Some(number) = dice.of(&numbers) {
        rest(walker);
        enter(walker, number, false);
    }
    false
}
