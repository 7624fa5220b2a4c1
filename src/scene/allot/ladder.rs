//! What a size may be off, from the widest to the tightest that is asked of anybody.

use super::nominal::Nominal;
use crate::quantity::{Angle, Length};
use crate::section::Section;
use crate::size::SizeId;
use crate::standard::GeneralClass;
use crate::standard::iso2768::{angle, broken_edge, linear};

/// To either side, in millimetres: what a machinist writes (common practice, no source). A finer
/// last one is not held without grinding; a coarser one condemns sections that can be made.
const STEPS: [f64; 5] = [0.1, 0.05, 0.03, 0.02, 0.01];

/// The same of an angle in degrees: 30, 15 and 6 minutes, as a top slide is set (common practice,
/// no source).
const ANGLE_STEPS: [f64; 3] = [0.5, 0.25, 0.1];

/// No more than this share of a size: more, and a fillet of 0.1 could be none at all.
const GREATEST_SHARE: f64 = 0.5;

/// One tolerance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rung {
    /// How far under, and how far over.
    pub by: [f64; 2],
    /// It is the general note's.
    pub general: bool,
}

/// The tolerances of a size, widest first; never none.
pub(super) fn of(section: &Section, size: &Nominal, class: GeneralClass) -> Vec<Rung> {
    let written = size.value.abs();
    let length = Length::mm(written);
    let edge = matches!(
        size.parameter,
        SizeId::CornerRadius(_) | SizeId::CornerChamfer(_) | SizeId::TenonChamfer
    );
    let general = match size.parameter {
        _ if edge => broken_edge(length).map(Length::as_mm),
        SizeId::PointAngle(item) => {
            let leg = section.bore(item).map_or(Length::ZERO, |bore| bore.diameter / 2.0);
            angle(leg).map(Angle::as_deg)
        }
        angled if angled.is_angle() => angle(Length::ZERO).map(Angle::as_deg),
        _ => linear(class, length).map(Length::as_mm),
    };
    let steps: &[f64] = if size.parameter.is_angle() { &ANGLE_STEPS } else { &STEPS };
    let most = general.unwrap_or(f64::INFINITY);
    let mut rungs: Vec<Rung> =
        general.map(|by| Rung { by: [by; 2], general: true }).into_iter().collect();
    let least = steps[steps.len() - 1];
    let over = |by: f64| {
        if size.cuts_over {
            // A drill cuts over its size: so does what is asked of its hole.
            [0.0, by]
        } else if edge && by <= least {
            // Where a corner has no room, its size is its greatest.
            [(by * 2.0).min(written * GREATEST_SHARE), 0.0]
        } else {
            [by; 2]
        }
    };
    let narrower = steps.iter().filter(|by| **by < most && **by <= written * GREATEST_SHARE);
    rungs.extend(narrower.map(|by| Rung { by: over(*by), general: false }));
    if rungs.is_empty() {
        rungs.push(Rung { by: over(least.min(written * GREATEST_SHARE)), general: false });
    }
    rungs
}
