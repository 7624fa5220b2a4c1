//! An archive verified, made again with this program, and what differs.

use std::path::{Path, PathBuf};

use super::keep::refused;
use super::make::{self, produce};
use super::stopped::{Said, Stopped, Why};
use super::watch::{Watch, step};
use crate::archive::kept::Kept;
use crate::archive::{Standing, unpack};
use crate::design::{Kind, Library};
use crate::diagnostic::Diagnostic;
use crate::export::{Record, RecordChange, geometry_changes, is_worse, verdict_changes};

/// What is asked of [`recall`].
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Request {
    /// An archive that [`super::keep::keep`] made.
    pub file: PathBuf,
    /// A folder, which must not be there yet, to unpack it into.
    pub to: Option<PathBuf>,
}

/// What became of an archive made again.
#[derive(Clone, Debug, Default, serde::Serialize)]
pub struct Differences {
    /// The version of its form as JSON.
    pub format: u32,
    /// The design's name.
    pub name: String,
    /// The version of the program that kept it.
    pub tool_then: String,
    /// This program's version.
    pub tool_now: &'static str,
    /// Sizes and outlines that differ.
    pub geometry: Vec<RecordChange>,
    /// Verdicts that differ.
    pub verdicts: Vec<RecordChange>,
    /// Files of which bytes differ.
    pub bytes: Vec<String>,
    /// Whether a verdict is worse.
    pub worse: bool,
}

/// An archive, and what became of it.
pub struct Recalled {
    /// The archive.
    pub kept: Kept,
    /// What differs.
    pub differences: Differences,
    /// What is said of the file.
    pub said: Vec<Said>,
}

/// Verifies an archive, makes it again from its own files, and finds what differs.
///
/// # Errors
/// The file is damaged or no archive, it can't be unpacked there, or ([`Why::NotMade`]) this program
/// can't make it any more.
pub fn recall(request: &Request, watch: &dyn Watch) -> Result<Recalled, Stopped> {
    step(watch, "verifying the archive")?;
    let kept = Kept::open_file(&request.file);
    let kept = kept.map_err(|faults| Stopped::wrong(vec![Said::of_request(faults)]))?;
    let said = vec![Said::of_request(renamed(&kept, &request.file).into_iter().collect())];
    if let Some(folder) = &request.to {
        step(watch, "unpacking")?;
        unpack(folder, &kept.unpacked()).map_err(|error| refused(&error).after(&said))?;
    }
    let differences = again(&kept, watch).map_err(|stopped| stopped.after(&said))?;
    Ok(Recalled { kept, differences, said })
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
fn again(kept: &Kept, watch: &dyn Watch) -> Result<Differences, Stopped> {
    let asked = &kept.manifest.asked;
    let written = kept.written();
    let design = written.asked(Kind::Design).unwrap_or_default().to_owned();
    let library = Library::of_written(written);
    let request = make::Request {
        chord: asked.chord,
        only: asked.only.clone(),
        drawing: make::Drawing {
            sheet: asked.sheet.clone(),
            scale: asked.scale.clone(),
            units: asked.units.clone(),
        },
        parts: asked.parts.clone(),
        limits: asked.limits.clone(),
        rack: asked.rack.clone(),
        ..make::Request::of(design, PathBuf::new())
    };
    let impossible = |said: Vec<Said>| {
        let name = &kept.manifest.name;
        let message = format!("{name} is sound, but this program can't make it from its files");
        let hint = format!("version {} made it; `--to FOLDER` unpacks it", kept.manifest.tool);
        let told = Diagnostic::error("recall.not-made", message).hint(hint);
        Stopped::by(Why::NotMade, said, told)
    };
    let mut said = Vec::new();
    let Some((resolved, wanted)) = make::prepared(&library, &request, &mut said) else {
        said.iter_mut().for_each(Said::keep_errors);
        return Err(impossible(said));
    };
    let products = produce(&resolved, wanted, asked.chord, &Standing::default(), watch);
    let products = products.map_err(|stopped| match stopped.why {
        Why::Cancelled => stopped,
        _ => impossible(stopped.said),
    })?;
    let now = Record::new(&resolved.section, &products.examination);
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
    let of_now = |name: &str| products.files.iter().find(|file| file.name == name);
    let mut bytes: Vec<String> = kept
        .exports()
        .filter(|(name, bytes)| of_now(name).is_none_or(|file| file.bytes != *bytes))
        .map(|(name, _)| name.to_owned())
        .collect();
    let new =
        products.files.iter().filter(|file| kept.exports().all(|(name, _)| name != file.name));
    bytes.extend(new.map(|file| file.name.clone()));
    differences.bytes = bytes;
    Ok(differences)
}
