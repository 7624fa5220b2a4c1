//! The integrals over a body that become integrals over its skin, and their antiderivatives.
//!
//! Each moment is the divergence of a field; the field's flux through a face, per du dv, is its
//! product with `S_u x S_v`. Along u the flux is integrated in closed form, so that the integral
//! over a face becomes one round its boundary in (u, v).

use super::Screw;

/// Integrals that are kept of each face.
pub(super) const COUNT: usize = 11;

/// Volume, area, the first moments x y z, the second moments xx yy zz xy xz yz.
pub(super) type Integrals = [f64; COUNT];

/// Where each integral stands.
pub(super) mod at {
    pub const VOLUME: usize = 0;
    pub const AREA: usize = 1;
    pub const FIRST: usize = 2;
    pub const SECOND: usize = 5;
}

/// The flux of each field per du dv at (u, v).
///
/// ```text
/// volume  (x, y, 0) / 2       x   (x^2, 0, 0) / 2   y   (0, y^2, 0) / 2   z   (x z, y z, 0) / 2
/// xx      (x^3, 0, 0) / 3     yy  (0, y^3, 0) / 3   zz  (x z^2, y z^2, 0) / 2
/// xy      (x^2 y, 0, 0) / 2   xz  (x^2 z, 0, 0) / 2 yz  (0, y^2 z, 0) / 2
/// ```
pub(super) fn flux(surface: &Screw, u: f64, v: f64) -> Integrals {
    let p = surface.polar(u, surface.meridian.at(v));
    let [radial, tangential, _] = surface.normal(u, v);
    let (sin, cos) = libm::sincos(u);
    let (x, y, z) = (p.r * cos, p.r * sin, p.z);
    let (nx, ny) = (radial * cos - tangential * sin, radial * sin + tangential * cos);
    let out = p.r * radial / 2.0;
    [
        out,
        surface.area_density(u, v),
        x * x / 2.0 * nx,
        y * y / 2.0 * ny,
        z * out,
        x * x * x / 3.0 * nx,
        y * y * y / 3.0 * ny,
        z * z * out,
        x * x * y / 2.0 * nx,
        x * x * z / 2.0 * nx,
        y * y * z / 2.0 * ny,
    ]
}

/// Antiderivatives of [`flux`] in u, for a surface that is not drawn out (`out` = 0): then radius
/// and normal do not depend on u, and z only grows with it.
pub(super) fn antiderivatives(surface: &Screw, u: f64, v: f64) -> Integrals {
    let ([r, z0], k) = (surface.meridian.at(v), surface.climb);
    let [radial, tangential, _] = surface.normal(u, v);
    let z = z0 + k * u;
    let (s, c) = libm::sincos(u);
    let (s3, c3) = (s * s * s / 3.0, c * c * c / 3.0);
    // Integrals of cos^3 and sin^3, and of those once more.
    let (cos3, sin3) = (s - s3, c3 - c);
    let (cos3_again, sin3_again) = (-(2.0 * c + c3) / 3.0, -(2.0 * s + s3) / 3.0);
    // Of cos^4, sin^4 and cos^2 sin^2.
    let (double, quadruple) = (2.0 * s * c, 4.0 * s * c * (1.0 - 2.0 * s * s));
    let cos4 = 0.375 * u + double / 4.0 + quadruple / 32.0;
    let sin4 = 0.375 * u - double / 4.0 + quadruple / 32.0;
    let both = u / 8.0 - quadruple / 32.0;
    let (c4, s4) = (c3 * c * 0.75, s3 * s * 0.75);
    let (half, third, out) = (r * r / 2.0, r * r * r / 3.0, r * radial / 2.0);
    [
        out * u,
        surface.area_density(u, v) * u,
        half * (radial * cos3 + tangential * c3),
        half * (radial * sin3 + tangential * s3),
        out * (z0 * u + k * u * u / 2.0),
        third * (radial * cos4 + tangential * c4),
        third * (radial * sin4 + tangential * s4),
        out * u * (z0 * z0 + u * (z0 * k + k * k * u / 3.0)),
        -1.5 * third * (radial * c4 + tangential * both),
        half * (radial * (z * cos3 - k * cos3_again) + tangential * (z * c3 - k * cos3 / 3.0)),
        half * (radial * (z * sin3 - k * sin3_again) + tangential * (z * s3 - k * sin3 / 3.0)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::TAU;

    /// Independent route: the antiderivative's central difference is the flux.
    #[test]
    fn antiderivatives_differ_by_the_flux() {
        let surface = Screw::straight([4.6, 21.0], [5.0, 21.23], 0.75 / TAU);
        let (v, h) = (0.3, 1e-4);
        for u in [-2.0, 0.4, 3.0, 11.0] {
            let (low, high) =
                (antiderivatives(&surface, u - h, v), antiderivatives(&surface, u + h, v));
            for (n, flux) in flux(&surface, u, v).into_iter().enumerate() {
                let slope = (high[n] - low[n]) / (2.0 * h);
                let scale = flux.abs().max(1.0);
                assert!((slope - flux).abs() < 1e-5 * scale, "{n} at {u}: {slope} {flux}");
            }
        }
    }
}
