//! The arcs of runs: by radius, through a point, tangent to a neighbour.
//!
//! ```text
//!     through            _.-*-._            radius R, chord c, rise dr over dz:
//!     convex          .-'       '-.         R >= c / 2, or the ends lie too far apart;
//!               from +---- chord ---+ to    R >= c^2 / (2 dz), or an end turns back
//! ```
//! An arc's end directions lie as far to both sides of its chord, so each kind gives the angle
//! between chord and end, a half of the sweep; the bulge is the tangent of half of that.

use std::f64::consts::FRAC_PI_2;

use super::chain::Piece;
use super::plane::Vector;
use super::stroke::Stroke;
use super::{Curve, Grip, OutsideError};
use crate::quantity::Length;
use crate::section::{Facet, LEAST_STEP};

/// The radius under which an arc over a chord turns back along the axis.
fn least_radius(chord: Vector) -> f64 {
    chord.dot(chord) / (2.0 * chord.z)
}

/// The bulge of the lesser arc of a radius, without its sign.
fn bulge_of_radius(chord: Vector, radius: f64) -> f64 {
    let sine = (chord.length() / 2.0 / radius).min(1.0);
    sine / (1.0 + (1.0 - sine * sine).sqrt())
}

/// The bulge of the arc through a third point: by the inscribed angle, its chords to that point
/// turn by half of the sweep.
pub(super) fn bulge_through(from: Vector, via: Vector, to: Vector) -> f64 {
    libm::tan((via - from).angle_to(to - via) / 2.0)
}

/// Bends the strokes of a grip's curved runs; notes those that can't be made and leaves them
/// straight and marked.
pub(super) fn bend(grip: &Grip, pieces: &mut [Piece], faults: &mut Vec<OutsideError>) {
    let runs: Vec<usize> = (0..pieces.len()).filter(|n| pieces[*n].run.is_some()).collect();
    for n in &runs {
        let Some(run) = pieces[*n].run else { continue };
        let stroke = pieces[*n].stroke;
        let made = match grip.runs[run].curve {
            Curve::Straight | Curve::TangentBefore | Curve::TangentAfter => continue,
            Curve::Concave(radius) => by_radius(run, stroke, radius, 1.0),
            Curve::Convex(radius) => by_radius(run, stroke, radius, -1.0),
            Curve::Through(station) => through(run, stroke, Vector::of(station)),
        };
        pieces[*n].bend(made, faults);
    }
    // A tangent arc waits for its neighbour, which may wait for the next.
    let curve = |piece: &Piece| piece.run.map(|run| grip.runs[run].curve);
    let waits = |piece: &Piece| matches!(curve(piece), Some(Curve::TangentBefore)) && !piece.bent;
    let waits_on = |piece: &Piece| matches!(curve(piece), Some(Curve::TangentAfter)) && !piece.bent;
    // The step at a worn thread's end is no neighbour: the crest behind it is.
    let worn = |piece: &Piece| piece.run.is_none() && piece.feature.facet == Facet::Floor;
    for _ in 0..2 {
        for n in 0..pieces.len() {
            let before = (0..n).rev().find(|n| !worn(&pieces[*n]));
            if let Some(before) = before.filter(|b| waits(&pieces[n]) && !waits_on(&pieces[*b])) {
                tangent(n, before, pieces, faults);
            }
        }
        for n in (0..pieces.len()).rev() {
            let after = (n + 1..pieces.len()).find(|n| !worn(&pieces[*n]));
            if let Some(after) = after.filter(|a| waits_on(&pieces[n]) && !waits(&pieces[*a])) {
                tangent(n, after, pieces, faults);
            }
        }
    }
    for piece in pieces.iter_mut().filter(|piece| waits(piece) || waits_on(piece)) {
        if let (Some(Curve::TangentAfter), Some(run)) = (curve(piece), piece.run) {
            faults.push(OutsideError::TangentBothWays { run });
        }
        piece.spoilt = true;
    }
}

fn by_radius(run: usize, stroke: Stroke, radius: Length, side: f64) -> Result<f64, OutsideError> {
    let least = Length::mm(least_radius(stroke.chord()));
    // As much again as rounding may take from a half circle that was meant.
    let rounding = least * 1e-12;
    if radius < least - rounding {
        return Err(OutsideError::ArcTooTight { run, radius, least });
    }
    let bulge = side * bulge_of_radius(stroke.chord(), radius.as_mm());
    bowed(run, stroke, bulge)
}

fn through(run: usize, stroke: Stroke, via: Vector) -> Result<f64, OutsideError> {
    let (from, to) = (Length::mm(stroke.from.z), Length::mm(stroke.to.z));
    let z = Length::mm(via.z);
    if z <= from || z >= to {
        return Err(OutsideError::PointOffRun { run, z, from, to });
    }
    let bulge = bulge_through(stroke.from, via, stroke.to);
    let arc = Stroke { bulge, ..stroke };
    if arc.advances() {
        return bowed(run, stroke, bulge);
    }
    let chord = stroke.chord();
    let limit = bulge_of_radius(chord, least_radius(chord)).copysign(bulge);
    let bound = Stroke { bulge: limit, ..stroke }.r_at(via.z).unwrap_or(via.r);
    let (bound, at_most) = (Length::mm(bound * 2.0), bulge < 0.0);
    Err(OutsideError::ArcTurnsBack { run, what: "point", bound, at_most })
}

/// An arc that goes on from, or ends in, the direction of a neighbour.
fn tangent(n: usize, neighbour: usize, pieces: &mut [Piece], faults: &mut Vec<OutsideError>) {
    let (piece, other) = (&pieces[n], &pieces[neighbour]);
    let (Some(run), stroke) = (piece.run, piece.stroke) else { return };
    if other.spoilt {
        pieces[n].spoilt = true;
        pieces[n].bent = true;
        return;
    }
    let chord = stroke.chord();
    let before = neighbour < n;
    let direction = other.stroke.direction(if before { 1.0 } else { 0.0 });
    let turn = if before { direction.angle_to(chord) } else { chord.angle_to(direction) };
    let bulge = libm::tan(turn / 2.0);
    let made = if (Stroke { bulge, ..stroke }).advances() && turn.abs() < FRAC_PI_2 * 2.0 {
        bowed(run, stroke, bulge)
    } else {
        // The chord may be turned by half of what leads from the tangent to the upright.
        let across = libm::atan2(direction.r, direction.z);
        let up = libm::atan2(chord.r, chord.z) > across;
        let upright = if up { FRAC_PI_2 } else { -FRAC_PI_2 };
        let rise = chord.z * libm::tan(f64::midpoint(across, upright));
        let (what, r) =
            if before { ("end", stroke.from.r + rise) } else { ("beginning", stroke.to.r - rise) };
        let (bound, at_most) = (Length::mm(r * 2.0), up == before);
        Err(OutsideError::ArcTurnsBack { run, what, bound, at_most })
    };
    pieces[n].bend(made, faults);
}

/// The bulge, unless the arc is as good as straight.
fn bowed(run: usize, stroke: Stroke, bulge: f64) -> Result<f64, OutsideError> {
    let bow = Length::mm(bulge.abs() * stroke.chord().length() / 2.0);
    if bow < LEAST_STEP { Err(OutsideError::ArcTooFlat { run, bow }) } else { Ok(bulge) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn over(z: f64, r: f64) -> Stroke {
        Stroke::straight(Vector::new(0.0, 5.0), Vector::new(z, 5.0 + r))
    }

    /// Source: the sagitta of a chord c in a circle R is R - sqrt(R^2 - c^2 / 4).
    #[test]
    fn a_radius_gives_the_sagitta_of_its_chord() {
        let bulge = by_radius(0, over(8.0, 0.0), Length::mm(20.0), 1.0).unwrap();
        let arc = Stroke { bulge, ..over(8.0, 0.0) };
        let sagitta = 20.0 - (20.0_f64 * 20.0 - 16.0).sqrt();
        assert!((arc.at(0.5).r - (5.0 - sagitta)).abs() < 1e-12);
        assert!((arc.circle().unwrap().radius - 20.0).abs() < 1e-9);
    }

    /// Independent route: three points of a known circle.
    #[test]
    fn three_points_give_their_circle() {
        let centre = Vector::new(4.0, -7.0);
        let on = |degrees: f64| {
            let (sin, cos) = libm::sincos(degrees.to_radians());
            centre + Vector::new(cos, sin) * 12.5
        };
        let (from, via, to) = (on(120.0), on(95.0), on(61.0));
        let arc = Stroke { from, to, bulge: bulge_through(from, via, to) };
        let circle = arc.circle().unwrap();
        assert!((circle.centre - centre).length() < 1e-12 && arc.bulge < 0.0);
        assert!((circle.radius - 12.5).abs() < 1e-12);
    }

    /// Limiting case: the least radius ends square to the axis.
    #[test]
    fn the_least_radius_ends_square_to_the_axis() {
        let stroke = over(3.0, 1.0);
        let least = least_radius(stroke.chord());
        let bulge = by_radius(0, stroke, Length::mm(least), -1.0).unwrap();
        let arc = Stroke { bulge, ..stroke };
        assert!(arc.advances() && arc.direction(0.0).z.abs() < 1e-12);
        let tighter = by_radius(0, stroke, Length::mm(least * 0.999), -1.0);
        assert!(matches!(tighter, Err(OutsideError::ArcTooTight { .. })));
    }
}
