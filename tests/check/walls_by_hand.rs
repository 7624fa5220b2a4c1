//! Walls of parts that differ from R1 in one thing each, worked out by hand: plane geometry on the
//! parts' own numbers, in the half-plane (r, z).
//!
//! R1's bores, as radii: recess 4.45 to z 1.2, clearance 4.15 to 4.6, thread 4.025 at its root from
//! 4.6 to 11.75, tap drill C (half of D1) to 13.5, through 3.45 to 32. Shoulder at 21.

use sectionwright::quantity::Angle;
use sectionwright::scene::{Examination, verdicts};
use sectionwright::section::{
    CapThread, Curve, Depth, Grip, GripRun, Item, LeadChamfer, Mouth, Pilot, Point, Relief, Ring,
    RingForm, Section, Side, Station,
};

use crate::common::{basic_thread, mm};
use crate::fixtures::{DRILL, bore, hole, r1, to};

/// R1 with a change, examined; nothing in it has a tolerance.
fn changed(change: impl FnOnce(&mut Section)) -> Examination {
    let mut section = r1();
    change(&mut section);
    verdicts(&section).unwrap()
}

fn holds_wall(examination: &Examination, code: &str, wall: f64) {
    let found = examination.finding(code).unwrap_or_else(|| panic!("no {code}"));
    assert!((found.measured - wall).abs() < 1e-9, "{code}: {} for {wall}", found.measured);
}

fn worst(examination: &Examination, code: &str) -> f64 {
    examination.finding(code).and_then(|f| f.detail("at the worst")).unwrap()
}

fn run(diameter: f64, z: f64) -> GripRun {
    GripRun::straight(Station::new(mm(diameter), mm(z)))
}

/// Minor radius of the tap drill's hole: ISO 68-1, D1 = D - 5/8 sqrt 3 P.
fn crest() -> f64 {
    (8.05 - 0.625 * 3.0_f64.sqrt() * 0.55) / 2.0
}

/// Root radius of an external basic profile.
fn root(major: f64, pitch: f64) -> f64 {
    (major - 0.625 * 3.0_f64.sqrt() * pitch) / 2.0
}

/// An arc hollow to the outside has its centre beyond it: the distance to its centre less its
/// radius. Ends (5.7, 0) and (5.7, 21): centre at r = 5.7 + sqrt(60^2 - 10.5^2), z = 10.5.
#[test]
fn from_a_corner_to_a_hollow_arc() {
    let found = changed(|s| {
        let curve = Curve::Concave(mm(60.0));
        s.grip = Grip::plain(mm(11.4), vec![GripRun { curve, ..run(11.4, 21.0) }]);
    });
    let centre = 5.7 + (3600.0_f64 - 10.5 * 10.5).sqrt();
    holds_wall(&found, "wall.recess", libm::hypot(centre - 4.45, 10.5 - 1.2) - 60.0);
    holds_wall(&found, "wall.clearance", libm::hypot(centre - 4.15, 10.5 - 4.6) - 60.0);
    // The thread lies under the deepest place, at 10.5.
    holds_wall(&found, "wall.unit-thread", centre - 60.0 - 4.025);
}

/// A rounded one has its centre on the bore's side, here beyond the axis: the radius less the
/// distance. Ends (5.2, 0) and (5.2, 21): centre at r = 5.2 - sqrt(60^2 - 10.5^2).
#[test]
fn from_a_corner_to_a_rounded_arc() {
    let found = changed(|s| {
        let curve = Curve::Convex(mm(60.0));
        s.grip = Grip::plain(mm(10.4), vec![GripRun { curve, ..run(10.4, 21.0) }]);
    });
    let centre = 5.2 - (3600.0_f64 - 10.5 * 10.5).sqrt();
    holds_wall(&found, "wall.recess", 60.0 - libm::hypot(4.45 - centre, 10.5 - 1.2));
    holds_wall(&found, "wall.lip", {
        // From the mouth the foot would lie before the front face: the rim is nearest.
        5.2 - 4.45
    });
}

/// A waist: a cone from (6, 0) to (4.6, 5). From the corner (4.15, 4.6) square to the cone: the
/// cross product of (-0.45, -0.4) and the cone's direction (1.4, -5), over its length.
#[test]
fn from_a_corner_to_a_steep_cone() {
    let found = changed(|s| {
        s.grip = Grip::plain(mm(12.0), vec![run(9.2, 5.0), run(12.0, 21.0)]);
    });
    holds_wall(&found, "wall.clearance", (0.45 * 5.0 + 0.4 * 1.4) / libm::hypot(1.4, 5.0));
    holds_wall(&found, "wall.unit-thread", 4.6 - 4.025);
}

fn ring(form: RingForm, at: f64, width: f64, height: f64) -> Ring {
    Ring { item: Item::Groove(1), form, at: mm(at), width: mm(width), height: mm(height) }
}

/// Grooves over the bore, in a cylinder: a square one over the clearance bore, the point of a vee
/// over the thread.
#[test]
fn under_a_groove() {
    let grooved = |ring: Ring| {
        changed(|s| {
            s.grip = Grip::plain(mm(10.4), vec![run(10.4, 21.0)]);
            s.grip.rings = vec![ring];
        })
    };
    let square = grooved(ring(RingForm::SquareGroove, 3.0, 1.0, 0.3));
    holds_wall(&square, "wall.clearance", 5.2 - 0.3 - 4.15);
    let vee = grooved(ring(RingForm::VeeGroove, 8.0, 1.0, 0.5));
    holds_wall(&vee, "wall.unit-thread", 5.2 - 0.5 - 4.025);
    let place = vee.finding("wall.unit-thread").unwrap().place.unwrap();
    assert!((place.inner.z - 8.0).abs() < 1e-9 && (place.outer.z - 8.0).abs() < 1e-9);
}

/// From the recess's corner to the side of a round groove: the radius over a chord 1.2 with the
/// sagitta 0.55 is 0.55 / 2 + 1.2^2 / (8 x 0.55); its centre lies that above the bottom.
#[test]
fn from_a_corner_to_a_round_groove() {
    let found = changed(|s| {
        s.grip = Grip::plain(mm(10.9), vec![run(10.9, 21.0)]);
        s.grip.rings = vec![ring(RingForm::RoundGroove, 1.8, 1.2, 0.55)];
    });
    let radius = 0.55 / 2.0 + 1.44 / (8.0 * 0.55);
    let (bottom, centre) = (5.45 - 0.55, 5.45 - 0.55 + radius);
    holds_wall(&found, "wall.recess", libm::hypot(centre - 4.45, 0.6) - radius);
    holds_wall(&found, "wall.clearance", bottom - 4.15);
}

/// A relief over the through bore: floor and shoulder's corner are as near.
#[test]
fn under_the_relief() {
    let found = changed(|s| {
        s.tenon.relief = Some(Relief { width: mm(1.0), diameter: mm(8.2) });
        s.tenon.thread.from = mm(22.0);
    });
    holds_wall(&found, "wall.relief", 4.1 - 3.45);
    holds_wall(&found, "wall.shoulder-corner", 4.1 - 3.45);
    let place = found.finding("wall.shoulder-corner").unwrap().place.unwrap();
    assert_eq!((place.outer.z, place.outer.feature.item), (21.0, Item::Shoulder));
    // Without one the thread ends in the shoulder's plane, at its root.
    holds_wall(&changed(|_| {}), "wall.shoulder-corner", root(10.0, 0.75) - 3.45);
}

/// From the shoulder's corner (4.3, 21) to the edge at which a drill's point begins, (C, 20.5): the
/// cone falls away from there. Off its axis by 0.15 the edge is so much nearer along r.
#[test]
fn from_the_shoulders_corner_to_a_drills_edge() {
    let drilled = |holding: f64, wander: f64| {
        changed(|s| {
            let drill = hole(s, Item::TapDrill);
            (drill.depth, drill.point) = (to(20.5), DRILL);
            hole(s, Item::ThroughBore).diameter = mm(6.0);
            hole(s, Item::ThroughBore).limits =
                sectionwright::quantity::Limits::new(mm(6.0), mm(6.0)).unwrap();
            s.tenon.relief = Some(Relief { width: mm(1.5), diameter: mm(8.6) });
            s.tenon.thread.from = mm(22.5);
            s.criteria.offsets.holding = mm(holding);
            s.criteria.offsets.long_hole = mm(wander);
        })
    };
    let found = drilled(0.0, 0.0);
    holds_wall(&found, "wall.shoulder-corner", libm::hypot(4.3 - crest(), 0.5));
    holds_wall(&found, "wall.relief", libm::hypot(4.3 - crest(), 0.5));
    // 20.5 is less than three diameters of 7.45 deep: no wander. 20.5 / 7.45 = 2.75.
    let off = drilled(0.05, 0.1);
    let expected = libm::hypot(4.3 - crest() - 0.05, 0.5);
    assert!((worst(&off, "wall.shoulder-corner") - expected).abs() < 1e-9);
    assert!(expected > libm::hypot(4.3 - crest(), 0.5) - 0.05, "less is lost than the offset");
}

/// A lead of 30 degrees and a countersink behind: rim to mouth; and a pilot instead.
#[test]
fn at_the_tenons_tip() {
    let slender = changed(|s| s.tenon.chamfer = LeadChamfer::at_angle(mm(0.7), Angle::deg(30.0)));
    holds_wall(&slender, "wall.tenon-tip", 4.3 - 3.45);
    let sunk = changed(|s| {
        s.tenon.chamfer = LeadChamfer::at_angle(mm(0.7), Angle::deg(30.0));
        let point = Point::Cone(Angle::deg(60.0));
        let sink = bore(Item::Countersink(Mouth::Back), 7.9, 0.0, to(0.0), point);
        s.bores.push(sectionwright::section::Bore { mouth: Mouth::Back, ..sink });
    });
    holds_wall(&sunk, "wall.tenon-tip", 4.3 - 3.95);
    let piloted = changed(|s| {
        s.tenon.pilot = Some(Pilot { length: mm(2.0), diameter: mm(8.4) });
        s.tenon.thread.to = mm(30.0);
    });
    holds_wall(&piloted, "wall.tenon-tip", 4.2 - 3.45);
}

/// A countersink at the front, 9.3 wide at its mouth, leaves so much of the rim at 9.7.
#[test]
fn a_countersunk_lip() {
    let found = changed(|s| {
        let point = Point::Cone(Angle::deg(90.0));
        s.bores.push(bore(Item::Countersink(Mouth::Front), 9.3, 0.0, to(0.0), point));
    });
    holds_wall(&found, "wall.lip", 4.85 - 4.65);
}

/// The cap's thread over the unit's, one root over the other; and beside it by 0.6, corner to
/// corner. Far off there is no such wall.
#[test]
fn threads_over_threads() {
    let capped = |from: f64, to: f64| {
        let thread = basic_thread(Item::CapThread, Side::External, "M12x1", from, to);
        changed(|s| {
            let runs = vec![run(11.4, from), run(12.0, from), run(12.0, to), run(11.4, to)];
            s.grip = Grip::plain(mm(11.4), [runs, vec![run(11.4, 21.0)]].concat());
            s.grip.thread = Some(CapThread { run: 2, thread });
        })
    };
    let code = "wall.thread-over-thread";
    let over = root(12.0, 1.0) - 4.025;
    holds_wall(&capped(6.0, 10.0), code, over);
    holds_wall(&capped(12.35, 16.0), code, libm::hypot(over, 0.6));
    assert!(capped(15.0, 19.0).finding(code).is_none());
    let found = capped(6.0, 10.0);
    let judged = found.finding(code).unwrap().judgement.clone().unwrap();
    assert_eq!(judged.limit, 0.8);
    assert!(judged.limit_source.ends_with("(the greater limit of both threads)"));
    let place = found.finding(code).unwrap().place.unwrap();
    assert_eq!(place.inner.feature.to_string(), "unit-thread.root");
    assert_eq!(place.outer.feature.to_string(), "cap-thread.root");
}

/// A hole of 8.0 from the back, 3 deep with a flat floor, under the tenon's thread and its tip.
#[test]
fn a_bore_from_the_back() {
    let found = changed(|s| {
        let step = bore(Item::BoreStep(Mouth::Back, 1), 8.0, 0.0, to(3.0), Point::Flat);
        s.bores.push(sectionwright::section::Bore { mouth: Mouth::Back, ..step });
    });
    holds_wall(&found, "wall.tenon", root(10.0, 0.75) - 4.0);
    holds_wall(&found, "wall.tenon-tip", 4.5 - 4.0);
    assert_eq!(
        found.finding("wall.tenon").unwrap().place.unwrap().inner.feature.item,
        Item::BoreStep(Mouth::Back, 1)
    );
}

/// Blind behind the tap drill. Its point of 118 degrees is C / tan 59 long; with a flat hole of 6
/// from the back the floor lies between tip and plane, or between two planes, which an offset of
/// the holdings brings no nearer.
#[test]
fn the_floor_of_a_blind_bore() {
    let blind = |point: Point, back: bool, holding: f64| {
        changed(|s| {
            s.bores.retain(|bore| bore.item != Item::ThroughBore);
            hole(s, Item::TapDrill).point = point;
            s.criteria.offsets.holding = mm(holding);
            if back {
                let step = bore(Item::BoreStep(Mouth::Back, 1), 6.0, 0.0, to(12.0), Point::Flat);
                s.bores.push(sectionwright::section::Bore { mouth: Mouth::Back, ..step });
            }
        })
    };
    let tip = 13.5 + crest() / libm::tan(59.0_f64.to_radians());
    holds_wall(&blind(DRILL, false, 0.0), "wall.floor", 32.0 - tip);
    holds_wall(&blind(DRILL, true, 0.0), "wall.floor", 20.0 - tip);
    let flat = blind(Point::Flat, true, 0.2);
    holds_wall(&flat, "wall.floor", 6.5);
    assert!((worst(&flat, "wall.floor") - 6.5).abs() < 1e-9);
}

/// Off the axis by e, a wall square to a cone of slope m loses e / sqrt(1 + m^2), not all of e;
/// one square to the axis all of it. The through bore wanders too: 32 is over three diameters.
#[test]
fn off_the_axis() {
    let found = changed(|s| {
        s.criteria.offsets.holding = mm(0.05);
        s.criteria.offsets.long_hole = mm(0.1);
    });
    let slope = 0.85 / 21.0;
    let square = 1.0 / (1.0_f64 + slope * slope).sqrt();
    let recess = (4.85 + 1.2 * slope - 4.45) * square;
    holds_wall(&found, "wall.recess", recess);
    assert!((worst(&found, "wall.recess") - (recess - 0.05 * square)).abs() < 1e-9);
    assert!((worst(&found, "wall.lip") - 0.35).abs() < 1e-9);
    let tenon = root(10.0, 0.75) - 3.45 - 0.15;
    assert!((worst(&found, "wall.tenon") - tenon).abs() < 1e-9);
    // The bore's point is where it lies when it is off.
    let place = found.finding("wall.tenon").unwrap().worst_place.unwrap();
    assert!(
        (place.inner.r - 3.6).abs() < 1e-9 && (place.outer.r - place.inner.r - tenon).abs() < 1e-9
    );
    let note = found.finding("wall.tenon").unwrap().note.clone().unwrap();
    assert!(note.contains("0.15 off the axis"), "{note}");
    // Limiting case: an offset beyond the wall leaves less than nothing, and says how much.
    let gone = changed(|s| s.criteria.offsets.holding = mm(0.5));
    assert!((worst(&gone, "wall.lip") + 0.1).abs() < 1e-9);
}

/// A relief within the through bore: depth from the front, flat walls.
#[test]
fn a_relief_in_the_bore() {
    let found = changed(|s| {
        let depth = Depth::Between(mm(15.0), mm(17.0));
        s.bores.push(bore(Item::BoreRelief(1), 8.6, 0.0, depth, Point::Flat));
    });
    // From the corner (4.3, 15) square to R1's cone.
    let slope = 0.85 / 21.0;
    let wall = (4.85 + 15.0 * slope - 4.3) / (1.0_f64 + slope * slope).sqrt();
    holds_wall(&found, "wall.through", wall);
}
