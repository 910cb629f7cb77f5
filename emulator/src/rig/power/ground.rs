//! The ground on which a case begins: a commissioned lock before its first
//! boot, and what it promises.

use emulated_board::flash::{Limits, PerWord};
use lock_core::holder::{HolderRow, Number, Standing};
use lock_core::settings::{Edit, Settings};
use lock_core::store::FormatError;
use lock_core::time::Utc;

use super::judge::{Judge, PerRing, Terms};
use crate::memory::{Cells, Flash, Lasting, Memory, Print, Room, commission};
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

/// Erases and effects that it has at most then.
const BOOT_MORE: u64 = 16;

/// A commissioned lock before its first boot. No `Debug`: it has rows of
/// holders in it.
#[derive(Clone)]
pub struct Ground<const W: usize, const P: usize> {
    cells: Cells<W, P>,
    terms: Terms,
    look_after: u32,
    /// The row of holder 14, whose standing is changed, and of a newcomer, 60,
    /// who comes and goes.
    rows: Option<(HolderRow, HolderRow)>,
    /// The settings of each variant.
    prints: [Print; 4],
}

/// A change of the settings.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Change {
    /// Holder 14 is suspended or restored.
    Standing,
    /// Holder 60 is enrolled or removed.
    Newcomer,
}

/// Which of the changes are in force.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Variant {
    standing: bool,
    newcomer: bool,
}

impl Variant {
    const ALL: [Self; 4] = [
        Self { standing: false, newcomer: false },
        Self { standing: true, newcomer: false },
        Self { standing: false, newcomer: true },
        Self { standing: true, newcomer: true },
    ];

    /// The variant after one more change.
    #[must_use]
    pub const fn after(self, change: Change) -> Self {
        match change {
            Change::Standing => Self { standing: !self.standing, ..self },
            Change::Newcomer => Self { newcomer: !self.newcomer, ..self },
        }
    }

    /// The rows of 14 and 60 in it.
    fn rows(self, (fourteen, sixty): &(HolderRow, HolderRow)) -> (HolderRow, Option<HolderRow>) {
        let standing = match (fourteen.standing, self.standing) {
            (standing, false) => standing,
            (Standing::Active, true) => Standing::Suspended,
            (Standing::Suspended, true) => Standing::Active,
        };
        let fourteen = HolderRow { standing, ..fourteen.clone() };
        (fourteen, self.newcomer.then(|| sixty.clone()))
    }
}

const FOURTEEN: usize = 14;
const SIXTY: usize = 60;

impl<const W: usize, const P: usize> Ground<W, P> {
    /// A lock that was commissioned with `settings`.
    ///
    /// # Errors
    /// [`FormatError`] if they cannot be stored.
    pub fn new(mut settings: Settings, room: Room) -> Result<Self, FormatError> {
        let layout = room.layout(P).ok_or(FormatError::Layout)?;
        let rows = settings.holders[FOURTEEN].clone().map(|row| (row.clone(), row));
        let mut prints = [Print(0); 4];
        // The first is as it came, and is made last.
        let mut flash = None;
        for (print, variant) in prints.iter_mut().zip(Variant::ALL).rev() {
            if let Some(rows) = &rows {
                let (fourteen, sixty) = variant.rows(rows);
                settings.holders[FOURTEEN] = Some(fourteen);
                settings.holders[SIXTY] = sixty;
            }
            let made = commission::<W, P>(&settings, room, Mains::new())?;
            let look = <Memory<W, P> as Lasting>::look(&made);
            *print = look.settings.map_err(|_| FormatError::Flash)?;
            flash = Some(made);
        }
        let flash = flash.ok_or(FormatError::Flash)?;
        let kept = PerRing {
            openings: u64::from(layout.openings_kept(P)),
            refusals: u64::from(layout.refusals_kept(P)),
        };
        // What a ring overwrites must have been seen before.
        let look_after = kept.openings.min(kept.refusals) / 2;
        let mount_steps = u64::from(layout.boot_steps(W));
        let terms = Terms {
            policy: settings.policy,
            settings: prints[0],
            kept,
            slots_a_cut: SLOTS_A_CUT,
            // One behind the newest record makes the rest of its page be passed
            // over, since a torn write might lie there.
            slots_a_flip: 1,
            mount_steps,
            boot_steps: mount_steps + BOOT_SLOTS * (32 / W.min(32) as u64) + BOOT_MORE,
        };
        let look_after = u32::try_from(look_after).unwrap_or(u32::MAX);
        // Whatever takes more programs takes one.
        let limits = Limits { programs: PerWord::Once, endurance: None };
        let cells = flash.into_chip().with_limits(limits);
        Ok(Self { cells, terms, look_after, rows, prints })
    }

    /// The edit that makes `change`, so that `variant` is in force then, and
    /// the settings after it; `None` if nobody is enrolled who could be changed.
    #[must_use]
    pub fn edit(&self, variant: Variant, change: Change) -> Option<(Edit, Print)> {
        let (fourteen, sixty) = variant.rows(self.rows.as_ref()?);
        let (number, row) = match change {
            Change::Standing => (14, Some(fourteen)),
            Change::Newcomer => (60, sixty),
        };
        let place = Variant::ALL.iter().position(|other| *other == variant)?;
        Some((Edit::Holder(Number::new(number)?, row), *self.prints.get(place)?))
    }

    /// The variant that has those settings.
    #[must_use]
    pub fn variant(&self, settings: Print) -> Option<Variant> {
        let place = self.prints.iter().position(|print| *print == settings)?;
        Variant::ALL.get(place).copied()
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
