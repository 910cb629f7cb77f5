//! Lines that fit the screen, and the writer that breaks sentences into them.

use super::decimal;
use super::language::{Language, Says};
use crate::holder::Number;
use crate::screen::{Stamp, Typed};

/// Letters that a title can have.
pub const TITLE_COLUMNS: usize = 16;
/// Letters that a line of a body can have: ten pixels each, beside the
/// pictogram.
pub const COLUMNS: usize = 17;
/// Lines that a body can have.
pub const BODY_LINES: usize = 4;

/// What stands for a digit of a code.
pub const CODE_DIGIT: char = '·';

/// Bytes that a letter of ISO 8859-1 takes in UTF-8, at most.
const LETTER_BYTES: usize = 2;
const TITLE_BYTES: usize = TITLE_COLUMNS * LETTER_BYTES;
const LINE_BYTES: usize = COLUMNS * LETTER_BYTES;
const JOINED_BYTES: usize = TITLE_BYTES + BODY_LINES * (1 + LINE_BYTES);

/// A title, in UTF-8.
pub type Title = heapless::String<TITLE_BYTES>;
/// A line of a body, in UTF-8.
pub type Line = heapless::String<LINE_BYTES>;
/// The lines of a body.
pub type Body = heapless::Vec<Line, BODY_LINES>;
/// Title and body in one line.
pub type Joined = heapless::String<JOINED_BYTES>;

/// The words of a screen, broken into lines that fit it.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Lines {
    title: Title,
    body: Body,
}

impl Lines {
    /// The title.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.title
    }

    /// The lines below it.
    pub fn body(&self) -> impl Iterator<Item = &str> {
        self.body.iter().map(heapless::String::as_str)
    }

    /// Title and body with one blank where a line ends: what drills look into.
    #[must_use]
    pub fn joined(&self) -> Joined {
        let mut joined = Joined::new();
        // The capacity is that of a title and all lines.
        joined.push_str(&self.title).ok();
        for line in &self.body {
            joined.push(' ').ok();
            joined.push_str(line).ok();
        }
        joined
    }
}

/// Whether all that was written fits.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Fit {
    /// It does.
    Whole,
    /// Some of it was cut off: a sentence of the table is too long.
    Cut,
}

/// Breaks sentences into lines. A sentence starts on a line of its own; words
/// stay whole.
///
/// What does not fit is left out. Which sentences fit does not depend on luck:
/// the tests write every screen with its longest numbers.
pub(super) struct Writer<'a> {
    language: &'a Language,
    /// The last line of the body is the one in the making.
    lines: Lines,
    /// Letters in that line; 0: the next word starts a new one.
    letters: usize,
    word: Word,
    fit: Fit,
}

/// What a sign in a sentence stands for.
#[derive(Clone, Copy)]
enum Sign {
    /// There is none.
    Nothing,
    /// `#`, a number.
    Number(u32),
    /// `#`, a holder.
    Holder(Number),
    /// `#`, a letter.
    Letter(char),
    /// `#`, a voltage.
    /// `@`, a date and time.
    Stamp(Stamp),
}

/// A word in the making, and the letters in it.
#[derive(Default)]
struct Word {
    text: Line,
    letters: usize,
}

impl<'a> Writer<'a> {
    pub(super) fn new(language: &'a Language) -> Self {
        Self {
            language,
            lines: Lines::default(),
            letters: 0,
            word: Word::default(),
            fit: Fit::Whole,
        }
    }

    pub(super) fn finish(self) -> Lines {
        self.lines
    }

    #[cfg(test)]
    pub(super) fn fit(&self) -> Fit {
        self.fit
    }

    pub(super) fn title(&mut self, title: &str) {
        if title.chars().nth(TITLE_COLUMNS).is_some() || self.lines.title.push_str(title).is_err() {
            self.fit = Fit::Cut;
        }
    }

    /// Title and body, without signs to fill in.
    pub(super) fn says(&mut self, says: &Says) {
        self.title(says.title);
        self.sentence(says.body);
    }

    /// Title and body with a number.
    pub(super) fn says_number(&mut self, says: &Says, number: u16) {
        self.title(says.title);
        self.number(says.body, number);
    }

    #[inline(never)] // one copy
    pub(super) fn sentence(&mut self, sentence: &str) {
        self.fill(sentence, Sign::Nothing);
    }

    /// A sentence in which `#` is `number`.
    pub(super) fn number(&mut self, sentence: &str, number: u16) {
        self.wide_number(sentence, u32::from(number));
    }

    /// The same with a number of any size.
    #[inline(never)] // one copy
    pub(super) fn wide_number(&mut self, sentence: &str, number: u32) {
        self.fill(sentence, Sign::Number(number));
    }

    /// A sentence in which `#` is a letter.
    pub(super) fn with_letter(&mut self, sentence: &str, letter: char) {
        self.fill(sentence, Sign::Letter(letter));
    }

    /// A choice on a line of its own: the key, then what it chooses.
    pub(super) fn numbered(&mut self, key: u32, name: &str) {
        self.decimal(key);
        self.space();
        self.sentence(name);
    }

    /// Two bounds and their unit, on a line of their own.
    pub(super) fn range(&mut self, least: u32, to: &str, most: u32, unit: &str) {
        self.decimal(least);
        self.words(to);
        self.decimal(most);
        self.words(unit);
        self.end_line();
    }

    /// A holder's number and what stands behind it, on a line of their own.
    pub(super) fn two_digits_and(&mut self, holder: Number, behind: &str) {
        self.two_digits(holder);
        self.words(behind);
        self.end_line();
    }

    /// Eight digits in two groups, on a line of their own.
    pub(super) fn fingerprint(&mut self, before: &str, fingerprint: u32) {
        self.words(before);
        self.padded(fingerprint / 10_000, 4);
        self.space();
        self.padded(fingerprint, 4);
        self.end_line();
    }

    /// What was typed in clear, leading zeros included.
    pub(super) fn typed_digits(&mut self, value: u32, count: u8) {
        self.padded(value, u32::from(count));
        self.end_line();
    }

    /// What was typed of a secret, as dots (R5).
    pub(super) fn typed_dots(&mut self, count: u8) {
        for _ in 0..count {
            self.letter(CODE_DIGIT);
        }
        self.end_line();
    }

    fn words(&mut self, words: &str) {
        for letter in words.chars() {
            match letter {
                ' ' => self.space(),
                _ => self.letter(letter),
            }
        }
    }

    /// A sentence in which `#` is a holder's number.
    #[inline(never)] // one copy
    pub(super) fn holder(&mut self, sentence: &str, holder: Number) {
        self.fill(sentence, Sign::Holder(holder));
    }

    /// A sentence in which `@` is a date and time.
    pub(super) fn until(&mut self, sentence: &str, stamp: Stamp) {
        self.fill(sentence, Sign::Stamp(stamp));
    }

    /// What stands in an entry: the number in clear, the code as dots (R5).
    pub(super) fn typed(&mut self, typed: Typed) {
        match typed {
            Typed::Nothing => return,
            Typed::Tens(digit) => {
                self.padded(u32::from(digit), 1);
                self.letter('_');
            }
            Typed::Number(number, code) => {
                self.two_digits(number);
                self.space();
                for _ in 0..code {
                    self.letter(CODE_DIGIT);
                }
            }
        }
        self.end_line();
    }

    /// Writes `sentence` on lines of its own; `sign` is what `#` or `@` stands
    /// for.
    fn fill(&mut self, sentence: &str, sign: Sign) {
        for letter in sentence.chars() {
            match letter {
                '#' | '@' => self.sign(sign),
                ' ' => self.space(),
                '|' => self.end_line(),
                _ => self.letter(letter),
            }
        }
        self.end_line();
    }

    fn sign(&mut self, sign: Sign) {
        match sign {
            Sign::Nothing => {}
            Sign::Number(number) => self.decimal(number),
            Sign::Holder(holder) => self.two_digits(holder),
            Sign::Letter(letter) => self.letter(letter),
            Sign::Stamp(stamp) => self.stamp(stamp),
        }
    }

    fn stamp(&mut self, stamp: Stamp) {
        let language = self.language;
        let (_, month, day) = stamp.date.ymd();
        let (hour, minute) = stamp.minute.hm();
        for letter in language.stamp.chars() {
            match letter {
                'w' => self.name(language.weekdays.get(stamp.date.weekday().index())),
                'd' => self.decimal(u32::from(day)),
                'm' => self.name(language.months.get(usize::from(month).wrapping_sub(1))),
                't' => {
                    self.padded(u32::from(hour), 2);
                    self.letter(':');
                    self.padded(u32::from(minute), 2);
                }
                ' ' => self.space(),
                _ => self.letter(letter),
            }
        }
    }

    fn name(&mut self, name: Option<&&str>) {
        for letter in name.copied().unwrap_or_default().chars() {
            self.letter(letter);
        }
    }

    /// A number without leading zeros.
    fn decimal(&mut self, number: u32) {
        self.padded(number, decimal::digits(number));
    }

    /// The last `count` digits of a number, leading zeros included.
    fn padded(&mut self, number: u32, count: u32) {
        for place in (0..count).rev() {
            self.letter(decimal::digit(number, place));
        }
    }

    /// A holder's number, always as two digits.
    fn two_digits(&mut self, holder: Number) {
        self.padded(u32::from(holder.get()), 2);
    }

    fn letter(&mut self, letter: char) {
        if self.word.letters >= COLUMNS || self.word.text.push(letter).is_err() {
            self.fit = Fit::Cut;
        } else {
            self.word.letters = self.word.letters.saturating_add(1);
        }
    }

    /// Ends a word: it goes to this line, or to the next if this one is full.
    fn space(&mut self) {
        if self.word.letters == 0 {
            return;
        }
        let after_blank = self.letters.saturating_add(1);
        if self.letters == 0 || after_blank.saturating_add(self.word.letters) > COLUMNS {
            self.letters = 0;
            // Written where it stays: a line is not copied into the body.
            if self.lines.body.push(Line::new()).is_err() {
                self.fit = Fit::Cut;
                self.word = Word::default();
                return;
            }
        } else {
            self.letters = after_blank;
        }
        if let Some(line) = self.lines.body.last_mut() {
            if self.letters > 0 {
                line.push(' ').ok();
            }
            line.push_str(&self.word.text).ok();
        }
        self.letters = self.letters.saturating_add(self.word.letters);
        self.word = Word::default();
    }

    fn end_line(&mut self) {
        self.space();
        self.letters = 0;
    }
}
