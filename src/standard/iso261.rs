//! ISO 261:1998, which diameters and pitches belong together.
//!
//! The table is from memory, 1 to 30 mm: no source was at hand to hold it to. Pitches in brackets in
//! the standard (M14x1.25 for spark plugs, M30x3) are listed like the others.

use crate::quantity::Length;

/// The pitches of one diameter.
struct Row {
    diameter: f64,
    coarse: Option<f64>,
    fine: &'static [f64],
}

const fn row(diameter: f64, coarse: f64, fine: &'static [f64]) -> Row {
    Row { diameter, coarse: Some(coarse), fine }
}

const fn fine_only(diameter: f64, fine: &'static [f64]) -> Row {
    Row { diameter, coarse: None, fine }
}

/// ISO 261:1998 table 2 up to 30 mm, all three choices of diameter, from memory.
const TABLE: [Row; 35] = [
    row(1.0, 0.25, &[0.2]),
    row(1.1, 0.25, &[0.2]),
    row(1.2, 0.25, &[0.2]),
    row(1.4, 0.3, &[0.2]),
    row(1.6, 0.35, &[0.2]),
    row(1.8, 0.35, &[0.2]),
    row(2.0, 0.4, &[0.25]),
    row(2.2, 0.45, &[0.25]),
    row(2.5, 0.45, &[0.35]),
    row(3.0, 0.5, &[0.35]),
    row(3.5, 0.6, &[0.35]),
    row(4.0, 0.7, &[0.5]),
    row(4.5, 0.75, &[0.5]),
    row(5.0, 0.8, &[0.5]),
    fine_only(5.5, &[0.5]),
    row(6.0, 1.0, &[0.75]),
    row(7.0, 1.0, &[0.75]),
    row(8.0, 1.25, &[1.0, 0.75]),
    row(9.0, 1.25, &[1.0, 0.75]),
    row(10.0, 1.5, &[1.25, 1.0, 0.75]),
    row(11.0, 1.5, &[1.0, 0.75]),
    row(12.0, 1.75, &[1.5, 1.25, 1.0]),
    row(14.0, 2.0, &[1.5, 1.25, 1.0]),
    fine_only(15.0, &[1.5, 1.0]),
    row(16.0, 2.0, &[1.5, 1.0]),
    fine_only(17.0, &[1.5, 1.0]),
    row(18.0, 2.5, &[2.0, 1.5, 1.0]),
    row(20.0, 2.5, &[2.0, 1.5, 1.0]),
    row(22.0, 2.5, &[2.0, 1.5, 1.0]),
    row(24.0, 3.0, &[2.0, 1.5, 1.0]),
    fine_only(25.0, &[2.0, 1.5, 1.0]),
    fine_only(26.0, &[1.5]),
    row(27.0, 3.0, &[2.0, 1.5, 1.0]),
    fine_only(28.0, &[2.0, 1.5, 1.0]),
    row(30.0, 3.5, &[3.0, 2.0, 1.5, 1.0]),
];

/// Two sizes closer than this are one: wider than the noise of arithmetic on written decimals,
/// far below the 0.05 mm between the nearest pitches in use.
pub(super) const SAME: f64 = 1e-6;

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < SAME
}

fn find(diameter: Length) -> Option<&'static Row> {
    TABLE.iter().find(|row| same(row.diameter, diameter.as_mm()))
}

/// The diameters of the table, ascending.
pub fn diameters() -> impl Iterator<Item = Length> {
    TABLE.iter().map(|row| Length::mm(row.diameter))
}

/// The pitches of a diameter, coarsest first; none when the table lacks the diameter.
pub fn pitches(diameter: Length) -> Vec<Length> {
    find(diameter)
        .map(|row| row.coarse.iter().chain(row.fine).copied().map(Length::mm).collect())
        .unwrap_or_default()
}

/// The coarse pitch of a diameter, which a designation may leave out (M10 is M10x1.5).
pub fn coarse_pitch(diameter: Length) -> Option<Length> {
    find(diameter)?.coarse.map(Length::mm)
}

/// Whether the table has this diameter with this pitch.
pub fn is_standard(diameter: Length, pitch: Length) -> bool {
    pitches(diameter).iter().any(|listed| same(listed.as_mm(), pitch.as_mm()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn table_is_in_order_and_pitches_fall() {
        assert!(TABLE.windows(2).all(|pair| pair[0].diameter < pair[1].diameter));
        for diameter in diameters() {
            let pitches = pitches(diameter);
            assert!(!pitches.is_empty());
            assert!(pitches.windows(2).all(|pair| pair[0] > pair[1]), "{diameter}");
        }
    }

    #[test]
    fn knows_what_it_lists() {
        assert_eq!(coarse_pitch(Length::mm(10.0)), Some(Length::mm(1.5)));
        assert_eq!(coarse_pitch(Length::mm(5.5)), None);
        assert!(is_standard(Length::mm(10.0), Length::mm(0.75)));
        assert!(!is_standard(Length::mm(10.0), Length::mm(0.5)));
        assert!(!is_standard(Length::mm(8.05), Length::mm(0.55)));
        assert!(pitches(Length::mm(13.0)).is_empty());
    }
}
