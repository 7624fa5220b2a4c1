//! The outside as it is turned: its diameter every two millimetres, and the slope of each taper.

use crate::quantity::{Angle, Length};
use crate::section::{Corner, Facet, Feature, Item, LEAST_STEP, Ring, Run, Section, Shape};
use crate::solid::Meridian;

/// From one place of the table to the next, in millimetres: the first that leaves no more places
/// than are wanted. Less, and the table takes a page; more, and a flare is turned between two.
const EVERY: [f64; 4] = [2.0, 5.0, 10.0, 20.0];

/// Places that a table has at most: those of a grip of 70 mm at every 2 mm.
const PLACES: f64 = 36.0;

/// A straight run that is no cylinder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taper {
    /// Where it begins, from the face, and how wide it is there.
    pub from: [Length; 2],
    /// Where it ends, and how wide.
    pub to: [Length; 2],
    /// Angle between its side and the axis: what a compound slide is set to. Positive where it
    /// grows towards the barrel.
    pub angle: Angle,
}

/// The outside between the front face and the shoulder.
#[derive(Clone, Debug, PartialEq)]
pub struct Outside {
    /// Distance from the front face as it is when the outside is turned, and the diameter there: where
    /// every run begins and ends, and between them; where the diameter steps, both.
    pub places: Vec<[Length; 2]>,
    /// The tapers, from the front on.
    pub tapers: Vec<Taper>,
    /// Whether some of it is curved.
    pub curved: bool,
    /// Corners that are rounded or chamfered, with their distance from the face.
    pub corners: Vec<(Length, Corner)>,
    /// Beads and grooves; their places are from the finished front face.
    pub rings: Vec<Ring>,
}

impl Outside {
    /// Of a section whose front face is still to lose so much.
    pub fn of(section: &Section, to_come: Length) -> Self {
        let part = section.part();
        let grip = |run: &&Run| {
            let item = run.feature.item;
            matches!(
                item,
                Item::Grip(_) | Item::Bead(_) | Item::Groove(_) | Item::CapThread | Item::FrontFace
            )
        };
        // The rim's corner belongs to the face, and is turned with the outside.
        let mut along: Vec<&Run> =
            part.runs.iter().filter(grip).filter(|run| run.to.z > run.from.z).collect();
        along.sort_by(|a, b| a.from.z.as_mm().total_cmp(&b.from.z.as_mm()));
        let mut places: Vec<[Length; 2]> = Vec::new();
        for z in stops(&along, to_come) {
            let mut here: Vec<Length> =
                along.iter().filter_map(|run| diameter_at(run, z)).collect();
            here.dedup_by(|b, a| (*b - *a).abs() < Length::mm(0.005));
            places.extend(here.into_iter().map(|diameter| [z + to_come, diameter]));
        }
        let tapers = along.iter().filter_map(|run| taper(run, to_come)).collect();
        let curved = along.iter().any(|run| run.shape != Shape::Straight);
        let rim = [(to_come, section.grip.rim)].into_iter();
        let ends = section.grip.runs.iter().map(|run| (run.to.z + to_come, run.corner));
        let corners = rim.chain(ends).filter(|(_, corner)| *corner != Corner::Sharp).collect();
        Self { places, tapers, curved, corners, rings: section.grip.rings.clone() }
    }
}

/// Where the table has a row, as z: every end of a run, and even distances from the face between
/// them.
fn stops(along: &[&Run], to_come: Length) -> Vec<Length> {
    let ends = along.first().zip(along.last()).map(|(first, last)| [first.from.z, last.to.z]);
    let Some([from, to]) = ends else { return Vec::new() };
    let few = |every: &&f64| (to - from).as_mm() / **every <= PLACES;
    let every = EVERY.iter().find(few).copied().unwrap_or(EVERY[EVERY.len() - 1]);
    let mut stops: Vec<Length> = along.iter().flat_map(|run| [run.from.z, run.to.z]).collect();
    let near = |stops: &[Length], z: Length| stops.iter().any(|end| (*end - z).abs() < BESIDE);
    let mut n = ((from + to_come).as_mm() / every).floor() + 1.0;
    while Length::mm(n * every) - to_come < to {
        let z = Length::mm(n * every) - to_come;
        if !near(&stops, z) {
            stops.push(z);
        }
        n += 1.0;
    }
    stops.sort_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    stops.dedup_by(|b, a| *b - *a <= LEAST_STEP);
    stops
}

/// An even distance this near to the end of a run is left out: the end is measured.
const BESIDE: Length = Length::mm(0.25);

/// The diameter of a run at z, on its exact line; none where it does not reach it.
fn diameter_at(run: &Run, z: Length) -> Option<Length> {
    let z = z.as_mm();
    let (from, to) = (run.from.z.as_mm(), run.to.z.as_mm());
    if z < from || z > to {
        return None;
    }
    if let (true, Some(end)) =
        (z == from || z == to, Some(if z == from { run.from } else { run.to }))
    {
        return Some(end.diameter);
    }
    let line = Meridian::of(run);
    // z grows along a run of the outside: halving finds its v.
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if line.at(middle)[1] < z { low = middle } else { high = middle }
    }
    Some(Length::mm(2.0 * line.at(low)[0]))
}

/// Halvings of a run's length: 2^-50 of it is rounding.
const HALVINGS: u32 = 50;

fn taper(run: &Run, to_come: Length) -> Option<Taper> {
    let (long, wider) = (run.to.z - run.from.z, run.to.diameter - run.from.diameter);
    // Corners and rings are told as such.
    let own = matches!(run.feature, Feature { item: Item::Grip(_), facet: Facet::Side });
    let sloped = own && run.shape == Shape::Straight && wider != Length::ZERO;
    let angle = libm::atan2(wider.as_mm() / 2.0, long.as_mm());
    sloped.then(|| Taper {
        from: [run.from.z + to_come, run.from.diameter],
        to: [run.to.z + to_come, run.to.diameter],
        angle: Angle::deg(angle.to_degrees()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};

    /// By hand: the demo's first run grows from 10.2 to 11.4 over 9 mm: atan(0.6 / 9) = 3.814
    /// degrees; at 2 mm it is 10.2 + 1.2 x 2 / 9 = 10.4667 wide.
    #[test]
    fn the_demos_tapers() {
        let section = load(&Library::default(), "demo").unwrap().section;
        let found = Outside::of(&section, Length::ZERO);
        assert!((found.tapers[0].angle.as_deg() - 3.8141).abs() < 1e-4);
        assert_eq!(found.tapers.len(), 3);
        let at = |n: usize| found.places[n].map(Length::as_mm);
        assert_eq!(at(0), [0.0, 10.2]);
        assert!((at(1)[0] - 2.0).abs() < 1e-12 && (at(1)[1] - (10.2 + 2.4 / 9.0)).abs() < 1e-9);
        assert_eq!(found.places.last().unwrap().map(Length::as_mm), [22.0, 12.4]);
        // With 0.05 still to be sanded off, 2 mm from the face is z 1.95.
        let early = Outside::of(&section, Length::mm(0.05));
        let [from_face, diameter] = early.places[1].map(Length::as_mm);
        assert!(
            (from_face - 2.0).abs() < 1e-12 && (diameter - (10.2 + 1.95 * 1.2 / 9.0)).abs() < 1e-9
        );
    }

    /// Every end of a run stands in the table, every corner and ring beside it.
    #[test]
    fn nothing_of_the_outside_is_left_out() {
        let fixture = format!("{}/tests/fixtures/outside.toml", env!("CARGO_MANIFEST_DIR"));
        let section = load(&Library::default(), &fixture).unwrap().section;
        let to_come = Length::mm(0.05);
        let found = Outside::of(&section, to_come);
        let has = |z: Length| found.places.iter().any(|[at, _]| (*at - z - to_come).abs() < BESIDE);
        for run in &section.grip.runs {
            // A rounded or cut corner's own place is not on the part.
            assert!(run.corner != Corner::Sharp || has(run.to.z), "{:?}", run.to);
        }
        let corners = section.grip.runs.iter().filter(|run| run.corner != Corner::Sharp).count();
        let rim = usize::from(section.grip.rim != Corner::Sharp);
        assert_eq!(found.corners.len(), corners + rim);
        assert!(!found.rings.is_empty() && found.rings == section.grip.rings);
        assert!(found.places.windows(2).all(|pair| pair[0][0] <= pair[1][0]));
    }
}
