//! Whether the moved lines cross.

use super::OffsetError;
use super::stretch::Point;
use crate::section::{Run, Shape};
use crate::solid::Meridian;

/// Chords that stand for an arc here. What they miss, the sagitta, the audit of the triangles finds.
const CHORDS: u32 = 16;

/// Holds every line against every other that is no neighbour of it.
///
/// # Errors
/// [`OffsetError::Crossing`] with the first pair that crosses.
pub(super) fn check(runs: &[Run]) -> Result<(), OffsetError> {
    let chords: Vec<(usize, [Point; 2])> = (0..).zip(runs).flat_map(chords_of).collect();
    let count = runs.len();
    for (n, (a, one)) in chords.iter().enumerate() {
        for (b, other) in &chords[n + 1..] {
            let apart = (b - a) % count;
            if apart > 1 && apart + 1 < count && cross(*one, *other) {
                let [one, other] = [*a, *b].map(|n| runs[n].feature);
                return Err(OffsetError::Crossing { one, other, z: chords[n].1[0].y });
            }
        }
    }
    Ok(())
}

fn chords_of((number, run): (usize, &Run)) -> Vec<(usize, [Point; 2])> {
    let pieces = if run.shape == Shape::Straight { 1 } else { CHORDS };
    let meridian = Meridian::of(run);
    let at = |n: u32| Point::from(meridian.at(f64::from(n) / f64::from(pieces)));
    (0..pieces).map(|n| (number, [at(n), at(n + 1)])).collect()
}

/// Whether two chords cross or touch; two that lie in one line do where they share a place.
fn cross([a, b]: [Point; 2], [c, d]: [Point; 2]) -> bool {
    let apart = |x: fn(&Point) -> f64| {
        let [a, b, c, d] = [a, b, c, d].map(|p| x(&p));
        a.max(b) < c.min(d) || c.max(d) < a.min(b)
    };
    if apart(|p| p.x) || apart(|p| p.y) {
        return false;
    }
    let side = |from: Point, to: Point, p: Point| (to - from).perp(&(p - from));
    side(a, b, c) * side(a, b, d) <= 0.0 && side(c, d, a) * side(c, d, b) <= 0.0
}
