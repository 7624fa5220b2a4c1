//! STEP: the exact solid for other CAD and CAM programs.
//!
//! ISO 10303-21 (encoding), ISO 10303-214 (schema `AUTOMOTIVE_DESIGN`), ISO 10303-42 (geometry):
//! one `MANIFOLD_SOLID_BREP` in millimetres. Planes, cylinders, cones, spheres, tori, circles and
//! lines are written as such; B-splines only for helices, spirals and thread flanks, within 1e-6
//! mm. Crest and root bands of a thread lie on true cylinders. Faces carry their features' names.
//!
//! The solid is written as [`Pieces`] has it: no face goes round the axis, so there are no seams for
//! readers to disagree about, and no curve lies on a surface other than in space (parameter
//! curves are not written: readers make them by projection, and agree to 1e-7 mm).

mod exchange;
mod geometry;
mod product;
mod real;
mod surface;

use exchange::{Exchange, Id, list};
use product::{Product, header, shell_to_product};
use surface::Surfaces;

use super::ExportError;
use crate::section::Section;
use crate::solid::{Body, Elementary, Fit, Piece, PieceCurve, Pieces};

/// Control points of all splines of a file at most: about 30 MB of text, and half a second. A
/// section with both its threads has a thirtieth of it; more, and a slip of the pen writes gigabytes.
pub const MOST_POINTS: usize = 500_000;

/// A body as a STEP file of one product: its name, and what is said about it.
///
/// # Errors
/// [`ExportError`] where it takes more than [`MOST_POINTS`], or the body can't be cut (never seen).
pub fn step(body: &Body, name: &str, about: &str) -> Result<String, ExportError> {
    let pieces = Pieces::new(body)?;
    let fit = Fit::of(body);
    let points = control_points(&pieces, fit);
    if points > MOST_POINTS {
        return Err(ExportError::StepTooLarge { points, limit: MOST_POINTS });
    }
    let mut data = Exchange::default();
    let shell = shell(&mut data, &pieces, fit);
    let product = Product { name, about };
    shell_to_product(&mut data, shell, &product);
    let mut text = header(&product);
    text += "DATA;\n";
    text += &data.into_text();
    text += "ENDSEC;\nEND-ISO-10303-21;\n";
    Ok(text)
}

/// `section.step`: the section with its threads.
///
/// # Errors
/// As [`step`].
pub fn section_step(section: &Section, body: &Body) -> Result<String, ExportError> {
    const ABOUT: &str = "Section with its threads as modelled, in millimetres; computed, no \
approval; the drawing governs.";
    step(body, &section.name, ABOUT)
}

/// `section-plain.step`: the section without its threads, from [`Section::plain_part`]'s body.
///
/// # Errors
/// As [`step`].
pub fn plain_step(section: &Section, body: &Body) -> Result<String, ExportError> {
    const ABOUT: &str = "Threads are not modelled: cylinders stand for them, inside at the tap \
drill's diameter, outside at the major diameter. In millimetres; computed, no approval; the \
drawing governs.";
    step(body, &section.name, ABOUT)
}

/// About how many control points the splines have, without fitting them.
fn control_points(pieces: &Pieces, fit: Fit) -> usize {
    let of_edge = |curve: &PieceCurve| match curve {
        PieceCurve::Trace { trace, span } => {
            fit.points((trace.at(span[1]).theta - trace.at(span[0]).theta).abs())
        }
        PieceCurve::Generatrix { .. } => 0,
    };
    let of_face = |face: &Piece| {
        let sweep = face.surface.meridian.sweep().abs();
        let rows = if sweep == 0.0 { 2 } else { fit.points(sweep) };
        let fitted = Elementary::of(&face.surface).is_none();
        if fitted { rows * fit.points(face.u[1] - face.u[0]) } else { 0 }
    };
    let edges = pieces.edges.iter().map(|edge| of_edge(&edge.curve));
    edges.chain(pieces.faces.iter().map(of_face)).sum()
}

/// The closed shell, outward.
fn shell(data: &mut Exchange, pieces: &Pieces, fit: Fit) -> Id {
    let vertices: Vec<Id> = pieces
        .vertices
        .iter()
        .map(|at| {
            let point = geometry::point(data, *at);
            data.add(&format!("VERTEX_POINT('',{point})"))
        })
        .collect();
    let edges: Vec<Id> = pieces
        .edges
        .iter()
        .map(|edge| {
            let (curve, along) = geometry::curve(data, edge, pieces, fit);
            let [from, to] = edge.ends.map(|end| vertices[end]);
            data.add(&format!("EDGE_CURVE('',{from},{to},{curve},{})", logical(along)))
        })
        .collect();
    let mut surfaces = Surfaces::default();
    let mut faces = Vec::with_capacity(pieces.faces.len());
    for face in &pieces.faces {
        let walked: Vec<Id> = face
            .cycle
            .iter()
            .map(|(edge, forward)| {
                let edge = edges[*edge];
                data.add(&format!("ORIENTED_EDGE('',*,*,{edge},{})", logical(*forward)))
            })
            .collect();
        let cycle = data.add(&format!("EDGE_LOOP('',{})", list(walked)));
        let bound = data.add(&format!("FACE_OUTER_BOUND('',{cycle},.T.)"));
        let (surface, out) = surfaces.of(data, face, fit);
        let name = real::text(&face.name.feature.to_string());
        let record = format!("ADVANCED_FACE({name},({bound}),{surface},{})", logical(out));
        faces.push(data.add(&record));
    }
    data.add(&format!("CLOSED_SHELL('',{})", list(faces)))
}

fn logical(value: bool) -> &'static str {
    if value { ".T." } else { ".F." }
}
