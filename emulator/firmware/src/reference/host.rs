//! The machine that runs this one: its files and its exit, by semihosting.
//!
//! Operations and their argument blocks: Arm, *Semihosting for AArch32 and
//! AArch64*, 2.0 (from memory).

use core::ffi::CStr;

use cortex_m_semihosting::{nr, syscall};

/// Longest name of a file, with its final zero.
pub const NAME: usize = 256;

/// A file of the host.
pub struct File(usize);

/// How a file is opened: the mode numbers of the standard.
#[derive(Clone, Copy)]
pub enum Mode {
    /// `rb`
    Read = 1,
    /// `wb`
    Write = 5,
}

impl File {
    /// Opens a file; `None` if the host cannot.
    pub fn open(name: &CStr, mode: Mode) -> Option<Self> {
        let block = [name.as_ptr().addr(), mode as usize, name.count_bytes()];
        // SAFETY: the block is what SYS_OPEN takes, and the name lives on.
        let handle = unsafe { syscall(nr::OPEN, &block) };
        (handle != usize::MAX).then_some(Self(handle))
    }

    /// Fills `to` from where the last call ended; how many bytes there were.
    pub fn read(&mut self, to: &mut [u8]) -> usize {
        let block = [self.0, to.as_mut_ptr().expose_provenance(), to.len()];
        // SAFETY: the block is what SYS_READ takes, and `to` has that many bytes.
        let missing = unsafe { syscall(nr::READ, &block) };
        to.len().saturating_sub(missing)
    }

    /// Writes all of `from`; whether that was done.
    pub fn write(&mut self, from: &[u8]) -> bool {
        let block = [self.0, from.as_ptr().expose_provenance(), from.len()];
        // SAFETY: the block is what SYS_WRITE takes, and `from` has that many
        // bytes.
        let missing = unsafe { syscall(nr::WRITE, &block) };
        missing == 0
    }
}

/// Dropped: the host writes what it kept back.
impl Drop for File {
    fn drop(&mut self) {
        // SAFETY: a handle that is open, and not used again.
        unsafe { syscall(nr::CLOSE, &[self.0]) };
    }
}

/// The words after the program's name, as the host was given them.
pub fn arguments(room: &mut [u8; NAME]) -> impl Iterator<Item = &[u8]> {
    let mut block = [room.as_mut_ptr().expose_provenance(), room.len()];
    let address = core::ptr::from_mut(&mut block);
    // SAFETY: the block is what SYS_GET_CMDLINE takes, which fills the room and
    // writes the length into the block.
    let failed =
        unsafe { cortex_m_semihosting::syscall1(nr::GET_CMDLINE, address.expose_provenance()) };
    // SAFETY: a valid reference gave the address.
    let [_, length] = unsafe { address.read_volatile() };
    let line = if failed == 0 { room.get(..length).unwrap_or_default() } else { &[] };
    line.split(|byte| *byte == b' ').skip(1)
}

/// SYS_EXIT_EXTENDED.
const EXIT: usize = 0x20;
/// ADP_Stopped_ApplicationExit, which takes a code.
const APPLICATION_EXIT: u32 = 0x2_0026;

/// Ends this machine: its host sees `code`.
pub fn exit(code: u32) -> ! {
    let block = [APPLICATION_EXIT, code];
    loop {
        // SAFETY: the block is what SYS_EXIT_EXTENDED takes.
        unsafe { syscall(EXIT, &block) };
    }
}
