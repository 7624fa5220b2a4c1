//! A sheet as PDF 1.7 that stands alone: lines stay lines, words are text in a font that the file
//! carries, so that they are found and copied.

mod arc;
mod paper;
mod picture;

use krilla::SerializeSettings;
use krilla::document::Document;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;

use super::ExportError;
use crate::drawing::Sheet;
use crate::drawing::font::printable;
use paper::Paper;
use picture::{Picture, font};

/// The bytes of a file with one page: the sheet at its scale.
///
/// # Errors
/// As [`write_pages`].
pub fn write(sheet: &Sheet) -> Result<Vec<u8>, ExportError> {
    write_pages(std::slice::from_ref(sheet))
}

/// The bytes of a file with a page for each sheet, at its scale; title and description are those of
/// the first.
///
/// No clock and no chance goes into it: there is no date, and its identifiers follow from what is
/// in it.
///
/// # Errors
/// [`ExportError::PdfPage`] where a sheet has no area or is larger than pages may be,
/// [`ExportError::Pdf`] where the library refuses it.
pub fn write_pages(sheets: &[Sheet]) -> Result<Vec<u8>, ExportError> {
    // One picture has no structure to tell of: no headings, no order of reading.
    let settings = SerializeSettings { enable_tagging: false, ..SerializeSettings::default() };
    let mut document = Document::new_with(settings);
    if let Some(first) = sheets.first() {
        document.set_metadata(
            Metadata::new()
                .title(printable(&first.title))
                .description(printable(&first.description))
                .creator(format!("{} {}", env!("CARGO_PKG_NAME"), env!("CARGO_PKG_VERSION")))
                .language("en".to_owned()),
        );
    }
    let font = font();
    for sheet in sheets {
        let paper = Paper::of(sheet)?;
        let mut page = document.start_page_with(PageSettings::new(paper.size()));
        let mut picture = Picture::on(page.surface(), paper, font.clone());
        for layer in sheet.drawing.layers() {
            for entity in sheet.drawing.entities.iter().filter(|e| e.layer == layer) {
                picture.shape(layer, &entity.shape);
            }
        }
        picture.finish();
        page.finish();
    }
    document.finish().map_err(ExportError::Pdf)
}
