//! Surfaces: each of those that have a name once, and splines for flanks.

use super::exchange::{Exchange, Id, list};
use super::geometry::{DOWN, UP, direction, knots, on_axis, placement, point};
use super::real::real;
use crate::solid::{Elementary, Fit, Piece};

/// The named surfaces written so far: faces that lie on one share it, so that a reader who counts
/// cylinders counts what was turned and drilled.
#[derive(Default)]
pub(super) struct Surfaces(Vec<(Elementary, Id)>);

impl Surfaces {
    /// The surface of a face, and whether its own normal points out of the material.
    pub fn of(&mut self, data: &mut Exchange, face: &Piece, fit: Fit) -> (Id, bool) {
        let Some(own) = Elementary::of(&face.surface) else {
            return (spline(data, face, fit), true);
        };
        let meridian = &face.surface.meridian;
        let alike = |known: &Elementary| {
            std::mem::discriminant(known) == std::mem::discriminant(&own) && known.carries(meridian)
        };
        let found = self.0.iter().find(|(known, _)| alike(known)).copied();
        let (known, id) = found.unwrap_or_else(|| {
            let id = elementary(data, &own);
            self.0.push((own, id));
            (own, id)
        });
        (id, known.faces_out(meridian))
    }
}

fn elementary(data: &mut Exchange, surface: &Elementary) -> Id {
    let record = match *surface {
        Elementary::Plane { z } => format!("PLANE('',{})", on_axis(data, z, UP)),
        Elementary::Cylinder { radius } => {
            format!("CYLINDRICAL_SURFACE('',{},{})", on_axis(data, 0.0, UP), real(radius))
        }
        Elementary::Cone { radius, z, slope } => {
            // A cone widens along its own axis.
            let axis = if slope > 0.0 { UP } else { DOWN };
            let half_angle = libm::atan(slope.abs());
            let place = on_axis(data, z, axis);
            format!("CONICAL_SURFACE('',{place},{},{})", real(radius), real(half_angle))
        }
        Elementary::Sphere { z, radius } => {
            format!("SPHERICAL_SURFACE('',{},{})", on_axis(data, z, UP), real(radius))
        }
        Elementary::Torus { z, major, minor } if major > 0.0 => {
            let (kind, outer) = if minor <= major {
                ("TOROIDAL_SURFACE", "")
            } else {
                ("DEGENERATE_TOROIDAL_SURFACE", ",.T.")
            };
            format!("{kind}('',{},{},{}{outer})", on_axis(data, z, UP), real(major), real(minor))
        }
        Elementary::Torus { z, major, minor } => lemon(data, z, major, minor),
    };
    data.value(record)
}

/// The inner part of a torus that meets the axis: an arc from the axis to the axis, turned.
///
/// As a `DEGENERATE_TOROIDAL_SURFACE` its own normal would point inwards here, since the tube's
/// turn is counted from the far side; Open CASCADE reads it so whatever `select_outer` says. The
/// arc is trimmed at the axis: with the whole circle its poles are not at an end of the surface's
/// parameters, and Open CASCADE finds the solid invalid.
fn lemon(data: &mut Exchange, z: f64, major: f64, minor: f64) -> String {
    // The circle's angle is counted from r towards z: then the turn and it make a normal that
    // points away from the circle's centre.
    let place = placement(data, [major, 0.0, z], [0.0, -1.0, 0.0], [1.0, 0.0, 0.0]);
    let circle = data.value(format!("CIRCLE('',{place},{})", real(minor)));
    let end = libm::acos(-major / minor);
    let arc = data.value(format!(
        "TRIMMED_CURVE('',{circle},(PARAMETER_VALUE({})),(PARAMETER_VALUE({})),.T.,.PARAMETER.)",
        real(-end),
        real(end)
    ));
    let (origin, up) = (point(data, [0.0; 3]), direction(data, UP));
    let axis = data.value(format!("AXIS1_PLACEMENT('',{origin},{up})"));
    format!("SURFACE_OF_REVOLUTION('',{arc},{axis})")
}

fn spline(data: &mut Exchange, face: &Piece, fit: Fit) -> Id {
    let surface = fit.surface(&face.surface, face.u);
    let rows: Vec<String> = surface
        .points
        .iter()
        .map(|row| list(row.iter().map(|p| point(data, *p)).collect::<Vec<_>>()))
        .collect();
    let record = format!(
        "B_SPLINE_SURFACE_WITH_KNOTS('',{},{},({}),.UNSPECIFIED.,.F.,.F.,.F.,{},.UNSPECIFIED.)",
        surface.u.degree,
        surface.v.degree,
        rows.join(","),
        knots(&[&surface.u, &surface.v])
    );
    data.value(record)
}
