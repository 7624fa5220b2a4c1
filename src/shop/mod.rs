//! What is done at the lathe: rod plan.

mod rod;

pub use rod::{
    CUTS_STAND_OUT, DEFAULT_HOLDING, DEFAULT_SPARES, DEFAULT_SQUARING, OffCut, Piece, RodError,
    RodPlan, RodRequest, Shown, Wanted, plan,
};
