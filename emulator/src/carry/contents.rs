//! What lies on a memory stick, read once: its timetable files, by name.

use lock_core::link::Version;
use lock_core::link::timetable_file;
use lock_core::pairing::Pairing;

use super::Sealed;

/// Most timetable files that a stick is looked through for: more than a site has
/// locks would need, and a bound.
pub const FILES_MOST: usize = 1_024;

/// The timetable files of a stick.
#[derive(Clone, Default, PartialEq, Eq, Debug)]
pub struct Contents {
    /// By name.
    files: Vec<(String, Sealed)>,
}

impl Contents {
    /// Those files, by name; no more than [`FILES_MOST`] of them.
    #[must_use]
    pub fn of(mut files: Vec<(String, Sealed)>) -> Self {
        files.truncate(FILES_MOST);
        files.sort_by(|one, other| one.0.cmp(&other.0));
        Self { files }
    }

    /// The names.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.files.iter().map(|(name, _)| name.as_str())
    }

    /// The file with the highest version among those that say that they are for
    /// this lock, under this key. What they say is not known to be true before the
    /// lock has opened one.
    #[must_use]
    pub fn newest(&self, pairing: &Pairing) -> Option<(Version, &Sealed)> {
        let ours = self.files.iter().filter_map(|(_, file)| {
            let version = timetable_file::version(&file.header, pairing).ok()?;
            Some((version, file))
        });
        ours.max_by_key(|(version, _)| *version)
    }
}

#[cfg(test)]
mod tests {
    use lock_core::pairing::LockNumber;

    use super::*;
    use crate::carry::sealed;
    use crate::site::Site;

    fn pairing(lock: u16, generation: u32) -> Pairing {
        Pairing::new(LockNumber::new(lock).unwrap(), generation, [7; Pairing::LEN])
    }

    /// Whatever the files are called and in whatever order they lie there: the
    /// highest version for this lock under this key, or none.
    #[test]
    fn the_newest_is_that_of_this_lock_and_key() {
        let site = Site::parse("site", crate::tour::SITE).map_err(|why| why.to_string()).unwrap();
        let file = |name: &str, lock, generation, version| {
            let key = pairing(lock, generation);
            (name.to_owned(), sealed(&site, &key, Version(version)).unwrap().0)
        };
        let files = vec![
            file("z", 1, 1, 3),
            file("a", 1, 1, 10),
            file("b", 1, 1, 9),
            file("c", 2, 1, 99),
            file("d", 1, 2, 98),
        ];
        let mut backwards = files.clone();
        backwards.reverse();
        for stick in [Contents::of(files), Contents::of(backwards)] {
            let newest = |lock, generation| {
                stick.newest(&pairing(lock, generation)).map(|(version, _)| version.0)
            };
            assert_eq!(newest(1, 1), Some(10));
            assert_eq!(newest(2, 1), Some(99));
            assert_eq!(newest(1, 2), Some(98));
            assert_eq!(newest(3, 1), None);
            assert_eq!(stick.names().collect::<Vec<_>>(), ["a", "b", "c", "d", "z"]);
        }
    }
}
