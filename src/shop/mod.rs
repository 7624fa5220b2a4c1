//! What happens at the lathe: before, while and after a section is made.

mod as_made;

pub use as_made::{
    AsMade, Fault, MadeSize, Measured, Remedy, Rescue, Said, as_made, read, step_word, typed,
};
