//! Designs the grip section of a one-off fountain pen and proves it on the solid.
//!
//! The pipeline, in the order of the modules; each may use only those above it:
//!
//! ```text
//!   design file -> Section -> Body -> Mesh -> checks        -> work, prints  -> files
//!   (design)       (section)  (solid) (mesh)  (check, scene)   (shop) (print)   (drawing, export, archive)
//! ```
//! A job (`job`) takes one request down that way; the command line (`cli`) is its face.
//!
//! Axes and units: millimetres and degrees; z runs along the axis, z = 0 is the finished front
//! (nib) face, growing towards the barrel. People see diameters; radii live in the geometry only.

pub mod diagnostic;
pub mod quantity;
pub mod standard;
pub mod section;
pub mod size;
pub mod design;
pub mod solid;
pub mod mesh;
pub mod check;
pub mod scene;
pub mod shop;
pub mod print;
pub mod drawing;
pub mod export;
pub mod archive;
pub mod job;
pub mod cli;
