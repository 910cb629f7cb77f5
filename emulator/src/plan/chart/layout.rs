//! Where everything stands on a chart, in pixels.

use lock_core::time::DAY_SECONDS;
use lock_core::timetable::{TIMETABLES, TimetableId};

use super::{Chart, Kind, Row, clock, day_text};

/// Shapes on white paper, those behind first.
pub(super) struct Drawing {
    pub(super) width: i32,
    pub(super) height: i32,
    pub(super) shapes: Vec<Shape>,
}

/// One thing to draw. Colours are `0xRRGGBB`.
pub(super) enum Shape {
    /// A rectangle, and what it stands for where that is worth a word.
    Fill { at: (i32, i32), size: (i32, i32), colour: u32, says: Option<String> },
    /// The edge of a rectangle.
    Edge { at: (i32, i32), size: (i32, i32), colour: u32 },
    /// A line of text; `at` is where its baseline starts, is centred or ends.
    Text { at: (i32, i32), words: String, size: Size, anchor: Anchor, colour: u32 },
}

#[derive(Clone, Copy)]
pub(super) enum Size {
    Small,
    Plain,
    Large,
}

#[derive(Clone, Copy)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

const INK: u32 = 0x0022_2222;
const GREY: u32 = 0x0059_5959;
const RULE: u32 = 0x00d8_d8d8;
const CLOSED: u32 = 0x00e4_e0e0;
const DAY: u32 = 0x00f7_f7f7;
const SHIFT: u32 = 0x00c0_2020;
/// A to H: told apart also without colour, by the letter beside the lane.
const COLOURS: [u32; TIMETABLES] = [
    0x001f_5fa8,
    0x00a8_5a00,
    0x0022_7a3d,
    0x0074_3fa8,
    0x00a0_2050,
    0x0000_6f78,
    0x006b_5a00,
    0x0044_4f5a,
];

const LEFT: i32 = 150;
const HOUR: i32 = 34;
const AXIS: i32 = HOUR * 24;
const NOTES: i32 = 300;
const MARGIN: i32 = 20;
const LANE: i32 = 15;
const LANE_STEP: usize = LANE as usize;
const ROW_GAP: i32 = 5;
const WEEK_GAP: i32 = 30;
/// Letters of a note that fit beside the axis.
const NOTE_MOST: usize = 40;

pub(super) fn layout(chart: &Chart) -> Drawing {
    let width = LEFT + AXIS + NOTES + MARGIN;
    let mut shapes = Vec::new();
    let mut text = |at, words: &str, size, colour| {
        shapes.push(Shape::Text { at, words: words.into(), size, anchor: Anchor::Start, colour });
    };
    text((MARGIN, 34), &chart.title, Size::Large, INK);
    text((MARGIN, 56), &chart.subtitle, Size::Plain, GREY);
    let mut y = 84;
    for (id, name) in &chart.timetables {
        shapes.push(fill((MARGIN, y - 10), (24, 11), colour(*id), None));
        let words = format!("{}  {name}", id.letter());
        let at = (MARGIN + 32, y);
        shapes.push(Shape::Text {
            at,
            words,
            size: Size::Plain,
            anchor: Anchor::Start,
            colour: INK,
        });
        y += 18;
    }
    for week in chart.rows.chunks(7) {
        y = week_of(chart, week, y + WEEK_GAP, &mut shapes);
    }
    Drawing { width, height: y + MARGIN, shapes }
}

/// Seven rows under their hours; returns where they end.
fn week_of(chart: &Chart, week: &[Row], top: i32, shapes: &mut Vec<Shape>) -> i32 {
    let lanes = i32::try_from(chart.timetables.len().max(1)).unwrap_or(1);
    let pitch = lanes * LANE + ROW_GAP;
    let bottom = top + pitch * i32::try_from(week.len()).unwrap_or(0);
    if let Some(first) = week.first() {
        let (_, number) = first.date.iso_week();
        let words = format!("Week {number}");
        let at = (MARGIN, top - 6);
        shapes.push(Shape::Text {
            at,
            words,
            size: Size::Plain,
            anchor: Anchor::Start,
            colour: GREY,
        });
    }
    for (row, y) in week.iter().zip((top..).step_by(usize::try_from(pitch).unwrap_or(1))) {
        shapes.push(fill((LEFT, y), (AXIS, pitch - ROW_GAP), DAY, None));
        for (lane, lane_y) in row.lanes.iter().zip((y..).step_by(LANE_STEP)) {
            if lane.kind == Kind::Closed {
                shapes.push(fill((LEFT, lane_y), (AXIS, LANE), CLOSED, None));
            }
        }
    }
    for hour in (0..=24).step_by(3) {
        let x = LEFT + hour * HOUR;
        shapes.push(fill((x, top), (1, bottom - top), RULE, None));
        let words = format!("{hour:02}:00");
        let at = (x, top - 6);
        shapes.push(Shape::Text {
            at,
            words,
            size: Size::Small,
            anchor: Anchor::Middle,
            colour: GREY,
        });
    }
    for (row, y) in week.iter().zip((top..).step_by(usize::try_from(pitch).unwrap_or(1))) {
        row_of(chart, row, (y, pitch), shapes);
    }
    bottom
}

fn row_of(chart: &Chart, row: &Row, (y, pitch): (i32, i32), shapes: &mut Vec<Shape>) {
    let middle = y + (pitch - ROW_GAP) / 2 + 4;
    let mut text = |at, words: String, size, anchor, colour| {
        shapes.push(Shape::Text { at, words, size, anchor, colour });
    };
    let end = Anchor::End;
    text((LEFT - 24, middle), day_text(row.date), Size::Plain, end, INK);
    let notes = cut(&row.notes.join("; "));
    let beside = (LEFT + AXIS + 12, middle);
    text(beside, notes, Size::Plain, Anchor::Start, INK);
    for ((id, _), y) in chart.timetables.iter().zip((y..).step_by(LANE_STEP)) {
        let words = id.letter().to_string();
        text((LEFT - 8, y + LANE - 4), words, Size::Small, end, colour(*id));
    }
    for ((lane, (id, _)), y) in
        row.lanes.iter().zip(&chart.timetables).zip((y..).step_by(LANE_STEP))
    {
        for span in &lane.spans {
            let (from, to) = (LEFT + x(span.from), LEFT + x(span.to));
            let says = format!(
                "Timetable {}, {}, {} to {}",
                id.letter(),
                day_text(row.date),
                clock(span.from),
                clock(span.to),
            );
            let size = ((to - from).max(1), LANE - 3);
            shapes.push(fill((from, y + 2), size, colour(*id), Some(says)));
        }
    }
    if let Some(shift) = row.change {
        let at = (LEFT + x(shift.from), y - 1);
        let size = ((x(shift.to) - x(shift.from)).max(3), pitch - ROW_GAP + 2);
        shapes.push(Shape::Edge { at, size, colour: SHIFT });
    }
}

fn fill(at: (i32, i32), size: (i32, i32), colour: u32, says: Option<String>) -> Shape {
    Shape::Fill { at, size, colour, says }
}

fn colour(id: TimetableId) -> u32 {
    COLOURS.get(id.index()).copied().unwrap_or(INK)
}

/// How far along the axis a second of the day stands.
fn x(second: u32) -> i32 {
    let along = i64::from(AXIS) * i64::from(second) / i64::from(DAY_SECONDS);
    i32::try_from(along).unwrap_or(AXIS)
}

/// A note that fits beside the axis.
fn cut(note: &str) -> String {
    if note.chars().count() <= NOTE_MOST {
        return note.into();
    }
    let kept: String = note.chars().take(NOTE_MOST - 3).collect();
    format!("{}...", kept.trim_end())
}
