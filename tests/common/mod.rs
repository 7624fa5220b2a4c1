//! Parts made by hand, without the design file: an independent way to the same solid.

#![allow(dead_code, reason = "each test crate uses some of these")]

pub mod random;
pub mod section;
pub mod slices;

use parry3d_f64::math::Vector;
use sectionwright::mesh::Mesh;
use sectionwright::quantity::{Length, Limits};
use sectionwright::section::{
    Facet, Feature, Flank, Item, Limit, Maker, Part, Run, RunOut, Shape, Side, Skin, Station,
    Thread, ThreadForm, ThreadLimits,
};
use sectionwright::standard::designation::ThreadDesignation;
use sectionwright::standard::{iso68, iso724};

pub fn mm(v: f64) -> Length {
    Length::mm(v)
}

/// What the shipped maker can hold: common practice, no source.
pub fn maker() -> Maker {
    fn limit<T>(value: T) -> Limit<T> {
        Limit { value, source: "common practice".to_owned() }
    }
    Maker {
        name: "bench".to_owned(),
        turned: limit(mm(0.03)),
        faced: limit(mm(0.05)),
        bored: limit(mm(0.03)),
        drilled: limit(Limits::new(mm(0.05), mm(0.15)).unwrap()),
        depth: limit(mm(0.10)),
        mark: limit(mm(0.30)),
        holding: limit(mm(0.05)),
        long_hole: limit(mm(0.10)),
    }
}

/// A thread of the basic profile of ISO 68-1, as large as its designation says.
pub fn basic_thread(item: Item, side: Side, designation: &str, from: f64, to: f64) -> Thread {
    let designation: ThreadDesignation = designation.parse().unwrap();
    let (d, p) = (designation.diameter(), designation.pitch());
    let sizes = iso724::basic_sizes(d, p);
    let (major, minor, pitch_diameter) = (d, sizes.minor, sizes.pitch);
    let (crest, root) = if side == Side::External { (major, minor) } else { (minor, major) };
    let form = ThreadForm {
        pitch: p,
        starts: designation.starts(),
        hand: designation.hand(),
        half_angle: iso68::HALF_ANGLE,
        crest,
        pitch_diameter,
        root,
        flank: Flank::Straight,
        crest_radius: mm(0.0),
        root_radius: mm(0.0),
    };
    let exactly = |v: Length| Limits::new(v, v).unwrap();
    let limits = ThreadLimits {
        major: exactly(major),
        pitch: exactly(pitch_diameter),
        minor: exactly(minor),
    };
    let (from, to, phase, run_outs) = (mm(from), mm(to), mm(0.0), [RunOut::Wall; 2]);
    Thread { item, side, designation, form, from, to, phase, run_outs, limits }
}

/// A chain of runs through corners (diameter, z), the first `outside` of them on the outside, one
/// end face, then the bore, and an end face back to the start.
pub fn chain(outside: &[(f64, f64)], bore: &[(f64, f64)]) -> Vec<Run> {
    let station = |(d, z): (f64, f64)| Station::new(mm(d), mm(z));
    let corners: Vec<Station> = outside.iter().chain(bore).map(|c| station(*c)).collect();
    let count = corners.len();
    (0..count)
        .map(|n| {
            let (skin, item) = if n + 1 < outside.len() {
                (Skin::Outside, Item::Grip(n as u8 + 1))
            } else if n + 1 == outside.len() {
                (Skin::End, Item::BackFace)
            } else if n + 1 < count {
                (Skin::Bore, Item::ThroughBore)
            } else {
                (Skin::End, Item::FrontFace)
            };
            Run {
                feature: Feature::new(item, Facet::Side),
                skin,
                from: corners[n],
                to: corners[(n + 1) % count],
                shape: Shape::Straight,
            }
        })
        .collect()
}

/// R1, the reference part: invented numbers; its exact measures come from an independent
/// boundary-representation kernel and closed forms.
pub fn r1() -> Part {
    r1_with(0.5, 8.3)
}

/// R1 with another lead chamfer, and another clearance bore.
pub fn r1_with(chamfer: f64, clearance: f64) -> Part {
    let tenon = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 21.0, 32.0);
    let unit = basic_thread(Item::UnitThread, Side::Internal, "M8.05x0.55", 4.6, 11.75);
    let minor = unit.form.crest.as_mm();
    let runs = chain(
        &[
            (9.7, 0.0),
            (11.4, 21.0),
            (10.0, 21.0),
            (10.0, 32.0 - chamfer),
            (10.0 - 2.0 * chamfer, 32.0),
        ],
        &[
            (6.9, 32.0),
            (6.9, 13.5),
            (minor, 13.5),
            (minor, 4.6),
            (clearance, 4.6),
            (clearance, 1.2),
            (8.9, 1.2),
            (8.9, 0.0),
        ],
    );
    Part { runs, threads: vec![tenon, unit] }.snapped()
}

/// A mesh's points, for a library that measures distances.
pub fn points_of(mesh: &Mesh) -> Vec<Vector> {
    let point = |p: &[f32; 3]| {
        let [x, y, z] = p.map(f64::from);
        Vector::new(x, y, z)
    };
    mesh.points.iter().map(point).collect()
}
