//! The converter: closed forms by hand, and what breaks. All numbers are invented.

use sectionwright::check::{Advice, Finding, Verdict};
use sectionwright::scene::{examine, verdicts};
use sectionwright::section::{
    BarrelBore, Converter, ConverterMouth, Item, Section, SectionError, faults,
};
use sectionwright::size::SizeId;

use crate::capped::helped;
use crate::common::mm;
use crate::fixtures::{read, set_diameter, sound, step};

/// The sound section with a nipple, 14 to 19 behind the collar, and a converter on it.
pub fn filled() -> Section {
    let mut section = sound();
    section.unit.steps.push(step(Item::Nipple, read(4.2, 0.02), read(19.0, 0.05)));
    section.barrel.bore = Some(BarrelBore { diameter: mm(8.0), depth: mm(46.0) });
    section.converter = Some(Converter {
        diameter: read(6.5, 0.02),
        length: read(50.0, 0.1),
        onto_nipple: read(4.5, 0.05),
        mouth: Some(ConverterMouth { diameter: read(6.0, 0.02), length: read(8.0, 0.1) }),
    });
    section
}

fn found(section: &Section, code: &str) -> Finding {
    assert_eq!(faults(section), []);
    verdicts(section).unwrap().finding(code).unwrap_or_else(|| panic!("no {code}")).clone()
}

fn near(value: f64, expected: f64) {
    assert!((value - expected).abs() < 1e-9, "{value} {expected}");
}

/// By hand. The collar's underside rests at 1.2, so the nipple ends at 20.2 and the mouth, 4.5 on it,
/// stands at 15.7; the end at 65.7, 44.7 behind the shoulder at 21 and the joint. The through bore is
/// 7.0, the barrel's 8.0; the nipple is 5 long.
#[test]
fn a_converter_in_its_place() {
    let section = filled();
    let side = found(&section, "clear.converter");
    near(side.measured, 0.25);
    near(side.detail("in the section").unwrap(), 0.25);
    near(side.detail("in the barrel").unwrap(), 0.75);
    let end = found(&section, "clear.converter-end");
    near(end.measured, 1.3);
    near(end.detail("the converter's mouth lies at z").unwrap(), 15.7);
    near(found(&section, "clear.converter-mouth").measured, 0.5);
    // Length, place on the nipple and the nipple's end may each be off.
    near(end.judgement.unwrap().uncertainty, 0.1 + 0.05 + 0.05);
    assert_eq!(examine(&section).unwrap().verdict(), Verdict::Holds);
}

/// By hand: only what goes in counts. The body of 6.5 begins 8 behind the mouth, at 15.7 + 8 = 23.7,
/// and is in the through bore of 6.9 up to the back face at 31; 20 behind a longer mouth it begins at
/// 35.7, in the barrel.
#[test]
fn a_mouth_goes_where_the_body_does_not() {
    let section = {
        let mut section = filled();
        set_diameter(&mut section, Item::ThroughBore, 6.9);
        let mouth = section.converter.as_mut().unwrap().mouth.as_mut().unwrap();
        mouth.diameter = read(5.0, 0.02);
        section
    };
    // All along the body, to its front at 23.7.
    near(found(&section, "clear.converter").measured, (6.9 - 6.5) / 2.0);
    let mut long_mouth = section;
    let mouth = long_mouth.converter.as_mut().unwrap().mouth.as_mut().unwrap();
    mouth.length = read(20.0, 0.1);
    // The body begins at 35.7, behind the section's end at 31: only the mouth is in it, and the
    // body in the barrel's 8.0.
    let side = found(&long_mouth, "clear.converter");
    near(side.detail("in the section").unwrap(), (6.9 - 5.0) / 2.0);
    near(side.measured, 0.75);
}

/// By hand: a cartridge without a mouth of its own, in a barrel of which only the thread's hole is
/// known: M10x0.75, D1 = 10 - 10H/8. Nothing is said of a bottom.
#[test]
fn a_barrel_whose_bore_is_not_known() {
    let mut section = filled();
    section.barrel.bore = None;
    section.converter.as_mut().unwrap().mouth = None;
    let minor = 10.0 - 0.75 * 3.0_f64.sqrt() / 2.0 * 10.0 / 8.0;
    let side = found(&section, "clear.converter");
    near(side.detail("in the barrel").unwrap(), (minor - 6.5) / 2.0);
    let examination = verdicts(&section).unwrap();
    assert!(examination.finding("clear.converter-end").is_none());
}

#[test]
fn what_breaks_round_the_converter() {
    let of = |change: &dyn Fn(&mut Section)| {
        let mut section = filled();
        change(&mut section);
        section
    };
    let narrow = of(&|s| {
        s.unit.steps[2].diameter = read(6.3, 0.02);
        set_diameter(s, Item::ThroughBore, 6.6);
    });
    let advised = helped("clear.converter", &filled(), &narrow);
    assert_eq!(advised, SizeId::BoreDiameter(Item::ThroughBore));
    let in_barrel = of(&|s| s.barrel.bore.as_mut().unwrap().diameter = mm(6.6));
    assert_eq!(helped("clear.converter", &filled(), &in_barrel), SizeId::BarrelBoreDiameter);
    let shallow = of(&|s| s.barrel.bore.as_mut().unwrap().depth = mm(44.0));
    helped("clear.converter-end", &filled(), &shallow);
    // What is bought can't be changed, and nothing else helps.
    let too_far = of(&|s| s.converter.as_mut().unwrap().onto_nipple = read(5.3, 0.05));
    let examination = examine(&too_far).unwrap();
    let finding = examination.finding("clear.converter-mouth").unwrap();
    assert_eq!(finding.verdict(), Some(Verdict::Breaks));
    assert_eq!(finding.advice(), Some(Advice::NoSingleChange));
    assert_eq!(finding.note.as_deref(), Some("the nipple is 0.30 mm too short for the mouth"));
}

#[test]
fn a_converter_needs_a_nipple() {
    let mut section = filled();
    section.unit.steps.pop();
    assert_eq!(faults(&section), [SectionError::NoNipple]);
}

/// Nothing comes from the back where nothing goes through.
#[test]
fn a_converter_needs_a_hole_that_goes_through() {
    let mut section = filled();
    section.bores.retain(|bore| bore.item != Item::ThroughBore);
    let blind = faults(&section);
    assert!(blind.iter().any(|f| f.code() == "section.blind-to-converter"), "{blind:?}");
}
