//! The ground on which a case begins: a commissioned lock before its first
//! boot, and what it promises.

use emulated_board::flash::{Limits, PerWord};
use lock_core::code::Salt;
use lock_core::holder::{HolderRow, Number, Standing};
use lock_core::port::Reads;
use lock_core::settings::{Edit, Settings};
use lock_core::store::FormatError;
use lock_core::time::Utc;

use super::judge::{Judge, PerRing, Terms};
use crate::drill::Drill;
use crate::memory::{Cells, Flash, Lasting, Memory, Room, commission};
use crate::world::{Fitted, Keeping, Mains, SimulatedClock, World};

/// Slots of a ring that an end of the power may cost until their page is
/// erased: the torn one, the copy that the boot makes of the newest record,
/// and as many again for a boot that is cut itself.
const SLOTS_A_CUT: u64 = 2;

/// What a lock writes at most once it has found what is there, in slots of 32
/// bytes: the records and entries of one that is found forced, at its limit,
/// with a lost clock and a spent battery, and a checkpoint of the tally among
/// them.
const BOOT_SLOTS: u64 = 16;

/// Slots of a settings bank (docs/flash-layout.md): a change copies them all.
const BANK_SLOTS: u64 = 213;

/// Erases and effects that it has at most then.
const BOOT_MORE: u64 = 16;

/// A commissioned lock before its first boot. No `Debug`: it has rows of
/// holders in it.
#[derive(Clone)]
pub struct Ground<const W: usize, const P: usize> {
    cells: Cells<W, P>,
    terms: Terms,
    look_after: u32,
    /// The row of holder 14, whose standing is changed; a newcomer's, 60, who
    /// comes and goes, is made of it.
    row: Option<HolderRow>,
    /// The salts of the rows as commissioned: who has another has another code.
    salts: [Option<Salt>; Number::COUNT],
}

lock_core::silent!(Ground<8, 2_048>);

/// A change of the settings.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Change {
    /// Holder 14 is suspended or restored.
    Standing,
    /// Holder 60 is enrolled or removed.
    Newcomer,
}

const FOURTEEN: u8 = 14;
const SIXTY: u8 = 60;

impl<const W: usize, const P: usize> Ground<W, P> {
    /// A lock that was commissioned with `settings`.
    ///
    /// # Errors
    /// [`FormatError`] if they cannot be stored.
    pub fn new(settings: &Settings, room: Room) -> Result<Self, FormatError> {
        Self::on(commission::<W, P>(settings, room, Mains::new())?, settings, room)
    }

    /// The lock of a drill.
    ///
    /// # Errors
    /// [`FormatError`] if its settings cannot be stored.
    pub fn of_drill(drill: &Drill, room: Room) -> Result<Self, FormatError> {
        Self::on(drill.flash(room)?, &drill.settings()?, room)
    }

    fn on(flash: Flash<W, P>, settings: &Settings, room: Room) -> Result<Self, FormatError> {
        let layout = room.layout(P).ok_or(FormatError::Layout)?;
        let row = settings.holders[usize::from(FOURTEEN)].clone();
        let salts = std::array::from_fn(|n| settings.holders[n].as_ref().map(|row| row.salt));
        let look = <Memory<W, P> as Lasting>::look(&flash);
        let settings = look.settings.map_err(|_| FormatError::Flash)?;
        let kept = PerRing {
            openings: u64::from(layout.openings_kept(P)),
            refusals: u64::from(layout.refusals_kept(P)),
        };
        // What a ring overwrites must have been seen before.
        let look_after = kept.openings.min(kept.refusals) / 2;
        let mount_steps = u64::from(layout.boot_steps(W));
        // Of a slot.
        let words = 32 / W.min(32) as u64;
        let terms = Terms {
            settings,
            kept,
            slots_a_cut: SLOTS_A_CUT,
            // One behind the newest record makes the rest of its page be passed
            // over, since a torn write might lie there.
            slots_a_flip: 1,
            mount_steps,
            boot_steps: mount_steps + BOOT_SLOTS * words + BOOT_MORE,
            edit_steps: BANK_SLOTS * words + u64::from(layout.bank_pages) * 2 + BOOT_MORE,
        };
        let look_after = u32::try_from(look_after).unwrap_or(u32::MAX);
        // Whatever takes more programs takes one.
        let limits = Limits { programs: PerWord::Once, endurance: None };
        let cells = flash.into_chip().with_limits(limits);
        Ok(Self { cells, terms, look_after, row, salts })
    }

    /// The edit that makes `change`, of the rows that are enrolled now; `None` if
    /// nobody is enrolled who could be changed.
    #[must_use]
    pub fn edit(&self, change: Change, reads: &mut impl Reads) -> Option<Edit> {
        let number = Number::new(match change {
            Change::Standing => FOURTEEN,
            Change::Newcomer => SIXTY,
        })?;
        let now = reads.holder(number).ok()?;
        let row = match (change, now) {
            (Change::Standing, Some(row)) => {
                let standing = match row.standing {
                    Standing::Active => Standing::Suspended,
                    Standing::Suspended => Standing::Active,
                };
                Some(HolderRow { standing, ..row })
            }
            (Change::Newcomer, Some(_)) => None,
            (Change::Standing | Change::Newcomer, None) => Some(self.row.clone()?),
        };
        Some(Edit::Holder(number, row))
    }

    /// Whether that row has the code that its holder was commissioned with.
    #[must_use]
    pub fn has_first_code(&self, number: Number, row: &HolderRow) -> bool {
        self.salts.get(number.index()).is_some_and(|salt| *salt == Some(row.salt))
    }

    /// The cells.
    #[must_use]
    pub const fn cells(&self) -> &Cells<W, P> {
        &self.cells
    }

    /// Who judges it.
    #[must_use]
    pub fn judge(&self) -> Judge {
        Judge::new(self.terms)
    }

    /// After how many writes somebody must look.
    #[must_use]
    pub const fn look_after(&self) -> u32 {
        self.look_after
    }

    /// The world round it, without power.
    #[must_use]
    pub fn world<M, B>(&self, start: Utc, keeping: Keeping) -> World<M, B>
    where
        M: Lasting<Flash = Flash<W, P>>,
        B: Fitted,
    {
        let flash = Flash::new(self.cells.clone(), Mains::new());
        let mut world = World::around(flash, SimulatedClock::starting(start));
        world.keep(keeping, self.look_after);
        world
    }
}
