//! Places in a run. A trace of the machine names the function that it is in, so
//! whoever counts instructions finds these by their names: `.ci/instructions`.

use core::hint::black_box;

use emulated_board::conformance::Mark;

/// Passes that place.
pub fn pass(mark: Mark) {
    match mark {
        Mark::Told => mark_told(),
        Mark::Driven => mark_driven(),
        Mark::Drawing => mark_drawing(),
        Mark::Drawn => mark_drawn(),
    }
}

// Functions of equal content could become one: each says something else.

#[inline(never)]
fn mark_told() {
    black_box(1);
}

#[inline(never)]
fn mark_driven() {
    black_box(2);
}

#[inline(never)]
fn mark_drawing() {
    black_box(3);
}

#[inline(never)]
fn mark_drawn() {
    black_box(4);
}
