//! x
use sectionwright::design::{self, Library};
use sectionwright::export::drawing::Point;
use sectionwright::export::{half_section::Sheet, part_drawing::*, svg};
#[test]
fn look() {
    let name = std::env::var("DESIGN").unwrap_or("demo".into());
    let library = Library::new(vec![]);
    let s = match design::load(&library, &name) {
        Ok(r) => r.section,
        Err(f) => panic!("{:?}", f.diagnostics),
    };
    let part = s.part();
    let subject = Subject {
        part: &part,
        title: "t".into(),
        name: "n".into(),
        material: "m".into(),
        axis: Some((sectionwright::section::Item::TenonThread, 'A')),
        back: Some((s.grip.length().as_mm(), 'B')),
        front: 'C',
        limits: &|_| Limits::General,
        notes: vec![],
    };
    let scale: f64 = std::env::var("SCALE").map_or(5.0, |s| s.parse().unwrap());
    let v = views(&subject, Units::Millimetres, scale, 3.5, &[50.0, 20.0, 10.0, 5.0, 2.0, 1.0]);
    let [l, h] = v.extents().unwrap();
    let area = [Point::new(l.x - 1.0, l.y - 1.0), Point::new(h.x + 1.0, h.y + 1.0)];
    let sheet = Sheet { drawing: v, scale, area, title: "t".into(), description: "d".into() };
    std::fs::write("/tmp/look.svg", svg::write(&sheet)).unwrap();
}
