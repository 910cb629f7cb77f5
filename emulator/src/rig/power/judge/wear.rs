//! Invariant 13: pages of a ring wear evenly, and nothing is asked of the flash
//! that its data sheet forbids.

use super::{Invariant, Suffered, Violation};
use crate::memory::Look;

pub(super) fn look(look: &Look, suffered: &Suffered) -> Result<(), Violation> {
    let wrong = |what: String| Err(Violation::new(Invariant::Wear, what));
    // A bit that turned over in a blank word makes a program of it raise one.
    if u64::from(look.wear.violations) > suffered.spoilt {
        return wrong(format!("{} programs were beyond the data sheet", look.wear.violations));
    }
    for (ring, pages) in [("openings", &look.wear.openings), ("refusals", &look.wear.refusals)] {
        let (Some(most), Some(least)) = (pages.iter().max(), pages.iter().min()) else { continue };
        let allowed = 1 + suffered.boots + suffered.failures + suffered.spoilt;
        if u64::from(most - least) > allowed {
            return wrong(format!(
                "pages of the {ring} ring were erased {least} to {most} times; {allowed} apart \
                 are the most"
            ));
        }
    }
    Ok(())
}

/// The wording of invariant 13, each half broken once.
#[cfg(test)]
mod tests {
    use super::super::forge::*;
    use super::*;

    #[test]
    fn uneven_wear_is_seen() {
        for (pages, cuts, violated) in [
            (vec![4, 6, 4], 0, None),
            (vec![4, 7, 4], 0, Some(Invariant::Wear)),
            (vec![4, 7, 4], 1, None),
            (vec![4, 8, 4], 1, Some(Invariant::Wear)),
        ] {
            for which in [0, 1] {
                let mut story = Forge::booted();
                for _ in 0..cuts {
                    story.cut().on().boot().rest();
                }
                let ring = [&mut story.look.wear.openings, &mut story.look.wear.refusals];
                for (place, ring) in ring.into_iter().enumerate() {
                    if place == which {
                        ring.clone_from(&pages);
                    }
                }
                story.looked();
                assert_eq!(story.violated(), violated, "{pages:?} {cuts}");
            }
        }
    }

    #[test]
    fn what_the_data_sheet_forbids_is_seen() {
        let mut story = Forge::booted();
        story.look.wear.violations = 1;
        story.looked();
        assert_eq!(story.violated(), Some(Invariant::Wear));
    }
}
