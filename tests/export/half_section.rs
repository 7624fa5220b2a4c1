//! What a half-section draws, against R1's numbers and closed forms.

use sectionwright::drawing::half_section::geometry;
use sectionwright::drawing::{Drawing, Layer, Point, Shape};
use sectionwright::section::Section;
use sectionwright::solid::Meridian;

use crate::common::section;

fn on(drawing: &Drawing, layer: Layer) -> Vec<&[Point]> {
    let here = drawing.entities.iter().filter(|e| e.layer == layer);
    here.map(|e| e.shape.points()).collect()
}

fn has_line(drawing: &Drawing, layer: Layer, a: (f64, f64), b: (f64, f64)) -> bool {
    let near = |p: Point, (x, y): (f64, f64)| (p.x - x).abs() < 1e-9 && (p.y - y).abs() < 1e-9;
    on(drawing, layer).iter().any(|l| {
        l.len() == 2 && ((near(l[0], a) && near(l[1], b)) || (near(l[0], b) && near(l[1], a)))
    })
}

fn greatest_radius(section: &Section) -> f64 {
    let runs = section.part().runs;
    runs.iter().map(|run| Meridian::of(run).widest()).fold(0.0, f64::max)
}

#[test]
fn extents_are_the_parts() {
    for section in section::all() {
        let radius = greatest_radius(&section);
        let [low, high] = geometry(&section).extents().expect("something is drawn");
        assert_eq!((low.x, high.x), (0.0, section.length().as_mm()), "{}", section.name);
        assert_eq!((low.y, high.y), (-radius, radius), "{}", section.name);
    }
}

/// Outside and bore of the cut half meet exactly, and enclose the area of the half-section: by
/// Pappus its volume of revolution is that of the part whose threads are filled up to the crest.
#[test]
fn the_cut_boundary_is_closed_and_encloses_the_material() {
    for section in section::all() {
        let drawing = geometry(&section);
        let (outside, bore) = (on(&drawing, Layer::Outline)[0], on(&drawing, Layer::Bore)[0]);
        assert_eq!(outside.first(), bore.first(), "{}", section.name);
        assert_eq!(outside.last(), bore.last(), "{}", section.name);
    }
    // R1 by hand, from its drawing: frusta of a cone, cylinders; the threads as plain cylinders.
    let section = section::r1();
    let drawing = geometry(&section);
    let boundary: Vec<Point> = on(&drawing, Layer::Outline)[0]
        .iter()
        .chain(on(&drawing, Layer::Bore)[0].iter().rev())
        .copied()
        .collect();
    let frustum = |a: f64, b: f64, h: f64| std::f64::consts::PI * h * (a * a + a * b + b * b) / 3.0;
    let tap_drill = section.unit_thread.form.crest.as_mm() / 2.0;
    let expected = frustum(4.85, 5.7, 21.0) + frustum(5.0, 5.0, 10.5) + frustum(5.0, 4.5, 0.5)
        - frustum(4.45, 4.45, 1.2)
        - frustum(4.15, 4.15, 3.4)
        - frustum(tap_drill, tap_drill, 8.9)
        - frustum(3.45, 3.45, 18.5);
    let turned: f64 = boundary
        .iter()
        .zip(boundary.iter().cycle().skip(1))
        .map(|(a, b)| frustum(a.y, b.y, b.x - a.x))
        .sum();
    assert!((turned - expected).abs() < 1e-9, "{turned} {expected}");
}

/// ISO 6410-1:1993: narrow lines at the root, here at its true size; R1's root radii are
/// d/2 - 5H/8 outside (ISO 68-1: H1 = 0.541266 P) and the major radius inside.
#[test]
fn thread_roots_lie_where_they_are_cut() {
    let drawing = geometry(&section::r1());
    let root = 5.0 - 0.541_265_877_365_274 * 0.75;
    // The chamfer takes 0.5 over 0.5: it meets the root that far behind its beginning.
    let end = 31.5 + (5.0 - root);
    assert!(has_line(&drawing, Layer::Thread, (21.0, root), (end, root)));
    assert!(has_line(&drawing, Layer::Thread, (21.0, -root), (end, -root)));
    assert!(has_line(&drawing, Layer::Thread, (4.6, 4.025), (11.75, 4.025)));
    assert_eq!(on(&drawing, Layer::Thread).len(), 3);
}

/// ISO 6410-1:1993: the end of full-depth thread is a wide line to the major diameter; where an
/// edge of the part lies there it is that edge.
#[test]
fn threads_end_in_a_line() {
    let drawing = geometry(&section::r1());
    assert!(has_line(&drawing, Layer::ThreadEnd, (11.75, 4.025), (11.75, 0.0)));
    assert_eq!(on(&drawing, Layer::ThreadEnd).len(), 1);
    // 8.9: the thread stops short of the shoulder at 8; hidden where the part is cut.
    let short = section::crowded();
    let drawing = geometry(&short);
    let root = short.tenon.thread.form.root.as_mm() / 2.0;
    assert!(has_line(&drawing, Layer::ThreadEnd, (8.9, -5.0), (8.9, 0.0)));
    assert!(has_line(&drawing, Layer::ThreadEndHidden, (8.9, 5.0), (8.9, root)));
}

/// A root line is drawn in material only: not across the relief, nor along the pilot.
#[test]
fn roots_stop_at_relief_and_pilot() {
    let section = section::relieved();
    let drawing = geometry(&section);
    let root = section.tenon.thread.form.root.as_mm() / 2.0;
    let end = 29.5 + (5.0 - root);
    assert!(has_line(&drawing, Layer::Thread, (22.5, root), (end, root)));
}

/// Behind the cut every edge of the bore is seen down to the axis; from outside every edge of
/// the outside.
#[test]
fn edges_reach_the_axis() {
    let drawing = geometry(&section::drilled());
    // A 118 degree point from 8.3 to 7.5 is 0.4 / tan 59 long.
    let cone = 4.6 + 0.4 / libm::tan(59.0_f64.to_radians());
    assert!(has_line(&drawing, Layer::Edge, (4.6, 4.15), (4.6, 0.0)));
    assert!(has_line(&drawing, Layer::Edge, (cone, 3.75), (cone, 0.0)));
    assert!(has_line(&drawing, Layer::Edge, (0.0, 4.45), (0.0, 0.0)));
    assert!(has_line(&drawing, Layer::Edge, (21.0, -5.0), (21.0, 0.0)));
    assert!(has_line(&drawing, Layer::Edge, (31.5, -5.0), (31.5, 0.0)));
}

#[test]
fn both_halves_have_one_outside() {
    for section in section::all() {
        let drawing = geometry(&section);
        let outline = on(&drawing, Layer::Outline);
        let rim = |points: &[Point]| points[1..points.len() - 1].to_vec();
        let mirrored: Vec<Point> = rim(outline[0]).into_iter().map(Point::mirrored).collect();
        assert_eq!(mirrored, rim(outline[1]), "{}", section.name);
        assert!(outline.len() == 2 && matches!(drawing.entities[0].shape, Shape::Polyline(_)));
    }
}
