//! A sealed timetable file, whole: what lies on a memory stick.

use lock_core::link::timetable_file::{HEADER, Sealer, TimetableFile, Wrong};
use lock_core::link::{Fingerprint, Version};
use lock_core::pairing::Pairing;
use lock_core::seal::CHUNK;

use crate::site::Site;

/// A sealed file. It holds nothing in clear but its header.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sealed {
    /// Its header.
    pub header: [u8; HEADER],
    /// Its chunks, sealed, in order.
    pub chunks: Vec<Vec<u8>>,
    /// What lock and laptop show of it.
    pub fingerprint: Fingerprint,
}

impl Sealed {
    /// The bytes of the file, one behind the other.
    #[must_use]
    pub fn bytes(&self) -> Vec<u8> {
        let mut bytes = self.header.to_vec();
        bytes.extend(self.chunks.iter().flatten());
        bytes
    }
}

/// The opening times of a site, sealed for the lock of `pairing`.
///
/// # Errors
/// [`Wrong`] if a lock would refuse them.
pub fn sealed(site: &Site, pairing: &Pairing, version: Version) -> Result<Sealed, Wrong> {
    let file = TimetableFile { zone: site.zone_rule.clone(), calendar: site.calendar.clone() };
    let mut sealer = Sealer::new(pairing, version, &file)?;
    let header = *sealer.header();
    let mut chunks = Vec::new();
    let mut chunk = [0; CHUNK];
    while let Some(length) = sealer.chunk(&mut chunk) {
        chunks.push(chunk.get(..length).unwrap_or_default().to_vec());
    }
    let fingerprint = sealer.fingerprint().ok_or(Wrong::Form)?;
    Ok(Sealed { header, chunks, fingerprint })
}
