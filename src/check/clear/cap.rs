//! `clear.cap*`, `clear.seal`: the section on its way into the cap, and in the closed cap.
//!
//! Section and cap face each other: the section is turned round, so that its front looks to where
//! it goes; at s of the cap is then z = `stops_at` - s of the section.

use super::radial::{Radial, tightest};
use crate::check::bodies::{Built, Model};
use crate::check::enclosing::{CapBodies, bottom, off};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::slide::{Contact, Gap, Slide};
use crate::check::{Bound, CheckInfo, Detail, Finding, Place};
use crate::section::{Cap, Facet, Item};
use crate::size::words;
use crate::solid::Swept;

/// Radial room on the way.
static GRIP: CheckInfo = CheckInfo {
    code: "clear.cap",
    title: "Room round the grip in the cap",
    measures: "The least radial gap between the section, rings, beads and its own thread included, \
        and what of the cap it passes on its way in and at its place; threads that engage do not \
        count.",
    limit: "The room per side that a grip needs in its cap.",
};

/// Axial room when it is closed.
static STOP: CheckInfo = CheckInfo {
    code: "clear.cap-stop",
    title: "Room in the cap when it stops",
    measures: "How much farther the section could go into the cap when its mouth stands where it \
        stops, before anything but the mouth touches; the inner cap's rim does not count.",
    limit: "Less than none: something else stops the cap first, and it stays open.",
};

/// The inner cap's rim.
static SEAL: CheckInfo = CheckInfo {
    code: "clear.seal",
    title: "Gap between the inner cap's rim and the section's front",
    measures: "How much farther the section could go into the closed cap before the inner cap's \
        rim touches it.",
    limit: "Less than none: the rim holds the cap open.",
};

/// Its checks, in the order of their findings.
pub(super) static CHECKS: [&CheckInfo; 3] = [&GRIP, &STOP, &SEAL];

/// The section facing the cap, in all its states.
struct Scene<'a> {
    model: &'a Model<'a>,
    cap: &'a Cap,
    bodies: &'a CapBodies,
    drawn: Built,
    least: Built,
    most: Built,
    stops_at: f64,
}

impl Scene<'_> {
    /// As drawn; at both ends of the tolerances; with the readings at their limits.
    fn states(&self) -> [Vec<(&Built, &Built)>; 3] {
        let Self { bodies: CapBodies { cap, tightest, .. }, drawn, least, most, .. } = self;
        [
            vec![(drawn, &cap.drawn)],
            vec![(least, &cap.least), (most, &cap.most)],
            vec![(least, tightest), (most, tightest)],
        ]
    }

    fn slide<'b>(section: &'b Built, cap: &'b Built) -> Slide<'b> {
        Slide::new((section, Item::CapThread), (cap, Item::CapInsideThread))
    }

    fn band(&self) -> f64 {
        self.model.section.criteria.band.as_mm()
    }

    /// In the section's axis, at the moment of contact.
    fn place(contact: &Contact) -> Place {
        let (mut inner, mut outer) = (contact.inner, contact.outer);
        inner.z = -inner.z;
        outer.z = contact.advance - outer.z;
        Place { inner, outer }
    }
}

/// Room round the grip, room at the stop, and the seal's gap.
pub(in crate::check) fn check(model: &Model) -> Vec<Finding> {
    let Some((bodies, cap)) = model.cap.zip(model.section.cap.as_ref()) else {
        return Vec::new();
    };
    let [drawn, least, most] =
        [&model.part.drawn, &model.part.least, &model.part.most].map(Built::turned);
    let stops_at = cap.stops_at.as_mm();
    let scene = Scene { model, cap, bodies, drawn, least, most, stops_at };
    let findings = [grip(&scene), Some(stop(&scene)), seal(&scene)];
    findings.into_iter().flatten().collect()
}

fn grip(scene: &Scene) -> Option<Finding> {
    let not_seal = |gap: &Gap| gap.pair().1 != Item::InnerCap;
    let gaps = |(section, cap): (&Built, &Built)| {
        let gaps = Scene::slide(section, cap).gaps(scene.stops_at).into_iter();
        gaps.filter(not_seal).collect::<Vec<_>>()
    };
    let [drawn, worst, read] =
        scene.states().map(|states| states.into_iter().flat_map(gaps).collect::<Vec<_>>());
    let in_thread = |gap: &&Gap| matches!(gap.pair().1, Item::CapInsideThread | Item::CapHole);
    let named =
        |name: &str, gaps: Vec<Gap>| tightest(&gaps).map(|gap| detail(name, gap.room, "mm"));
    let details: Vec<Detail> = [
        named("in the thread", drawn.iter().filter(in_thread).copied().collect()),
        named("inside", drawn.iter().filter(|gap| !in_thread(gap)).copied().collect()),
    ]
    .into_iter()
    .flatten()
    .collect();
    let limit = &scene.model.section.criteria.fits.cap_clearance;
    let radial = Radial { drawn: &drawn, worst, read, limit, band: scene.band() };
    radial.finding(&GRIP, details, |s| scene.stops_at - s)
}

/// The first contact of anything that is not the mouth where it is to stand, nor the seal's rim.
fn first(scene: &Scene, section: &Built, cap: &Built) -> Option<Contact> {
    let stands = |c: &Contact| {
        let mouth = matches!(c.outer.feature.item, Item::Cap | Item::CapCounterbore);
        mouth && (c.advance - scene.stops_at).abs() <= ROUNDING
    };
    let counts = |c: &Contact| c.outer.feature.item != Item::InnerCap && !stands(c);
    let contacts = Scene::slide(section, cap).contacts().into_iter().filter(counts);
    contacts.reduce(|a, b| if b.advance < a.advance { b } else { a })
}

fn stop(scene: &Scene) -> Finding {
    let room = |(section, cap): (&Built, &Built)| {
        let whole = bottom(cap);
        first(scene, section, cap).map_or(whole, |c| (c.advance - scene.stops_at).min(whole))
    };
    let [measured, worst, read] =
        scene.states().map(|states| states.into_iter().map(room).fold(f64::MAX, f64::min));
    let worst = worst.min(measured);
    let uncertainty = (worst - read).max(0.0);
    let measure = Measure { worst, error: ROUNDING, uncertainty, band: scene.band() };
    let source = "geometry: the cap's mouth must come to where it stops";
    let touch = first(scene, &scene.drawn, &scene.bodies.cap.drawn);
    let note = touch.filter(|_| measured < -ROUNDING).map(|c| {
        let (inner, outer) = (words::surface(c.inner.feature), words::surface(c.outer.feature));
        format!("{inner} meets {outer} {:.2} mm before the cap is closed", -measured)
    });
    Finding {
        judgement: Some(judge(measure, Bound::AtLeast, 0.0, source)),
        place: touch.map(|c| Scene::place(&c)),
        note,
        details: vec![detail("the mouth stands at z", scene.stops_at, "mm")],
        ..finding(&STOP, measured, "mm", ROUNDING)
    }
}

/// The rim's gap; where the section's front is narrower than the inner cap, nothing closes on the
/// rim, which is told and not judged.
fn seal(scene: &Scene) -> Option<Finding> {
    let seal = scene.cap.seal?;
    let rim = |cap: &Built| {
        let of_rim =
            |l: &&Swept| l.feature.item == Item::InnerCap && l.feature.facet == Facet::Floor;
        cap.lines.iter().filter(of_rim).map(|l| l.from[1]).fold(f64::MAX, f64::min)
    };
    let touch = |(section, cap): (&Built, &Built)| {
        // The sleeve has a bottom too.
        let at = rim(cap);
        let on_rim =
            |c: &Contact| c.outer.feature.item == Item::InnerCap && c.outer.z - at <= ROUNDING;
        let contacts = Scene::slide(section, cap).contacts().into_iter().filter(on_rim);
        contacts.reduce(|a, b| if b.advance < a.advance { b } else { a })
    };
    let Some(contact) = touch((&scene.drawn, &scene.bodies.cap.drawn)) else {
        let gap = rim(&scene.bodies.cap.drawn) - scene.drawn.end() - scene.stops_at;
        let note = "the section's front is narrower than the inner cap: nothing closes on its rim";
        return Some(Finding {
            note: Some(note.to_owned()),
            ..finding(&SEAL, gap, "mm", ROUNDING)
        });
    };
    let measured = contact.advance - scene.stops_at;
    let room = |state| touch(state).map_or(f64::MAX, |c| c.advance - scene.stops_at);
    let [_, worst, read] =
        scene.states().map(|states| states.into_iter().map(room).fold(measured, f64::min));
    let uncertainty = (worst - read).max(0.0);
    let measure = Measure { worst, error: ROUNDING, uncertainty, band: scene.band() };
    let source = "geometry: the inner cap must not hold the cap open";
    let note = if measured < -ROUNDING {
        format!("the inner cap's rim holds the cap open by {:.2} mm", -measured)
    } else {
        let off = off(seal.depth);
        format!("the rim is {measured:.2} mm from sealing (read to within {off:.2} mm)")
    };
    Some(Finding {
        judgement: Some(judge(measure, Bound::AtLeast, 0.0, source)),
        place: Some(Scene::place(&contact)),
        note: Some(note),
        details: vec![detail("the rim lies at z", scene.stops_at - contact.outer.z, "mm")],
        ..finding(&SEAL, measured, "mm", ROUNDING)
    })
}
