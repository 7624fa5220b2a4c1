//! Least squares of readings that do not contradict each other.

use super::line::LeastSquares;
use crate::quantity::Length;
use crate::section::{Compensation, Measurand, PlateValue};

/// A reading beside what the fit expects of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// The reading.
    pub reading: PlateValue,
    /// What the fit makes of its size in the file.
    pub expected: Length,
}

impl Residual {
    /// How much more was read than expected.
    pub fn off(&self) -> Length {
        self.reading.value - self.expected
    }
}

/// What is added to a wanted diameter, and how well that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Added {
    /// The wanted diameter.
    pub wanted: Length,
    /// What is added to it in the file.
    pub added: Length,
    /// One standard error: it is off by less than twice that in 92 of 100 plates (Student's t with
    /// 8 degrees of freedom, for ten diameters).
    pub standard_error: Length,
}

/// What is added to the diameters of a kind.
#[derive(Clone, Debug, PartialEq)]
pub struct DiameterFit {
    /// Hole or boss.
    pub kind: Measurand,
    /// In the printer's own terms.
    pub compensation: Compensation,
    /// At the least, the middle and the greatest diameter that was read.
    pub added: [Added; 3],
    /// Every reading, in the order of the plate.
    pub residuals: Vec<Residual>,
    /// Standard deviation of one reading about the line: printer and caliper together.
    pub scatter: Length,
}

/// How far planes across the axis are moved into the material.
#[derive(Clone, Debug, PartialEq)]
pub struct FaceFit {
    /// In the printer's own terms: of each of the two planes that a height lies between.
    pub face: Length,
    /// Its standard error.
    pub standard_error: Length,
    /// Every reading.
    pub residuals: Vec<Residual>,
    /// Standard deviation of one reading about their mean.
    pub scatter: Length,
}

impl DiameterFit {
    /// The fit of readings of one kind; none where they are at fewer than three diameters.
    ///
    /// The readings of a diameter are of one print, and share what the printer did there: their mean
    /// is one point of the line, and the errors are told by how those points scatter.
    pub(super) fn new(kind: Measurand, readings: &[PlateValue]) -> Option<Self> {
        let points = by_diameter(readings);
        let fit = LeastSquares::new(&points)?;
        let (line, share) = (fit.line, 1.0 / fit.line.rate - 1.0);
        let compensation = Compensation { constant: Length::mm(-line.at_zero / line.rate), share };
        let sizes = || points.iter().map(|point| point[0]);
        let (least, greatest) =
            (sizes().fold(f64::INFINITY, f64::min), sizes().fold(0.0, f64::max));
        let added = [least, f64::midpoint(least, greatest), greatest].map(|wanted| {
            let wanted = Length::mm(wanted);
            let in_file = compensation.in_file(wanted);
            // By the derivatives of (wanted - a) / b: the line's own error at that size, over b.
            let standard_error = Length::mm(fit.error_at(in_file.as_mm()) / line.rate.abs());
            Added { wanted, added: compensation.at(wanted), standard_error }
        });
        let expected = |in_file: Length| Length::mm(line.at(in_file.as_mm()));
        let residuals = residuals(readings, expected);
        // Two of them are what the line was fitted with.
        let scatter = scatter(&residuals, 2);
        Some(Self { kind, compensation, added, residuals, scatter })
    }
}

impl FaceFit {
    /// The fit of heights; none of fewer than two.
    ///
    /// A height lies between two planes, each of which came out `face` beyond where it is in the
    /// file.
    pub(super) fn new(readings: &[PlateValue]) -> Option<Self> {
        let count = readings.len() as f64;
        if readings.len() < 2 {
            return None;
        }
        let over = readings.iter().map(|read| read.value - read.of.in_file).sum::<Length>() / count;
        let residuals = residuals(readings, |in_file| in_file + over);
        let scatter = scatter(&residuals, 1);
        let standard_error = scatter / (2.0 * count.sqrt());
        Some(Self { face: over / 2.0, standard_error, residuals, scatter })
    }
}

/// The mean of the readings of each size in the file, in the order of the readings.
fn by_diameter(readings: &[PlateValue]) -> Vec<[f64; 2]> {
    let mut sizes: Vec<(Length, Vec<Length>)> = Vec::new();
    for read in readings {
        match sizes.iter_mut().find(|(in_file, _)| *in_file == read.of.in_file) {
            Some((_, values)) => values.push(read.value),
            None => sizes.push((read.of.in_file, vec![read.value])),
        }
    }
    let mean = |values: Vec<Length>| {
        let count = values.len() as f64;
        values.into_iter().sum::<Length>() / count
    };
    sizes.into_iter().map(|(in_file, values)| [in_file.as_mm(), mean(values).as_mm()]).collect()
}

fn residuals(readings: &[PlateValue], expected: impl Fn(Length) -> Length) -> Vec<Residual> {
    let of = |read: &PlateValue| Residual { reading: *read, expected: expected(read.of.in_file) };
    readings.iter().map(of).collect()
}

/// Standard deviation of residuals, of which so many are not free.
fn scatter(residuals: &[Residual], fitted: usize) -> Length {
    let free = residuals.len().saturating_sub(fitted).max(1) as f64;
    let squares: f64 = residuals.iter().map(|r| r.off().as_mm() * r.off().as_mm()).sum();
    Length::mm((squares / free).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::section::PieceSizes;

    /// Limiting case: without noise the printer's own numbers come back, to the rounding.
    #[test]
    fn without_noise_a_printer_is_found_exactly() {
        let known = Compensation { constant: Length::mm(0.137), share: 0.0041 };
        let readings: Vec<PlateValue> = PieceSizes::ALL[..5]
            .iter()
            .flat_map(PieceSizes::diameters)
            .map(|of| PlateValue { of, nth: 1, value: known.printed(of.in_file) })
            .collect();
        let fit = DiameterFit::new(Measurand::Hole, &readings).unwrap();
        assert!((fit.compensation.constant - known.constant).abs() < Length::mm(1e-12));
        assert!((fit.compensation.share - known.share).abs() < 1e-13);
        assert_eq!(fit.added.map(|a| a.wanted.as_mm()), [4.0, 8.5, 13.0]);
        assert!(fit.scatter < Length::mm(1e-12));
    }

    /// By hand: planes that come out 0.02 too far make a height 0.04 too high.
    #[test]
    fn a_height_lies_between_two_planes() {
        let of = crate::section::PlateReading {
            piece: "plug-1",
            size: "height",
            kind: Measurand::Height,
            in_file: Length::mm(21.0),
            wide: false,
            times: 1,
        };
        let values = [21.03, 21.05].map(|mm| PlateValue { of, nth: 1, value: Length::mm(mm) });
        let fit = FaceFit::new(&values).unwrap();
        assert!((fit.face - Length::mm(0.02)).abs() < Length::mm(1e-12));
        // s = sqrt(2 x 0.01^2), over 2 sqrt 2.
        assert!((fit.standard_error - Length::mm(0.005)).abs() < Length::mm(1e-12));
        assert_eq!(FaceFit::new(&values[..1]), None);
    }
}
