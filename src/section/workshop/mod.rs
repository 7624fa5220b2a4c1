//! What is at hand where the section is made: tools, taps, the lathe and what holds the work, and
//! how fast its material is cut. Resolved, as [`super::Maker`] is; files of racks are read in
//! [`crate::design`], and what follows from them in `shop`.

mod cutting;
mod lathe;
mod tap;
mod tool;

pub use cutting::Cutting;
pub use lathe::{Holdings, Lathe, Quill};
pub use tap::{Tap, TapLead};
pub use tool::{Tool, ToolKind};

/// A workshop.
#[derive(Clone, Debug, PartialEq)]
pub struct Workshop {
    /// The rack's name.
    pub name: String,
    /// What cuts holes, in the order of the files.
    pub tools: Vec<Tool>,
    /// Taps.
    pub taps: Vec<Tap>,
    /// The lathe.
    pub lathe: Lathe,
    /// What holds the work.
    pub holdings: Holdings,
    /// How the section's material is cut.
    pub cutting: Cutting,
}
