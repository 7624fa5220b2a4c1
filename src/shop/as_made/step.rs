//! Which step makes a size, and which steps are done.

use super::Said;
use crate::section::{Bore, Item, Mouth, Point, Section, Stage};
use crate::size::SizeId;

/// The step that makes a size; none of what is not made at this lathe, or of a hole that another
/// one takes away.
pub(super) fn maker(parameter: SizeId, section: &Section) -> Option<Stage> {
    use SizeId as P;
    let steps = steps(section);
    let stage = match parameter {
        P::BoreDiameter(item) | P::BoreDepth(item) | P::ReliefStart(item) => Stage::Bored(item),
        P::CentrePilotDiameter | P::CentrePilotLength => {
            let centre = |bore: &&Bore| matches!(bore.point, Point::Centre(..));
            Stage::Bored(section.bores.iter().find(centre)?.item)
        }
        P::UnitThreadEnd | P::UnitThreadSize => Stage::Tapped,
        P::TenonLength
        | P::TenonDiameter
        | P::TenonChamfer
        | P::ReliefDiameter
        | P::ReliefWidth
        | P::PilotDiameter
        | P::PilotLength => Stage::TenonTurned,
        P::TenonThreadStart | P::TenonThreadSize => Stage::TenonThreaded,
        // From a face to a shoulder: whichever comes later makes it.
        P::GripLength => {
            let ends = [Stage::Squared, Stage::Faced, Stage::TenonTurned];
            *steps.iter().rfind(|step| ends.contains(step))?
        }
        P::FrontDiameter
        | P::GripDiameter(_)
        | P::RunEnd(_)
        | P::ArcRadius(_)
        | P::CornerRadius(_)
        | P::CornerChamfer(_)
        | P::RingStart(_)
        | P::RingEnd(_)
        | P::RingRadius(_)
        | P::GrooveDepth(_) => Stage::OutsideTurned,
        P::GripThreadSize => Stage::CapThreaded,
        _ => return None,
    };
    steps.contains(&stage).then_some(stage)
}

/// Every step of a section, in the order of the work.
pub(super) fn steps(section: &Section) -> Vec<Stage> {
    section.cuts().iter().map(crate::section::Cut::stage).collect()
}

/// The word for a step: `tapped`; that of a hole is the hole's name.
pub fn word(step: Stage) -> String {
    match step {
        Stage::Rod => "rod".to_owned(),
        Stage::Squared => "squared".to_owned(),
        Stage::Bored(item) => item.to_string(),
        Stage::TenonTurned => "tenon-turned".to_owned(),
        Stage::TenonThreaded => "tenon-threaded".to_owned(),
        Stage::Faced => "faced".to_owned(),
        Stage::Tapped => "tapped".to_owned(),
        Stage::OutsideTurned => "outside-turned".to_owned(),
        Stage::CapThreaded => "cap-threaded".to_owned(),
        Stage::Sanded => "sanded".to_owned(),
        Stage::Finished => "finished".to_owned(),
    }
}

/// Everything up to the last step that a size of these belongs to, or that is said to be done.
pub(super) fn done(section: &Section, said: &Said) -> Vec<Stage> {
    let steps = steps(section);
    let made = said.sizes.iter().filter_map(|size| maker(size.parameter, section));
    let last = made.chain(said.after).filter_map(|step| steps.iter().position(|s| *s == step));
    last.max().map_or(Vec::new(), |last| steps[..=last].to_vec())
}

/// Whether a size is a depth from the front face.
pub(super) fn from_front(parameter: SizeId, section: &Section) -> bool {
    match parameter {
        SizeId::BoreDepth(item) | SizeId::ReliefStart(item) => {
            section.bore(item).is_some_and(|bore| bore.mouth == Mouth::Front)
                && !matches!(item, Item::Countersink(_))
        }
        SizeId::UnitThreadEnd => true,
        _ => false,
    }
}
