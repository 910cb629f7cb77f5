//! `mutants`: weaves all mutants into a copy of the lock, builds it, and hunts.

#![forbid(unsafe_code)]

use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

use clap::Parser;
use mutants::copy::{self, PACKAGE};
use mutants::{Table, Wrong};

/// Weave bugs on purpose into a copy of the lock, and see that each is found.
#[derive(Parser)]
#[command(after_help = "\
Exit code 1 if a bug is not found, or something is found where there is none.
The copy is below the target folder.")]
struct Arguments {
    /// Hunt for this one only.
    #[arg(long, value_name = "NAME")]
    only: Option<String>,
    /// Only make a copy in which this one is chosen from the start, and say where.
    #[arg(long, value_name = "NAME", conflicts_with = "only")]
    weave: Option<String>,
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    match run(&arguments) {
        Ok(code) => code,
        Err(why) => {
            eprintln!("mutants: {why}");
            ExitCode::from(2)
        }
    }
}

fn run(arguments: &Arguments) -> Result<ExitCode, Wrong> {
    let root = Path::new(".");
    let table = Table::load(root)?;
    let target =
        std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| "target".into(), PathBuf::from);
    let target = std::path::absolute(&target).map_err(|why| Wrong::io(&target, why))?;
    if let Some(name) = &arguments.weave {
        let folder = target.join("mutants").join(name);
        copy::make(root, &table, table.place(name)?, &folder)?;
        println!("{}", folder.display());
        return Ok(ExitCode::SUCCESS);
    }
    let only = arguments.only.as_deref();
    only.map(|name| table.place(name)).transpose()?;
    let folder = target.join("mutants").join("all");
    copy::make(root, &table, 0, &folder)?;
    let mut build = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    build.current_dir(&folder).args(["build", "--quiet", "--release", "--package", PACKAGE]);
    build.arg("--target-dir").arg(&target);
    let built = build.status().map_err(|why| Wrong::io(Path::new("cargo"), why))?;
    if !built.success() {
        eprintln!("mutants: the woven copy in {} cannot be built.", folder.display());
        return Ok(ExitCode::from(2));
    }
    let hunt = target.join("release").join(format!("{PACKAGE}{}", std::env::consts::EXE_SUFFIX));
    let mut command = Command::new(&hunt);
    command.current_dir(&folder).args(only);
    let hunted = command.status().map_err(|why| Wrong::io(&hunt, why))?;
    let code = hunted.code().and_then(|code| u8::try_from(code).ok());
    Ok(ExitCode::from(code.unwrap_or(2)))
}
