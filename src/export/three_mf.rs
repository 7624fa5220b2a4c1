//! 3MF: many parts on a printer's plate in one file, each with its name, in millimetres.
//!
//! Source: 3MF Core Specification 1.3 (3MF Consortium; ISO/IEC 25422), from memory; the judges read
//! every file with the Consortium's own library, strictly. A package by the Open Packaging
//! Conventions (ISO/IEC 29500-2) of three parts: what is in it, where it begins, and the model.
//!
//! ```text
//!   <model unit="millimeter">
//!     <metadata name="Title">
//!     <resources>  <object id name> <mesh> vertices, triangles         one for each part
//!     <build>      <item objectid transform>  x and y of its axis, standing on z = 0
//! ```

use std::io::{self, Cursor, Write};

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, System, ZipWriter};

use super::ExportError;
use crate::mesh::Mesh;

/// Of the core specification.
const CORE: &str = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";

/// The relationship from the package to its model.
const TO_MODEL: &str = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel";

/// Of a model's file.
const MODEL_TYPE: &str = "application/vnd.ms-package.3dmanufacturing-3dmodel+xml";

/// Where the model lies in the package.
const MODEL: &str = "3D/3dmodel.model";

/// How hard deflate works: the usual 6. Less, and a plate of threads takes half as much again; more
/// takes much longer for a hundredth.
const LEVEL: i64 = 6;

/// A part on a printer's plate.
#[derive(Clone, Copy, Debug)]
pub struct PlatePart<'a> {
    /// What the printer's program calls it.
    pub name: &'a str,
    /// Its triangles, in mm, its axis along z.
    pub mesh: &'a Mesh,
    /// x and y of its axis on the plate, in mm, from the plate's left front corner.
    pub at: [f64; 2],
}

impl PlatePart<'_> {
    /// What is added to its coordinates: its axis goes where it is wanted, its lowest point on the
    /// plate.
    fn shift(&self) -> [f64; 3] {
        let lowest = self.mesh.points.iter().map(|point| point[2]).fold(f32::INFINITY, f32::min);
        // No -0.
        [self.at[0], self.at[1], 0.0 - f64::from(lowest)]
    }

    /// Its least x and y on the plate.
    fn least(&self) -> [f64; 2] {
        [0, 1].map(|axis| {
            let reach = self.mesh.points.iter().map(|point| f64::from(point[axis]));
            reach.fold(f64::INFINITY, f64::min) + self.at[axis]
        })
    }
}

/// The bytes of a 3MF of these parts, in their order, each an object and an item of its own.
///
/// Coordinates are the mesh's own single-precision points, in as many digits as it takes to read
/// the same bits. Bytes are the same for the same parts: files stand in a fixed order and have the
/// first date that a zip knows.
///
/// # Errors
/// [`ExportError`] where there is no part, where one reaches beyond the plate's left or front edge,
/// or where the title or a name has a character that XML does not take.
pub fn three_mf(title: &str, parts: &[PlatePart<'_>]) -> Result<Vec<u8>, ExportError> {
    if parts.is_empty() {
        return Err(ExportError::EmptyPlate);
    }
    let texts = parts.iter().map(|part| part.name);
    if let Some(text) = [title].into_iter().chain(texts).find(|text| !is_xml(text)) {
        return Err(ExportError::NoXml { text: text.to_owned() });
    }
    // Not on it either where a place is no number.
    let on = |part: &&PlatePart<'_>| part.least().iter().all(|least| *least >= 0.0);
    if let Some(part) = parts.iter().find(|part| !on(part)) {
        return Err(ExportError::OffPlate { part: part.name.to_owned(), least: part.least() });
    }
    let files = [
        ("[Content_Types].xml", xml(content_types)),
        ("_rels/.rels", xml(relationships)),
        (MODEL, xml(|writer| model(writer, title, parts))),
    ];
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(LEVEL))
        .last_modified_time(DateTime::DEFAULT)
        .system(System::Unix)
        .unix_permissions(0o644);
    let mut package = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in files {
        package.start_file(name, options)?;
        let text = text.map_err(zip::result::ZipError::from)?;
        package.write_all(&text).map_err(zip::result::ZipError::from)?;
    }
    Ok(package.finish()?.into_inner())
}

/// Whether a text has no character but those that XML 1.0 (clause 2.2) takes, and none that a reader
/// turns into a blank.
fn is_xml(text: &str) -> bool {
    text.chars().all(|c| !c.is_control() && !matches!(c, '\u{FFFE}' | '\u{FFFF}'))
}

/// An XML file in memory.
type Xml = Writer<Vec<u8>>;

fn xml(content: impl FnOnce(&mut Xml) -> io::Result<()>) -> io::Result<Vec<u8>> {
    let mut writer = Writer::new(Vec::new());
    writer.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    content(&mut writer)?;
    Ok(writer.into_inner())
}

fn content_types(writer: &mut Xml) -> io::Result<()> {
    let kinds = [
        ("rels", "application/vnd.openxmlformats-package.relationships+xml"),
        ("model", MODEL_TYPE),
    ];
    let of = "http://schemas.openxmlformats.org/package/2006/content-types";
    let types = writer.create_element("Types").with_attribute(("xmlns", of));
    types.write_inner_content(|inside| {
        for (ending, kind) in kinds {
            let default = inside.create_element("Default");
            default
                .with_attributes([("Extension", ending), ("ContentType", kind)])
                .write_empty()?;
        }
        Ok(())
    })?;
    Ok(())
}

fn relationships(writer: &mut Xml) -> io::Result<()> {
    let of = "http://schemas.openxmlformats.org/package/2006/relationships";
    let target = format!("/{MODEL}");
    let all = writer.create_element("Relationships").with_attribute(("xmlns", of));
    all.write_inner_content(|inside| {
        let one = inside.create_element("Relationship");
        let attributes = [("Target", target.as_str()), ("Id", "model"), ("Type", TO_MODEL)];
        one.with_attributes(attributes).write_empty()?;
        Ok(())
    })?;
    Ok(())
}

fn model(writer: &mut Xml, title: &str, parts: &[PlatePart<'_>]) -> io::Result<()> {
    let attributes = [("unit", "millimeter"), ("xml:lang", "en"), ("xmlns", CORE)];
    writer.create_element("model").with_attributes(attributes).write_inner_content(|inside| {
        let metadata = inside.create_element("metadata").with_attribute(("name", "Title"));
        metadata.write_text_content(BytesText::new(title))?;
        inside.create_element("resources").write_inner_content(|resources| {
            (1..).zip(parts).try_for_each(|(id, part)| object(resources, id, part))
        })?;
        inside.create_element("build").write_inner_content(|build| {
            (1..).zip(parts).try_for_each(|(id, part)| item(build, id, part))
        })?;
        Ok(())
    })?;
    Ok(())
}

/// A part's triangles; `id` counts the parts from 1.
fn object(resources: &mut Xml, id: u32, part: &PlatePart<'_>) -> io::Result<()> {
    let (id, mesh) = (id.to_string(), part.mesh);
    let attributes = [("id", id.as_str()), ("type", "model"), ("name", part.name)];
    resources.create_element("object").with_attributes(attributes).write_inner_content(
        |object| {
            object.create_element("mesh").write_inner_content(|inside| {
                inside.create_element("vertices").write_inner_content(|vertices| {
                    mesh.points.iter().try_for_each(|point| row(vertices, "vertex", XYZ, *point))
                })?;
                inside.create_element("triangles").write_inner_content(|triangles| {
                    mesh.triangles
                        .iter()
                        .try_for_each(|of| row(triangles, "triangle", CORNERS, *of))
                })?;
                Ok(())
            })?;
            Ok(())
        },
    )?;
    Ok(())
}

const XYZ: [&str; 3] = ["x", "y", "z"];
const CORNERS: [&str; 3] = ["v1", "v2", "v3"];

/// An empty element of three numbers. Rust shows a number in the fewest digits that read back to it,
/// without an exponent.
fn row<N: ToString>(
    writer: &mut Xml,
    element: &str,
    names: [&str; 3],
    numbers: [N; 3],
) -> io::Result<()> {
    let texts = numbers.map(|number| number.to_string());
    let attributes = names.into_iter().zip(texts.iter().map(String::as_str));
    writer.create_element(element).with_attributes(attributes).write_empty()?;
    Ok(())
}

/// Where a part stands: the rows of a matrix, the last of them the shift.
fn item(build: &mut Xml, id: u32, part: &PlatePart<'_>) -> io::Result<()> {
    let ([x, y, z], id) = (part.shift(), id.to_string());
    let transform = format!("1 0 0 0 1 0 0 0 1 {x} {y} {z}");
    let item = build.create_element("item");
    item.with_attributes([("objectid", id.as_str()), ("transform", transform.as_str())])
        .write_empty()?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    fn tetrahedron() -> Mesh {
        Mesh {
            points: vec![[0.0, 0.0, -1.0], [0.1, 0.0, -1.0], [0.0, 1e-9, -1.0], [0.0, 0.0, 2.0]],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            faces: vec![0; 4],
            columns: vec![0; 4],
            angles: Vec::new(),
            chord_error: 0.0,
            sides: 0,
        }
    }

    /// The file of this name in a package.
    fn text(package: &[u8], name: &str) -> String {
        let mut archive = zip::ZipArchive::new(Cursor::new(package)).unwrap();
        let mut text = String::new();
        archive.by_name(name).unwrap().read_to_string(&mut text).unwrap();
        text
    }

    #[test]
    fn a_part_stands_on_the_plate_where_it_was_put() {
        let mesh = tetrahedron();
        let part = PlatePart { name: "a <b> & \"c\"", mesh: &mesh, at: [12.5, 7.0] };
        let package = three_mf("A & B", &[part, part]).unwrap();
        assert_eq!(package, three_mf("A & B", &[part, part]).unwrap(), "the same bytes");
        let model = text(&package, MODEL);
        for words in [
            "<model unit=\"millimeter\" ",
            "<metadata name=\"Title\">A &amp; B</metadata>",
            "<object id=\"1\" type=\"model\" name=\"a &lt;b&gt; &amp; &quot;c&quot;\">",
            "<vertex x=\"0\" y=\"0.000000001\" z=\"-1\"/>",
            "<triangle v1=\"0\" v2=\"2\" v3=\"1\"/>",
            "<item objectid=\"2\" transform=\"1 0 0 0 1 0 0 0 1 12.5 7 1\"/>",
        ] {
            assert!(model.contains(words), "{words}\n{model}");
        }
        assert_eq!(model.matches("<object ").count(), 2);
        assert!(text(&package, "_rels/.rels").contains("Target=\"/3D/3dmodel.model\""));
    }

    #[test]
    fn what_no_reader_takes_is_refused() {
        let mesh = tetrahedron();
        let part = |name, at| PlatePart { name, mesh: &mesh, at };
        let code = |title, parts: &[PlatePart]| three_mf(title, parts).unwrap_err().code();
        assert_eq!(code("t", &[]), "export.3mf-empty");
        assert_eq!(code("t", &[part("a\u{1}", [1.0, 1.0])]), "export.3mf-text");
        assert_eq!(code("a\nb", &[part("a", [1.0, 1.0])]), "export.3mf-text");
        for at in [[-0.1, 1.0], [1.0, -0.1], [f64::NAN, 1.0]] {
            assert_eq!(code("t", &[part("a", at)]), "export.3mf-off-plate");
        }
    }
}
