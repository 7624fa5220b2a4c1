//! Fillets and chamfers at the corner of two strokes.
//!
//! ```text
//!        before  ______ .            offset curves (o) of both strokes, one radius away on the
//!                 o o o o  '.        corner's inner side, meet in the fillet's centre; its feet
//!                       + o   |      on the strokes are where it begins and ends
//!                       centre|
//!                         o   | after
//! ```

use super::Corner;
use super::plane::Vector;
use super::stroke::{Circle, Stroke};
use crate::section::{COINCIDENT, LEAST_STEP};

/// Directions closer than this, in radians, leave no corner: a tangent joint with its rounding.
/// More would refuse to round a blunt corner, less would divide by nothing.
const SMOOTH: f64 = 1e-6;

/// What becomes of two strokes and the corner between them.
#[derive(Clone, Copy, Debug)]
pub(super) struct Joint {
    pub before: Stroke,
    pub cut: Stroke,
    pub after: Stroke,
}

/// How far the direction turns where two strokes meet, positive to the left.
pub(super) fn turn(before: &Stroke, after: &Stroke) -> f64 {
    before.direction(1.0).angle_to(after.direction(0.0))
}

/// Whether two strokes run on into each other.
pub(super) fn is_smooth(before: &Stroke, after: &Stroke) -> bool {
    turn(before, after).abs() < SMOOTH
}

/// Whether the second stroke runs back on the first.
pub(super) fn folds_back(before: &Stroke, after: &Stroke) -> bool {
    turn(before, after).abs() > std::f64::consts::PI - SMOOTH
}

/// The corner cut; none where it does not fit.
pub(super) fn cut(before: &Stroke, after: &Stroke, corner: Corner) -> Option<Joint> {
    match corner {
        Corner::Sharp => None,
        Corner::Fillet(radius) => fillet(before, after, radius.as_mm()),
        Corner::Chamfer { before: leg, after: other } => {
            let share = 1.0 - leg_share(before, leg.as_mm())?;
            joint(before, after, (share, leg_share(after, other.as_mm())?), 0.0)
        }
    }
}

/// The same corner, larger or smaller.
pub(super) fn scaled(corner: Corner, factor: f64) -> Corner {
    match corner {
        Corner::Sharp => Corner::Sharp,
        Corner::Fillet(radius) => Corner::Fillet(radius * factor),
        Corner::Chamfer { before, after } => {
            Corner::Chamfer { before: before * factor, after: after * factor }
        }
    }
}

/// The greatest factor, up to 1, by which a measure may be multiplied to fit; 0 where none fits.
pub(super) fn greatest_factor(fits: impl Fn(f64) -> bool) -> f64 {
    /// Halvings: 2^-40 of a pen's length is nothing.
    const HALVINGS: u32 = 40;
    if fits(1.0) {
        return 1.0;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if fits(middle) { low = middle } else { high = middle }
    }
    low
}

/// The share of a stroke within a straight distance of its end.
fn leg_share(stroke: &Stroke, leg: f64) -> Option<f64> {
    match stroke.circle() {
        None => Some(leg / stroke.chord().length()),
        Some(circle) => {
            let sine = leg / 2.0 / circle.radius;
            (sine <= 1.0).then(|| 2.0 * libm::asin(sine) / stroke.sweep().abs())
        }
    }
}

fn fillet(before: &Stroke, after: &Stroke, radius: f64) -> Option<Joint> {
    let inner = radius.copysign(turn(before, after));
    let (first, second) = (offset(before, inner)?, offset(after, inner)?);
    let mut best: Option<(f64, Joint)> = None;
    for centre in meets(first, second) {
        let Some((share, other)) = foot(before, centre).zip(foot(after, centre)) else { continue };
        let far = (centre - before.to).length();
        if best.as_ref().is_none_or(|(nearest, _)| far < *nearest)
            && let Some(joint) = joint(before, after, (share, other), inner)
        {
            best = Some((far, joint));
        }
    }
    best.map(|(_, joint)| joint)
}

/// Both strokes up to a share of each, and what joins them: an arc that turns from one's
/// direction to the other's, or, where `inner` is 0, a line.
fn joint(before: &Stroke, after: &Stroke, (share, other): (f64, f64), inner: f64) -> Option<Joint> {
    let share = kept(share, before.length())?;
    let other = 1.0 - kept(1.0 - other, after.length())?;
    let (first, last) = (before.at(share), after.at(other));
    let turn = before.direction(share).angle_to(after.direction(other));
    let bulge = if inner == 0.0 { 0.0 } else { libm::tan(turn / 4.0) };
    // Beyond the other stroke the fillet would turn the wrong way.
    if (inner != 0.0 && turn.signum() != inner.signum()) || last.z < first.z {
        return None;
    }
    Some(Joint {
        before: before.part(0.0, share),
        cut: Stroke { from: first, to: last, bulge },
        after: after.part(other, 1.0),
    })
}

/// How much of a stroke is kept: nothing where next to nothing is left; none where the rest is
/// too short to be cut, or there is no such place.
fn kept(share: f64, length: f64) -> Option<f64> {
    let left = share * length;
    if left.abs() <= COINCIDENT.as_mm() {
        return Some(0.0);
    }
    (left >= LEAST_STEP.as_mm() && share < 1.0).then_some(share)
}

/// A line (a point and its direction) or a circle on which a fillet's centre may lie.
#[derive(Clone, Copy)]
enum Offset {
    Line(Vector, Vector),
    Circle(Circle),
}

/// The line or circle that lies so far to the left of a stroke; none beyond a circle's centre.
fn offset(stroke: &Stroke, left: f64) -> Option<Offset> {
    let Some(Circle { centre, radius }) = stroke.circle() else {
        let direction = stroke.direction(0.0);
        return Some(Offset::Line(stroke.from + direction.left() * left, direction));
    };
    let radius = radius - left * stroke.bulge.signum();
    (radius > 0.0).then_some(Offset::Circle(Circle { centre, radius }))
}

fn meets(first: Offset, second: Offset) -> Vec<Vector> {
    match (first, second) {
        (Offset::Line(p, u), Offset::Line(q, v)) => {
            let across = u.cross(v);
            if across == 0.0 { vec![] } else { vec![p + u * ((q - p).cross(v) / across)] }
        }
        (Offset::Line(p, u), Offset::Circle(circle))
        | (Offset::Circle(circle), Offset::Line(p, u)) => {
            let middle = p + u * (circle.centre - p).dot(u);
            let off = middle - circle.centre;
            chord(middle, u, circle.radius * circle.radius - off.dot(off))
        }
        (Offset::Circle(a), Offset::Circle(b)) => {
            let between = b.centre - a.centre;
            let apart = between.length();
            if apart == 0.0 {
                return vec![];
            }
            let along = (apart * apart + a.radius * a.radius - b.radius * b.radius) / (2.0 * apart);
            let middle = a.centre + between * (along / apart);
            chord(middle, between.unit().left(), a.radius * a.radius - along * along)
        }
    }
}

/// The two ends of a chord from its middle and the square of its half.
fn chord(middle: Vector, direction: Vector, square: f64) -> Vec<Vector> {
    if square < 0.0 {
        return vec![];
    }
    let half = square.sqrt();
    vec![middle + direction * half, middle - direction * half]
}

/// The share of a stroke at which a centre's foot lies.
fn foot(stroke: &Stroke, centre: Vector) -> Option<f64> {
    let away = match stroke.circle() {
        None => return Some(stroke.share(centre)),
        Some(circle) => centre - circle.centre,
    };
    (away.length() > 0.0).then(|| stroke.share(centre))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;

    fn line(from: (f64, f64), to: (f64, f64)) -> Stroke {
        Stroke::straight(Vector::new(from.0, from.1), Vector::new(to.0, to.1))
    }

    fn arc(from: (f64, f64), to: (f64, f64), bulge: f64) -> Stroke {
        Stroke { bulge, ..line(from, to) }
    }

    fn rounded(before: &Stroke, after: &Stroke, radius: f64) -> Joint {
        let joint = cut(before, after, Corner::Fillet(Length::mm(radius))).expect("it fits");
        // Tangent to both: the directions' cross product is 0, their dot product 1.
        for (one, other) in [
            (before.direction(before.share(joint.cut.from)), joint.cut.direction(0.0)),
            (after.direction(after.share(joint.cut.to)), joint.cut.direction(1.0)),
        ] {
            assert!(one.cross(other).abs() < 1e-9 && (one.dot(other) - 1.0).abs() < 1e-9);
        }
        let found = joint.cut.circle().expect("an arc").radius;
        assert!((found - radius).abs() < 1e-9, "{found}");
        assert_eq!((joint.before.to, joint.after.from), (joint.cut.from, joint.cut.to));
        joint
    }

    /// Source: plane geometry: in a right angle the feet lie one radius from the corner; in an
    /// angle of deflection d, R tan(d / 2).
    #[test]
    fn between_lines() {
        let step = rounded(&line((0.0, 3.0), (0.0, 5.0)), &line((0.0, 5.0), (8.0, 5.0)), 0.5);
        assert!((step.cut.from - Vector::new(0.0, 4.5)).length() < 1e-12 && step.cut.bulge < 0.0);
        assert!((step.cut.to - Vector::new(0.5, 5.0)).length() < 1e-12);
        let inner = rounded(&line((0.0, 5.0), (4.0, 5.0)), &line((4.0, 5.0), (4.0, 7.0)), 0.5);
        assert!(inner.cut.bulge > 0.0 && (inner.cut.from.z - 3.5).abs() < 1e-12);
        let blunt = rounded(&line((0.0, 5.0), (4.0, 5.0)), &line((4.0, 5.0), (8.0, 6.0)), 3.0);
        let leg = 3.0 * libm::tan(libm::atan2(1.0, 4.0) / 2.0);
        assert!((blunt.cut.from.z - (4.0 - leg)).abs() < 1e-12);
    }

    #[test]
    fn between_lines_and_arcs_and_between_arcs() {
        let (low, high) = ((0.0, 5.0), (8.0, 5.5));
        for bulge in [0.2, -0.2] {
            rounded(&line((-4.0, 5.5), low), &arc(low, high, bulge), 0.7);
            rounded(&arc(low, high, bulge), &line(high, (12.0, 5.0)), 0.7);
            for other in [0.15, -0.15] {
                rounded(&arc(low, high, bulge), &arc(high, (14.0, 5.2), other), 0.4);
            }
        }
        // On a step up and a step down, beside an arc.
        rounded(&arc(low, high, 0.2), &line(high, (8.0, 7.0)), 0.3);
        rounded(&arc(low, high, -0.2), &line(high, (8.0, 3.0)), 0.3);
    }

    #[test]
    fn what_is_too_large_does_not_fit() {
        let (face, side) = (line((0.0, 4.0), (0.0, 5.0)), line((0.0, 5.0), (8.0, 5.0)));
        let fits = |radius: f64| cut(&face, &side, Corner::Fillet(Length::mm(radius))).is_some();
        assert!(fits(0.9) && fits(1.0) && !fits(1.1) && !fits(20.0));
        assert!((greatest_factor(|f| fits(2.0 * f)) * 2.0 - 1.0).abs() < 1e-3);
        // Exactly the whole face: nothing of it is left.
        let whole = cut(&face, &side, Corner::Fillet(Length::mm(1.0))).unwrap();
        assert_eq!(whole.before.from, whole.before.to);
    }

    /// Legs are straight distances from the corner, on arcs too.
    #[test]
    fn a_chamfer_has_the_legs_it_was_given() {
        let (before, after) = (arc((0.0, 5.0), (8.0, 5.5), 0.2), line((8.0, 5.5), (8.0, 3.0)));
        let legs = Corner::Chamfer { before: Length::mm(0.4), after: Length::mm(0.3) };
        let joint = cut(&before, &after, legs).unwrap();
        assert!(((joint.cut.from - before.to).length() - 0.4).abs() < 1e-12);
        assert!(((joint.cut.to - before.to).length() - 0.3).abs() < 1e-12);
        let circles = [joint.before, before].map(|s| s.circle().unwrap().radius);
        assert!((circles[0] - circles[1]).abs() < 1e-9);
    }
}
