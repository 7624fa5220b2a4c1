//! What is done at the lathe.

mod common;

#[path = "shop/steps.rs"]
mod steps;
