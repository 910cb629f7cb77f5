//! A steward's session in which files are loaded and the audit is collected.

use super::access::Moment;
use super::machine::Machine;
use super::session::Session;
use crate::dialog::Stage;
use crate::holder::Number;
use crate::port::Reads;
use crate::time::Seconds;

/// How long files may come and go after a steward said who they are. Only a new
/// code begins it again: nothing that arrives over a cable does. Ours.
pub const SESSION: Seconds = Seconds::from_minutes(10);

impl Machine {
    /// The steward whose session for files is open, if one is.
    #[must_use]
    pub fn serves(&self) -> Option<Number> {
        match &self.session {
            Session::Form(dialogue) if matches!(dialogue.stage, Stage::Files) => dialogue.who,
            Session::Form(_)
            | Session::Rest
            | Session::Entry(_)
            | Session::List { .. }
            | Session::Who(..)
            | Session::Judging(_)
            | Session::Second(..) => None,
        }
    }

    /// The timetables in force are read anew: a file was loaded, or waits.
    pub(super) fn read_file_anew(&mut self, _at: Moment, _reads: &mut impl Reads) {}
}
