//! What holds if a size were another one: what is promised comes true when it is written.
//!
//! No outside source says what these designs should give; the independent route is the design file
//! itself, changed as a person would change it, and read again.
//!
//! `SECTIONWRIGHT_DESIGNS=300` takes so many random designs.

mod common;

#[path = "shop/bench.rs"]
#[allow(dead_code, reason = "each test crate uses some of these")]
mod bench;
#[path = "shop/random.rs"]
#[allow(dead_code, reason = "each test crate uses some of these")]
mod random;
#[path = "scene/files.rs"]
mod files;
#[path = "scene/kept.rs"]
mod kept;
#[path = "scene/written.rs"]
mod written;
