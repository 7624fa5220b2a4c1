//! Arcs: the point nearest to another, and where they cross and run beside lines and arcs.

use nalgebra::Vector2;

use super::{Arc, length};
use crate::solid::HalfPoint;

/// The point of an arc that is nearest to p: on the ray from the centre through p, or an end.
pub(super) fn foot(p: HalfPoint, arc: &Arc) -> HalfPoint {
    let away = Vector2::from(p) - arc.centre;
    let facing = (away.norm() > 0.0).then(|| arc.centre + away * (arc.radius / away.norm()));
    let facing = facing.map(HalfPoint::from).filter(|q| arc.holds(*q));
    let [first, last] = arc.ends;
    let nearer = if length(p, last) < length(p, first) { last } else { first };
    facing.unwrap_or(nearer)
}

/// Where a segment crosses an arc.
pub(super) fn crossings_of_segment(segment: [HalfPoint; 2], arc: &Arc) -> Vec<HalfPoint> {
    let (a, b) = (Vector2::from(segment[0]), Vector2::from(segment[1]));
    let along = b - a;
    let square = along.norm_squared();
    if square == 0.0 {
        return vec![];
    }
    let middle = (arc.centre - a).dot(&along) / square;
    let off = a + along * middle - arc.centre;
    let half = (arc.radius * arc.radius - off.norm_squared()) / square;
    if half < 0.0 {
        return vec![];
    }
    let shares = [middle - half.sqrt(), middle + half.sqrt()];
    let on_segment = shares.into_iter().filter(|t| (0.0..=1.0).contains(t));
    let points = on_segment.map(|t| HalfPoint::from(a + along * t));
    points.filter(|p| arc.holds(*p)).collect()
}

/// The points of an arc at which it runs parallel to a segment.
pub(super) fn beside_segment(segment: [HalfPoint; 2], arc: &Arc) -> Vec<HalfPoint> {
    let along = Vector2::from(segment[1]) - Vector2::from(segment[0]);
    if along.norm() == 0.0 {
        return vec![];
    }
    let normal = Vector2::new(-along.y, along.x) * (arc.radius / along.norm());
    let points = [arc.centre + normal, arc.centre - normal].map(HalfPoint::from);
    points.into_iter().filter(|p| arc.holds(*p)).collect()
}

/// Where two arcs cross.
pub(super) fn crossings_of_arc(first: &Arc, second: &Arc) -> Vec<HalfPoint> {
    let between = second.centre - first.centre;
    let apart = between.norm();
    if apart == 0.0 {
        return vec![];
    }
    let (r, s) = (first.radius, second.radius);
    let along = (apart * apart + r * r - s * s) / (2.0 * apart);
    let half = r * r - along * along;
    if half < 0.0 {
        return vec![];
    }
    let unit = between / apart;
    let middle = first.centre + unit * along;
    let across = Vector2::new(-unit.y, unit.x) * half.sqrt();
    let points = [middle + across, middle - across].map(HalfPoint::from);
    points.into_iter().filter(|p| first.holds(*p) && second.holds(*p)).collect()
}

/// Pairs of points, one on each arc, on the line through both centres.
pub(super) fn beside_arc(first: &Arc, second: &Arc) -> Vec<(HalfPoint, HalfPoint)> {
    let between = second.centre - first.centre;
    let apart = between.norm();
    if apart == 0.0 {
        // Round one centre: all of a stretch is as near, its ends with it.
        return vec![];
    }
    let unit = between / apart;
    let on = |arc: &Arc| {
        let points = [arc.centre + unit * arc.radius, arc.centre - unit * arc.radius];
        points.map(HalfPoint::from).into_iter().filter(|p| arc.holds(*p)).collect::<Vec<_>>()
    };
    let others = on(second);
    on(first).into_iter().flat_map(|p| others.iter().map(move |q| (p, *q))).collect()
}
