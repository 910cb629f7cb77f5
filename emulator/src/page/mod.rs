//! The trainer's page: a lock in the browser.
//!
//! | file | concept |
//! | --- | --- |
//! | `room.rs` | the lock and what is round it, on a thread of its own |
//! | `command.rs` | what a trainer can do |
//! | `setup.rs` | what a lock is started with: freely, or for a lesson |
//! | `lesson.rs` | the lessons: drills that are played step by step |
//! | `stick.rs` | the memory stick: a folder, or what the demonstration has on it |
//! | `recording.rs` | what was done, as a drill file |
//! | `views.rs` | what is shown, topic by topic, to everybody who watches |
//! | `front.rs`, `why.rs`, `week.rs` | what the topics say |
//! | `handout.rs` | a lesson on paper |
//! | `server.rs` | addresses, connections, answers |
//! | `gate.rs` | who may look, who may act, and whose request is refused |
//! | `visitors.rs` | the join code, the trainer's own link, and who gave them |
//! | `crowd.rs` | where visitors come from, and how much each address may take |
//! | `assets/` | the page itself; nothing is fetched from elsewhere |
//!
//! The room's thread alone touches the lock. Requests put commands into a short
//! queue and wait for the answer; what is to be seen is published as a few JSON
//! texts that every viewer is sent when they change. A viewer who is slow misses
//! states, never the newest one.
//!
//! On the page time passes in whole seconds, because drills do: so a recording
//! is a drill that does the same.

mod command;
mod crowd;
mod front;
mod gate;
mod handout;
mod lesson;
mod recording;
mod room;
mod server;
mod setup;
mod stick;
mod views;
mod visitors;
mod week;
mod why;

pub use gate::HEADERS;
pub use handout::STYLE as HANDOUT_STYLE;
pub use lesson::{Lesson, lessons};
pub use server::{PORT, Ready, Serving, serve};
pub use setup::{Plugged, Shown};
pub use visitors::{TRAINERS, VIEWERS};

/// How the page looks. Tests hold its colours to the contrast of WCAG 2.2.
pub const STYLE: &str = include_str!("assets/page.css");
