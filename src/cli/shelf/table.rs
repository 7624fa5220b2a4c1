//! What is kept, as a table and as JSON.

use std::path::Path;

use serde::Serialize;

use crate::archive::shelf::{Row, Shelved, State};
use crate::diagnostic::{Style, Tone, paint};

/// The version of the form; it grows when a key changes its meaning or goes.
const FORMAT: u32 = 1;

const HEADS: [&str; 9] =
    ["name", "unit", "thread", "tenon", "grip", "material", "verdict", "kept", "file"];

/// The table, what is damaged under it, and how many there are.
pub(super) fn table(folder: &Path, archives: &[Shelved], of_all: usize, style: Style) -> String {
    let rows: Vec<[String; 9]> = archives.iter().filter_map(row).collect();
    let heads = HEADS.map(str::to_owned);
    let width = |n: usize| {
        let cells = rows.iter().chain([&heads]).map(|row| row[n].chars().count());
        cells.max().unwrap_or_default()
    };
    let widths: [usize; 9] = std::array::from_fn(width);
    let line = |row: &[String; 9]| {
        let cells = row.iter().zip(widths).map(|(cell, width)| format!("{cell:<width$}"));
        cells.collect::<Vec<_>>().join("  ").trim_end().to_owned() + "\n"
    };
    let mut text = String::new();
    if !rows.is_empty() {
        text += &paint(&line(&heads), Tone::Faint, style);
        text.extend(rows.iter().map(line));
    }
    let damaged: Vec<String> = archives.iter().filter_map(|it| fault(it, style)).collect();
    if !damaged.is_empty() {
        text += &format!("\n{}\n{}", paint("Not readable", Tone::Bad, style), damaged.concat());
    }
    let gap = if text.is_empty() { "" } else { "\n" };
    format!("{text}{gap}{} of {of_all} in {}\n", archives.len(), folder.display())
}

fn row(archive: &Shelved) -> Option<[String; 9]> {
    let State::Sound(row) = &archive.state else { return None };
    let Row { name, unit, thread, tenon, grip_mm: [length, front, back], .. } = row.as_ref();
    Some([
        name.clone(),
        unit.clone(),
        thread.clone(),
        tenon.clone(),
        format!("{length:.2}, Ø{front:.2}-{back:.2}"),
        row.material.clone(),
        row.verdict.clone(),
        row.date.clone().unwrap_or_default(),
        archive.file.clone(),
    ])
}

fn fault(archive: &Shelved, style: Style) -> Option<String> {
    let (word, tone, why) = match &archive.state {
        State::Sound(_) => return None,
        State::Newer(why) => ("newer", Tone::Watch, why.clone()),
        State::Damaged(faults) => {
            let told = faults.iter().map(|(code, why)| format!("{why} [{code}]"));
            ("damaged", Tone::Bad, told.collect::<Vec<_>>().join("; "))
        }
    };
    Some(format!("  {}  {}: {why}\n", paint(word, tone, style), archive.file))
}

/// The same for other programs; numbers keep all their digits.
pub(super) fn json(folder: &Path, archives: &[Shelved]) -> String {
    #[derive(Serialize)]
    struct Shelf<'a> {
        format: u32,
        folder: String,
        archives: Vec<Archive<'a>>,
    }
    #[derive(Serialize)]
    struct Archive<'a> {
        file: &'a str,
        state: &'static str,
        #[serde(flatten)]
        row: Option<&'a Row>,
        faults: Vec<Fault<'a>>,
    }
    #[derive(Serialize)]
    struct Fault<'a> {
        code: &'a str,
        message: &'a str,
    }
    let archive = |it: &'_ Shelved| -> (&'static str, Vec<(String, String)>) {
        match &it.state {
            State::Sound(_) => ("sound", Vec::new()),
            State::Newer(why) => ("newer", vec![("archive.format-newer".to_owned(), why.clone())]),
            State::Damaged(faults) => ("damaged", faults.clone()),
        }
    };
    let told: Vec<_> = archives.iter().map(archive).collect();
    let archives = archives.iter().zip(&told).map(|(it, (state, faults))| Archive {
        file: &it.file,
        state,
        row: match &it.state {
            State::Sound(row) => Some(row),
            _ => None,
        },
        faults: faults.iter().map(|(code, message)| Fault { code, message }).collect(),
    });
    let all = Shelf {
        format: FORMAT,
        folder: folder.display().to_string(),
        archives: archives.collect(),
    };
    serde_json::to_string_pretty(&all).expect("plain structs serialize") + "\n"
}
