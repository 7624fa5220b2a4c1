//! The one rule by which every measure is judged.

use super::{Bound, Judgement, Verdict};

/// Bound on the error of a length that is measured in closed form on the exact solid, in
/// millimetres. The solid's numbers carry 1e-14 or so of their own size, a few operations more
/// make 1e-12; a larger bound would call exact contact a breach, a smaller one noise a result.
pub(super) const ROUNDING: f64 = 1e-9;

/// What a measure is judged by, all in the measure's unit.
#[derive(Clone, Copy, Debug)]
pub(super) struct Measure {
    /// At the worst that the part's tolerances allow.
    pub worst: f64,
    /// Bound on its own error.
    pub error: f64,
    /// From the readings.
    pub uncertainty: f64,
    /// What a maker can hold at the lathe.
    pub band: f64,
}

/// Judges a measure: it holds when its margin is over error, uncertainty and band together, and
/// breaks when it is beyond the limit by more than its error; otherwise it is close.
pub(super) fn judge(of: Measure, bound: Bound, limit: f64, source: &str) -> Judgement {
    let Measure { worst, error, uncertainty, band } = of;
    let margin = match bound {
        Bound::AtLeast => worst - limit,
        Bound::AtMost => limit - worst,
    };
    let verdict = if margin > error + uncertainty + band {
        Verdict::Holds
    } else if margin >= -error {
        Verdict::Close
    } else {
        Verdict::Breaks
    };
    let limit_source = source.to_owned();
    Judgement {
        verdict,
        worst,
        uncertainty,
        band,
        limit,
        bound,
        limit_source,
        margin,
        advice: None,
        write: Vec::new(),
        means: None,
    }
}

/// Of two judgements the worse: the worse verdict, then the less margin beyond what it needs.
pub(super) fn worse(a: Judgement, b: Judgement) -> Judgement {
    let spare = |j: &Judgement| j.margin - j.uncertainty - j.band;
    let b_is_worse = b.verdict > a.verdict || (b.verdict == a.verdict && spare(&b) < spare(&a));
    if b_is_worse { b } else { a }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at_least(worst: f64) -> Verdict {
        let of = Measure { worst, error: 0.01, uncertainty: 0.02, band: 0.03 };
        judge(of, Bound::AtLeast, 1.0, "test").verdict
    }

    /// Expectations: the three clauses of the rule, at their borders (design notes of the part).
    #[test]
    fn the_rule_at_its_borders() {
        assert_eq!(at_least(1.0601), Verdict::Holds);
        assert_eq!(at_least(1.0599), Verdict::Close);
        assert_eq!(at_least(1.0), Verdict::Close);
        assert_eq!(at_least(0.9901), Verdict::Close);
        assert_eq!(at_least(0.9899), Verdict::Breaks);
    }

    #[test]
    fn an_upper_limit_is_the_mirror_image() {
        let of = Measure { worst: 0.9399, error: 0.01, uncertainty: 0.02, band: 0.03 };
        assert_eq!(judge(of, Bound::AtMost, 1.0, "test").verdict, Verdict::Holds);
        let of = Measure { worst: 1.02, ..of };
        let judged = judge(of, Bound::AtMost, 1.0, "test");
        assert_eq!(judged.verdict, Verdict::Breaks);
        assert!((judged.margin + 0.02).abs() < 1e-12);
    }

    /// What can't be measured is never good.
    #[test]
    fn not_a_number_breaks() {
        assert_eq!(at_least(f64::NAN), Verdict::Breaks);
    }

    #[test]
    fn the_worse_of_two_has_less_to_spare() {
        let of = |worst| Measure { worst, error: 0.0, uncertainty: 0.0, band: 0.0 };
        let (low, high) = (
            judge(of(92.0), Bound::AtLeast, 60.0, "low"),
            judge(of(92.0), Bound::AtMost, 90.0, "high"),
        );
        assert_eq!(worse(low.clone(), high.clone()).limit_source, "high");
        assert_eq!(worse(high, low).limit_source, "high");
    }
}
