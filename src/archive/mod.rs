//! Sets of files on disk, and single ones: written whole or not at all. The only writer into the
//! output folder, and the only one onto a shelf.
//!
//! ```text
//!   replace, one_file   over what was there: a folder's set, a picture
//!   place               where nothing is: an archive on its shelf, a set unpacked
//!   standing            what of a folder's earlier set is still true
//!   kept                an archive of one design: packed, opened, verified
//!   shelf               what is kept in a folder
//! ```

pub mod kept;
mod one_file;
mod place;
mod replace;
pub mod shelf;
mod standing;

pub use one_file::replace_file;
pub use place::{PlaceError, Placed, place, unpack};
pub use replace::{ArchiveError, replace};
pub use standing::{MADE_BY, Standing, made_by, standing};
