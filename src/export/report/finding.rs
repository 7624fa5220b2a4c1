//! What the checks found, as the report has it.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::check::{Advice, Bound, Change, Finding, Judgement, Place, Series, Spot};
use crate::design::Write;
use crate::scene::Examination;

/// A measure with a limit.
#[derive(Serialize)]
pub(super) struct Check {
    code: &'static str,
    verdict: String,
    measured: f64,
    unit: &'static str,
    error: f64,
    worst: f64,
    uncertainty: f64,
    band: f64,
    limit: f64,
    limit_is: &'static str,
    limit_source: String,
    margin: f64,
    r#where: Option<Where>,
    #[serde(skip_serializing_if = "Option::is_none")]
    where_worst: Option<Where>,
    note: Option<String>,
    advice: Option<String>,
    change: Option<ChangePart>,
    means: Option<String>,
    details: BTreeMap<String, f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    series: Option<SeriesPart>,
}

/// The change that makes a measure hold.
#[derive(Serialize)]
struct ChangePart {
    size: String,
    dimension: String,
    from_mm: f64,
    to_mm: f64,
    write: Vec<WritePart>,
}

/// A key of the design's file with its number.
#[derive(Serialize)]
struct WritePart {
    key: String,
    value: f64,
    inherited: bool,
}

/// A measure without one.
#[derive(Serialize)]
pub(super) struct Information {
    code: &'static str,
    measured: f64,
    unit: &'static str,
    error: f64,
    r#where: Option<Where>,
    #[serde(skip_serializing_if = "Option::is_none")]
    where_worst: Option<Where>,
    note: Option<String>,
    details: BTreeMap<String, f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    series: Option<SeriesPart>,
}

/// A measure along the part, as columns.
#[derive(Serialize)]
struct SeriesPart {
    name: &'static str,
    unit: &'static str,
    along: &'static str,
    along_unit: &'static str,
    at: Vec<f64>,
    value: Vec<f64>,
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

/// What an examination found, as the report has it.
pub(super) fn findings(examination: &Examination) -> (Vec<Check>, Vec<Information>) {
    let (mut checks, mut information) = (Vec::new(), Vec::new());
    for finding in &examination.findings {
        match check(finding) {
            Some(check) => checks.push(check),
            None => information.push(Information {
                code: finding.code,
                measured: finding.measured,
                unit: finding.unit,
                error: finding.error,
                r#where: finding.place.map(place),
                where_worst: finding.worst_place.map(place),
                note: finding.note.clone(),
                details: details(finding),
                series: finding.series.as_ref().map(series),
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
        band: judged.band,
        limit: judged.limit,
        limit_is: match judged.bound {
            Bound::AtLeast => "least",
            Bound::AtMost => "greatest",
        },
        limit_source: judged.limit_source.clone(),
        margin: judged.margin,
        r#where: finding.place.map(place),
        where_worst: finding.worst_place.map(place),
        note: finding.note.clone(),
        advice: judged.advice.map(|advice| advice.to_string()),
        change: change(judged),
        means: judged.means.clone(),
        details: details(finding),
        series: finding.series.as_ref().map(series),
    })
}

fn change(judged: &Judgement) -> Option<ChangePart> {
    let Some(Advice::Change(Change { parameter, from, to })) = judged.advice else { return None };
    let write = |write: &Write| WritePart {
        key: write.key.clone(),
        value: write.value,
        inherited: write.inherited,
    };
    Some(ChangePart {
        size: parameter.name(),
        dimension: parameter.to_string(),
        from_mm: from,
        to_mm: to,
        write: judged.write.iter().map(write).collect(),
    })
}

fn place(place: Place) -> Where {
    let spot = |spot: Spot| SpotPart {
        feature: spot.feature.to_string(),
        diameter_mm: spot.r * 2.0,
        z_mm: spot.z,
    };
    Where { z_mm: place.z(), inner: spot(place.inner), outer: spot(place.outer) }
}

fn details(finding: &Finding) -> BTreeMap<String, f64> {
    finding.details.iter().map(|d| (format!("{} ({})", d.name, d.unit), d.value)).collect()
}

fn series(of: &Series) -> SeriesPart {
    SeriesPart {
        name: of.name,
        unit: of.unit,
        along: of.along,
        along_unit: of.along_unit,
        at: of.points.iter().map(|[at, _]| *at).collect(),
        value: of.points.iter().map(|[_, value]| *value).collect(),
    }
}
