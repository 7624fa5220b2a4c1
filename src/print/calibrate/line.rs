//! Straight lines through readings: one that a few wrong ones can't move, and the best one through
//! right ones.

use nalgebra::{Dyn, Matrix2, OMatrix, U2, Vector2};

/// `read = at_zero + rate x in the file`, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Line {
    pub at_zero: f64,
    pub rate: f64,
}

impl Line {
    /// What is read of a size in the file.
    pub fn at(self, in_file: f64) -> f64 {
        self.at_zero + self.rate * in_file
    }

    /// The line whose rate is the median of all those between two points at least half the range
    /// apart, and which has as many points above as below it; none where all points are at one
    /// size.
    ///
    /// Source: Theil (1950) and Sen (1968), from memory, who take all pairs; those at neighbouring
    /// sizes tell a rate by their noise alone. At either end of the range a third of the points may
    /// be anything before the line follows them: leverage is no help to a wrong reading.
    pub fn robust(points: &[[f64; 2]]) -> Option<Self> {
        let sizes = || points.iter().map(|[x, _]| *x);
        let range =
            sizes().fold(f64::NEG_INFINITY, f64::max) - sizes().fold(f64::INFINITY, f64::min);
        let far = |a: &[f64; 2], b: &[f64; 2]| a[0] != b[0] && (b[0] - a[0]).abs() >= range / 2.0;
        let pairs = points.iter().enumerate().flat_map(|(n, a)| {
            let behind = points[n + 1..].iter().filter(move |b| far(a, b));
            behind.map(move |b| (b[1] - a[1]) / (b[0] - a[0]))
        });
        let rate = median(pairs.collect())?;
        let at_zero = median(points.iter().map(|[x, y]| y - rate * x).collect())?;
        Some(Self { at_zero, rate })
    }
}

/// The middle value, or the mean of the two in the middle; none of none.
pub(super) fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let (lower, upper) = (values.len().checked_sub(1)? / 2, values.len() / 2);
    Some(f64::midpoint(values[lower], values[upper]))
}

/// The line of least squares, and how well the points pin it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct LeastSquares {
    pub line: Line,
    /// Where the two coefficients are independent: the mean of the sizes.
    mean: f64,
    /// Variances of the line's value at `mean` and of its rate, and their covariance.
    covariance: Matrix2<f64>,
}

impl LeastSquares {
    /// Through three points or more, not all at one size; the errors are those of the second
    /// coordinates, alike for all points.
    pub fn new(points: &[[f64; 2]]) -> Option<Self> {
        let free = points.len().checked_sub(2).filter(|free| *free > 0)?;
        let mean = points.iter().map(|[x, _]| x).sum::<f64>() / points.len() as f64;
        let rows = |n: usize, column: usize| if column == 0 { 1.0 } else { points[n][0] - mean };
        let design = OMatrix::<f64, Dyn, U2>::from_fn(points.len(), rows);
        let read = nalgebra::DVector::from_iterator(points.len(), points.iter().map(|p| p[1]));
        let normal = design.tr_mul(&design).cholesky()?;
        let coefficients: Vector2<f64> = normal.solve(&design.tr_mul(&read));
        let off = &read - &design * coefficients;
        let covariance = normal.inverse() * (off.norm_squared() / free as f64);
        let (at_mean, rate) = (coefficients[0], coefficients[1]);
        Some(Self { line: Line { at_zero: at_mean - rate * mean, rate }, mean, covariance })
    }

    /// The standard error of the line's value at a size.
    pub fn error_at(&self, in_file: f64) -> f64 {
        let at = Vector2::new(1.0, in_file - self.mean);
        at.dot(&(self.covariance * at)).max(0.0).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Limiting case: exact points give their line, and no error.
    #[test]
    fn exact_points_give_their_line() {
        let points: Vec<[f64; 2]> =
            [4.0, 5.0, 11.0, 13.0].map(|x| [x, 0.2 + 0.99 * x]).into_iter().collect();
        let robust = Line::robust(&points).unwrap();
        let squares = LeastSquares::new(&points).unwrap();
        for line in [robust, squares.line] {
            assert!((line.rate - 0.99).abs() < 1e-12 && (line.at_zero - 0.2).abs() < 1e-12);
        }
        assert!(squares.error_at(13.0) < 1e-12);
        assert_eq!(Line::robust(&[[4.0, 4.0], [4.0, 4.1]]), None);
        assert!(LeastSquares::new(&points[..2]).is_none());
    }

    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, Statistical Reference Datasets,
    /// "Norris" (linear regression, 36 observations): certified estimates and standard deviations.
    #[test]
    fn least_squares_agree_with_the_reference_data_set() {
        let y = [
            0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1,
            778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6,
            339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
        ];
        let x = [
            0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6,
            775.5, 666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8,
            339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
        ];
        let points: Vec<[f64; 2]> = x.into_iter().zip(y).map(|(x, y)| [x, y]).collect();
        let fit = LeastSquares::new(&points).unwrap();
        assert!((fit.line.at_zero - -0.262_323_073_774_029).abs() < 1e-11, "{fit:?}");
        assert!((fit.line.rate - 1.002_116_818_020_45).abs() < 1e-13, "{fit:?}");
        assert!((fit.error_at(0.0) - 0.232_818_234_301_152).abs() < 1e-11, "{fit:?}");
        assert!((fit.covariance[(1, 1)].sqrt() - 0.429_796_848_199_937e-3).abs() < 1e-13);
    }

    /// A third of the points at the end of the range, where they have most leverage, moved by a lot:
    /// the robust line stays within the noise of the others, the line of least squares does not.
    #[test]
    fn leverage_is_no_help_to_wrong_points() {
        let mut points: Vec<[f64; 2]> = (0..18)
            .map(|n| {
                let x = if n < 9 { 4.0 } else { 11.0 } + 0.2 * f64::from(n % 9);
                [x, x - 0.1 + 0.01 * f64::from(n % 3 - 1)]
            })
            .collect();
        for point in &mut points[15..] {
            point[1] += 0.5;
        }
        let robust = Line::robust(&points).unwrap();
        let squares = LeastSquares::new(&points).unwrap();
        assert!((robust.at(12.6) - 12.5).abs() < 0.02, "{}", robust.at(12.6));
        assert!((squares.line.at(12.6) - 12.5).abs() > 0.15);
    }

    #[test]
    fn a_median_is_in_the_middle() {
        assert_eq!(median(vec![]), None);
        assert_eq!(median(vec![3.0, 1.0, 2.0]), Some(2.0));
        assert_eq!(median(vec![4.0, 1.0, 2.0, 3.0]), Some(2.5));
    }
}
