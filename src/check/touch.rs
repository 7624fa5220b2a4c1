//! One body on its way along the axis into another: where it touches first. So it is told how far
//! a tool goes before its lips meet a hole that is there already, on what a flat pin rests, and
//! how far a nib unit stands proud before its thread is cut.

use super::bodies::Built;
use super::slide::Slide;
use super::{Spot, slide};
use crate::section::{Mouth, Part};
use crate::solid::BuildError;

/// The first touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touch {
    /// How far z = 0 of the inner body lies behind the outer one's z = 0 then, in millimetres,
    /// along the way that it goes: positive towards the back for one that comes by the front.
    pub advance: f64,
    /// On the inner body, in its own z.
    pub inner: Spot,
    /// On the outer body, in its own z.
    pub outer: Spot,
}

/// Slides `inner` along the axis into `outer` by one of its mouths, until they touch; none where
/// nothing stops it. Threads count as their crests' cylinders.
///
/// The inner body's z grows towards the end that goes in first. A body that comes by the back face
/// advances against the outer one's z: its z = 0 lies at minus `advance` when it touches. Exact up
/// to rounding: lines are held against lines.
///
/// # Errors
/// [`BuildError`] where one of the parts can't be built.
pub fn touch(inner: &Part, outer: &Part, mouth: Mouth) -> Result<Option<Touch>, BuildError> {
    let (inner, outer) = (Built::new(inner)?, Built::new(outer)?);
    let outer = if mouth == Mouth::Front { outer } else { outer.turned() };
    let contacts = Slide { inner: &inner, outer: &outer, threads: None }.contacts();
    let least = |a: slide::Contact, b: slide::Contact| if b.advance < a.advance { b } else { a };
    let first = contacts.into_iter().reduce(least);
    Ok(first.map(|slide::Contact { advance, inner, outer }| {
        let z = if mouth == Mouth::Front { outer.z } else { -outer.z };
        Touch { advance, inner, outer: Spot { z, ..outer } }
    }))
}
