//! Coupons: the section's front down to behind the unit's thread, and its back with the tenon.

use super::between;
use crate::quantity::Length;
use crate::section::{Part, Run, Section};
use crate::solid::Meridian;

/// How far behind its last feature a coupon goes on (common practice, no source): what closes the
/// thread's end, and stands on the plate.
const BEHIND: Length = Length::mm(2.0);

/// How much of the grip a back coupon keeps in front of its shoulder: what two fingers hold.
const GRASP: Length = Length::mm(6.0);

/// The front: recess, clearance bore and the unit's thread, with the outside that lies over them.
pub fn front_coupon(section: &Section) -> Part {
    let part = section.part();
    let end = plain_near(&part, section.unit_thread.to + BEHIND, Way::Behind);
    between(&part, [Length::ZERO, end])
}

/// The back: the shoulder and the tenon, with a piece of the grip to hold it by.
pub fn back_coupon(section: &Section) -> Part {
    let part = section.part();
    let from = plain_near(&part, section.grip.length() - GRASP, Way::Before);
    between(&part, [from, section.length()])
}

/// The way in which a better place to cut is looked for.
#[derive(Clone, Copy)]
enum Way {
    Before,
    Behind,
}

/// The place nearest to a z, in one way, where a plane cuts nothing that could not be printed: no
/// step, no steep wall, no thread that has just begun or is about to end. The part's own end where
/// there is none.
fn plain_near(part: &Part, z: Length, way: Way) -> Length {
    /// Steps in which it is looked for.
    const STEP: Length = Length::mm(0.25);
    let [front, back] = part.extent();
    let (sign, end) = match way {
        Way::Before => (-1.0, front),
        Way::Behind => (1.0, back),
    };
    let steps = ((end - z).abs() / STEP).floor().max(0.0) as u32;
    let places = (0..=steps).map(|n| z + STEP * (sign * f64::from(n)));
    let inside = |z: &Length| *z > front + STEP && *z < back - STEP;
    places.filter(inside).find(|z| is_plain(part, *z)).unwrap_or(end)
}

/// Whether a plane at z cuts only what runs along the axis.
fn is_plain(part: &Part, z: Length) -> bool {
    /// Nearer to a corner, and a sliver stands beside the cut.
    const BESIDE: Length = Length::mm(0.2);
    /// Rise over run of a wall that is cut: steeper, and the edge is thinner than it is long.
    const STEEP: f64 = 1.5;
    let near = |end: Length, by: Length| (end - z).abs() < by;
    let threads = part.threads.iter();
    let in_thread = threads.flat_map(|t| [(t.from, t.form.lead()), (t.to, t.form.lead())]);
    let cut = part.runs.iter().filter(|run| {
        run.from.z.min(run.to.z) < z + BESIDE && run.from.z.max(run.to.z) > z - BESIDE
    });
    let slopes = |run: &Run| {
        let meridian = Meridian::of(run);
        [0.0, 0.25, 0.5, 0.75, 1.0].into_iter().any(|v| {
            let [dr, dz] = meridian.rate(v);
            dr.abs() > STEEP * dz.abs()
        })
    };
    let ends = part.runs.iter().flat_map(|run| [run.from.z, run.to.z]);
    !in_thread.into_iter().any(|(end, lead)| near(end, lead * 1.5))
        && !ends.into_iter().any(|end| near(end, BESIDE))
        && !cut.into_iter().any(slopes)
}
