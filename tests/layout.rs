//! Where a line belongs: a folder of src uses only folders listed above it, and nobody else's
//! tools.

use std::fs;
use std::path::{Path, PathBuf};

/// The order of lib.rs, the first at the top.
fn order() -> Vec<String> {
    let lib = fs::read_to_string("src/lib.rs").unwrap();
    let names = lib.lines().filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';'));
    names.map(str::to_owned).collect()
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// The code of a file, without comments and without its inline tests.
fn code(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    let shipped = text.split("#[cfg(test)]").next().unwrap_or_default();
    let lines = shipped.lines().filter(|line| !line.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

/// For every file of a folder: what of it breaks a rule.
fn faults(rule: impl Fn(&str, &str) -> Vec<String>) -> Vec<String> {
    let mut found = Vec::new();
    for folder in order() {
        for path in sources(&Path::new("src").join(&folder)) {
            let broken = rule(&folder, &code(&path));
            found.extend(broken.into_iter().map(|what| format!("{}: {what}", path.display())));
        }
    }
    found
}

#[test]
fn a_folder_uses_only_those_above_it() {
    let order = order();
    assert_eq!(order.first().map(String::as_str), Some("diagnostic"));
    let found = faults(|folder, code| {
        let own = order.iter().position(|name| name == folder).unwrap();
        let below = order[own + 1..].iter();
        below.filter(|name| code.contains(&format!("crate::{name}"))).cloned().collect()
    });
    assert_eq!(found, Vec::<String>::new());
}

/// The greatest share of all lines that one folder may hold: more, and nobody finds his way in it.
const SHARE: usize = 5;

#[test]
fn no_folder_holds_over_a_fifth_of_the_lines() {
    let lines = |path: PathBuf| fs::read_to_string(path).unwrap().lines().count();
    let of = |folder: &String| -> usize {
        sources(&Path::new("src").join(folder)).into_iter().map(lines).sum()
    };
    let folders: Vec<(String, usize)> = order().iter().map(|f| (f.clone(), of(f))).collect();
    let all: usize = folders.iter().map(|(_, lines)| lines).sum();
    let large = folders.iter().filter(|(_, lines)| lines * SHARE > all);
    assert_eq!(large.collect::<Vec<_>>(), Vec::<&(String, usize)>::new(), "of {all}");
}

#[test]
fn only_solid_and_mesh_name_truck() {
    let found = faults(|folder, code| {
        let named = code.contains("truck_") && !["solid", "mesh"].contains(&folder);
        named.then(|| "names truck".to_owned()).into_iter().collect()
    });
    assert_eq!(found, Vec::<String>::new());
}

/// A job takes a request and gives data; words, colours and the terminal are its faces' own.
#[test]
fn a_job_prints_nothing() {
    let words = ["clap", "anstyle", "anstream", "indicatif", "print!", "println!", "crate::cli"];
    let streams = ["stdout", "stderr", "stdin"];
    let found = faults(|folder, code| {
        let named = words.iter().chain(&streams).filter(|word| code.contains(**word));
        if folder == "job" { named.map(|word| (*word).to_owned()).collect() } else { Vec::new() }
    });
    assert_eq!(found, Vec::<String>::new());
}

#[test]
fn only_diagnostic_colours() {
    let found = faults(|folder, code| {
        let named = code.contains("anstyle") && folder != "diagnostic";
        named.then(|| "colours".to_owned()).into_iter().collect()
    });
    assert_eq!(found, Vec::<String>::new());
}
