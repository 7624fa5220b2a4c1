//! A part between two planes across its axis.

use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Part, Run, Shape, Skin, Station, Thread};
use crate::solid::Meridian;

/// What of a part lies between two z; the planes are closed with a face of their own. A thread of
/// which less than a turn is left is left out.
///
/// Expects two z between which the part has material.
pub fn between(part: &Part, [low, high]: [Length; 2]) -> Part {
    let mut runs = part.runs.clone();
    for (z, keep_above) in [(low, true), (high, false)] {
        runs = cut(&runs, z, keep_above);
    }
    let mut part = Part { runs, threads: part.threads.clone() };
    let left = |thread: &Thread| thread.to.min(high) - thread.from.max(low);
    part.threads.retain(|thread| left(thread) >= thread.form.lead());
    part.snapped()
}

/// What of a chain lies on one side of a plane.
fn cut(runs: &[Run], z: Length, above: bool) -> Vec<Run> {
    let on_axis = runs.first().is_some_and(|run| run.from.diameter == Length::ZERO);
    let inside = |station: Station| if above { station.z >= z } else { station.z <= z };
    let mut kept: Vec<Run> = Vec::new();
    for run in runs {
        // What only touches the plane from outside leaves nothing.
        match (inside(run.from), inside(run.to)) {
            (true, true) => kept.push(*run),
            (false, false) => {}
            (true, false) if run.from.z == z => {}
            (false, true) if run.to.z == z => {}
            (true, false) => kept.push(run_to(*run, z)),
            (false, true) => kept.push(run_to(run.reversed(), z).reversed()),
        }
    }
    let face = |from: Station, to: Station| Run {
        feature: Feature::new(Item::CutFace, Facet::Side),
        skin: Skin::End,
        from,
        to,
        shape: Shape::Straight,
    };
    let axis = Station::new(Length::ZERO, z);
    let off_axis = |station: Option<Station>| station.is_some_and(|s| s.diameter > Length::ZERO);
    let begins = off_axis(kept.first().map(|run| run.from));
    let ends = off_axis(kept.last().map(|run| run.to));
    // A hole that the plane opens: what was a chain over the axis closes on itself.
    let over_axis = on_axis && !(begins && ends);
    let mut closed = Vec::with_capacity(kept.len() + 2);
    if over_axis && begins {
        closed.extend(kept.first().map(|run| face(axis, run.from)));
    }
    let after = kept.iter().skip(1).chain(kept.first().filter(|_| !over_axis));
    let mut after = after.map(|run| run.from);
    for run in &kept {
        closed.push(*run);
        let next = after.next().unwrap_or(if ends { axis } else { run.to });
        if run.to != next {
            closed.push(face(run.to, next));
        }
    }
    closed
}

/// The part of a run up to where it passes a z.
fn run_to(run: Run, z: Length) -> Run {
    let Run { from, to, shape, .. } = run;
    match shape {
        Shape::Straight => {
            let share = (z - from.z) / (to.z - from.z);
            let diameter = from.diameter + (to.diameter - from.diameter) * share;
            Run { to: Station::new(diameter, z), ..run }
        }
        Shape::Arc { bulge } => {
            let (share, radius) = along_arc(&run, z);
            let bulge = libm::tan(libm::atan(bulge) * share);
            Run {
                to: Station::new(Length::mm(radius * 2.0), z),
                shape: Shape::Arc { bulge },
                ..run
            }
        }
    }
}

/// The share of an arc's sweep at which it passes a z, and its radius there.
fn along_arc(run: &Run, z: Length) -> (f64, f64) {
    /// Halvings, until the share is as exact as its number.
    const STEPS: u32 = 60;
    let meridian = Meridian::of(run);
    let rises = run.to.z > run.from.z;
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..STEPS {
        let middle = f64::midpoint(low, high);
        let before = (meridian.at(middle)[1] < z.as_mm()) == rises;
        if before { low = middle } else { high = middle }
    }
    let share = f64::midpoint(low, high);
    (share, meridian.at(share)[0])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::build;
    use std::f64::consts::PI;

    fn mm(v: f64) -> Length {
        Length::mm(v)
    }

    fn run(skin: Skin, from: (f64, f64), to: (f64, f64), bulge: f64) -> Run {
        let station = |(d, z): (f64, f64)| Station::new(mm(d), mm(z));
        let shape = if bulge == 0.0 { Shape::Straight } else { Shape::Arc { bulge } };
        let feature = Feature::new(Item::Grip(1), Facet::Side);
        Run { feature, skin, from: station(from), to: station(to), shape }
    }

    fn volume(runs: Vec<Run>, low: f64, high: f64) -> f64 {
        let part = Part { runs, threads: Vec::new() }.snapped();
        build(&between(&part, [mm(low), mm(high)])).unwrap().measures().volume
    }

    /// Source: a spherical segment between z = a and b from the centre has pi (r^2 (b - a) -
    /// (b^3 - a^3) / 3).
    #[test]
    fn a_ball_is_cut_to_a_segment() {
        let quarter = -libm::tan(PI / 8.0);
        let ball = vec![
            run(Skin::Outside, (0.0, 0.0), (10.0, 5.0), quarter),
            run(Skin::Outside, (10.0, 5.0), (0.0, 10.0), quarter),
        ];
        let segment = |a: f64, b: f64| PI * (25.0 * (b - a) - (b * b * b - a * a * a) / 3.0);
        assert!((volume(ball.clone(), 2.0, 7.0) - segment(-3.0, 2.0)).abs() < 1e-9);
        assert!((volume(ball, 6.0, 9.0) - segment(1.0, 4.0)).abs() < 1e-9);
    }

    /// By hand: a rod of 10 with a blind hole of 4, 6 deep from its front: cut before the hole's
    /// floor it is a tube, behind it a cup.
    #[test]
    fn a_blind_hole_is_opened_or_kept() {
        let cup = || {
            vec![
                run(Skin::Bore, (0.0, 6.0), (4.0, 6.0), 0.0),
                run(Skin::Bore, (4.0, 6.0), (4.0, 0.0), 0.0),
                run(Skin::End, (4.0, 0.0), (10.0, 0.0), 0.0),
                run(Skin::Outside, (10.0, 0.0), (10.0, 9.0), 0.0),
                run(Skin::End, (10.0, 9.0), (0.0, 9.0), 0.0),
            ]
        };
        let tube = PI * (25.0 - 4.0);
        assert!((volume(cup(), 0.0, 5.0) - tube * 5.0).abs() < 1e-9);
        assert!((volume(cup(), 0.0, 8.0) - (PI * 25.0 * 8.0 - PI * 4.0 * 6.0)).abs() < 1e-9);
        assert!((volume(cup(), 2.0, 5.0) - tube * 3.0).abs() < 1e-9);
    }
}
