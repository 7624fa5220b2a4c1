//! The moved lines joined to a chain again; those that vanish leave it.

use std::f64::consts::{PI, TAU};

use super::joint::{Carrier, joint};
use super::stretch::{Line, Point};
use super::{Loss, OffsetError};
use crate::quantity::Length;
use crate::section::{LEAST_STEP, Run, Shape, Station};

/// Moves every line and joins it to its neighbours. A line of which less than the least step is
/// left is taken out and noted, the one that is left the least of first, and its neighbours joined.
pub(super) fn joined(
    mut lines: Vec<Line>,
    losses: &mut Vec<Loss>,
) -> Result<Vec<Run>, OffsetError> {
    let on_axis = lines.first().is_some_and(|line| line.from().x == 0.0);
    loop {
        if lines.len() < 2 {
            return Err(OffsetError::NothingLeft);
        }
        let ends = match ends(&lines, on_axis) {
            Ok(ends) => ends,
            Err(NoJoint { before, after }) => {
                let [one, other] = [before, after].map(|n| lines[n].run.feature);
                // Walls that look at each other over a gap that has closed: both go with it.
                if before == after || lines[before].run.to == lines[after].run.from {
                    return Err(OffsetError::NoJoint { one, other });
                }
                for n in [before.max(after), before.min(after)] {
                    note(&lines[n], losses);
                    lines.remove(n);
                }
                continue;
            }
        };
        let left = |n: &usize| left_of(&lines[*n], ends[*n]);
        let Some(least) = (0..lines.len()).min_by(|a, b| left(a).total_cmp(&left(b))) else {
            return Err(OffsetError::NothingLeft);
        };
        if left(&least) * lines[least].length() >= LEAST_STEP.as_mm() {
            return Ok(runs(&lines, &ends, on_axis));
        }
        note(&lines[least], losses);
        lines.remove(least);
    }
}

fn note(line: &Line, losses: &mut Vec<Loss>) {
    losses.push(Loss::Surface { feature: line.run.feature, length: line.length() });
}

/// Two lines that nothing joins, by their numbers.
struct NoJoint {
    before: usize,
    after: usize,
}

/// Beginning and end of every moved line.
fn ends(lines: &[Line], on_axis: bool) -> Result<Vec<[Point; 2]>, NoJoint> {
    let count = lines.len();
    let mut ends = vec![[Point::zeros(); 2]; count];
    for after in 0..count {
        let before = (after + count - 1) % count;
        let (a, b) = (&lines[before], &lines[after]);
        let [end, start] = if on_axis && after == 0 {
            let meets = |line: &Line, at: Point| Carrier::of(line).at_axis(at.y);
            let both = meets(a, a.to()).zip(meets(b, b.from()));
            both.map(|(end, start)| [end, start]).ok_or(NoJoint { before, after })?
        } else {
            joint(a, b).ok_or(NoJoint { before, after })?
        };
        ends[before][1] = end;
        ends[after][0] = start;
    }
    Ok(ends)
}

/// How much of a line is left between its new ends, as a share of what it was; negative where they
/// have passed each other.
fn left_of(line: &Line, [from, to]: [Point; 2]) -> f64 {
    let radius = match Carrier::of(line) {
        Carrier::Line { along, .. } => return (to - from).dot(&along) / line.length(),
        Carrier::Circle { radius, .. } if radius <= 0.0 => return f64::NEG_INFINITY,
        Carrier::Circle { radius, .. } => radius,
    };
    turn(line, [from, to]) * radius / line.length() * line.bulge().signum()
}

/// The angle from one point to another round an arc's centre, near to the arc's own sweep.
fn turn(line: &Line, [from, to]: [Point; 2]) -> f64 {
    let Carrier::Circle { centre, .. } = Carrier::of(line) else { return 0.0 };
    let angle = |p: Point| libm::atan2(p.x - centre.x, p.y - centre.y);
    let own = 4.0 * libm::atan(line.bulge());
    let turn = angle(to) - angle(from);
    own + (turn - own + PI).rem_euclid(TAU) - PI
}

fn runs(lines: &[Line], ends: &[[Point; 2]], on_axis: bool) -> Vec<Run> {
    let station = |p: Point| Station::new(Length::mm(p.x * 2.0), Length::mm(p.y));
    let mut runs = Vec::with_capacity(lines.len());
    for (n, line) in lines.iter().enumerate() {
        let [from, to] = ends[n].map(station);
        let shape = match line.run.shape {
            Shape::Straight => Shape::Straight,
            Shape::Arc { .. } => Shape::Arc { bulge: libm::tan(turn(line, ends[n]) / 4.0) },
        };
        runs.push(Run { from, to, shape, ..line.run });
        let next = (n + 1) % lines.len();
        let start = station(ends[next][0]);
        if start != to && !(on_axis && next == 0) {
            // The step belongs to the line that ends there.
            runs.push(Run { from: to, to: start, shape: Shape::Straight, ..line.run });
        }
    }
    runs
}
