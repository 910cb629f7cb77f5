//! The lessons: drills that a trainer plays step by step.

use std::sync::{Arc, OnceLock};

use crate::document::LoadError;
use crate::drill::Drill;
use crate::site::Site;
use crate::tour::SITE;

/// One lesson.
pub struct Lesson {
    /// Its name in addresses: the file's, without what is behind the dot.
    pub id: &'static str,
    /// The drill.
    pub drill: Arc<Drill>,
}

macro_rules! files {
    ($($id:literal),* $(,)?) => {
        [$(($id, include_str!(concat!("../../demo/lessons/", $id, ".toml")))),*]
    };
}

const FILES: [(&str, &str); 12] = files![
    "01-an-ordinary-day",
    "02-closed-hours",
    "03-wrong-codes",
    "04-battery-pulled-in-a-penalty",
    "05-delay-and-claim",
    "06-two-people",
    "07-duress",
    "08-a-flat-battery",
    "09-clock-change-night",
    "10-a-couriers-code",
    "11-closing-early",
    "12-collecting-the-audit",
];

/// What a laptop can load into the locks of the demo site.
const STICK: [(&str, &str); 2] = [
    ("longer-mondays.toml", include_str!("../../demo/files/longer-mondays.toml")),
    ("shorter-mondays.toml", include_str!("../../demo/files/shorter-mondays.toml")),
];

/// The demo site's file name, in recordings too.
pub(super) const SITE_NAME: &str = "harbour-bakery.toml";

/// All lessons, in the order in which they are taught.
///
/// # Panics
/// If one of them is refused; a test holds that none is.
pub fn lessons() -> &'static [Lesson] {
    static LESSONS: OnceLock<Vec<Lesson>> = OnceLock::new();
    LESSONS.get_or_init(|| read().expect("the lessons are part of the program"))
}

/// The lesson of that name.
pub(super) fn named(id: &str) -> Option<(usize, &'static Lesson)> {
    lessons().iter().enumerate().find(|(_, lesson)| lesson.id == id)
}

fn read() -> Result<Vec<Lesson>, LoadError> {
    let site = demo();
    let each = FILES.iter().map(|(id, text)| {
        let drill =
            Drill::parse(&format!("{id}.toml"), text, &mut |_: &str| Ok(Arc::clone(&site)))?;
        Ok(Lesson { id, drill: Arc::new(drill) })
    });
    each.collect()
}

/// The demo site.
///
/// # Panics
/// If it is refused; a test holds that it is not.
pub(super) fn demo() -> Arc<Site> {
    static DEMO: OnceLock<Arc<Site>> = OnceLock::new();
    let read = || Site::parse(SITE_NAME, SITE).expect("the demo site is part of the program");
    Arc::clone(DEMO.get_or_init(|| Arc::new(read())))
}

/// The timetable files that lie on the demo site's stick, by name.
///
/// # Panics
/// If one is refused; a test holds that none is.
pub(super) fn stick() -> &'static [(&'static str, Arc<Site>)] {
    static FILES: OnceLock<Vec<(&'static str, Arc<Site>)>> = OnceLock::new();
    FILES.get_or_init(|| {
        let read = |(name, text): &(&'static str, &str)| {
            let site = Site::parse(&format!("files/{name}"), text);
            (*name, Arc::new(site.expect("the stick's files are part of the program")))
        };
        STICK.iter().map(read).collect()
    })
}
