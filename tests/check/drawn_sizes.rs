//! Each size that limits are allotted to, moved alone: the drawing then shows that size changed by
//! as much, and no other. The independent route is the drawing's own scheme, which measures the
//! part and knows no parameter.

use sectionwright::design::{Library, load};
use sectionwright::drawing::part::{Contours, Datums, Role, Size, sizes};
use sectionwright::scene::{Allotment, allot, corner};
use sectionwright::section::Section;

/// What two measures of one size may differ by, in millimetres or degrees: Newton's last step.
const SAME: f64 = 1e-6;

/// How far a size is moved, as a share of what it may be over: no round number, so that it does not
/// come to be one with another size.
const SHARE: f64 = 0.937;

/// The sizes of a section's drawing, with a chamfer's angle as one more.
fn drawn(section: &Section) -> Vec<(String, f64)> {
    let part = section.part();
    let datums = Datums { front: 0.0, back: Some(section.grip.length().as_mm()) };
    let found = sizes(&part, &Contours::of(&part), datums);
    let numbers = |size: &Size| {
        let name = format!("{:?} {:?}", size.wall, size.places);
        let value = (format!("{name} {:?}", kind(&size.role)), size.measure.value());
        match size.role {
            Role::Chamfer(angle) => vec![value, (format!("{name} angle"), angle)],
            _ => vec![value],
        }
    };
    found.iter().flat_map(numbers).collect()
}

fn kind(role: &Role) -> &'static str {
    match role {
        Role::Length => "length",
        Role::Diameter => "diameter",
        Role::Thread(_) => "thread",
        Role::Chamfer(_) => "chamfer",
        Role::Radius => "radius",
        Role::Cone => "cone",
    }
}

/// Name, value and moved value of everything that has limits, in the order of `corner`.
fn allotted(allotment: &Allotment) -> Vec<(String, f64, f64)> {
    let sizes = allotment.sizes.iter().map(|size| {
        let (value, above) = (size.value.as_mm(), size.above.as_mm());
        (format!("{:?}", size.parameter), value, value + above * SHARE)
    });
    let angles = allotment.angles.iter().map(|angle| {
        let (value, off) = (angle.value.as_deg(), angle.tolerance.as_deg());
        (format!("{:?}", angle.parameter), value, value + off * SHARE)
    });
    sizes.chain(angles).collect()
}

fn moves_alone(section: &Section) {
    let allotment = allot(section).unwrap();
    let nominal = drawn(&corner(section, &allotment, |_| 0.0).unwrap());
    for (n, (name, value, moved_to)) in allotted(&allotment).into_iter().enumerate() {
        if value == moved_to {
            continue;
        }
        let of = format!("{}: {name} from {value} to {moved_to}", section.name);
        let made = corner(section, &allotment, |other| if other == n { SHARE } else { 0.0 });
        let changed = drawn(&made.unwrap_or_else(|| panic!("{of} can't be made")));
        assert_eq!(nominal.len(), changed.len(), "{of}");
        let pairs = nominal.iter().zip(&changed).filter(|(a, b)| (a.1 - b.1).abs() > SAME);
        let moved: Vec<_> = pairs.collect();
        assert!(!moved.is_empty(), "{of}: nothing moves");
        // The bottom of a vee lies midway between its ends; the section knows no other vee.
        let of_vee = |what: &str| what.contains("FlankBack") && what.contains("FlankFront");
        let ends = name.starts_with("RingStart") || name.starts_with("RingEnd");
        for ((what, before), (_, after)) in
            moved.into_iter().filter(|(a, _)| !ends || !of_vee(&a.0))
        {
            let right =
                (before - value.abs()).abs() < SAME && (after - moved_to.abs()).abs() < SAME;
            assert!(right, "{of}: {what} {before} {after}");
        }
    }
}

#[test]
fn each_size_moves_alone() {
    for design in
        ["r1", "capped", "outside", "both-ends", "reliefs", "threads", "blind", "one-wall"]
    {
        let path = format!("tests/fixtures/{design}.toml");
        moves_alone(&load(&Library::default(), &path).unwrap().section);
    }
    moves_alone(&load(&Library::default(), "demo").unwrap().section);
}
