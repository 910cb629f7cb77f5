//! In which order a guesser tries codes.

use lock_core::policy::DuressCodes;

use super::space::Space;
use crate::rig::Dice;

/// How a guesser goes through the codes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Order {
    /// Any code, again and again: somebody who notes nothing down.
    Random,
    /// 000000, 000001 and so on.
    Sequential,
    /// What people like to choose, then the rest from 000000 on.
    Popular,
    /// Only codes that somebody may have, each chosen so that it also tries the
    /// duress variant of another one: no order finds a code sooner.
    Knowing,
}

/// What people choose for a four-digit PIN, most frequent first: the first
/// twenty of a frequency list and its 22nd (source: `SecLists`, ranking only).
///
/// Kept apart from the lock's own list on purpose: the rig judges it.
const RANKED: [&str; 21] = [
    "1234", "1111", "0000", "1212", "7777", "1004", "2000", "4444", "2222", "6969", "9999", "3333",
    "5555", "6666", "1122", "1313", "8888", "2001", "4321", "1010", "2580",
];

impl Order {
    /// The codes in this order. Random ones have no end.
    pub fn codes<'s>(
        self,
        space: &'s Space,
        duress: DuressCodes,
        mut dice: Dice,
    ) -> Box<dyn Iterator<Item = u32> + 's> {
        let size = space.size();
        match self {
            Self::Random => Box::new(std::iter::repeat_with(move || {
                u32::try_from(dice.below(size.into())).unwrap_or_default()
            })),
            Self::Sequential => Box::new(0..size),
            Self::Popular => Box::new(popular(space.digits()).chain(0..size)),
            Self::Knowing => Box::new(knowing(space, duress)),
        }
    }
}

/// Longer codes are taken to be a popular one with something behind it or before
/// it (our extension: no ranking of longer numeric codes is at hand). In rank
/// order: itself begun again, then with every ending, then with every beginning.
fn popular(digits: usize) -> impl Iterator<Item = u32> {
    let rest = digits.saturating_sub(4);
    let fillings = 10_u32.pow(u32::try_from(rest).unwrap_or_default());
    let filled = move |filling: u32| format!("{filling:0rest$}");
    RANKED.iter().flat_map(move |stem| {
        let again = stem.chars().cycle().take(digits).collect::<String>();
        let behind = (0..fillings).map(move |filling| format!("{stem}{}", filled(filling)));
        let before = (0..fillings).map(move |filling| format!("{}{stem}", filled(filling)));
        std::iter::once(again).chain(behind).chain(before).filter_map(|code| code.parse().ok())
    })
}

/// First those that try two codes at once, none of which was tried before, then
/// those that try the codes that are left over.
fn knowing(space: &Space, duress: DuressCodes) -> impl Iterator<Item = u32> + '_ {
    let all = move || 0..space.size();
    match duress {
        DuressCodes::Off => {
            let usable = all().filter(|code| space.is_usable(*code));
            Box::new(usable) as Box<dyn Iterator<Item = u32>>
        }
        // In each ten the odd ones: 1 tries 1 and, as a variant, 0.
        DuressCodes::On => {
            let two =
                move |code: &u32| code % 2 == 1 && space.opened_by(*code, duress).count() == 2;
            let alone = move |code: u32| space.is_usable(code) && !two(&(code | 1));
            // Of a nine the nought of the same ten is the duress variant.
            let left = move |code: &u32| alone(*code) && !(code % 10 == 9 && alone(code - 9));
            Box::new(all().filter(two).chain(all().filter(left)))
        }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// Each code once at most, and together every code that somebody may have;
    /// of the knowing one's tries no two can hit the same code until nearly all
    /// is tried.
    #[test]
    fn the_knowing_order_wastes_no_try() {
        let space = Space::counted(6);
        let spared: BTreeSet<u32> = [739_204].into();
        let (mut opened, mut doubles, mut at_two) = (BTreeSet::new(), 0, 0_u64);
        for code in Order::Knowing.codes(&space, DuressCodes::On, Dice::of(1, 1)) {
            let fresh: Vec<u32> = space
                .opened_by(code, DuressCodes::On)
                .filter(|opened_code| opened.insert(*opened_code))
                .collect();
            assert!(!fresh.is_empty(), "{code} tries nothing new");
            if fresh.len() == 2 && doubles == at_two {
                at_two += 1;
            }
            doubles += 1;
        }
        assert_eq!(u64::try_from(opened.len()).unwrap(), space.count());
        // A year's tries at the most, eight times over.
        assert!(at_two > 8 * 52_572, "{at_two} tries before the first that hits one code only");
        assert!(spared.iter().all(|code| opened.contains(code)));
    }

    /// The lock refuses all of them at enrolment, so that nobody has one: four
    /// thousand tries for nothing.
    #[test]
    fn no_popular_code_is_usable() {
        let space = Space::counted(6);
        let first: Vec<u32> = popular(6).take(3).collect();
        assert_eq!(first, [123_412, 123_400, 123_401]);
        let popular: Vec<u32> = popular(6).collect();
        assert_eq!(popular.len(), 21 * 201);
        assert!(popular.iter().all(|code| space.opened_by(*code, DuressCodes::On).count() == 0));
    }
}
