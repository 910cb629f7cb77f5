//! Who opens the documentation of `lock-core` meets an opening at once, and it is short.
//! That it runs, and opens, the documentation's own tests say.

use crate::source;

/// Lines of code in the example: between the braces of its `main`. Ours.
const LINES: usize = 20;

#[test]
fn the_first_page_begins_with_a_short_opening() {
    let page = source::text("lock-core/src/lib.rs");
    let shown = page.find(r#"include_str!("../examples/opening.rs")"#);
    let shown = shown.expect("the first page shows the example as it stands");
    let headings = page[..shown].lines().filter(|line| line.starts_with("//! #"));
    assert_eq!(headings.collect::<Vec<_>>(), ["//! # An opening"]);
    assert!(page.contains(&format!("//! in {LINES} lines of code")), "it says how short it is");

    let example = source::text("lock-core/examples/opening.rs");
    let (_, main) = example.split_once("fn main()").expect("it has a main");
    let (body, rest) = main.split_once("\n}\n").expect("main has an end");
    assert_eq!(rest, "", "all of it is in main");
    let lines = body.lines().skip(1).map(source::without_comment);
    let count = lines.filter(|line| !line.trim().is_empty()).count();
    assert!((10..=LINES).contains(&count), "{count} lines");
}
