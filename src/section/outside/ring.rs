//! Beads and grooves laid over a straight run.
//!
//! ```text
//!   bead  _.-'''-._      round      square      vee
//!   _____/         \____ _     ___ _     ____ _    ____
//!                         '-.-'     |___|      \  /
//!        |--width--|                            \/   height, at the middle
//! ```

use super::arc::bulge_through;
use super::corner::greatest_factor;
use super::plane::Vector;
use super::stroke::Stroke;
use super::{OutsideError, Ring, RingForm};
use crate::quantity::Length;
use crate::section::{COINCIDENT, Facet, Feature, LEAST_STEP};

use Facet::{FlankBack, FlankFront, Floor, Side};

/// The strokes of a ring over a straight stroke that reaches over all of it.
pub(super) fn strokes(ring: &Ring, base: &Stroke) -> Result<Vec<(Feature, Stroke)>, OutsideError> {
    let name = |facet| Feature::new(ring.item, facet);
    let half = ring.width.as_mm() / 2.0;
    let on = |z: f64| Vector::new(z, base.r_at(z).unwrap_or(base.from.r));
    let (at, height) = (ring.at.as_mm(), ring.height.as_mm());
    let (from, to) = (on(at - half), on(at + half));
    let (low, middle) = (from.r.min(to.r), on(at).r);
    let shallow = |least: f64| {
        let (height, least) = (ring.height, Length::mm(least) + LEAST_STEP);
        OutsideError::RingTooShallow { ring: ring.item, height, least }
    };
    // A floor or a point must lie below both rims.
    let least = if ring.form == RingForm::Bead { 0.0 } else { middle - low };
    if ring.height < Length::mm(least) + LEAST_STEP {
        return Err(shallow(least));
    }
    let line = |facet, from, to| (name(facet), Stroke::straight(from, to));
    let arc = |height: f64| {
        let bulge = bulge_through(from, Vector::new(at, middle + height), to);
        Stroke { from, to, bulge }
    };
    match ring.form {
        RingForm::Bead | RingForm::RoundGroove => {
            let side = if ring.form == RingForm::Bead { 1.0 } else { -1.0 };
            let made = arc(side * height);
            if made.advances() {
                return Ok(vec![(name(Side), made)]);
            }
            let factor = greatest_factor(|factor| arc(side * height * factor).advances());
            let (height, most) = (ring.height, ring.height * factor);
            Err(OutsideError::RingTooHigh { ring: ring.item, height, most })
        }
        RingForm::SquareGroove => {
            let floor = |z: f64| Vector::new(z, middle - height);
            let (first, last) = (floor(at - half), floor(at + half));
            let walls = [line(FlankBack, from, first), line(FlankFront, last, to)];
            Ok(vec![walls[0], line(Floor, first, last), walls[1]])
        }
        RingForm::VeeGroove => {
            let point = Vector::new(at, middle - height);
            Ok(vec![line(FlankBack, from, point), line(FlankFront, point, to)])
        }
    }
}

/// The rests of a straight stroke before and behind a ring over it; none where the ring does not
/// lie on it.
pub(super) fn rests(ring: &Ring, base: &Stroke) -> Option<[Stroke; 2]> {
    let half = ring.width.as_mm() / 2.0;
    let ends = [ring.at.as_mm() - half, ring.at.as_mm() + half];
    let gaps = [ends[0] - base.from.z, base.to.z - ends[1]];
    let fits = |gap: &f64| gap.abs() <= COINCIDENT.as_mm() || *gap >= LEAST_STEP.as_mm();
    if !gaps.iter().all(fits) {
        return None;
    }
    let on = |z: f64| Vector::new(z, base.r_at(z).unwrap_or(base.from.r));
    // Rounding must not leave a hair of the run.
    let snapped = |gap: f64, end: Vector, z: f64| {
        if gap.abs() <= COINCIDENT.as_mm() { end } else { on(z) }
    };
    let (first, last) = (snapped(gaps[0], base.from, ends[0]), snapped(gaps[1], base.to, ends[1]));
    Some([Stroke::straight(base.from, first), Stroke::straight(last, base.to)])
}

/// A middle at which a ring would lie on one of some strokes, the nearest to where it was asked.
pub(super) fn place_for(ring: &Ring, bases: impl Iterator<Item = Stroke>) -> Option<Length> {
    let half = ring.width.as_mm() / 2.0;
    let at = ring.at.as_mm();
    let nearest = bases.filter_map(|base| {
        let (low, high) = (base.from.z + half, base.to.z - half);
        (low <= high).then(|| at.clamp(low, high))
    });
    let off = |z: &f64| (z - at).abs();
    nearest.min_by(|a, b| off(a).total_cmp(&off(b))).map(Length::mm)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::section::Item;

    fn ring(form: RingForm, height: f64) -> Ring {
        let (at, width) = (Length::mm(5.0), Length::mm(2.0));
        Ring { item: Item::Bead(1), form, at, width, height: Length::mm(height) }
    }

    fn run() -> Stroke {
        Stroke::straight(Vector::new(0.0, 6.0), Vector::new(10.0, 6.0))
    }

    /// Source: the radius over a chord c with the sagitta h is h / 2 + c^2 / (8 h).
    #[test]
    fn a_bead_is_an_arc_over_its_width() {
        let made = strokes(&ring(RingForm::Bead, 0.5), &run()).unwrap();
        let circle = made[0].1.circle().unwrap();
        assert!((circle.radius - (0.25 + 4.0 / 4.0)).abs() < 1e-12);
        assert!((made[0].1.at(0.5).r - 6.5).abs() < 1e-12);
        let [before, behind] = rests(&ring(RingForm::Bead, 0.5), &run()).unwrap();
        assert_eq!((before.to.z, behind.from.z), (4.0, 6.0));
    }

    /// Limiting case: a half circle is the highest bead.
    #[test]
    fn no_ring_is_higher_than_half_its_width() {
        assert!(strokes(&ring(RingForm::RoundGroove, 1.0), &run()).is_ok());
        let most = match strokes(&ring(RingForm::RoundGroove, 1.6), &run()) {
            Err(OutsideError::RingTooHigh { most, .. }) => most.as_mm(),
            other => panic!("{other:?}"),
        };
        assert!((most - 1.0).abs() < 1e-6);
    }

    #[test]
    fn grooves_have_their_walls() {
        let names = |form| -> Vec<String> {
            let made = strokes(&ring(form, 0.4), &run()).unwrap();
            made.iter().map(|(feature, _)| feature.to_string()).collect()
        };
        assert_eq!(
            names(RingForm::SquareGroove),
            ["bead-1.flank.back", "bead-1.floor", "bead-1.flank.front"]
        );
        assert_eq!(names(RingForm::VeeGroove), ["bead-1.flank.back", "bead-1.flank.front"]);
    }
}
