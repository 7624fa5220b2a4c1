//! What is asked for: which parts, and which kinds of files of them.

use super::drawn::{self, TAP_ORDER};
use super::file::{REPORT, SECTION_FILES};
use super::kind::{Kind, Kinds};
use super::part::{step_name, stl_name};
use crate::section::NamedPart;

/// Some parts and the kinds of their files.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    /// The kinds.
    pub kinds: Kinds,
    /// The parts' names ([`NamedPart::name`]), the section's among them if it is asked for.
    pub parts: Vec<String>,
}

impl Order {
    /// Whether the section is asked for in files of a kind.
    pub fn section_as(&self, kind: Kind) -> bool {
        self.kinds.has(kind) && self.parts.iter().any(|part| part == NamedPart::SECTION)
    }

    /// The names of the files that are asked for; the report is always among them.
    pub fn names(&self) -> Vec<String> {
        let of_section = SECTION_FILES.iter().filter(|(_, kind)| self.section_as(*kind));
        let mut names: Vec<String> = of_section.map(|(name, _)| (*name).to_owned()).collect();
        let no_solid = [NamedPart::SECTION, TAP_ORDER];
        for part in self.parts.iter().filter(|part| !no_solid.contains(&part.as_str())) {
            names.extend(self.kinds.has(Kind::Stl).then(|| stl_name(part)));
            names.extend(self.kinds.has(Kind::Step).then(|| step_name(part)));
        }
        names.extend(self.parts.iter().flat_map(|part| drawn::names(part, &self.kinds)));
        names.push(REPORT.to_owned());
        names
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(kinds: &str, parts: &[&str]) -> Vec<String> {
        let parts = parts.iter().map(|part| (*part).to_owned()).collect();
        Order { kinds: Kinds::read(kinds).unwrap(), parts }.names()
    }

    #[test]
    fn names_are_those_of_the_parts_and_kinds_and_the_report() {
        assert_eq!(names("report", &["section"]), ["report.json"]);
        assert_eq!(
            names("step,svg", &["section", "unit"]),
            [
                "section.step",
                "section-plain.step",
                "half-section.svg",
                "walls.svg",
                "unit.step",
                "drawing.svg",
                "unit-drawing.svg",
                "report.json"
            ]
        );
        assert_eq!(
            names("dxf", &["section", "unit"]),
            ["half-section.dxf", "profile.dxf", "drawing.dxf", "unit-drawing.dxf", "report.json"]
        );
        assert_eq!(names("stl", &["blank-2"]), ["blank-2.stl", "report.json"]);
        assert_eq!(
            names("drawing", &["section", "tap-order"])[..],
            [
                "drawing.dxf",
                "drawing.svg",
                "drawing.pdf",
                "tap-order.dxf",
                "tap-order.svg",
                "tap-order.pdf",
                "report.json"
            ]
        );
    }
}
