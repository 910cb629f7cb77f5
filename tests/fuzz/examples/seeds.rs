//! Writes the inputs to begin with into `corpus/TARGET` beside this crate's
//! manifest, or under the directory that is named.

use std::path::{Path, PathBuf};

fn main() -> std::io::Result<()> {
    let beside = || Path::new(env!("CARGO_MANIFEST_DIR")).join("corpus");
    let corpus = std::env::args_os().nth(1).map_or_else(beside, PathBuf::from);
    for (target, seeds) in [
        ("image", fuzz::seeds::of_images()),
        ("sequence", fuzz::seeds::of_sequences()),
        ("lock", fuzz::seeds::of_locks()),
        ("link", fuzz::seeds::of_links()),
        ("text", fuzz::seeds::of_texts()),
    ] {
        let to = corpus.join(target);
        std::fs::create_dir_all(&to)?;
        for (name, input) in seeds {
            std::fs::write(to.join(name), input)?;
        }
    }
    Ok(())
}
