//! Asking the planner the way a person does: a site file on disk, the command
//! line, JSON back.

use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};

use jiff::Timestamp;
use jiff::tz::TimeZone;

static FILES: AtomicU32 = AtomicU32::new(0);

/// A site file in the system's temporary directory, removed when dropped.
pub(crate) struct SiteFile(PathBuf);

impl SiteFile {
    pub(crate) fn new(text: &str) -> Self {
        let row = FILES.fetch_add(1, Ordering::Relaxed);
        let name = format!("site-{}-{row}.toml", std::process::id());
        let path = std::env::temp_dir().join(name);
        std::fs::write(&path, text).expect("the temporary directory can be written");
        Self(path)
    }

    /// Runs `plan openings --lock till` with JSON; the exit code, what came out
    /// and what was complained about.
    pub(crate) fn run(&self, rest: &[&str]) -> (u8, String, String) {
        self.command("openings", &[&["--format", "json"], rest].concat())
    }

    /// Runs `plan calendar --lock till` in the same way, for an iCalendar.
    pub(crate) fn calendar(&self, rest: &[&str]) -> (u8, String, String) {
        self.command("calendar", rest)
    }

    fn command(&self, name: &str, rest: &[&str]) -> (u8, String, String) {
        let path = self.0.to_str().expect("a plain path");
        let mut arguments = vec!["emulator", "plan", name, path, "--lock", "till"];
        arguments.extend(rest);
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let code = emulator::cli::run(&arguments, &mut out, &mut err);
        let text = |bytes| String::from_utf8(bytes).expect("text");
        (code, text(out), text(err))
    }

    /// The openings of one holder or timetable, with offsets checked against
    /// jiff's for that zone.
    pub(crate) fn openings(&self, zone: &TimeZone, rest: &[&str]) -> Vec<(Timestamp, Timestamp)> {
        let (code, out, err) = self.run(rest);
        assert_eq!(code, 0, "{err}");
        let rows: serde_json::Value = serde_json::from_str(&out).expect("JSON");
        let rows = rows.as_array().expect("a list");
        let moment = |row: &serde_json::Value, key: &str| -> Timestamp {
            let text = row[key].as_str().expect("a moment");
            let at: Timestamp = text.parse().expect("RFC 3339");
            let offset = zone.to_offset(at);
            let shown =
                at.to_zoned_datetime(offset.to_time_zone()).strftime("%FT%T%:z").to_string();
            assert_eq!(text, shown, "the offset is the zone's");
            at
        };
        rows.iter()
            .map(|row| {
                assert_eq!(row.as_object().expect("an object").len(), 2);
                (moment(row, "from"), moment(row, "to"))
            })
            .collect()
    }
}

impl Drop for SiteFile {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}
