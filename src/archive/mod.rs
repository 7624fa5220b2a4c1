//! Sets of files on disk: written whole or not at all. The only writer into the output folder.

mod replace;
mod standing;

pub use replace::{ArchiveError, replace};
pub use standing::{Standing, standing};
