//! The region of the keypad × every key, and the pause. Source: section 2 of
//! docs/behaviour.md.

use std::collections::BTreeSet;

use lock_core::code::Code;
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::machine::keypad::{Attempt, Did, Purpose, Session};
use lock_core::screen::Typed;
use lock_core::task::{PAGES, Task};
use lock_core::time::Uptime;

use super::Table;

/// Rows are named after the keys that lead there from rest, `k` being *OK*;
/// `0` to `9` stands for the other eight digits. The last column is the moment
/// 20 s after the last key.
const TABLE: &str = "
typed           1       2       3   0,4-9    back      ok   pause
-           entry   entry   entry   entry       .    list       .
1           entry   entry   entry   entry   wiped   short    rest
12          entry   entry   entry   entry   wiped   short    rest
123         entry   entry   entry   entry   wiped   short    rest
1234567     entry   entry   entry   entry   wiped   short    rest
12345678    entry   entry   entry   entry   wiped     try    rest
123456780   entry   entry   entry   entry   wiped     try    rest
0000000000   long    long    long    long   wiped     try    rest
00000000000     .       .       .       .    left    left    rest
k             ask     ask     ask    same    left    list    rest
kk            ask     ask     ask    same    left    list    rest
kkk           ask     ask     ask    same    left    list    rest
kkkk          ask     ask     ask    same    left    list    rest
kkkkk         ask     ask     ask    same    left    list    rest
kkkkkk        ask     ask    same    same    left    list    rest
kkkkkkk       ask     ask     ask    same    left    list    rest
k1            who     who     who     who   wiped   short    rest
k19           who     who     who     who   wiped   short    rest
k11234567     who     who     who     who   wiped   short    rest
k112345678    who     who     who     who   wiped     try    rest
k11234567890 long    long    long    long   wiped     try    rest
k112345678901   .       .       .       .    left    left    rest
k2            who     who     who     who   wiped   short    rest
k200739204    who     who     who     who   wiped     try    rest
kkkkkk1       who     who     who     who   wiped  nobody    rest
kkkkkk10      who     who     who     who   wiped   short    rest
12345678k       .       .       .       .       .       .       .
k112345678k     .       .       .       .       .       .       .
k212345678k     .       .       .       .       .       .       .
";

/// When the last key of a replay was pressed; keys come a second apart.
fn last_key(typed: &str) -> u64 {
    1_000 * typed.len() as u64
}

fn key(name: char) -> Key {
    match name {
        'b' => Key::Back,
        'k' => Key::Ok,
        digit => Key::Digit(Digit::new(digit.to_digit(10).unwrap().try_into().unwrap()).unwrap()),
    }
}

/// The session after these keys, from rest.
fn reached(typed: &str) -> Session {
    let mut session = Session::Rest;
    for (nth, name) in typed.chars().enumerate() {
        session.on_key(key(name), Uptime::from_millis(1_000 * (nth as u64 + 1)));
    }
    session
}

/// The column of a key.
fn column(key: Key) -> &'static str {
    match key {
        Key::Digit(digit) if digit.get() == 1 => "1",
        Key::Digit(digit) if digit.get() == 2 => "2",
        Key::Digit(digit) if digit.get() == 3 => "3",
        Key::Digit(_) => "0,4-9",
        Key::Back => "back",
        Key::Ok => "ok",
    }
}

/// What can be seen of a session: all that there is, but a code's digits.
#[derive(PartialEq, Eq, Debug)]
enum Seen {
    Rest,
    Entry(Typed, Uptime),
    Over(Uptime),
    List(u8, Uptime),
    Who(Task, Typed, Uptime),
    Judging(Purpose, Number),
}

fn seen(session: &Session) -> Seen {
    match session {
        Session::Rest => Seen::Rest,
        Session::Entry(typing) => Seen::Entry(typing.seen(), typing.until),
        Session::Over(until) => Seen::Over(*until),
        Session::List { page, until } => Seen::List(*page, *until),
        Session::Who(task, typing) => Seen::Who(*task, typing.seen(), typing.until),
        Session::Judging(attempt) => Seen::Judging(attempt.purpose, attempt.number),
        Session::Form(_) | Session::Second(..) => panic!("keys alone begin no dialogue"),
    }
}

/// Who is asked for, and the digits typed behind that.
fn split(typed: &str) -> (Purpose, &str) {
    let rest = typed.trim_start_matches('k');
    if rest.len() == typed.len() {
        return (Purpose::Open, typed);
    }
    (Purpose::Task(task(typed)), &rest[1..])
}

/// The page of the list after so many *OK*s.
fn page(typed: &str) -> usize {
    let oks = typed.len() - typed.trim_start_matches('k').len();
    (oks - 1) % PAGES
}

/// The task that these keys choose: three on each page, in the order of the list.
fn task(typed: &str) -> Task {
    let digit = typed.trim_start_matches('k').chars().next().and_then(|c| c.to_digit(10));
    Task::ALL[page(typed) * 3 + digit.unwrap() as usize - 1]
}

/// What stands in an entry of these digits: section 8, "the number's digits in
/// clear, the code's as dots".
fn shown(digits: &str) -> Typed {
    match digits.len() {
        0 => Typed::Nothing,
        1 => Typed::Tens(digits.parse().unwrap()),
        len => {
            let number = digits[..2].parse().ok().and_then(Number::new).unwrap();
            Typed::Number(number, u8::try_from(len - 2).unwrap())
        }
    }
}

/// What a word of the table promises, of a key after `typed`.
fn promise(word: &str, typed: &str, key: char) -> (Seen, Did) {
    let whole = format!("{typed}{key}");
    let until = Uptime::from_millis(last_key(&whole) + 20_000);
    match word {
        "." => (seen(&reached(typed)), Did::Nothing),
        "entry" => (Seen::Entry(shown(&whole), until), Did::Something),
        "list" => (Seen::List(page(&whole) as u8, until), Did::Something),
        // "Other keys do nothing; 20 s after the last key the list is left".
        "same" => (Seen::List(page(typed) as u8, until), Did::Nothing),
        "ask" => (Seen::Who(task(&whole), Typed::Nothing, until), Did::Something),
        "who" => match split(&whole) {
            (Purpose::Task(task), digits) => {
                (Seen::Who(task, shown(digits), until), Did::Something)
            }
            (Purpose::Open | Purpose::Second, _) => panic!("{typed} asks nobody who they are"),
        },
        "wiped" | "left" => (Seen::Rest, Did::Something),
        "short" => (Seen::Rest, Did::TooShort),
        "nobody" => (Seen::Rest, Did::Nobody),
        "long" => (Seen::Over(until), Did::TooLong),
        "try" => {
            let (purpose, digits) = split(typed);
            let number = digits[..2].parse().ok().and_then(Number::new).unwrap();
            (Seen::Judging(purpose, number), Did::Try)
        }
        unknown => panic!("a word without a promise: {unknown}"),
    }
}

/// R5: an entry shows of a code how long it is; wiped, it shows nothing.
#[test]
fn each_key_does_in_each_state_what_the_contract_says() {
    let table = Table::read(TABLE);
    let mut tried = BTreeSet::new();
    for (row, name, word) in table.cells() {
        let typed = row.trim_matches('-');
        for pressed in "0123456789bk".chars().filter(|pressed| column(key(*pressed)) == name) {
            let at = Uptime::from_millis(last_key(typed) + 1_000);
            let mut after = reached(typed);
            let state = after.name();
            let did = after.on_key(key(pressed), at);
            assert_eq!((seen(&after), did), promise(word, typed, pressed), "{row} × {pressed}");
            if let Session::Judging(attempt) = &after {
                judged_as_typed(attempt, typed);
            }
            tried.insert((state, pressed));
        }
    }
    let states = ["rest", "entry", "over", "list", "who", "judging"];
    assert_eq!(tried.len(), states.len() * 12, "a state or a key has no cell");
}

/// The try is on the very digits that were typed.
fn judged_as_typed(attempt: &Attempt, typed: &str) {
    let (_, digits) = split(typed.trim_end_matches('k'));
    let code = Code::parse(&digits[2..]).unwrap();
    assert!(attempt.code == code, "the code of {typed}");
}

/// "20 s after its last key an entry is wiped", and a list left: at that
/// moment, and not a millisecond before. A try that is judged waits on.
#[test]
fn each_state_is_left_alone_for_as_long_as_the_contract_says() {
    let mut tried = BTreeSet::new();
    for (row, name, word) in Table::read(TABLE).cells() {
        if name != "pause" {
            continue;
        }
        let typed = row.trim_matches('-');
        let over = last_key(typed) + 20_000;
        for millis in [0, over - 1, over, over + 1, 90_000_000] {
            let before = reached(typed);
            tried.insert((before.name(), word));
            let expected =
                if word == "rest" && millis >= over { Seen::Rest } else { seen(&before) };
            let mut after = before;
            after.on_time(Uptime::from_millis(millis));
            assert_eq!(seen(&after), expected, "{row} at {millis} ms");
        }
        let until = (word == "rest").then(|| Uptime::from_millis(over));
        assert_eq!(reached(typed).until(), until, "{row}: when the lock wakes");
    }
    let left = ["entry", "over", "list", "who"].map(|state| (state, "rest"));
    let stays = ["rest", "judging"].map(|state| (state, "."));
    assert_eq!(tried, left.into_iter().chain(stays).collect());
}
