//! Surfaces that others know by name: plane, cylinder, cone, sphere and torus about the axis.

use super::{HalfPoint, Meridian, Screw};

/// Values closer than this are one value: a face shares another's surface where it lies on it
/// that exactly. Were it larger, faces would leave their surfaces by what a reader sees; were it
/// smaller, the rounding of a thread's ends would make two cones of one.
const SAME: f64 = 1e-9;

/// A surface of revolution about the axis, as ISO 10303-42 names them (`elementary_surface`), in
/// millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Elementary {
    /// Across the axis.
    Plane {
        /// Where.
        z: f64,
    },
    /// About the axis.
    Cylinder {
        /// Its radius.
        radius: f64,
    },
    /// About the axis.
    Cone {
        /// Its radius at `z`, not negative.
        radius: f64,
        /// Where it has that radius.
        z: f64,
        /// Growth of the radius along z: the tangent of half the opening angle, signed.
        slope: f64,
    },
    /// Its centre on the axis.
    Sphere {
        /// Of the centre.
        z: f64,
        /// Its radius.
        radius: f64,
    },
    /// A circle of the half-plane, turned about the axis.
    Torus {
        /// Of the circle's centre.
        z: f64,
        /// Of the circle's centre, from the axis; negative where it lies beyond the axis (the
        /// surface of a slight bow, which meets the axis like a lemon).
        major: f64,
        /// Radius of the circle.
        minor: f64,
    },
}

impl Elementary {
    /// What a screw surface is, if it is one of these. A band of a thread, though it climbs, is a
    /// cylinder; a flank is none of these.
    pub fn of(surface: &Screw) -> Option<Self> {
        if surface.out != 0.0 {
            return None;
        }
        match surface.meridian {
            Meridian::Line { from: [r0, z0], to: [r1, z1] } => {
                if r0 == r1 {
                    Some(Self::Cylinder { radius: r0 })
                } else if surface.climb != 0.0 {
                    None
                } else if z0 == z1 {
                    Some(Self::Plane { z: z0 })
                } else {
                    // From the narrower end: a taper's apex may lie far away.
                    let slope = (r1 - r0) / (z1 - z0);
                    let (radius, z) = if r0 < r1 { (r0, z0) } else { (r1, z1) };
                    Some(Self::Cone { radius, z, slope })
                }
            }
            Meridian::Arc { centre: [major, z], radius, .. } => {
                if surface.climb != 0.0 {
                    None
                } else if major.abs() <= SAME {
                    Some(Self::Sphere { z, radius })
                } else {
                    Some(Self::Torus { z, major, minor: radius })
                }
            }
        }
    }

    /// Whether a meridian lies on this surface.
    pub fn carries(&self, meridian: &Meridian) -> bool {
        let on = |[r, z]: HalfPoint| match *self {
            Self::Plane { z: z0 } => (z - z0).abs() <= SAME,
            Self::Cylinder { radius } => (r - radius).abs() <= SAME,
            Self::Cone { radius, z: z0, slope } => {
                (r - radius - (z - z0) * slope).abs() <= SAME * libm::hypot(1.0, slope)
            }
            Self::Sphere { z: z0, radius } => (libm::hypot(r, z - z0) - radius).abs() <= SAME,
            Self::Torus { z: z0, major, minor } => {
                (libm::hypot(r - major, z - z0) - minor).abs() <= SAME
            }
        };
        [0.0, 0.5, 1.0].into_iter().all(|v| on(meridian.at(v)))
    }

    /// Whether material lies on the inner side, where the meridian walks as in
    /// [`crate::section::Part`]: the normal that points out of the material is the surface's own
    /// (along z; away from the axis; away from the circle's centre).
    pub fn faces_out(&self, meridian: &Meridian) -> bool {
        let [dr, dz] = meridian.rate(0.5);
        match self {
            // Out of the material points (dz, -dr).
            Self::Plane { .. } => dr < 0.0,
            Self::Cylinder { .. } | Self::Cone { .. } => dz > 0.0,
            Self::Sphere { .. } | Self::Torus { .. } => {
                matches!(meridian, Meridian::Arc { sweep, .. } if *sweep < 0.0)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: plane geometry.
    #[test]
    fn surfaces_are_known_by_their_meridian() {
        let of = |from, to, climb| Elementary::of(&Screw::straight(from, to, climb));
        assert_eq!(of([2.0, 1.0], [3.0, 1.0], 0.0), Some(Elementary::Plane { z: 1.0 }));
        let cylinder = Some(Elementary::Cylinder { radius: 2.0 });
        assert_eq!(of([2.0, 1.0], [2.0, 5.0], 0.0), cylinder);
        assert_eq!(of([2.0, 1.0], [2.0, 1.1], 0.1), cylinder, "a thread's crest");
        assert_eq!(of([2.0, 1.0], [2.4, 1.2], 0.1), None, "a thread's flank");
        let cone = Elementary::Cone { radius: 2.0, z: 5.0, slope: -0.25 };
        assert_eq!(of([3.0, 1.0], [2.0, 5.0], 0.0), Some(cone));
        assert!(cone.carries(&Meridian::Line { from: [2.5, 3.0], to: [2.25, 4.0] }));
        assert!(!cone.carries(&Meridian::Line { from: [2.5, 3.0], to: [2.25, 4.1] }));
    }

    /// Source: plane geometry. A convex outside (negative bulge) has its centre inside.
    #[test]
    fn an_arc_is_a_torus_or_a_sphere() {
        let bow = Meridian::between([5.0, 0.0], [5.0, 8.0], -0.2);
        let of = |meridian| {
            let turned = Screw::straight([1.0, 0.0], [1.0, 1.0], 0.0);
            Elementary::of(&Screw { meridian, ..turned }).unwrap()
        };
        let torus = of(bow);
        // Sagitta 0.2 x 4 = 0.8, radius (16 + 0.64) / 1.6 = 10.4, centre at 5.8 - 10.4.
        let Elementary::Torus { z, major, minor } = torus else { panic!("{torus:?}") };
        assert!((z - 4.0).abs() < 1e-12 && (major + 4.6).abs() < 1e-12, "{torus:?}");
        assert!((minor - 10.4).abs() < 1e-12 && torus.faces_out(&bow));
        assert!(!torus.faces_out(&bow.reversed()));
        let ball = Meridian::between([3.0, -4.0], [3.0, 4.0], -0.5);
        assert_eq!(of(ball), Elementary::Sphere { z: 0.0, radius: 5.0 });
    }
}
