//! Two threads screwed together: what they share, and the play they have.

use std::f64::consts::{PI, TAU};

use crate::quantity::Length;
use crate::solid::CutThread;
use crate::standard::designation::Hand;
use crate::standard::percent::ThreadPercent;

/// Leads that differ by less are one lead, in millimetres: a hundredth of what a turn of the
/// finest lathe gears could differ by; more would hide a pitch that binds over a hundred turns.
const SAME_LEAD: f64 = 1e-9;

/// What an internal and an external thread do to each other, in millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mating {
    /// z of the internal thread's body between which both have full form.
    pub run: [f64; 2],
    /// Turns of full form, counted in the internal thread's lead.
    pub turns: f64,
    /// External crest over internal crest, per side.
    pub height: f64,
    /// The height on both bases.
    pub percent: ThreadPercent,
    /// Axial play that the flanks have over one turn.
    pub slack: f64,
    /// How much the leads differ, per turn.
    pub lead_error: f64,
    /// Axial play that is left over the engaged run, after the leads' difference has taken its
    /// share; negative where the threads bind.
    pub play: f64,
    /// Turns after which the leads' difference has used up the play, if they differ.
    pub binds_after: Option<f64>,
    /// Internal root over external crest, per side.
    pub crest_gap: f64,
    /// Internal crest over external root, per side.
    pub root_gap: f64,
    /// Least distance between flanks, square to them, when centred along the axis.
    pub flank_gap: f64,
    /// How far the threads can move across the axis, to either side, when centred along it.
    pub radial_play: f64,
    /// Flank area that bears, seen along the axis, in square millimetres.
    pub bearing_area: f64,
}

/// Measures an external thread, its body's z moved by `shift`, in an internal one.
pub(super) fn mate(internal: &CutThread, external: &CutThread, shift: f64) -> Mating {
    let low = internal.full[0].max(external.full[0] + shift);
    let high = internal.full[1].min(external.full[1] + shift);
    let engaged = (high - low).max(0.0);
    let turns = engaged / internal.lead();
    let height = external.crest - internal.crest;
    // The radii at which both have flanks.
    let inner = internal.crest.max(external.root);
    let outer = internal.root.min(external.crest).max(inner);
    // What both ridges leave of a pitch, each as a share of its own: at one z the angle runs
    // through all phases of both.
    let slack = |r: f64| {
        let taken = internal.ridge_at(r) / internal.pitch + external.ridge_at(r) / external.pitch;
        internal.pitch * (1.0 - taken)
    };
    // Straight flanks are nearest at an end; others where one of them bends.
    let bends = internal.flank_radii().into_iter().chain(external.flank_radii());
    let bends = bends.filter(|r| inner < *r && *r < outer);
    let slack = bends.chain([inner, outer]).map(slack).fold(f64::INFINITY, f64::min);
    let lead_error = (climb(internal) - climb(external)).abs();
    let play = slack - turns * lead_error;
    let steepest = internal.half_angle.max(external.half_angle).to_radians();
    let slope = libm::tan(steepest);
    let helix = internal.lead() / TAU / inner;
    let (crest_gap, root_gap) = (internal.root - external.crest, internal.crest - external.root);
    let across = play / 2.0 / (slope * slope + helix * helix).sqrt();
    let ridges = turns * f64::from(internal.starts);
    Mating {
        run: [low, low + engaged],
        turns,
        height,
        percent: ThreadPercent::of_overlap(Length::mm(height), Length::mm(internal.pitch)),
        slack,
        lead_error,
        play,
        binds_after: (lead_error > SAME_LEAD).then(|| slack.max(0.0) / lead_error),
        crest_gap,
        root_gap,
        flank_gap: play / 2.0 / (1.0 + slope * slope + helix * helix).sqrt(),
        radial_play: across.min(crest_gap).min(root_gap),
        bearing_area: PI * (outer * outer - inner * inner) * ridges,
    }
}

/// Climb per turn, negative for a left-hand thread.
pub(super) fn climb(thread: &CutThread) -> f64 {
    if thread.hand == Hand::Right { thread.lead() } else { -thread.lead() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::thread::fixture::basic;
    use crate::section::Side;

    /// Limiting case: two equal profiles fill each other.
    #[test]
    fn equal_profiles_have_no_play() {
        let (hole, bolt) =
            (basic(Side::Internal, 10.0, 0.75, 0.0), basic(Side::External, 10.0, 0.75, 0.0));
        let m = mate(&hole, &bolt, 0.0);
        assert!(m.play.abs() < 1e-12 && m.crest_gap == 0.0 && m.root_gap == 0.0);
        assert!((m.percent.full_depth - 100.0).abs() < 1e-9);
        assert!((m.turns - 10.0).abs() < 1e-12);
        assert_eq!(m.binds_after, None);
    }

    /// By hand: a root rounded to R fills its corners; at the root's own radius the rounding
    /// stands R tan 30 before either flank (a fillet's tangent length, the corner turning by 60
    /// degrees), and a sharp crest that reaches down there meets it by as much.
    #[test]
    fn a_rounded_root_takes_play_from_a_sharp_crest() {
        use crate::quantity::Length;
        use crate::section::FlankRun;
        let hole = basic(Side::Internal, 10.0, 0.75, 0.0);
        let mut bolt = basic(Side::External, 10.0, 0.75, 0.0);
        let (radius, half) = (0.05, 30.0_f64.to_radians());
        let tangent = radius * libm::tan(half);
        // Where the rounding leaves the flank.
        let low = bolt.root + tangent * libm::cos(half);
        let mm = |v: f64| Length::mm(v);
        let run = |from: f64, to: f64, bulge: f64, wider: f64| FlankRun {
            from: mm(2.0 * from),
            ridge_from: mm(bolt.ridge_at(from)),
            to: mm(2.0 * to),
            ridge_to: mm(bolt.ridge_at(to) + wider),
            bulge,
        };
        let arc = libm::tan(half / 2.0);
        let flank = vec![run(bolt.crest, low, 0.0, 0.0), run(low, bolt.root, arc, 2.0 * tangent)];
        bolt.flank = flank;
        let play = mate(&hole, &bolt, 0.0).play;
        assert!((play + 2.0 * tangent).abs() < 1e-9, "{play} {tangent}");
    }

    /// Source: reference formulas, 5 (diametral equivalents): a pitch error dp over the
    /// engagement takes |dp| cot 30 = 1.7321 |dp| from the pitch-diameter clearance; as axial
    /// play, |dp| itself. Worked example there: 0.75 mm with 34 TPI over 6 mm, dp = 23.53 um,
    /// 40.75 um of diameter.
    #[test]
    fn a_wrong_pitch_takes_its_error_from_the_play() {
        let clearance = 0.10;
        let hole = basic(Side::Internal, 10.0, 0.75, 0.0);
        let mut bolt = basic(Side::External, 10.0, 25.4 / 34.0, -clearance);
        let (pitch_radius, run) = (hole.pitch_radius - clearance / 2.0, 6.0);
        bolt.pitch_radius = pitch_radius;
        (bolt.full, bolt.extent) = ([0.0, run], [0.0, run]);
        // At the pitch diameters both keep half of their own pitch. Where a flank ends, 0.2 from
        // there, the shares of both pitches differ by a little.
        let slack = clearance * libm::tan(PI / 6.0);
        let m = mate(&hole, &bolt, 0.0);
        assert!((m.slack - slack).abs() < 1.5e-3 && m.slack < slack, "{} {slack}", m.slack);
        assert!((m.slack - m.play - 0.023_529_4).abs() < 1e-6, "{}", m.play);
        let as_diameter = (m.slack - m.play) / libm::tan(PI / 6.0);
        assert!((as_diameter - 0.040_75).abs() < 1e-5, "{as_diameter}");
        let turns = m.binds_after.unwrap();
        assert!((turns * (0.75 - 25.4 / 34.0) - m.slack).abs() < 1e-12);
    }

    /// The wrong hand does not go in at all: two leads a turn.
    #[test]
    fn the_wrong_hand_binds_at_once() {
        let hole = basic(Side::Internal, 10.0, 0.75, 0.1);
        let bolt = CutThread { hand: Hand::Left, ..basic(Side::External, 10.0, 0.75, 0.0) };
        let m = mate(&hole, &bolt, 0.0);
        assert!(m.play < -10.0 && m.binds_after.unwrap() < 0.05);
    }

    /// Apart along the axis they share nothing, and nothing is infinite.
    #[test]
    fn apart_they_share_nothing() {
        let (hole, bolt) =
            (basic(Side::Internal, 10.0, 0.75, 0.0), basic(Side::External, 10.0, 0.75, -1.0));
        let m = mate(&hole, &bolt, 20.0);
        assert_eq!((m.turns, m.bearing_area), (0.0, 0.0));
        assert!(m.height < 0.0 && m.flank_gap.is_finite() && m.radial_play.is_finite());
    }
}
