//! Offsets, measured on the solids: a point of a nominal face, moved along its normal by what is
//! asked of its kind, lies on the compensated solid's face of that name to a micron.
//!
//! The distance is found by Gauss-Newton steps on the surface's own derivatives, in space: another
//! way than the module's, which works in the half-plane.

use std::collections::BTreeMap;

use nalgebra::Vector3;
use sectionwright::mesh::tessellate;
use sectionwright::print::offset::{Amounts, Loss, Offset, offset};
use sectionwright::quantity::Length;
use sectionwright::section::{Compensation, Facet, Feature, Item, Part, RunOut, Skin, Surface};
use sectionwright::solid::{Body, Meridian, Screw, angles_of, build};

use super::space::{distance, point};
use crate::common::random::{Dice, part};
use crate::common::{mm, r1, slices};

/// A micron.
const MICRON: f64 = 1e-3;

/// What the module promises of a thread's rounded corners.
const ROUNDING: f64 = 5e-3;

/// What is asked for differs by this.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Flank,
    Root,
    Other(Surface),
}

/// The kind of a face, seen from its name and its surface.
fn kind(feature: Feature, screw: &Screw) -> Kind {
    let plane = (screw.z(0.0) - screw.z(1.0)).abs() < 1e-9;
    let cylinder = (screw.r(0.0) - screw.r(1.0)).abs() < 1e-9;
    match feature.facet {
        Facet::FlankFront | Facet::FlankBack if screw.climb != 0.0 => Kind::Flank,
        Facet::Root => Kind::Root,
        // The groove's end: its band, its flanks, or the tool's lead.
        Facet::RunOut if cylinder => Kind::Root,
        Facet::RunOut if !plane => Kind::Flank,
        _ if plane => Kind::Other(Surface::Face),
        _ if screw.z(1.0) > screw.z(0.0) => Kind::Other(Surface::Outside),
        _ => Kind::Other(Surface::Bore),
    }
}

fn asked(amounts: &Amounts, kind: Kind, skin: Skin, screw: &Screw) -> f64 {
    let inside = skin == Skin::Bore;
    let thread = if inside { amounts.internal_thread } else { amounts.external_thread };
    match kind {
        Kind::Root if inside => (thread + amounts.facets).as_mm(),
        Kind::Flank | Kind::Root => thread.as_mm(),
        Kind::Other(surface) => amounts.at(surface, mm(screw.r(0.5) * 2.0)),
    }
}

/// How far points of the nominal faces, moved as asked, lie off the compensated solid's faces of the
/// same name: the worst of each name that is still there.
///
/// Left out are threads with rounded or broken flanks where crest, flank and root are moved
/// unequally: there roundings are made anew between all three, and take from the flank.
fn strays(nominal: &Body, amounts: &Amounts, made: &Body) -> BTreeMap<String, f64> {
    let mut worst = BTreeMap::new();
    let broken: Vec<Item> =
        nominal.threads().iter().filter(|t| t.flank.len() > 1).map(|t| t.item).collect();
    for (face, name) in nominal.faces() {
        let (screw, feature) = (face.surface(), name.feature);
        let anew = broken.contains(&feature.item) && spread(amounts, name.skin) > 0.0;
        let cut = matches!(feature.facet, Facet::FlankFront | Facet::FlankBack | Facet::RunOut);
        let surfaces = made.faces().filter(|(_, other)| other.feature == feature);
        let surfaces: Vec<Screw> = surfaces.map(|(face, _)| face.surface()).collect();
        if surfaces.is_empty() || (anew && cut) {
            continue;
        }
        let amount = asked(amounts, kind(feature, &screw), name.skin, &screw);
        let [low, high] = angles_of(face);
        for share in [0.3, 0.5, 0.7] {
            for v in [0.4, 0.5, 0.6] {
                let u = low + (high - low) * share;
                let [radial, tangential, axial] = screw.normal(u, v);
                let (sin, cos) = libm::sincos(u);
                let normal = Vector3::new(
                    radial * cos - tangential * sin,
                    radial * sin + tangential * cos,
                    axial,
                );
                let there = point(&screw, u, v) - normal.normalize() * amount;
                let off = surfaces.iter().map(|s| distance(s, there)).fold(f64::MAX, f64::min);
                // A rounding is made as an arc, which the offset of one that climbs is not quite.
                let rounding = screw.climb != 0.0 && matches!(screw.meridian, Meridian::Arc { .. });
                let off = if rounding { (off - ROUNDING).max(0.0) } else { off };
                let entry = worst.entry(feature.to_string()).or_insert(0.0_f64);
                *entry = entry.max(off);
            }
        }
    }
    worst
}

/// How much the amounts of a skin's cylinders and of its threads differ.
fn spread(amounts: &Amounts, skin: Skin) -> f64 {
    let (cylinder, thread) = match skin {
        Skin::Bore => (amounts.at(Surface::Bore, mm(8.0)), amounts.internal_thread),
        _ => (amounts.at(Surface::Outside, mm(8.0)), amounts.external_thread),
    };
    (cylinder - thread.as_mm()).abs() + amounts.facets.as_mm()
}

/// Each kind its own, of sizes that printers ask for; of every third part all of a skin the same, so
/// that its rounded corners count too.
fn amounts(dice: &mut Dice) -> Amounts {
    let constant = |value: f64| Compensation { constant: mm(value), share: 0.0 };
    let apart = Amounts {
        hole: constant(dice.within(-0.05, 0.2)),
        boss: constant(dice.within(-0.15, 0.05)),
        internal_thread: mm(dice.within(0.0, 0.05)),
        external_thread: mm(dice.within(0.0, 0.05)),
        face: mm(dice.one_of(&[0.0, 0.0, 0.02, -0.03])),
        facets: mm(dice.one_of(&[0.0, 0.005])),
    };
    if !dice.percent(33) {
        return apart;
    }
    let [inside, outside] = [apart.internal_thread, apart.external_thread];
    let (hole, boss) = (constant(inside.as_mm() * 2.0), constant(outside.as_mm() * -2.0));
    Amounts { hole, boss, facets: mm(0.0), ..apart }
}

/// Whether a tool's end of a thread of this name could not go along: before a wall, or where a crest
/// that is eaten leaves it no cylinder to leave.
fn held_back(part: &Part, moved: &Offset, face: Length, item: Item) -> bool {
    /// Farther than any amount takes the end of a lead.
    const NEAR: f64 = 1.0;
    let Some(new) = moved.part.threads.iter().find(|thread| thread.item == item) else {
        return true;
    };
    let threads = part.threads.iter().filter(|thread| thread.item == item);
    threads.into_iter().any(|thread| {
        let own = part.runs.iter().filter(|run| {
            run.from.diameter == thread.form.crest && run.to.diameter == thread.form.crest
        });
        let ends: Vec<Length> = own.flat_map(|run| [run.from.z, run.to.z]).collect();
        let near = |z: Length| ends.iter().any(|end| (*end - z).abs() < mm(NEAR));
        let edged = new.form.crest_flat() == Length::ZERO;
        let held = |end: usize, old: Length, new: Length, ahead: f64| {
            let wall = thread.run_outs[end] == RunOut::Wall;
            let free = (new - old - face * ahead).abs() < mm(1e-9);
            if wall { !free } else { near(old) || edged }
        };
        held(0, thread.from, new.from, -1.0) || held(1, thread.to, new.to, 1.0)
    })
}

/// Builds both, sees that the new one is sound, and how far its faces stray.
fn tried(part: &Part, amounts: &Amounts) -> Result<(Offset, BTreeMap<String, f64>), String> {
    let nominal = build(part).map_err(|e| format!("nominal: {e}"))?;
    let moved = offset(part, amounts).map_err(|e| format!("offset: {e}"))?;
    let body = build(&moved.part).map_err(|e| format!("built: {e}"))?;
    // Closed, oriented, without a crossing: the audit says so, or refuses.
    let (mesh, found) = tessellate(&body, 0.01).map_err(|e| format!("mesh: {e}"))?;
    let exact = body.measures();
    let off = (found.volume - exact.volume).abs();
    if off > 0.7 * mesh.chord_error * exact.area {
        return Err(format!("the mesh's volume is off by {off}"));
    }
    let by_slices = slices::volume(&moved.part);
    if (by_slices / exact.volume - 1.0).abs() > 1e-4 {
        return Err(format!("volume {} by slices {by_slices}", exact.volume));
    }
    for (old, new) in nominal.threads().iter().filter_map(|t| Some((t, body.thread(t.item)?))) {
        if (old.pitch, old.starts, old.hand) != (new.pitch, new.starts, new.hand) {
            return Err(format!("the {}'s pitch has changed", old.item));
        }
        if (old.ridge_z - new.ridge_z).abs() > 1e-9 {
            return Err(format!("the {}'s ridges have moved", old.item));
        }
    }
    let mut strays = strays(&nominal, amounts, &body);
    // Other faces of that name stand for one that is gone.
    for loss in &moved.losses {
        if let Loss::Surface { feature, .. } = loss {
            strays.remove(&feature.to_string());
        }
    }
    for item in part.threads.iter().map(|thread| thread.item) {
        if held_back(part, &moved, amounts.face, item) {
            strays.remove(&Feature::new(item, Facet::RunOut).to_string());
        }
    }
    Ok((moved, strays))
}

#[test]
fn every_face_of_r1_lies_at_its_distance() {
    let amounts = Amounts {
        hole: Compensation { constant: mm(0.12), share: 0.0 },
        boss: Compensation { constant: mm(-0.08), share: 0.0 },
        internal_thread: mm(0.02),
        external_thread: mm(0.03),
        face: mm(0.01),
        facets: mm(0.005),
    };
    let (moved, strays) = tried(&r1(), &amounts).unwrap();
    assert_eq!(moved.losses, []);
    assert!(strays.len() > 15, "{strays:?}");
    for (name, off) in &strays {
        assert!(*off < MICRON, "{name} is off by {off}");
    }
    // The flank that is made straight is nearly one.
    assert!(strays["unit-thread.flank.front"] < 1e-4, "{strays:?}");
}

/// What an offset did to many parts, and what is wrong with it.
fn held(parts: impl Iterator<Item = (String, Part)>) -> BTreeMap<String, u32> {
    let mut dice = Dice(7);
    let mut counted: BTreeMap<String, u32> = BTreeMap::new();
    let mut wrong = Vec::new();
    for (name, part) in parts {
        if build(&part).is_err() {
            continue;
        }
        let amounts = amounts(&mut dice);
        let outcome = tried(&part, &amounts);
        let (moved, strays) = match outcome {
            Ok(done) => done,
            Err(fault) if fault.starts_with("offset:") => {
                *counted.entry(fault).or_default() += 1;
                continue;
            }
            Err(fault) => {
                wrong.push(format!("{name}: {fault}; {amounts:?}"));
                continue;
            }
        };
        *counted.entry("done".to_owned()).or_default() += 1;
        for loss in &moved.losses {
            let kind = match loss {
                Loss::Surface { .. } => "surface",
                Loss::Crest { .. } => "crest",
                Loss::Root { .. } => "root",
                Loss::Thread { .. } => "thread",
            };
            *counted.entry(format!("lost {kind}")).or_default() += 1;
        }
        for (face, off) in strays.iter().filter(|(_, off)| **off >= MICRON) {
            wrong.push(format!("{name}: {face} is off by {off}; {:?} {amounts:?}", moved.losses));
        }
    }
    assert!(wrong.is_empty(), "{} are wrong:\n{}\n{counted:?}", wrong.len(), wrong.join("\n"));
    counted
}

/// `SECTIONWRIGHT_PARTS` asks for more.
fn count() -> u64 {
    std::env::var("SECTIONWRIGHT_PARTS").ok().and_then(|n| n.parse().ok()).unwrap_or(80)
}

#[test]
fn random_parts() {
    let parts = (0..count()).map(|seed| (format!("seed {seed}"), part(seed).0));
    let counted = held(parts);
    println!("{counted:?}");
    let times = |what: &str| counted.get(what).copied().unwrap_or(0);
    assert!(u64::from(times("done")) * 100 >= count() * 95, "{counted:?}");
    assert!(times("lost crest") > 3 && times("lost surface") > 0, "{counted:?}");
}
