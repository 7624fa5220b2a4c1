//! What each size costs each check, found by moving it alone.

use super::bench::{Bench, Measured};

/// How far a size is moved for its small difference, in millimetres and in degrees: less drowns in
/// rounding, more passes the place where another wall is the least.
const SMALL: [f64; 2] = [0.01, 0.1];

/// A cost under this is none: rounding made it. In the finding's unit for a millimetre.
const LEAST_COST: f64 = 1e-7;

/// For each goal and size what is lost for a millimetre (or degree) under and over its nominal.
pub(super) struct Slopes {
    /// Goal, size, side.
    lost: Vec<Vec<[f64; 2]>>,
}

impl Slopes {
    /// By a small difference, and by as much as the size may be off at the most: the worse of both.
    pub fn of(bench: &Bench, nominal: &Measured, widest: &[[f64; 2]]) -> Self {
        let count = widest.len();
        let mut trials = Vec::new();
        for (size, widest) in widest.iter().enumerate() {
            let angle = bench.drawn.sizes[size].parameter.is_angle();
            for (side, most) in widest.iter().enumerate() {
                for by in [SMALL[usize::from(angle)], *most] {
                    if by > 0.0 {
                        trials.push((size, side, by));
                    }
                }
            }
        }
        let corner = |(size, side, by): &(usize, usize, f64)| {
            let mut off = vec![0.0; count];
            off[*size] = if *side == 0 { -by } else { *by };
            off
        };
        let corners: Vec<Vec<f64>> = trials.iter().map(corner).collect();
        let mut lost = vec![vec![[0.0_f64; 2]; count]; bench.goals.len()];
        for ((size, side, by), measured) in trials.into_iter().zip(bench.measure_all(&corners)) {
            let Some(measured) = measured else { continue };
            for (goal, (before, after)) in nominal.spare.iter().zip(&measured.spare).enumerate() {
                if let (Some(before), Some(after)) = (before, after) {
                    let cost = (before - after) / by;
                    let known = &mut lost[goal][size][side];
                    if cost > LEAST_COST {
                        *known = known.max(cost);
                    }
                }
            }
        }
        Self { lost }
    }

    /// What a goal loses by one size off to one side.
    pub fn cost(&self, goal: usize, size: usize, off: f64) -> f64 {
        self.lost[goal][size][usize::from(off > 0.0)] * off.abs()
    }

    /// A goal's worst corner within limits: each size on the side that costs more.
    pub fn worst(&self, goal: usize, limits: &[[f64; 2]]) -> Vec<f64> {
        let side = |(size, [under, over]): (usize, &[f64; 2])| {
            let [less, more] = [-under, *over].map(|off| self.cost(goal, size, off));
            if less > more { -under } else { *over }
        };
        limits.iter().enumerate().map(side).collect()
    }
}
