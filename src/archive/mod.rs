//! Sets of files on disk: written whole or not at all. The only writer into the output folder.

mod replace;

pub use replace::{ArchiveError, replace};
