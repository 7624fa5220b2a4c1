//! Tolerances for a drawing, allotted so that all of them at their worst together still hold.
//!
//! ```text
//!   size      the sizes of a drawing, each set alone      slope     what each costs each check
//!   nominal   rounded as they are written                 tighten   until no corner fails
//!   ladder    from the general tolerance to 0.01          bench     corners built and measured
//! ```
//! A check that holds at the drawing's nominal sizes must hold at every corner of its limits, one
//! that is close must not break there. The band that stands for what a maker holds is left out:
//! the limits take its place. So are a tool's own limits: on a drawing a hole's are the drawing's.
//! Readings keep their uncertainty, threads the limits of their class, and what lies off the axis
//! is as far off as the run-out says.
//!
//! The corners that are built: each check's worst by what every size costs it alone, those with
//! the most and the least material, and some by chance. Walls are least distances, so that their
//! worst lies at a corner where they are about linear in the sizes; it is not proved that no other
//! corner is worse.

mod bench;
mod ladder;
mod nominal;
mod size;
mod slope;
mod tighten;

use crate::quantity::{Angle, Length};
use crate::section::Section;
use crate::size::SizeId;
use crate::solid::BuildError;
use crate::standard::GeneralClass;
use bench::{Bench, Measured};
use ladder::Rung;
use nominal::{Drawn, can_be_made};
use slope::Slopes;
use tighten::Tightening;

/// The coarser class is kept while no more than this share of the sizes that have a general
/// tolerance need their own: more, and the drawing is full of figures; less, and shops that work to
/// m are asked for f.
const OWN_SHARE: f64 = 1.0 / 3.0;

/// A length or diameter with its limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AllottedSize {
    /// Which one. What its value means on a drawing: see [`allot`].
    pub parameter: SizeId,
    /// As it is written: in steps of 0.01 mm where it is within 1e-4 of one, otherwise of 0.001.
    pub value: Length,
    /// How far under it may be; not negative.
    pub below: Length,
    /// How far over it may be; not negative.
    pub above: Length,
    /// The general note covers it: nothing stands at the dimension.
    pub general: bool,
    /// It is a length that is measured from the shoulder; any other is measured from the front
    /// face.
    pub from_shoulder: bool,
}

/// An angle with its limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AllottedAngle {
    /// Which one.
    pub parameter: SizeId,
    /// As it is written; rounded as lengths are, in degrees.
    pub value: Angle,
    /// To either side.
    pub tolerance: Angle,
    /// The general note covers it.
    pub general: bool,
}

/// Limits for every size of a section's drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Allotment {
    /// The general note's class.
    pub class: GeneralClass,
    /// Total indicator reading between a bore, or the grip, and the datum axis: twice the offset
    /// for which walls are judged, and never under 0.02 mm.
    pub run_out: Length,
    /// The same at the end of a hole that is drilled long, with its wander.
    pub long_run_out: Length,
    /// In the order of the part: outside, bores, tenon, corners.
    pub sizes: Vec<AllottedSize>,
    /// Chamfers and tools' points.
    pub angles: Vec<AllottedAngle>,
    /// Checks that break at the nominal sizes, or can't be kept with every size at its tightest,
    /// by their codes: no tolerance is tightened for them.
    pub unheld: Vec<&'static str>,
    /// With some sizes off by the tightest step the section is impossible (ends that touch exactly,
    /// say): no tolerance can help.
    pub unmade: bool,
}

impl Allotment {
    /// The limits of a size; none where the drawing has no such length.
    pub fn size(&self, parameter: SizeId) -> Option<AllottedSize> {
        self.sizes.iter().find(|size| size.parameter == parameter).copied()
    }

    /// The limits of an angle.
    pub fn angle(&self, parameter: SizeId) -> Option<AllottedAngle> {
        self.angles.iter().find(|angle| angle.parameter == parameter).copied()
    }

    /// How far under and over each size and then each angle may be, in millimetres and degrees.
    fn limits(&self) -> Vec<[f64; 2]> {
        let sizes = self.sizes.iter().map(|size| [size.below.as_mm(), size.above.as_mm()]);
        let angles = self.angles.iter().map(|angle| [angle.tolerance.as_deg(); 2]);
        sizes.chain(angles).collect()
    }
}

/// Limits for every size that a section's drawing gives.
///
/// Lengths of the outside up to the shoulder and of holes from the front are measured from the
/// front face, those of the tenon and of holes from the back from the shoulder: of
/// [`SizeId::PilotLength`] it is where the plain end begins, of a hole from the back its floor
/// (less than nothing where it lies before the shoulder). [`SizeId::TenonChamfer`] is its length
/// along the axis, [`SizeId::CentrePilotLength`] where it ends; a thread's ends are those of full
/// thread. Of ends at one z, and of the two ends of a cylinder, the first stands for all.
///
/// Expects a section without [`crate::section::faults`].
///
/// # Errors
/// [`BuildError`]: the section at its rounded sizes, or what it meets, can't be built.
pub fn allot(section: &Section) -> Result<Allotment, BuildError> {
    let bench = Bench::new(Drawn::of(section))?;
    let at = vec![0.0; bench.drawn.sizes.len()];
    let nominal = bench.measure(&at).unwrap_or(Measured { spare: vec![], failed: vec![] });
    let ladders = |class| -> Vec<Vec<Rung>> {
        bench.drawn.sizes.iter().map(|size| ladder::of(section, size, class)).collect()
    };
    let widest: Vec<[f64; 2]> =
        ladders(GeneralClass::Medium).iter().map(|rungs| rungs[0].by).collect();
    let slopes = Slopes::of(&bench, &nominal, &widest);
    let within = |class| {
        let ladders = ladders(class);
        let have = ladders.iter().filter(|rungs| rungs[0].general).count();
        let mut work = Tightening::new(&bench, &slopes, ladders);
        work.set_hopeless_aside();
        work.predict(&nominal);
        work.verify();
        let general = work.rungs().iter().filter(|rung| rung.general).count();
        (allotment(&bench, class, &work), have - general, have)
    };
    let (medium, own, have) = within(GeneralClass::Medium);
    if (own as f64) <= have as f64 * OWN_SHARE {
        return Ok(medium);
    }
    let (fine, fewer, _) = within(GeneralClass::Fine);
    Ok(if fewer < own { fine } else { medium })
}

fn allotment(bench: &Bench, class: GeneralClass, work: &Tightening) -> Allotment {
    let offsets = bench.drawn.section.criteria.offsets;
    let mut made = Allotment {
        class,
        run_out: offsets.holding * 2.0,
        long_run_out: (offsets.holding + offsets.long_hole) * 2.0,
        sizes: Vec::new(),
        angles: Vec::new(),
        unheld: bench.broken.iter().copied().chain(work.unheld()).collect(),
        unmade: work.unmade,
    };
    for (size, Rung { by: [below, above], general }) in bench.drawn.sizes.iter().zip(work.rungs()) {
        let parameter = size.parameter;
        if parameter.is_angle() {
            let (value, tolerance) = (Angle::deg(size.value), Angle::deg(above));
            made.angles.push(AllottedAngle { parameter, value, tolerance, general });
        } else {
            let [value, below, above] = [size.value, below, above].map(Length::mm);
            let from_shoulder = size::from_shoulder(&bench.drawn.section, parameter);
            let size = AllottedSize { parameter, value, below, above, general, from_shoulder };
            made.sizes.push(size);
        }
    }
    made
}

/// The section with every size of its drawing somewhere within its limits: `pick` gives, for the
/// number of a size, and behind those of an angle, -1 for its least, 0 for its nominal, 1 for its
/// greatest, and anything between.
///
/// Holes have that one diameter and no tool's limits, the band is zero, and offsets are those of
/// the run-out; the rod is ample. None where a section so can't be made; two sizes less than
/// [`crate::section::LEAST_STEP`] apart are no reason.
pub fn corner(
    section: &Section,
    allotment: &Allotment,
    pick: impl Fn(usize) -> f64,
) -> Option<Section> {
    let off = |(n, [under, over]): (usize, &[f64; 2])| {
        let part = pick(n);
        part * if part < 0.0 { under } else { over }
    };
    let off: Vec<f64> = allotment.limits().iter().enumerate().map(off).collect();
    Drawn::of(section).at(&off).filter(can_be_made)
}
