//! Whether one pen's section goes into another's barrel and cap, and what makes it go.
//!
//! ```text
//!   fit      the section of one in barrel and cap of the other, judged by every check of those
//!   step     a size, or a thread, set to what the other has
//!   search   the fewest steps that make it fit, each set of them built and measured
//! ```
//! A matching pair is two sections, for two nib units, that both go into one barrel and one cap.

mod fit;
mod search;
mod step;

pub use fit::{Fit, Unfit, fit};
pub use search::{Adjusted, adjust_mates, adjust_outside, adjust_section};
pub use step::Step;

use crate::quantity::Length;
use crate::section::{Section, Skin};

/// Two sizes this near are the same, in millimetres: less is the rounding of sums. Larger, and a
/// hundredth that matters could be left.
const SAME: f64 = 1e-6;

/// Whether two sections are the same outside from the front face to the shoulder.
pub fn same_outside(a: &Section, b: &Section) -> bool {
    let outline = |section: &Section| {
        let runs = section.part().runs.into_iter();
        let length = section.grip.length();
        let grip = runs.filter(|run| run.skin == Skin::Outside);
        grip.filter(move |run| run.to.z <= length).collect::<Vec<_>>()
    };
    let (a, b) = (outline(a), outline(b));
    let near = |x: Length, y: Length| (x - y).as_mm().abs() <= SAME;
    a.len() == b.len()
        && a.iter().zip(&b).all(|(a, b)| {
            near(a.from.z, b.from.z)
                && near(a.from.diameter, b.from.diameter)
                && near(a.to.z, b.to.z)
                && near(a.to.diameter, b.to.diameter)
                && a.shape == b.shape
        })
}
