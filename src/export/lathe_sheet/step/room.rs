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

/// A size with its room: `depth: 0.07 shallower, 0.90 deeper`.
fn rooms(tight: &Tight, numbers: Numbers) -> String {
    let side = |room: Option<f64>, word: &str| match room {
        Some(room) => format!("{} {word}", numbers.room(room)),
        None => format!("any {word}"),
    };
    let [under, over] = sides(tight.parameter);
    format!("{}, {}", side(tight.less, under), side(tight.more, over))
}

/// What stands in the check's column of a size: how far off it may be, where that is critical, or
/// where it is a depth that is not.
pub(super) fn line(tight: &Tight, numbers: Numbers) -> Option<Line> {
    let (name, rooms) = (size(tight.parameter), rooms(tight, numbers));
    if tight.critical {
        // Which way to lean is for depths: a drill's diameter is as it is.
        let lean = tight.leans().filter(|_| matches!(tight.parameter, Parameter::BoreDepth(_)));
        let lean = match lean {
            Some(lean) if lean > 0.0 => "; rather a trace too deep",
            Some(_) => "; rather a trace too shallow",
            None => "",
        };
        return Some(warning(format!("CRITICAL {name}: at most {rooms}{lean}")));
    }
    let depth = matches!(tight.parameter, Parameter::BoreDepth(_) | Parameter::GripLength);
    (is_free(tight) && depth).then(|| plain(format!("{name} not critical ({rooms})")))
}

/// What stands under the step of its sizes: why the critical ones are, and the room of the others.
pub(super) fn note(all: &[Tight], numbers: Numbers) -> Option<Line> {
    let words = all.iter().filter_map(|tight| {
        if tight.critical {
            let (sign, Bite { what, breaks }) = tight.bites.as_ref()?;
            let [under, over] = sides(tight.parameter);
            let side = if *sign > 0.0 { over } else { under };
            let verb = if *breaks { "breaks" } else { "gets close" };
            return Some(format!("{} {side}: {what} {verb}", size(tight.parameter)));
        }
        (!is_free(tight)).then(|| format!("{}: {}", size(tight.parameter), rooms(tight, numbers)))
    });
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| plain(format!("Room: {}.", words.join("; "))))
}

/// Whether nobody who looks is off by as much.
fn is_free(tight: &Tight) -> bool {
    let free = |room: Option<f64>| room.is_none_or(|room| room >= FREE);
    free(tight.less) && free(tight.more)
}
