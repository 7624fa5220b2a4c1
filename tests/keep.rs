//! What is kept: archives, their recall, the shelf, and pens compared, as a person meets them.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use sectionwright::archive::kept::Kept;

#[path = "keep/compared.rs"]
mod compared;
#[path = "keep/flips.rs"]
mod flips;
#[path = "keep/killed.rs"]
mod killed;
#[path = "keep/kept.rs"]
mod kept;
#[path = "keep/recalled.rs"]
mod recalled;
#[path = "keep/shelved.rs"]
mod shelved;

fn program(folder: &Path, arguments: &[&str]) -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_sectionwright"));
    program.args(arguments).current_dir(folder).env_remove("SECTIONWRIGHT_SHELF");
    program.env("XDG_DATA_HOME", folder.join("data"));
    program
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    program(folder, arguments).output().unwrap()
}

fn status(output: &Output) -> i32 {
    output.status.code().unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn json(output: &Output) -> serde_json::Value {
    serde_json::from_slice(&output.stdout).unwrap()
}

fn fixture(name: &str) -> String {
    format!("{}/tests/fixtures/{name}", env!("CARGO_MANIFEST_DIR"))
}

/// Every file of a folder, hidden ones too.
fn set(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let Ok(entries) = fs::read_dir(folder) else { return BTreeMap::new() };
    let files = entries.map(Result::unwrap).filter(|entry| entry.path().is_file());
    files.map(|e| (e.file_name().into_string().unwrap(), fs::read(e.path()).unwrap())).collect()
}

fn names(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

/// Keeps a design with little beside it; the archive's place.
fn keep(folder: &Path, design: &str, more: &[&str]) -> PathBuf {
    let shelf = folder.join("shelf");
    let before = names(&shelf);
    let arguments = [&["keep", design, "--quiet", "--only", "report", "--shelf", "shelf"], more];
    let kept = run(folder, &arguments.concat());
    assert!(status(&kept) < 2, "{}", err(&kept));
    let new: Vec<String> = names(&shelf).into_iter().filter(|it| !before.contains(it)).collect();
    assert_eq!(new.len(), 1, "{before:?} {new:?}");
    shelf.join(&new[0])
}

fn open(path: &Path) -> Kept {
    Kept::open_file(path).unwrap()
}
