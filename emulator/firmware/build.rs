//! Tells the linker where this board's memory is.

use std::{env, fs, io, path::PathBuf};

fn main() -> io::Result<()> {
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::copy("memory.x", out.join("memory.x"))?;
    println!("cargo::rustc-link-search={}", out.display());
    // Here and not in the rustflags, which an environment variable replaces.
    if env::var("CARGO_CFG_TARGET_ARCH").is_ok_and(|arch| arch == "arm") {
        println!("cargo::rustc-link-arg-bins=-Tlink.x");
    }
    if env::var_os("CARGO_FEATURE_DEFMT").is_some() {
        println!("cargo::rustc-link-arg-bins=-Tdefmt.x");
    }
    println!("cargo::rerun-if-changed=memory.x");
    Ok(())
}
