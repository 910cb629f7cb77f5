//! What a command writes to, and what became of it.
//!
//! A reader that went away (a pager, `head`) has seen what it wanted: what follows
//! is dropped, and the command comes to its own outcome. Everything else that
//! keeps a result from being written is told, and no outcome survives it.

use std::io::{self, ErrorKind, Write};

/// A stream of the process.
pub(super) struct Outlet<'w> {
    to: &'w mut dyn Write,
    state: State,
}

enum State {
    Open,
    /// Nobody reads any more.
    Gone,
    /// Something was not written.
    Lost(String),
}

impl<'w> Outlet<'w> {
    pub(super) const fn new(to: &'w mut dyn Write) -> Self {
        Self { to, state: State::Open }
    }

    /// Why something is lost, if it is.
    pub(super) fn lost(&self) -> Option<&str> {
        match &self.state {
            State::Lost(why) => Some(why),
            State::Open | State::Gone => None,
        }
    }

    fn note<T>(&mut self, done: io::Result<T>, instead: T) -> io::Result<T> {
        match done {
            Err(why) if why.kind() == ErrorKind::BrokenPipe => {
                self.state = State::Gone;
                Ok(instead)
            }
            Err(why) if why.kind() != ErrorKind::Interrupted => {
                self.state = State::Lost(why.to_string());
                Err(why)
            }
            done => done,
        }
    }
}

impl Write for Outlet<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if let State::Gone = self.state {
            return Ok(bytes.len());
        }
        let written = self.to.write(bytes);
        self.note(written, bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        if let State::Gone = self.state {
            return Ok(());
        }
        let flushed = self.to.flush();
        self.note(flushed, ())
    }
}

/// The standard output. The one of the library takes a write that the system
/// refused, because nothing is open there for writing, for a success.
pub(super) fn standard_output() -> Box<dyn Write> {
    #[cfg(unix)]
    {
        use std::os::fd::AsFd as _;
        if let Ok(own) = io::stdout().as_fd().try_clone_to_owned() {
            return Box::new(io::LineWriter::new(std::fs::File::from(own)));
        }
    }
    Box::new(io::stdout())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Takes so many bytes, then fails.
    struct Full(usize, ErrorKind);

    impl Write for Full {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let taken = self.0.min(bytes.len());
            self.0 -= taken;
            if taken == 0 { Err(self.1.into()) } else { Ok(taken) }
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn only_a_reader_that_went_away_is_harmless() {
        for (kind, harmless) in [
            (ErrorKind::BrokenPipe, true),
            (ErrorKind::StorageFull, false),
            (ErrorKind::PermissionDenied, false),
            (ErrorKind::Other, false),
        ] {
            for room in 0..9 {
                let mut full = Full(room, kind);
                let mut outlet = Outlet::new(&mut full);
                let written = (0..3).try_for_each(|_| outlet.write_all(b"abc"));
                assert_eq!(written.is_ok(), harmless, "{kind:?} {room}");
                assert_eq!(outlet.lost().is_none(), harmless, "{kind:?} {room}");
            }
            let mut full = Full(9, kind);
            let mut outlet = Outlet::new(&mut full);
            assert!(outlet.write_all(b"abcabcabc").is_ok() && outlet.lost().is_none());
        }
    }
}
