//! x
#[path = "common/mod.rs"]
mod common;
use sectionwright::design::{self, Library};
use sectionwright::export::drawing::*;
use sectionwright::export::part_drawing::*;
fn gather(shape: &Shape, lines: &mut Vec<[Point; 2]>, words: &mut Vec<Text>) {
    match shape {
        Shape::Line(l) => lines.push(*l),
        Shape::Polyline(c) => {
            for s in c.segments() {
                if s.bulge == 0.0 {
                    lines.push([s.from, s.to])
                } else {
                    for n in 0..32 {
                        lines.push([s.at(n as f64 / 32.0), s.at((n + 1) as f64 / 32.0)])
                    }
                }
            }
        }
        Shape::Triangle([a, b, c]) => lines.extend([[*a, *b], [*b, *c], [*c, *a]]),
        Shape::Text(t) => words.push(t.clone()),
        Shape::Dimension(d) => {
            d.picture.iter().for_each(|s| gather(s, lines, words));
            words.push(d.text.clone());
        }
        _ => {}
    }
}
#[test]
fn clash() {
    let library = Library::new(vec![]);
    for name in
        std::fs::read_dir("tests/fixtures").unwrap().map(|e| e.unwrap().path()).filter(|p| {
            p.extension().is_some_and(|e| e == "toml") && !p.to_str().unwrap().contains("-unit")
        })
    {
        let s = match design::load(&library, name.to_str().unwrap()) {
            Ok(r) => r.section,
            Err(_) => continue,
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
            limits: &|_| Limits::Own([0.02, 0.05]),
            notes: vec![],
        };
        for scale in [2.0, 5.0, 10.0] {
            let v =
                views(&subject, Units::Millimetres, scale, 3.5, &[50.0, 20.0, 10.0, 5.0, 2.0, 1.0]);
            let (mut lines, mut words) = (vec![], vec![]);
            v.entities.iter().for_each(|e| gather(&e.shape, &mut lines, &mut words));
            let e = 1e-6;
            let boxes: Vec<_> = words
                .iter()
                .map(|t| {
                    let [a, b] = t.corners();
                    [Point::new(a.x + e, a.y + e), Point::new(b.x - e, b.y - e)]
                })
                .collect();
            for (n, b) in boxes.iter().enumerate() {
                for (m, c) in boxes[..n].iter().enumerate() {
                    if overlap(*b, *c) {
                        println!("{name:?} {scale} TEXTS {} | {}", words[n].words, words[m].words);
                    }
                }
                for l in &lines {
                    if crosses(*l, *b) {
                        println!("{name:?} {scale} LINE {} {:?}", words[n].words, l);
                    }
                }
            }
        }
    }
}
