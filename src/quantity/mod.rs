//! Lengths, angles and tolerances, and how people write them.
