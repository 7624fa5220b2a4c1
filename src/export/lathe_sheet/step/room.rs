//! How far a size may be off, in words.

use super::super::content::Line;
use super::super::numbers::Numbers;
use super::{plain, warning};
use crate::check::Parameter;
use crate::shop::{Bite, Tight};

/// More room than this to either side is said to be free, in millimetres: nobody is off by more
/// who looks at all.
const FREE: f64 = 0.5;

/// A size in a word or two; the step says of what.
fn size(parameter: Parameter) -> String {
    match parameter {
        Parameter::BoreDiameter(_) => "Ø".to_owned(),
        Parameter::BoreDepth(_) => "depth".to_owned(),
        Parameter::ReliefStart(_) => "start".to_owned(),
        Parameter::UnitThreadEnd => "end of full thread".to_owned(),
        Parameter::TenonLength | Parameter::GripLength => "length".to_owned(),
        Parameter::TenonChamfer => "chamfer".to_owned(),
        Parameter::PilotDiameter => "pilot Ø".to_owned(),
        Parameter::ReliefDiameter => "relief Ø".to_owned(),
        Parameter::ReliefWidth => "relief width".to_owned(),
        Parameter::FrontDiameter => "Ø at the front".to_owned(),
        Parameter::GripDiameter(n) => format!("Ø at the end of run {n}"),
        Parameter::GrooveDepth(n) => format!("groove {n} depth"),
        other => other.to_string(),
    }
}

/// What is less and more of a size.
fn sides(parameter: Parameter) -> [&'static str; 2] {
    match parameter {
        Parameter::BoreDepth(_)
        | Parameter::ReliefStart(_)
        | Parameter::UnitThreadEnd
        | Parameter::GrooveDepth(_) => ["shallower", "deeper"],
        Parameter::TenonLength | Parameter::GripLength => ["shorter", "longer"],
        Parameter::ReliefWidth => ["narrower", "wider"],
        _ => ["under", "over"],
    }
}

/// What is to be said of a size; nothing of one that has room enough and is no depth.
pub(super) fn line(tight: &Tight, numbers: Numbers) -> Option<Line> {
    let name = size(tight.parameter);
    let side = |room: Option<f64>, word: &str| match room {
        Some(room) => format!("{} {word}", numbers.room(room)),
        None => format!("any {word}"),
    };
    let [under, over] = sides(tight.parameter);
    let rooms = format!("{}, {}", side(tight.less, under), side(tight.more, over));
    if tight.critical {
        // Which way to lean is for depths: a drill's diameter is as it is.
        let lean = tight.leans().filter(|_| matches!(tight.parameter, Parameter::BoreDepth(_)));
        let lean = match lean {
            Some(lean) if lean > 0.0 => "; rather a trace too deep",
            Some(_) => "; rather a trace too shallow",
            None => "",
        };
        let why = tight.bites.as_ref().map_or(String::new(), |(sign, Bite { what, breaks })| {
            let side = if *sign > 0.0 { over } else { under };
            let verb = if *breaks { "breaks" } else { "gets close" };
            format!(" ({side}: {what} {verb})")
        });
        return Some(warning(format!("CRITICAL {name}: no more than {rooms}{lean}{why}")));
    }
    let free = |room: Option<f64>| room.is_none_or(|room| room >= FREE);
    if free(tight.less) && free(tight.more) {
        let depth = matches!(tight.parameter, Parameter::BoreDepth(_) | Parameter::GripLength);
        return depth.then(|| plain(format!("{name} not critical ({rooms})")));
    }
    Some(plain(format!("{name}: {rooms}")))
}
