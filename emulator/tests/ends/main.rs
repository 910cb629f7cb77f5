//! How commands end, as processes: what they write to, what they read from, and the
//! exit code that comes of it.
//!
//! Permissions do not bite where tests run as root. What does is used instead:
//! `/dev/full`, a file where a folder is needed, a loop of links, a limit on the
//! length of files.

#![cfg(target_os = "linux")]

mod crowd;
mod files;
mod lost;
mod place;
mod signals;
mod table;
mod words;

use std::ffi::OsString;
use std::io::Read as _;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// How long a process may take: more means that it waits for something.
const PATIENCE: Duration = Duration::from_secs(120);

/// How a process ended.
#[derive(Debug)]
pub(crate) struct Ended {
    /// The exit code; 128 and the signal's number where one ended it.
    pub(crate) code: i32,
    pub(crate) out: Vec<u8>,
    pub(crate) err: String,
}

impl Ended {
    pub(crate) fn out(&self) -> String {
        String::from_utf8_lossy(&self.out).into_owned()
    }
}

/// The program with these arguments.
pub(crate) fn emulator(arguments: &[OsString]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_emulator"));
    command.args(arguments).stdin(Stdio::null()).env_remove("NO_COLOR");
    command
}

/// Runs it to its end.
pub(crate) fn run(command: &mut Command) -> Ended {
    command.stdout(Stdio::piped());
    end(command)
}

/// The same; where its output goes was said.
pub(crate) fn end(command: &mut Command) -> Ended {
    let child = command.stderr(Stdio::piped()).spawn().expect("the program starts");
    wait(child)
}

/// Waits for the end, and reads what it says meanwhile.
pub(crate) fn wait(mut child: Child) -> Ended {
    let read = |from: Option<Box<dyn std::io::Read + Send>>| {
        std::thread::spawn(move || {
            let mut bytes = Vec::new();
            if let Some(mut from) = from {
                from.read_to_end(&mut bytes).expect("a pipe can be read");
            }
            bytes
        })
    };
    let out = read(child.stdout.take().map(|out| Box::new(out) as _));
    let err = read(child.stderr.take().map(|err| Box::new(err) as _));
    let started = Instant::now();
    let status = loop {
        if let Some(status) = child.try_wait().expect("a child can be waited for") {
            break status;
        }
        if started.elapsed() > PATIENCE {
            child.kill().expect("a child can be killed");
            panic!("it has not ended after {PATIENCE:?}");
        }
        std::thread::sleep(Duration::from_millis(2));
    };
    let signal = std::os::unix::process::ExitStatusExt::signal(&status);
    let code = status.code().or(signal.map(|signal| 128 + signal)).unwrap_or(-1);
    let (out, err) = (out.join().expect("out"), err.join().expect("err"));
    Ended { code, out, err: String::from_utf8_lossy(&err).into_owned() }
}
