//! Right, duress or wrong: the judgement of a typed code, and the duress rule.
//!
//! The duress variant of a code is the code with its last digit plus one,
//! modulo ten. That a duress code is the code with one digit changed is *common
//! practice*; which digit, and by how much, is ours. It is not stored: a typed code is the duress variant of the enrolled one if lowering
//! its last digit by one gives the enrolled one.

use core::convert::Infallible;

use subtle::{Choice, ConstantTimeEq};

use super::Code;
use super::digest::{Digest, LockKey, Salt, digest};
use crate::holder::Number;

/// What a typed code is to the enrolled one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Verdict {
    /// The enrolled code.
    Right,
    /// The enrolled code's duress variant.
    Duress,
    /// Neither, or nobody is enrolled under the number.
    Wrong,
}

/// What a code is judged by. There is always one, so that it takes the same work
/// whether anybody has the number (R5).
///
/// No `Debug`: the digest is derived from a code.
#[derive(Clone, Copy)]
pub struct Kept<'k> {
    /// The salt of the digest.
    pub salt: &'k Salt,
    /// The enrolled code's digest.
    pub digest: &'k Digest,
    /// Whether they are anybody's. If not, no code is right.
    pub enrolled: bool,
}

silent!(Kept<'_>);

/// Judges `code`, typed behind `number`, by what is kept of the enrolled code.
///
/// Equal work, whatever the outcome: two digests and two comparisons in
/// constant time, for numbers that nobody has too, whose result is then void.
///
/// Whether duress is switched on is the caller's business: where it is off,
/// [`Verdict::Duress`] must be treated as [`Verdict::Wrong`]. So is counting
/// the guess before it is judged (rule R2).
#[must_use]
pub fn judge(key: &LockKey, number: Number, kept: Kept<'_>, code: &Code) -> Verdict {
    let by = |salt: &Salt, code: &Code| Ok::<_, Infallible>(digest(key, salt, number, code));
    match judge_by(by, kept, code) {
        Ok(verdict) => verdict,
        Err(never) => match never {},
    }
}

/// The duress variant of `code`: its last digit plus one, modulo ten.
#[must_use]
pub fn duress_variant(code: &Code) -> Code {
    code.with_last(|d| d.wrapping_add(1) % 10)
}

/// [`judge`] by whoever makes digests: a keeper may fail, a test counts the work.
pub(crate) fn judge_by<E>(
    mut digest: impl FnMut(&Salt, &Code) -> Result<Digest, E>,
    kept: Kept<'_>,
    code: &Code,
) -> Result<Verdict, E> {
    let enrolled = Choice::from(u8::from(kept.enrolled));
    let right = digest(kept.salt, code)?.ct_eq(kept.digest) & enrolled;
    let duress = digest(kept.salt, &lowered(code))?.ct_eq(kept.digest) & enrolled;
    // Only the outcome is branched on, after all the work.
    Ok(match (bool::from(right), bool::from(duress)) {
        (true, _) => Verdict::Right,
        (false, true) => Verdict::Duress,
        (false, false) => Verdict::Wrong,
    })
}

/// The code whose duress variant is `code`.
fn lowered(code: &Code) -> Code {
    code.with_last(|d| d.wrapping_add(9) % 10)
}

#[cfg(test)]
mod tests {
    use core::cell::Cell;
    use std::vec::Vec;

    use super::*;

    const KEY: LockKey = LockKey::from_bytes([7; LockKey::LEN]);
    const SALT: Salt = Salt::from_bytes([3; Salt::LEN]);

    fn code(text: &str) -> Code {
        Code::parse(text).unwrap()
    }

    const NOBODYS: Kept<'_> =
        Kept { salt: &SALT, digest: &Digest::from_bytes([0; Digest::LEN]), enrolled: false };

    fn somebodys(digest: &Digest) -> Kept<'_> {
        Kept { salt: &SALT, digest, enrolled: true }
    }

    /// Rule R5: right, duress, wrong and unknown take the same digests, in the
    /// same order, of the same two codes; a digest itself is four compressions
    /// whatever it is given (`digest.rs`).
    #[test]
    fn every_outcome_takes_the_same_work() {
        let number = Number::new(12).unwrap();
        let typed = code("739204");
        let kept = |of: &str| digest(&KEY, &SALT, number, &code(of));
        let cases = [
            (Some(kept("739204")), Verdict::Right),
            (Some(kept("739203")), Verdict::Duress),
            (Some(kept("480317")), Verdict::Wrong),
            (None, Verdict::Wrong),
        ];
        for (kept, expected) in cases {
            let calls = Cell::new(Vec::new());
            let verdict = judge_by(
                |salt, code| {
                    let mut so_far = calls.take();
                    so_far.push(code.digits);
                    calls.set(so_far);
                    Ok::<_, Infallible>(digest(&KEY, salt, number, code))
                },
                kept.as_ref().map_or(NOBODYS, somebodys),
                &typed,
            );
            assert_eq!(verdict, Ok(expected));
            let both = [typed.digits, lowered(&typed).digits];
            assert_eq!(calls.take(), both);
        }
    }

    /// Even a code whose digest is the stand-in itself is wrong for a number
    /// that nobody holds.
    #[test]
    fn an_unenrolled_number_never_matches() {
        let stand_in = |_: &Salt, _: &Code| Ok::<_, Infallible>(*NOBODYS.digest);
        let typed = code("739204");
        assert_eq!(judge_by(stand_in, NOBODYS, &typed), Ok(Verdict::Wrong));
        let enrolled = Kept { enrolled: true, ..NOBODYS };
        assert_eq!(judge_by(stand_in, enrolled, &typed), Ok(Verdict::Right));
    }

    #[test]
    fn lowering_undoes_the_variant() {
        for last in 0..=9 {
            for stem in ["73920", "739205", "7392050"] {
                let text = std::format!("{stem}{last}");
                let there = duress_variant(&code(&text));
                assert!(there == code(&std::format!("{stem}{}", (last + 1) % 10)));
                assert!(lowered(&there) == code(&text));
            }
        }
    }

    /// For every six-digit code as the enrolled one: it is right, its last digit
    /// plus one is duress, and the eight other last digits are wrong, the
    /// variant's variant among them. The expected codes are counted up as
    /// numbers, not made by the rule under test.
    #[test]
    fn every_code_has_one_variant_and_the_variant_has_none() {
        let number = Number::new(99).unwrap();
        for tens in 0..100_000_u32 {
            let decade: Vec<Code> =
                (0..10_u32).map(|last| code(&std::format!("{tens:05}{last}"))).collect();
            for (own, enrolled) in decade.iter().enumerate() {
                let kept = digest(&KEY, &SALT, number, enrolled);
                // All ten last digits for one stem in eleven, else the nearest three.
                let full = tens % 11 == 0;
                for ahead in 0..if full { 10 } else { 3 } {
                    let expected = match ahead {
                        0 => Verdict::Right,
                        1 => Verdict::Duress,
                        _ => Verdict::Wrong,
                    };
                    let typed = &decade[own.wrapping_add(ahead) % 10];
                    let verdict = judge(&KEY, number, somebodys(&kept), typed);
                    assert_eq!(verdict, expected, "{tens:05}, {own} and {ahead}");
                }
            }
        }
    }

    /// The same code under another number, key or salt is wrong.
    #[test]
    fn a_code_is_good_for_its_number_lock_and_salt_only() {
        let own = Number::new(12).unwrap();
        let typed = code("739204");
        let kept = digest(&KEY, &SALT, own, &typed);
        let other_key = LockKey::from_bytes([8; LockKey::LEN]);
        let other_salt = Salt::from_bytes([4; Salt::LEN]);
        for n in 0..100 {
            let number = Number::new(n).unwrap();
            let verdict = judge(&KEY, number, somebodys(&kept), &typed);
            assert_eq!(verdict == Verdict::Right, number == own);
            let verdict = judge(&other_key, number, somebodys(&kept), &typed);
            assert_eq!(verdict, Verdict::Wrong);
            let salted = Kept { salt: &other_salt, ..somebodys(&kept) };
            let verdict = judge(&KEY, number, salted, &typed);
            assert_eq!(verdict, Verdict::Wrong);
        }
    }
}
