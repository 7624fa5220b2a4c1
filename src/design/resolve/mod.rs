//! From files to a section: everything that they leave out is derived, and said.

mod barrel;
mod blank;
mod bores;
mod cap;
mod converter;
pub(super) mod credits;
pub(super) mod criteria;
mod form;
mod grip;
mod maker;
pub(super) mod printer;
mod tenon;
mod thread;
mod tools;
mod unit;
mod unit_thread;
pub(super) mod workshop;

use super::design_file::DesignFile;
use super::maker_file::MakerFile;
use super::material_file::MaterialFile;
use super::pen_name::file_name_fault;
use super::places::Places;
use super::reader::Placed;
use super::resolved::{Derived, Reading};
use super::thread_file::FormFile;
use super::unit_file::UnitFile;
use super::value::{Distance, Measured};
use crate::diagnostic::{Diagnostic, Severity};
use crate::quantity::Length;
use crate::section::{Allowance, Blank, Limit, Section, faults};

/// What is collected while a section is made.
#[derive(Default)]
pub(super) struct Making {
    pub(super) places: Places,
    pub(super) derived: Vec<Derived>,
    pub(super) readings: Vec<Reading>,
    pub(super) log: Vec<Diagnostic>,
}

impl Making {
    /// Remembers that a value was made, and from what.
    fn derive(&mut self, key: &str, value: &impl ToString, from: impl Into<String>) {
        let (key, value) = (key.to_owned(), value.to_string());
        self.derived.push(Derived { key, value, from: from.into() });
    }

    /// Takes a reading, and remembers how it was made.
    fn read(&mut self, key: &str, measured: &Placed<Measured>) -> crate::section::Reading {
        let Measured { value, uncertainty, how } = measured.value.clone();
        let how = how.unwrap_or_else(|| "not said".to_owned());
        self.readings.push(Reading { key: key.to_owned(), value, uncertainty, how });
        crate::section::Reading { value, uncertainty }
    }

    /// A length as written, or what is usual for the maker.
    fn or_usual(
        &mut self,
        written: Option<&Placed<Distance>>,
        key: &str,
        usual: &Limit<Length>,
    ) -> Length {
        written.map_or_else(
            || {
                self.derive(key, &usual.value, usual.source.clone());
                usual.value
            },
            |written| written.value.0,
        )
    }

    fn failed(&self) -> bool {
        self.log.iter().any(|diagnostic| diagnostic.severity == Severity::Error)
    }
}

/// The section that the files describe; none where something is wrong, which is noted.
pub(super) fn resolve(
    design: &DesignFile,
    written: &criteria::Origins,
    unit_file: &UnitFile,
    material: &MaterialFile,
    maker: &MakerFile,
    making: &mut Making,
) -> Option<Section> {
    let mut criteria = criteria::resolve(material, written);
    let tap_lead = criteria.tap_lead.value;
    let unit = unit::resolve(unit_file, making);
    let grip = grip::resolve(&design.grip, making);
    let tenon = tenon::resolve(&design.tenon, grip.length(), making);
    let stack = unit
        .as_ref()
        .and_then(|unit| bores::resolve(&design.bores, unit_file, unit, tap_lead, making));
    let length = grip.length() + design.tenon.length.value.0;
    let tools = tools::resolve(&design.bores.tools, length, making);
    let barrel = barrel::resolve(&design.barrel, &design.tenon, grip.back(), tap_lead, making);
    let cap = design.cap.as_ref().map(|file| cap::resolve(file, &grip, making));
    let converter = design.converter.as_ref().map(|file| converter::resolve(file, making));
    let shop = &design.shop;
    let maker = maker::resolve(maker);
    if design.maker.is_none() {
        making.derive("maker", &maker.name, "the usual one");
    }
    criteria.offsets.holding =
        making.or_usual(shop.holding.as_ref(), "offsets.holding", &maker.holding);
    criteria.offsets.long_hole =
        making.or_usual(shop.long_hole.as_ref(), "offsets.long_hole", &maker.long_hole);
    let allowance = Allowance {
        facing: shop.facing.as_ref().map_or(Length::ZERO, |facing| facing.value.0),
        sanding: shop.sanding.as_ref().map_or(Length::ZERO, |sanding| sanding.value.0),
    };
    let (mut bores, unit_thread) = stack?;
    let (tapped, spring_back) = (&design.bores.thread, criteria.spring_back.value);
    let unit_thread = unit_thread::tapped(unit_thread, tapped, spring_back, making)?;
    bores.extend(tools);
    let (tenon, mut barrel) = (tenon?, barrel?);
    // Measured diameters are the tenon's own; a flank that is another one the barrel must have too.
    let another_flank = design.tenon.cut.form.as_ref().is_some_and(FormFile::is_another_flank);
    if another_flank && design.barrel.thread.is_none() && design.barrel.cut.form.is_none() {
        barrel.thread = form::mating(barrel.thread, &tenon.thread.form)?;
    }
    let mut section = Section {
        name: design.name.value.clone(),
        grip,
        tenon,
        bores,
        unit_thread,
        unit: unit?,
        barrel,
        cap: match cap {
            Some(cap) => Some(cap?),
            None => None,
        },
        converter,
        material: material.name.value.clone(),
        blank: Blank { diameter: Length::ZERO, length: Length::ZERO },
        allowance,
        criteria,
        maker,
    };
    let made_from = (design.grip.length.at(), design.grip.front.at());
    section.blank = blank::resolve(&design.blank, &section, made_from, making);
    if let Some(fault) = file_name_fault(&section.name) {
        let message = format!("a pen can't be called {:?}: {fault}", section.name);
        let fault = Diagnostic::error("value.name", message).at(design.name.at());
        making.log.push(fault.hint("a name such as \"Pen 7\""));
    }
    let faults = faults(&section);
    let places = &making.places;
    let found: Vec<_> = faults.iter().map(|fault| places.diagnostic(fault)).collect();
    making.log.extend(found);
    (!making.failed()).then_some(section)
}
