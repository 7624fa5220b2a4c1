//! The tenon: what screws into the barrel.

use super::Pen;
use crate::quantity::{Angle, Length};
use crate::section::{Facet, Feature, Item, Skin, Thread};

/// A groove between shoulder and thread, for the die's incomplete threads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relief {
    /// Along the axis, from the shoulder.
    pub width: Length,
    /// At its bottom.
    pub diameter: Length,
}

/// A plain end in front of the thread's start, thinner than the thread's root.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pilot {
    /// Along the axis, up to the back face.
    pub length: Length,
    /// Its diameter.
    pub diameter: Length,
}

/// The cone at the start of a thread. May be of no size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeadChamfer {
    /// Off the radius; less or more than the thread is deep.
    pub depth: Length,
    /// Along the axis.
    pub length: Length,
}

impl LeadChamfer {
    /// As deep as it is long.
    pub const fn at_45(depth: Length) -> Self {
        Self { depth, length: depth }
    }

    /// At an angle between the cone's surface and the axis, as the tool is set: the smaller, the
    /// longer the lead.
    pub fn at_angle(depth: Length, angle: Angle) -> Self {
        // Exactly as long as deep, where a tangent would be off in its last digit.
        const SQUARE: Angle = Angle::deg(45.0);
        Self { depth, length: if angle == SQUARE { depth } else { depth / angle.tan() } }
    }

    /// The same slope at another depth.
    #[must_use]
    pub fn with_depth(self, depth: Length) -> Self {
        let none = self.depth == Length::ZERO;
        Self { depth, length: if none { depth } else { self.length * (depth / self.depth) } }
    }
}

/// What screws into the barrel.
#[derive(Clone, Debug, PartialEq)]
pub struct Tenon {
    /// The thread; its crest is the diameter that is turned.
    pub thread: Thread,
    /// From the shoulder to the back face.
    pub length: Length,
    /// Lead chamfer at the thread's start.
    pub chamfer: LeadChamfer,
    /// The groove behind the shoulder, if there is one.
    pub relief: Option<Relief>,
    /// The plain end, if there is one.
    pub pilot: Option<Pilot>,
}

impl Tenon {
    /// Diameter at the foot of the shoulder.
    pub(in crate::section) fn foot(&self) -> Length {
        self.relief.map_or(self.thread.form.crest, |relief| relief.diameter)
    }

    /// Draws it from the shoulder's foot to the back face's rim.
    pub(super) fn draw(&self, pen: &mut Pen, shoulder: Length) {
        let name = Feature::new;
        let back = shoulder + self.length;
        let major = self.thread.form.crest;
        if let Some(relief) = self.relief {
            let side = name(Item::Relief, Facet::Side);
            pen.to(side, Skin::Outside, relief.diameter, shoulder + relief.width);
            let wall = name(Item::Relief, Facet::Floor);
            pen.to(wall, Skin::Outside, major, shoulder + relief.width);
        }
        let thread_end = back - self.pilot.map_or(Length::ZERO, |p| p.length);
        let (side, lead) = (name(Item::Tenon, Facet::Side), name(Item::Tenon, Facet::Chamfer));
        pen.to(side, Skin::Outside, major, thread_end - self.chamfer.length);
        pen.to(lead, Skin::Outside, major - self.chamfer.depth * 2.0, thread_end);
        if let Some(pilot) = self.pilot {
            pen.to(name(Item::Tenon, Facet::Floor), Skin::Outside, pilot.diameter, thread_end);
            pen.to(name(Item::Pilot, Facet::Side), Skin::Outside, pilot.diameter, back);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: plane geometry: tan 30 = 1 / sqrt 3.
    #[test]
    fn a_lead_is_as_long_as_its_angle_says() {
        let lead = LeadChamfer::at_angle(Length::mm(0.5), Angle::deg(30.0));
        assert!((lead.length - Length::mm(0.5 * 3.0_f64.sqrt())).abs() < Length::mm(1e-12));
        let half = LeadChamfer::at_angle(Length::mm(0.5), Angle::deg(45.0));
        assert_eq!(half, LeadChamfer::at_45(Length::mm(0.5)));
        let deeper = lead.with_depth(Length::mm(1.0));
        assert!((deeper.length - lead.length * 2.0).abs() < Length::mm(1e-12));
    }
}
