//! Two pens side by side, for other programs; numbers keep all their digits.

use serde::Serialize;

use crate::check::{FactValue, Finding, Verdict};
use crate::job::compare::{Comparison, Difference, goes};
use crate::scene::{Adjusted, Fit, Step, Unfit};

/// The version of the form; it grows when a key changes its meaning or goes.
const FORMAT: u32 = 1;

#[derive(Serialize)]
struct ComparisonPart {
    format: u32,
    a: String,
    b: String,
    interchange: bool,
    same_outside: bool,
    b_in_a: FitPart,
    a_in_b: FitPart,
    change_section: Option<Vec<StepPart>>,
    change_mates: Option<Vec<StepPart>>,
    change_outside: Option<Vec<StepPart>>,
    verdicts: Vec<VerdictPart>,
    differences: Vec<DifferencePart>,
}

#[derive(Serialize)]
struct FitPart {
    fits: bool,
    verdict: Option<String>,
    refused: Option<String>,
    cap: bool,
    breaks: Vec<&'static str>,
    close: Vec<&'static str>,
}

#[derive(Serialize)]
struct StepPart {
    said: String,
    key: Option<String>,
    from_mm: Option<f64>,
    to_mm: Option<f64>,
}

#[derive(Serialize)]
struct VerdictPart {
    code: &'static str,
    a: Option<String>,
    b: Option<String>,
}

#[derive(Serialize)]
struct DifferencePart {
    name: String,
    what: String,
    unit: &'static str,
    a: Option<SidePart>,
    b: Option<SidePart>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum SidePart {
    Number(f64),
    Words(String),
}

/// The comparison as JSON.
pub(super) fn json(comparison: &Comparison) -> String {
    let [a, b] = comparison.sections().map(|section| section.name.clone());
    let [b_in_a, a_in_b] = comparison.fits.each_ref().map(fitted);
    let steps = |adjusted: &Option<Adjusted>| {
        adjusted.as_ref().map(|it| it.steps.iter().map(step).collect())
    };
    let verdict = |it: Option<&Finding>| it.and_then(Finding::verdict).map(|it| it.to_string());
    let verdicts = comparison.verdicts().into_iter().map(|[a, b]| VerdictPart {
        code: a.or(b).map_or("", |finding| finding.code),
        a: verdict(a),
        b: verdict(b),
    });
    let all = ComparisonPart {
        format: FORMAT,
        a,
        b,
        interchange: comparison.interchange(),
        same_outside: comparison.same_outside,
        b_in_a,
        a_in_b,
        change_section: steps(&comparison.section_change),
        change_mates: steps(&comparison.mates_change),
        change_outside: steps(&comparison.outside_change),
        verdicts: verdicts.collect(),
        differences: comparison.differences().into_iter().map(difference).collect(),
    };
    serde_json::to_string_pretty(&all).expect("plain structs serialize") + "\n"
}

fn fitted(fit: &Result<Fit, Unfit>) -> FitPart {
    let codes = |verdict| {
        let found = fit.iter().flat_map(|fit| fit.of(verdict));
        found.map(|finding| finding.code).collect()
    };
    FitPart {
        fits: goes(fit),
        verdict: fit.as_ref().ok().map(|fit| fit.verdict().to_string()),
        refused: fit.as_ref().err().map(ToString::to_string),
        cap: fit.as_ref().is_ok_and(|fit| fit.cap),
        breaks: codes(Verdict::Breaks),
        close: codes(Verdict::Close),
    }
}

fn step(step: &Step) -> StepPart {
    let (key, sizes) = match step {
        Step::Size { parameter, from, to } => (Some(parameter.name()), Some([*from, *to])),
        Step::Thread { .. } => (None, None),
    };
    let [from_mm, to_mm] = [0, 1].map(|n| sizes.map(|sizes| sizes[n]));
    StepPart { said: step.to_string(), key, from_mm, to_mm }
}

fn difference(Difference { name, what, unit, sides, .. }: Difference) -> DifferencePart {
    let [a, b] = sides.map(|side| {
        Some(match side? {
            FactValue::Number(number) => SidePart::Number(number),
            FactValue::Words(words) => SidePart::Words(words),
            FactValue::One(choice) => SidePart::Words(choice.name().to_owned()),
        })
    });
    DifferencePart { name, what, unit, a, b }
}
