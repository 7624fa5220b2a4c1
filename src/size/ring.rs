//! A bead or groove as a drawing has it: where it begins and ends, and the diameter of its floor or
//! the radius of its arc.

use crate::quantity::Length;
use crate::section::{Curve, Grip, Item, Ring, RingForm, Section};

/// One of its sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// z of its beginning.
    Start,
    /// z of its end.
    End,
    /// Diameter of a square groove's floor, or at the bottom of a vee.
    Floor,
    /// Radius of a bead's or round groove's arc.
    Radius,
}

/// A size, in millimetres; none of what its form has not.
pub(super) fn get(section: &Section, item: Item, part: Part) -> Option<f64> {
    let (grip, ring) = (&section.grip, find(&section.grip, item)?);
    let half = ring.width.as_mm() / 2.0;
    match part {
        Part::Start => Some(ring.at.as_mm() - half),
        Part::End => Some(ring.at.as_mm() + half),
        Part::Floor if !is_round(ring.form) => {
            Some((base(grip, ring.at.as_mm())? - ring.height.as_mm()) * 2.0)
        }
        Part::Radius if is_round(ring.form) => {
            // Over a chord c, a sagitta h square to it: c^2 / (8 h) + h / 2; the height is square to
            // the axis, so the circle is found by its three points.
            let [from, to] = rims(grip, &ring)?;
            let top = [ring.at.as_mm(), base(grip, ring.at.as_mm())? + out(&ring)];
            circle(from, top, to)
        }
        _ => None,
    }
}

/// The same section with one of the sizes at another value, the others as they are.
pub(super) fn set(section: &mut Section, item: Item, part: Part, to: f64) -> Option<()> {
    let before = find(&section.grip, item)?;
    let body = if is_round(before.form) { Part::Radius } else { Part::Floor };
    let ends = [get(section, item, Part::Start)?, get(section, item, Part::End)?];
    let kept = get(section, item, body)?;
    let (ends, kept) = match part {
        Part::Start => ([to, ends[1]], kept),
        Part::End => ([ends[0], to], kept),
        _ if part == body => (ends, to),
        _ => return None,
    };
    let ring = section.grip.rings.iter_mut().find(|ring| ring.item == item)?;
    ring.at = Length::mm(f64::midpoint(ends[0], ends[1]));
    ring.width = Length::mm(ends[1] - ends[0]);
    let moved = *ring;
    let height = match body {
        Part::Floor => base(&section.grip, moved.at.as_mm())? - kept / 2.0,
        _ => rise(&section.grip, &moved, kept)?,
    };
    let ring = section.grip.rings.iter_mut().find(|ring| ring.item == item)?;
    ring.height = Length::mm(height);
    (ring.width > Length::ZERO && ring.height > Length::ZERO).then_some(())
}

pub(super) fn find(grip: &Grip, item: Item) -> Option<Ring> {
    grip.rings.iter().find(|ring| ring.item == item).copied()
}

/// Whether it is an arc.
pub(crate) fn is_round(form: RingForm) -> bool {
    matches!(form, RingForm::Bead | RingForm::RoundGroove)
}

/// How far it stands out of its run at its middle, less than nothing for a groove.
fn out(ring: &Ring) -> f64 {
    if ring.form == RingForm::Bead { ring.height.as_mm() } else { -ring.height.as_mm() }
}

/// Radius of the straight run at a z.
fn base(grip: &Grip, z: f64) -> Option<f64> {
    let mut runs = (0..grip.runs.len()).map(|n| (grip.start(n), grip.runs[n]));
    let (from, run) = runs.find(|(from, run)| {
        let holds = from.z.as_mm() <= z && z <= run.to.z.as_mm();
        run.curve == Curve::Straight && from.z < run.to.z && holds
    })?;
    let share = (z - from.z.as_mm()) / (run.to.z - from.z).as_mm();
    Some(from.radius() + (run.to.radius() - from.radius()) * share)
}

/// Both ends on the run, as z and radius.
fn rims(grip: &Grip, ring: &Ring) -> Option<[[f64; 2]; 2]> {
    let (at, half) = (ring.at.as_mm(), ring.width.as_mm() / 2.0);
    let rim = |z: f64| Some([z, base(grip, z)?]);
    Some([rim(at - half)?, rim(at + half)?])
}

/// Radius of the circle through three points: the product of the sides over four times the area.
fn circle(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> Option<f64> {
    let side = |p: [f64; 2], q: [f64; 2]| libm::hypot(q[0] - p[0], q[1] - p[1]);
    let area = ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])).abs() / 2.0;
    (area > 0.0).then(|| side(a, b) * side(b, c) * side(c, a) / (4.0 * area))
}

/// How high an arc of a radius stands over its run at the middle, no more than half a circle; none
/// where it does not reach from end to end.
fn rise(grip: &Grip, ring: &Ring, radius: f64) -> Option<f64> {
    let [from, to] = rims(grip, ring)?;
    let chord = [to[0] - from[0], to[1] - from[1]];
    let half = libm::hypot(chord[0], chord[1]) / 2.0;
    let deep = radius * radius - half * half;
    if deep < 0.0 {
        return None;
    }
    // The centre lies on the other side of the chord than the arc.
    let side = if ring.form == RingForm::Bead { -1.0 } else { 1.0 };
    let back = side * deep.sqrt() / (2.0 * half);
    let centre = [
        f64::midpoint(from[0], to[0]) - chord[1] * back,
        f64::midpoint(from[1], to[1]) + chord[0] * back,
    ];
    let off = ring.at.as_mm() - centre[0];
    let top = centre[1] - side * (radius * radius - off * off).max(0.0).sqrt();
    Some((top - base(grip, ring.at.as_mm())?).abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::section::{GripRun, Station};

    fn grip(back: f64, form: RingForm) -> Grip {
        let mm = Length::mm;
        let mut grip =
            Grip::plain(mm(12.0), vec![GripRun::straight(Station::new(mm(back), mm(10.0)))]);
        let item = if form == RingForm::Bead { Item::Bead(1) } else { Item::Groove(1) };
        grip.rings.push(Ring { item, form, at: mm(5.0), width: mm(2.0), height: mm(0.5) });
        grip
    }

    /// By hand: over a chord of 2 a sagitta of 0.5 is a radius of 1.25; a floor 0.5 under a
    /// cylinder of 12 is one of 11.
    #[test]
    fn sizes_are_those_of_the_drawing() {
        for form in [RingForm::Bead, RingForm::RoundGroove] {
            let grip = grip(12.0, form);
            let ring = grip.rings[0];
            let [from, to] = rims(&grip, &ring).unwrap();
            let top = [5.0, 6.0 + out(&ring)];
            assert!((circle(from, top, to).unwrap() - 1.25).abs() < 1e-12);
            assert!((rise(&grip, &ring, 1.25).unwrap() - 0.5).abs() < 1e-12);
            assert_eq!(rise(&grip, &ring, 0.9), None, "it does not reach");
        }
        let square = grip(12.0, RingForm::SquareGroove);
        assert_eq!(base(&square, 5.0), Some(6.0));
    }

    /// Independent route: on a taper the height that a radius gives is the circle's through it.
    #[test]
    fn height_and_radius_are_each_others_on_a_taper() {
        for form in [RingForm::Bead, RingForm::RoundGroove] {
            let mut grip = grip(13.0, form);
            for radius in [1.05, 1.25, 4.0] {
                let mut ring = grip.rings[0];
                ring.height = Length::mm(rise(&grip, &ring, radius).unwrap());
                grip.rings[0] = ring;
                let [from, to] = rims(&grip, &ring).unwrap();
                let top = [5.0, base(&grip, 5.0).unwrap() + out(&ring)];
                assert!((circle(from, top, to).unwrap() - radius).abs() < 1e-9);
            }
        }
    }
}
