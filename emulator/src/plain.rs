//! What comes from a file, or names one, as a terminal may show it.
//!
//! A control character in a file's name can erase a line of a report, one that
//! turns the direction of writing (Unicode Standard Annex 9, section 2) can show
//! another name, and a line break can add a verdict of its own. Here they become
//! what they are called: `\n`, `\u{1b}`, `\u{202e}`.

use std::borrow::Cow;
use std::fmt::Write as _;
use std::path::Path;

/// Whether a character shows as itself and does nothing else.
#[must_use]
pub fn is_plain(c: char) -> bool {
    !c.is_control() && !steers(c)
}

/// Whether a character is seen only by what it does to others: marks, embeddings,
/// overrides and isolates of the direction of writing, breaks of lines and
/// paragraphs, the byte order mark, and tags.
const fn steers(c: char) -> bool {
    matches!(
        c,
        '\u{61c}'
            | '\u{200e}'
            | '\u{200f}'
            | '\u{2028}'..='\u{202e}'
            | '\u{2066}'..='\u{206f}'
            | '\u{feff}'
            | '\u{e0000}'..='\u{e007f}'
    )
}

/// A text on one line.
#[must_use]
pub fn line(text: &str) -> Cow<'_, str> {
    if text.chars().all(is_plain) { text.into() } else { escaped(text, |_| false).into() }
}

/// A text on the lines that it has.
#[must_use]
pub fn lines(text: &str) -> Cow<'_, str> {
    let shown = |c| c == '\n' || is_plain(c);
    if text.chars().all(shown) { text.into() } else { escaped(text, |c| c == '\n').into() }
}

fn escaped(text: &str, stays: impl Fn(char) -> bool) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            c if is_plain(c) || stays(c) => shown.push(c),
            '\n' | '\r' | '\t' => shown.extend(c.escape_default()),
            c => shown.extend(c.escape_unicode()),
        }
    }
    shown
}

/// A path; bytes that are no UTF-8 as `\xff`.
#[must_use]
pub fn path(path: &Path) -> String {
    let mut shown = String::new();
    for chunk in path.as_os_str().as_encoded_bytes().utf8_chunks() {
        shown.push_str(&line(chunk.valid()));
        for byte in chunk.invalid() {
            // A string takes everything.
            let _ = write!(shown, "\\x{byte:02x}");
        }
    }
    shown
}

/// A text of the same length in bytes, in which something visible stands where
/// something else stood; line breaks and tabs stay.
#[must_use]
pub fn same_length(text: String) -> String {
    let stays = |c: char| matches!(c, '\n' | '\t') || is_plain(c);
    // The end of a line that two characters make is one.
    if text.chars().all(|c| stays(c) || c == '\r') && !text.replace("\r\n", "").contains('\r') {
        return text;
    }
    let mut shown = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        match c {
            c if stays(c) || c == '\r' && rest.peek() == Some(&'\n') => shown.push(c),
            c => shown.push_str(match c.len_utf8() {
                1 => "?",
                2 => "\u{bf}",
                3 => "\u{fffd}",
                _ => "\u{fffd}?",
            }),
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_spelled_out() {
        for (text, shown) in [
            ("till-1.extract", "till-1.extract"),
            ("Zoë's Lädchen – 店, 🔒", "Zoë's Lädchen – 店, 🔒"),
            ("a\u{1b}[31mb", "a\\u{1b}[31mb"),
            ("fine\nBROKEN", "fine\\nBROKEN"),
            ("x\u{202e}tcartxe\u{2069}", "x\\u{202e}tcartxe\\u{2069}"),
            ("\r\t\u{7f}\u{9b}\u{2028}\u{feff}", "\\r\\t\\u{7f}\\u{9b}\\u{2028}\\u{feff}"),
        ] {
            assert_eq!(line(text), shown);
            assert!(line(text).chars().all(is_plain));
        }
        assert_eq!(lines("a\nb\u{8}"), "a\nb\\u{8}");
    }

    /// Of every character there is: nothing that steers is left, and no byte moves.
    #[test]
    fn every_character_is_shown_or_spelled_out() {
        for c in (0..=0x10_ffff).filter_map(char::from_u32) {
            let text = format!("a{c}b");
            assert!(line(&text).chars().all(is_plain), "{c:?}");
            let same = same_length(text.clone());
            assert_eq!(same.len(), text.len(), "{c:?}");
            assert!(same.chars().all(|c| matches!(c, '\n' | '\t') || is_plain(c)), "{c:?}");
        }
        assert_eq!(same_length("a\r\nb".to_owned()), "a\r\nb");
    }

    #[cfg(unix)]
    #[test]
    fn bytes_that_are_no_text_are_spelled_out() {
        use std::os::unix::ffi::OsStrExt as _;
        let name = std::ffi::OsStr::from_bytes(b"till\xff\xfe-1\x1b.extract");
        assert_eq!(path(Path::new(name)), "till\\xff\\xfe-1\\u{1b}.extract");
    }
}
