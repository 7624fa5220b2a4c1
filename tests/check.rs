//! The checks: measures by independent routes, one case that holds and one that breaks for each,
//! and advice that works.

mod common;
#[path = "check/capped.rs"]
mod capped;
#[path = "check/capped_in_space.rs"]
mod capped_in_space;
#[path = "check/converter.rs"]
mod converter;
#[path = "check/fixtures.rs"]
mod fixtures;
#[path = "check/measures.rs"]
mod measures;
#[path = "check/properties.rs"]
mod properties;
#[path = "check/slices.rs"]
mod slices;
#[path = "check/verdicts.rs"]
mod verdicts;
#[path = "check/walls_in_space.rs"]
mod walls_in_space;
