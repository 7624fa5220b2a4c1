//! A section as made, for other programs; numbers keep all their digits.

use std::collections::BTreeMap;

use serde::Serialize;

use super::cut;
use super::remedy::in_words;
use crate::check::{Finding, Verdict};
use crate::scene::Room;
use crate::section::{Cut, Section};
use crate::shop::as_made::{AsMade, MadeSize, Measured, Remedy, Rescue, step_word};
use crate::size::SizeId;

/// The version of the form; it grows when a key changes its meaning or goes.
const FORMAT: u32 = 1;

#[derive(Serialize)]
struct AsMadePart {
    format: u32,
    name: String,
    breaks: bool,
    set: Vec<SizePart>,
    done: Vec<String>,
    rod_leaves: Option<LeftPart>,
    impossible: Vec<FaultPart>,
    worse: Vec<ShiftPart>,
    better: Vec<ShiftPart>,
    same: Vec<ShiftPart>,
    rescues: Vec<RescuePart>,
    remaining: Vec<CutPart>,
}

#[derive(Serialize)]
struct SizePart {
    key: String,
    dimension: String,
    drawn_mm: f64,
    made_mm: f64,
    room_less_mm: Option<f64>,
    room_more_mm: Option<f64>,
}

#[derive(Serialize)]
struct LeftPart {
    key: String,
    mm: f64,
}

#[derive(Serialize)]
struct FaultPart {
    code: &'static str,
    message: String,
}

#[derive(Serialize)]
struct MeasurePart {
    verdict: String,
    measured: f64,
    worst: f64,
    margin: f64,
}

#[derive(Serialize)]
struct ShiftPart {
    code: &'static str,
    unit: &'static str,
    limit: f64,
    drawn: Option<MeasurePart>,
    now: MeasurePart,
}

#[derive(Serialize)]
struct RescuePart {
    remedy: &'static str,
    said: String,
    key: Option<String>,
    from_mm: Option<f64>,
    to_mm: Option<f64>,
    off_mm: Option<f64>,
    checks: Vec<ShiftPart>,
    remaining: Vec<CutPart>,
}

#[derive(Serialize)]
struct CutPart {
    step: String,
    said: String,
    mm: BTreeMap<&'static str, f64>,
}

/// The whole of it.
pub(super) fn json(section: &Section, made: &AsMade, rooms: &[Room]) -> String {
    let faults = match &made.made {
        Measured::Impossible(faults) => faults.as_slice(),
        Measured::Verdicts(_) => &[],
    };
    let fault = |fault: &crate::shop::as_made::Fault| FaultPart {
        code: fault.code,
        message: fault.message.clone(),
    };
    let part = AsMadePart {
        format: FORMAT,
        name: section.name.clone(),
        breaks: made.made.breaks(),
        set: made.sizes.iter().map(|size| size_part(size, rooms)).collect(),
        done: made.done.iter().map(|step| step_word(*step)).collect(),
        rod_leaves: made
            .rod_leaves
            .map(|(size, left)| LeftPart { key: size.name(), mm: left.as_mm() }),
        impossible: faults.iter().map(fault).collect(),
        worse: shifts(made.worse()),
        better: shifts(made.better()),
        same: shifts(made.same()),
        rescues: made.rescues.iter().map(|rescue| rescue_part(rescue, made)).collect(),
        remaining: cuts(&made.remaining),
    };
    let text = serde_json::to_string_pretty(&part).expect("plain structs serialize");
    text + "\n"
}

fn size_part(size: &MadeSize, rooms: &[Room]) -> SizePart {
    let room = rooms.iter().find(|room| room.parameter == size.parameter);
    SizePart {
        key: size.parameter.name(),
        dimension: size.parameter.to_string(),
        drawn_mm: size.drawn.as_mm(),
        made_mm: size.made.as_mm(),
        room_less_mm: room.and_then(|room| room.less.as_ref()).map(|side| side.room),
        room_more_mm: room.map(|room| room.more.room),
    }
}

fn measure(finding: &Finding) -> Option<MeasurePart> {
    let judged = finding.judgement.as_ref()?;
    Some(MeasurePart {
        verdict: Verdict::to_string(&judged.verdict),
        measured: finding.measured,
        worst: judged.worst,
        margin: judged.margin,
    })
}

fn shift(drawn: Option<&Finding>, now: &Finding) -> Option<ShiftPart> {
    let limit = now.judgement.as_ref()?.limit;
    let (drawn, measured) = (drawn.and_then(measure), measure(now)?);
    Some(ShiftPart { code: now.code, unit: now.unit, limit, drawn, now: measured })
}

fn shifts(moved: Vec<(Option<&Finding>, &Finding)>) -> Vec<ShiftPart> {
    moved.into_iter().filter_map(|(drawn, now)| shift(drawn, now)).collect()
}

fn rescue_part(rescue: &Rescue, made: &AsMade) -> RescuePart {
    let written = |parameter: SizeId, mm| parameter.as_written(&made.section, mm);
    let findings = rescue.examination.findings.iter();
    let checks = findings.filter_map(|now| shift(made.drawn.finding(now.code), now)).collect();
    let (change, off) = match rescue.remedy {
        Remedy::Change(change) => (Some(change), None),
        Remedy::FaceBack { off } => (None, Some(off)),
    };
    RescuePart {
        remedy: if change.is_some() { "change" } else { "face-back" },
        said: in_words(&made.section, &rescue.remedy),
        key: change.map(|change| change.parameter.name()),
        from_mm: change.map(|change| written(change.parameter, change.from)),
        to_mm: change.map(|change| written(change.parameter, change.to)),
        off_mm: off.map(crate::quantity::Length::as_mm),
        checks,
        remaining: cuts(&rescue.remaining),
    }
}

fn cuts(cuts: &[Cut]) -> Vec<CutPart> {
    let part = |cut: &Cut| CutPart {
        step: step_word(cut.stage()),
        said: cut::said(cut),
        mm: cut::numbers(cut).into_iter().collect(),
    };
    cuts.iter().map(part).collect()
}
