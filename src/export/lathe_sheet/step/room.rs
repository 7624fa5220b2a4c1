//! Between which sizes a step may come out, in words.

use super::super::content::Line;
use super::{Step, plain, warning};
use crate::quantity::Length;
use crate::section::Mouth;
use crate::shop::{Bite, Tight, Work};
use crate::size::SizeId;

/// A size with as much room to either side is said to be not critical, or not spoken of, in
/// millimetres: nobody is off by more who looks at all.
const FREE: f64 = 0.25;

/// A size in a word or two; the step says of what.
fn size(step: Step, parameter: SizeId) -> String {
    match parameter {
        SizeId::BoreDiameter(_) => "Ø".to_owned(),
        SizeId::BoreDepth(_) => "depth".to_owned(),
        SizeId::ReliefStart(_) => "start".to_owned(),
        SizeId::UnitThreadEnd => "end of full thread".to_owned(),
        SizeId::TenonLength | SizeId::GripLength => "length".to_owned(),
        SizeId::TenonChamfer => "chamfer".to_owned(),
        SizeId::PilotDiameter => "pilot Ø".to_owned(),
        SizeId::ReliefDiameter => "relief Ø".to_owned(),
        SizeId::ReliefWidth => "relief width".to_owned(),
        SizeId::FrontDiameter => "Ø at the front".to_owned(),
        SizeId::GripDiameter(n) => {
            let runs = &step.plan.section.grip.runs;
            let end = runs.get(usize::from(n).saturating_sub(1)).map(|run| run.to.z);
            let end = end.unwrap_or(Length::ZERO) + step.operation.measured.to_come;
            format!("Ø at {}", step.length(end))
        }
        SizeId::GrooveDepth(n) => format!("groove {n} depth"),
        other => other.to_string(),
    }
}

/// What is less and more of a size.
fn sides(parameter: SizeId) -> [&'static str; 2] {
    match parameter {
        SizeId::BoreDepth(_)
        | SizeId::ReliefStart(_)
        | SizeId::UnitThreadEnd
        | SizeId::GrooveDepth(_) => ["shallower", "deeper"],
        SizeId::TenonLength | SizeId::GripLength => ["shorter", "longer"],
        SizeId::ReliefWidth => ["narrower", "wider"],
        _ => ["smaller", "larger"],
    }
}

/// How much more a length reads from the face as it is than from the finished one.
fn still_to_come(step: Step, parameter: SizeId) -> Length {
    let measured = step.operation.measured;
    if let (Work::Face { leaves, .. }, Some(length)) =
        (&step.operation.work, SizeId::GripLength.get(&step.plan.section))
    {
        // From the shoulder or the back face, whichever the step names.
        return *leaves - Length::mm(length);
    }
    let from_front =
        matches!(parameter, SizeId::BoreDepth(_) | SizeId::ReliefStart(_) | SizeId::UnitThreadEnd);
    if from_front && measured.face == Mouth::Front { measured.to_come } else { Length::ZERO }
}

/// The sizes between which it may come out, as they read in this step: `7.28 to 7.37`, `12.78 or
/// more`; rounded inwards.
fn range(step: Step, tight: &Tight) -> String {
    let written = tight.parameter.as_written(&step.plan.section, tight.value);
    let value = written + still_to_come(step, tight.parameter).as_mm();
    // A size that may vanish has no least.
    let least = tight.less.map(|room| value - room).filter(|least| *least > 0.0);
    let least = least.map(|least| step.numbers.inner_least(least));
    let most = tight.more.map(|room| step.numbers.inner_most(value + room));
    match (least, most) {
        (Some(least), Some(most)) => format!("{least} to {most}"),
        (Some(least), None) => format!("{least} or more"),
        (None, Some(most)) => format!("{most} or less"),
        (None, None) => "as it comes".to_owned(),
    }
}

/// What stands in the check's column of a size: between what it must be, where that is critical, or
/// where it is a depth or a length that is not.
pub(super) fn line(step: Step, tight: &Tight) -> Option<Line> {
    let (name, range) = (size(step, tight.parameter), range(step, tight));
    if tight.critical {
        // Which way to lean is for depths: a drill's diameter is as it is.
        let lean = tight.leans().filter(|_| matches!(tight.parameter, SizeId::BoreDepth(_)));
        let lean = match lean {
            Some(lean) if lean > 0.0 => "; rather a trace too deep",
            Some(_) => "; rather a trace too shallow",
            None => "",
        };
        return Some(warning(format!("CRITICAL {name}: {range}{lean}")));
    }
    let told =
        matches!(tight.parameter, SizeId::BoreDepth(_) | SizeId::GripLength | SizeId::TenonLength);
    let range = if tight.less.is_none() && tight.more.is_none() {
        String::new()
    } else {
        format!(" ({range})")
    };
    (told && is_free(tight)).then(|| plain(format!("{name} not critical{range}")))
}

/// What stands under the step of its sizes: why the critical ones are, and the range of the others.
pub(super) fn note(step: Step) -> Option<Line> {
    let words = step.operation.tight.iter().filter_map(|tight| {
        let name = size(step, tight.parameter);
        if tight.critical {
            let (sign, Bite { what, breaks }) = tight.bites.as_ref()?;
            let [under, over] = sides(tight.parameter);
            let side = if *sign > 0.0 { over } else { under };
            let verb = if *breaks { "breaks" } else { "gets close to its limit" };
            return Some(format!("Critical, for with {name} {side} this {verb}: {what}."));
        }
        (!is_free(tight)).then(|| format!("{name}: {}.", range(step, tight)))
    });
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| plain(words.join(" ")))
}

/// Whether nobody who looks is off by as much.
fn is_free(tight: &Tight) -> bool {
    let free = |room: Option<f64>| room.is_none_or(|room| room >= FREE);
    free(tight.less) && free(tight.more)
}
