//! `recall`: an archive verified, made again with this program, and what differs.

use std::path::{Path, PathBuf};

use super::keep::refused;
use super::make::{self, produce::produce};
use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::{Screen, print};
use crate::archive::kept::Kept;
use crate::archive::{Standing, unpack};
use crate::design::{Asked, Kind, Library};
use crate::diagnostic::{Diagnostic, Sources, Style, Tone, paint};
use crate::drawing::CAUTION;
use crate::export::{Record, RecordChange, geometry_changes, is_worse, verdict_changes};

/// What is asked of [`recall`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// An archive that `keep` made
    file: PathBuf,
    /// Unpack it into this folder, which must not be there yet
    #[arg(long, value_name = "FOLDER")]
    to: Option<PathBuf>,
    /// Print what differs as JSON
    #[arg(long)]
    json: bool,
}

/// What became of an archive made again.
#[derive(Debug, Default, serde::Serialize)]
struct Differences {
    format: u32,
    name: String,
    tool_then: String,
    tool_now: &'static str,
    geometry: Vec<RecordChange>,
    verdicts: Vec<RecordChange>,
    bytes: Vec<String>,
    worse: bool,
}

/// Verifies an archive, makes it again from its own files, and says what differs.
pub(super) fn recall(typed: &Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet() || typed.json);
    progress.step("verifying the archive");
    let kept = match Kept::open_file(&typed.file) {
        Ok(kept) => kept,
        Err(faults) => {
            screen.diagnostics(&faults, &Sources::default());
            return Outcome::Wrong;
        }
    };
    if let Some(note) = renamed(&kept, &typed.file).filter(|_| !screen.quiet()) {
        screen.diagnostics(&[note], &Sources::default());
    }
    if let Some(folder) = &typed.to {
        progress.step("unpacking");
        if let Err(error) = unpack(folder, &kept.unpacked()) {
            return refused(&error, screen);
        }
    }
    let differences = match again(&kept, &progress, screen.without_notes()) {
        Ok(differences) => differences,
        Err(outcome) => return outcome,
    };
    drop(progress);
    if typed.json {
        let text = serde_json::to_string_pretty(&differences).expect("plain structs serialize");
        print(&(text + "\n"));
    } else {
        screen.say(&said(&kept, &differences, typed.to.as_deref(), screen.style()));
    }
    let differs = !differences.geometry.is_empty() || differences.worse;
    if differs { Outcome::Breaks } else { Outcome::Fine }
}

/// That a file has not the name that it was kept under.
fn renamed(kept: &Kept, file: &Path) -> Option<Diagnostic> {
    let name = file.file_name()?.to_string_lossy().into_owned();
    (!kept.is_called(&name)).then(|| {
        let message = format!("{name} is not the name that the archive was kept under");
        Diagnostic::note("archive.renamed", message)
    })
}

/// Makes it again, with the files and the words in the archive.
fn again(kept: &Kept, progress: &Progress, screen: Screen) -> Result<Differences, Outcome> {
    let asked = &kept.manifest.asked;
    let written = kept.written();
    let design = written.asked(Kind::Design).unwrap_or_default().to_owned();
    let library = Library::of_written(written);
    let drawing = make::Drawing {
        sheet: asked.sheet.clone(),
        scale: asked.scale.clone(),
        units: asked.units.clone(),
    };
    let request = make::Request {
        design: &design,
        out: Path::new(""),
        chord: asked.chord,
        only: asked.only.as_deref(),
        drawing: &drawing,
        parts: &asked.parts,
        asked: Asked { limits: &asked.limits, rack: asked.rack.as_deref() },
        tools: false,
    };
    let impossible = || {
        let name = &kept.manifest.name;
        let message = format!("{name} is sound, but this program can't make it from its files");
        let hint = format!("version {} made it; `--to FOLDER` unpacks it", kept.manifest.tool);
        let told = Diagnostic::error("recall.not-made", message).hint(hint);
        screen.diagnostics(&[told], &Sources::default());
        Outcome::Breaks
    };
    let prepared = make::prepared(&library, &request, screen).ok_or_else(impossible);
    let (resolved, wanted) = prepared?;
    let made = produce(&resolved, wanted, asked.chord, &Standing::default(), progress);
    let made = made.map_err(|(code, message)| {
        screen.complain(code, message);
        impossible()
    })?;
    let now = Record::new(&resolved.section, &made.examination);
    let mut differences = Differences {
        format: 1,
        name: kept.manifest.name.clone(),
        tool_then: kept.manifest.tool.clone(),
        tool_now: env!("CARGO_PKG_VERSION"),
        ..Differences::default()
    };
    if let Some(then) = kept.record() {
        differences.geometry = geometry_changes(&then, &now);
        differences.verdicts = verdict_changes(&then, &now);
        differences.worse = is_worse(&then, &now);
    }
    let of_now = |name: &str| made.files.iter().find(|file| file.name == name);
    let mut bytes: Vec<String> = kept
        .exports()
        .filter(|(name, bytes)| of_now(name).is_none_or(|file| file.bytes != *bytes))
        .map(|(name, _)| name.to_owned())
        .collect();
    let new = made.files.iter().filter(|file| kept.exports().all(|(name, _)| name != file.name));
    bytes.extend(new.map(|file| file.name.clone()));
    differences.bytes = bytes;
    Ok(differences)
}

/// What a maker reads.
fn said(kept: &Kept, found: &Differences, to: Option<&Path>, style: Style) -> String {
    let manifest = &kept.manifest;
    let date = manifest.summary.date.as_ref();
    let when = date.map_or(String::new(), |date| format!(", kept on {date}"));
    let head = format!(
        "{}: unit {:?}, {}{when}",
        found.name, manifest.summary.unit, manifest.summary.material
    );
    let mut text = format!("{}\n", paint(&head, Tone::Strong, style));
    text += &format!("{} files, every byte as it was kept\n", kept.files.len() + 1);
    for note in kept.notes() {
        text += &format!("note: {}\n", note.replace('\n', "\n      "));
    }
    let photos: Vec<&str> = kept.photos().collect();
    if !photos.is_empty() {
        text += &format!("photographs: {}\n", photos.join(", "));
    }
    if let Some(folder) = to {
        text += &format!("unpacked to {}\n", folder.display());
    }
    let (words, tone) = match (found.geometry.is_empty(), found.bytes.is_empty()) {
        (false, _) => ("Made again: the geometry differs", Tone::Bad),
        (true, false) => {
            ("Made again: the geometry is the same, bytes of files differ", Tone::Good)
        }
        (true, true) => ("Made again: nothing differs", Tone::Good),
    };
    let versions = if found.tool_then == found.tool_now {
        String::new()
    } else {
        format!(" (version {} then, {} now)", found.tool_then, found.tool_now)
    };
    text += &format!("\n{}{versions}\n", paint(words, tone, style));
    text += &changes("", &found.geometry);
    if !found.verdicts.is_empty() {
        text += &format!("{}\n", paint("Verdicts that differ", Tone::Watch, style));
        text += &changes("", &found.verdicts);
    }
    if !found.bytes.is_empty() {
        text += &format!("Files that differ: {}\n", found.bytes.join(", "));
    }
    format!("{text}\n{CAUTION}\n")
}

fn changes(indent: &str, changes: &[RecordChange]) -> String {
    let line = |change: &RecordChange| {
        let side = |value: &Option<String>| value.clone().unwrap_or_else(|| "none".to_owned());
        let by = change.by.as_ref().map_or(String::new(), |by| format!(" ({by})"));
        format!(
            "{indent}  {}: {} then, {} now{by}\n",
            change.what,
            side(&change.was),
            side(&change.is)
        )
    };
    changes.iter().map(line).collect()
}
