//! Tools and pins as bodies: what is slid along the axis until it touches.

use crate::quantity::Length;
use crate::section::{Bore, Facet, Feature, Item, Part, Point, Run, Shape, Skin, Station};

/// How far a tool's body reaches back: longer than any section, so that nothing passes behind it.
const BODY: Length = Length::mm(1000.0);

/// A hole's tool. Its full diameter ends at z = 0, its point lies behind (z > 0).
pub(super) fn tool(bore: &Bore) -> Part {
    let (wide, zero) = (bore.diameter, Length::ZERO);
    let mut line = Line::new(bore.item, zero - BODY);
    line.to(Facet::Floor, wide, zero - BODY);
    line.to(Facet::Side, wide, zero);
    match bore.point {
        Point::Flat => line.to(Facet::Floor, zero, zero),
        Point::Cone(_) => line.to(Facet::Cone, zero, bore.point.length_between(wide, zero)),
        Point::Centre(_, pilot) => {
            let end = bore.point.length_between(wide, pilot.diameter);
            line.to(Facet::Cone, pilot.diameter, end);
            let stop = end + pilot.length;
            line.to(Facet::Side, pilot.diameter, stop);
            let tip = Point::Cone(pilot.point).length_between(pilot.diameter, zero);
            line.to(Facet::Cone, zero, stop + tip);
        }
    }
    line.part()
}

/// From where a tool's full diameter ends to its tip.
pub(super) fn point_length(bore: &Bore) -> Length {
    let ends = tool(bore).runs.into_iter().map(|run| run.to.z);
    ends.fold(Length::ZERO, Length::max)
}

/// A flat pin; its end lies at z = 0.
pub(super) fn pin(diameter: Length) -> Part {
    let zero = Length::ZERO;
    let mut line = Line::new(Item::Plug, zero - BODY);
    line.to(Facet::Floor, diameter, zero - BODY);
    line.to(Facet::Side, diameter, zero);
    line.to(Facet::Floor, zero, zero);
    line.part()
}

/// A body's line, from the axis out, along, and back to the axis.
struct Line {
    item: Item,
    at: Station,
    runs: Vec<Run>,
}

impl Line {
    fn new(item: Item, z: Length) -> Self {
        Self { item, at: Station::new(Length::ZERO, z), runs: Vec::new() }
    }

    fn to(&mut self, facet: Facet, diameter: Length, z: Length) {
        let to = Station::new(diameter, z);
        if to != self.at {
            let plane = facet == Facet::Floor;
            let (feature, skin) =
                (Feature::new(self.item, facet), if plane { Skin::End } else { Skin::Outside });
            self.runs.push(Run { feature, skin, from: self.at, to, shape: Shape::Straight });
            self.at = to;
        }
    }

    fn part(self) -> Part {
        Part { runs: self.runs, threads: Vec::new() }.snapped()
    }
}
