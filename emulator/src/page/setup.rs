//! What a lock is started with.

use std::path::PathBuf;
use std::sync::Arc;

use lock_core::pairing::Pairing;
use lock_core::time::Utc;

use super::lesson::{Lesson, demo, lessons, stick};
use crate::drill::{Drill, Fresh};
use crate::site::Site;

/// The site that is shown, and from when on.
#[derive(Clone)]
pub struct Shown {
    /// The site; the demo site if nobody named one.
    pub site: Arc<Site>,
    /// The lock's id.
    pub lock: String,
    /// When its story starts.
    pub start: Utc,
    /// The memory stick that is plugged in, if it is a folder; otherwise the demo's.
    pub stick: Option<Plugged>,
}

/// A folder as the memory stick, and the key that the lock shares with the laptop
/// that it comes from. No `Debug`: it holds a key.
#[derive(Clone)]
pub struct Plugged {
    /// The folder.
    pub folder: PathBuf,
    /// The key.
    pub pairing: Arc<Pairing>,
}

lock_core::silent!(Plugged);

/// How a lock starts.
#[derive(Clone)]
pub(super) enum Setup {
    /// As it comes from the workshop, for whatever the trainer does.
    Free { lock: String, start: Utc },
    /// For a lesson, with so many of its steps done.
    Lesson { lesson: usize, at: usize },
}

lock_core::silent!(Setup);

impl Setup {
    /// The drill that the lock is started for: without a step, if it is free.
    pub(super) fn drill(&self, shown: &Shown) -> Arc<Drill> {
        match self {
            Self::Lesson { lesson, .. } => match lessons().get(*lesson) {
                Some(Lesson { drill, .. }) => Arc::clone(drill),
                None => free(shown, &shown.lock, shown.start),
            },
            Self::Free { lock, start } => free(shown, lock, *start),
        }
    }
}

fn free(shown: &Shown, lock: &str, start: Utc) -> Arc<Drill> {
    Arc::new(Drill {
        title: format!("At the lock {lock}"),
        teaches: None,
        file: "the page".to_owned(),
        site: Arc::clone(&shown.site),
        lock: lock.to_owned(),
        fresh: Fresh::No,
        paired: shown.stick.as_ref().filter(|_| lock == shown.lock).map(|s| Arc::clone(&s.pairing)),
        start,
        steps: Vec::new(),
    })
}

impl Shown {
    /// The demo site, at its counter on a Monday morning.
    #[must_use]
    pub fn demo() -> Self {
        let site = demo();
        let start = lessons().first().map_or(Utc::from_secs(0), |lesson| lesson.drill.start);
        Self { site, lock: "till".to_owned(), start, stick: None }
    }
}

/// What can be loaded into a lock of `site` without a folder: for the demo site what
/// is on its stick, otherwise the site's own file.
pub(super) fn loadable(site: &Arc<Site>) -> Vec<(String, Arc<Site>)> {
    let own = (site.places.file.clone(), Arc::clone(site));
    if !Arc::ptr_eq(site, &demo()) {
        return vec![own];
    }
    let stick = stick().iter().map(|(name, site)| ((*name).to_owned(), Arc::clone(site)));
    std::iter::once(own).chain(stick).collect()
}
