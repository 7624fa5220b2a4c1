//! Whether the triangles, as an STL will store them, are a sound skin of the body.

use std::fmt;

use super::Mesh;
use super::crossing::{Misplaced, first_crossing};
use super::edges::open_edges;
use super::parting::{across, dot, less};
use super::patch::corners;
use crate::design::Fault;
use crate::solid::Measures;

/// What an audit found of a sound mesh.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Audit {
    /// Enclosed volume in cubic millimetres.
    pub volume: f64,
    /// Handles through it.
    pub genus: i64,
}

/// Why a mesh is not handed out.
#[derive(Clone, Debug, PartialEq)]
pub enum MeshError {
    /// The chord error asked for is no length, too coarse to mean anything, or too fine.
    Chord {
        /// As asked.
        asked: f64,
        /// The finest that is made.
        least: f64,
    },
    /// More triangles than are worth making.
    TooLarge {
        /// The chord error asked for.
        chord: f64,
        /// About how many it takes.
        triangles: f64,
        /// How many are made at most.
        limit: f64,
        /// A chord error that takes fewer, if there is one.
        works: Option<f64>,
    },
    /// An edge does not lie between exactly two triangles that agree on its direction.
    Open {
        /// How many such edges.
        edges: usize,
    },
    /// Triangles without area once rounded.
    Degenerate {
        /// How many.
        triangles: usize,
    },
    /// Two different points became one when rounded.
    Coincident {
        /// How many pairs.
        points: usize,
    },
    /// A triangle reaches out of its column.
    Beside,
    /// Two triangles pass through each other.
    Crossing {
        /// Where, x, y, z in millimetres.
        near: [f32; 3],
    },
    /// Volume or handles are not those of the exact body.
    Disagrees {
        /// What disagrees.
        what: &'static str,
        /// Of the mesh.
        mesh: f64,
        /// Of the body.
        exact: f64,
    },
    /// A second library finds the mesh otherwise than the audit did.
    Disputed {
        /// What it finds, and what the audit found.
        finds: String,
    },
}

impl MeshError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Chord { .. } => "mesh.chord",
            Self::TooLarge { .. } => "mesh.too-large",
            Self::Open { .. } => "mesh.open",
            Self::Degenerate { .. } => "mesh.degenerate",
            Self::Coincident { .. } => "mesh.coincident",
            Self::Beside => "mesh.beside",
            Self::Crossing { .. } => "mesh.crossing",
            Self::Disagrees { .. } => "mesh.disagrees",
            Self::Disputed { .. } => "mesh.disputed",
        }
    }
}

impl fmt::Display for MeshError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let refused = "the mesh is refused";
        match self {
            Self::Chord { asked, least } => {
                write!(f, "a chord error of {asked} mm can't be made: from {least} to 1 mm can")
            }
            Self::TooLarge { chord, triangles, limit, works } => {
                let instead = works.map_or_else(
                    || "no chord error takes fewer: give the threads fewer turns".to_owned(),
                    |works| format!("a chord error of {works} mm can be made"),
                );
                write!(
                    f,
                    "a chord error of {chord} mm takes about {triangles:.0} triangles, and \
                     {limit} are made at most; {instead}"
                )
            }
            Self::Open { edges } => write!(f, "{edges} edges are not closed; {refused}"),
            Self::Degenerate { triangles } => {
                write!(f, "{triangles} triangles have no area in single precision; {refused}")
            }
            Self::Coincident { points } => {
                write!(f, "{points} points fall together in single precision; {refused}")
            }
            Self::Beside => write!(f, "a triangle reaches out of its column; {refused}"),
            Self::Crossing { near: [x, y, z] } => {
                write!(f, "triangles cross near ({x:.3}, {y:.3}, {z:.3}); {refused}")
            }
            Self::Disagrees { what, mesh, exact } => {
                write!(f, "the mesh's {what} is {mesh}, the solid's {exact}; {refused}")
            }
            Self::Disputed { finds } => {
                write!(f, "a second library measures the mesh, and finds {finds}; {refused}")
            }
        }
    }
}

impl std::error::Error for MeshError {}

/// Audits a mesh against the measures of its body; [`super::tessellate`] does, and hands out none
/// that fails.
///
/// Closed and oriented: every directed edge once, and once the other way. No triangle without
/// area, no two points in one place, no triangle through another (in exact arithmetic on the
/// rounded points). Genus as the body's. The volume may differ by the skin's area times the
/// chord error, no more.
///
/// # Errors
/// [`MeshError`]: the first thing found wrong.
pub fn audit(mesh: &Mesh, exact: &Measures, genus: i64) -> Result<Audit, MeshError> {
    let open = open_edges(mesh);
    if open > 0 {
        return Err(MeshError::Open { edges: open });
    }
    let triangles = (0..mesh.triangles.len()).filter(|n| has_no_area(mesh, *n)).count();
    if triangles > 0 {
        return Err(MeshError::Degenerate { triangles });
    }
    let euler = mesh.points.len() as i64 - mesh.triangles.len() as i64 / 2;
    let found = 1 - euler / 2;
    if euler % 2 != 0 || found != genus {
        let (mesh, exact) = (found as f64, genus as f64);
        return Err(MeshError::Disagrees { what: "number of handles", mesh, exact });
    }
    let volume = mesh.signed_volume();
    if volume.is_nan() || (volume - exact.volume).abs() > exact.area * mesh.chord_error {
        let (mesh, exact) = (volume, exact.volume);
        return Err(MeshError::Disagrees { what: "volume", mesh, exact });
    }
    first_crossing(mesh).map_err(|fault| match (fault, coincident_points(mesh)) {
        (Misplaced::Beside, _) => MeshError::Beside,
        // Triangles at two points in one place touch, so no other search for those is needed.
        (Misplaced::Crossing(near), 0) => MeshError::Crossing { near },
        (Misplaced::Crossing(_), points) => MeshError::Coincident { points },
    })?;
    Ok(Audit { volume, genus: found })
}

impl Mesh {
    /// Volume by the divergence theorem: positive where triangles face outwards.
    fn signed_volume(&self) -> f64 {
        let six = |n: usize| {
            let [a, b, c] = corners(self, n);
            dot(a, across(b, c))
        };
        (0..self.triangles.len()).map(six).sum::<f64>() / 6.0
    }
}

fn coincident_points(mesh: &Mesh) -> usize {
    let mut bits: Vec<[u32; 3]> = mesh.points.iter().map(|p| p.map(f32::to_bits)).collect();
    bits.sort_unstable();
    bits.windows(2).filter(|pair| pair[0] == pair[1]).count()
}

/// Whether the three rounded points lie on one line: the cross product, from differences that
/// are exact in f64, is zero.
fn has_no_area(mesh: &Mesh, triangle: usize) -> bool {
    let [a, b, c] = corners(mesh, triangle);
    across(less(b, a), less(c, a)) == [0.0; 3]
}

impl From<MeshError> for Fault {
    fn from(error: MeshError) -> Self {
        let hint = match &error {
            MeshError::Chord { least, .. } => format!("--chord from {least} to 1, such as 0.005"),
            MeshError::TooLarge { works: Some(works), .. } => format!("--chord {works}"),
            MeshError::TooLarge { works: None, .. } => "give the threads fewer turns".to_owned(),
            // The triangles are at fault, and others come of another chord error.
            _ => "another chord error gives other triangles: --chord 0.004".to_owned(),
        };
        Self::new(error.code(), error.to_string()).hint(hint)
    }
}
