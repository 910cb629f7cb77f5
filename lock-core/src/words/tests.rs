//! Sources: the phrases that drills look for (docs/behaviour.md, section 8);
//! ISO 8859-1, whose letters are the first 256 of Unicode.

use std::collections::BTreeMap;
use std::format;
use std::string::{String, ToString};
use std::vec::Vec;

use super::every::{charges, screens, stamps};
use super::lines::Fit;
use super::{BODY_LINES, COLUMNS, ENGLISH, TITLE_COLUMNS, english, write};
use crate::audit::Refusal;
use crate::holder::Number;
use crate::port::Fault;
use crate::rules::supply::Level;
use crate::screen::{ClockSeen, Form, Gist, Late, Screen, Stamp, Topic, Typed};
use crate::task::Task;
use crate::time::{Date, Minute};

fn joined(screen: Screen) -> String {
    english(&screen).joined().to_string()
}

fn monday() -> Stamp {
    Stamp { date: Date::from_ymd(2027, 3, 1).unwrap(), minute: Minute::from_hm(8, 30).unwrap() }
}

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

/// No sentence is cut off, whatever number or date stands in it, and each
/// screen has a title and something below it.
#[test]
fn every_screen_fits_and_says_something() {
    for screen in screens() {
        assert_eq!(write(&ENGLISH, &screen).fit(), Fit::Whole, "{screen:?}");
        let lines = english(&screen);
        assert!((1..=TITLE_COLUMNS).contains(&lines.title().chars().count()), "{screen:?}");
        let body: Vec<_> = lines.body().collect();
        assert!((1..=BODY_LINES).contains(&body.len()), "{screen:?}");
        for line in body {
            assert!((1..=COLUMNS).contains(&line.chars().count()), "{screen:?}: {line}");
            assert_eq!(line.trim(), line, "{screen:?}");
        }
    }
}

#[test]
fn every_letter_is_printable_iso_8859_1() {
    for screen in screens() {
        for letter in joined(screen).chars() {
            let code = u32::from(letter);
            let printable = (0x20..0x7F).contains(&code) || (0xA0..=0xFF).contains(&code);
            assert!(printable, "{screen:?}: {letter:?}");
            // A sign that nothing was filled in for.
            assert!(!matches!(letter, '#' | '@' | '|'), "{screen:?}");
        }
    }
}

/// A letter that the font lacks would be drawn as a question mark. Digits of a
/// code are drawn without it.
#[test]
fn every_letter_is_in_the_font() {
    let glyph = |letter| ENGLISH.font.glyph_mapping.index(letter);
    for screen in screens() {
        for letter in joined(screen).chars().filter(|letter| !matches!(letter, '?' | '·')) {
            assert_ne!(glyph(letter), glyph('?'), "{screen:?}: {letter:?}");
        }
    }
}

#[test]
fn the_phrases_that_drills_look_for() {
    let until = Some(monday());
    let (good, valid) = (Level::Good, ClockSeen::Valid);
    let phrases = [
        (Screen::Secured { supply: good, clock: valid }, "Secured"),
        (Screen::Secured { supply: Level::Low, clock: valid }, "Battery low"),
        (Screen::Secured { supply: Level::Low, clock: ClockSeen::Invalid }, "Battery low"),
        (Screen::Secured { supply: Level::Low, clock: ClockSeen::Invalid }, "Clock not set"),
        (Screen::Secured { supply: Level::Spent, clock: valid }, "Battery spent"),
        (Screen::Secured { supply: good, clock: ClockSeen::Invalid }, "Clock not set"),
        (Screen::Entry(Typed::Tens(1)), "1_"),
        (Screen::Entry(Typed::Number(number(12), 0)), "12"),
        (Screen::Entry(Typed::Number(number(7), 6)), "07 ······"),
        (Screen::List { page: 0 }, "1 Hold shut 2 Status 3 Change my code"),
        (Screen::Who(Task::HoldShut, Typed::Nothing), "Hold shut Who are you?"),
        (Screen::Who(Task::Status, Typed::Number(number(12), 2)), "Status 12 ··"),
        (Screen::TooShort, "Too short"),
        (Screen::TooLong, "Too long"),
        (Screen::WrongCode { left: 3 }, "Wrong code 3 tries left"),
        (Screen::WrongCode { left: 1 }, "Wrong code 1 try left"),
        (Screen::Refused { why: Refusal::Closed, until }, "Closed Opens Mon 1 Mar 08:30"),
        (Screen::Refused { why: Refusal::Closed, until: None }, "Closed"),
        (Screen::Refused { why: Refusal::HeldShut, until }, "Held shut until Mon 1 Mar 08:30"),
        (Screen::Penalty { minutes: 5 }, "No code is taken for 5 min"),
        (Screen::Released { supply: good }, "Released Draw the bolt"),
        (Screen::Released { supply: Level::Low }, "Battery low"),
        (Screen::Open { late: Late::No }, "Open"),
        (Screen::Open { late: Late::Yes }, "Close the safe now"),
        (Screen::SecondPerson { first: number(3) }, "Second person 03"),
        (Screen::Waiting { minutes: 10 }, "Wait 10 min left"),
        (Screen::Claimable { minutes: 3 }, "Code again 3 min left"),
        (Screen::HeldShut { until }, "Held shut until Mon 1 Mar 08:30"),
        (Screen::HoldSet { until: monday() }, "Held shut until Mon 1 Mar 08:30"),
        (
            Screen::Status { supply: Some(charges()[4]), now: until, uncollected: 0 },
            "Battery: full",
        ),
        (Screen::Status { supply: None, now: until, uncollected: 0 }, "Mon 1 Mar 08:30"),
        (Screen::Status { supply: None, now: None, uncollected: 0 }, "Clock not set"),
        (Screen::WayOut { hours: 72 }, "Nobody can open In 72 h"),
        (Screen::SettingUp, "Nobody can open yet. Leave the bolt drawn."),
        (Screen::Service(Fault::Blank), "Call service Not in use yet."),
    ];
    for (screen, phrase) in phrases {
        let words = joined(screen);
        assert!(words.contains(phrase), "{screen:?}: {words:?} lacks {phrase:?}");
    }
}

/// Numbers as the standard library writes them.
#[test]
fn minutes_are_written_out() {
    for minutes in 0..=u16::MAX {
        let words = joined(Screen::Waiting { minutes });
        assert!(words.starts_with(&format!("Wait {minutes} min left ")), "{words}");
    }
}

/// Quarters of the supply in words (behaviour, section 9).
#[test]
fn the_supply_is_a_word() {
    let words = charges()
        .map(|charge| joined(Screen::Status { supply: Some(charge), now: None, uncollected: 0 }));
    let says = ["change soon", "change soon", "half", "half", "full"];
    for (words, say) in words.iter().zip(says) {
        assert!(words.starts_with(&format!("Status Battery: {say} ")), "{words}");
    }
}

/// A way out that somebody asks for alone takes longer, and both say how long.
#[test]
fn a_way_out_says_how_long_it_takes() {
    let topic = Topic::Task(Task::WayOut);
    let confirm = |gist| joined(Screen::Form(Form::Confirm { topic, gist, trouble: None }));
    assert!(confirm(Gist::Plain).contains("In 72 h"));
    assert!(confirm(Gist::Alone).contains("In 14 days"));
}

/// Whatever is refused at the last *OK* says so, and what to do; nothing else that
/// stood there may push it off the screen.
#[test]
fn no_two_troubles_read_alike() {
    let mut seen = BTreeMap::new();
    for screen in screens() {
        let Screen::Form(Form::Confirm { topic, trouble: Some(trouble), .. }) = screen else {
            continue;
        };
        if topic == Topic::Task(Task::Enrol) {
            let before = seen.insert(joined(screen), trouble);
            assert!(before.is_none_or(|before| before == trouble), "{trouble:?}");
        }
    }
    assert!(seen.len() >= 14, "{}", seen.len());
}

/// Every date of two years by the calendar's own fields.
#[test]
fn dates_are_written_out() {
    for stamp in stamps() {
        let words = joined(Screen::HoldSet { until: stamp });
        let (_, month, day) = stamp.date.ymd();
        let month = ENGLISH.months[usize::from(month) - 1];
        let time = if stamp.minute == Minute::END { "24:00" } else { "00:00" };
        let weekday = stamp.date.weekday();
        assert!(words.contains(&format!("until {weekday:?} {day} {month} {time}")), "{words}");
    }
}

/// R5: from the words nobody learns more of a code than its length.
#[test]
fn a_code_is_dots() {
    for code in 0..=8 {
        let words = joined(Screen::Entry(Typed::Number(number(12), code)));
        assert_eq!(words.matches('·').count(), usize::from(code));
        assert_eq!(words.chars().filter(char::is_ascii_digit).count(), 2);
    }
}

/// Each refusal reads differently, so that the reason can be told apart.
#[test]
fn no_two_refusals_read_alike() {
    let mut seen = BTreeMap::new();
    for why in Refusal::ALL {
        let before = seen.insert(joined(Screen::Refused { why, until: None }), why);
        assert_eq!(before, None, "{why:?}");
    }
}

/// An end that the screen knows is always told where the lock can know one.
#[test]
fn a_known_end_is_told() {
    for why in Refusal::ALL {
        let words = joined(Screen::Refused { why, until: Some(monday()) });
        let told = words.contains("Mon 1 Mar 08:30");
        assert_eq!(
            told,
            matches!(why, Refusal::Closed | Refusal::HeldShut | Refusal::Settling),
            "{why:?}"
        );
    }
}
