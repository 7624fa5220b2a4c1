//! The sizes that a drawing gives beside those that are advised.

use super::change::{move_rod, swell};
use super::{Parameter, chamfer, coincide, ring};
use crate::quantity::{Angle, Length};
use crate::section::{
    CentrePilot, Corner, Curve, Facet, Feature, Item, LeadChamfer, Point, Section, Shape,
};

impl Parameter {
    /// Whether it is an angle, in degrees.
    pub fn is_angle(self) -> bool {
        matches!(self, Self::CornerAngle(_) | Self::TenonChamferAngle | Self::PointAngle(_))
    }

    pub(super) fn get_beside(self, section: &Section) -> Option<f64> {
        let (grip, tenon, shoulder) = (&section.grip, &section.tenon, section.grip.length());
        let size = match self {
            Self::RunEnd(n) if usize::from(n) < grip.runs.len() => {
                grip.runs.get(usize::from(n) - 1)?.to.z
            }
            Self::ArcRadius(n) => return arc(section, n).map(|(radius, _)| radius),
            Self::CornerRadius(n) => match chamfer::corner(grip, usize::from(n))? {
                Corner::Fillet(radius) => radius,
                _ => return None,
            },
            Self::CornerChamfer(n) => return Some(chamfer::drawn(section, usize::from(n))?[0]),
            Self::CornerAngle(n) => return Some(chamfer::drawn(section, usize::from(n))?[1]),
            Self::RingStart(item) => return ring::get(section, item, ring::Part::Start),
            Self::RingEnd(item) => return ring::get(section, item, ring::Part::End),
            Self::RingFloor(item) => return ring::get(section, item, ring::Part::Floor),
            Self::RingRadius(item) => return ring::get(section, item, ring::Part::Radius),
            Self::GripThreadStart => grip.thread.as_ref()?.thread.from,
            Self::GripThreadEnd => grip.thread.as_ref()?.thread.to,
            Self::TenonThreadStart => tenon.thread.from - shoulder,
            Self::TenonThreadEnd => tenon.thread.to - shoulder,
            Self::TenonChamferAngle => {
                let LeadChamfer { depth, length } = tenon.chamfer;
                let none = length == Length::ZERO;
                let angle = libm::atan2(depth.as_mm(), length.as_mm()).to_degrees();
                return (!none).then_some(angle);
            }
            Self::PilotLength => tenon.pilot?.length,
            Self::UnitThreadStart => section.unit_thread.from,
            Self::PointAngle(Item::CentrePilot) => return Some(pilot(section)?.point.as_deg()),
            Self::PointAngle(item) => return Some(section.bore(item)?.point.cone()?.as_deg()),
            Self::CentrePilotDiameter => pilot(section)?.diameter,
            Self::CentrePilotLength => pilot(section)?.length,
            Self::TenonDiameter => tenon.thread.form.crest,
            Self::TenonThreadSize => tenon.thread.form.pitch_diameter,
            Self::GripThreadSize => grip.thread.as_ref()?.thread.form.pitch_diameter,
            _ => return None,
        };
        Some(size.as_mm())
    }

    pub(super) fn set_beside(self, section: &mut Section, value: f64) -> Option<()> {
        let (to, shoulder) = (Length::mm(value), section.grip.length());
        match self {
            Self::RunEnd(n) => move_end(section, n, to)?,
            Self::ArcRadius(n) => {
                let (_, hollow) = arc(section, n)?;
                let run = section.grip.runs.get_mut(usize::from(n) - 1)?;
                run.curve = if hollow { Curve::Concave(to) } else { Curve::Convex(to) };
            }
            Self::CornerRadius(n) => {
                chamfer::replace(&mut section.grip, usize::from(n), Corner::Fillet(to))?;
            }
            Self::CornerChamfer(n) => {
                let [_, angle] = chamfer::drawn(section, usize::from(n))?;
                chamfer::set(section, usize::from(n), [value, angle])?;
            }
            Self::CornerAngle(n) => {
                let [length, _] = chamfer::drawn(section, usize::from(n))?;
                chamfer::set(section, usize::from(n), [length, value])?;
            }
            Self::RingStart(item) => ring::set(section, item, ring::Part::Start, value)?,
            Self::RingEnd(item) => ring::set(section, item, ring::Part::End, value)?,
            Self::RingFloor(item) => ring::set(section, item, ring::Part::Floor, value)?,
            Self::RingRadius(item) => ring::set(section, item, ring::Part::Radius, value)?,
            Self::GripThreadStart => section.grip.thread.as_mut()?.thread.from = to,
            Self::GripThreadEnd => section.grip.thread.as_mut()?.thread.to = to,
            Self::TenonThreadStart => section.tenon.thread.from = shoulder + to,
            Self::TenonThreadEnd => section.tenon.thread.to = shoulder + to,
            Self::TenonChamferAngle => {
                let chamfer = &mut section.tenon.chamfer;
                chamfer.depth = chamfer.length * Angle::deg(value).tan();
            }
            Self::PilotLength => {
                let end = section.length() - section.tenon.pilot?.length;
                section.tenon.pilot.as_mut()?.length = to;
                if coincide(section.tenon.thread.to, end) {
                    section.tenon.thread.to = section.length() - to;
                }
            }
            Self::UnitThreadStart => section.unit_thread.from = to,
            Self::PointAngle(Item::CentrePilot) => pilot_mut(section)?.point = Angle::deg(value),
            Self::PointAngle(item) => {
                let bore = section.bores.iter_mut().find(|bore| bore.item == item)?;
                match &mut bore.point {
                    Point::Flat => return None,
                    Point::Cone(angle) | Point::Centre(angle, _) => *angle = Angle::deg(value),
                }
            }
            Self::CentrePilotDiameter => pilot_mut(section)?.diameter = to,
            Self::CentrePilotLength => pilot_mut(section)?.length = to,
            Self::TenonDiameter => {
                let thread = &mut section.tenon.thread;
                move_rod(thread, to - thread.form.crest)?;
            }
            Self::TenonThreadSize => {
                let thread = &mut section.tenon.thread;
                swell(thread, to - thread.form.pitch_diameter)?;
            }
            Self::GripThreadSize => {
                let thread = &mut section.grip.thread.as_mut()?.thread;
                swell(thread, to - thread.form.pitch_diameter)?;
            }
            _ => return None,
        }
        Some(())
    }
}

/// Moves the end of a run with its steps, the cap's thread and the cap itself where they are at it.
fn move_end(section: &mut Section, n: u8, to: Length) -> Option<()> {
    let old = section.grip.runs.get(usize::from(n) - 1)?.to.z;
    for run in section.grip.runs.iter_mut().filter(|run| coincide(run.to.z, old)) {
        run.to.z = to;
    }
    if let Some(cap) = &mut section.grip.thread {
        for end in [&mut cap.thread.from, &mut cap.thread.to] {
            if coincide(*end, old) {
                *end = to;
            }
        }
    }
    if let Some(cap) = section.cap.as_mut().filter(|cap| coincide(cap.stops_at, old)) {
        cap.stops_at = to;
    }
    Some(())
}

/// Radius of a run's arc, and whether it is hollow; none of a straight one.
fn arc(section: &Section, n: u8) -> Option<(f64, bool)> {
    match section.grip.runs.get(usize::from(n) - 1)?.curve {
        Curve::Straight => None,
        Curve::Concave(radius) => Some((radius.as_mm(), true)),
        Curve::Convex(radius) => Some((radius.as_mm(), false)),
        // What a corner leaves of it lies on the same circle.
        Curve::Through(_) | Curve::TangentBefore | Curve::TangentAfter => {
            let run = chamfer::run(section, Feature::new(Item::Grip(n), Facet::Side))?;
            let Shape::Arc { bulge } = run.shape else { return None };
            let by = [(run.to.z - run.from.z).as_mm(), run.to.radius() - run.from.radius()];
            let chord = libm::hypot(by[0], by[1]);
            Some((chord * (1.0 + bulge * bulge) / (4.0 * bulge.abs()), bulge > 0.0))
        }
    }
}

fn pilot(section: &Section) -> Option<CentrePilot> {
    section.bores.iter().find_map(|bore| match bore.point {
        Point::Centre(_, pilot) => Some(pilot),
        _ => None,
    })
}

fn pilot_mut(section: &mut Section) -> Option<&mut CentrePilot> {
    section.bores.iter_mut().find_map(|bore| match &mut bore.point {
        Point::Centre(_, pilot) => Some(pilot),
        _ => None,
    })
}
