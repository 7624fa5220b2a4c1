//! Each size changed, with what goes with it.

use super::Parameter;
use crate::quantity::{Length, Limits};
use crate::section::{COINCIDENT, Depth, Item, Section, Thread};

impl Parameter {
    /// The section with this size changed, and with it what is cut by the same tool or measured
    /// from the same place; nothing else is derived anew.
    pub fn set(self, section: &Section, value: f64) -> Option<Section> {
        let by = Length::mm(value - self.get(section)?);
        let to = Length::mm(value);
        let mut changed = section.clone();
        match self {
            Self::HoldingOffset => changed.criteria.offsets.holding = to,
            Self::LongHoleOffset => changed.criteria.offsets.long_hole = to,
            Self::FrontDiameter => changed.grip.front = to,
            Self::GripDiameter(n) => changed.grip.runs[usize::from(n) - 1].to.diameter = to,
            Self::GrooveDepth(n) => {
                let rings = &mut changed.grip.rings;
                rings.iter_mut().find(|ring| ring.item == Item::Groove(n))?.height = to;
            }
            Self::GripLength => {
                let last = changed.grip.runs.len().checked_sub(1)?;
                changed.grip.runs[last].to.z = to;
                if let Some(cap) = changed.grip.thread.as_mut().filter(|cap| cap.run == last) {
                    cap.thread.to = to;
                }
                changed.blank.length += by;
                shift(&mut changed.tenon.thread, by);
                // A cap that stops at the shoulder goes with it.
                let old = section.grip.length();
                if let Some(cap) = changed.cap.as_mut().filter(|cap| coincide(cap.stops_at, old)) {
                    cap.stops_at = to;
                }
            }
            Self::BoreDiameter(item) => {
                let bore = changed.bores.iter_mut().find(|bore| bore.item == item)?;
                *bore = bore.cutting(to);
                bore.limits = moved(bore.limits, by)?;
                bore.tool = None;
                if item == Item::TapDrill {
                    move_crest(&mut changed.unit_thread, by)?;
                }
            }
            Self::BoreDepth(item) => {
                let begins_here =
                    coincide(section.unit_thread.from, Length::mm(self.get(section)?));
                let bore = changed.bores.iter_mut().find(|bore| bore.item == item)?;
                bore.depth = match bore.depth {
                    Depth::Between(from, _) => Depth::Between(from, to),
                    _ => Depth::To(to),
                };
                if item == Item::ClearanceBore && begins_here {
                    changed.unit_thread.from = to;
                }
            }
            Self::ReliefStart(item) => {
                let bore = changed.bores.iter_mut().find(|bore| bore.item == item)?;
                bore.depth = Depth::Between(to, bore.full_depth(section.length()));
            }
            Self::UnitThreadEnd => changed.unit_thread.to = to,
            Self::UnitThreadSize => open(&mut changed.unit_thread, by)?,
            Self::BarrelThreadSize => open(&mut changed.barrel.thread, by)?,
            Self::TenonLength => {
                changed.tenon.length = to;
                changed.blank.length += by;
                changed.tenon.thread.to += by;
            }
            Self::TenonChamfer => {
                changed.tenon.chamfer = section.tenon.chamfer.with_depth(to);
            }
            Self::PilotDiameter => changed.tenon.pilot.as_mut()?.diameter = to,
            Self::ReliefDiameter => changed.tenon.relief.as_mut()?.diameter = to,
            Self::ReliefWidth => {
                let behind = section.grip.length() + section.tenon.relief?.width;
                changed.tenon.relief.as_mut()?.width = to;
                if coincide(section.tenon.thread.from, behind) {
                    changed.tenon.thread.from += by;
                }
            }
            Self::BarrelHole => move_crest(&mut changed.barrel.thread, by)?,
            Self::BarrelThreadEnd => changed.barrel.thread.to = to,
            Self::BarrelDepth => {
                changed.barrel.depth = to;
                changed.barrel.thread.to += by;
            }
            Self::CounterboreDepth => {
                let begins_here =
                    coincide(section.barrel.thread.from, section.barrel.counterbore?.depth);
                changed.barrel.counterbore.as_mut()?.depth = to;
                if begins_here {
                    changed.barrel.thread.from = to;
                }
            }
            Self::BarrelBoreDiameter => changed.barrel.bore.as_mut()?.diameter = to,
            Self::BarrelBoreDepth => changed.barrel.bore.as_mut()?.depth = to,
            Self::BarrelOutside => changed.barrel.outside = to,
            own if own.is_caps() => own.set_of_cap(changed.cap.as_mut()?, to, by)?,
            own => own.set_beside(&mut changed, value)?,
        }
        Some(changed)
    }
}

/// Whether two ends are one, but for the rounding of a sum: then they are set together.
pub(in crate::check) fn coincide(a: Length, b: Length) -> bool {
    (a - b).abs() <= COINCIDENT
}

fn shift(thread: &mut Thread, by: Length) {
    thread.from += by;
    thread.to += by;
}

/// An internal thread cut by a tap that is larger by so much, with its limits.
pub(in crate::check) fn open(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.pitch_diameter += by;
    thread.form.root += by;
    thread.limits.pitch = moved(thread.limits.pitch, by)?;
    thread.limits.major = moved(thread.limits.major, by)?;
    Some(())
}

/// An internal thread's crest, which is the hole's diameter, with its limits.
pub(in crate::check) fn move_crest(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.crest += by;
    thread.limits.minor = moved(thread.limits.minor, by)?;
    Some(())
}

/// An external thread cut less deep by so much, with its limits; the rod stays.
pub(super) fn swell(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.pitch_diameter += by;
    thread.form.root += by;
    thread.limits.pitch = moved(thread.limits.pitch, by)?;
    thread.limits.minor = moved(thread.limits.minor, by)?;
    Some(())
}

/// An external thread's crest, which is the rod's diameter, with its limits.
pub(super) fn move_rod(thread: &mut Thread, by: Length) -> Option<()> {
    thread.form.crest += by;
    thread.limits.major = moved(thread.limits.major, by)?;
    Some(())
}

fn moved(limits: Limits, by: Length) -> Option<Limits> {
    Limits::new(limits.min() + by, limits.max() + by)
}
