//! Which corners of a contour share one diameter.

use super::contour::{Contour, Side};
use crate::drawing::Point;
use crate::section::Thread;

/// Corners of one diameter that are one size: those of a cylinder, whatever interrupts it. An end
/// of a taper or arc stands alone, whatever has its diameter elsewhere.
pub(super) struct Level {
    pub(super) y: f64,
    pub(super) corners: Vec<Point>,
    pub(super) cylinders: Vec<Side>,
}

impl Level {
    /// All of a contour but what lies on the axis, from the front to the back. What interrupts a
    /// taper begins and ends on it, and has no diameters of its own there.
    pub(super) fn all(contour: &Contour) -> Vec<Self> {
        let on_taper = |p: &Point| {
            let sloped = contour.bridges.iter().filter(|[from, to]| from.y != to.y);
            sloped.flatten().any(|end| end == p)
        };
        let bridged = |a: Point, b: Point| contour.bridges.contains(&[a, b]) && a.y == b.y;
        let mut levels: Vec<Self> = Vec::new();
        let mut before: Option<&Side> = None;
        for corner in contour.corners() {
            let cylinder = before.filter(|side| side.is_cylinder());
            let own = levels.iter_mut().find(|level| {
                let last = level.corners.last().copied();
                let along = cylinder.is_some_and(|side| last == Some(side.line.from));
                along || last.is_some_and(|last| bridged(last, corner))
            });
            match own {
                Some(level) => {
                    level.corners.push(corner);
                    level.cylinders.extend(cylinder);
                }
                None if corner.y > 0.0 && !on_taper(&corner) => {
                    let (y, corners) = (corner.y, vec![corner]);
                    levels.push(Self { y, corners, cylinders: Vec::new() });
                }
                None => {}
            }
            before = contour.sides.iter().find(|side| side.line.from == corner);
        }
        levels
    }

    /// Where it is measured, and where an arrow points at it.
    pub(super) fn place(&self) -> (Point, Point) {
        match self.cylinders.first() {
            Some(Side { line, .. }) => (line.from, line.at(0.5)),
            None => (self.corners[0], self.corners[0]),
        }
    }

    /// Whether a thread is cut on it.
    pub(super) fn carries(&self, thread: &Thread) -> bool {
        let middle = (thread.from + thread.to).as_mm() / 2.0;
        let holds = |side: &Side| side.line.from.x <= middle && middle <= side.line.to.x;
        thread.form.crest.as_mm() / 2.0 == self.y && self.cylinders.iter().any(holds)
    }
}
