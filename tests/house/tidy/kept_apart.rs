//! Functions that the compiler is to keep apart: each says why in two words, which the
//! contributor's guide explains once.

use crate::source;

const REASONS: [&str; 2] = ["// own frame", "// one copy"];

#[test]
fn what_is_never_inlined_says_why_in_two_words() {
    let guide = source::text("DEVELOPERS.md");
    for reason in REASONS {
        assert!(guide.contains(&format!("`{reason}`:")), "the guide does not explain {reason}");
    }
    let mut apart = 0;
    for path in source::files("lock-core/src", ".rs") {
        for (number, line) in (1..).zip(source::text(&path).lines()) {
            if line.trim_start().starts_with("#[") && line.contains("inline(never)") {
                let said = REASONS.iter().any(|reason| line.ends_with(&format!("] {reason}")));
                assert!(said, "{path}:{number}: end it with one of {REASONS:?}");
                apart += 1;
            }
        }
    }
    assert!(apart > 30, "only {apart} were found");
}
