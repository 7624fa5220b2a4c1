//! Where two moved lines meet.
//!
//! ```text
//!   mitre: _________            step, where they run alike and
//!                   \           are moved unequally:   ______
//!                    \                                 |______
//! ```

use super::stretch::{ALIKE, Line, Point, outward};

/// Amounts that differ by less are one, in millimetres, that between both: half a micron off either.
/// Larger, and a surface is seen to lie elsewhere; smaller, and steps that no printer makes ask for
/// triangles as small as they are.
const SAME: f64 = 1e-3;

/// A moved line, without its ends.
#[derive(Clone, Copy, Debug)]
pub(super) enum Carrier {
    Line { through: Point, along: Point },
    Circle { centre: Point, radius: f64 },
}

impl Carrier {
    /// The line of a run, moved into the material. A circle's radius may come out negative: then
    /// nothing is left of it.
    pub fn of(line: &Line) -> Self {
        let inward = -outward(line.direction(false));
        let bulge = line.bulge();
        if bulge == 0.0 {
            let through = line.from() + inward * line.amount;
            return Self::Line { through, along: line.direction(false) };
        }
        let (from, to) = (line.from(), line.to());
        let chord = to - from;
        // As `Meridian::between`: along the chord's normal from its middle.
        let off = (1.0 - bulge * bulge) / (4.0 * bulge);
        let centre = (from + to) / 2.0 + outward(chord) * off;
        // A hollow arc has its centre out of the material, and grows.
        let radius = (from - centre).norm() + line.amount * bulge.signum();
        Self::Circle { centre, radius }
    }

    /// Where it meets another, nearest to a point.
    fn meet(self, other: Self, near: Point) -> Option<Point> {
        match (self, other) {
            (Self::Line { through, along }, Self::Line { through: at, along: to }) => {
                let across = along.perp(&to);
                let share = (at - through).perp(&to) / across;
                (across.abs() > f64::EPSILON).then(|| through + along * share)
            }
            (Self::Line { through, along }, Self::Circle { centre, radius })
            | (Self::Circle { centre, radius }, Self::Line { through, along }) => {
                let foot = through + along * along.dot(&(centre - through));
                let half = (radius * radius - (foot - centre).norm_squared()).sqrt();
                nearest([foot + along * half, foot - along * half], near)
            }
            (
                Self::Circle { centre, radius },
                Self::Circle { centre: other, radius: other_radius },
            ) => {
                let (apart, between) = ((other - centre).norm(), other - centre);
                let along =
                    (apart * apart + radius * radius - other_radius * other_radius) / (2.0 * apart);
                let half = (radius * radius - along * along).sqrt();
                let unit = between / apart;
                let (foot, across) = (centre + unit * along, outward(unit) * half);
                nearest([foot + across, foot - across], near)
            }
        }
    }

    /// Where it meets the axis, nearest to a z.
    pub fn at_axis(self, near: f64) -> Option<Point> {
        let axis = Self::Line { through: Point::zeros(), along: Point::new(0.0, 1.0) };
        self.meet(axis, Point::new(0.0, near)).map(|p| Point::new(0.0, p.y))
    }
}

/// The nearer of two points; none where there are none.
fn nearest(points: [Point; 2], near: Point) -> Option<Point> {
    let distance = |p: &Point| (p - near).norm_squared();
    let found = points.into_iter().filter(|p| p.iter().all(|v| v.is_finite()));
    found.min_by(|a, b| distance(a).total_cmp(&distance(b)))
}

/// The end of the first moved line and the beginning of the second: one point where they meet, two
/// where a step joins them. None where neither is to be had.
pub(super) fn joint(a: &Line, b: &Line) -> Option<[Point; 2]> {
    let [along, on] = [a.direction(true), b.direction(false)];
    let [inward_a, inward_b] = [-outward(along), -outward(on)];
    let touching = a.run.to == b.run.from;
    let (sine, cosine) = (along.perp(&on), along.dot(&on));
    if touching && sine.abs() < ALIKE {
        let corner = a.to();
        if cosine < 0.0 {
            return None;
        }
        if (a.amount - b.amount).abs() < SAME {
            // Half-way between both normals, as far out as the mitre is.
            let mitre = (inward_a + inward_b) / (1.0 + inward_a.dot(&inward_b));
            let point = corner + mitre * f64::midpoint(a.amount, b.amount);
            return Some([point; 2]);
        }
        return Some([corner + inward_a * a.amount, corner + inward_b * b.amount]);
    }
    // By the tangents where they touched; half-way between them where a line between them is gone.
    let near = if touching {
        // The corner goes by x where inward_a . x = a.amount and inward_b . x = b.amount.
        let shift = outward(inward_b) * a.amount - outward(inward_a) * b.amount;
        a.to() + shift / inward_a.perp(&inward_b)
    } else {
        (a.to() + b.from()) / 2.0
    };
    let point = Carrier::of(a).meet(Carrier::of(b), near)?;
    Some([point; 2])
}
