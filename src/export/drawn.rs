//! A drawing of a part, and its files.

use super::kind::{Kind, Kinds};
use super::{ExportError, File, dxf, pdf, svg};
use crate::drawing::Sheet;
use crate::section::NamedPart;

/// A drawing with the name of its files.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The part's name.
    pub part: String,
    /// The drawing.
    pub sheet: Sheet,
}

/// The endings of a drawing's files, and the kind of each.
pub(super) const ENDINGS: [(&str, Kind); 3] =
    [("dxf", Kind::Dxf), ("svg", Kind::Svg), ("pdf", Kind::Pdf)];

/// The sheet to order a tap by: a drawing, and no part.
pub const TAP_ORDER: &str = "tap-order";

/// The names of a part's drawings, in those of their formats that are asked for.
pub(super) fn names(part: &str, kinds: &Kinds) -> Vec<String> {
    let asked = ENDINGS.iter().filter(|(_, kind)| kinds.has(*kind) || kinds.has(Kind::Drawing));
    asked.map(|(ending, _)| format!("{}.{ending}", stem(part))).collect()
}

fn stem(part: &str) -> String {
    match part {
        NamedPart::SECTION => "drawing".to_owned(),
        TAP_ORDER => TAP_ORDER.to_owned(),
        other => format!("{other}-drawing"),
    }
}

impl Drawn {
    /// Its files, in those formats that are asked for.
    ///
    /// # Errors
    /// [`ExportError`] where a format can't be written.
    pub(super) fn files(&self, kinds: &Kinds) -> Result<Vec<File>, ExportError> {
        let bytes = |name: &str| match name.rsplit('.').next() {
            Some("dxf") => dxf::write(&self.sheet.drawing),
            Some("svg") => Ok(svg::write(&self.sheet).into_bytes()),
            _ => pdf::write(&self.sheet),
        };
        names(&self.part, kinds)
            .into_iter()
            .map(|name| bytes(&name).map(|bytes| File::new(name, bytes)))
            .collect()
    }
}
