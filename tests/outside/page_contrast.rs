//! Source: WCAG 2.2, 1.4.3 (text 4.5:1), 1.4.11 (what a picture needs to be
//! understood 3:1) and its definition of relative luminance; checked first on
//! two greys on white: #767676 = 4.54 passes, #777777 = 4.48 fails.

use emulator::audit::report::page::STYLE;
use emulator::page::{HANDOUT_STYLE, STYLE as TRAINER};

fn luminance(colour: &str) -> f64 {
    let hex = colour.strip_prefix('#').unwrap();
    let channel = |at: usize| {
        let value = f64::from(u8::from_str_radix(&hex[at..at + 2], 16).unwrap()) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * channel(0) + 0.7152 * channel(2) + 0.0722 * channel(4)
}

fn contrast(one: &str, other: &str) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[test]
fn the_formula_gives_the_published_values() {
    assert!((contrast("#767676", "#ffffff") - 4.54).abs() < 0.005);
    assert!((contrast("#777777", "#ffffff") - 4.48).abs() < 0.005);
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
}

/// The value of a custom property in the light or the dark palette of a page.
fn colour_of(style: &'static str, palette: usize, name: &str) -> &'static str {
    let block = style.split(":root {").nth(palette + 1).unwrap();
    let block = block.split('}').next().unwrap();
    let value = block.split(&format!("--{name}: ")).nth(1);
    value.unwrap_or_else(|| panic!("no --{name}")).split(';').next().unwrap()
}

fn colour(palette: usize, name: &str) -> &'static str {
    colour_of(STYLE, palette, name)
}

#[test]
fn everything_on_the_trainers_page_can_be_seen_light_and_dark() {
    assert_eq!(TRAINER.matches(":root {").count(), 2, "a light palette and a dark one");
    for palette in [0, 1] {
        let colour = |name| colour_of(TRAINER, palette, name);
        let mut pairs = vec![("on-accent", "accent", 4.5)];
        for ground in ["paper", "card"] {
            let texts = ["ink", "soft", "accent", "good", "bad", "warn"];
            pairs.extend(texts.map(|text| (text, ground, 4.5)));
            // Edges of what is pressed, and marks.
            pairs.extend([("line", ground, 3.0), ("accent", ground, 3.0)]);
        }
        // The week: windows and what runs on the day's track; notes in them.
        pairs.extend([("open", "closed", 3.0), ("run", "closed", 3.0), ("soft", "closed", 4.5)]);
        pairs.extend([
            ("ink", "closed", 4.5),
            ("ink", "warn-paper", 4.5),
            ("bad", "warn-paper", 3.0),
        ]);
        for (mark, ground, least) in pairs {
            let contrast = contrast(colour(mark), colour(ground));
            assert!(contrast >= least, "palette {palette}: {mark} on {ground} has {contrast:.2}");
        }
    }
    for ink in ["#16212a", "#45535d", "#8a1c2e"] {
        assert!(HANDOUT_STYLE.contains(ink) && contrast(ink, "#ffffff") >= 4.5);
    }
}

#[test]
fn everything_on_the_page_can_be_seen_light_and_dark() {
    assert_eq!(STYLE.matches(":root {").count(), 2, "a light palette and a dark one");
    for palette in [0, 1] {
        let paper = colour(palette, "paper");
        for text in ["ink", "soft", "opening"] {
            let contrast = contrast(colour(palette, text), paper);
            assert!(contrast >= 4.5, "palette {palette}: {text} has {contrast:.2}");
        }
        // Marks lie on the paper, on a day's track or on a window.
        for mark in ["opening", "alarm", "refused", "window-edge"] {
            for ground in ["paper", "track", "window"] {
                let contrast = contrast(colour(palette, mark), colour(palette, ground));
                assert!(contrast >= 3.0, "palette {palette}: {mark} on {ground} has {contrast:.2}");
            }
        }
    }
}
