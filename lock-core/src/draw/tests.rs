//! Sources: the display's size; ours otherwise. How far the picture reads is
//! judged in `tests/outside/legibility.rs`.

use std::collections::BTreeMap;
use std::vec::Vec;

use embedded_graphics::geometry::{Dimensions, OriginDimensions};
use embedded_graphics::mono_font::MonoTextStyle;
use embedded_graphics::text::{Baseline, Text};
use embedded_graphics::{Drawable, Pixel};

use super::*;
use crate::rules::supply::Level;
use crate::screen::{ClockSeen, Typed};
use crate::words::every::screens;

/// A target that refuses what lies outside its box instead of dropping it.
struct Strict {
    area: Rectangle,
    inked: u32,
}

/// Something was drawn there.
#[derive(PartialEq, Debug)]
struct Outside(Point);

impl Dimensions for Strict {
    /// Far larger than what is allowed, so that nothing is clipped on the way.
    fn bounding_box(&self) -> Rectangle {
        Rectangle::new(Point::new(-1_000, -1_000), Size::new(3_000, 3_000))
    }
}

impl DrawTarget for Strict {
    type Color = BinaryColor;
    type Error = Outside;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), Outside>
    where
        I: IntoIterator<Item = Pixel<BinaryColor>>,
    {
        for Pixel(at, color) in pixels {
            if !self.area.contains(at) {
                return Err(Outside(at));
            }
            self.inked += u32::from(color.is_on());
        }
        Ok(())
    }

    fn clear(&mut self, _: BinaryColor) -> Result<(), Outside> {
        Ok(())
    }
}

fn strict(area: Rectangle) -> Strict {
    Strict { area, inked: 0 }
}

/// Every screen, but of those that differ only in digits or dates a few.
fn pictures() -> Vec<Screen> {
    let few = screens().into_iter().enumerate();
    few.filter(|(n, screen)| match screen {
        Screen::Refused { .. } | Screen::Status { .. } => n % 97 == 0,
        Screen::HeldShut { .. } | Screen::HoldSet { .. } => n % 31 == 0,
        Screen::Form(_) => n % 211 == 0,
        Screen::Secured { .. }
        | Screen::Entry(_)
        | Screen::List { .. }
        | Screen::Who(_, _)
        | Screen::TooShort
        | Screen::TooLong
        | Screen::WrongCode { .. }
        | Screen::Penalty { .. }
        | Screen::Released { .. }
        | Screen::Open { .. }
        | Screen::SecondPerson { .. }
        | Screen::Waiting { .. }
        | Screen::Claimable { .. }
        | Screen::WayOut { .. }
        | Screen::SettingUp
        | Screen::Service(_) => true,
    })
    .map(|(_, screen)| screen)
    .collect()
}

/// Every pictogram that any screen shows, once.
fn pictograms() -> Vec<Pictogram> {
    let mut all: Vec<Pictogram> = Vec::new();
    for pictogram in screens().iter().map(Pictogram::of) {
        if !all.contains(&pictogram) {
            all.push(pictogram);
        }
    }
    all
}

fn frame(screen: &Screen) -> Frame {
    let mut frame = Frame::new();
    super::screen(screen, &mut frame).unwrap();
    frame
}

fn pictogram_frame(pictogram: Pictogram) -> Frame {
    let mut frame = Frame::new();
    pictogram.draw(&mut frame).unwrap();
    frame
}

fn differing(a: &Frame, b: &Frame) -> u32 {
    a.bytes().iter().zip(b.bytes()).map(|(a, b)| (a ^ b).count_ones()).sum()
}

#[test]
fn nothing_is_drawn_outside_the_display() {
    let display = Rectangle::new(Point::zero(), Frame::new().size());
    for screen in pictures() {
        let mut target = strict(display);
        assert_eq!(super::screen(&screen, &mut target), Ok(()), "{screen:?}");
        assert!(target.inked > 5_000, "{screen:?}");
    }
}

#[test]
fn a_pictogram_keeps_to_its_square() {
    let square = Rectangle::new(Point::zero(), Size::new(SIDE, SIDE));
    for pictogram in pictograms() {
        assert_eq!(pictogram.draw(&mut strict(square)), Ok(()), "{pictogram:?}");
    }
}

/// A text as embedded-graphics draws it.
fn by_library(text: &str, at: Point) -> Text<'_, MonoTextStyle<'static, BinaryColor>> {
    let style = MonoTextStyle::new(words::ENGLISH.font, BinaryColor::On);
    Text::with_baseline(text, at, style, Baseline::Top)
}

/// Every letter of the font is drawn as embedded-graphics draws it; what it lacks
/// is a question mark there too.
#[test]
fn letters_are_those_of_the_font() {
    for letter in (' '..='ÿ').filter(|letter| *letter != words::CODE_DIGIT && !letter.is_control())
    {
        let text = [letter, 'x'].iter().collect::<std::string::String>();
        let (mut drawn, mut expected) = (Frame::new(), Frame::new());
        let mut pen = Pen::new(&mut drawn, Point::new(7, 3), Ground::Paper, words::ENGLISH.font);
        let Ok(()) = pen.text(&text, Tone::Ink);
        by_library(&text, Point::new(7, 3)).draw(&mut expected).unwrap();
        assert!(drawn == expected, "{letter:?}");
    }
}

/// The square and the words share the display without touching.
#[test]
fn words_keep_clear_of_pictogram_and_edge() {
    let square = Rectangle::new(PICTOGRAM_AT, Size::new(SIDE, SIDE));
    assert_eq!(PANEL.intersection(&square), square);
    assert!(PANEL.intersection(&TITLE_BAR).is_zero_sized());
    let below = Rectangle::new(Point::new(120, 30), Size::new(172, 98));
    let extent = |text: &str, (left, top): (u8, u8)| {
        by_library(text, Point::new(left.into(), top.into())).bounding_box()
    };
    for screen in screens() {
        let lines = words::english(&screen);
        let title = extent(lines.title(), TITLE_AT);
        assert_eq!(title.intersection(&TITLE_BAR), title, "{screen:?}");
        let mut previous = TITLE_BAR;
        for (line, at) in lines.body().zip(BODY_AT) {
            let line = extent(line, at);
            assert_eq!(line.intersection(&below), line, "{screen:?}");
            assert!(line.intersection(&previous).is_zero_sized(), "{screen:?}");
            previous = line;
        }
    }
}

/// Two pictograms that mean different things differ in at least one pixel of
/// twenty of the square; with or without a badge, or a quarter of a battery more, in
/// one of fifty; with another number, in one of a hundred.
#[test]
fn pictograms_can_be_told_apart() {
    let square = SIDE * SIDE;
    let all = pictograms();
    assert!(all.len() > 24);
    for (n, &one) in all.iter().enumerate() {
        for &other in all.iter().skip(n + 1) {
            let least = match (one, other) {
                (Pictogram::Wait(_), Pictogram::Wait(_))
                | (Pictogram::Calendar(_), Pictogram::Calendar(_)) => 100,
                (
                    Pictogram::Secured | Pictogram::SecuredLow | Pictogram::SecuredNoClock,
                    Pictogram::Secured | Pictogram::SecuredLow | Pictogram::SecuredNoClock,
                )
                | (
                    Pictogram::Spent | Pictogram::Battery(_),
                    Pictogram::Spent | Pictogram::Battery(_),
                )
                | (Pictogram::Free, Pictogram::FreeLow)
                | (Pictogram::Open, Pictogram::CloseNow) => 50,
                _ => 20,
            };
            let differing = differing(&pictogram_frame(one), &pictogram_frame(other));
            assert!(differing * least > square, "{one:?} and {other:?} differ in {differing}");
        }
    }
}

/// White on black exactly while the bolt is free or drawn, as far as the
/// screen knows: seen from afar, that is the first thing to know.
#[test]
fn the_ground_tells_secured_from_free() {
    for screen in screens() {
        let not_secured = matches!(
            screen,
            Screen::Released { .. }
                | Screen::Open { .. }
                | Screen::Refused { why: crate::audit::Refusal::AlreadyOpen, .. }
        );
        let ground = Pictogram::of(&screen).ground();
        assert_eq!(ground == Ground::Ink, not_secured, "{screen:?}");
    }
    let inked = |screen: &Screen| {
        let frame = frame(screen);
        let margin = (0..116).flat_map(|x| (0..8).map(move |y| (x, y)));
        margin.filter(|&(x, y)| frame.pixel(x, y) == Some(BinaryColor::On)).count()
    };
    assert_eq!(inked(&Screen::Released { supply: Level::Good }), 116 * 8);
    assert_eq!(inked(&Screen::Secured { supply: Level::Good, clock: ClockSeen::Valid }), 0);
}

/// No two screens that say different words look the same.
#[test]
fn different_words_are_different_pixels() {
    let mut seen = BTreeMap::new();
    for screen in pictures() {
        let words = words::english(&screen).joined();
        if let Some(before) = seen.insert(frame(&screen).bytes().to_vec(), words.clone()) {
            assert_eq!(before, words, "{screen:?}");
        }
    }
}

/// Drawing covers all that was there: a picture does not depend on the last.
#[test]
fn nothing_of_the_last_picture_is_left() {
    let mut used = Frame::new();
    for screen in pictures() {
        super::screen(&screen, &mut used).unwrap();
        assert!(used == frame(&screen), "{screen:?}");
    }
}

/// R5: the picture of an entry shows how many digits there are, not which.
/// Each digit adds the same dot, ten pixels further on.
#[test]
fn each_digit_of_a_code_is_one_more_dot() {
    let number = crate::holder::Number::new(12).unwrap();
    let picture = |digits| frame(&Screen::Entry(Typed::Number(number, digits)));
    let dots: Vec<_> =
        (2..=8).map(|digits| differing(&picture(digits - 1), &picture(digits))).collect();
    assert!(dots.iter().all(|&dot| dot == dots[0] && dot > 40), "{dots:?}");
}
