//! The sizes of what is bought and measured: the nib unit, counted from the underside of its
//! collar, and the converter, counted from its mouth.

use super::definition::{Datum, Definition, Dimension, Made, Owner};
use super::{SizeId, words};
use crate::quantity::Length;
use crate::section::{Facet, Feature, Item, Reading, Section};

/// What a size of unit or converter is; none of what is another's.
pub(super) fn define(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Length};
    let (across, along) = ((Across, Datum::None), (Length, Datum::Collar));
    let of = |item: Item| match item {
        Item::UnitBody => "thread".to_owned(),
        other => other.to_string(),
    };
    let (name, words, (dimension, datum), item): (String, String, _, _) = match size {
        SizeId::CollarDiameter => (
            "unit.collar.diameter".into(),
            "diameter of the unit's collar".into(),
            across,
            Item::Collar,
        ),
        SizeId::CollarThickness => (
            "unit.collar.thickness".into(),
            "thickness of the unit's collar".into(),
            along,
            Item::Collar,
        ),
        SizeId::UnitStepDiameter(item) => {
            let what = if item == Item::UnitBody { "major" } else { "diameter" };
            let words = format!("diameter of the {}", words::item(item));
            (format!("unit.{}.{what}", of(item)), words, across, item)
        }
        SizeId::UnitStepEnd(item) => {
            let words = format!("end of the {}", words::item(item));
            (format!("unit.{}.to", of(item)), words, along, item)
        }
        SizeId::OwnThreadStart => (
            "unit.thread.from".into(),
            "beginning of the unit's own thread".into(),
            along,
            Item::UnitBody,
        ),
        SizeId::UnitChamfer => (
            "unit.thread.chamfer".into(),
            "chamfer of the unit's thread".into(),
            (Across, Datum::None),
            Item::UnitBody,
        ),
        SizeId::NibReach => ("unit.nib.reach".into(), "reach of the nib".into(), along, Item::Nib),
        SizeId::NibWidth => ("unit.nib.width".into(), "width of the nib".into(), across, Item::Nib),
        _ => return converter(size),
    };
    Some(bought(name, words, (dimension, datum), item, Owner::Unit))
}

fn converter(size: SizeId) -> Option<Definition> {
    use Dimension::{Across, Length};
    let (across, along) = ((Across, Datum::None), (Length, Datum::ConverterMouth));
    let (name, words, measure, item) = match size {
        SizeId::ConverterDiameter => {
            ("converter.diameter", "diameter of the converter", across, Item::Converter)
        }
        SizeId::ConverterLength => {
            ("converter.length", "length of the converter", along, Item::Converter)
        }
        SizeId::ConverterOntoNipple => (
            "converter.onto_nipple",
            "how far the converter goes onto the nipple",
            along,
            Item::Converter,
        ),
        SizeId::ConverterMouthDiameter => (
            "converter.mouth.diameter",
            "diameter of the converter's mouth",
            across,
            Item::ConverterMouth,
        ),
        SizeId::ConverterMouthLength => (
            "converter.mouth.length",
            "length of the converter's mouth",
            along,
            Item::ConverterMouth,
        ),
        _ => return None,
    };
    Some(bought(name.to_owned(), words.to_owned(), measure, item, Owner::Converter))
}

fn bought(
    name: String,
    words: String,
    (dimension, datum): (Dimension, Datum),
    item: Item,
    owner: Owner,
) -> Definition {
    let shapes = vec![Feature::new(item, Facet::Side)];
    Definition { name, words, dimension, owner, datum, shapes, made: Made::Bought, rank: 9 }
}

/// Every one that a section's unit and converter have.
pub(super) fn of(section: &Section) -> Vec<SizeId> {
    let mut all = vec![SizeId::CollarDiameter, SizeId::CollarThickness];
    for step in &section.unit.steps {
        all.extend([SizeId::UnitStepDiameter(step.item), SizeId::UnitStepEnd(step.item)]);
    }
    all.extend([SizeId::OwnThreadStart, SizeId::UnitChamfer]);
    all.extend([SizeId::NibReach, SizeId::NibWidth]);
    if let Some(converter) = &section.converter {
        all.extend([SizeId::ConverterDiameter, SizeId::ConverterLength]);
        all.push(SizeId::ConverterOntoNipple);
        if converter.mouth.is_some() {
            all.extend([SizeId::ConverterMouthDiameter, SizeId::ConverterMouthLength]);
        }
    }
    all
}

/// Its value, in millimetres; none where the section has no such thing.
pub(super) fn get(size: SizeId, section: &Section) -> Option<f64> {
    let unit = &section.unit;
    let step = |item| unit.steps.iter().find(|step| step.item == item);
    let length = match size {
        SizeId::CollarDiameter => unit.collar.value,
        SizeId::CollarThickness => unit.thickness.value,
        SizeId::UnitStepDiameter(item) => step(item)?.diameter.value,
        SizeId::UnitStepEnd(item) => step(item)?.to.value,
        SizeId::OwnThreadStart => unit.thread.from,
        SizeId::UnitChamfer => unit.chamfer,
        SizeId::NibReach => unit.nib_reach.value,
        SizeId::NibWidth => unit.nib_width.value,
        SizeId::ConverterDiameter => section.converter?.diameter.value,
        SizeId::ConverterLength => section.converter?.length.value,
        SizeId::ConverterOntoNipple => section.converter?.onto_nipple.value,
        SizeId::ConverterMouthDiameter => section.converter?.mouth?.diameter.value,
        SizeId::ConverterMouthLength => section.converter?.mouth?.length.value,
        _ => return None,
    };
    Some(length.as_mm())
}

/// Puts it to another value, whatever goes with it.
pub(super) fn put(size: SizeId, section: &mut Section, value: f64) -> Option<()> {
    let to = Length::mm(value);
    let reading: &mut Reading = match size {
        SizeId::CollarDiameter => &mut section.unit.collar,
        SizeId::CollarThickness => &mut section.unit.thickness,
        SizeId::NibReach => &mut section.unit.nib_reach,
        SizeId::NibWidth => &mut section.unit.nib_width,
        SizeId::ConverterDiameter => &mut section.converter.as_mut()?.diameter,
        SizeId::ConverterLength => &mut section.converter.as_mut()?.length,
        SizeId::ConverterOntoNipple => &mut section.converter.as_mut()?.onto_nipple,
        SizeId::ConverterMouthDiameter => &mut section.converter.as_mut()?.mouth.as_mut()?.diameter,
        SizeId::ConverterMouthLength => &mut section.converter.as_mut()?.mouth.as_mut()?.length,
        SizeId::UnitChamfer => {
            section.unit.chamfer = to;
            return Some(());
        }
        SizeId::OwnThreadStart => {
            section.unit.thread.from = to;
            return Some(());
        }
        SizeId::UnitStepDiameter(item) => {
            let step = section.unit.steps.iter_mut().find(|step| step.item == item)?;
            if item == Item::UnitBody {
                // The whole profile lies where its crest was measured.
                let thread = &mut section.unit.thread;
                let by = to - thread.form.crest;
                super::thread::swell(thread, by)?;
                super::thread::move_rod(thread, by)?;
            }
            &mut step.diameter
        }
        SizeId::UnitStepEnd(item) => {
            let step = section.unit.steps.iter_mut().find(|step| step.item == item)?;
            if item == Item::UnitBody {
                section.unit.thread.to = to;
            }
            &mut step.to
        }
        _ => return None,
    };
    reading.value = to;
    Some(())
}
