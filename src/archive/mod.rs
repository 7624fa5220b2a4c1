//! Sets of files on disk, and single ones: written whole or not at all. The only writer into the
//! output folder.

mod one_file;
mod replace;
mod standing;

pub use one_file::replace_file;
pub use replace::{ArchiveError, replace};
pub use standing::{Standing, standing};
