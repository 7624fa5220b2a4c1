//! Depths and readings against plane geometry.
//!
//! Source: plane geometry of a cone; the lengths of points against a published table's: a point of
//! 118 degrees on 9.2 is 2.764 mm long, one of 90 degrees 4.600.

use std::f64::consts::PI;

use sectionwright::quantity::{Angle, Length, Limits};
use sectionwright::section::{Bore, Cut, Depth, Item, Mouth, Point, Quill, Workpiece};
use sectionwright::shop::{Depths, PinReading};

use super::common::random::Dice;
use super::common::section::r1;

fn hole(item: Item, mouth: Mouth, diameter: f64, depth: f64, point: f64) -> Bore {
    let diameter = Length::mm(diameter);
    let point = if point < 180.0 { Point::Cone(Angle::deg(point)) } else { Point::Flat };
    let (depth, limits) = (Depth::To(Length::mm(depth)), Limits::exactly(diameter));
    Bore { item, mouth, diameter, depth, point, limits, tool: None }
}

/// A cone's length between two diameters.
fn cone(wide: f64, narrow: f64, point: f64) -> f64 {
    (wide - narrow) / 2.0 / libm::tan(point / 360.0 * PI)
}

#[test]
fn the_lengths_of_points_are_those_of_a_table() {
    let piece = Workpiece::rod(&r1());
    for (point, published) in [(118.0, 2.764), (135.0, 1.905), (90.0, 4.600), (60.0, 7.967)] {
        let bore = hole(Item::TapDrill, Mouth::Front, 9.2, 10.0, point);
        let depths = Depths::of(&bore, &piece, None).unwrap();
        assert!((depths.mark.as_mm() - 10.0 - published).abs() < 0.0005, "{point}");
        // Into solid material it touches with its tip.
        assert!((depths.travel.unwrap() - depths.mark).abs() < Length::mm(1e-9));
        assert_eq!(depths.touches_at, Length::ZERO);
    }
}

/// A drill that opens a hole touches (R - r) / tan(point / 2) before its full diameter arrives;
/// from either face, whatever is still to come off the front.
#[test]
fn a_hole_that_is_opened_is_touched_early() {
    let mut dice = Dice(7);
    for _ in 0..200 {
        let mouth = dice.one_of(&[Mouth::Front, Mouth::Back]);
        let first = dice.within(3.0, 7.0);
        let wider = first + dice.within(0.1, 3.0);
        let (deep, depth) = (dice.within(12.0, 20.0), dice.within(1.0, 6.0));
        let point = dice.one_of(&[60.0, 90.0, 118.0, 135.0]);
        let mut piece = Workpiece::rod(&r1());
        let length = r1().squared_length() - Length::mm(dice.within(0.0, 0.2));
        piece.take(&Cut::Square { length });
        piece.take(&Cut::Bore(hole(Item::TapDrill, mouth, first, deep, 118.0)));
        let bore = hole(Item::ClearanceBore, mouth, wider, depth, point);
        let quill = Quill { per_turn: Length::mm(2.5), divisions: Some(50) };
        let depths = Depths::of(&bore, &piece, Some(quill)).unwrap();
        let travel = depth + cone(wider, first, point);
        assert!((depths.travel.unwrap().as_mm() - travel).abs() < 1e-9, "{depths:?} {travel}");
        assert!((depths.touches_at.as_mm() - first).abs() < 1e-9);
        assert!((depths.mark.as_mm() - depth - cone(wider, 0.0, point)).abs() < 1e-9);
        assert_eq!(depths.full, Length::mm(depth));
        let wheel = depths.handwheel.unwrap();
        let back = f64::from(wheel.turns) * 2.5 + wheel.divisions.unwrap() * 0.05;
        assert!((back - travel).abs() <= 0.0125 + 1e-9, "{wheel:?} {travel}");
        // A pin of the stated diameter rests on the cone that is left.
        piece.take(&Cut::Bore(bore.clone()));
        let Some(pin) = PinReading::of(&bore, &piece).unwrap() else {
            assert!(wider - first < 0.2 + 1e-9, "{first} {wider}");
            continue;
        };
        let d = pin.diameter.as_mm();
        assert!(d <= wider - 0.04 + 1e-9 && d >= first + 0.04 - 1e-9, "{d} {first} {wider}");
        let reads = depth + cone(wider, d, point);
        assert!((pin.reading.as_mm() - reads).abs() < 1e-9, "{pin:?} {reads}");
        assert!(pin.on_cone);
    }
}

/// On a flat floor a pin reads the depth itself, and a flat tool touches the face.
#[test]
fn a_flat_floor_is_read_as_it_is() {
    let mut piece = Workpiece::rod(&r1());
    piece.take(&Cut::Square { length: r1().squared_length() });
    piece.take(&Cut::Bore(hole(Item::TapDrill, Mouth::Front, 6.0, 12.0, 118.0)));
    let bore = hole(Item::Recess, Mouth::Front, 9.0, 1.2, 180.0);
    let depths = Depths::of(&bore, &piece, None).unwrap();
    assert!((depths.travel.unwrap().as_mm() - 1.2).abs() < 1e-9);
    assert_eq!(depths.mark, depths.full);
    piece.take(&Cut::Bore(bore.clone()));
    let pin = PinReading::of(&bore, &piece).unwrap().unwrap();
    assert!((pin.reading.as_mm() - 1.2).abs() < 1e-9 && !pin.on_cone);
}

/// A ledge of a hundredth carries no pin.
#[test]
fn a_ledge_too_narrow_is_not_trusted() {
    let mut piece = Workpiece::rod(&r1());
    piece.take(&Cut::Square { length: r1().squared_length() });
    piece.take(&Cut::Bore(hole(Item::TapDrill, Mouth::Front, 8.0, 12.0, 118.0)));
    let bore = hole(Item::ClearanceBore, Mouth::Front, 8.05, 3.0, 118.0);
    piece.take(&Cut::Bore(bore.clone()));
    assert_eq!(PinReading::of(&bore, &piece).unwrap(), None);
}
