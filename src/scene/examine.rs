//! All that is found on a section.

use super::room::Room;
use super::{Scene, advice, opening};
use crate::check::{self, Finding, Verdict, add_curves, tell};
use crate::section::Section;
use crate::solid::{BuildError, build};

/// All findings on a section.
#[derive(Clone, Debug, PartialEq)]
pub struct Examination {
    /// In the order of [`check::list`]; zones that the section does not have are left out.
    pub findings: Vec<Finding>,
    /// How far each size that is made may be off, where that was asked for ([`Scene::room`]).
    pub room: Vec<Room>,
}

impl Examination {
    /// The finding of a code.
    pub fn finding(&self, code: &str) -> Option<&Finding> {
        self.findings.iter().find(|finding| finding.code == code)
    }

    /// The worst verdict of all.
    pub fn verdict(&self) -> Verdict {
        self.findings.iter().filter_map(Finding::verdict).max().unwrap_or(Verdict::Holds)
    }
}

impl Scene {
    /// Every verdict, and for each that does not hold a change that makes it hold; the wall along z,
    /// and what is told for information.
    ///
    /// Expects a section without [`crate::section::faults`].
    ///
    /// # Errors
    /// [`BuildError`]: the section's solid does not close.
    pub fn examine(&self) -> Result<Examination, BuildError> {
        // Lines are measured; that they are those of a closed solid is seen once.
        build(&self.section.part())?;
        let mut findings = self.findings();
        advice::advise(self, &mut findings);
        opening::name(&self.section, &mut findings);
        findings.extend(tell(&self.bodies.model(&self.section)));
        add_curves(&self.section, self.bodies.part(), &mut findings);
        let order = check::list();
        findings.sort_by_key(|finding| order.iter().position(|check| check.code == finding.code));
        Ok(Examination { findings, room: Vec::new() })
    }
}

/// [`Scene::examine`] of a section by itself.
///
/// # Errors
/// As [`Scene::of`] and [`Scene::examine`].
pub fn examine(section: &Section) -> Result<Examination, BuildError> {
    Scene::of(section)?.examine()
}

/// The verdicts alone: without advice, without the curves of the wall along z.
///
/// # Errors
/// As [`Scene::of`].
pub fn verdicts(section: &Section) -> Result<Examination, BuildError> {
    Ok(Examination { findings: Scene::of(section)?.findings(), room: Vec::new() })
}
