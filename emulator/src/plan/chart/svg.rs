//! A chart as SVG: self-contained, with a title and a description for those who
//! hear it instead of seeing it.

use std::fmt::Write as _;

use super::layout::{Anchor, Shape, Size, layout};
use super::{Chart, day_text};

/// The chart as an SVG 1.1 document.
#[must_use]
pub fn svg(chart: &Chart) -> String {
    let drawing = layout(chart);
    let (width, height) = (drawing.width, drawing.height);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"title desc\" \
         font-family=\"Arial, Helvetica, sans-serif\">\n<title id=\"title\">{}</title>\n\
         <desc id=\"desc\">{}</desc>\n<rect width=\"{width}\" height=\"{height}\" \
         fill=\"#ffffff\"/>\n",
        escaped(&format!("Opening times: {}", chart.title)),
        escaped(&described(chart)),
    );
    for shape in &drawing.shapes {
        element(shape, &mut out);
    }
    out.push_str("</svg>\n");
    out
}

fn element(shape: &Shape, out: &mut String) {
    let written = match shape {
        Shape::Fill { at: (x, y), size: (width, height), colour, says } => {
            let says = says.as_ref();
            let says = says.map_or(String::new(), |s| format!("<title>{}</title>", escaped(s)));
            writeln!(
                out,
                "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" \
                 fill=\"#{colour:06x}\">{says}</rect>"
            )
        }
        Shape::Edge { at: (x, y), size: (width, height), colour } => writeln!(
            out,
            "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" fill=\"none\" \
             stroke=\"#{colour:06x}\" stroke-width=\"2\"/>"
        ),
        Shape::Text { words, .. } if words.is_empty() => Ok(()),
        Shape::Text { at: (x, y), words, size, anchor, colour } => {
            let size = match size {
                Size::Small => 11,
                Size::Plain => 13,
                Size::Large => 20,
            };
            let anchor = match anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            writeln!(
                out,
                "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" text-anchor=\"{anchor}\" \
                 fill=\"#{colour:06x}\">{}</text>",
                escaped(words)
            )
        }
    };
    written.unwrap_or_else(|_| unreachable!("a string takes any text"));
}

/// The chart in sentences.
fn described(chart: &Chart) -> String {
    let mut out = match (chart.rows.first(), chart.rows.last()) {
        (Some(first), Some(last)) => {
            format!("{} to {}.", day_text(first.date), day_text(last.date))
        }
        (_, _) => "No dates.".into(),
    };
    for (lane, (id, name)) in chart.timetables.iter().enumerate() {
        let open = |row: &&super::Row| row.lanes.get(lane).is_some_and(|l| !l.spans.is_empty());
        let dates = chart.rows.iter().filter(open).count();
        let _ = write!(out, " Timetable {} ({name}) is open on {dates} dates.", id.letter());
    }
    for row in chart.rows.iter().filter(|row| !row.notes.is_empty()) {
        let _ = write!(out, " {}: {}.", day_text(row.date), row.notes.join("; "));
    }
    out
}

fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    text.replace('"', "&quot;")
}
