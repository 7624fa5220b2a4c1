//! Whatever is changed in the numbers, lines and values of a file: every error has a code, a place
//! in a file and a hint; and of one error alone, what the hint says to write helps.

#[path = "fuzz/lines.rs"]
mod lines;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use fastrand::Rng;
use sectionwright::design::{Failure, Library, load, load_readings, with_numbers};
use sectionwright::diagnostic::{Diagnostic, Severity, Sources, Style, render};
use sectionwright::print::calibrate::{Plate, calibrate};
use sectionwright::scene::verdicts;
use sectionwright::section::Section;
use sectionwright::solid::{BuildError, build};

/// Designs that are tried; `SECTIONWRIGHT_MUTATIONS=100000` is a longer trial.
const TEXTS: u64 = 4000;

/// The folders of designs that are changed.
const DESIGNS: [&str; 3] = ["tests/fixtures", "tests/fixtures/coincidence", "profiles/designs"];

/// Those that come more often: what is wrong with them is oftenest found below the design.
const OFTEN: [&str; 3] = ["blind-flat.toml", "threads.toml", "outside.toml"];

fn texts() -> u64 {
    std::env::var("SECTIONWRIGHT_MUTATIONS").map_or(TEXTS, |n| n.parse().unwrap())
}

/// A folder in which a design finds what the fixtures name by path.
fn workshop() -> (tempfile::TempDir, PathBuf) {
    let home = tempfile::tempdir().unwrap();
    let folder = home.path().join("fixtures/coincidence");
    fs::create_dir_all(&folder).unwrap();
    let files = fs::read_dir("tests/fixtures").unwrap().map(|file| file.unwrap().path());
    for file in files.filter(|path| path.is_file()) {
        for to in [&folder, &home.path().join("fixtures")] {
            fs::copy(&file, to.join(file.file_name().unwrap())).unwrap();
        }
    }
    (home, folder)
}

/// The texts of all designs, those that come more often several times.
fn designs() -> Vec<String> {
    let files = DESIGNS.iter().flat_map(|folder| fs::read_dir(folder).unwrap());
    let mut paths: Vec<PathBuf> = files.map(|file| file.unwrap().path()).collect();
    paths.retain(|path| path.is_file());
    paths.sort();
    let often = |path: &Path| OFTEN.iter().any(|name| path.ends_with(name));
    let times = |path: PathBuf| {
        let text = fs::read_to_string(&path).unwrap();
        std::iter::repeat_n(text, if often(&path) { 6 } else { 1 })
    };
    let mut found: Vec<String> = paths.into_iter().flat_map(times).collect();
    found.retain(|text| text.contains("[grip]") || text.contains("like = "));
    found
}

/// One number of a text, near to what it was or anywhere up to twice that.
fn another_number(text: &str, rng: &mut Rng) -> String {
    let is_part = |c: char| c.is_ascii_digit() || c == '.';
    let starts = text.char_indices().filter(|(n, c)| {
        let comment = text[..*n].rsplit('\n').next().is_some_and(|line| line.contains('#'));
        c.is_ascii_digit() && !text[..*n].ends_with(is_part) && !comment
    });
    let starts: Vec<usize> = starts.map(|(n, _)| n).collect();
    let Some(from) = rng.choice(starts) else { return text.to_owned() };
    let length = text[from..].find(|c| !is_part(c)).unwrap_or(text.len() - from);
    let value: f64 = text[from..from + length].parse().unwrap_or(1.0);
    let share = match rng.u32(..3) {
        0 => 0.98 + 0.04 * rng.f64(),
        1 => 0.5 + rng.f64(),
        _ => 2.0 * rng.f64(),
    };
    format!("{}{:.3}{}", &text[..from], value * share, &text[from + length..])
}

/// What `make` builds and measures, but for what takes long.
fn made(section: &Section) -> Result<(), BuildError> {
    build(&section.part())?;
    build(&section.plain_part())?;
    verdicts(section).map(drop)
}

/// What is wrong with a file, and whether that was found below the design.
struct Wrong {
    errors: Vec<Diagnostic>,
    sources: Sources,
    below: bool,
}

impl Wrong {
    fn of(failure: Failure) -> Self {
        let Failure { mut diagnostics, sources } = failure;
        diagnostics.retain(|said| said.severity == Severity::Error);
        Self { errors: diagnostics, sources, below: false }
    }

    fn said(&self) -> String {
        render(&self.errors, &self.sources, Style::Plain)
    }

    /// That each has a code, a place and a hint.
    fn is_told(&self, seed: u64) {
        assert!(!self.errors.is_empty(), "{seed}");
        for Diagnostic { code, message, at, hint, .. } in &self.errors {
            let hint = hint.as_deref().unwrap_or_default();
            let told = [*code, message, hint].iter().all(|words| !words.is_empty());
            assert!(told && at.is_some(), "{seed}:\n{}", self.said());
        }
    }
}

fn design(path: &Path) -> Option<Wrong> {
    match load(&Library::default(), path.to_str().unwrap()) {
        Err(failure) => Some(Wrong::of(failure)),
        Ok(resolved) => resolved.attempt(made).err().map(|fault| Wrong {
            errors: vec![*fault],
            sources: resolved.sources,
            below: true,
        }),
    }
}

/// The numbers that a hint says to write into the design.
fn writes(hint: &str) -> Option<Vec<(String, f64)>> {
    let list = hint.strip_prefix("write `")?.strip_suffix('`')?;
    let one = |write: &str| {
        let (key, value) = write.split_once(" = ")?;
        Some((key.to_owned(), value.parse().ok()?))
    };
    list.split("` and `").map(one).collect()
}

#[test]
fn every_error_of_a_design_is_told_and_what_it_says_to_write_helps() {
    let (_home, folder) = workshop();
    let designs = designs();
    assert!(designs.len() > 30, "{}", designs.len());
    let file = folder.join("design.toml");
    let (mut below, mut helped, mut failed) = (BTreeMap::new(), 0, Vec::new());
    for seed in 0..texts() {
        let mut rng = Rng::with_seed(seed);
        let text = &designs[rng.usize(..designs.len())];
        let lines = seed % 4 == 0;
        let text = if lines { lines::edit(text, seed) } else { another_number(text, &mut rng) };
        fs::write(&file, &text).unwrap();
        let Some(wrong) = design(&file) else { continue };
        wrong.is_told(seed);
        let [error] = wrong.errors.as_slice() else { continue };
        if wrong.below {
            *below.entry(error.code).or_insert(0) += 1;
            println!("{}", wrong.said());
        }
        let Some(writes) = error.hint.as_deref().and_then(writes) else { continue };
        let numbers: Vec<(&str, f64)> =
            writes.iter().map(|(key, value)| (key.as_str(), *value)).collect();
        let Ok(mended) = with_numbers(&text, &numbers) else { continue };
        fs::write(&file, mended).unwrap();
        match design(&file) {
            None => helped += 1,
            Some(left) => failed.push(format!("{seed}: {}{}", wrong.said(), left.said())),
        }
    }
    println!("below the design: {below:?}; {helped} helped");
    assert_eq!(failed, Vec::<String>::new());
    assert!(below.len() >= 3 && helped >= 5, "{below:?} {helped}");
}

/// The readings of a plate that came out as it is in the file, as the form has them.
fn filled_in(plate: &Plate) -> String {
    let readings = plate.readings();
    let pieces: BTreeSet<&str> = readings.iter().map(|reading| reading.piece).collect();
    let mut text = "format = 1\nprinter = \"resin\"\n".to_owned();
    for piece in pieces {
        text += &format!("[{piece}]\n");
        for reading in readings.iter().filter(|reading| reading.piece == piece) {
            let value = format!("{:.2}", reading.in_file.as_mm());
            let values = vec![value; reading.times].join(", ");
            text += &format!("{} = [{values}]\n", reading.size);
        }
    }
    text
}

#[test]
fn every_error_of_readings_is_told() {
    let home = tempfile::tempdir().unwrap();
    let file = home.path().join("readings.toml");
    let printer = sectionwright::design::load_printer(&Library::default(), "resin").unwrap();
    let whole = filled_in(&Plate::new(&printer.printer));
    let read = |text: &str| {
        fs::write(&file, text).unwrap();
        match load_readings(&Library::default(), &file) {
            Err(failure) => Some(Wrong::of(failure)),
            Ok(loaded) => calibrate(&loaded.plate, &loaded.taken).err().map(|faults| Wrong {
                errors: faults.iter().map(|fault| fault.diagnostic(&loaded)).collect(),
                sources: loaded.sources,
                below: true,
            }),
        }
    };
    assert!(read(&whole).is_none());
    let mut codes = BTreeSet::new();
    for seed in 0..texts() / 8 {
        let mut rng = Rng::with_seed(seed);
        let mut text = another_number(&whole, &mut rng);
        // Some lines of it, as of a form that is filled in by and by.
        let gone = rng.usize(..20);
        let kept = text.lines().enumerate().filter(|(n, _)| *n < 2 || rng.usize(..20) >= gone);
        text = kept.map(|(_, line)| line.to_owned() + "\n").collect();
        if let Some(wrong) = read(&text) {
            wrong.is_told(seed);
            codes.extend(wrong.errors.iter().map(|error| error.code));
        }
    }
    let below = ["calibrate.contradiction", "calibrate.nothing", "calibrate.too-few"];
    assert!(below.iter().all(|code| codes.contains(code)), "{codes:?}");
}
