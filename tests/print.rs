//! What is printed: offsets on the exact solid, coupons, ladders, what a print can prove.

mod common;

#[path = "print/offsets.rs"]
mod offsets;
#[path = "print/pieces.rs"]
mod pieces;
#[path = "print/space.rs"]
mod space;
#[path = "print/command.rs"]
mod command;
#[path = "print/proofs.rs"]
mod proofs;
