//! A rectangle on paper.

use crate::drawing::Point;

/// A rectangle, in mm on paper; the sheet's lower left corner is (0, 0).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Its lower left corner.
    pub low: Point,
    /// Its upper right corner.
    pub high: Point,
}

impl Area {
    /// From two opposite corners.
    pub fn new(low: [f64; 2], high: [f64; 2]) -> Self {
        Self { low: Point::new(low[0], low[1]), high: Point::new(high[0], high[1]) }
    }

    /// Its width in mm.
    pub fn width(self) -> f64 {
        self.high.x - self.low.x
    }

    /// Its height in mm.
    pub fn height(self) -> f64 {
        self.high.y - self.low.y
    }

    /// Its centre.
    pub fn centre(self) -> Point {
        Point::new(f64::midpoint(self.low.x, self.high.x), f64::midpoint(self.low.y, self.high.y))
    }

    /// The same, smaller by so much on each side; greater where it is negative.
    #[must_use]
    pub fn inset(self, by: f64) -> Self {
        Self::new([self.low.x + by, self.low.y + by], [self.high.x - by, self.high.y - by])
    }

    /// Its corners, anticlockwise from the lower left, and the first once more.
    pub(in crate::drawing) fn round(self) -> Vec<Point> {
        let Self { low, high } = self;
        vec![low, Point::new(high.x, low.y), high, Point::new(low.x, high.y), low]
    }
}
