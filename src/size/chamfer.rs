//! A chamfer of the grip as a drawing has it: its length along the axis and its angle to it.

use crate::quantity::Length;
use crate::section::{Corner, Curve, Facet, Feature, Grip, Item, Run, Section};

/// (z, r), in millimetres.
type Vector = [f64; 2];

/// Most steps of the search where a neighbour is an arc; each takes the error to its square or so,
/// from a start within some percent. Fewer, and the last digits stand for nothing.
const STEPS: usize = 4;

/// A chamfer this near to what is wanted, in millimetres, is that: less is rounding, more can be
/// seen in a drawing's digits.
const REACHED: f64 = 1e-9;

/// A leg's change for its difference, in millimetres: less is noise, more no tangent.
const DIFFERENCE: f64 = 1e-5;

/// Length along the axis in millimetres and angle to it in degrees, of the chamfer behind so many
/// runs.
pub(super) fn drawn(section: &Section, corner: usize) -> Option<[f64; 2]> {
    let legs = legs(&section.grip, corner)?;
    match directions(&section.grip, corner) {
        Some(along) => Some(polar(cut(along, legs))),
        None => measured(section, corner),
    }
}

/// Gives that chamfer another length and angle.
pub(crate) fn set(section: &mut Section, corner: usize, wanted: [f64; 2]) -> Option<()> {
    let now = legs(&section.grip, corner)?;
    let tangent = libm::tan(wanted[1].to_radians());
    if let Some(along) = directions(&section.grip, corner) {
        let up = cut(along, now)[1].signum();
        let legs = solved(along, [wanted[0], up * wanted[0] * tangent])?;
        return put(section, corner, legs);
    }
    for _ in 0..STEPS {
        let legs = legs(&section.grip, corner)?;
        let here = vector(measured(section, corner)?);
        let left = [wanted[0] - here[0], wanted[0] * tangent - here[1]];
        if left.iter().all(|left| left.abs() <= REACHED) {
            break;
        }
        let mut slope = [[0.0; 2]; 2];
        for (leg, slope) in slope.iter_mut().enumerate() {
            let mut moved = legs;
            moved[leg] += DIFFERENCE;
            let mut other = section.clone();
            put(&mut other, corner, moved)?;
            let there = vector(measured(&other, corner)?);
            *slope = [0, 1].map(|n| (there[n] - here[n]) / DIFFERENCE);
        }
        let by = solved(slope, left)?;
        put(section, corner, [legs[0] + by[0], legs[1] + by[1]])?;
    }
    Some(())
}

fn at(grip: &mut Grip, corner: usize) -> Option<&mut Corner> {
    match corner.checked_sub(1) {
        None => Some(&mut grip.rim),
        Some(run) => grip.runs.get_mut(run).map(|run| &mut run.corner),
    }
}

/// The corner behind so many runs.
pub(super) fn corner(grip: &Grip, corner: usize) -> Option<Corner> {
    corner.checked_sub(1).map_or(Some(grip.rim), |run| grip.runs.get(run).map(|run| run.corner))
}

/// Gives the corner behind so many runs another form.
pub(super) fn replace(grip: &mut Grip, corner: usize, by: Corner) -> Option<()> {
    *at(grip, corner)? = by;
    Some(())
}

fn legs(grip: &Grip, at: usize) -> Option<[f64; 2]> {
    let Corner::Chamfer { before, after } = corner(grip, at)? else { return None };
    Some([before.as_mm(), after.as_mm()])
}

fn put(section: &mut Section, at: usize, [before, after]: [f64; 2]) -> Option<()> {
    let legs = Corner::Chamfer { before: Length::mm(before), after: Length::mm(after) };
    replace(&mut section.grip, at, legs)
}

/// Directions of the lines before and behind a corner; none where either is an arc.
fn directions(grip: &Grip, corner: usize) -> Option<[Vector; 2]> {
    let along = |run: usize| -> Option<Vector> {
        let (from, here) = (grip.start(run), grip.runs.get(run)?);
        let by = [(here.to.z - from.z).as_mm(), here.to.radius() - from.radius()];
        let length = libm::hypot(by[0], by[1]);
        (here.curve == Curve::Straight && length > 0.0).then(|| by.map(|part| part / length))
    };
    let before = match corner.checked_sub(1) {
        None => Some([0.0, 1.0]),
        Some(run) => along(run),
    };
    let after = if corner == grip.runs.len() { Some([0.0, -1.0]) } else { along(corner) };
    Some([before?, after?])
}

/// From the point before the corner to the one behind it.
fn cut(along: [Vector; 2], legs: [f64; 2]) -> Vector {
    [0, 1].map(|n| along[0][n] * legs[0] + along[1][n] * legs[1])
}

/// By how much of each of two vectors a third is reached.
fn solved([a, b]: [Vector; 2], to: Vector) -> Option<[f64; 2]> {
    let cross = |u: Vector, v: Vector| u[0] * v[1] - u[1] * v[0];
    let area = cross(a, b);
    (area != 0.0).then(|| [cross(to, b) / area, cross(a, to) / area])
}

/// Length along the axis and angle to it.
fn polar([z, r]: Vector) -> [f64; 2] {
    [z.abs(), libm::atan2(r.abs(), z.abs()).to_degrees()]
}

/// Along the axis and off it, both without sign.
fn vector([length, angle]: [f64; 2]) -> Vector {
    [length, length * libm::tan(angle.to_radians())]
}

fn measured(section: &Section, corner: usize) -> Option<[f64; 2]> {
    let item = match corner {
        0 => Item::FrontFace,
        n => Item::Grip(u8::try_from(n).ok()?),
    };
    let run = run(section, Feature::new(item, Facet::Chamfer))?;
    Some(polar([(run.to.z - run.from.z).as_mm(), run.to.radius() - run.from.radius()]))
}

/// The part's run of a name.
pub(super) fn run(section: &Section, feature: Feature) -> Option<Run> {
    section.part().runs.into_iter().find(|run| run.feature == feature)
}
