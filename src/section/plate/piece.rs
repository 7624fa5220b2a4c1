//! A ring or a plug of the plate.

use super::reading::{Measurand, PlateReading};
use super::sizes::{PieceKind, PieceSizes};
use crate::quantity::Length;
use crate::section::companion::{TENTHS, up};
use crate::section::outside::Pen;
use crate::section::{Facet, Feature, Item, Part, Printer, Skin, Station};

/// Length of every hole and peg that is measured (common practice, no source): less, and a
/// caliper's jaws stand on its edge; more, and they do not reach the end of a thin hole.
const REACH: Length = Length::mm(6.0);

/// The least width of a mark (common practice, no source): less, and it is not seen by the eye.
const LEAST_MARK: Length = Length::mm(0.8);

/// Least features of the printer in a mark's width: less, and it comes out as a shade.
const FEATURES_IN_MARK: f64 = 2.0;

/// Marks of the piece that has most, and one less ridge between them.
const MOST_MARKS: f64 = 5.0;

/// The least leg of the chamfer at the foot (common practice, no source): less, and a burr that a
/// knife leaves there is measured.
const LEAST_CHAMFER: Length = Length::mm(0.4);

/// Layers by which the foot's chamfer is longer than the first layer spreads: those above it are
/// still pressed.
const PRESSED_LAYERS: f64 = 2.0;

/// What is left solid under a mark and beside a peg, per side (common practice, no source): less,
/// and a ring is squeezed oval by the jaws.
const SOLID: Length = Length::mm(2.0);

/// What the foot stands on, per side, between its chamfers: less, and it comes off the plate.
const FOOT: Length = Length::mm(1.0);

/// A piece of the plate, as it is in the file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlatePiece {
    /// Its name, its marks and its two diameters.
    pub sizes: PieceSizes,
    /// Outside diameter of the ring, or of the plug's base: where the marks are.
    pub outside: Length,
    /// Width of a mark, and of the ridge between two; each is a groove of 90 degrees.
    pub mark: Length,
    /// Leg of the chamfers at the foot.
    pub chamfer: Length,
    /// z at which the lower hole or peg begins: 0 in a ring, the base's top on a plug.
    pub base: Length,
    /// z of the step between the two diameters.
    pub step: Length,
    /// z of the top.
    pub height: Length,
}

impl PlatePiece {
    pub(super) fn new(sizes: PieceSizes, printer: &Printer) -> Self {
        let layers = |length: Length| whole(length, printer.layer);
        let mark = up((printer.least_feature.value * FEATURES_IN_MARK).max(LEAST_MARK), TENTHS);
        let pressed = printer.spread + printer.layer * PRESSED_LAYERS;
        let chamfer = up(pressed.max(LEAST_CHAMFER), TENTHS);
        // A ridge below the first mark, marks with ridges between them, a ridge above the last.
        let marked = chamfer + mark * (2.0 * MOST_MARKS + 1.0);
        let beside = (mark / 2.0 + SOLID.max(printer.least_wall.value)) * 2.0;
        let base = match sizes.kind {
            PieceKind::Ring => Length::ZERO,
            PieceKind::Plug => layers(marked),
        };
        let standing = sizes.lower + (chamfer * 2.0 + FOOT) * 2.0;
        let outside = up((sizes.lower.max(sizes.upper) + beside).max(standing), 1.0);
        let step = base + layers(REACH);
        let height = (step + layers(REACH)).max(layers(marked));
        Self { sizes, outside, mark, chamfer, base, step, height }
    }

    /// What is read off it, from the foot upwards.
    pub fn readings(&self) -> Vec<PlateReading> {
        let mut readings = self.sizes.diameters().to_vec();
        if self.sizes.kind == PieceKind::Plug {
            let (size, kind, in_file) = ("height", Measurand::Height, self.height);
            let (wide, times) = (false, 1);
            readings.push(PlateReading { size, kind, in_file, wide, times, ..readings[0] });
        }
        readings
    }

    /// Its solid: z = 0 stands on the printer's plate, z grows upwards.
    pub fn part(&self) -> Part {
        let zero = Length::ZERO;
        let name = Feature::new;
        let (lower, upper) = (self.sizes.lower, self.sizes.upper);
        let (foot, chamfer) = (self.outside - self.chamfer * 2.0, self.chamfer);
        let bored = self.sizes.kind == PieceKind::Ring;
        let item = if bored { Item::PlateRing } else { Item::PlatePlug };
        let mouth = lower + chamfer * 2.0;
        let mut pen = Pen::start(Station::new(if bored { mouth } else { zero }, zero));
        pen.to(name(item, Facet::Floor), Skin::End, foot, zero);
        pen.to(name(item, Facet::Chamfer), Skin::Outside, self.outside, chamfer);
        self.marks(&mut pen, item);
        if bored {
            pen.to(name(item, Facet::Side), Skin::Outside, self.outside, self.height);
            pen.to(name(item, Facet::Floor), Skin::End, upper, self.height);
            pen.to(name(Item::PlateHole(2), Facet::Side), Skin::Bore, upper, self.step);
            pen.to(name(Item::PlateHole(2), Facet::Floor), Skin::Bore, lower, self.step);
            pen.to(name(Item::PlateHole(1), Facet::Side), Skin::Bore, lower, chamfer);
            pen.to(name(Item::PlateHole(1), Facet::Chamfer), Skin::Bore, mouth, zero);
        } else {
            pen.to(name(item, Facet::Side), Skin::Outside, self.outside, self.base);
            pen.to(name(item, Facet::Floor), Skin::Outside, lower, self.base);
            pen.to(name(Item::PlatePeg(1), Facet::Side), Skin::Outside, lower, self.step);
            pen.to(name(Item::PlatePeg(1), Facet::Floor), Skin::Outside, upper, self.step);
            pen.to(name(Item::PlatePeg(2), Facet::Side), Skin::Outside, upper, self.height);
            pen.to(name(Item::PlatePeg(2), Facet::Floor), Skin::End, zero, self.height);
        }
        Part { runs: pen.finish(), threads: Vec::new() }.snapped()
    }

    /// Grooves of 90 degrees, from the foot upwards.
    fn marks(&self, pen: &mut Pen, item: Item) {
        let width = self.mark;
        for n in 1..=self.sizes.marks {
            let from = self.chamfer + width * f64::from(2 * n - 1);
            let name = |facet| Feature::new(Item::Mark(n), facet);
            pen.to(Feature::new(item, Facet::Side), Skin::Outside, self.outside, from);
            let middle = from + width / 2.0;
            pen.to(name(Facet::FlankBack), Skin::Outside, self.outside - width, middle);
            pen.to(name(Facet::FlankFront), Skin::Outside, self.outside, from + width);
        }
    }
}

/// The next length, up, of whole layers.
fn whole(length: Length, layer: Length) -> Length {
    /// A length this near to a layer, in layers, is on it.
    const NOISE: f64 = 1e-6;
    layer * (length / layer - NOISE).ceil()
}
