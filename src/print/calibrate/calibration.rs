//! A printer's calibration: everything that the readings of its plate say.

use super::contradiction::{Read, contradictions, threshold};
use super::fault::CalibrationFault;
use super::fit::{DiameterFit, FaceFit};
use super::line::{Line, median};
use crate::quantity::Length;
use crate::section::{Compensation, Measurand, Plate, PlateReading, PlateValue, Printer};

/// Thin diameters, and wide ones, that must be read: with fewer, one that is wrong can't be told
/// from those that are right.
const OF_EACH_GROUP: usize = 3;

/// Heights that must be read, for the same reason.
const HEIGHTS: usize = 3;

/// The greatest constant, or shift of a plane, that a profile takes.
const MOST_CONSTANT: Length = Length::mm(1.0);

/// The greatest share that a profile takes.
const MOST_SHARE: f64 = 0.05;

/// Standard deviations within which a printed diameter is said to lie: 95 of 100 of normal noise.
const WITHIN: f64 = 2.0;

/// Decimals of a millimetre that a profile is written with: below what 0.01 is made of. Fewer would
/// add to the errors, more would promise what nobody measured.
const STEPS: f64 = 1e4;

/// The same of a share: at 13 mm half a step is less than a ten-thousandth.
const SHARE_STEPS: f64 = 1e5;

/// What was measured of a printer.
#[derive(Clone, Debug, PartialEq)]
pub struct Calibration {
    /// Holes; none where none was read.
    pub hole: Option<DiameterFit>,
    /// Pegs; none where none was read.
    pub boss: Option<DiameterFit>,
    /// Planes across the axis; none where no height was read.
    pub face: Option<FaceFit>,
}

/// The calibration of a printer from the readings of its plate, printed without compensation.
///
/// What was not read at all is not calibrated, and [`Calibration::kept`] says so.
///
/// # Errors
/// Everything that is wrong with the readings: too few of a kind that was read, readings that
/// contradict each other, a result that no printer has.
pub fn calibrate(
    plate: &Plate,
    taken: &[PlateValue],
) -> Result<Calibration, Vec<CalibrationFault>> {
    let mut faults = Vec::new();
    if taken.is_empty() {
        faults.push(CalibrationFault::Nothing);
    }
    let asked = plate.readings();
    let kinds = Measurand::ALL.map(|kind| {
        let of_kind = taken.iter().filter(|read| read.of.kind == kind);
        let readings: Vec<PlateValue> = of_kind.copied().collect();
        let missing = if readings.is_empty() { vec![] } else { missing(&asked, &readings, kind) };
        let line = missing.is_empty().then(|| line(&readings, kind)).flatten();
        faults.extend(missing);
        Read { readings, line }
    });
    let most = threshold(&kinds);
    for kind in &kinds {
        let found = contradictions(kind, most, &asked).into_iter();
        faults.extend(found.map(CalibrationFault::Contradiction));
    }
    let [hole, boss, face] = kinds;
    let [hole, boss] = [(Measurand::Hole, hole), (Measurand::Boss, boss)].map(|(kind, read)| {
        let fit = read.line.and_then(|_| DiameterFit::new(kind, &read.readings));
        // What follows from readings that contradict each other is no fault of its own.
        if let Some(fit) = fit.as_ref().filter(|_| faults.is_empty()) {
            faults.extend(no_printer(fit));
        }
        fit
    });
    let face = face.line.and_then(|_| FaceFit::new(&face.readings));
    if faults.is_empty() { Ok(Calibration { hole, boss, face }) } else { Err(faults) }
}

/// The robust line through readings; a height is moved, and not in proportion.
fn line(readings: &[PlateValue], kind: Measurand) -> Option<Line> {
    let points: Vec<[f64; 2]> =
        readings.iter().map(|r| [r.of.in_file.as_mm(), r.value.as_mm()]).collect();
    if kind == Measurand::Height {
        let over = median(points.iter().map(|[x, y]| y - x).collect())?;
        return Some(Line { at_zero: over, rate: 1.0 });
    }
    Line::robust(&points)
}

/// A result that a profile does not take.
fn no_printer(fit: &DiameterFit) -> Option<CalibrationFault> {
    let Compensation { constant, share } = fit.compensation;
    let sound = constant.abs() <= MOST_CONSTANT && share.abs() <= MOST_SHARE;
    (!sound).then_some(CalibrationFault::NoPrinter { kind: fit.kind, constant, share })
}

/// Of which sizes too few were read: the thin ones, the wide ones, the heights.
fn missing(asked: &[PlateReading], read: &[PlateValue], kind: Measurand) -> Vec<CalibrationFault> {
    let (groups, needed) = match kind {
        Measurand::Height => (&[false][..], HEIGHTS),
        _ => (&[false, true][..], OF_EACH_GROUP),
    };
    groups
        .iter()
        .filter_map(|wide| {
            let of_group = asked.iter().filter(|of| of.kind == kind && of.wide == *wide);
            let of_group: Vec<_> = of_group.collect();
            let was_read = |of: &&&_| read.iter().any(|r| r.of == ***of);
            let found = of_group.iter().filter(|of| was_read(of)).count();
            let unread = of_group.iter().filter(|of| !was_read(of));
            let name = unread.map(|of| of.name()).next().filter(|_| found < needed)?;
            Some(CalibrationFault::TooFew { kind, wide: *wide, found, needed, such_as: name })
        })
        .collect()
}

impl Calibration {
    /// The fits of diameters, holes first.
    pub fn diameters(&self) -> impl Iterator<Item = &DiameterFit> {
        self.hole.iter().chain(&self.boss)
    }

    /// What stays as it was, in words: what was not read, and the flanks, which a caliper does not
    /// reach.
    pub fn kept(&self) -> Vec<&'static str> {
        let unread = [
            (self.hole.is_none(), "`hole` stays as it was: no hole was read"),
            (self.boss.is_none(), "`boss` stays as it was: no peg was read"),
            (self.face.is_none(), "`face` stays as it was: no height was read"),
            (true, "`thread` stays as it was: a caliper does not reach the flanks of a thread"),
        ];
        unread.into_iter().filter_map(|(kept, words)| kept.then_some(words)).collect()
    }

    /// The printer with what was measured in place of its own, in the digits that a profile is
    /// written with.
    ///
    /// Its scatter only grows: one plate shows how far prints may be off at least, and not how far
    /// they will be another day.
    #[must_use]
    pub fn applied(&self, printer: &Printer) -> Printer {
        let digits = |length: Length| Length::mm((length.as_mm() * STEPS).round() / STEPS + 0.0);
        let of = |fit: &Option<DiameterFit>, own: Compensation| {
            fit.as_ref().map_or(own, |fit| Compensation {
                constant: digits(fit.compensation.constant),
                share: (fit.compensation.share * SHARE_STEPS).round() / SHARE_STEPS + 0.0,
            })
        };
        let scatter = self.diameters().map(|fit| digits(fit.scatter * WITHIN));
        Printer {
            hole: of(&self.hole, printer.hole),
            boss: of(&self.boss, printer.boss),
            face: self.face.as_ref().map_or(printer.face, |fit| digits(fit.face)),
            scatter: scatter.fold(printer.scatter, Length::max),
            ..printer.clone()
        }
    }
}
