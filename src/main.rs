//! The command line of sectionwright.
fn main() {}
