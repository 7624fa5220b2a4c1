//! The exact solid: every face of a section is a screw surface, every edge an affine trace.
//!
//! [`build`] takes a closed list of runs with their threads ([`crate::section::Part`]) and serves
//! section, unit and barrel alike. A thread is not cut by a boolean operation: its crest, flanks
//! and root are made as helical strips, and each of its ends as a chain from crest to root (a
//! chamfer, a step, the wall where the tool stopped), whose circle carries on the plain outline.
//! So there is no coincidence to be decided here: a chamfer exactly as deep as the thread, or a
//! bore of exactly its major diameter, takes the same way as any other.
//!
//! Topology is truck's (`Vertex`, `Edge`, `Wire`, `Face`, `Solid` over our own curve and
//! surface), checked by truck to be closed, oriented and manifold. Rings are not cut by seams:
//! a face that goes round the axis has two wires; [`Pieces`] cuts them for readers who need it,
//! [`Elementary`] names the surfaces that have a name, and [`Fit`] makes splines of those that
//! have none. Lengths are raw millimetres, angles radians.

mod assemble;
mod body;
mod elementary;
mod end;
mod error;
mod flux;
mod helix;
mod measure;
mod meridian;
mod pieces;
mod profile;
mod ring;
mod screw;
mod spline;
mod swept;
mod trace;
mod trim;
mod unroll;
mod withdrawal;

pub use assemble::{MOST_TURNS, build, lines};
pub use body::{Body, CutThread, FaceName};
pub use elementary::Elementary;
pub use error::BuildError;
pub use measure::{Bounds, FaceMeasures, Measures};
pub use meridian::{HalfPoint, Meridian};
pub use pieces::{Piece, PieceCurve, PieceEdge, Pieces};
pub use profile::withdrawal_begins;
pub use screw::Screw;
pub use spline::{Fit, Knots, SplineCurve, SplineSurface};
pub use swept::{Cuts, Lines, Swept};
pub use trace::{Cut, Cutter, Polar, Trace};
pub use unroll::{UvEdge, angles_of};

use truck_modeling::Point3;

/// A vertex of a body.
pub type Vertex = truck_topology::Vertex<Point3>;
/// An edge of a body.
pub type Edge = truck_topology::Edge<Point3, Trace>;
/// A closed loop of edges.
pub type Wire = truck_topology::Wire<Point3, Trace>;
/// A face of a body; its surface's normal points out of the material.
pub type Face = truck_topology::Face<Point3, Trace, Screw>;
/// The shell of a body.
pub type Shell = truck_topology::Shell<Point3, Trace, Screw>;
/// What a body is to truck.
pub type Solid = truck_topology::Solid<Point3, Trace, Screw>;
