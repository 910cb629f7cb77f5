//! What is shown, topic by topic: everything to who may act, and to who watches, unless
//! the trainer shows the front only. Then what is withheld is not sent at all.

use std::sync::Arc;

use serde_json::Value;
use tokio::sync::watch;

/// Something that is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Topic {
    /// Whether who watches is shown the front only.
    Shown,
    /// The site, its locks and people, the lessons: changes with the lock.
    Site,
    /// The time.
    Clock,
    /// The lock's front and the room behind it.
    Front,
    /// The records.
    Audit,
    /// What stands for and against an opening by the chosen holder.
    Why,
    /// The week of that holder.
    Week,
    /// The lesson, and what came of its steps.
    Lesson,
    /// How much was recorded.
    Recording,
}

impl Topic {
    pub(super) const ALL: [Self; 9] = [
        Self::Shown,
        Self::Site,
        Self::Clock,
        Self::Front,
        Self::Audit,
        Self::Why,
        Self::Week,
        Self::Lesson,
        Self::Recording,
    ];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Shown => "shown",
            Self::Site => "site",
            Self::Clock => "clock",
            Self::Front => "front",
            Self::Audit => "audit",
            Self::Why => "why",
            Self::Week => "week",
            Self::Lesson => "lesson",
            Self::Recording => "recording",
        }
    }
}

/// How much somebody is sent.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Extent {
    /// All topics.
    Everything,
    /// What somebody sees who stands in front of the lock.
    FrontOnly,
}

/// All topics as they are now.
#[derive(Clone)]
pub(super) struct Views {
    everything: [View; Topic::ALL.len()],
    /// Those of them, and as much of them, that are seen from in front; the others were
    /// never published here.
    front: [View; Topic::ALL.len()],
    /// What who watches is sent.
    extent: Extent,
}

/// One topic: its JSON, and how often it has changed.
#[derive(Clone)]
pub(super) struct View {
    pub(super) version: u64,
    pub(super) json: Arc<str>,
}

impl Views {
    fn new() -> Self {
        let null: Arc<str> = Arc::from("null");
        let none = || std::array::from_fn(|_| View { version: 0, json: Arc::clone(&null) });
        Self { everything: none(), front: none(), extent: Extent::Everything }
    }

    /// What who watches is sent.
    pub(super) const fn extent(&self) -> Extent {
        self.extent
    }

    /// Each topic with its view, to that extent.
    pub(super) fn all(&self, extent: Extent) -> impl Iterator<Item = (Topic, &View)> {
        let views = match extent {
            Extent::Everything => &self.everything,
            Extent::FrontOnly => &self.front,
        };
        Topic::ALL.into_iter().zip(views)
    }
}

/// Where the room publishes.
pub(super) struct Publisher(watch::Sender<Views>);

/// A place where views are published, and where they are watched from.
pub(super) fn board() -> (Publisher, watch::Receiver<Views>) {
    let (sender, receiver) = watch::channel(Views::new());
    (Publisher(sender), receiver)
}

/// What the room has to show.
pub(super) struct Shown {
    /// To who may act, and to who watches if nothing is withheld.
    pub(super) everything: Vec<(Topic, Value)>,
    /// To who watches otherwise.
    pub(super) front: Vec<(Topic, Value)>,
    /// Which of the two it is.
    pub(super) extent: Extent,
}

impl Publisher {
    /// Publishes what differs from what is published.
    pub(super) fn publish(&self, shown: Shown) {
        self.0.send_if_modified(|views| {
            let mut modified = views.extent != shown.extent;
            views.extent = shown.extent;
            modified |= update(&mut views.everything, shown.everything);
            modified |= update(&mut views.front, shown.front);
            modified
        });
    }
}

fn update(views: &mut [View; Topic::ALL.len()], values: Vec<(Topic, Value)>) -> bool {
    let mut modified = false;
    for (topic, value) in values {
        let json = value.to_string();
        let place = Topic::ALL.iter().position(|other| *other == topic);
        let Some(view) = place.and_then(|place| views.get_mut(place)) else { continue };
        if *view.json != json {
            *view = View { version: view.version + 1, json: Arc::from(json) };
            modified = true;
        }
    }
    modified
}
