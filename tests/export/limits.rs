//! Which size of a drawing has the limits of which size of the section. The independent route is
//! the value: each drawing measures its part and knows no size of the section.

use std::mem::discriminant;

use sectionwright::design::{Library, load};
use sectionwright::drawing::Measure;
use sectionwright::drawing::part::{Allowed, Contours, Datums, Role, Size, Units, sizes, subject};
use sectionwright::quantity::{Angle, Length};
use sectionwright::scene::{Allotment, allot};
use sectionwright::section::{Facet, Feature, Item, NamedPart, PartKind, Section, faults};
use sectionwright::size::{End, Place, SizeId};

/// What a drawn size and the allotted one may differ by, in millimetres or degrees: the rounding of
/// what is written.
const ROUNDING: f64 = 0.0011;

/// Limits that nothing else has.
const MARK: f64 = 0.0123;

/// A section with its drawing's sizes.
struct Sheet {
    section: Section,
    named: NamedPart,
    sizes: Vec<Size>,
}

impl Sheet {
    fn of(section: Section) -> Self {
        let (name, what) = (NamedPart::SECTION.to_owned(), String::new());
        let named = NamedPart { name, kind: PartKind::Section, what, part: section.part() };
        let datums = Datums { front: 0.0, back: Some(section.grip.length().as_mm()) };
        let sizes = sizes(&named.part, &Contours::of(&named.part), datums);
        Self { section, named, sizes }
    }

    /// The limits of each size, and of chamfers those of the angle.
    fn limits(&self, allotment: &Allotment) -> Vec<(&Size, [Allowed; 2])> {
        let subject = subject(&self.section, &self.named, allotment, Units::Millimetres);
        let limits = |size| {
            let allowed = (subject.allowed)(size);
            (size, [allowed.value, allowed.angle])
        };
        self.sizes.iter().map(limits).collect()
    }

    /// Which of the sizes have the limits of one of the section, and the value of each: the number
    /// on the drawing, and whether its angle is meant.
    fn holders(&self, allotment: &Allotment, one: SizeId) -> Vec<(usize, bool, f64)> {
        let marks = Allowed::Own([MARK; 2]);
        let mut found = Vec::new();
        let marked = marked(allotment, one);
        for (n, (size, [value, angle])) in self.limits(&marked).iter().enumerate() {
            let measured = match size.measure {
                Measure::Length { from, to } if size.role == Role::Length => to.x - from.x,
                measure => measure.value(),
            };
            if *value == marks {
                found.push((n, false, measured));
            }
            if let (Role::Chamfer(degrees), true) = (&size.role, *angle == marks) {
                found.push((n, true, *degrees));
            }
        }
        found
    }

    /// What its sizes say, in order.
    fn kinds(&self) -> Vec<String> {
        let kind = |size: &Size| format!("{:?} {:?}", size.wall, discriminant(&size.role));
        self.sizes.iter().map(kind).collect()
    }
}

/// The same limits, but that one size alone has its own: the mark.
fn marked(allotment: &Allotment, one: SizeId) -> Allotment {
    let mut marked = allotment.clone();
    for size in &mut marked.sizes {
        size.general = size.parameter != one;
        (size.below, size.above) = (Length::mm(MARK), Length::mm(MARK));
    }
    for angle in &mut marked.angles {
        angle.general = angle.parameter != one;
        angle.tolerance = Angle::deg(MARK);
    }
    marked
}

fn every(allotment: &Allotment) -> Vec<(SizeId, f64)> {
    let sizes = allotment.sizes.iter().map(|size| (size.parameter, size.value.as_mm()));
    let angles = allotment.angles.iter().map(|angle| (angle.parameter, angle.value.as_deg()));
    sizes.chain(angles).collect()
}

fn fixtures() -> Vec<Section> {
    let names = ["r1", "capped", "outside", "both-ends", "reliefs", "threads", "blind"];
    let paths = names.iter().map(|name| format!("tests/fixtures/{name}.toml"));
    paths.chain(["demo".to_owned()]).map(|path| of(&path)).collect()
}

fn of(path: &str) -> Section {
    load(&Library::default(), path).unwrap().section
}

/// Both walls of a relief have its one angle; anything else is drawn once.
#[test]
fn each_size_has_its_limits_where_it_is_drawn() {
    let more = of("tests/fixtures/one-wall.toml");
    for section in fixtures().into_iter().chain([more]) {
        let allotment = allot(&section).unwrap();
        let sheet = Sheet::of(section);
        for (one, value) in every(&allotment) {
            let name = format!("{}: {}", sheet.section.name, one.name());
            let found = sheet.holders(&allotment, one);
            let walls = if let SizeId::PointAngle(Item::BoreRelief(_)) = one { 2 } else { 1 };
            assert_eq!(found.len(), walls, "{name} {found:?}");
            for (_, _, measured) in found {
                assert!((measured - value).abs() <= ROUNDING, "{name} {value} {measured}");
            }
        }
    }
}

/// A size that happens to have the value of another one has its own limits still, and so has the
/// other: each pair of diameters, and each pair of lengths.
#[test]
fn equal_values_are_not_one_size() {
    let mut pairs = 0;
    for path in ["demo", "tests/fixtures/outside.toml", "tests/fixtures/reliefs.toml"] {
        let section = of(path);
        let allotment = allot(&section).unwrap();
        let all = every(&allotment);
        let at = |sheet: &Sheet, one: SizeId| -> Vec<(usize, bool)> {
            sheet.holders(&allotment, one).into_iter().map(|(n, angle, _)| (n, angle)).collect()
        };
        let plain = Sheet::of(section.clone());
        let before: Vec<_> = all.iter().map(|(one, _)| at(&plain, *one)).collect();
        for (n, (one, _)) in all.iter().enumerate() {
            for (m, (other, _)) in all.iter().enumerate().skip(n + 1) {
                let alike = one.definition().dimension == other.definition().dimension;
                let to = other.get(&section).filter(|_| alike);
                let Some(made) = to.and_then(|to| one.set(&section, to)) else { continue };
                if !faults(&made).is_empty() {
                    continue;
                }
                let sheet = Sheet::of(made);
                // Where ends that meet make one surface, there is another drawing.
                if sheet.kinds() == plain.kinds() {
                    pairs += 1;
                    let both = format!("{} as {}", one.name(), other.name());
                    assert_eq!(at(&sheet, *one), before[n], "{both}");
                    assert_eq!(at(&sheet, *other), before[m], "{both}");
                }
            }
        }
    }
    assert!(pairs >= 20, "{pairs}");
}

/// The front face has limits of its own at 10.2; a waist that comes to be as wide has not.
#[test]
fn a_waist_as_wide_as_the_front_has_its_own_limits() {
    let demo = of("demo");
    let side = Feature::new(Item::Grip(2), Facet::Side);
    let limits = |width: f64| -> [Allowed; 2] {
        let made = SizeId::GripDiameter(2).set(&demo, width).unwrap();
        assert_eq!(faults(&made), []);
        let allotment = allot(&made).unwrap();
        let sheet = Sheet::of(made);
        let all = sheet.limits(&allotment);
        let at = |feature, end| {
            let here = |(size, _): &&(&Size, [Allowed; 2])| {
                size.role == Role::Diameter && size.places.contains(&Place::at(feature, end))
            };
            all.iter().find(here).map(|(_, allowed)| allowed[0]).unwrap()
        };
        [at(side, End::Back), at(Feature::new(Item::Grip(1), Facet::Side), End::Front)]
    };
    let [waist, front] = limits(10.2);
    assert_ne!(waist, front);
    for width in [10.19, 10.21] {
        assert_eq!(limits(width), [waist, front], "{width}");
    }
}
