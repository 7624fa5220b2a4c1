//! Straight segments: the point nearest to another, and where two cross.

use nalgebra::Vector2;

use crate::solid::HalfPoint;

/// The point of a segment that is nearest to p.
pub(super) fn foot(p: HalfPoint, [a, b]: [HalfPoint; 2]) -> HalfPoint {
    let (p, a, b) = (Vector2::from(p), Vector2::from(a), Vector2::from(b));
    let along = b - a;
    let square = along.norm_squared();
    if square == 0.0 {
        return a.into();
    }
    let t = ((p - a).dot(&along) / square).clamp(0.0, 1.0);
    // Exactly the end at t = 1: a + (b - a) need not be b.
    if t == 1.0 { b.into() } else { (a + along * t).into() }
}

/// Where two segments cross inside both; none for parallel ones, which if they meet do so at
/// an end.
pub(super) fn crossing([a, b]: [HalfPoint; 2], [c, d]: [HalfPoint; 2]) -> Option<HalfPoint> {
    let (a, b) = (Vector2::from(a), Vector2::from(b));
    let (c, d) = (Vector2::from(c), Vector2::from(d));
    let (u, v) = (b - a, d - c);
    let determinant = u.perp(&v);
    if determinant == 0.0 {
        return None;
    }
    let (s, t) = ((c - a).perp(&v) / determinant, (c - a).perp(&u) / determinant);
    let inside = |x: f64| (0.0..=1.0).contains(&x);
    (inside(s) && inside(t)).then(|| (a + u * s).into())
}
