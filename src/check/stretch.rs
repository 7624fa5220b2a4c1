//! A stretch of a face's line over which neither r nor z turns back.

use crate::section::{Feature, Skin};
use crate::solid::{HalfPoint, Meridian, Swept};

/// A straight line, or a piece of at most a quarter of an arc.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    pub feature: Feature,
    pub skin: Skin,
    /// (r, z) of its beginning.
    pub from: HalfPoint,
    /// (r, z) of its end.
    pub to: HalfPoint,
    circle: Option<Circle>,
}

/// The circle of an arc, and which half of it, looked at along r and along z.
#[derive(Clone, Copy, Debug)]
struct Circle {
    centre: HalfPoint,
    radius: f64,
    /// +1 where r, or z, is more than the centre's.
    side: [f64; 2],
}

impl Stretch {
    /// The stretches of a face's line, in its order.
    pub fn of(line: &Swept) -> Vec<Self> {
        let Swept { feature, skin, from, to, bulge } = *line;
        let meridian = Meridian::between(from, to, bulge);
        let Meridian::Arc { centre, radius, .. } = meridian else {
            return vec![Self { feature, skin, from, to, circle: None }];
        };
        let mut ends = meridian.extremes();
        ends.sort_by(f64::total_cmp);
        let at = |v: f64| match v {
            0.0 => from,
            1.0 => to,
            _ => meridian.at(v),
        };
        let pieces = ends.windows(2).filter(|v| v[0] < v[1]);
        pieces
            .map(|v| {
                let middle = meridian.at(f64::midpoint(v[0], v[1]));
                let side = [middle[0] - centre[0], middle[1] - centre[1]].map(f64::signum);
                let circle = Some(Circle { centre, radius, side });
                Self { feature, skin, from: at(v[0]), to: at(v[1]), circle }
            })
            .collect()
    }

    /// Coordinate `other` (0 is r, 1 is z) where its companion is `value`, within its ends.
    fn solve(&self, other: usize, value: f64) -> f64 {
        let own = 1 - other;
        let (from, to) = (self.from, self.to);
        // The ends as they are, without rounding.
        if value == from[own] {
            return from[other];
        }
        if value == to[own] {
            return to[other];
        }
        match self.circle {
            None => {
                let t = ((value - from[own]) / (to[own] - from[own])).clamp(0.0, 1.0);
                from[other] + (to[other] - from[other]) * t
            }
            Some(Circle { centre, radius, side }) => {
                let off = value - centre[own];
                let reach = (radius * radius - off * off).max(0.0).sqrt();
                let (low, high) = (from[other].min(to[other]), from[other].max(to[other]));
                (centre[other] + side[other] * reach).clamp(low, high)
            }
        }
    }

    /// z at a radius within it; on a plane across the axis, its z.
    pub fn z_at(&self, r: f64) -> f64 {
        if self.from[1] == self.to[1] { self.from[1] } else { self.solve(1, r) }
    }

    /// Radius at a z within it; on a cylinder, its radius.
    pub fn radius_at(&self, z: f64) -> f64 {
        if self.from[0] == self.to[0] { self.from[0] } else { self.solve(0, z) }
    }

    /// The radius at which two stretches climb alike, if either is an arc: there the distance
    /// along z between them may be least.
    pub fn alike(&self, other: &Self) -> Option<f64> {
        let slope = |line: &Self| (line.to[1] - line.from[1]) / (line.to[0] - line.from[0]);
        let beside = |arc: Circle, line: &Self| {
            let m = slope(line);
            arc.centre[0] - arc.side[1] * m * arc.radius / (1.0 + m * m).sqrt()
        };
        match (self.circle, other.circle) {
            (None, None) => None,
            (Some(arc), None) => Some(beside(arc, other)),
            (None, Some(arc)) => Some(beside(arc, self)),
            (Some(a), Some(b)) => {
                let sign = a.side[1] * b.side[1];
                let (u, v) = (1.0 / a.radius, sign / b.radius);
                (u != v).then(|| (a.centre[0] * u - b.centre[0] * v) / (u - v))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::section::{Facet, Item};

    fn stretches(from: HalfPoint, to: HalfPoint, bulge: f64) -> Vec<Stretch> {
        let feature = Feature::new(Item::Grip(1), Facet::Side);
        Stretch::of(&Swept { feature, skin: Skin::Outside, from, to, bulge })
    }

    /// Expectations: a half circle of radius 1 about (r 5, z 1) has its bottom at r 4, z 1.
    #[test]
    fn an_arc_is_cut_at_its_bottom() {
        let found = stretches([5.0, 0.0], [5.0, 2.0], 1.0);
        assert_eq!(found.len(), 2);
        assert!((found[0].to[0] - 4.0).abs() < 1e-12 && (found[0].to[1] - 1.0).abs() < 1e-12);
        let z = 1.0 - 0.75_f64.sqrt();
        assert!((found[0].z_at(4.5) - z).abs() < 1e-12);
        assert!((found[0].radius_at(z) - 4.5).abs() < 1e-12);
        assert!((found[1].z_at(4.5) - (2.0 - z)).abs() < 1e-12);
        assert_eq!(found[0].z_at(5.0), 0.0);
    }

    /// Independent route: a fine scan over the common radii.
    #[test]
    fn where_two_climb_alike_they_are_nearest() {
        let arc = stretches([4.0, 3.0], [6.0, 1.0], 0.3)[0];
        let line = stretches([4.0, 9.0], [6.0, 6.0], 0.0)[0];
        let other = stretches([4.0, 9.0], [6.0, 7.5], -0.2)[0];
        for second in [line, other] {
            let gap = |r: f64| second.z_at(r) - arc.z_at(r);
            let scan = (0..=20_000).map(|n| gap(4.0 + f64::from(n) * 1e-4));
            let (least, greatest) =
                (scan.clone().fold(f64::MAX, f64::min), scan.fold(f64::MIN, f64::max));
            let r = arc.alike(&second).unwrap();
            let found = gap(r.clamp(4.0, 6.0));
            let at_end = !(4.0..=6.0).contains(&r);
            assert!(at_end || (found - least).abs() < 1e-6 || (found - greatest).abs() < 1e-6);
        }
    }
}
