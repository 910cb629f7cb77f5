//! The cable between a lock and a laptop: frames, as they would go over a wire.

use emulated_board::conformance::{Did, What as Cued};
use emulated_board::fuse::Power as _;
use emulated_board::trace::{Told, What};
use lock_core::link::frame::{Decoder, FRAME, PAYLOAD, encode};

use super::{Fitted, Power, Rest, World};
use crate::carry::Wire;
use crate::memory::Lasting;

impl<M: Lasting, B: Fitted> Wire for World<M, B> {
    /// A frame goes to the lock and one comes back, byte by byte.
    fn ask(&mut self, payload: &[u8]) -> Option<Vec<u8>> {
        let mut frame = [0; FRAME];
        let length = encode(payload, &mut frame)?;
        let received = received(frame.get(..length)?)?;
        let mut reply = [0; PAYLOAD];
        let answered = self.serve(&received, &mut reply)?;
        let length = encode(reply.get(..answered)?, &mut frame)?;
        self::received(frame.get(..length)?)
    }
}

/// The payload of a frame that arrives.
fn received(frame: &[u8]) -> Option<Vec<u8>> {
    let mut decoder = Decoder::new();
    let mut payload = None;
    for byte in frame {
        if let Some(Ok(bytes)) = decoder.push(*byte) {
            payload = Some(bytes.to_vec());
        }
    }
    payload
}

impl<M: Lasting, B: Fitted> World<M, B> {
    fn serve(&mut self, payload: &[u8], reply: &mut [u8; PAYLOAD]) -> Option<usize> {
        self.run_until(self.clock.now());
        let scene = self.bench.scene();
        self.record(Cued::Link(payload));
        let Power::On(device) = &mut self.power else { return None };
        let answered = device.serve(payload, reply);
        self.record_deeds();
        self.note_steps(&scene);
        self.note(What::Told(Told::Carried));
        if !self.mains.is_on() {
            self.power_went();
            return None;
        }
        self.record_did(Did::Reply(answered.and_then(|length| reply.get(..length))));
        self.rest = Rest::Stirred;
        self.settle();
        answered
    }
}
