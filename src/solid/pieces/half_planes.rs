//! The half-planes through the axis that cut a body, turned so that no short edge is left.

use std::f64::consts::PI;

use crate::solid::Body;

/// How many: opposite each other, so that no piece goes farther than half round.
pub(super) const COUNT: i64 = 2;

/// A vertex this close to a half-plane, in columns, lies on it (a plain ring's do). Were this
/// larger, vertices would leave their edges, were it smaller, the rounding of an angle counted
/// over many turns would make an edge of no length.
const ON_PLANE: f64 = 1e-10;

/// Threads' corners should keep this far from a half-plane, in columns: some tenths of a
/// millimetre. Less leaves short edges for no need, more cuts more rings beside their vertices.
const CLEAR: f64 = 0.02;

/// [`COUNT`] evenly spaced half-planes.
#[derive(Clone, Debug)]
pub(super) struct HalfPlanes {
    /// Angle of half-plane 0, in radians.
    offset: f64,
    /// (cos, sin) of half-plane 0; half-plane 1 is opposite.
    ray: [f64; 2],
}

impl HalfPlanes {
    /// At angle 0, where rings have their vertices, if that is clear of the body's corners; else
    /// in the middle of the widest gap between them.
    pub fn clear_of(body: &Body) -> Self {
        let mut corners: Vec<f64> = Vec::new();
        for edge in body.solid().edge_iter() {
            let trace = edge.curve();
            let ends = [0.0, 1.0].map(|t| trace.at(t).theta / PI);
            // A plain ring's halves begin and end on the half-planes at 0, or anywhere.
            if ends.iter().any(|end| *end != end.round()) {
                corners.extend(ends.map(|end| end.rem_euclid(1.0)));
            }
        }
        corners.sort_by(f64::total_cmp);
        let offset = if clearance(&corners) >= CLEAR { 0.0 } else { widest_gap(&corners) * PI };
        let (sin, cos) = libm::sincos(offset);
        Self { offset, ray: [cos, sin] }
    }

    /// An angle in columns from half-plane 0, exactly whole where it lies on a half-plane.
    pub fn columns(&self, theta: f64) -> f64 {
        let columns = (theta - self.offset) / PI;
        let whole = columns.round();
        if (columns - whole).abs() < ON_PLANE { whole } else { columns }
    }

    /// The angle of a half-plane, which may be counted over many turns.
    pub fn angle(&self, plane: i64) -> f64 {
        plane as f64 * PI + self.offset
    }

    /// The point of a half-plane at r and z.
    pub fn point(&self, plane: i64, r: f64, z: f64) -> [f64; 3] {
        let side = if plane.rem_euclid(COUNT) == 0 { r } else { -r };
        // `+ 0.0`: there is no negative zero in a file.
        [side * self.ray[0] + 0.0, side * self.ray[1] + 0.0, z]
    }
}

/// The least distance of a corner (0 to 1, in columns) from the half-planes at 0.
fn clearance(corners: &[f64]) -> f64 {
    corners.iter().map(|c| c.min(1.0 - c)).fold(0.5, f64::min)
}

/// The middle of the widest gap between sorted corners, in columns.
fn widest_gap(corners: &[f64]) -> f64 {
    let over = corners.first().map(|first| first + 1.0);
    let next = corners.iter().skip(1).copied().chain(over);
    let gaps = corners.iter().zip(next).map(|(a, b)| (b - a, f64::midpoint(*a, b)));
    gaps.fold((0.0, 0.0), |best, gap| if gap.0 > best.0 { gap } else { best }).1
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_widest_gap_is_found_over_the_end_too() {
        assert_eq!(widest_gap(&[0.3, 0.4, 0.5]), 0.9);
        assert_eq!(widest_gap(&[0.0, 0.25, 0.75]), 0.5);
        assert_eq!(widest_gap(&[]), 0.0);
    }

    #[test]
    fn corners_keep_clear_on_both_sides() {
        assert_eq!(clearance(&[0.3, 0.9]), 1.0 - 0.9);
        assert_eq!(clearance(&[]), 0.5);
    }
}
