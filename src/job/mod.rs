//! What this program does, one file a command: a request in, data out; nothing is printed.
//!
//! ```text
//!   request -> job -> data, and what is said of the files (Said)
//!                  -> or why it stopped (Stopped), with everything that is wrong
//! ```
//! Whoever asks may look on and stop it ([`Watch`]): what is written is written whole at the end, so
//! a job that was stopped has written nothing. The command line ([`crate::cli`]) is one face of it.

pub mod asmade;
pub mod check;
pub mod compare;
pub mod keep;
pub mod make;
pub mod new;
mod picture;
pub mod print;
mod read;
pub mod recall;
pub mod rod;
pub mod shelf;
mod stopped;
mod watch;

pub use stopped::{Said, Stopped, Why};
pub use watch::{Cancelled, Watch, step};
