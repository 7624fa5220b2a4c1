//! Designs as people write them, for checks that begin at the files.

use std::fs;

use sectionwright::check::{Finding, Verdict};
use sectionwright::design::{Library, load};
use sectionwright::diagnostic::{Style, render};
use sectionwright::scene::{Examination, examine};
use sectionwright::section::Section;

/// What the first of some files, by name and text, describes; the others lie beside it.
pub fn written(files: &[(&str, &str)]) -> Section {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    let first = folder.path().join(files[0].0).display().to_string();
    match load(&Library::default(), &first) {
        Ok(resolved) => resolved.section,
        Err(failure) => {
            let said = render(&failure.diagnostics, &failure.sources, Style::Plain);
            panic!("{said}\n{}", files[0].1)
        }
    }
}

/// The demo with so much added or changed.
pub fn like_the_demo(text: &str) -> Section {
    written(&[("pen.toml", &format!("format = 1\nlike = \"demo\"\n{text}"))])
}

/// Examined, and printed.
pub fn examined(section: &Section) -> Examination {
    let examination = examine(section).unwrap();
    for finding in &examination.findings {
        let verdict = finding.verdict().map_or("-".to_owned(), |verdict| verdict.to_string());
        println!("{:26} {:10.5} {:6} {verdict}", finding.code, finding.measured, finding.unit);
        if let Some(note) = &finding.note {
            println!("    {note}");
        }
    }
    examination
}

/// The finding of a code.
pub fn found<'a>(examination: &'a Examination, code: &str) -> &'a Finding {
    examination.finding(code).unwrap_or_else(|| panic!("no {code}"))
}

/// A detail of a finding.
pub fn said(examination: &Examination, code: &str, detail: &str) -> f64 {
    let finding = found(examination, code);
    finding.detail(detail).unwrap_or_else(|| panic!("{code} has no {detail}: {finding:?}"))
}

pub fn verdict(examination: &Examination, code: &str) -> Verdict {
    found(examination, code).verdict().unwrap_or_else(|| panic!("{code} is not judged"))
}
