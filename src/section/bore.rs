//! Holes: each a tool with its point, and the upper envelope that all of them leave.

use super::{COINCIDENT, Facet, Feature, Item, Station};
use crate::quantity::{Angle, Length, Limits};

/// The end of a drilling tool.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Point {
    /// An end mill or boring bar: a flat floor.
    Flat,
    /// A drill (118 degrees) or centre drill (60 degrees): a cone of this included angle.
    Cone(Angle),
}

impl Point {
    /// Axial length of the point's cone between two diameters: (D - d) / 2 / tan(angle / 2).
    pub fn length_between(self, wide: Length, narrow: Length) -> Length {
        match self {
            Self::Flat => Length::mm(0.0),
            Self::Cone(angle) => (wide - narrow) / 2.0 / half_tan(angle),
        }
    }
}

/// How far a tool goes, always from the finished front face to where its full diameter ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Depth {
    /// Full diameter down to this z.
    To(Length),
    /// Out at the back.
    Through,
}

/// One tool's hole, cut from the front.
#[derive(Clone, Debug, PartialEq)]
pub struct Bore {
    /// Which of the stack it is.
    pub item: Item,
    /// Diameter as modelled.
    pub diameter: Length,
    /// Where its full diameter ends.
    pub depth: Depth,
    /// The shape of its end.
    pub point: Point,
    /// The diameters that this tool may really leave (a drill cuts over its size).
    pub limits: Limits,
    /// The tool as people name it, if the diameter was given by a name ("5/16 in", "letter O").
    pub tool: Option<String>,
}

impl Bore {
    /// Where the full diameter ends in a part of this length.
    pub fn full_depth(&self, part_length: Length) -> Length {
        match self.depth {
            Depth::To(z) => z,
            Depth::Through => part_length,
        }
    }

    /// The diameter at `z` of that surface of the tool, side or point, which it has at `on`:
    /// the surface is extended beyond its end. Zero where the tool does not reach `on`.
    fn surface_diameter(&self, on: Length, z: Length, part_length: Length) -> Length {
        let end = self.full_depth(part_length);
        match (self.depth, self.point) {
            _ if on <= end => self.diameter,
            (Depth::To(_), Point::Cone(angle)) => {
                let cone = |z: Length| self.diameter - (z - end) * 2.0 * half_tan(angle);
                if cone(on) > Length::mm(0.0) { cone(z) } else { Length::mm(0.0) }
            }
            _ => Length::mm(0.0),
        }
    }

    /// The z where this tool's point crosses the other tool's side or point.
    fn cone_meets(&self, other: &Self, part_length: Length) -> Vec<Length> {
        let Point::Cone(angle) = self.point else { return Vec::new() };
        let (end, end_other) = (self.full_depth(part_length), other.full_depth(part_length));
        let mut meets = vec![end + self.point.length_between(self.diameter, other.diameter)];
        if let Point::Cone(angle_other) = other.point {
            // D - 2 t (z - e) is the same for both.
            let (t, t_other) = (2.0 * half_tan(angle), 2.0 * half_tan(angle_other));
            if t != t_other {
                let rise = self.diameter - other.diameter + end * t - end_other * t_other;
                meets.push(rise / (t - t_other));
            }
        }
        meets
    }
}

fn half_tan(included: Angle) -> f64 {
    libm::tan(included.as_rad() / 2.0)
}

/// A line of a bore's envelope, walked from the front to the back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnvelopeRun {
    /// The tool's surface that is left standing.
    pub feature: Feature,
    /// The end nearer the front.
    pub from: Station,
    /// The end nearer the back.
    pub to: Station,
}

/// What all tools together leave, from the front face to `length`: at every z the widest hole.
///
/// All tools come from the front, so the envelope never widens towards the back. It is exact:
/// between neighbouring breakpoints (full depths, tips, crossings of two tools' surfaces) one
/// tool is widest throughout. The list is empty where no tool goes through: such a part has no
/// bore from end to end.
pub fn envelope(bores: &[Bore], length: Length) -> Vec<EnvelopeRun> {
    let mut runs: Vec<EnvelopeRun> = Vec::new();
    for (from, to) in intervals(bores, length) {
        let middle = (from + to) / 2.0;
        let Some(tool) = widest(bores, middle, length) else { return Vec::new() };
        let at = |z| tool.surface_diameter(middle, z, length);
        let facet = if middle > tool.full_depth(length) { Facet::Cone } else { Facet::Side };
        let run = EnvelopeRun {
            feature: Feature::new(tool.item, facet),
            from: Station::new(at(from), from),
            to: Station::new(at(to), to),
        };
        match runs.last_mut() {
            Some(last) if last.feature == run.feature => last.to = run.to,
            Some(last) => {
                let step = last.to.diameter - run.from.diameter;
                if step > COINCIDENT {
                    let feature = Feature::new(last.feature.item, Facet::Floor);
                    let from = last.to;
                    runs.push(EnvelopeRun { feature, from, to: run.from });
                }
                runs.push(run);
            }
            None => runs.push(run),
        }
    }
    runs
}

/// The part's length, cut at every z where the widest tool may change.
fn intervals(bores: &[Bore], length: Length) -> Vec<(Length, Length)> {
    let mut cuts = vec![Length::mm(0.0), length];
    for bore in bores {
        let end = bore.full_depth(length);
        cuts.push(end);
        cuts.push(end + bore.point.length_between(bore.diameter, Length::mm(0.0)));
        for other in bores {
            cuts.extend(bore.cone_meets(other, length));
        }
    }
    cuts.retain(|z| *z >= Length::mm(0.0) && *z <= length);
    cuts.sort_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    cuts.dedup_by(|b, a| *b - *a <= COINCIDENT);
    cuts.windows(2).map(|w| (w[0], w[1])).collect()
}

fn widest(bores: &[Bore], z: Length, length: Length) -> Option<&Bore> {
    let diameter = |b: &Bore| b.surface_diameter(z, z, length).as_mm();
    bores.iter().filter(|b| diameter(b) > 0.0).max_by(|a, b| diameter(a).total_cmp(&diameter(b)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bore(item: Item, d: f64, depth: Depth, point: Point) -> Bore {
        let diameter = Length::mm(d);
        let limits = Limits::new(diameter, diameter).unwrap();
        Bore { item, diameter, depth, point, limits, tool: None }
    }

    fn to(z: f64) -> Depth {
        Depth::To(Length::mm(z))
    }

    fn drill() -> Point {
        Point::Cone(Angle::deg(118.0))
    }

    fn corners(runs: &[EnvelopeRun]) -> Vec<(f64, f64)> {
        let pair = |s: Station| (s.diameter.as_mm(), s.z.as_mm());
        runs.iter().map(|r| pair(r.from)).chain(runs.last().map(|r| pair(r.to))).collect()
    }

    #[test]
    fn flat_steps() {
        let stack = [
            bore(Item::Recess, 9.0, to(1.0), Point::Flat),
            bore(Item::ThroughBore, 7.0, Depth::Through, drill()),
        ];
        let runs = envelope(&stack, Length::mm(30.0));
        assert_eq!(corners(&runs), [(9.0, 0.0), (9.0, 1.0), (7.0, 1.0), (7.0, 30.0)]);
        assert_eq!(runs[1].feature.to_string(), "recess.floor");
    }

    /// Source: the cone behind a stepped drill is (R - r) / tan(point / 2) long (plane geometry).
    #[test]
    fn a_point_survives_down_to_the_next_hole() {
        let stack = [
            bore(Item::TapDrill, 9.2, to(10.0), drill()),
            bore(Item::ThroughBore, 7.0, Depth::Through, drill()),
        ];
        let runs = envelope(&stack, Length::mm(30.0));
        let expected = 10.0 + (4.6 - 3.5) / libm::tan(59.0_f64.to_radians());
        assert!((corners(&runs)[2].1 - expected).abs() < 1e-12);
        assert_eq!(runs[1].feature.to_string(), "tap-drill.cone");
    }

    /// A wide flat cone swallows a narrow tool's end: the narrow one leaves nothing.
    #[test]
    fn a_point_that_passes_over_another_tools_end_hides_it() {
        let stack = [
            bore(Item::ClearanceBore, 10.0, to(5.0), Point::Cone(Angle::deg(60.0))),
            bore(Item::TapDrill, 9.0, to(5.2), Point::Flat),
            bore(Item::ThroughBore, 7.0, Depth::Through, drill()),
        ];
        let runs = envelope(&stack, Length::mm(30.0));
        let features: Vec<_> = runs.iter().map(|r| r.feature.to_string()).collect();
        assert_eq!(features, ["clearance-bore", "clearance-bore.cone", "through-bore"]);
    }

    /// Two points that cross: the deeper, narrower drill takes over on its own cone.
    #[test]
    fn two_points_cross() {
        let stack = [
            bore(Item::ClearanceBore, 10.0, to(5.0), Point::Cone(Angle::deg(60.0))),
            bore(Item::TapDrill, 9.0, to(5.5), Point::Cone(Angle::deg(30.0))),
            bore(Item::ThroughBore, 7.0, Depth::Through, drill()),
        ];
        let runs = envelope(&stack, Length::mm(30.0));
        let features: Vec<_> = runs.iter().map(|r| r.feature.to_string()).collect();
        assert_eq!(
            features,
            ["clearance-bore", "clearance-bore.cone", "tap-drill.cone", "through-bore"]
        );
        for pair in runs.windows(2) {
            assert!((pair[0].to.diameter - pair[1].from.diameter).abs() < COINCIDENT);
        }
    }

    #[test]
    fn without_a_through_tool_there_is_no_bore() {
        let blind = [bore(Item::TapDrill, 9.0, to(10.0), drill())];
        assert!(envelope(&blind, Length::mm(30.0)).is_empty());
    }
}
