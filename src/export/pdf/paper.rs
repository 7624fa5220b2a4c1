//! From millimetres of the part to points on the page.

use krilla::geom::{Point as PagePoint, Size};

use crate::drawing::Point;
use crate::drawing::Sheet;
use crate::export::ExportError;

/// PDF's unit in a millimetre: 72 in an inch of 25.4 mm (ISO 32000-1:2008, 8.3.2.3).
const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// The greatest width and height of a page, in mm: 14 400 points (ISO 32000-1:2008, annex C.2,
/// from memory). Readers cut larger ones or refuse them.
const GREATEST_PAGE: f64 = 14_400.0 / POINTS_PER_MM;

/// Where things lie on the page: x from its left, y from its top downwards, in points.
#[derive(Clone, Copy, Debug)]
pub struct Paper {
    left: f64,
    top: f64,
    scale: f64,
    size: Size,
}

impl Paper {
    /// A page as large as the sheet.
    pub fn of(sheet: &Sheet) -> Result<Self, ExportError> {
        let [low, high] = sheet.area;
        let mm = [high.x - low.x, high.y - low.y].map(|length| length * sheet.scale);
        let [width, height] = mm.map(points);
        let fits = mm.iter().all(|length| *length <= GREATEST_PAGE);
        let size = Size::from_wh(width, height).filter(|_| fits);
        let size = size.ok_or(ExportError::PdfPage { size: mm, limit: GREATEST_PAGE })?;
        Ok(Self { left: low.x, top: high.y, scale: sheet.scale, size })
    }

    /// Of the page, in points.
    pub fn size(self) -> Size {
        self.size
    }

    /// A place of the drawing on the page.
    pub fn place(self, point: Point) -> PagePoint {
        PagePoint::from_xy(self.length(point.x - self.left), self.length(self.top - point.y))
    }

    /// A length of the drawing on the page.
    pub fn length(self, of_part: f64) -> f32 {
        points(self.mm(of_part))
    }

    /// A length of the drawing on the page, in mm.
    pub fn mm(self, of_part: f64) -> f64 {
        of_part * self.scale
    }
}

/// Millimetres on paper in points. The library counts in f32: 24 bits, which on an A3 sheet are
/// less than 0.03 micrometres.
pub fn points(mm: f64) -> f32 {
    (mm * POINTS_PER_MM) as f32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Drawing;

    fn sheet(width: f64, scale: f64) -> Sheet {
        let area = [Point::new(-5.0, -10.0), Point::new(width - 5.0, 190.0)];
        Sheet {
            drawing: Drawing::default(),
            scale,
            area,
            title: String::new(),
            description: String::new(),
        }
    }

    /// An inch is 25.4 mm and 72 points.
    #[test]
    fn places_count_from_the_upper_left_corner() {
        let paper = Paper::of(&sheet(254.0, 2.0)).unwrap();
        assert_eq!(paper.size(), Size::from_wh(1440.0, 1_133.858_3).unwrap());
        assert_eq!(paper.place(Point::new(-5.0, 190.0)), PagePoint::from_xy(0.0, 0.0));
        assert_eq!(paper.place(Point::new(7.7, 177.3)), PagePoint::from_xy(72.0, 72.0));
        assert_eq!(paper.length(12.7), 72.0);
    }

    #[test]
    fn no_page_is_empty_or_larger_than_pages_may_be() {
        for (width, scale) in [(0.0, 1.0), (-1.0, 1.0), (f64::NAN, 1.0), (510.0, 10.0)] {
            let error = Paper::of(&sheet(width, scale)).unwrap_err();
            assert_eq!(error.code(), "export.pdf-page", "{width}");
        }
        assert!(Paper::of(&sheet(507.0, 10.0)).is_ok(), "5070 of 5080 mm");
    }
}
