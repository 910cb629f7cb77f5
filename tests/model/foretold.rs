//! What a lock says that a right code would get, held to what the model's door does
//! with that code at that moment. Source of both: `docs/behaviour.md`, sections 3 to 6.

use std::collections::BTreeMap;

use crate::compare::OtherLock;
use crate::deeds::code_of;
use crate::dice::Dice;
use crate::reference::{Key, Model, Seen};
use crate::walk::{Walk, Walker, typed};

/// How often each record was foretold.
pub(crate) type Foretold = BTreeMap<&'static str, u32>;

/// Asks the lock what somebody's code would get, and the model's door with that code.
pub(crate) fn hold<L: OtherLock>(
    walk: &mut Walk,
    model: &Model,
    lock: &mut L,
    dice: &mut Dice,
    seen: &mut Foretold,
) -> Result<(), String> {
    // Whoever leaves a dialogue may let through what waits for its end.
    if model.desk.form().is_some() {
        return Ok(());
    }
    let Some((number, code)) = somebody(walk, model, dice) else { return Ok(()) };
    let Some(kind) = lock.foretells(number) else { return Ok(()) };
    let (came, failed) = at_the_door(walk, model, (number, &code));
    // The first few codes of a penalty are recorded; a store that fails keeps nothing.
    if failed || kind == "refused-penalty" && came.is_empty() {
        return Ok(());
    }
    *seen.entry(kind).or_default() += 1;
    if came.iter().any(|it| it == kind) {
        return Ok(());
    }
    Err(format!("a right code of {number:02}: {kind} foretold, {came:?} came"))
}

/// Somebody of the lock, and their code of this moment: those who wait for somebody
/// else, or for a delay, as often as all the others.
fn somebody(walk: &mut Walk, model: &Model, dice: &mut Dice) -> Option<(u8, String)> {
    let mut numbers: Vec<u8> = model.setup().holders.keys().copied().collect();
    let involved: Vec<u8> = numbers.iter().copied().filter(|it| model.is_involved(*it)).collect();
    if !involved.is_empty() && dice.one_in(2) {
        numbers = involved;
    }
    let number = dice.of(&numbers)?;
    let (mut model, mut nobody) = (model.clone(), |_: &Model, _: &_, _: &_| ());
    let code = code_of(&Walker::new(walk, &mut model, &mut nobody), number)?;
    Some((number, code))
}

/// The kinds of the records that this code leaves, typed at a copy of the model; and
/// whether its store failed.
fn at_the_door(walk: &Walk, model: &Model, (number, code): (u8, &str)) -> (Vec<String>, bool) {
    let (mut walk, mut model) = (walk.clone(), model.clone());
    let mut kinds = Vec::new();
    let mut note = |_: &Model, _: &_, seen: &[(u64, Seen)]| {
        let records = seen.iter().flat_map(|(_, seen)| &seen.records);
        kinds.extend(records.map(|record| record.kind.clone()));
    };
    let mut walker = Walker::new(&mut walk, &mut model, &mut note);
    // Whatever somebody was in the middle of is left first.
    walker.keys(&[Key::Back, Key::Back, Key::Back]);
    walker.keys(&typed(number, code));
    let failed = model.fault.is_some();
    (kinds, failed)
}
