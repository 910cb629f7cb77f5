//! The command line of the emulator.

fn main() -> std::process::ExitCode {
    emulator::cli::main()
}
