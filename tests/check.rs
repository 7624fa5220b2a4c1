//! The checks: measures by independent routes, one case that holds and one that breaks for each,
//! and advice that works.

mod common;
#[path = "check/allotment.rs"]
mod allotment;
#[path = "check/capped.rs"]
mod capped;
#[path = "check/capped_in_space.rs"]
mod capped_in_space;
#[path = "check/converter.rs"]
mod converter;
#[path = "check/drawn_sizes.rs"]
mod drawn_sizes;
#[path = "check/fixtures.rs"]
mod fixtures;
#[path = "check/half_planes.rs"]
mod half_planes;
#[path = "check/measures.rs"]
mod measures;
#[path = "check/practice.rs"]
mod practice;
#[path = "check/properties.rs"]
mod properties;
#[path = "check/random_threads.rs"]
mod random_threads;
#[path = "check/room.rs"]
mod room;
#[path = "check/slices.rs"]
mod slices;
#[path = "check/thread_standards.rs"]
mod thread_standards;
#[path = "check/threads.rs"]
mod threads;
#[path = "check/verdicts.rs"]
mod verdicts;
#[path = "check/wall_curve.rs"]
mod wall_curve;
#[path = "check/walls_by_hand.rs"]
mod walls_by_hand;
#[path = "check/walls_in_space.rs"]
mod walls_in_space;
#[path = "check/written.rs"]
mod written;
