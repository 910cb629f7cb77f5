//! A lesson on paper: what it teaches, its steps, the screens as pictures.

use std::fmt::Write as _;

use base64::prelude::{BASE64_STANDARD, Engine as _};
use lock_core::port::Alarm;
use lock_core::screen::Screen;
use lock_core::time::Utc;

use super::front::moment;
use super::lesson::Lesson;
use crate::audit::report::page::escape;
use crate::caution;
use crate::drill::{Play, Step};
use crate::picture;
use crate::tour;

/// How it looks. Tests hold its colours to the contrast of WCAG 2.2.
pub const STYLE: &str = include_str!("assets/handout.css");

/// The page. The lesson is played for it, so that it shows what the lock does.
///
/// # Errors
/// One sentence, if the lesson cannot be played.
pub fn page(lesson: &Lesson) -> Result<String, String> {
    let drill = &*lesson.drill;
    let title = escape(&drill.title);
    let mut text = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}</title>\n<link rel=\"icon\" href=\"/icon.svg\">\n\
         <link rel=\"stylesheet\" href=\"/handout.css\">\n</head>\n<body>\n<main>\n\
         <h1>{title}</h1>\n"
    );
    if let Some(teaches) = &drill.teaches {
        let _ = writeln!(text, "<p class=\"teaches\">{}</p>", escape(teaches));
    }
    let _ = writeln!(
        text,
        "<p class=\"where\">{}, lock {}. Each line is what is done and what is seen then.</p>\n<ol>",
        escape(&drill.site.name),
        escape(&drill.lock),
    );
    let mut play = Play::start(drill).map_err(|why| format!("{why:?}"))?;
    let mut shown: Option<Screen> = None;
    // The day is written where it changes.
    let mut before = Utc::from_secs(0);
    let mut alarm = play.world().alarm();
    while let Some(step) = play.step() {
        let world = play.world();
        let now = world.utc();
        let at = moment(&drill.site.zone, now, before);
        before = now;
        let screen = world.screen().filter(|screen| shown != Some(*screen));
        shown = screen.or(shown);
        let changed = Some(world.alarm()).filter(|level| *level != alarm);
        alarm = world.alarm();
        item(&mut text, step, &at, (screen.as_ref(), changed)).map_err(|why| why.to_string())?;
    }
    let _ = writeln!(text, "</ol>\n<p class=\"caution\">{}</p>", caution::all());
    text += "</main>\n</body>\n</html>\n";
    Ok(text)
}

fn item(
    text: &mut String,
    step: &Step,
    at: &str,
    (screen, alarm): (Option<&Screen>, Option<Alarm>),
) -> Result<(), png::EncodingError> {
    *text += "<li>";
    if let Some(screen) = screen {
        let picture = picture::png(&picture::frame(screen), 1)?;
        let words = escape(&lock_core::words::english(screen).joined());
        let _ = write!(
            text,
            "<img alt=\"{words}\" width=\"296\" height=\"128\" src=\"data:image/png;base64,{}\">",
            BASE64_STANDARD.encode(&picture)
        );
    }
    let _ = write!(text, "<div><span class=\"at\">{}</span> ", escape(at));
    if let Some(act) = tour::act(step) {
        let _ = write!(text, "<b>{}</b> ", escape(&act));
    }
    if let Some(say) = &step.say {
        let _ = write!(text, "<span>{}</span>", escape(say));
    }
    if let Some(level) = alarm {
        let level = crate::drill::alarm(level);
        let _ = write!(text, " <span class=\"alarm\">The guard room sees: {level}.</span>");
    }
    *text += "</div></li>\n";
    Ok(())
}
