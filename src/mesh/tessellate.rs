//! The mesh of a body.

use truck_meshalgo::prelude::{CalcVolume, PolygonMesh, StandardAttributes};
use truck_modeling::Point3;

use super::audit::{Audit, MeshError, audit};
use super::boundary::{Boundary, Step};
use super::columns::pieces;
use super::fan::Fan;
use super::fill::{Scale, fill};
use crate::solid::{Body, Face};

/// The chord error that is asked for unless told otherwise, in millimetres: finer than any print
/// shows.
pub const DEFAULT_CHORD: f64 = 0.005;

/// The finest chord error that is made, in millimetres: below it a section needs millions of
/// triangles, and the rounding of an STL's numbers is no longer small beside it.
pub const LEAST_CHORD: f64 = 1e-4;

/// Fans that are tried before a mesh is refused.
const ATTEMPTS: usize = 4;

/// A closed triangle mesh, its points already rounded as an STL stores them.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    /// x, y, z in millimetres, each once.
    pub points: Vec<[f32; 3]>,
    /// Counter-clockwise seen from outside.
    pub triangles: Vec<[u32; 3]>,
    /// For each triangle the index of the body's face it lies on.
    pub faces: Vec<u32>,
    /// Bound on the distance between mesh and surface, both ways, in millimetres.
    pub chord_error: f64,
    /// Half-planes in the fan: flat sides of a bore.
    pub sides: u32,
}

impl Mesh {
    /// The volume enclosed by the triangles as stored, in cubic millimetres (truck's analyzer).
    pub fn volume(&self) -> f64 {
        self.to_truck().volume().abs()
    }

    /// The mesh in truck's form.
    pub fn to_truck(&self) -> PolygonMesh {
        let positions = self.points.iter().map(|p| {
            let [x, y, z] = p.map(f64::from);
            Point3::new(x, y, z)
        });
        let attributes =
            StandardAttributes { positions: positions.collect(), ..Default::default() };
        let faces = self.triangles.iter().map(|t| t.map(|n| n as usize));
        PolygonMesh::new(attributes, faces.collect())
    }
}

/// Cuts a body into triangles that lie nowhere farther from its surface than `chord` millimetres,
/// nor it from them, and audits what an STL would store.
///
/// # Errors
/// [`MeshError`]: the chord is no length or finer than [`LEAST_CHORD`], or the audit found the
/// mesh unsound (never seen; then nothing is handed out).
pub fn tessellate(body: &Body, chord: f64) -> Result<(Mesh, Audit), MeshError> {
    if !(LEAST_CHORD..=1.0).contains(&chord) {
        return Err(MeshError::Chord { asked: chord, least: LEAST_CHORD });
    }
    let measures = body.measures();
    let mut attempt = 0;
    loop {
        let mesh = cut(body, &Fan::new(body, chord, attempt));
        match audit(&mesh, &measures, body.genus()) {
            Ok(found) => return Ok((mesh, found)),
            Err(error) if attempt + 1 == ATTEMPTS => return Err(error),
            Err(_) => attempt += 1,
        }
    }
}

fn cut(body: &Body, fan: &Fan) -> Mesh {
    let mut boundary = Boundary::new(body, fan);
    let (mut triangles, mut faces) = (Vec::new(), Vec::new());
    for (number, (face, _)) in body.faces().enumerate() {
        let steps = boundary.steps(face);
        if goes_round_a_pole(face) {
            let pole = boundary.points.len() as u32;
            let surface = face.surface();
            let tip = if surface.from[0] == 0.0 { surface.from } else { surface.to };
            boundary.points.push([0.0, 0.0, tip[1]]);
            triangles.extend(steps.iter().map(|step| [step.from.index, step.to.index, pole]));
        } else {
            fill_face(face, steps, fan, &mut triangles);
        }
        faces.resize(triangles.len(), number as u32);
    }
    // `+ 0.0` makes -0.0 and 0.0 one value: readers match points by their bits.
    let points = boundary.points.iter().map(|p| p.map(|v| v as f32 + 0.0)).collect();
    Mesh { points, triangles, faces, chord_error: fan.deviation, sides: fan.count }
}

/// Whether a face closes over the axis: a disc or a cone to its tip.
fn goes_round_a_pole(face: &Face) -> bool {
    let surface = face.surface();
    surface.from[0] == 0.0 || surface.to[0] == 0.0
}

fn fill_face(face: &Face, mut steps: Vec<Step>, fan: &Fan, triangles: &mut Vec<[u32; 3]>) {
    let surface = face.surface();
    if face.absolute_boundaries().len() > 1 {
        for step in &mut steps {
            step.column = step.column.rem_euclid(i64::from(fan.count));
        }
    }
    steps.sort_by_key(|step| step.column);
    let radius = surface.from[0].max(surface.to[0]);
    let along = libm::hypot(surface.dr(), surface.dz());
    let scale = Scale { across: radius * fan.step(), along };
    let mut found = Vec::new();
    for column in steps.chunk_by(|a, b| a.column == b.column) {
        found.clear();
        pieces(column, &mut found);
        for piece in &found {
            fill(piece, &surface, scale, triangles);
        }
    }
}
