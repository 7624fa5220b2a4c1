//! Distances in space from screw surfaces, by Gauss-Newton steps on their own derivatives: another way
//! than the program's, which works in the half-plane.

use nalgebra::{Matrix2, Vector2, Vector3};
use sectionwright::solid::{Meridian, Screw};
use truck_modeling::ParametricSurface;

/// The point of a surface at its parameters.
pub fn point(screw: &Screw, u: f64, v: f64) -> Vector3<f64> {
    let p = screw.subs(u, v);
    Vector3::new(p.x, p.y, p.z)
}

/// The distance of a point from a surface, which goes on beyond its own v: a face may be cut short,
/// and a straight one be nearly gone.
pub fn distance(screw: &Screw, p: Vector3<f64>) -> f64 {
    let straight = matches!(screw.meridian, Meridian::Line { .. });
    distance_within(screw, p, if straight { 100.0 } else { 3.0 })
}

/// The same of a surface that goes on beyond its own v by so much of it.
pub fn distance_within(screw: &Screw, p: Vector3<f64>, beyond: f64) -> f64 {
    let theta = libm::atan2(p.y, p.x);
    let mut least = f64::INFINITY;
    for v in [0.0, 0.5, 1.0] {
        let turn = std::f64::consts::TAU;
        let height = point(screw, theta, v).z;
        let turns =
            if screw.climb == 0.0 { 0.0 } else { ((p.z - height) / (screw.climb * turn)).round() };
        for turns in [turns - 1.0, turns, turns + 1.0] {
            let (mut u, mut v) = (theta + turns * turn, v);
            for _ in 0..12 {
                let vector = |d: truck_modeling::Vector3| Vector3::new(d.x, d.y, d.z);
                let (su, sv) = (vector(screw.uder(u, v)), vector(screw.vder(u, v)));
                let off = p - point(screw, u, v);
                let normal = Matrix2::new(su.dot(&su), su.dot(&sv), su.dot(&sv), sv.dot(&sv));
                let Some(step) = normal.lu().solve(&Vector2::new(su.dot(&off), sv.dot(&off)))
                else {
                    break;
                };
                (u, v) = (u + step.x, (v + step.y).clamp(-beyond, 1.0 + beyond));
            }
            least = least.min((p - point(screw, u, v)).norm());
        }
    }
    least
}
