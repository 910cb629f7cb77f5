//! Random stories as cases: each on one of the locks of the demo site, on flash
//! of one of several geometries.

use std::panic::{AssertUnwindSafe, catch_unwind};

use lock_core::store::FormatError;
use lock_core::time::Utc;

use super::generator;
use super::ground::Ground;
use super::judge::Violation;
use super::story::{Event, Teller};
use crate::memory::{Flash, Lasting, Memory, Room};
use crate::rig::{Cases, Covered, Dice, Failure, shrink};
use crate::site::Site;
use crate::world::{Bench, Fitted};

/// When stories start: before, in and at the end of a window, on a closed day,
/// and before a clock change (2027, Dublin).
const STARTS: [u32; 6] =
    [1_803_880_800, 1_803_890_700, 1_803_904_170, 1_805_277_600, 1_806_196_800, 1_803_916_200];

/// The key of the locks of stories. Of no use anywhere else.
const STORY_KEY: [u8; 32] = *b"locks of stories, of no real use";

/// The locks of the demo site on flash of one geometry.
pub(super) type Locks<const W: usize, const P: usize> = Vec<Ground<W, P>>;

/// Random stories without end.
pub struct Stories {
    seed: u64,
    site: Site,
    words_of_4: Locks<4, 256>,
    words_of_8: Locks<8, 256>,
    words_of_16: Locks<16, 512>,
    words_of_32: Locks<32, 1_024>,
    /// As a lock has it.
    full: Locks<8, 2_048>,
}

impl Stories {
    /// The stories of `seed`, at locks of `site`.
    ///
    /// # Errors
    /// [`FormatError`] if the settings of a lock cannot be stored.
    pub fn of(seed: u64, site: Site) -> Result<Self, FormatError> {
        Ok(Self {
            seed,
            words_of_4: locks(&site, Room::Least)?,
            words_of_8: locks(&site, Room::Least)?,
            words_of_16: locks(&site, Room::Least)?,
            words_of_32: locks(&site, Room::Least)?,
            full: locks(&site, Room::Full)?,
            site,
        })
    }

    fn case<const W: usize, const P: usize>(
        &self,
        locks: &Locks<W, P>,
        mut dice: Dice,
        covered: &mut Covered,
    ) -> Result<(), Failure> {
        let Some((ground, start, events)) = tale(locks, &mut dice) else { return Ok(()) };
        covered.add("events", u64::try_from(events.len()).unwrap_or(u64::MAX));
        let tell = |events: &[Event], covered: &mut Covered| {
            tell::<Memory<W, P>, Bench, W, P>(ground, &self.site, start, events, covered)
        };
        let Err(first) = tell(&events, covered) else { return Ok(()) };
        let mut unused = Covered::default();
        let short = shrink(&events, |events| tell(events, &mut unused).is_err());
        let (what, last) = tell(&short, &mut unused).err().unwrap_or(first);
        let events = short.iter().map(ToString::to_string).chain(last).collect();
        Err(Failure { what, repeat: String::new(), events })
    }
}

/// A random story: of which lock, when, and what happens.
pub(super) fn tale<'l, const W: usize, const P: usize>(
    locks: &'l Locks<W, P>,
    dice: &mut Dice,
) -> Option<(&'l Ground<W, P>, Utc, Vec<Event>)> {
    let start = dice.pick(&STARTS).copied().map(Utc::from_secs)?;
    let ground = dice.pick(locks)?;
    Some((ground, start, generator::story(dice)))
}

/// The locks of the demo site.
pub(super) fn locks<const W: usize, const P: usize>(
    site: &Site,
    room: Room,
) -> Result<Locks<W, P>, FormatError> {
    site.locks.iter().map(|lock| Ground::new(&site.settings(lock, STORY_KEY), room)).collect()
}

/// Tells a story to a lock; what it violated, and what happened last.
///
/// # Errors
/// The violation in a sentence, and the last happenings. A panic is one too.
pub fn tell<M, B, const W: usize, const P: usize>(
    ground: &Ground<W, P>,
    site: &Site,
    start: Utc,
    events: &[Event],
    covered: &mut Covered,
) -> Result<(), (String, Vec<String>)>
where
    M: Lasting<Flash = Flash<W, P>>,
    B: Fitted,
{
    let told = catch_unwind(AssertUnwindSafe(|| {
        let first = |violation: Violation| (violation.to_string(), Vec::new());
        let mut teller = Teller::<M, B, W, P>::on(ground, site, start).map_err(first)?;
        teller
            .tell(events, covered)
            .map_err(|violation| (violation.to_string(), teller.last_words()))
    }));
    told.unwrap_or_else(|panic| {
        let words = panic.downcast_ref::<String>().map(String::as_str);
        let words = words.or_else(|| panic.downcast_ref::<&str>().copied());
        Err((format!("it panicked: {}", words.unwrap_or("without words")), Vec::new()))
    })
}

impl Cases for Stories {
    fn count(&self) -> Option<u64> {
        None
    }

    fn run(&self, case: u64, covered: &mut Covered) -> Result<(), Failure> {
        let mut dice = Dice::of(self.seed, case);
        match dice.below(17) {
            0..4 => self.case(&self.words_of_4, dice, covered),
            4..8 => self.case(&self.words_of_8, dice, covered),
            8..12 => self.case(&self.words_of_16, dice, covered),
            12..16 => self.case(&self.words_of_32, dice, covered),
            _ => self.case(&self.full, dice, covered),
        }
    }
}
