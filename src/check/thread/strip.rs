//! The areas that would shear if threads were pulled out of each other along the axis.

use std::f64::consts::TAU;

use crate::solid::CutThread;

/// Shear areas in square millimetres.
///
/// A ridge shears along the cylinder at the crest of the thread that pulls on it; there it is
/// `ridge_at` wide, so the area is 2 pi r x ridge x the number of engaged ridges. With the limits
/// of a class for its diameters this is the formula of handbooks, pi Le / P x D1max
/// [P / 2 + tan 30 (d2min - D1max)] outside and pi Le / P x dmin [P / 2 + tan 30 (dmin - D2max)]
/// inside (ASME B1.1-2003 appendix B; Machinery's Handbook, after H28), measured on the threads
/// as they are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strip {
    /// Of the external thread.
    pub external: f64,
    /// Of the internal thread.
    pub internal: f64,
}

impl Strip {
    /// The areas of two threads over so many turns of full form.
    pub fn of(internal: &CutThread, external: &CutThread, turns: f64) -> Self {
        let ridges = turns * f64::from(internal.starts);
        let area = |of: &CutThread, r: f64, reached: bool| {
            if reached { TAU * r * of.ridge_at(r).max(0.0) * ridges } else { 0.0 }
        };
        let reached = external.crest > internal.crest;
        // A crest beyond the other's root shears it at the root.
        let outer = external.crest.min(internal.root);
        let inner = internal.crest.max(external.root);
        Self { external: area(external, inner, reached), internal: area(internal, outer, reached) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::thread::fixture::thread;
    use crate::section::Side;

    /// Source: reference formulas, 6, computed there from the limits of ISO 965 6g/6H per mm of
    /// engagement: M10x0.75 15.02 and 20.05; the diameters are those printed with them.
    #[test]
    fn the_handbook_formula_at_the_limits_of_a_class() {
        let pitch = 0.75;
        let internal = thread(Side::Internal, [9.378, 9.645, 10.2], pitch);
        let external = thread(Side::External, [9.838, 9.391, 8.929], pitch);
        let strip = Strip::of(&internal, &external, 1.0 / pitch);
        // Half a unit of the last digit, and what diameters printed to 0.001 make of it.
        assert!((strip.external - 15.02).abs() < 0.01, "{}", strip.external);
        assert!((strip.internal - 20.05).abs() < 0.01, "{}", strip.internal);
    }

    /// Source: reference formulas, 6: at nominal sizes the shares of pi D1 Le and pi D Le are
    /// 0.75 and 0.875 for every pitch.
    #[test]
    fn nominal_sizes_give_three_quarters_and_seven_eighths() {
        for (major, pitch) in [(8.05, 0.55), (10.0, 0.75), (12.0, 1.5)] {
            let height = pitch * 3.0_f64.sqrt() / 2.0;
            let (middle, minor) = (major - 0.75 * height, major - 1.25 * height);
            let internal = thread(Side::Internal, [minor, middle, major], pitch);
            let external = thread(Side::External, [major, middle, minor], pitch);
            let strip = Strip::of(&internal, &external, 1.0 / pitch);
            let pi = std::f64::consts::PI;
            assert!((strip.external / (pi * minor) - 0.75).abs() < 1e-9);
            assert!((strip.internal / (pi * major) - 0.875).abs() < 1e-9);
        }
    }
}
