//! Points and directions of the half-plane.

use std::ops::{Add, Mul, Sub};

use crate::quantity::Length;
use crate::section::Station;

/// A point or a direction in millimetres: z along the axis to the right, r upwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::section) struct Vector {
    pub z: f64,
    pub r: f64,
}

impl Vector {
    pub fn new(z: f64, r: f64) -> Self {
        Self { z, r }
    }

    /// The point of a station.
    pub fn of(station: Station) -> Self {
        Self { z: station.z.as_mm(), r: station.radius() }
    }

    /// The station of a point.
    pub fn station(self) -> Station {
        Station::new(Length::mm(self.r * 2.0), Length::mm(self.z))
    }

    pub fn dot(self, other: Self) -> f64 {
        self.z * other.z + self.r * other.r
    }

    /// Positive where `other` lies to the left of this direction.
    pub fn cross(self, other: Self) -> f64 {
        self.z * other.r - self.r * other.z
    }

    pub fn length(self) -> f64 {
        libm::hypot(self.z, self.r)
    }

    /// The same direction, one millimetre long.
    pub fn unit(self) -> Self {
        self * (1.0 / self.length())
    }

    /// Turned to the left by a right angle.
    pub fn left(self) -> Self {
        Self { z: -self.r, r: self.z }
    }

    /// Turned to the left by an angle in radians.
    pub fn turned(self, angle: f64) -> Self {
        let (sin, cos) = libm::sincos(angle);
        self * cos + self.left() * sin
    }

    /// The angle from this direction to another, in radians, positive to the left.
    pub fn angle_to(self, other: Self) -> f64 {
        libm::atan2(self.cross(other), self.dot(other))
    }
}

impl Add for Vector {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { z: self.z + other.z, r: self.r + other.r }
    }
}

impl Sub for Vector {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { z: self.z - other.z, r: self.r - other.r }
    }
}

impl Mul<f64> for Vector {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self { z: self.z * factor, r: self.r * factor }
    }
}
