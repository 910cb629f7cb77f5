//! A laptop that loads a timetable file over the link, piece by piece.

use lock_core::link::Version;
use lock_core::link::frame::PAYLOAD;
use lock_core::link::message::{Reason, Reply, Request};
use lock_core::link::timetable_file::{Sealer, TimetableFile};
use lock_core::seal::CHUNK;

use super::{Core, Listener, desk, settings};
use crate::reference::File;

impl<L: Listener> Core<L> {
    /// Loads a file whole; what the laptop is told at last.
    pub(super) fn load(&mut self, file: &File) -> String {
        let pairing = desk::pairing(file.lock, file.generation);
        let content = TimetableFile {
            zone: settings::zone(&file.calendar.zone),
            calendar: settings::calendar(&file.calendar),
        };
        let sealer = Sealer::new(&pairing, Version(file.version), &content);
        let mut sealer = sealer.expect("stories have files that a laptop would seal");
        let mut told = self.ask(&Request::File(*sealer.header()));
        let mut chunk = [0; CHUNK];
        for index in 0.. {
            let Some(length) = sealer.chunk(&mut chunk).filter(|_| told == "taken") else { break };
            told = self.ask(&Request::Load { index, bytes: &chunk[..length] });
        }
        told
    }

    fn ask(&mut self, request: &Request<'_>) -> String {
        self.request = self.request.wrapping_add(1);
        let mut payload = [0; PAYLOAD];
        let length = request.write(self.request, &mut payload).expect("it fits");
        let answer = self.device().serve(&payload[..length]).map(<[u8]>::to_vec);
        let answer = answer.expect("a request is answered");
        let told = match Reply::read(&answer).map(|(_, reply)| reply) {
            Ok(Reply::Taken) => "taken".to_owned(),
            Ok(Reply::File { version, .. }) => format!("file {}", version.0),
            Ok(Reply::Refused(reason)) => format!("refused {}", refusal(reason)),
            Ok(Reply::Hello(_) | Reply::Extract(_) | Reply::Chunk { .. }) | Err(_) => {
                "another answer".to_owned()
            }
        };
        self.settle();
        told
    }
}

fn refusal(reason: Reason) -> &'static str {
    match reason {
        Reason::NotAsked => "not-asked",
        Reason::NoKey => "no-key",
        Reason::OtherLock => "other-lock",
        Reason::OtherKey => "other-key",
        Reason::Older => "not-newer",
        Reason::Unknown => "unknown",
        Reason::OutOfTurn => "out-of-turn",
        Reason::NotOurs => "not-ours",
        Reason::Broken => "broken",
        Reason::Wrong => "wrong",
        Reason::Memory => "memory",
    }
}
