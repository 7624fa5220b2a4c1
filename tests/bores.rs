//! Bores of every kind as solids: closed forms, genus, meshes; and the parts made with them.

mod common;

#[path = "bores/chords.rs"]
mod chords;
#[path = "bores/companions.rs"]
mod companions;
#[path = "bores/held.rs"]
mod held;
#[path = "bores/random.rs"]
mod random;
#[path = "bores/shapes.rs"]
mod shapes;
#[path = "bores/stages.rs"]
mod stages;
#[path = "bores/taps.rs"]
mod taps;
#[path = "bores/variety.rs"]
mod variety;
