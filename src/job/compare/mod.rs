//! Two pens side by side, and whether both go into one barrel and cap.

mod found;

pub use found::{Comparison, Difference, goes};

use std::fs;
use std::path::{Path, PathBuf};

use super::picture;
use super::read::{Reading, design_or_archive};
use super::stopped::{Said, Stopped, Why};
use super::watch::{Watch, step};
use crate::design::Library;
use crate::diagnostic::Diagnostic;
use crate::drawing::half_section::pair_sheet;
use crate::scene::verdicts;

/// What is asked of [`compare`].
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Request {
    /// A design's file or name, or an archive.
    pub a: String,
    /// The other, which is to match it.
    pub b: String,
    /// Where both are drawn over each other; without it a file of their names in `out`.
    pub picture: Option<PathBuf>,
}

/// What was found of two pens.
pub struct Compared {
    /// What differs, and what to change.
    pub comparison: Comparison,
    /// Where they are drawn.
    pub picture: PathBuf,
}

/// Finds what two pens differ in, whether their sections can be exchanged, and what to change so
/// that they can; draws them over each other.
///
/// # Errors
/// Everything that is wrong with either, or with the picture's place.
pub fn compare(
    library: &Library,
    request: &Request,
    watch: &dyn Watch,
) -> Result<Compared, Stopped> {
    step(watch, "reading the designs")?;
    let mut said = Vec::new();
    let [a, b] = [&request.a, &request.b]
        .map(|name| design_or_archive(library, name, Reading::ErrorsAlone, &mut said));
    let (Some(a), Some(b)) = (a, b) else { return Err(Stopped::wrong(said)) };
    step(watch, "putting each into the other's barrel and cap")?;
    let measured = [&a, &b].map(|one| {
        let told = |fault: Box<Diagnostic>| said.push(Said::one(*fault, &one.sources));
        one.attempt(verdicts).map_err(told).ok()
    });
    let [Some(of_a), Some(of_b)] = measured else { return Err(Stopped::wrong(said)) };
    let comparison = Comparison::new([a.section, b.section], [of_a, of_b]);
    step(watch, "drawing")?;
    let [first, second] = comparison.sections();
    let path = request.picture.clone().unwrap_or_else(|| {
        Path::new("out").join(format!("compare-{}-{}.svg", first.name, second.name))
    });
    if let Some(folder) = path.parent().filter(|_| request.picture.is_none())
        && let Err(error) = fs::create_dir_all(folder)
    {
        let message = format!("{}: {error}", folder.display());
        let told = Diagnostic::error("archive.not-written", message);
        return Err(Stopped::by(Why::Failed, said, told));
    }
    let sheet = pair_sheet([first, second], &comparison.rows());
    picture::draw(&path, &sheet)?;
    Ok(Compared { comparison, picture: path })
}
