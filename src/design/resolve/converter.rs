//! The converter from the design.

use super::Making;
use crate::design::cap_file::ConverterFile;
use crate::section::{Converter, ConverterMouth, Subject};

/// The converter, as it was measured.
pub(super) fn resolve(file: &ConverterFile, making: &mut Making) -> Converter {
    making.places.set(Subject::Converter, file.at);
    let mouth = file.mouth.as_ref().map(|mouth| {
        making.places.set(Subject::ConverterMouth, mouth.at);
        ConverterMouth {
            diameter: making.read("converter.mouth.diameter", &mouth.diameter),
            length: making.read("converter.mouth.length", &mouth.length),
        }
    });
    Converter {
        diameter: making.read("converter.diameter", &file.diameter),
        length: making.read("converter.length", &file.length),
        onto_nipple: making.read("converter.onto_nipple", &file.onto_nipple),
        mouth,
    }
}
