//! The mesh of a body.

use std::f64::consts::TAU;
use std::iter;

use truck_meshalgo::prelude::{CalcVolume, PolygonMesh, StandardAttributes};
use truck_modeling::Point3;

use super::audit::{Audit, MeshError, audit};
use super::band::Band;
use super::boundary::{Boundary, Step};
use super::columns::{Pieces, by_column};
use super::fan::Fan;
use super::fill::{Scale, fill};
use crate::solid::{Body, Face, Screw, angles_of};

/// The chord error that is asked for unless told otherwise, in millimetres: finer than any print
/// shows.
pub const DEFAULT_CHORD: f64 = 0.005;

/// The finest chord error that is made, in millimetres: below it a section needs millions of
/// triangles, and the rounding of an STL's numbers is no longer small beside it.
pub const LEAST_CHORD: f64 = 1e-4;

/// The coarsest chord error that is made, in millimetres: above it nothing of a thread is left.
const COARSEST_CHORD: f64 = 1.0;

/// Triangles that are made at most: about 160 MB and half a second. A section with both its threads
/// has a tenth of it at the finest chord error; more, and a slip of the pen asks for gigabytes.
pub const MOST_TRIANGLES: f64 = 2e6;

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
    /// For each triangle the column of the fan it lies in: between the half-plane of this number
    /// and the next.
    pub columns: Vec<u32>,
    /// The angles of the half-planes, ascending within one turn, in radians.
    pub angles: Vec<f64>,
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

/// Whether a chord error can be asked for.
///
/// # Errors
/// [`MeshError::Chord`]: it is no length, too coarse to mean anything, or finer than
/// [`LEAST_CHORD`].
pub fn check_chord(chord: f64) -> Result<(), MeshError> {
    if (LEAST_CHORD..=COARSEST_CHORD).contains(&chord) {
        return Ok(());
    }
    Err(MeshError::Chord { asked: chord, least: LEAST_CHORD })
}

/// Cuts a body into triangles that lie nowhere farther from its surface than `chord` millimetres,
/// nor it from them, and audits what an STL would store.
///
/// # Errors
/// [`MeshError`]: the chord is no length or finer than [`LEAST_CHORD`], it takes more than
/// [`MOST_TRIANGLES`], or the audit found the mesh unsound (never seen; then nothing is handed
/// out).
pub fn tessellate(body: &Body, chord: f64) -> Result<(Mesh, Audit), MeshError> {
    check_chord(chord)?;
    let measures = body.measures();
    let mut attempt = 0;
    loop {
        let fan = Fan::new(body, chord, attempt);
        let triangles = about(body, &fan);
        if triangles > MOST_TRIANGLES {
            let works = chord_that_works(body, chord, attempt);
            return Err(MeshError::TooLarge { chord, triangles, limit: MOST_TRIANGLES, works });
        }
        let mut mesh = cut(body, &fan);
        let mut found = audit(&mesh, &measures, body.genus());
        if let Err(MeshError::Coincident { .. } | MeshError::Degenerate { .. }) = found {
            mesh = mesh.welded();
            found = audit(&mesh, &measures, body.genus());
        }
        match found {
            Ok(found) => return Ok((mesh, found)),
            Err(error) if attempt + 1 == ATTEMPTS => return Err(error),
            Err(_) => attempt += 1,
        }
    }
}

/// About how many triangles a body is cut into, without cutting it: two for every band of every
/// face in every column; what the ends of threads add is little beside them.
fn about(body: &Body, fan: &Fan) -> f64 {
    let of = |face: &Face| {
        let columns = if goes_round(face) {
            f64::from(fan.count)
        } else {
            let [from, to] = angles_of(face);
            ((to - from) / TAU).abs() * f64::from(fan.count)
        };
        2.0 * columns * fan.pieces(&face.surface().meridian) as f64
    };
    body.faces().map(|(face, _)| of(face)).sum()
}

/// The least chord error, twice or four times or more as coarse, with which a body does not take
/// too many triangles.
fn chord_that_works(body: &Body, chord: f64, attempt: usize) -> Option<f64> {
    let coarser = iter::successors(Some(chord * 2.0), |chord| Some(chord * 2.0));
    let fits = |chord: &f64| about(body, &Fan::new(body, *chord, attempt)) <= MOST_TRIANGLES;
    coarser.take_while(|chord| *chord <= COARSEST_CHORD).find(fits)
}

fn cut(body: &Body, fan: &Fan) -> Mesh {
    let mut boundary = Boundary::new(body, fan);
    // A closed skin has about two triangles a point.
    let count = boundary.points.len() * 2;
    let (triangles, columns) = (Vec::with_capacity(count), Vec::with_capacity(count));
    let mut skin = Skin { fan, triangles, columns, pieces: Pieces::default() };
    let mut faces = Vec::with_capacity(count);
    for (number, (face, _)) in body.faces().enumerate() {
        let surface = face.surface();
        let steps = boundary.steps(face);
        if surface.climb == 0.0 && goes_round(face) {
            boundary.bands(&surface, steps).iter().for_each(|band| skin.band(&surface, band));
        } else {
            boundary.strips(&surface, steps).iter().for_each(|strip| skin.strip(&surface, strip));
        }
        faces.resize(skin.triangles.len(), number as u32);
    }
    let Skin { triangles, columns, .. } = skin;
    // `+ 0.0` makes -0.0 and 0.0 one value: readers match points by their bits.
    let points = boundary.points.iter().map(|p| p.map(|v| v as f32 + 0.0)).collect();
    let (chord_error, sides, angles) = (fan.deviation, fan.count, fan.angles.clone());
    Mesh { points, triangles, faces, columns, angles, chord_error, sides }
}

/// Whether a face goes once round the axis: it has a ring at either end, or closes over the axis.
fn goes_round(face: &Face) -> bool {
    let meridian = face.surface().meridian;
    face.absolute_boundaries().len() > 1 || meridian.at(0.0)[0] == 0.0 || meridian.at(1.0)[0] == 0.0
}

/// The triangles made so far, each with its column.
struct Skin<'a> {
    fan: &'a Fan,
    triangles: Vec<[u32; 3]>,
    columns: Vec<u32>,
    pieces: Pieces,
}

impl Skin<'_> {
    /// A band between two rings, or between a ring and a point of the axis.
    fn band(&mut self, surface: &Screw, band: &Band) {
        match band {
            Band::Ring(steps) => self.strip(surface, steps),
            Band::Pole(steps, pole) => {
                for step in steps {
                    self.triangles.push([step.from.index, step.to.index, *pole]);
                    self.columns.push(self.fan.column(step.column));
                }
            }
        }
    }

    /// A face, or a band of one, column by column.
    fn strip(&mut self, surface: &Screw, steps: &[Step]) {
        let Self { fan, triangles, columns, pieces } = self;
        let along = surface.meridian.length();
        let scale = Scale { across: surface.meridian.widest() * fan.step(), along };
        for steps in by_column(steps).chunk_by(|a, b| a.column == b.column) {
            pieces.each(steps, |piece| fill(piece, surface, scale, triangles));
            columns.resize(triangles.len(), fan.column(steps[0].column));
        }
    }
}
