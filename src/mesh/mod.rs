//! Triangles from the exact solid, closed and within a stated distance of it.
//!
//! All faces are cut by one common fan of half-planes through the axis. Between two neighbouring
//! half-planes (a *column*) every surface is replaced by flat pieces with corners on the exact
//! surface; since all surfaces are cut at the same angles, the mesh inside a column is the loft
//! between two half-sections, and neighbouring surfaces can't cross, however thin the wall.
//!
//! truck's own tessellation is not used: it triangulates in (u, v) without regard to millimetres,
//! which beside a slanted end joins points far apart and leaves a closed mesh with many times the
//! chord error that was asked for; its analyzers give a second opinion on every mesh that is written ([`weigh`]).

mod audit;
mod band;
mod boundary;
mod columns;
mod contact;
mod crossing;
mod edges;
mod fan;
mod fill;
mod parting;
mod patch;
mod tessellate;
mod weigh;
mod weld;

pub use audit::{Audit, MeshError, audit};
pub use tessellate::{DEFAULT_CHORD, LEAST_CHORD, MOST_TRIANGLES, Mesh, check_chord, tessellate};
pub use weigh::weigh;
