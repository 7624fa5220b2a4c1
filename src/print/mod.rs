//! What a printer does to a part, and what is printed to try a fit: surfaces offset on the exact
//! solid, coupons, ladders, calibration.

pub mod calibrate;
