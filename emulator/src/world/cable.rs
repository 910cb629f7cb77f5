//! The cable between a lock and a laptop: frames, as they would go over a wire.

use emulated_board::conformance::{Did, What as Cued};
use emulated_board::fuse::Power as _;
use emulated_board::trace::{Told, What};
use lock_core::link::frame::{Decoder, encode};

use super::{Fitted, Power, Rest, World};
use crate::carry::Wire;
use crate::memory::Lasting;

impl<M: Lasting, B: Fitted> Wire for World<M, B> {
    /// A frame goes to the lock and one comes back, byte by byte.
    fn ask(&mut self, payload: &[u8]) -> Option<Vec<u8>> {
        let received = over_the_wire(payload)?;
        let reply = self.serve(&received)?;
        over_the_wire(&reply)
    }
}

/// The payload, as its frame brings it.
fn over_the_wire(payload: &[u8]) -> Option<Vec<u8>> {
    let mut decoder = Decoder::new();
    encode(payload)?.find_map(|byte| decoder.push(byte)?.ok().map(<[u8]>::to_vec))
}

impl<M: Lasting, B: Fitted> World<M, B> {
    fn serve(&mut self, payload: &[u8]) -> Option<Vec<u8>> {
        self.run_until(self.clock.now());
        let scene = self.around.scene();
        self.record(Cued::Link(payload));
        self.turns.begin();
        if self.restless.is_some() {
            return None;
        }
        let Power::On(device, _) = &mut self.power else { return None };
        let answered = device.serve(payload).map(<[u8]>::to_vec);
        self.record_deeds();
        self.note_steps(&scene);
        self.note(What::Told(Told::Carried));
        if !self.mains.is_on() {
            self.power_went();
            return None;
        }
        self.record_did(Did::Reply(answered.as_deref()));
        self.rest = Rest::Stirred;
        self.settle();
        answered
    }
}
