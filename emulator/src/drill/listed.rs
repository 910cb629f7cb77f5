//! Which records are durable: what a list would show after a power cut at this
//! moment, not what the lock asked to have written.

use lock_core::audit::Record;

use crate::memory::{Entry, Lasting};
use crate::world::{Fitted, World};

/// The records that were listed when somebody last asked.
#[derive(Default)]
pub(crate) struct Listed(Vec<(u32, Record)>);

impl Listed {
    /// The kinds of those that came since, in order; and what is listed now. A number that
    /// a torn record had is a gap of the list, and no record.
    pub(crate) fn since<M: Lasting, B: Fitted>(
        &self,
        world: &mut World<M, B>,
    ) -> (Vec<&'static str>, Self) {
        let now = Self::now(world);
        let new = now.0.iter().filter(|listed| !self.0.contains(listed));
        (new.map(|(_, record)| record.event.kind()).collect(), now)
    }

    /// Those that are on record now.
    pub(crate) fn now<M: Lasting, B: Fitted>(world: &mut World<M, B>) -> Self {
        let list = world.flash().map(|flash| M::look(flash).list).unwrap_or_default();
        let records = list.into_iter().filter_map(|entry| match entry {
            Entry::Record(number, record) => Some((number, record)),
            Entry::Gap { .. } => None,
        });
        Self(records.collect())
    }
}
