//! What a lock is told, and when.
//!
//! ```text
//! bytes   0       kind
//!         1..9    true time, ms since 1970-01-01 UTC
//!         9..     by kind
//!
//! 1 power on      clock: 0 lost, 1 running; seconds ahead, 8, signed
//!                 wires: bit 0 bolt drawn, 1 door open, 2 inhibit set, 3 switch on
//!                 supply in mV, 2; seed, 32
//!                 cut: 0 none, 1 within a step; after how many, 8; class; seed, 8
//! 2 rest          nothing: time passes until then
//! 3 key           0 to 9, 10 back, 11 OK
//! 4 wire          which: 0 bolt, 1 door, 2 inhibit, 3 switch; its level
//! 5 supply        mV under load, 2
//! 6 clock         0 lost, 1 jumps; by how many seconds, 8, signed
//! 7 link          length, 2; the payload of a frame
//! 8 pulled        nothing: the battery is pulled
//! 9 gone          nothing: the cut that the boot named has come
//! 10 end          nothing: the recording ends
//! ```

use lock_core::keys::{Digit, Key};
use lock_core::link::frame::PAYLOAD;
use lock_core::policy::Millivolts;
use lock_core::seed::Seed;

use crate::clock::Millis;
use crate::fuse::{Class, Cut};

/// Bytes of the longest cue.
pub const CUE: usize = 1 + 8 + 2 + PAYLOAD;

/// Something that happens to a lock. No `Debug`: a key may be part of a code.
#[derive(Clone, Copy)]
pub struct Cue<'a> {
    /// The true time.
    pub at: Millis,
    /// What happens.
    pub what: What<'a>,
}

lock_core::silent!(Cue<'_>);

/// What happens to a lock.
#[derive(Clone, Copy)]
pub enum What<'a> {
    /// Power comes.
    PowerOn(Start),
    /// Time passes until then.
    Rest,
    /// A key is pressed.
    Key(Key),
    /// A wire goes up or down.
    Wire(Wired, bool),
    /// The supply is measured.
    Supply(Millivolts),
    /// The clock chip jumps by so many seconds, or loses what it knew.
    Clock(Option<i64>),
    /// The payload of a frame comes over the link.
    Link(&'a [u8]),
    /// The battery is pulled while the lock is at rest.
    Pulled,
    /// The power has ended within a step, as the boot's cut says.
    Gone,
    /// The recording ends here.
    End,
}

lock_core::silent!(What<'_>);

/// A wire from outside.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Wired {
    /// Up: the bolt is drawn.
    Bolt,
    /// Up: the door is open.
    Door,
    /// Up: the inhibit input is set.
    Inhibit,
    /// Up: the service switch is on.
    Switch,
}

impl Wired {
    /// Each of them; its place is its number.
    pub const ALL: [Self; 4] = [Self::Bolt, Self::Door, Self::Inhibit, Self::Switch];
}

/// How everything stands when power comes.
#[derive(Clone, Copy)]
pub struct Start {
    /// How far the clock chip is ahead, in seconds; `None`: it lost power.
    pub ahead: Option<i64>,
    /// The level of each wire, in the order of [`Wired::ALL`].
    pub wires: [bool; 4],
    /// What the battery gives under load.
    pub supply: Millivolts,
    /// What the board's generator gives.
    pub seed: [u8; Seed::LEN],
    /// Where the power ends within a step of this life, if it does.
    pub cut: Option<Cut>,
}

/// Bytes that are no cue.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Malformed;

/// Bytes of a [`Start`], and where its cut lies in a whole cue.
const START: usize = 9 + 1 + 2 + Seed::LEN + CUT;
const CUT: usize = 1 + 8 + 1 + 8;

impl Cue<'_> {
    /// Where the bytes of a cut lie in those of a [`What::PowerOn`]: whoever
    /// records knows it only once the power has gone.
    pub const CUT: core::ops::Range<usize> = 9 + START - CUT..9 + START;

    /// The bytes of a cut.
    #[must_use]
    pub fn cut(cut: Option<Cut>) -> [u8; CUT] {
        let mut room = [0; CUT];
        if let Some(cut) = cut {
            let mut out = Out { room: &mut room, length: 0 };
            out.put(&[1]);
            out.put(&cut.after.to_le_bytes());
            out.put(&[Class::ALL
                .iter()
                .zip(0..)
                .find(|(c, _)| **c == cut.class)
                .map_or(0, |p| p.1)]);
            out.put(&cut.seed.to_le_bytes());
        }
        room
    }

    /// The cue as bytes, in `room`. A payload is cut to [`PAYLOAD`] bytes.
    pub fn encode<'r>(&self, room: &'r mut [u8; CUE]) -> &'r [u8] {
        let mut out = Out { room, length: 0 };
        out.put(&[self.what.kind()]);
        out.put(&self.at.to_le_bytes());
        match &self.what {
            What::PowerOn(start) => {
                out.maybe(start.ahead);
                let wires = start.wires.iter().zip(0_u8..);
                out.put(&[wires.fold(0, |bits, (up, place)| bits | u8::from(*up) << place)]);
                out.put(&start.supply.get().to_le_bytes());
                out.put(&start.seed);
                out.put(&Self::cut(start.cut));
            }
            What::Key(key) => out.put(&[match key {
                Key::Digit(digit) => digit.get(),
                Key::Back => 10,
                Key::Ok => 11,
            }]),
            What::Wire(which, up) => {
                let place = Wired::ALL.iter().zip(0..).find(|(w, _)| *w == which);
                out.put(&[place.map_or(0, |(_, place)| place), (*up).into()]);
            }
            What::Supply(measured) => out.put(&measured.get().to_le_bytes()),
            What::Clock(by) => out.maybe(*by),
            What::Link(payload) => {
                let payload = payload.get(..PAYLOAD).unwrap_or(payload);
                out.put(&u16::try_from(payload.len()).unwrap_or(u16::MAX).to_le_bytes());
                out.put(payload);
            }
            What::Rest | What::Pulled | What::Gone | What::End => {}
        }
        let Out { room, length } = out;
        room.get(..length).unwrap_or_default()
    }

    /// Reads the next cue: `take` fills what it is given with the next bytes, and
    /// says whether there were that many. `room` holds a payload.
    ///
    /// # Errors
    /// [`Malformed`].
    pub fn read<'r>(
        take: &mut dyn FnMut(&mut [u8]) -> bool,
        room: &'r mut [u8; PAYLOAD],
    ) -> Result<Cue<'r>, Malformed> {
        let mut input = In(take);
        let [kind] = input.bytes()?;
        let at = Millis::from_le_bytes(input.bytes()?);
        let what = match kind {
            1 => What::PowerOn(input.start()?),
            2 => What::Rest,
            3 => What::Key(match input.bytes()? {
                [10] => Key::Back,
                [11] => Key::Ok,
                [digit] => Key::Digit(Digit::new(digit).ok_or(Malformed)?),
            }),
            4 => {
                let [which, up] = input.bytes()?;
                let which = Wired::ALL.get(usize::from(which)).ok_or(Malformed)?;
                What::Wire(*which, up == 1)
            }
            5 => What::Supply(Millivolts::new(u16::from_le_bytes(input.bytes()?))),
            6 => What::Clock(input.maybe()?),
            7 => {
                let length = usize::from(u16::from_le_bytes(input.bytes()?));
                let payload = room.get_mut(..length).ok_or(Malformed)?;
                input.fill(payload)?;
                What::Link(payload)
            }
            8 => What::Pulled,
            9 => What::Gone,
            10 => What::End,
            _ => return Err(Malformed),
        };
        Ok(Cue { at, what })
    }
}

impl What<'_> {
    const fn kind(&self) -> u8 {
        match self {
            Self::PowerOn(_) => 1,
            Self::Rest => 2,
            Self::Key(_) => 3,
            Self::Wire(..) => 4,
            Self::Supply(_) => 5,
            Self::Clock(_) => 6,
            Self::Link(_) => 7,
            Self::Pulled => 8,
            Self::Gone => 9,
            Self::End => 10,
        }
    }
}

/// Bytes on their way out, never more than there is room for.
pub(super) struct Out<'r> {
    pub(super) room: &'r mut [u8],
    pub(super) length: usize,
}

impl Out<'_> {
    pub(super) fn put(&mut self, bytes: &[u8]) {
        for (to, from) in self.room.iter_mut().skip(self.length).zip(bytes) {
            *to = *from;
        }
        self.length = self.length.saturating_add(bytes.len()).min(self.room.len());
    }

    fn maybe(&mut self, value: Option<i64>) {
        self.put(&[value.is_some().into()]);
        self.put(&value.unwrap_or_default().to_le_bytes());
    }
}

struct In<'t>(&'t mut dyn FnMut(&mut [u8]) -> bool);

impl In<'_> {
    fn fill(&mut self, to: &mut [u8]) -> Result<(), Malformed> {
        if (self.0)(to) { Ok(()) } else { Err(Malformed) }
    }

    fn bytes<const N: usize>(&mut self) -> Result<[u8; N], Malformed> {
        let mut bytes = [0; N];
        self.fill(&mut bytes)?;
        Ok(bytes)
    }

    fn maybe(&mut self) -> Result<Option<i64>, Malformed> {
        let [there] = self.bytes()?;
        let value = i64::from_le_bytes(self.bytes()?);
        Ok((there == 1).then_some(value))
    }

    fn start(&mut self) -> Result<Start, Malformed> {
        let ahead = self.maybe()?;
        let [bits] = self.bytes()?;
        let supply = Millivolts::new(u16::from_le_bytes(self.bytes()?));
        let seed = self.bytes()?;
        let [cut] = self.bytes()?;
        let after = u64::from_le_bytes(self.bytes()?);
        let [class] = self.bytes()?;
        let class = *Class::ALL.get(usize::from(class)).ok_or(Malformed)?;
        let cut_seed = u64::from_le_bytes(self.bytes()?);
        Ok(Start {
            ahead,
            wires: [1, 2, 4, 8].map(|bit| bits & bit != 0),
            supply,
            seed,
            cut: (cut == 1).then_some(Cut { after, class, seed: cut_seed }),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(mut bytes: &[u8], room: &mut [u8; PAYLOAD]) -> Result<std::vec::Vec<u8>, Malformed> {
        let mut take = |to: &mut [u8]| match bytes.split_at_checked(to.len()) {
            Some((first, rest)) => {
                to.copy_from_slice(first);
                bytes = rest;
                true
            }
            None => false,
        };
        let cue = Cue::read(&mut take, room)?;
        Ok(cue.encode(&mut [0; CUE]).to_vec())
    }

    fn start(cut: Option<Cut>) -> Start {
        let (wires, supply) = ([true, false, true, true], Millivolts::new(6_300));
        Start { ahead: Some(-3_600), wires, supply, seed: [9; Seed::LEN], cut }
    }

    /// Every cue is read as it was written, and no cue is read from fewer bytes.
    #[test]
    fn cues_are_read_as_they_were_written() {
        let payload = [7; PAYLOAD];
        let cut = |class| Some(Cut { after: 1 << 40, class, seed: u64::MAX });
        let mut whats = std::vec![
            What::PowerOn(start(None)),
            What::PowerOn(Start { ahead: None, ..start(None) }),
            What::Rest,
            What::Key(Key::Back),
            What::Key(Key::Ok),
            What::Supply(Millivolts::new(u16::MAX)),
            What::Clock(None),
            What::Clock(Some(i64::MIN)),
            What::Link(&[]),
            What::Link(&payload),
            What::Pulled,
            What::Gone,
            What::End,
        ];
        whats.extend(Class::ALL.map(|class| What::PowerOn(start(cut(class)))));
        whats.extend((0..10).filter_map(Digit::new).map(|d| What::Key(Key::Digit(d))));
        whats.extend(Wired::ALL.map(|wired| What::Wire(wired, true)));
        let mut seen = std::collections::BTreeSet::new();
        for what in whats {
            let mut room = [0; CUE];
            let bytes = Cue { at: 1 << 41, what }.encode(&mut room);
            let mut room = [0; PAYLOAD];
            assert_eq!(read(bytes, &mut room).as_deref(), Ok(bytes));
            for length in 0..bytes.len() {
                assert_eq!(read(&bytes[..length], &mut room), Err(Malformed));
            }
            assert!(seen.insert(bytes.to_vec()), "two cues have the same bytes");
        }
    }

    /// A cut that is known only later stands where it would have stood.
    #[test]
    fn a_cut_can_be_put_in_later() {
        let cut = Some(Cut { after: 12, class: Class::Subset, seed: 5 });
        let (mut early, mut late) = ([0; CUE], [0; CUE]);
        let bytes = |cut, room| {
            let what = What::PowerOn(start(cut));
            Cue { at: 1, what }.encode(room).to_vec()
        };
        let expected = bytes(cut, &mut early);
        let mut seen = bytes(None, &mut late);
        seen[Cue::CUT].copy_from_slice(&Cue::cut(cut));
        assert_eq!(seen, expected);
        assert_eq!(Cue::CUT.end, expected.len());
    }
}
