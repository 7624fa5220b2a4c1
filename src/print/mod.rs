//! What a printer does to a part, and what is printed to try a fit.
//!
//! ```text
//!   offset    every surface moved along its normal, on the exact solid
//! ```

pub mod offset;
