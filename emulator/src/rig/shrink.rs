//! The fewest events that still fail: delta debugging (Zeller and Hildebrandt,
//! "Simplifying and Isolating Failure-Inducing Input", 2002; from memory).

/// Leaves out of `events` what the failure does not need: stretches first, then
/// smaller ones, at last single events.
///
/// What is returned fails, and no single event can be left out of it; `events`
/// as they are if they do not fail. `fails` must always answer the same.
#[must_use]
pub fn shrink<E: Clone>(events: &[E], mut fails: impl FnMut(&[E]) -> bool) -> Vec<E> {
    let mut kept = events.to_vec();
    if !fails(&kept) {
        return kept;
    }
    let mut length = kept.len().div_ceil(2);
    loop {
        let before = kept.len();
        // From the end, so that what was kept stays where it was.
        let mut end = kept.len();
        while end > 0 {
            let start = end.saturating_sub(length);
            let without: Vec<E> = kept[..start].iter().chain(&kept[end..]).cloned().collect();
            if fails(&without) {
                kept = without;
            }
            end = start;
        }
        if length > 1 {
            length = length.div_ceil(2);
        } else if kept.len() == before {
            return kept;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::Dice;

    /// Whether `part` is `whole` with events left out.
    fn is_left_of(part: &[u64], whole: &[u64]) -> bool {
        let mut rest = whole.iter();
        part.iter().all(|event| rest.any(|other| other == event))
    }

    /// Whatever makes it fail: what is left fails, comes from the original in
    /// its order, and needs each of its events.
    #[test]
    fn what_is_left_fails_and_needs_each_of_its_events() {
        for case in 0..2_000 {
            let mut dice = Dice::of(7, case);
            let count = dice.below(40);
            let events: Vec<u64> = (0..count).map(|_| dice.below(12)).collect();
            let (a, b, least) = (dice.below(12), dice.below(12), dice.below(12));
            // Order, evenness, company, amount: not all of them monotonous.
            let fails = |events: &[u64]| match case % 4 {
                0 => {
                    events.iter().position(|e| *e == a).is_some_and(|at| events[at..].contains(&b))
                }
                1 => events.contains(&a) && events.len() % 2 == 1,
                // Where `b` is, it takes an `a`: `b` goes first, then `a` can.
                2 => events.contains(&least) && (!events.contains(&b) || events.contains(&a)),
                _ => events.iter().sum::<u64>() > least,
            };
            let left = shrink(&events, fails);
            if !fails(&events) {
                assert_eq!(left, events);
                continue;
            }
            assert!(fails(&left) && is_left_of(&left, &events), "{left:?} of {events:?}");
            for place in 0..left.len() {
                let mut without = left.clone();
                without.remove(place);
                assert!(!fails(&without), "{place} of {left:?} is not needed");
            }
        }
    }

    #[test]
    fn two_needles_are_found_in_a_few_hundred_looks() {
        let events: Vec<u64> = (0..1_024).collect();
        let mut looks = 0;
        let left = shrink(&events, |events| {
            looks += 1;
            events.contains(&17) && events.contains(&900)
        });
        assert_eq!(left, [17, 900]);
        assert!(looks < 300, "{looks} looks");
    }

    #[test]
    fn what_fails_without_any_event_needs_none() {
        assert!(shrink(&[1, 2, 3], |_| true).is_empty());
    }
}
