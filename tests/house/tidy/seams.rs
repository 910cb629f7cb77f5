//! docs/seams.md: each pair of features stands there once, and what it names is there and
//! is about both.

use std::collections::BTreeSet;

use crate::source;

const PAGE: &str = "docs/seams.md";

/// The features in the order of the page, each with its marks: texts of which a drill holds one
/// if the feature is in it. They are what drills do and expect, not what they say.
const FEATURES: [(&str, &[&str]); 15] = [
    ("Delay", &["\"delay-started\""]),
    ("Dual control", &["\"first-of-two\"", "\"refused-same-person\""]),
    ("Duress", &["alarm = \"duress\""]),
    ("Penalty", &["penalty = ", "\"wrong-code\"", "\"refused-barred\"", "screen = \"Barred\""]),
    ("Open lock", &["state = \"open\"", "\"opened\"", "\"forced\"", "bolt = \"force\""]),
    ("Files", &["load = "]),
    // The keys are a steward's at the page of the list that has the clock.
    (
        "Clock",
        &[
            "clock = ",
            "\"clock-set\"",
            "\"clock-corrected\"",
            "\"clock-invalid\"",
            "ok ok ok ok 3 50 ",
        ],
    ),
    ("Hold-shut", &["\"held-shut\"", "\"refused-hold\""]),
    ("Inhibit", &["inhibit = true"]),
    ("Supply", &["supply = "]),
    ("Power cuts", &["power = \"cut\"", "cut = "]),
    // The keys enrol one.
    ("Couriers", &["courier = ", " 40 ok 4 1"]),
    ("Dialogues", &["\"asked\"", "screen = \"long\""]),
    // The keys are those of a way out.
    (
        "Reset",
        &[
            "\"reset\"",
            "\"reset-begun\"",
            "\"way-out",
            "\"commissioned\"",
            "fresh = ",
            "ok ok ok ok ok ok 2 ",
        ],
    ),
    // Of the barred only a warden has a way in.
    (
        "Roles",
        &[
            "\"enrolled\"",
            "\"removed\"",
            "\"suspended\"",
            "\"restored\"",
            "\"timetable-chosen\"",
            "\"refused-right\"",
            "\"refused-suspended\"",
            "\"refused-same-person\"",
            "\"refused-barred\"",
            "screen = \"Barred\"",
            "screen = \"01 warden\"",
        ],
    ),
];

/// How a row begins that names nothing.
const APART: &str = "They cannot meet: ";

/// What the page says about one pair.
struct Row {
    pair: (usize, usize),
    says: String,
    drills: Vec<String>,
    /// File and function.
    tests: Vec<(String, String)>,
}

fn place(feature: &str) -> usize {
    let found = FEATURES.iter().position(|(name, _)| *name == feature);
    found.unwrap_or_else(|| panic!("{PAGE} has an unknown feature: {feature}"))
}

fn cells(line: &str) -> Option<Vec<&str>> {
    let inner = line.strip_prefix('|')?.strip_suffix('|')?;
    let cells: Vec<_> = inner.split('|').map(str::trim).collect();
    (!cells.contains(&"---")).then_some(cells)
}

fn row(feature: usize, cells: &[&str]) -> Row {
    let [with, says, checks] = *cells else { panic!("{PAGE}: three cells, not {cells:?}") };
    let other = if with == "itself" { feature } else { place(with) };
    let (mut drills, mut tests) = (Vec::new(), Vec::new());
    let mut spans = checks.split('`').skip(1).step_by(2).map(str::to_owned);
    while let Some(span) = spans.next() {
        if span.ends_with(".rs") {
            let name = spans.next().unwrap_or_else(|| panic!("{PAGE}: which test of {span}?"));
            tests.push((span, name));
        } else {
            drills.push(span);
        }
    }
    Row { pair: (feature, other), says: says.to_owned(), drills, tests }
}

fn rows() -> Vec<Row> {
    let page = source::text(PAGE);
    let (_, pairs) = page.split_once("\n## Pair by pair\n").expect("its heading");
    let mut rows = Vec::new();
    let mut feature = None;
    for line in pairs.lines() {
        if let Some(name) = line.strip_prefix("### ") {
            feature = Some(place(name));
        } else if let Some(cells) = cells(line)
            && cells[0] != "with"
        {
            rows.push(row(feature.expect("a feature's heading"), &cells));
        }
    }
    rows
}

fn named((one, other): (usize, usize)) -> String {
    format!("{} × {}", FEATURES[one].0, FEATURES[other].0)
}

fn drill(name: &str) -> String {
    format!("emulator/demo/{name}")
}

/// A feature with itself stands there where that makes sense; every other pair must.
#[test]
fn each_pair_stands_once_under_its_first_feature() {
    let mut seen = BTreeSet::new();
    for Row { pair, .. } in rows() {
        assert!(pair.0 <= pair.1, "{} stands under its second feature", named(pair));
        assert!(seen.insert(pair), "{} stands twice", named(pair));
    }
    let all = (0..FEATURES.len()).flat_map(|one| (one + 1..FEATURES.len()).map(move |b| (one, b)));
    let missing: Vec<_> = all.filter(|pair| !seen.contains(pair)).map(named).collect();
    assert!(missing.is_empty(), "{PAGE} lacks {missing:#?}");
}

/// Printed by `--nocapture`: the pairs by what answers for them.
#[test]
fn each_pair_is_played_or_tested_or_kept_apart_by_a_reason() {
    let [mut played, mut tested, mut apart] = [0; 3];
    for row in rows() {
        let pair = named(row.pair);
        assert!(row.says.ends_with('.'), "{pair}: a sentence says what happens");
        let reason = row.says.strip_prefix(APART).filter(|why| *why != ".");
        let checked = !row.drills.is_empty() || !row.tests.is_empty();
        assert_ne!(checked, reason.is_some(), "{pair}: a drill, a test, or `{APART}` and why");
        let count = match (row.drills.is_empty(), checked) {
            (false, _) => &mut played,
            (true, true) => &mut tested,
            (true, false) => &mut apart,
        };
        *count += 1;
    }
    println!("{played} pairs in drills, {tested} in tests alone, {apart} that cannot meet");
}

#[test]
fn what_the_page_names_is_there() {
    for row in rows() {
        let pair = named(row.pair);
        for name in &row.drills {
            let folder = name.split('/').next().unwrap_or_default();
            let played = ["drills", "lessons", "seams"].contains(&folder);
            let there = source::root().join(drill(name)).is_file();
            assert!(played && there, "{pair}: no drill {name}");
        }
        for (file, name) in &row.tests {
            assert!(source::root().join(file).is_file(), "{pair}: no file {file}");
            let text = source::text(file);
            let head = format!("fn {name}(");
            let is_test = text.split("#[test]").skip(1).any(|rest| {
                let mut lines = rest.lines().map(str::trim);
                lines.find(|line| line.starts_with("fn ")).is_some_and(|l| l.starts_with(&head))
            });
            assert!(is_test, "{pair}: {file} has no test {name}");
        }
    }
}

/// What is played where two rules meet is worth nothing to a reader who does not find it.
#[test]
fn each_drill_of_the_seams_is_named() {
    let named: BTreeSet<_> = rows().iter().flat_map(|row| row.drills.clone()).collect();
    let files = source::files("emulator/demo/seams", ".toml");
    assert!(files.len() > 100, "{} drills were found", files.len());
    let missing: Vec<_> =
        files.iter().filter(|file| !named.iter().any(|name| drill(name) == **file)).collect();
    assert!(missing.is_empty(), "{PAGE} does not name {missing:#?}");
}

/// What a drill does and expects, without what it says about itself.
fn deeds(name: &str) -> String {
    let text = source::text(&drill(name));
    let words = ["#", "say = ", "title = ", "teaches = "];
    let deeds = text.lines().filter(|line| !words.iter().any(|word| line.starts_with(word)));
    deeds.collect::<Vec<_>>().join("\n")
}

#[test]
fn a_drill_has_marks_of_both_of_its_features() {
    for row in rows() {
        for name in &row.drills {
            let deeds = deeds(name);
            for feature in [row.pair.0, row.pair.1] {
                let (feature, marks) = FEATURES[feature];
                let shown = marks.iter().any(|mark| deeds.contains(mark));
                assert!(shown, "{}: {name} has nothing of {feature}", named(row.pair));
            }
        }
    }
}

#[test]
fn the_overview_counts_the_drills_of_each_pair() {
    let page = source::text(PAGE);
    let (_, rest) = page.split_once("\n## At a glance\n").expect("its heading");
    let lines = rest.lines().take_while(|line| !line.starts_with("## "));
    let overview: Vec<_> = lines.filter_map(cells).skip(1).collect();
    assert_eq!(overview.len(), FEATURES.len());
    let rows = rows();
    for (other, cells) in overview.iter().enumerate() {
        let (name, _) = FEATURES[other];
        assert_eq!((cells[0], cells.len()), (&*format!("{} {name}", other + 1), 16), "{name}");
        for (one, cell) in cells[1..].iter().enumerate() {
            let row = rows.iter().find(|row| row.pair == (one, other));
            let mark = match row {
                None => String::new(),
                Some(Row { drills, .. }) if !drills.is_empty() => drills.len().to_string(),
                Some(Row { tests, .. }) => (if tests.is_empty() { "–" } else { "t" }).to_owned(),
            };
            assert_eq!(*cell, mark, "{} in the overview", named((one, other)));
        }
    }
}
