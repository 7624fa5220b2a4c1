//! Which cones of a bore are given by their angle.

use super::contour::Contour;
use crate::drawing::Point;
use crate::section::Feature;

/// Which places a bore's cones settle, and the angles that they take for it.
pub(super) struct Cones {
    /// z that follow from an angle.
    pub(super) zs: Vec<f64>,
    /// Radii that follow from an angle.
    pub(super) ys: Vec<f64>,
    /// Each cone that has an angle.
    pub(super) angles: Vec<Cone>,
}

/// A cone that has an angle.
pub(super) struct Cone {
    /// Where its sides, run on, meet on the axis.
    pub(super) apex: Point,
    /// A point of its wide end.
    pub(super) on: Point,
    /// Its middle.
    pub(super) tip: Point,
    pub(super) feature: Feature,
}

impl Cones {
    pub(super) fn of(contour: &Contour, faces: [f64; 2]) -> Self {
        let mut cones = Self { zs: Vec::new(), ys: vec![0.0], angles: Vec::new() };
        let corners = contour.corners();
        let planes: Vec<f64> =
            contour.sides.iter().filter(|s| s.is_plane()).map(|s| s.line.from.x).collect();
        let cylinders: Vec<f64> =
            contour.sides.iter().filter(|s| s.is_cylinder()).map(|s| s.line.from.y).collect();
        for side in contour.sides.iter().filter(|side| side.is_cone()) {
            let (from, to) = (side.line.from, side.line.to);
            let (wide, narrow) = if from.y > to.y { (from, to) } else { (to, from) };
            // A mouth's z is that of its face.
            let free_z = |p: Point, cones: &Self| {
                let at_mouth = p == corners[0] || Some(&p) == corners.last();
                let at_face = at_mouth && p.y > 0.0 && faces.contains(&p.x);
                !at_face && !planes.contains(&p.x) && !cones.zs.contains(&p.x)
            };
            let free_y =
                |p: Point, cones: &Self| !cylinders.contains(&p.y) && !cones.ys.contains(&p.y);
            if free_z(narrow, &cones) {
                cones.zs.push(narrow.x);
            } else if free_y(narrow, &cones) {
                cones.ys.push(narrow.y);
            } else if free_z(wide, &cones) {
                cones.zs.push(wide.x);
            } else if free_y(wide, &cones) {
                cones.ys.push(wide.y);
            } else {
                // Its four places are given anyway.
                continue;
            }
            let slope = (narrow.x - wide.x) / (wide.y - narrow.y);
            let apex = Point::new(wide.x + slope * wide.y, 0.0);
            let (tip, feature) = (side.line.at(0.5), side.feature);
            cones.angles.push(Cone { apex, on: wide, tip, feature });
        }
        cones
    }
}
