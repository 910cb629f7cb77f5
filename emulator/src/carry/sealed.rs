//! A sealed timetable file, whole: what lies on a memory stick.

use lock_core::link::timetable_file::{CHUNKS_MOST, HEADER, Sealer, TimetableFile, Wrong};
use lock_core::link::{Fingerprint, Version};
use lock_core::pairing::Pairing;
use lock_core::seal::CHUNK;

use crate::site::Site;

/// Bytes of the longest file.
pub const FILE_MOST: usize = HEADER + CHUNKS_MOST * CHUNK;

/// A sealed file. It holds nothing in clear but its header.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sealed {
    /// Its header.
    pub header: [u8; HEADER],
    /// Its chunks, sealed, in order.
    pub chunks: Vec<Vec<u8>>,
}

impl Sealed {
    /// The file of these bytes, header first; `None` if they are too few or too many.
    #[must_use]
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        let (header, rest) = bytes.split_first_chunk::<HEADER>()?;
        if bytes.len() > FILE_MOST {
            return None;
        }
        let chunks: Vec<_> = rest.chunks(CHUNK).map(<[u8]>::to_vec).collect();
        (!chunks.is_empty()).then_some(Self { header: *header, chunks })
    }

    /// The bytes of the file, one behind the other.
    #[must_use]
    pub fn bytes(&self) -> Vec<u8> {
        let mut bytes = self.header.to_vec();
        bytes.extend(self.chunks.iter().flatten());
        bytes
    }
}

/// The opening times of a site, as a file for a lock.
#[must_use]
pub fn opening_times(site: &Site) -> TimetableFile {
    TimetableFile { zone: site.zone_rule.clone(), calendar: site.calendar.clone() }
}

/// The opening times of a site, sealed for the lock of `pairing`, and what lock
/// and laptop show of them.
///
/// # Errors
/// [`Wrong`] if a lock would refuse them.
pub fn sealed(
    site: &Site,
    pairing: &Pairing,
    version: Version,
) -> Result<(Sealed, Fingerprint), Wrong> {
    let mut sealer = Sealer::new(pairing, version, &opening_times(site))?;
    let header = *sealer.header();
    let mut chunks = Vec::new();
    let mut chunk = [0; CHUNK];
    while let Some(length) = sealer.chunk(&mut chunk) {
        chunks.push(chunk.get(..length).unwrap_or_default().to_vec());
    }
    let fingerprint = sealer.fingerprint().ok_or(Wrong::Form)?;
    Ok((Sealed { header, chunks }, fingerprint))
}
