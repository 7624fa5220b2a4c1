//! The numbers of standard/ against published tables and worked examples.

#[path = "standard/drills.rs"]
mod drills;
#[path = "standard/examples.rs"]
mod examples;
#[path = "standard/round_trips.rs"]
mod round_trips;
#[path = "standard/table.rs"]
mod table;
#[path = "standard/threads.rs"]
mod threads;
#[path = "standard/tolerances.rs"]
mod tolerances;
