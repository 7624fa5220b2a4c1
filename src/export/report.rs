//! `report.json`: what was measured, for other programs. `report.schema.json` is its schema.
//!
//! Numbers keep all their digits; people's rounding is the screen's and the sheet's matter.

use std::collections::BTreeMap;
use std::fmt::Write;

use serde::Serialize;
use sha2::{Digest, Sha256};

use super::{File, MadePart};
use crate::check::{Bound, Chord, Examination, Finding, Spot};
use crate::section::Section;

/// The version of the report's form; it grows when a key changes its meaning or goes.
pub const FORMAT: u32 = 1;

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    name: &'a str,
    unit: &'a str,
    material: &'a str,
    solid: SolidPart,
    mesh: MeshPart,
    parts: Vec<OtherPart<'a>>,
    files: BTreeMap<&'a str, String>,
    checks: Vec<Check>,
    information: Vec<Information>,
}

#[derive(Serialize)]
struct SolidPart {
    volume_mm3: f64,
    area_mm2: f64,
    centroid_mm: [f64; 3],
    bounds_mm: BoundsPart,
}

#[derive(Serialize)]
struct BoundsPart {
    min: [f64; 3],
    max: [f64; 3],
}

#[derive(Serialize)]
struct MeshPart {
    triangles: usize,
    volume_mm3: f64,
    chord_error_mm: f64,
    chord: ChordPart,
    closed: bool,
    genus: i64,
}

#[derive(Serialize)]
struct ChordPart {
    asked_mm: f64,
    in_force_mm: f64,
    tightened_by: Option<ThinnestPart>,
}

#[derive(Serialize)]
struct ThinnestPart {
    feature: String,
    size_mm: f64,
}

#[derive(Serialize)]
struct OtherPart<'a> {
    name: &'a str,
    solid: SolidPart,
    mesh: MeshPart,
}

impl SolidPart {
    fn of(made: &MadePart) -> Self {
        let exact = made.body.measures();
        Self {
            volume_mm3: exact.volume,
            area_mm2: exact.area,
            centroid_mm: exact.centroid,
            bounds_mm: BoundsPart { min: exact.bounds.min, max: exact.bounds.max },
        }
    }
}

impl MeshPart {
    fn of(made: &MadePart) -> Self {
        Self {
            triangles: made.mesh.triangles.len(),
            volume_mm3: made.audit.volume,
            chord_error_mm: made.mesh.chord_error,
            chord: ChordPart::of(&made.chord),
            // A mesh that is not closed is never handed out.
            closed: true,
            genus: made.audit.genus,
        }
    }
}

impl ChordPart {
    fn of(chord: &Chord) -> Self {
        let by = chord.tightened_by.as_ref();
        Self {
            asked_mm: chord.asked,
            in_force_mm: chord.in_force,
            tightened_by: by
                .map(|thin| ThinnestPart { feature: thin.feature.clone(), size_mm: thin.size }),
        }
    }
}

#[derive(Serialize)]
struct Check {
    code: &'static str,
    verdict: String,
    measured: f64,
    unit: &'static str,
    error: f64,
    worst: f64,
    uncertainty: f64,
    limit: f64,
    limit_is: &'static str,
    limit_source: String,
    margin: f64,
    r#where: Option<Where>,
    note: Option<String>,
    advice: Option<String>,
    details: BTreeMap<String, f64>,
}

#[derive(Serialize)]
struct Information {
    code: &'static str,
    measured: f64,
    unit: &'static str,
    error: f64,
    r#where: Option<Where>,
    note: Option<String>,
    details: BTreeMap<String, f64>,
}

#[derive(Serialize)]
struct Where {
    z_mm: f64,
    inner: SpotPart,
    outer: SpotPart,
}

#[derive(Serialize)]
struct SpotPart {
    feature: String,
    diameter_mm: f64,
    z_mm: f64,
}

/// The report of a section's solid, mesh, files and checks, and of the parts beside it.
pub(super) fn report(
    section: &Section,
    made: &MadePart,
    parts: &[MadePart],
    files: &[File],
    examination: &Examination,
) -> String {
    let (checks, information) = findings(examination);
    json(&Report {
        format: FORMAT,
        name: &section.name,
        unit: &section.unit.name,
        material: &section.material,
        solid: SolidPart::of(made),
        mesh: MeshPart::of(made),
        parts: parts
            .iter()
            .map(|part| OtherPart {
                name: &part.name,
                solid: SolidPart::of(part),
                mesh: MeshPart::of(part),
            })
            .collect(),
        files: files.iter().map(|file| (file.name.as_str(), digest(&file.bytes))).collect(),
        checks,
        information,
    })
}

/// The checks alone, as the report has them.
pub fn checks_json(examination: &Examination) -> String {
    #[derive(Serialize)]
    struct Findings {
        format: u32,
        checks: Vec<Check>,
        information: Vec<Information>,
    }
    let (checks, information) = findings(examination);
    json(&Findings { format: FORMAT, checks, information })
}

fn json(value: &impl Serialize) -> String {
    let text = serde_json::to_string_pretty(value).expect("plain structs serialize");
    text + "\n"
}

/// SHA-256 in lower-case hexadecimal.
fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold(String::new(), |mut text, byte| {
        write!(text, "{byte:02x}").expect("writing to memory does not fail");
        text
    })
}

fn findings(examination: &Examination) -> (Vec<Check>, Vec<Information>) {
    let (mut checks, mut information) = (Vec::new(), Vec::new());
    for finding in &examination.findings {
        match check(finding) {
            Some(check) => checks.push(check),
            None => information.push(Information {
                code: finding.code,
                measured: finding.measured,
                unit: finding.unit,
                error: finding.error,
                r#where: place(finding),
                note: finding.note.clone(),
                details: details(finding),
            }),
        }
    }
    (checks, information)
}

fn check(finding: &Finding) -> Option<Check> {
    let judged = finding.judgement.as_ref()?;
    Some(Check {
        code: finding.code,
        verdict: judged.verdict.to_string(),
        measured: finding.measured,
        unit: finding.unit,
        error: finding.error,
        worst: judged.worst,
        uncertainty: judged.uncertainty,
        limit: judged.limit,
        limit_is: match judged.bound {
            Bound::AtLeast => "least",
            Bound::AtMost => "greatest",
        },
        limit_source: judged.limit_source.clone(),
        margin: judged.margin,
        r#where: place(finding),
        note: finding.note.clone(),
        advice: judged.advice.map(|advice| advice.to_string()),
        details: details(finding),
    })
}

fn place(finding: &Finding) -> Option<Where> {
    let spot = |spot: Spot| SpotPart {
        feature: spot.feature.to_string(),
        diameter_mm: spot.r * 2.0,
        z_mm: spot.z,
    };
    let place = finding.place?;
    Some(Where { z_mm: place.z(), inner: spot(place.inner), outer: spot(place.outer) })
}

fn details(finding: &Finding) -> BTreeMap<String, f64> {
    finding.details.iter().map(|d| (format!("{} ({})", d.name, d.unit), d.value)).collect()
}
