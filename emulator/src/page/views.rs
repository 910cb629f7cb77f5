//! What is shown, topic by topic, to everybody who watches.

use std::sync::Arc;

use serde_json::Value;
use tokio::sync::watch;

/// Something that is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Topic {
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
    pub(super) const ALL: [Self; 8] = [
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

/// All topics as they are now.
#[derive(Clone)]
pub(super) struct Views {
    topics: [View; Topic::ALL.len()],
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
        Self { topics: std::array::from_fn(|_| View { version: 0, json: Arc::clone(&null) }) }
    }

    /// Each topic with its view.
    pub(super) fn all(&self) -> impl Iterator<Item = (Topic, &View)> {
        Topic::ALL.into_iter().zip(&self.topics)
    }
}

/// Where the room publishes.
pub(super) struct Publisher(watch::Sender<Views>);

/// A place where views are published, and where they are watched from.
pub(super) fn board() -> (Publisher, watch::Receiver<Views>) {
    let (sender, receiver) = watch::channel(Views::new());
    (Publisher(sender), receiver)
}

impl Publisher {
    /// Publishes what differs from what is published.
    pub(super) fn publish(&self, values: Vec<(Topic, Value)>) {
        self.0.send_if_modified(|views| {
            let mut modified = false;
            for (topic, value) in values {
                let json = value.to_string();
                let place = Topic::ALL.iter().position(|other| *other == topic);
                let Some(view) = place.and_then(|place| views.topics.get_mut(place)) else {
                    continue;
                };
                if *view.json != json {
                    *view = View { version: view.version + 1, json: Arc::from(json) };
                    modified = true;
                }
            }
            modified
        });
    }
}
