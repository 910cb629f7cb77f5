//! `plan chart`: what is drawn, in each of its forms.

use std::path::PathBuf;

use super::{json, plan};
use crate::site_text::SITE;

const WEEK: [&str; 4] = ["--from", "2027-12-23", "--weeks", "1"];

/// A path in the temporary directory that nobody else uses.
fn temporary(name: &str) -> PathBuf {
    std::env::temp_dir().join(format!("chart-{}-{name}", std::process::id()))
}

/// The week of Christmas, cell by cell: the special day is shorter, the
/// closure covers what would run in from Sunday night.
#[test]
fn a_week_in_the_terminal() {
    let (code, out, err) = plan(SITE, "chart", &WEEK);
    assert_eq!((code, err.as_str()), (0, ""));
    let week = out.lines().skip_while(|line| !line.starts_with("Week 51")).collect::<Vec<_>>();
    let closed = "─".repeat(48);
    let none = "·".repeat(48);
    let day = |runs: &[(char, usize)]| {
        runs.iter().map(|(c, count)| c.to_string().repeat(*count)).collect::<String>()
    };
    let counter = day(&[('·', 17), ('█', 8), ('·', 2), ('█', 7), ('·', 14)]);
    let run_in = day(&[('█', 4), ('·', 44)]);
    let expected = [
        format!("Mon 2027-12-20 A ▏{counter}▕"),
        format!("               B ▏{run_in}▕"),
        format!("Tue 2027-12-21 A ▏{none}▕"),
        format!("               B ▏{none}▕"),
        format!("Wed 2027-12-22 A ▏{none}▕"),
        format!("               B ▏{none}▕"),
        format!("Thu 2027-12-23 A ▏{none}▕"),
        format!("               B ▏{none}▕"),
        format!("Fri 2027-12-24 A ▏{}▕", day(&[('·', 17), ('█', 7), ('·', 24)])),
        format!("               B ▏{none}▕"),
        "                  A: special day".into(),
        format!("Sat 2027-12-25 A ▏{closed}▕"),
        format!("               B ▏{closed}▕"),
        "                  closed".into(),
        format!("Sun 2027-12-26 A ▏{closed}▕"),
        format!("               B ▏{closed}▕"),
        "                  closed".into(),
    ];
    assert_eq!(week[1..], expected, "{out}");
}

#[test]
fn a_week_in_json() {
    let chart = json(SITE, "chart", &WEEK);
    assert_eq!(chart["rows"].as_array().map(Vec::len), Some(7));
    let friday = &chart["rows"][4];
    assert_eq!(friday["date"], "2027-12-24");
    assert_eq!(friday["notes"], serde_json::json!(["A: special day"]));
    let lane = serde_json::json!({
        "timetable": "A", "day": "special-day", "open": [{ "from": "08:30", "to": "12:00" }],
    });
    assert_eq!(friday["lanes"][0], lane);
    assert_eq!(chart["rows"][5]["lanes"][1]["day"], "closure");
}

/// The clock changes are marked with what the wall skips and repeats.
#[test]
fn clock_changes_are_marked() {
    for (date, words) in [
        ("2027-03-28", "the clock skips 01:00 to 02:00"),
        ("2027-10-31", "the clock repeats 01:00 to 02:00"),
    ] {
        let chart = json(SITE, "chart", &["--from", date, "--weeks", "1"]);
        let rows = chart["rows"].as_array().unwrap();
        for row in rows {
            let expected: &[&str] = if row["date"] == date { &[words] } else { &[] };
            assert_eq!(row["notes"], serde_json::json!(expected));
        }
    }
}

/// The SVG is read by an XML parser; a bar for each opening stands where its
/// hours are; title and description are there for those who hear it.
#[test]
fn the_svg_is_whole_and_says_what_it_shows() {
    let path = temporary("week.svg");
    let text = SITE.replace("Corner Shop", "Fish & <Chips>");
    let file = path.to_str().unwrap();
    let (code, out, err) = plan(&text, "chart", &[&WEEK[..], &["--svg", file]].concat());
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("was written"), "{out}");
    let svg = std::fs::read_to_string(&path).unwrap();
    std::fs::remove_file(&path).unwrap();
    let document = roxmltree::Document::parse(&svg).expect("well-formed XML");
    let root = document.root_element();
    assert_eq!(root.tag_name().namespace(), Some("http://www.w3.org/2000/svg"));
    assert_eq!(root.attribute("role"), Some("img"));
    let titled = |tag: &str| {
        let found = root.children().find(|node| node.has_tag_name(tag));
        found.and_then(|node| node.text()).unwrap_or_default().to_owned()
    };
    assert_eq!(titled("title"), "Opening times: Fish & <Chips>");
    assert!(titled("desc").contains("Sat 2027-12-25: closed."), "{}", titled("desc"));
    let bars: Vec<_> = root
        .descendants()
        .filter(|node| node.has_tag_name("rect") && node.first_element_child().is_some())
        .collect();
    let said = |node: &roxmltree::Node<'_, '_>| {
        node.first_element_child().and_then(|title| title.text()).unwrap_or_default().to_owned()
    };
    let said: Vec<String> = bars.iter().map(said).collect();
    assert_eq!(
        said,
        [
            "Timetable A, Mon 2027-12-20, 08:30 to 12:30",
            "Timetable A, Mon 2027-12-20, 13:30 to 17:00",
            "Timetable B, Mon 2027-12-20, 00:00 to 02:00",
            "Timetable A, Fri 2027-12-24, 08:30 to 12:00",
        ]
    );
    let number = |bar: usize, key: &str| bars[bar].attribute(key).unwrap().parse::<f64>().unwrap();
    let hour = number(2, "width") / 2.0;
    assert!((number(0, "width") / hour - 4.0).abs() < 0.05);
    assert!(((number(0, "x") - number(2, "x")) / hour - 8.5).abs() < 0.05);
    // Self-contained: nothing is fetched.
    assert!(!svg.contains("href") && !svg.contains("url("));
}

/// The PNG has the SVG's size, and the colour of an opening in it.
#[test]
fn the_png_is_read_back() {
    let (png, svg) = (temporary("week.png"), temporary("same.svg"));
    let files = ["--png", png.to_str().unwrap(), "--svg", svg.to_str().unwrap()];
    let (code, ..) = plan(SITE, "chart", &[&WEEK[..], &files].concat());
    assert_eq!(code, 0);
    let text = std::fs::read_to_string(&svg).unwrap();
    let bytes = std::fs::read(&png).unwrap();
    std::fs::remove_file(&svg).unwrap();
    std::fs::remove_file(&png).unwrap();
    let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info().unwrap();
    let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut pixels).unwrap();
    let size = format!("width=\"{}\" height=\"{}\"", info.width, info.height);
    assert!(text.contains(&size), "{size}");
    let document = roxmltree::Document::parse(&text).unwrap();
    let mut bars = 0;
    for bar in document.descendants().filter(|node| node.first_element_child().is_some()) {
        let Some(colour) = bar.attribute("fill").filter(|_| bar.has_tag_name("rect")) else {
            continue;
        };
        let number = |key: &str| bar.attribute(key).unwrap().parse::<usize>().unwrap();
        let (x, y) = (number("x") + number("width") / 2, number("y") + number("height") / 2);
        let at = (y * usize::try_from(info.width).unwrap() + x) * 3;
        let [red, green, blue] = pixels[at..at + 3] else { unreachable!() };
        // The rules of the hours lie behind the bars.
        assert_eq!(format!("#{red:02x}{green:02x}{blue:02x}"), colour);
        bars += 1;
    }
    assert_eq!(bars, 4);
}

#[test]
fn what_cannot_be_drawn_is_refused() {
    for (rest, words) in [
        (&["--weeks", "0"][..], "0 is not in 1..=60"),
        (&["--weeks", "61"], "61 is not in 1..=60"),
        (&["--from", "1970-01-01"], "does not reach"),
        (&["--lock", "vault"], "has no lock \"vault\""),
        (&["--from", "2027-03-01", "--svg", "/no/such/folder/x.svg"], "cannot be written"),
    ] {
        let (code, out, err) = plan(SITE, "chart", rest);
        assert!(err.contains(words), "{rest:?}: {err}");
        assert_eq!((code, out.as_str()), (2, ""));
    }
    let text = "site = \"S\"\nzone = \"UTC\"\n[[lock]]\nid = \"till\"\nnumber = 1\n";
    let (code, _, err) = plan(text, "chart", &[]);
    assert!(code == 2 && err.contains("nothing to draw"), "{err}");
}
