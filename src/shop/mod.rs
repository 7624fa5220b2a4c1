//! What is done at the lathe: which tools serve, in which order, how deep and how fast, how each
//! step is verified, and what to do when it went wrong.
//!
//! ```text
//!   Section + Workshop -> choose   the tool for every hole, by what the checker measures
//!                      -> plan     operations: a cut with its holding, face, depths and check
//!   Section + sizes    -> as_made  what still holds, what saves it, what is left to do
//!   sections + a rod   -> rod      how many it gives, and where to part it
//! ```
//! Depths, readings and proud lengths are measured on solids: the workpiece as the cuts so far have
//! left it, and the tool, pin or unit on its way into it ([`crate::check::touch`]).

pub mod as_made;
pub mod choose;
#[cfg(test)]
mod fixture;
mod plan;
pub mod rod;

pub use plan::{
    Binding, Bite, BoreWork, Depths, Handwheel, Holding, Measured, Operation, Outside, PinReading,
    Plan, PlanError, Speed, SpeedCap, Taper, Tapping, TenonWork, ThreadWork, Tight, TrialFit, Work,
    plan, plan_on, proves, rpm,
};
