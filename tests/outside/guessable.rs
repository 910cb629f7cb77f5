//! Guessable codes, counted a second time.
//!
//! Sources: the ranking of a four-digit PIN frequency list (SecLists); ITU-T
//! E.161 (from memory) for what lies in a line; Markert et al., S&P 2020: a
//! blocklist of about a tenth of the space balances best; Wang et al. 2017: the
//! top 5 to 8 % of PINs cover over half. The rules themselves are ours.
//!
//! The core asks of a code whether a rule holds. The oracle here never asks: it
//! writes down, as strings, every code that a rule makes, and counts. The two
//! share no code and no way of thinking.

use core::ops::Range;

use lock_core::code::{Code, Guessable, Refused, guessable, refused};
use lock_core::keys::Digit;

/// Usable codes by number of digits, counted by the oracle and by the core.
/// Exhaustive for six and seven digits; for eight the core is only sampled.
pub(crate) const USABLE_6: u64 = 889_354;
pub(crate) const USABLE_7: u64 = 9_343_662;
pub(crate) const USABLE_8: u64 = 93_212_148;

/// The first twenty of the frequency list and its 22nd.
const RANKED: &str = "1234 1111 0000 1212 7777 1004 2000 4444 2222 6969 9999 3333 5555 6666 \
                      1122 1313 8888 2001 4321 1010 2580";

/// Rows, columns and diagonals of the keypad, three keys each, and the one
/// column of four; each also the other way.
const LINES: &str = "123 456 789 147 258 369 580 159 357 2580";

/// Keys that touch, straight or across; each pair also the other way.
const NEIGHBOURS: &str = "12 23 45 56 78 89 14 25 36 47 58 69 80 15 26 48 59 24 35 57 68 70 90";

/// The reasons in the order in which the core must find them.
const ORDER: [Guessable; 9] = [
    Guessable::FewDigits,
    Guessable::EvenSteps,
    Guessable::Repeated,
    Guessable::Doubled,
    Guessable::Mirrored,
    Guessable::Strokes,
    Guessable::Date,
    Guessable::Popular,
    Guessable::Run,
];

/// All guessable codes of `n` digits: `found` hears each with its reason, or what
/// all codes of a kind begin with; some of them several times.
fn write_down(n: usize, found: &mut impl FnMut(Guessable, &str)) {
    few_digits(n, found);
    for (start, step) in (0..10).flat_map(|a| (0..10).map(move |b| (a, b))) {
        let code: String = (0..n).map(|i| ((start + i * step) % 10).to_string()).collect();
        found(Guessable::EvenSteps, &code);
    }
    for block in (1..=n / 2).flat_map(all_of) {
        found(Guessable::Repeated, &block.repeat(n)[..n]);
    }
    for half in all_of(n.div_ceil(2)) {
        let doubled: String = half.chars().flat_map(|c| [c, c]).collect();
        found(Guessable::Doubled, &doubled[..n]);
        let back: String = half.chars().rev().collect();
        let there = half.clone() + &back[n % 2..];
        found(Guessable::Mirrored, &there);
    }
    strokes(n, String::new(), found);
    dates(n, found);
    for stem in words(RANKED) {
        found(Guessable::Popular, stem);
        all_of(n - 4).for_each(|rest| found(Guessable::Popular, &(rest + stem)));
    }
    for before in (0..=n - 3).flat_map(all_of) {
        for run in words("000 111 222 333 444 555 666 777 888 999") {
            found(Guessable::Run, &(before.clone() + run));
        }
    }
}

fn few_digits(n: usize, found: &mut impl FnMut(Guessable, &str)) {
    for pair in all_of(2) {
        let pair: Vec<char> = pair.chars().collect();
        for choice in 0..1_usize << n {
            let code: String = (0..n).map(|i| pair[choice >> i & 1]).collect();
            found(Guessable::FewDigits, &code);
        }
    }
}

fn strokes(n: usize, so_far: String, found: &mut impl FnMut(Guessable, &str)) {
    let there_and_back =
        |list| words(list).flat_map(|w: &str| [w.to_owned(), w.chars().rev().collect()]);
    let left = n - so_far.len();
    match left {
        0 => found(Guessable::Strokes, &so_far),
        1 => all_of(1).for_each(|last| found(Guessable::Strokes, &(so_far.clone() + &last))),
        2 => there_and_back(NEIGHBOURS)
            .for_each(|last| found(Guessable::Strokes, &(so_far.clone() + &last))),
        _ => {
            for line in there_and_back(LINES).filter(|line| line.len() <= left) {
                strokes(n, so_far.clone() + &line, found);
            }
        }
    }
}

fn dates(n: usize, found: &mut impl FnMut(Guessable, &str)) {
    let months = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    for (month, days) in (1..).zip(months) {
        for day in 1..=days {
            for date in [format!("{day:02}{month:02}"), format!("{month:02}{day:02}")] {
                if n == 6 {
                    all_of(2).for_each(|year| found(Guessable::Date, &(date.clone() + &year)));
                    continue;
                }
                for year in 1900..=2099 {
                    let long = format!("{date}{year}");
                    match (n, long.strip_prefix('0')) {
                        (8, _) => found(Guessable::Date, &long),
                        (7, Some(short)) => found(Guessable::Date, short),
                        _ => {}
                    }
                }
            }
        }
    }
}

/// All strings of `n` digits; of none, the empty one.
fn all_of(n: usize) -> impl Iterator<Item = String> {
    let count = 10_usize.pow(u32::try_from(n).unwrap());
    (0..count).map(move |i| format!("{i:0n$}")[..n].to_owned())
}

fn words(list: &str) -> impl Iterator<Item = &str> {
    list.split_whitespace()
}

/// For each code of `n` digits the set of reasons, a bit each in [`ORDER`].
fn table(n: u32) -> Vec<u16> {
    let mut reasons = vec![0; 10_usize.pow(n)];
    write_down(usize::try_from(n).unwrap(), &mut |why, start| {
        let bit = ORDER.iter().position(|w| *w == why).unwrap();
        for reason in &mut reasons[codes(n, start)] {
            *reason |= 1 << bit;
        }
    });
    reasons
}

/// The codes of `n` digits that begin with `start`, as numbers.
fn codes(n: u32, start: &str) -> Range<usize> {
    let free = n.checked_sub(u32::try_from(start.len()).unwrap());
    let size = 10_usize.pow(free.expect("no longer than a code"));
    let first = start.parse::<usize>().unwrap() * size;
    first..first + size
}

/// Codes of which neither they nor their duress variants have a reason: within
/// a decade, a code's variant is its right neighbour, round to the first.
fn usable(reasons: &[u16]) -> u64 {
    reasons
        .chunks(10)
        .map(|decade| {
            if decade == [0; 10] {
                return 10;
            }
            let next = decade.iter().cycle().skip(1);
            let free = decade.iter().zip(next).filter(|&(a, b)| a | b == 0);
            u64::try_from(free.count()).unwrap()
        })
        .sum()
}

/// Holds the core against the table, code by code; counts what it lets through.
fn compare(n: usize, reasons: &[u16], codes: impl Iterator<Item = usize>) -> u64 {
    let mut let_through = 0;
    let mut digits = vec![Digit::new(0).unwrap(); n];
    for code in codes {
        let mut rest = code;
        for digit in digits.iter_mut().rev() {
            *digit = Digit::new(u8::try_from(rest % 10).unwrap()).unwrap();
            rest /= 10;
        }
        let own = reasons[code];
        let variant = reasons[code / 10 * 10 + (code + 1) % 10];
        let first = ORDER.get(usize::try_from(own.trailing_zeros()).unwrap()).copied();
        let expected = match (first, variant) {
            (Some(why), _) => Some(Refused::Itself(why)),
            (None, 0) => None,
            (None, _) => Some(Refused::Variant),
        };
        let made = Code::from_digits(&digits).unwrap();
        assert_eq!(refused(&made), expected, "{code:0n$}");
        let_through += u64::from(expected.is_none());
    }
    let_through
}

/// Rule R5: exactly the codes that the written-down rules make are refused, and
/// a little over a tenth of the space goes.
#[test]
fn every_six_digit_code() {
    let reasons = table(6);
    let usable = usable(&reasons);
    assert_eq!(compare(6, &reasons, 0..1_000_000), usable);
    assert_eq!(usable, USABLE_6, "{}", tally(&reasons));
    let share = (1_000_000 - usable) as f64 / 1e6;
    println!("six digits: {usable} usable, {share:.4} refused; {}", tally(&reasons));
    assert!((0.08..0.12).contains(&share), "about a tenth: {share}");
}

#[test]
fn every_seven_digit_code() {
    let reasons = table(7);
    let usable = usable(&reasons);
    println!("seven digits: {usable} usable; {}", tally(&reasons));
    assert_eq!(compare(7, &reasons, 0..10_000_000), usable);
    assert_eq!(usable, USABLE_7);
}

/// All are counted by the oracle. The core is asked about each code that another
/// rule than the runs makes, and about one in 997 of all (prime to ten, so that
/// all endings come up).
#[test]
fn eight_digit_codes() {
    let reasons = table(8);
    let usable = usable(&reasons);
    println!("eight digits: {usable} usable");
    assert_eq!(usable, USABLE_8);
    compare(8, &reasons, (0..reasons.len()).step_by(997));
    write_down(8, &mut |why, start| {
        if why != Guessable::Run {
            compare(8, &reasons, codes(8, start));
        }
    });
}

fn tally(reasons: &[u16]) -> String {
    let of = |bit: usize| reasons.iter().filter(|r| *r >> bit & 1 == 1).count();
    (0..ORDER.len()).map(|bit| format!("{:?} {}, ", ORDER[bit], of(bit))).collect()
}

/// What people type for four digits, in the longer forms they make of it.
#[test]
fn ranked_codes_are_refused_in_longer_forms() {
    for stem in words(RANKED) {
        let last = &stem[3..];
        let forms = [
            stem.repeat(2)[..6].to_owned(),
            stem.repeat(2)[..7].to_owned(),
            stem.repeat(2),
            format!("{stem}00"),
            format!("00{stem}"),
            format!("{stem}{last}{last}"),
            format!("{stem}12"),
            format!("{stem}123"),
            format!("{stem}1234"),
            format!("19{stem}"),
        ];
        for form in forms {
            let code = Code::parse(&form).unwrap();
            assert!(guessable(&code).is_some(), "{form} should be guessable");
        }
    }
}

/// Straight lines on the keypad (2580 0852 147 963 in the list), joined.
#[test]
fn straight_lines_are_refused() {
    for form in [
        "147258", "258147", "963852", "741963", "159357", "753951", "258025", "085208", "147369",
        "2580852", "1472583", "08525802", "14725836", "96385274",
    ] {
        let code = Code::parse(form).unwrap();
        assert!(guessable(&code).is_some(), "{form} should be guessable");
    }
}

/// The sample site's codes are fit for use, and so is a date written year first
/// (480317 is one).
#[test]
fn codes_of_the_sample_site_are_usable() {
    for good in ["480317", "739204"] {
        assert_eq!(refused(&Code::parse(good).unwrap()), None);
    }
}

/// A code next to a guessable one is refused without its reason.
#[test]
fn a_guessable_variant_is_refused_without_a_reason() {
    let code = Code::parse("804122").unwrap();
    assert_eq!(guessable(&code), None);
    assert_eq!(refused(&code), None);
    let neighbour = Code::parse("801233").unwrap();
    assert_eq!(guessable(&neighbour), None);
    assert_eq!(refused(&neighbour), Some(Refused::Variant));
}

/// What a refusal says contains no digit and says nothing twice.
#[test]
fn reasons_are_sentences_without_digits() {
    let mut said: Vec<String> = ORDER.map(|why| Refused::Itself(why).to_string()).to_vec();
    for (said, why) in said.iter().zip(ORDER) {
        assert_eq!(*said, why.to_string());
    }
    said.push(Refused::Variant.to_string());
    assert!(said.iter().all(|s| !s.is_empty() && !s.contains(|c: char| c.is_ascii_digit())));
    let all = said.len();
    said.sort();
    said.dedup();
    assert_eq!(said.len(), all);
}
