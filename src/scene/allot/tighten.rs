//! Tolerances made tighter until nothing fails at any corner.

use super::bench::{Bench, Measured};
use super::ladder::Rung;
use super::nominal::Drawn;
use super::size;
use super::slope::Slopes;

/// Bench that no check asks for, taken to be sure: as many again as a drawing's own would find
/// what a straight prediction misses; more cost time.
const CHANCE: usize = 16;

/// Bench of which it is only asked whether they can be made, which is quick. Four sizes that can't
/// go together to one of their sixteen sides are met with a chance of 1 - (15/16)^256; fewer leave
/// a section that can't be made, more cost time.
const MADE_BY_CHANCE: usize = 256;

/// Of the linear congruential generator (Knuth, The Art of Computer Programming 2, 3.3.4, line 26).
const MULTIPLIER: u64 = 6_364_136_223_846_793_005;
const INCREMENT: u64 = 1_442_695_040_888_963_407;

/// The sizes with their ladders, and where each stands.
pub(super) struct Tightening<'a> {
    bench: &'a Bench,
    slopes: &'a Slopes,
    ladders: Vec<Vec<Rung>>,
    at: Vec<usize>,
    /// Sides of the sizes by chance, the same for the same number of sizes.
    by_chance: Vec<Vec<bool>>,
    /// Goals that are kept, by their number.
    kept: Vec<bool>,
    /// Even the tightest corner can't be made: nothing is asked of those that can't.
    pub unmade: bool,
}

impl<'a> Tightening<'a> {
    pub fn new(bench: &'a Bench, slopes: &'a Slopes, ladders: Vec<Vec<Rung>>) -> Self {
        let (at, kept) = (vec![0; ladders.len()], vec![true; bench.goals.len()]);
        let mut state = INCREMENT;
        let mut side = || {
            state = state.wrapping_mul(MULTIPLIER).wrapping_add(INCREMENT);
            state >> 63 == 1
        };
        let by_chance = (0..MADE_BY_CHANCE).map(|_| at.iter().map(|_| side()).collect()).collect();
        Self { bench, slopes, ladders, at, by_chance, kept, unmade: false }
    }

    /// Where each size stands on its ladder.
    pub fn rungs(&self) -> Vec<Rung> {
        self.ladders.iter().zip(&self.at).map(|(rungs, at)| rungs[*at]).collect()
    }

    fn limits(&self) -> Vec<[f64; 2]> {
        self.rungs().iter().map(|rung| rung.by).collect()
    }

    /// Sets aside what fails at the tightest step.
    pub fn set_hopeless_aside(&mut self) {
        self.at = self.ladders.iter().map(|rungs| rungs.len() - 1).collect();
        let made = |off: Vec<f64>| self.bench.made(&off).is_some();
        self.unmade = !self.by_chance.iter().map(|sides| self.corner(sides)).all(made);
        for measured in self.bench.measure_all(&self.corners()) {
            match measured {
                Some(measured) => measured.failed.iter().for_each(|goal| self.kept[*goal] = false),
                None => self.unmade = true,
            }
        }
        self.at.fill(0);
    }

    /// The codes of what can't be kept.
    pub fn unheld(&self) -> impl Iterator<Item = &'static str> {
        let goals = self.bench.goals.iter().zip(&self.kept);
        goals.filter(|(_, kept)| !**kept).map(|(goal, _)| goal.code)
    }

    /// Until the straight prediction holds.
    pub fn predict(&mut self, nominal: &Measured) {
        for goal in (0..self.kept.len()).filter(|goal| self.kept[*goal]).collect::<Vec<_>>() {
            let Some(Some(spare)) = nominal.spare.get(goal) else { continue };
            loop {
                let worst = self.slopes.worst(goal, &self.limits());
                let costs = worst.iter().enumerate();
                let lost: f64 = costs.map(|(n, off)| self.slopes.cost(goal, n, *off)).sum();
                if lost < *spare || self.tighten_costliest(goal, &worst, &[]).is_none() {
                    break;
                }
            }
        }
    }

    /// Until no corner fails.
    pub fn verify(&mut self) {
        loop {
            let corners = self.corners();
            let measured = self.bench.measure_all(&corners);
            let mut tightened = Vec::new();
            for (off, measured) in corners.iter().zip(&measured) {
                match measured {
                    Some(measured) => {
                        for goal in &measured.failed {
                            if self.kept[*goal] {
                                self.mend(*goal, off, measured, &mut tightened);
                            }
                        }
                    }
                    None if self.unmade => {}
                    None => self.mend_unmade(off, &mut tightened),
                }
            }
            if tightened.is_empty() && !self.make_all() {
                return;
            }
        }
    }

    /// Every kept goal's worst corner, the two of the material, and some by chance.
    fn corners(&self) -> Vec<Vec<f64>> {
        let limits = self.limits();
        let kept = (0..self.kept.len()).filter(|goal| self.kept[*goal]);
        let mut all: Vec<Vec<f64>> = kept.map(|goal| self.slopes.worst(goal, &limits)).collect();
        let Drawn { section, sizes } = &self.bench.drawn;
        for most in [true, false] {
            let off = sizes.iter().zip(&limits).map(|(size, [under, over])| {
                let grows = size::cuts_material(section, size.parameter) != most;
                if grows { *over } else { -*under }
            });
            all.push(off.collect());
        }
        all.extend(self.by_chance[..CHANCE].iter().map(|sides| self.corner(sides)));
        let mut distinct: Vec<Vec<f64>> = Vec::new();
        for corner in all {
            if !distinct.contains(&corner) {
                distinct.push(corner);
            }
        }
        distinct
    }

    /// The corner of these sides, true for the greatest.
    fn corner(&self, sides: &[bool]) -> Vec<f64> {
        let limits = self.limits().into_iter().zip(sides);
        limits.map(|([under, over], side)| if *side { over } else { -under }).collect()
    }

    /// Until every corner can be made, of as many as it takes to have met each few sizes together.
    /// Gives whether something had to be tightened.
    fn make_all(&mut self) -> bool {
        let mut tightened = false;
        // One at a time: what mends one corner mends most of those that fail as it does.
        for sides in self.by_chance.clone() {
            while !self.unmade {
                let off = self.corner(&sides);
                if self.bench.made(&off).is_some() {
                    break;
                }
                self.mend_unmade(&off, &mut Vec::new());
                tightened = true;
            }
        }
        tightened
    }

    /// One rung tighter where a failed goal loses most, unless that was done in this round.
    fn mend(&mut self, goal: usize, off: &[f64], failed: &Measured, done: &mut Vec<usize>) {
        if done.iter().any(|n| self.slopes.cost(goal, *n, off[*n]) > 0.0) {
            return;
        }
        if let Some(n) = self.tighten_costliest(goal, off, done) {
            done.push(n);
            return;
        }
        // The prediction sees no reason: by what each size gives when it is put right here.
        let here = failed.spare[goal].unwrap_or(f64::NEG_INFINITY);
        let free = (0..off.len()).filter(|n| off[*n] != 0.0 && self.can_tighten(*n, off[*n]));
        let sizes: Vec<usize> = free.collect();
        let back = |n: &usize| {
            let mut off = off.to_vec();
            off[*n] = 0.0;
            off
        };
        let trials = self.bench.measure_all(&sizes.iter().map(back).collect::<Vec<_>>());
        let gain = |measured: Option<Measured>| {
            measured.and_then(|measured| measured.spare[goal]).map_or(0.0, |spare| spare - here)
        };
        let best = sizes.into_iter().zip(trials.into_iter().map(gain));
        match first_greatest(best) {
            Some(n) => {
                self.at[n] += 1;
                done.push(n);
            }
            None => self.kept[goal] = false,
        }
    }

    /// One rung tighter for the widest of the sizes that together keep a corner from being made.
    fn mend_unmade(&mut self, off: &[f64], done: &mut Vec<usize>) {
        let mut needed = off.to_vec();
        for n in 0..off.len() {
            let kept = std::mem::replace(&mut needed[n], 0.0);
            if kept != 0.0 && self.bench.made(&needed).is_some() {
                needed[n] = kept;
            }
        }
        let guilty: Vec<usize> = (0..off.len()).filter(|n| needed[*n] != 0.0).collect();
        if guilty.iter().any(|n| done.contains(n)) {
            return;
        }
        let free = guilty.into_iter().filter(|n| self.can_tighten(*n, off[*n]));
        match first_greatest(free.map(|n| (n, off[n].abs()))) {
            Some(n) => {
                self.at[n] += 1;
                done.push(n);
            }
            None => self.unmade = true,
        }
    }

    /// Whether a next rung is narrower on the side on which a size is off.
    fn can_tighten(&self, n: usize, off: f64) -> bool {
        let side = usize::from(off > 0.0);
        let rungs = &self.ladders[n];
        rungs.get(self.at[n] + 1).is_some_and(|next| next.by[side] < rungs[self.at[n]].by[side])
    }

    /// One rung tighter for the size that costs a goal most at a corner.
    fn tighten_costliest(&mut self, goal: usize, off: &[f64], done: &[usize]) -> Option<usize> {
        let sizes = (0..off.len()).filter(|n| !done.contains(n) && self.can_tighten(*n, off[*n]));
        let n = first_greatest(sizes.map(|n| (n, self.slopes.cost(goal, n, off[n]))))?;
        self.at[n] += 1;
        Some(n)
    }
}

/// The first of those with the greatest value above zero.
fn first_greatest(of: impl Iterator<Item = (usize, f64)>) -> Option<usize> {
    let greater = |best: Option<(usize, f64)>, (n, value): (usize, f64)| match best {
        Some((_, most)) if most >= value => best,
        _ if value > 0.0 => Some((n, value)),
        _ => best,
    };
    of.fold(None, greater).map(|(n, _)| n)
}
