//! Lengths, angles and speeds as whoever stands at the lathe reads them.

use crate::drawing::part::Units;
use crate::quantity::{Angle, Length, Limits};
use crate::shop::Handwheel;

/// Above the noise of a sum, below a step of the rounding, in steps.
const NOISE: f64 = 1e-6;

/// How numbers are written.
#[derive(Clone, Copy, Debug)]
pub struct Numbers {
    /// Millimetres or inches.
    pub units: Units,
}

impl Numbers {
    /// Hundredths of a millimetre, or thousandths of an inch: what a caliper reads.
    pub fn length(self, length: Length) -> String {
        let (value, digits) = match self.units {
            Units::Millimetres => (length.as_mm(), 2),
            Units::Inches => (length.as_inch(), 3),
        };
        let text = format!("{value:.digits$}");
        // What rounds to nothing has no sign.
        if text.trim_matches(['-', '0', '.']).is_empty() { text.replace('-', "") } else { text }
    }

    /// The least of a range, rounded up, so that nobody is promised more than there is.
    pub fn inner_least(self, mm: f64) -> String {
        let (value, per, digits) = self.scaled(mm);
        format!("{:.digits$}", (value * per - NOISE).ceil() / per)
    }

    /// The most of a range, rounded down.
    pub fn inner_most(self, mm: f64) -> String {
        let (value, per, digits) = self.scaled(mm);
        format!("{:.digits$}", (value * per + NOISE).floor() / per)
    }

    /// A length in its unit, the steps in a unit that are shown, and their digits.
    fn scaled(self, mm: f64) -> (f64, f64, usize) {
        match self.units {
            Units::Millimetres => (mm, 100.0, 2),
            Units::Inches => (Length::mm(mm).as_inch(), 1000.0, 3),
        }
    }

    /// A step finer than a caliper reads, for what is multiplied: a wheel's division, an error a turn.
    pub fn fine(self, length: Length) -> String {
        let (value, _, digits) = self.scaled(length.as_mm());
        let text = format!("{value:.*}", digits + 2);
        // Two digits more, as far as they say anything.
        let shown = text.trim_end_matches('0');
        let least = text.len() - 2;
        if shown.len() < least { text[..least].to_owned() } else { shown.to_owned() }
    }

    /// A diameter, with its sign.
    pub fn diameter(self, diameter: Length) -> String {
        format!("Ø{}", self.length(diameter))
    }

    /// Two limits.
    pub fn limits(self, limits: Limits) -> String {
        format!("{} to {}", self.length(limits.min()), self.length(limits.max()))
    }

    /// What the numbers are in.
    pub fn unit(self) -> &'static str {
        match self.units {
            Units::Millimetres => "mm",
            Units::Inches => "in",
        }
    }
}

/// Tenths of a degree; a slope is set by a vernier of twelfths.
pub fn angle(angle: Angle) -> String {
    format!("{:.1}°", angle.as_deg())
}

/// Turns of a hand, to a quarter.
pub fn turns(turns: f64) -> String {
    let quarters = (turns * 4.0).round();
    let whole = (quarters / 4.0).floor();
    let part = ["", "1/4", "1/2", "3/4"][((quarters - whole * 4.0) as usize).min(3)];
    match (whole as u32, part) {
        (0, "") => "0".to_owned(),
        (0, part) => part.to_owned(),
        (whole, "") => whole.to_string(),
        (whole, part) => format!("{whole} {part}"),
    }
}

/// A way of the quill: `6 turns 20 div`.
pub fn handwheel(wheel: Handwheel) -> String {
    let Handwheel { turns, divisions } = wheel;
    let plural = if turns == 1 { "turn" } else { "turns" };
    match divisions {
        Some(divisions) if divisions.fract() == 0.0 => {
            format!("{turns} {plural} + {divisions:.0} div")
        }
        Some(divisions) => format!("{turns} {plural} + {divisions:.1} div"),
        None => format!("about {turns} {plural}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_they_are_read() {
        let mm = Numbers { units: Units::Millimetres };
        let inch = Numbers { units: Units::Inches };
        assert_eq!(mm.length(Length::mm(4.349_99)), "4.35");
        assert_eq!(mm.length(Length::mm(-0.001)), "0.00");
        assert_eq!(inch.length(Length::mm(12.7)), "0.500");
        // Inwards, never outwards; what is on a step stays there.
        assert_eq!([mm.inner_least(7.278), mm.inner_most(7.378)], ["7.28", "7.37"]);
        assert_eq!([mm.inner_least(0.1 + 0.2), mm.inner_most(0.1 + 0.2)], ["0.30", "0.30"]);
        assert_eq!([inch.inner_least(7.278), inch.inner_most(7.378)], ["0.287", "0.290"]);
        assert_eq!([turns(9.77), turns(0.5), turns(0.9), turns(14.0)], ["9 3/4", "1/2", "1", "14"]);
        let wheel = |divisions| Handwheel { turns: 1, divisions };
        assert_eq!(handwheel(wheel(Some(20.0))), "1 turn + 20 div");
        assert_eq!(handwheel(wheel(Some(19.5))), "1 turn + 19.5 div");
        assert_eq!(handwheel(wheel(None)), "about 1 turn");
    }
}
