//! The wall along z: its least value is the least wall, and every value is a distance.

use sectionwright::check::{WallAt, WallCurve};
use sectionwright::scene::{Examination, examine, verdicts};
use sectionwright::section::{Depth, Item, Point, Section, Skin};
use sectionwright::solid::{Meridian, Swept, build};

use crate::common::{mm, section};
use crate::fixtures::{r1, sound};

/// Straight and shaped, drilled, relieved, blind.
fn sections() -> Vec<Section> {
    let mut shaped = sound();
    shaped.grip = section::shaped().grip;
    let mut relieved = sound();
    relieved.grip = section::relieved().grip;
    let mut blind = sound();
    let through = blind.bores.iter_mut().find(|bore| bore.item == Item::ThroughBore).unwrap();
    (through.depth, through.point) = (Depth::To(mm(25.0)), Point::Flat);
    vec![r1(), sound(), shaped, relieved, blind]
}

fn least(curve: &[WallAt]) -> f64 {
    curve.iter().map(|at| at.wall).fold(f64::INFINITY, f64::min)
}

fn measured(examination: &Examination, code: &str) -> f64 {
    examination.finding(code).unwrap().measured
}

#[test]
fn its_least_value_is_the_least_wall() {
    for base in sections() {
        for holding in [0.0, 0.05, 0.7] {
            let mut section = base.clone();
            section.criteria.offsets.holding = mm(holding);
            let examination = verdicts(&section).unwrap();
            let curve = WallCurve::new(&section).unwrap();
            let pairs = [("wall.least", &curve.drawn), ("wall.worst", &curve.worst)];
            for (code, along) in pairs {
                let (one, other) = (measured(&examination, code), least(along));
                assert!((one - other).abs() < 1e-12, "{}: {code} {one} {other}", section.name);
                assert!(along.windows(2).all(|w| w[0].z < w[1].z && w[1].z - w[0].z < 0.1 + 1e-9));
                assert!(along.iter().all(|at| at.wall.is_finite() && at.margin.is_finite()));
            }
            // No zone is judged better than the curve shows it, and the worst of them is there.
            let walls = examination.findings.iter().filter(|f| f.code.starts_with("wall."));
            let walls =
                walls.filter(|f| !["wall.floor", "wall.thread-over-thread"].contains(&f.code));
            let margins = walls.filter_map(|f| f.judgement.as_ref().map(|j| j.margin));
            let margin = margins.fold(f64::INFINITY, f64::min);
            let shown = curve.worst.iter().map(|at| at.margin).fold(f64::INFINITY, f64::min);
            assert!((margin - shown).abs() < 1e-12, "{}: {margin} {shown}", section.name);
        }
    }
}

/// Only an examination pays for it.
#[test]
fn an_examination_carries_it_and_verdicts_do_not() {
    let section = sound();
    let curve = WallCurve::new(&section).unwrap();
    let found = examine(&section).unwrap();
    for (code, along) in [("wall.least", &curve.drawn), ("wall.worst", &curve.worst)] {
        let series = found.finding(code).unwrap().series.clone().unwrap();
        assert_eq!(series.points, along.iter().map(|at| [at.z, at.wall]).collect::<Vec<_>>());
        assert_eq!((series.along, series.along_unit, series.unit), ("z", "mm", "mm"));
        assert!(verdicts(&section).unwrap().finding(code).unwrap().series.is_none());
    }
}

/// Points of a line, so close that none of the line is farther than `STEP` from one.
fn points(line: &Swept) -> Vec<[f64; 2]> {
    let meridian = Meridian::between(line.from, line.to, line.bulge);
    let count = (meridian.length() / STEP).ceil().max(1.0);
    (0..=count as u32).map(|n| meridian.at(f64::from(n) / count)).collect()
}

const STEP: f64 = 0.004;

/// The least distance from the bore's points at a z to points of the outside; none without bore.
fn sampled(lines: &[Swept], outside: &[[f64; 2]], z: f64) -> Option<f64> {
    let bore = lines.iter().filter(|l| l.skin == Skin::Bore);
    let here = bore.filter(|l| l.from[1].min(l.to[1]) <= z && z <= l.from[1].max(l.to[1]));
    let here = here.flat_map(|l| {
        if l.from[1] == l.to[1] {
            return points(l);
        }
        let share = (z - l.from[1]) / (l.to[1] - l.from[1]);
        vec![[l.from[0] + (l.to[0] - l.from[0]) * share, z]]
    });
    let least = |p: [f64; 2]| {
        let apart = outside.iter().map(|q| libm::hypot(p[0] - q[0], p[1] - q[1]));
        apart.fold(f64::INFINITY, f64::min)
    };
    here.map(least).reduce(f64::min)
}

/// Independent route: points of both skins. At its places the curve is their least distance,
/// within a step; half-way between two it is less than neither.
#[test]
fn it_agrees_with_sampling() {
    for section in sections() {
        let lines = build(&section.part()).unwrap().swept();
        let outside: Vec<[f64; 2]> =
            lines.iter().filter(|l| l.skin == Skin::Outside).flat_map(points).collect();
        let curve = WallCurve::new(&section).unwrap().drawn;
        for (n, pair) in curve.windows(2).enumerate().step_by(3) {
            let here = sampled(&lines, &outside, pair[0].z).unwrap();
            let off = here - pair[0].wall;
            assert!((-1e-9..STEP).contains(&off), "{} {n}: {off}", section.name);
            let Some(between) = sampled(&lines, &outside, f64::midpoint(pair[0].z, pair[1].z))
            else {
                continue;
            };
            assert!(between >= pair[0].wall.min(pair[1].wall) - 1e-9, "{} {n}", section.name);
        }
    }
}
