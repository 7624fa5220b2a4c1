//! The checks: measures by independent routes, one case that holds and one that breaks for each,
//! and advice that works.

mod common;
#[path = "check/fixtures.rs"]
mod fixtures;
#[path = "check/measures.rs"]
mod measures;
#[path = "check/properties.rs"]
mod properties;
#[path = "check/slices.rs"]
mod slices;
#[path = "check/room.rs"]
mod room;
#[path = "check/verdicts.rs"]
mod verdicts;
#[path = "check/wall_curve.rs"]
mod wall_curve;
#[path = "check/walls_by_hand.rs"]
mod walls_by_hand;
#[path = "check/walls_in_space.rs"]
mod walls_in_space;
