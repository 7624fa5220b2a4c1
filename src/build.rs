//! Told to the compiler before all else: what this build is, so that two builds of one version are
//! told apart. It is a hash of everything that a build's bytes come from, without time or place:
//! sources, profiles, the versions of libraries, compiler, target, flags.

use std::ffi::OsStr;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs, io};

/// What is compiled or embedded.
const SOURCES: [&str; 4] = ["Cargo.lock", "Cargo.toml", "profiles", "src"];

/// How it is compiled.
const SETTINGS: [&str; 4] = ["TARGET", "PROFILE", "OPT_LEVEL", "CARGO_ENCODED_RUSTFLAGS"];

fn main() -> io::Result<()> {
    let mut identity = DefaultHasher::new();
    for source in SOURCES {
        println!("cargo::rerun-if-changed={source}");
        for path in files(Path::new(source))? {
            let parts: Vec<&OsStr> = path.iter().collect();
            (parts, fs::read(&path)?).hash(&mut identity);
        }
    }
    for setting in SETTINGS {
        env::var_os(setting).hash(&mut identity);
    }
    let compiler = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    Command::new(compiler).arg("-vV").output()?.stdout.hash(&mut identity);
    println!("cargo::rustc-env=SECTIONWRIGHT_BUILD={:016x}", identity.finish());
    Ok(())
}

/// A file, or all files in a folder and in its folders, in the order of their names.
fn files(path: &Path) -> io::Result<Vec<PathBuf>> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let entries = fs::read_dir(path)?.map(|entry| Ok(entry?.path()));
    let mut entries = entries.collect::<io::Result<Vec<_>>>()?;
    entries.sort();
    let found = entries.iter().map(|entry| files(entry)).collect::<io::Result<Vec<_>>>()?;
    Ok(found.concat())
}
