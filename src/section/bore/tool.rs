//! One tool of the bore: what it is, how far it goes, and the straight pieces of its outline.

use crate::quantity::{Angle, Length, Limits};
use crate::section::{Facet, Feature, Item, Station};

/// The face by which a tool comes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mouth {
    /// The finished front (nib) face.
    Front,
    /// The back face of the tenon.
    Back,
}

/// The cylinder in front of a centre drill's cone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CentrePilot {
    /// Its diameter.
    pub diameter: Length,
    /// From the end of the cone to where its full diameter ends.
    pub length: Length,
    /// The included angle of its own point.
    pub point: Angle,
}

/// The end of a tool.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Point {
    /// An end mill or boring bar: a flat floor.
    Flat,
    /// A drill (118 degrees), a countersink, a centre drill that goes no deeper than its cone:
    /// a cone of this included angle.
    Cone(Angle),
    /// A centre drill: a cone of this included angle down to its pilot.
    Centre(Angle, CentrePilot),
}

impl Point {
    /// The included angle of the cone behind the full diameter, if there is one.
    pub fn cone(self) -> Option<Angle> {
        match self {
            Self::Flat => None,
            Self::Cone(angle) | Self::Centre(angle, _) => Some(angle),
        }
    }

    /// Axial length of the point's cone between two diameters: (D - d) / 2 / tan(angle / 2).
    pub fn length_between(self, wide: Length, narrow: Length) -> Length {
        self.cone().map_or(Length::ZERO, |angle| (wide - narrow) / 2.0 / half_tan(angle))
    }
}

/// How far a tool goes, from the face by which it comes in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Depth {
    /// Full diameter down to this depth; zero for a countersink, which is all cone.
    To(Length),
    /// A relief, turned inside a hole with a hook tool: full diameter between these depths, with
    /// the tool's point as a wall at both ends.
    Between(Length, Length),
    /// Out at the other face.
    Through,
}

/// One tool's hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Bore {
    /// Which hole it is.
    pub item: Item,
    /// The face by which the tool comes in, and from which its depth is measured.
    pub mouth: Mouth,
    /// Diameter as modelled; of a countersink at its mouth.
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
    /// How deep the full diameter goes in a part of this length, from the tool's own face.
    pub fn full_depth(&self, part_length: Length) -> Length {
        match self.depth {
            Depth::To(depth) | Depth::Between(_, depth) => depth,
            Depth::Through => part_length,
        }
    }

    /// The z between which the tool has its full diameter.
    pub fn full(&self, part_length: Length) -> [Length; 2] {
        let from = if let Depth::Between(from, _) = self.depth { from } else { Length::ZERO };
        let to = self.full_depth(part_length);
        match self.mouth {
            Mouth::Front => [from, to],
            Mouth::Back => [part_length - to, part_length - from],
        }
    }

    /// The same hole, its depths from a face that lies so much farther out; one that goes through
    /// stays as it is.
    #[must_use]
    pub(in crate::section) fn deeper(&self, by: Length) -> Self {
        let depth = match self.depth {
            Depth::To(depth) => Depth::To(depth + by),
            Depth::Between(from, to) => Depth::Between(from + by, to + by),
            Depth::Through => Depth::Through,
        };
        Self { depth, ..self.clone() }
    }

    /// The same tool cutting another diameter; a centre drill's pilot cuts as much over its own.
    #[must_use]
    pub fn cutting(&self, diameter: Length) -> Self {
        let mut other = Self { diameter, ..self.clone() };
        if let Point::Centre(_, pilot) = &mut other.point {
            pilot.diameter = (pilot.diameter + (diameter - self.diameter)).max(Length::ZERO);
        }
        other
    }

    /// The tool's outline within a part of this length, from the front to the back.
    pub(super) fn pieces(&self, part_length: Length) -> Vec<Piece> {
        let mut outline = Outline::new(self.item);
        match self.depth {
            Depth::To(depth) => {
                outline.cylinder(self.diameter, Length::ZERO, depth);
                outline.point(self, depth);
            }
            Depth::Between(from, to) => {
                if let Some(angle) = self.point.cone() {
                    let tip = from - self.diameter / 2.0 / half_tan(angle);
                    let ends = [(Length::ZERO, tip), (self.diameter, from)];
                    outline.piece(self.item, Facet::Cone, ends);
                }
                outline.cylinder(self.diameter, from, to);
                outline.point(self, to);
            }
            Depth::Through => outline.cylinder(self.diameter, Length::ZERO, part_length),
        }
        let placed = outline.pieces.into_iter().filter_map(|piece| piece.within(part_length));
        match self.mouth {
            Mouth::Front => placed.collect(),
            Mouth::Back => placed.map(|piece| piece.seen_from(part_length)).rev().collect(),
        }
    }
}

/// A straight piece of a tool's outline; the diameter is linear in z.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Piece {
    pub feature: Feature,
    /// The end nearer the front.
    pub from: Station,
    /// The end nearer the back.
    pub to: Station,
}

impl Piece {
    /// The diameter at a z; on the piece's line also beyond its ends, exact at them.
    pub fn diameter_at(&self, z: Length) -> Length {
        let (from, to) = (self.from, self.to);
        if from.diameter == to.diameter || z == from.z {
            return from.diameter;
        }
        if z == to.z {
            return to.diameter;
        }
        from.diameter + (to.diameter - from.diameter) * ((z - from.z) / (to.z - from.z))
    }

    /// The z at which two pieces' lines cross; none for parallel ones.
    pub fn meets(&self, other: &Self) -> Option<Length> {
        let slope = |p: &Self| (p.to.diameter - p.from.diameter) / (p.to.z - p.from.z);
        let closing = slope(other) - slope(self);
        if closing == 0.0 {
            return None;
        }
        let apart = self.from.diameter - other.diameter_at(self.from.z);
        Some(self.from.z + apart / closing)
    }

    /// What of the piece lies in a part of this length.
    fn within(self, length: Length) -> Option<Self> {
        let cut = |station: Station| {
            let z = station.z.max(Length::ZERO).min(length);
            Station::new(self.diameter_at(z), z)
        };
        let piece = Self { from: cut(self.from), to: cut(self.to), ..self };
        (piece.to.z > piece.from.z).then_some(piece)
    }

    /// The piece with z measured from the other end of a part of this length.
    fn seen_from(self, length: Length) -> Self {
        let turned = |station: Station| Station::new(station.diameter, length - station.z);
        Self { from: turned(self.to), to: turned(self.from), ..self }
    }
}

/// A tool's outline on its way into the material, by depth from its own face.
struct Outline {
    item: Item,
    pieces: Vec<Piece>,
}

impl Outline {
    fn new(item: Item) -> Self {
        Self { item, pieces: Vec::new() }
    }

    fn piece(&mut self, item: Item, facet: Facet, ends: [(Length, Length); 2]) {
        let [from, to] = ends.map(|(diameter, z)| Station::new(diameter, z));
        if to.z > from.z {
            self.pieces.push(Piece { feature: Feature::new(item, facet), from, to });
        }
    }

    fn cylinder(&mut self, diameter: Length, from: Length, to: Length) {
        self.piece(self.item, Facet::Side, [(diameter, from), (diameter, to)]);
    }

    fn point(&mut self, bore: &Bore, from: Length) {
        let (item, wide) = (self.item, bore.diameter);
        let narrow = match bore.point {
            Point::Centre(_, pilot) => pilot.diameter,
            _ => Length::ZERO,
        };
        let Some(_) = bore.point.cone() else { return };
        // A countersink is all cone: it needs no second word.
        let facet = if matches!(item, Item::Countersink(_)) { Facet::Side } else { Facet::Cone };
        let end = from + bore.point.length_between(wide, narrow);
        self.piece(item, facet, [(wide, from), (narrow, end)]);
        if let Point::Centre(_, pilot) = bore.point {
            let (item, stop) = (Item::CentrePilot, end + pilot.length);
            self.piece(item, Facet::Side, [(narrow, end), (narrow, stop)]);
            let tip = stop + narrow / 2.0 / half_tan(pilot.point);
            self.piece(item, Facet::Cone, [(narrow, stop), (Length::ZERO, tip)]);
        }
    }
}

fn half_tan(included: Angle) -> f64 {
    libm::tan(included.as_rad() / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bore(mouth: Mouth, depth: Depth, point: Point) -> Bore {
        let diameter = Length::mm(8.0);
        let limits = Limits::new(diameter, diameter + Length::mm(0.1)).unwrap();
        Bore { item: Item::Recess, mouth, diameter, depth, point, limits, tool: None }
    }

    fn corners(bore: &Bore) -> Vec<[f64; 4]> {
        let corner =
            |p: &Piece| [p.from.diameter, p.from.z, p.to.diameter, p.to.z].map(Length::as_mm);
        bore.pieces(Length::mm(30.0)).iter().map(corner).collect()
    }

    /// Source: plane geometry; a cone of 90 degrees is as long as its radius.
    #[test]
    fn the_same_tool_from_either_end() {
        let (depth, point) = (Depth::To(Length::mm(5.0)), Point::Cone(Angle::deg(90.0)));
        let close = |found: Vec<[f64; 4]>, expected: &[[f64; 4]]| {
            assert_eq!(found.len(), expected.len(), "{found:?}");
            let pairs = found.iter().flatten().zip(expected.iter().flatten());
            assert!(pairs.into_iter().all(|(a, b)| (a - b).abs() < 1e-12), "{found:?}");
        };
        let front = [[8.0, 0.0, 8.0, 5.0], [8.0, 5.0, 0.0, 9.0]];
        close(corners(&bore(Mouth::Front, depth, point)), &front);
        let back = [[0.0, 21.0, 8.0, 25.0], [8.0, 25.0, 8.0, 30.0]];
        close(corners(&bore(Mouth::Back, depth, point)), &back);
        let groove = Depth::Between(Length::mm(2.0), Length::mm(5.0));
        let relief = [[4.0, 0.0, 8.0, 2.0], [8.0, 2.0, 8.0, 5.0], [8.0, 5.0, 0.0, 9.0]];
        close(corners(&bore(Mouth::Front, groove, point)), &relief);
    }

    /// Source: plane geometry: a 60 degree cone from 8 to 3 is 2.5 / tan 30 = 4.3301 long.
    #[test]
    fn a_centre_drill_goes_on_with_its_pilot() {
        let pilot = CentrePilot {
            diameter: Length::mm(3.0),
            length: Length::mm(2.0),
            point: Angle::deg(90.0),
        };
        let point = Point::Centre(Angle::deg(60.0), pilot);
        let tool = bore(Mouth::Front, Depth::To(Length::mm(1.0)), point);
        let found = corners(&tool);
        let end = 1.0 + 2.5 * 3.0_f64.sqrt();
        assert!((found[1][3] - end).abs() < 1e-12);
        assert_eq!(found.len(), 4);
        assert!((found[3][3] - (end + 2.0 + 1.5)).abs() < 1e-12);
        let wider = tool.cutting(Length::mm(8.1));
        let Point::Centre(_, grown) = wider.point else { panic!("still a centre drill") };
        assert!((grown.diameter.as_mm() - 3.1).abs() < 1e-12);
    }
}
