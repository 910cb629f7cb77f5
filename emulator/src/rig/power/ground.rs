//! The ground on which a case begins: a commissioned lock before its first
//! boot, and what it promises.

use emulated_board::flash::{Limits, PerWord};
use lock_core::settings::Settings;
use lock_core::store::FormatError;
use lock_core::time::Utc;

use super::judge::{Judge, PerRing, Terms};
use crate::memory::{Cells, Flash, Lasting, Memory, Room, commission};
use crate::world::{Fitted, Keeping, Mains, SimulatedClock, World};

/// Slots of a ring that an end of the power may cost until their page is
/// erased: the torn one, the copy that the boot makes of the newest record,
/// and as many again for a boot that is cut itself.
const SLOTS_A_CUT: u64 = 2;

/// What a boot writes at most, in slots of 32 bytes: the copies of what was
/// newest, a checkpoint of the tally, twice if it finds one unproved, and the
/// records and entries of a lock that is found forced, at its limit, with a
/// lost clock and a spent battery.
const BOOT_SLOTS: u64 = 30;

/// Erases and effects that a boot has at most.
const BOOT_MORE: u64 = 24;

/// A commissioned lock before its first boot.
#[derive(Clone)]
pub struct Ground<const W: usize, const P: usize> {
    cells: Cells<W, P>,
    terms: Terms,
    look_after: u32,
}

impl<const W: usize, const P: usize> Ground<W, P> {
    /// A lock that was commissioned with `settings`.
    ///
    /// # Errors
    /// [`FormatError`] if they cannot be stored.
    pub fn new(settings: &Settings, room: Room) -> Result<Self, FormatError> {
        let layout = room.layout(P).ok_or(FormatError::Layout)?;
        let flash = commission::<W, P>(settings, room, Mains::new())?;
        let look = <Memory<W, P> as Lasting>::look(&flash);
        let kept = PerRing {
            openings: u64::from(layout.openings_kept(P)),
            refusals: u64::from(layout.refusals_kept(P)),
        };
        // What a ring overwrites must have been seen before.
        let look_after = kept.openings.min(kept.refusals) / 2;
        let terms = Terms {
            policy: settings.policy,
            settings: look.settings.map_err(|_| FormatError::Flash)?,
            kept,
            slots_a_cut: SLOTS_A_CUT,
            boot_steps: BOOT_SLOTS * (32 / W.min(32) as u64) + BOOT_MORE,
        };
        let look_after = u32::try_from(look_after).unwrap_or(u32::MAX);
        // Whatever takes more programs takes one.
        let limits = Limits { programs: PerWord::Once, endurance: None };
        Ok(Self { cells: flash.into_chip().with_limits(limits), terms, look_after })
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
