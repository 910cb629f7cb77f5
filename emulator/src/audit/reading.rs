//! Extract files, sorted by lock and read one after the other. One file's
//! entries are in memory at a time, and those of the one before it.

use std::collections::BTreeMap;
use std::path::PathBuf;

use lock_core::audit::{Entry, Gap, Seq};
use lock_core::link::extract::{Item, Scope};

use super::collection::{Collection, News};
use super::extract::{Broken, Extract, Header, Maker, Opener};
use super::words::gap_words;

/// The extracts of one lock, in the order in which they were made.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LockFiles {
    /// The lock's number.
    pub lock: u32,
    /// Whether the lock itself made them.
    pub maker: Maker,
    /// The files, with what they say of themselves.
    pub files: Vec<(PathBuf, Header)>,
}

/// A file that is not even known to be of some lock.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unread {
    /// The file.
    pub path: PathBuf,
    /// Why not.
    pub why: Broken,
}

/// Sorts files by lock, by opening each. An extract of an emulated lock stands alone: it
/// says nothing of the real one, nor of what the emulated lock did another time.
pub fn sort(opener: &impl Opener, paths: &[PathBuf]) -> (Vec<LockFiles>, Vec<Unread>) {
    let mut locks: BTreeMap<(u32, Maker, usize), Vec<(PathBuf, Header)>> = BTreeMap::new();
    let mut unread = Vec::new();
    for (place, path) in paths.iter().enumerate() {
        match opener.open(path) {
            Ok(Extract { header, .. }) => {
                let place = if header.maker == Maker::Real { 0 } else { place };
                let key = (header.lock, header.maker, place);
                locks.entry(key).or_default().push((path.clone(), header));
            }
            Err(why) => unread.push(Unread { path: path.clone(), why }),
        }
    }
    let locks = locks.into_iter().map(|((lock, maker, _), mut files)| {
        // Extracts of everything first: what others tell is news only behind them.
        files.sort_by_key(|(_, header)| {
            (header.scope != Scope::All, header.newest, header.made, header.number)
        });
        LockFiles { lock, maker, files }
    });
    (locks.collect(), unread)
}

/// What came of one file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct FileNote {
    /// The file.
    pub path: PathBuf,
    /// What it says of itself.
    pub header: Header,
    /// How many records could be read.
    pub records: u32,
    /// The first and the last number that its entries span.
    pub span: Option<(Seq, Seq)>,
    /// How many of its records an earlier extract told of.
    pub known: u32,
    /// How many records it leaves out, as it was asked to.
    pub left_out: u32,
    /// All there is to say about it.
    pub problems: Vec<Problem>,
}

/// What is to be said about a file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Problem {
    /// It cannot be read, or not to its end.
    Broken(Broken),
    /// It ends with a number below the lock's newest when it was made.
    Ends(Option<Seq>, Seq),
    /// Its numbers do not follow one another from there on.
    OutOfOrder(Seq),
    /// So many of its records are not those that an earlier extract has under
    /// the same numbers, from there on.
    Contradicts(Seq, u32),
    /// Records were overwritten before anybody collected them.
    NotCollected(Gap),
    /// Records are lost.
    Lost(Gap),
    /// Records were overwritten; nothing earlier is here that should hold them.
    Overwritten(Gap),
}

impl Problem {
    /// Its kind, for programs.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Broken(Broken::Unreadable(_)) => "unreadable",
            Self::Broken(Broken::Alien) => "no-extract",
            Self::Broken(Broken::Version(_)) => "unknown-version",
            Self::Broken(Broken::NoKey { .. }) => "no-key",
            Self::Broken(Broken::Altered) => "altered",
            Self::Broken(Broken::AlteredEnd) => "altered-end",
            Self::Broken(Broken::Truncated) => "truncated",
            Self::Broken(Broken::Nonsense) => "nonsense",
            Self::Ends(..) => "ends-early",
            Self::OutOfOrder(_) => "out-of-order",
            Self::Contradicts(..) => "contradicts",
            Self::NotCollected(_) => "not-collected",
            Self::Lost(_) => "lost",
            Self::Overwritten(_) => "overwritten",
        }
    }

    /// What it is, in a sentence that follows the file's name.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::Broken(why) => format!("{why}."),
            Self::Ends(None, newest) => {
                format!("holds nothing, though the lock's newest record was {}.", newest.0)
            }
            Self::Ends(Some(last), newest) => {
                format!("ends with record {}, though the lock's newest was {}.", last.0, newest.0)
            }
            Self::OutOfOrder(seq) => {
                format!("goes on with record {}, which does not follow the one before.", seq.0)
            }
            Self::Contradicts(seq, count) => format!(
                "contradicts an earlier extract: {count} records from {} on differ under the \
                 same numbers. Are these two locks of one number?",
                seq.0
            ),
            Self::NotCollected(gap) => {
                format!("{} Nobody collected them before.", gap_words(gap))
            }
            Self::Lost(gap) | Self::Overwritten(gap) => gap_words(gap),
        }
    }

    /// Whether somebody should look into it. That a ring overwrites its oldest
    /// is how it works.
    #[must_use]
    pub const fn is_finding(&self) -> bool {
        !matches!(self, Self::Overwritten(_))
    }

    /// Whether the file is not what the lock sealed, or not all of it.
    #[must_use]
    pub const fn is_broken(&self) -> bool {
        match self {
            Self::Broken(_) | Self::Ends(..) | Self::OutOfOrder(_) | Self::Contradicts(..) => true,
            Self::NotCollected(_) | Self::Lost(_) | Self::Overwritten(_) => false,
        }
    }
}

/// Reads the extracts of one lock; `sink` gets every entry that is new, in the
/// order of the numbers.
pub fn read(opener: &impl Opener, lock: &LockFiles, sink: &mut dyn FnMut(&Entry)) -> Vec<FileNote> {
    let mut collection = Collection::default();
    let mut beyond = BTreeMap::new();
    let mut notes = Vec::with_capacity(lock.files.len());
    for (path, header) in &lock.files {
        let note = FileNote {
            path: path.clone(),
            header: *header,
            records: 0,
            span: None,
            known: 0,
            left_out: 0,
            problems: Vec::new(),
        };
        let partial = header.scope != Scope::All;
        let earlier = collection.has_told();
        let note = match opener.open(path) {
            Ok(extract) if partial => {
                let mut sink = |entry: &Entry| {
                    beyond.entry(first(entry)).or_insert(*entry);
                };
                Reader { earlier, note, sink: &mut sink }.file(extract, &mut collection)
            }
            Ok(extract) => Reader { earlier, note, sink }.file(extract, &mut collection),
            Err(why) => FileNote { problems: vec![Problem::Broken(why)], ..note },
        };
        notes.push(note);
    }
    beyond.values().for_each(sink);
    notes
}

const fn first(entry: &Entry) -> Seq {
    match entry {
        Entry::Record(seq, _) => *seq,
        Entry::Gap(gap) => gap.from,
    }
}

struct Reader<'s> {
    /// Whether there is an earlier extract of the lock.
    earlier: bool,
    note: FileNote,
    sink: &'s mut dyn FnMut(&Entry),
}

impl Reader<'_> {
    fn file(mut self, extract: Extract<'_>, collection: &mut Collection) -> FileNote {
        let Extract { header, items } = extract;
        collection.begin();
        for item in items {
            let item = match item {
                Ok(item) => item,
                Err(why) => return self.ends(Problem::Broken(why)),
            };
            let news = match header.scope {
                Scope::All => collection.take(&item),
                Scope::Openings | Scope::Changes | Scope::Alarms => collection.take_partial(&item),
            };
            if let News::OutOfOrder(seq) = news {
                return self.ends(Problem::OutOfOrder(seq));
            }
            self.count(&item);
            self.hear(news);
        }
        let last = self.note.span.map(|(_, last)| last);
        match header.newest {
            Some(newest) if last != Some(newest) => self.ends(Problem::Ends(last, newest)),
            Some(_) | None => self.note,
        }
    }

    fn ends(mut self, problem: Problem) -> FileNote {
        self.note.problems.push(problem);
        self.note
    }

    fn count(&mut self, item: &Item) {
        let record = u32::from(matches!(item, Item::Record(..)));
        self.note.records = self.note.records.saturating_add(record);
        let first = self.note.span.map_or(item.first(), |(first, _)| first);
        self.note.span = Some((first, item.last()));
    }

    fn hear(&mut self, news: News) {
        match news {
            News::New(entry) => self.pass(&entry),
            News::After(gap, entry) => {
                self.note.problems.push(Problem::NotCollected(gap));
                (self.sink)(&Entry::Gap(gap));
                self.pass(&entry);
            }
            News::Known => self.note.known = self.note.known.saturating_add(1),
            News::Contradicts(seq) => match self.note.problems.last_mut() {
                Some(Problem::Contradicts(_, count)) => *count = count.saturating_add(1),
                _ => self.note.problems.push(Problem::Contradicts(seq, 1)),
            },
            News::LeftOut(count) => self.note.left_out = self.note.left_out.saturating_add(count),
            News::OutOfOrder(_) => {}
        }
    }

    fn pass(&mut self, entry: &Entry) {
        if let Entry::Gap(gap) = entry {
            let problem = match (gap.lost, self.earlier) {
                (0, false) => Problem::Overwritten(*gap),
                (0, true) => Problem::NotCollected(*gap),
                (_, _) => Problem::Lost(*gap),
            };
            self.note.problems.push(problem);
        }
        (self.sink)(entry);
    }
}
