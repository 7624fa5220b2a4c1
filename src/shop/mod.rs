//! What is done at the lathe: which tools serve, in which order, how deep and how fast, how each
//! step is verified, and what to do when it went wrong.
//!
//! ```text
//!   Section + Workshop -> choose   the tool for every hole, by what the checker measures
//!                      -> plan     operations: a cut with its holding, face, depths and check
//!   Section + sizes    -> as_made  what still holds, what saves it, what is left to do
//!   sections + a rod   -> rod      how many it gives, and where to part it
//!   plan -> depth, speed, pin, trial_fit, tapping, outside, binding   what each step says
//! ```
//! Depths, readings and proud lengths are measured on solids: the workpiece as the cuts so far have
//! left it, and the tool, pin or unit on its way into it ([`crate::check::touch`]).

pub mod as_made;
mod binding;
mod body;
mod boxes;
pub mod choose;
mod depth;
mod error;
#[cfg(test)]
mod fixture;
mod operation;
mod outside;
mod pin;
mod plan;
pub mod rod;
mod speed;
mod tapping;
mod tight;
mod trial_fit;

pub use binding::Binding;
pub use depth::{Depths, Handwheel};
pub use error::PlanError;
pub use operation::{BoreWork, Holding, Measured, Operation, TenonWork, ThreadWork, Work};
pub use outside::{Outside, Taper};
pub use pin::PinReading;
pub use plan::{Plan, plan, proves};
pub use speed::{Speed, SpeedCap, rpm};
pub use tapping::Tapping;
pub use tight::{Bite, Tight};
pub use trial_fit::TrialFit;
