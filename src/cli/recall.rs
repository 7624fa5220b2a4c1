//! `recall`: an archive verified, made again with this program, and what differs.

use std::path::{Path, PathBuf};

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::{Screen, print};
use crate::archive::kept::Kept;
use crate::diagnostic::{Style, Tone, paint};
use crate::drawing::CAUTION;
use crate::export::RecordChange;
use crate::job::recall::{self, Differences, Recalled, Request};

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

/// Verifies an archive, makes it again from its own files, and says what differs.
pub(super) fn recall(typed: Typed, screen: Screen) -> Outcome {
    let Typed { file, to, json } = typed;
    let progress = Progress::start(screen.quiet() || json);
    let request = Request { file, to };
    let recalled = recall::recall(&request, &progress);
    drop(progress);
    let Recalled { kept, differences, said: heard } = match recalled {
        Ok(recalled) => recalled,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&heard);
    if json {
        let text = serde_json::to_string_pretty(&differences).expect("plain structs serialize");
        print(&(text + "\n"));
    } else {
        screen.say(&said(&kept, &differences, request.to.as_deref(), screen.style()));
    }
    let differs = !differences.geometry.is_empty() || differences.worse;
    if differs { Outcome::Breaks } else { Outcome::Fine }
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
