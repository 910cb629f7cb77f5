//! From when a change counts (R3): what narrows at once, what widens at the
//! next start of a window.

use super::lock::Model;
use super::policy::Stricter;
use super::setup::{Follows, Holder, RowWaits, Setup, TIMETABLES};

impl Model {
    /// What widens applies at once: the lock is opened, or being set up.
    pub(crate) fn widens_at_once(&self) -> bool {
        self.is_opened() || self.kept.setting_up
    }

    /// UTC by which starts of windows are known: a valid clock that does not
    /// settle.
    pub(crate) fn known_utc(&self) -> Result<i64, &'static str> {
        self.utc().filter(|_| !self.kept.settling).ok_or("draw-bolt")
    }

    /// Makes a row wait if it widens; from when on it opens, in UTC.
    pub(crate) fn when_row(
        &self,
        before: Option<&Holder>,
        row: &mut Holder,
        restored: bool,
    ) -> Result<Option<i64>, &'static str> {
        let held = match before {
            Some(before) if !restored => self.held_last(before),
            Some(_) | None => None,
        };
        row.waits = None;
        let Some(follows) = row.grants() else { return Ok(None) };
        // Whoever followed none gains nothing by a timetable.
        let as_wide = held == Some(follows) || held == Some(Follows::Always);
        if as_wide || self.widens_at_once() {
            return Ok(None);
        }
        let utc = self.known_utc()?;
        let hours = self.hours();
        let start = match (follows, held) {
            (Follows::Timetable(timetable), _)
            | (Follows::Always, Some(Follows::Timetable(timetable))) => {
                hours.next_start(timetable, utc)
            }
            (Follows::Always, _) => hours.next_start_of_any(utc),
        };
        let start = start.ok_or("draw-bolt")?;
        row.waits =
            Some(RowWaits { until: self.to_steady(start), made: self.to_steady(utc), held });
        Ok(Some(start))
    }

    /// What held last of a row: of one that still waits, what held before it.
    fn held_last(&self, row: &Holder) -> Option<Follows> {
        match row.waits {
            Some(waits) if self.has_come(waits.until) => row.grants(),
            Some(_) | None => row.held(),
        }
    }

    /// Makes the policy wait if it widens; from when on it counts, in UTC.
    pub(crate) fn when_policy(&self, new: &mut Setup) -> Result<Option<i64>, &'static str> {
        let held = self.in_force();
        let running = new.stricter.take().filter(|stricter| !self.has_come(stricter.until));
        if !new.policy.widens(&held) {
            return Ok(None);
        }
        let before = &self.setup().policy;
        let widened = (
            new.policy.delay_s < held.delay_s && new.policy.delay_s != before.delay_s,
            held.dual_control && before.dual_control && !new.policy.dual_control,
            new.policy.deputies != before.deputies && new.policy.deputies > held.deputies,
        );
        if widened == (false, false, false) {
            // Another key: what waits goes on waiting.
            new.stricter = running;
            return Ok(None);
        }
        if self.widens_at_once() {
            new.stricter = running.map(|running| Stricter {
                delay_s: if widened.0 { new.policy.delay_s } else { running.delay_s },
                dual_control: !widened.1 && running.dual_control,
                deputies: if widened.2 { new.policy.deputies } else { running.deputies },
                ..running
            });
            return Ok(None);
        }
        let utc = self.known_utc()?;
        let starts =
            (0..TIMETABLES).filter_map(|timetable| self.hours().next_start(timetable, utc));
        let start = self.to_steady(starts.max().ok_or("draw-bolt")?);
        let until = running.map_or(start, |running| running.until.max(start));
        new.stricter = Some(Stricter { until, made: self.to_steady(utc), ..held });
        Ok(Some(self.to_utc(until)))
    }
}
