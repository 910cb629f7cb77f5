//! Files come and go: what the lock answers over a link.
//!
//! Only while a steward's session for files is open at the keypad; otherwise
//! every request is refused. Pieces of a timetable file are staged in the store
//! and change nothing; the machine is told once the whole was opened and checked,
//! and acts at *OK*. An extract reads records and writes nothing; what a reader
//! confirmed to have is marked by the machine, on record.
//!
//! *Numbers of extracts.* Each names its newest record and how many were begun in
//! its session. A session begins with a record of its own, so no two extracts of
//! one key have the same number, whatever cuts of the power come between.

use super::Device;
use crate::audit::{Entry, Seq};
use crate::board::Board;
use crate::holder::{HolderRow, Number};
use crate::link::extract::{ExtractHeader, ExtractWriter, Scope};
use crate::link::frame::PAYLOAD;
use crate::link::message::{Hello, PROTOCOL, Reason, Reply, Request};
use crate::link::{Fingerprint, Version};
use crate::pairing::Pairing;
use crate::port::{Input, Offer, Reads, Store, Transfer};
use crate::rules::{Days, Unreadable, widening};
use crate::seal::CHUNK;
use crate::time::Date;
use crate::timetable::{Day, TimetableId, Timetables};

/// Extracts that one session can begin.
const EXTRACTS: u8 = 16;

/// What a session for files is in the middle of.
pub(super) struct Carrying {
    /// The number of the request that was answered last.
    last: Option<u16>,
    /// What was replied last, and how much of it.
    reply: [u8; PAYLOAD],
    length: usize,
    extract: Option<ExtractWriter>,
    /// Extracts begun in this session.
    begun: u8,
}

impl Carrying {
    pub(super) const fn nothing() -> Self {
        Self { last: None, reply: [0; PAYLOAD], length: 0, extract: None, begun: 0 }
    }

    /// The session is over.
    pub(super) fn forget(&mut self) {
        self.last = None;
        self.length = 0;
        self.extract = None;
        self.begun = 0;
    }
}

/// What is answered, before it is bytes.
enum Answer {
    Hello(Hello),
    Taken,
    File(Version, Fingerprint),
    Extract,
    Chunk(u16),
    Refused(Reason),
}

impl<B: Board, S: Store> Device<B, S> {
    /// Answers a payload that came over a link; `None` if it is no request.
    ///
    /// A request under the number of the one before gets the same answer again,
    /// and nothing is done twice.
    #[inline(never)] // own frame
    pub fn serve(&mut self, payload: &[u8]) -> Option<&[u8]> {
        let (number, request) = Request::read(payload).ok()?;
        if self.machine.serves().is_none() {
            self.carrying.forget();
            self.write(&Answer::Refused(Reason::NotAsked), number)?;
        } else if self.carrying.last != Some(number) {
            let answer = self.answer(request);
            self.write(&answer, number)?;
            self.carrying.last = Some(number);
        }
        self.carrying.reply.get(..self.carrying.length)
    }

    /// Writes the reply where it stays until the next one.
    fn write(&mut self, answer: &Answer, number: u16) -> Option<()> {
        let reply = &mut self.carrying.reply;
        self.carrying.length = match answer {
            Answer::Hello(hello) => Reply::Hello(*hello).write(number, reply),
            Answer::Taken => Reply::Taken.write(number, reply),
            Answer::File(version, fingerprint) => {
                Reply::File { version: *version, fingerprint: *fingerprint }.write(number, reply)
            }
            Answer::Extract => {
                let header = *self.carrying.extract.as_ref()?.header();
                Reply::Extract(header).write(number, reply)
            }
            Answer::Chunk(index) => {
                let bytes = self.carrying.extract.as_ref()?.last();
                Reply::Chunk { index: *index, bytes }.write(number, reply)
            }
            Answer::Refused(reason) => Reply::Refused(*reason).write(number, reply),
        }?;
        Some(())
    }

    fn answer(&mut self, request: Request<'_>) -> Answer {
        // A write or effect that is outstanding comes first.
        if self.is_busy() {
            return Answer::Refused(Reason::OutOfTurn);
        }
        let answered = match request {
            Request::Hello => self.hello().map(Answer::Hello),
            Request::File(header) => self.stage(0, &header),
            Request::Load { index, bytes } => match index.checked_add(1) {
                Some(piece) => self.stage(piece, bytes),
                None => Err(Reason::OutOfTurn),
            },
            Request::Collect { scope, since_last } => self.collect(scope, since_last),
            Request::Next { chunk } => self.chunk(chunk),
            Request::Collected { up_to } => {
                self.give(Input::Transfer(Transfer::Collected(up_to)));
                Ok(Answer::Taken)
            }
            Request::Bye => {
                self.carrying.extract = None;
                Ok(Answer::Taken)
            }
        };
        answered.unwrap_or_else(Answer::Refused)
    }

    fn hello(&mut self) -> Result<Hello, Reason> {
        let pairing = self.store.pairing().map_err(|Unreadable| Reason::Memory)?;
        let file = self.store.file_state().map_err(|Unreadable| Reason::Memory)?;
        let collected = self.machine.collected();
        Ok(Hello {
            protocol: PROTOCOL,
            pairing: pairing.map(|pairing| (pairing.lock(), pairing.generation())),
            file: (file.version > 0).then_some(Version(file.version)),
            newest: self.store.newest_seq(),
            collected: (collected.0 > 0).then_some(collected),
        })
    }

    /// A piece of a timetable file; behind the last one the machine is told.
    fn stage(&mut self, piece: u8, bytes: &[u8]) -> Result<Answer, Reason> {
        self.store.stage(piece, bytes).map_err(|_| Reason::Memory)?;
        if piece == 0 || bytes.len() >= CHUNK {
            return Ok(Answer::Taken);
        }
        let (offer, fingerprint) = self.offer()?;
        self.give(Input::Transfer(Transfer::Offered(offer)));
        Ok(Answer::File(Version(offer.version), fingerprint))
    }

    /// What the machine is told of a staged file that is whole, if it is fit.
    #[inline(never)] // own frame
    fn offer(&mut self) -> Result<(Offer, Fingerprint), Reason> {
        let (version, fingerprint, wider) = self.fit()?;
        let now = self.board.now();
        let future = self.machine.future_with(now, &mut WithStaged(&mut self.store));
        let future = future.map_err(|Unreadable| Reason::Memory)?;
        let offer = Offer { version: version.0, fingerprint: fingerprint.get(), wider, future };
        Ok((offer, fingerprint))
    }

    /// Opens and checks the staged file.
    #[inline(never)] // own frame
    fn fit(&mut self) -> Result<(Version, Fingerprint, Timetables), Reason> {
        let (version, fingerprint) = self.store.staged()?;
        let wider = self.wider().map_err(|Unreadable| Reason::Memory)?;
        Ok((version, fingerprint, wider))
    }

    /// The timetables that the staged file opens wider than the calendar in force, also
    /// while another file waits. With another zone, or without a clock, nobody can tell:
    /// all of them.
    fn wider(&mut self) -> Result<Timetables, Unreadable> {
        let now = self.board.now();
        let (zone, new) = (self.store.zone()?, self.store.staged_zone()?);
        match self.machine.believed_utc(now) {
            Some(utc) if new == zone => {
                let today = zone.local(utc).date;
                let new =
                    |InForce(store): &mut InForce<'_, S>, id, date| store.staged_day(id, date);
                widening::widens_by(&mut InForce(&mut self.store), new, today)
            }
            Some(_) | None => Ok(Timetables::ALL),
        }
    }

    #[inline(never)] // own frame
    fn collect(&mut self, scope: Scope, since_last: bool) -> Result<Answer, Reason> {
        let pairing = self.store.pairing().map_err(|Unreadable| Reason::Memory)?;
        let pairing = pairing.ok_or(Reason::NoKey)?;
        let newest = self.store.newest_seq();
        let number = newest.map_or(0, |seq| seq.0).checked_mul(u32::from(EXTRACTS));
        let number = number.and_then(|number| number.checked_add(u32::from(self.carrying.begun)));
        let number = number.filter(|_| self.carrying.begun < EXTRACTS).ok_or(Reason::OutOfTurn)?;
        self.carrying.begun = self.carrying.begun.saturating_add(1);
        let collected = self.machine.collected();
        let from = if since_last { Seq(collected.0.saturating_add(1)) } else { Seq(1) };
        let made = self.machine.believed_utc(self.board.now());
        let header = ExtractHeader { number, scope, since_last, from, newest, made };
        self.carrying.extract = Some(ExtractWriter::new(&pairing, &header));
        Ok(Answer::Extract)
    }

    /// Has the writer make a chunk, or stay with the one that it made last.
    #[inline(never)] // own frame
    fn chunk(&mut self, index: u16) -> Result<Answer, Reason> {
        let pairing = self.store.pairing().map_err(|Unreadable| Reason::Memory)?;
        let key = pairing.ok_or(Reason::NoKey)?.outbound();
        let writer = self.carrying.extract.as_mut().ok_or(Reason::OutOfTurn)?;
        let store = &mut self.store;
        let chunk = writer.chunk(index, &key, |from| Entries { store, from });
        chunk.map(|_| Answer::Chunk(index)).map_err(|_| Reason::OutOfTurn)
    }
}

/// The calendar in force, whatever waits.
struct InForce<'s, S>(&'s mut S);

impl<S: Store> Days for InForce<'_, S> {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.0.day_in_force(id, date)
    }
}

/// The settings as they would be with the staged file.
struct WithStaged<'s, S>(&'s mut S);

impl<S: Store> Days for WithStaged<'_, S> {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.0.staged_day(id, date)
    }
}

impl<S: Store> Reads for WithStaged<'_, S> {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        self.0.holder(n)
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        self.0.enrolled()
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        self.0.pairing()
    }

    fn newest_seq(&mut self) -> Option<Seq> {
        self.0.newest_seq()
    }
}

/// A store's entries from a number on.
struct Entries<'s, S> {
    store: &'s mut S,
    from: Seq,
}

impl<S: Store> Iterator for Entries<'_, S> {
    type Item = Entry;

    fn next(&mut self) -> Option<Entry> {
        let entry = self.store.entry(self.from)?;
        self.from = Seq(entry.last().0.checked_add(1)?);
        Some(entry)
    }
}
