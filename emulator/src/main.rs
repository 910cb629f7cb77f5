//! The command line of the emulator.

#![forbid(unsafe_code)]

fn main() -> std::process::ExitCode {
    emulator::cli::main()
}
