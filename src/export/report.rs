//! `report.json`: what was measured, for other programs. `report.schema.json` is its schema.
//!
//! Numbers keep all their digits; people's rounding is the screen's and the sheet's matter.

use std::collections::BTreeMap;
use std::fmt::Write;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::{Earlier, File};
use crate::check::{Bound, Examination, Finding, Spot};
use crate::mesh::{Audit, Mesh};
use crate::section::Section;
use crate::solid::Body;

/// The version of the report's form; it grows when a key changes its meaning or goes.
pub const FORMAT: u32 = 1;

#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    name: &'a str,
    unit: &'a str,
    material: &'a str,
    section_sha256: String,
    solid: SolidPart,
    plain: SolidPart,
    mesh: Option<MeshPart>,
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

/// What is said of the mesh.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub(super) struct MeshPart {
    triangles: usize,
    volume_mm3: f64,
    chord_error_mm: f64,
    closed: bool,
    genus: i64,
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

/// Where what is said of the mesh comes from.
pub(super) enum Measured<'a> {
    /// From the mesh.
    Now(&'a Mesh, Audit),
    /// From the report of an earlier set, whose STL still stands.
    Earlier(&'a Earlier),
}

impl From<Measured<'_>> for Option<MeshPart> {
    fn from(measured: Measured) -> Self {
        match measured {
            Measured::Now(mesh, audit) => Some(MeshPart {
                triangles: mesh.triangles.len(),
                volume_mm3: audit.volume,
                chord_error_mm: mesh.chord_error,
                // A mesh that is not closed is never handed out.
                closed: true,
                genus: audit.genus,
            }),
            Measured::Earlier(report) => report.mesh(),
        }
    }
}

/// The report of a section's solids (with threads and without), mesh, files and checks.
pub(super) fn report(
    section: &Section,
    [body, plain]: [&Body; 2],
    mesh: Option<Measured>,
    files: &[File],
    examination: &Examination,
) -> String {
    let (checks, information) = findings(examination);
    json(&Report {
        format: FORMAT,
        name: &section.name,
        unit: &section.unit.name,
        material: &section.material,
        section_sha256: digest_of(section),
        solid: solid(body),
        plain: solid(plain),
        mesh: mesh.and_then(Option::from),
        files: files.iter().map(|file| (file.name.as_str(), digest(&file.bytes))).collect(),
        checks,
        information,
    })
}

fn solid(body: &Body) -> SolidPart {
    let exact = body.measures();
    SolidPart {
        volume_mm3: exact.volume,
        area_mm2: exact.area,
        centroid_mm: exact.centroid,
        bounds_mm: BoundsPart { min: exact.bounds.min, max: exact.bounds.max },
    }
}

/// What a set is made from: the resolved section, all its digits, and this program's version.
pub(super) fn digest_of(section: &Section) -> String {
    digest(format!("{} {section:?}", env!("CARGO_PKG_VERSION")).as_bytes())
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
pub(super) fn digest(bytes: &[u8]) -> String {
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
