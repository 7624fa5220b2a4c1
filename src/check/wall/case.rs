//! What makes a wall's worst case, in the words of the bench.

use super::skin::{Wall, wander};
use crate::quantity::Length;
use crate::section::{Feature, Item, Section};
use crate::size::words;

/// Points farther apart along z than this are two places, in millimetres: as much as a mark on a
/// drill is off. Less, and every slope is said to have its worst place elsewhere.
const SAME_PLACE: f64 = 0.3;

/// "at the worst: clearance bore cut 8.35, tenon's thread 8.93 at its root, 0.05 off the axis by a
/// change of holding; there at z 12.30, ...": what is not as drawn, and where, if elsewhere.
pub(super) fn words(section: &Section, drawn: &Wall, least: &Wall) -> String {
    let (inner, outer) = (least.worst_place.inner.feature, least.worst_place.outer.feature);
    let mut text = worst(sizes(section, [inner, outer]).chain(offset(section, inner.item)));
    if elsewhere(drawn, least) {
        let place = &least.worst_place;
        text += &format!(
            "; there between {} and {} at {:.2} mm",
            words::surface(place.inner.feature),
            words::surface(place.outer.feature),
            place.z()
        );
    }
    text
}

/// The same for two holes that may be off each other's axis.
pub(super) fn of_holes(section: &Section, holes: [Feature; 2], off: f64) -> String {
    let apart = (off > 0.0).then(|| format!("their axes {off:.2} apart"));
    worst(sizes(section, holes).chain(apart))
}

fn worst(parts: impl Iterator<Item = String>) -> String {
    let parts: Vec<String> = parts.collect();
    if parts.is_empty() {
        return "at the worst as drawn: nothing has a tolerance, nothing is off the axis"
            .to_owned();
    }
    format!("at the worst: {}", parts.join(", "))
}

fn sizes(section: &Section, of: [Feature; 2]) -> impl Iterator<Item = String> {
    of.into_iter().filter_map(|feature| size(section, feature))
}

/// A surface's size at the least material, where that is not the size as drawn.
fn size(section: &Section, feature: Feature) -> Option<String> {
    let name = words::item(feature.item);
    let thread = section.threads().find(|thread| thread.item == feature.item);
    let (cut, root, drawn) = if let Some(thread) = thread {
        (thread.at_least_material().form.root, " at its root", thread.form.root)
    } else {
        let bore = section.bore(feature.item)?;
        (bore.limits.max(), "", bore.diameter)
    };
    (cut != drawn).then(|| format!("{name} cut {}{root}", hundredths(cut)))
}

/// How far the bore is off, and by what.
fn offset(section: &Section, bore: Item) -> Option<String> {
    let holding = section.criteria.offsets.holding;
    let wander = Length::mm(wander(section, bore));
    let by = match (holding > Length::ZERO, wander > Length::ZERO) {
        (false, false) => return None,
        (true, false) => "by a change of holding".to_owned(),
        (false, true) => "by the wander of a long hole".to_owned(),
        (true, true) => format!(
            "by a change of holding, {}, and the wander of a long hole, {}",
            hundredths(holding),
            hundredths(wander)
        ),
    };
    Some(format!("{} off the axis {by}", hundredths(holding + wander)))
}

/// Whether the worst place is another than the one as drawn; a bore that only moved over is not.
fn elsewhere(drawn: &Wall, least: &Wall) -> bool {
    let features = |wall: &Wall| (wall.place.inner.feature, wall.place.outer.feature);
    let worst = least.worst_place;
    let moved = (drawn.place.inner.z - worst.inner.z)
        .abs()
        .max((drawn.place.outer.z - worst.outer.z).abs());
    features(drawn) != (worst.inner.feature, worst.outer.feature) || moved > SAME_PLACE
}

fn hundredths(size: Length) -> String {
    format!("{:.2}", size.as_mm())
}
