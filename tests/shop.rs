//! What is done at the lathe: tools, steps, depths, the sheet.

mod common;

#[path = "shop/bench.rs"]
mod bench;
#[path = "shop/boxes.rs"]
mod boxes;
#[path = "shop/choosing.rs"]
mod choosing;
#[path = "shop/depths.rs"]
mod depths;
#[path = "shop/practice.rs"]
mod practice;
#[path = "shop/random.rs"]
mod random;
#[path = "shop/sheet.rs"]
mod sheet;
#[path = "shop/steps.rs"]
mod steps;
