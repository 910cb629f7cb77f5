//! Ctrl-C: a rig that is asked to end ends its cases and writes what it has come to.
//! Asked twice, it ends at once.

use std::sync::atomic::{AtomicBool, Ordering};

use super::{Outcome, Signals};

static ASKED: AtomicBool = AtomicBool::new(false);
static NEVER: AtomicBool = AtomicBool::new(false);

/// What becomes true when the process is asked to end.
pub(super) fn watched(signals: Signals) -> &'static AtomicBool {
    if signals == Signals::Theirs {
        return &NEVER;
    }
    let heard = || {
        if ASKED.swap(true, Ordering::Relaxed) {
            std::process::exit(Outcome::Interrupted.code().into());
        }
    };
    // Without a handler Ctrl-C ends the process, as everywhere else.
    if ctrlc::set_handler(heard).is_err() {
        return &NEVER;
    }
    &ASKED
}
