//! How a size is written: value, limits, and what a machinist calls it.

use super::scheme::{Role, Size, Wall};
use crate::section::{Facet, Feature, Item};

/// The unit in which sizes are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Millimetres.
    #[default]
    Millimetres,
    /// Inches, of 25.4 mm.
    Inches,
}

impl Units {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Millimetres, Self::Inches];

    /// What a millimetre is in it.
    pub fn factor(self) -> f64 {
        match self {
            Self::Millimetres => 1.0,
            Self::Inches => 1.0 / 25.4,
        }
    }

    /// As it is typed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Millimetres => "mm",
            Self::Inches => "inch",
        }
    }
}

/// How far a number may be off, in millimetres or degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Allowed {
    /// By the general tolerance of the drawing.
    General,
    /// By so much under and over, both zero or more.
    Own([f64; 2]),
}

/// How far a size may be off: a chamfer has two numbers, any other one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowances {
    /// The measured value.
    pub value: Allowed,
    /// A chamfer's angle.
    pub angle: Allowed,
}

impl From<Allowed> for Allowances {
    fn from(value: Allowed) -> Self {
        Self { value, angle: Allowed::General }
    }
}

/// A size in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// `<>` stands for the measured value.
    pub pattern: String,
    /// Decimals of the value.
    pub decimals: usize,
}

/// Most decimals of a millimetre: a micrometre. More is no size that anybody holds.
const MM_DECIMALS: usize = 3;

/// Decimals of an inch: 0.0001 in is 2.5 um. Fewer would lose hundredths of a millimetre.
const INCH_DECIMALS: usize = 4;

/// Writes a size.
pub fn words(size: &Size, allowed: Allowances, units: Units) -> Words {
    let value = size.measure.value();
    let (decimals, own) = match size.role {
        Role::Cone => (decimals(value, 1), angle_limits(allowed.value)),
        _ => lengths(value, allowed.value, units),
    };
    let pattern = match &size.role {
        Role::Length => format!("<>{own}"),
        Role::Diameter => format!("Ø<>{own}{}", called(size)),
        Role::Thread(thread) => thread.designation.to_string(),
        Role::Chamfer(angle) => {
            let angle = format!("{angle:.*}", self::decimals(*angle, 1));
            format!("<>{own} × {angle}°{}", angle_limits(allowed.angle))
        }
        Role::Radius => format!("R<>{own}"),
        Role::Cone => format!("<>°{own}"),
    };
    Words { pattern, decimals }
}

/// Decimals of a length, and its own limits in words.
fn lengths(value: f64, allowed: Allowed, units: Units) -> (usize, String) {
    let least = match units {
        Units::Millimetres => decimals(value, MM_DECIMALS),
        Units::Inches => INCH_DECIMALS,
    };
    let Allowed::Own(off) = allowed else { return (least, String::new()) };
    let off = off.map(|off| off * units.factor());
    let most = match units {
        Units::Millimetres => MM_DECIMALS,
        Units::Inches => INCH_DECIMALS,
    };
    let places = off.iter().map(|off| decimals(*off, most)).fold(least, usize::max);
    let [below, above] = off;
    let words = if below == above {
        format!(" ±{above:.places$}")
    } else {
        format!(" {}/{}", signed(above, '+', places), signed(below, '-', places))
    };
    (places, words)
}

fn angle_limits(allowed: Allowed) -> String {
    match allowed {
        Allowed::Own([below, above]) if below == above => format!(" ±{above}°"),
        Allowed::Own([below, above]) => format!(" +{above}°/-{below}°"),
        Allowed::General => String::new(),
    }
}

fn signed(value: f64, sign: char, places: usize) -> String {
    if value == 0.0 { "0".to_owned() } else { format!("{sign}{value:.places$}") }
}

/// The fewest decimals, up to `most`, that give a value to a ten-thousandth of a unit.
pub fn decimals(value: f64, most: usize) -> usize {
    let fits = |places: &usize| {
        let shift = libm::pow(10.0, *places as f64);
        ((value * shift).round() / shift - value).abs() < 1e-4
    };
    (0..most).find(fits).unwrap_or(most)
}

/// What a machinist calls a hole; nothing for what needs no name.
fn called(size: &Size) -> &'static str {
    if size.wall == Wall::Outside {
        return "";
    }
    let side = |item: Item| size.is_at(Feature::new(item, Facet::Side));
    let item = |is: fn(Item) -> bool| size.places.iter().any(|place| is(place.feature.item));
    if side(Item::Recess) {
        " counterbore"
    } else if side(Item::ClearanceBore) {
        " clearance"
    } else if side(Item::TapDrill) {
        " tap drill"
    } else if side(Item::ThroughBore) {
        " through"
    } else if item(|item| matches!(item, Item::Countersink(_))) {
        " countersink"
    } else if item(|item| matches!(item, Item::BoreRelief(_))) {
        " relief"
    } else {
        ""
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Measure, Point};

    fn size(role: Role, value: f64) -> Size {
        let (from, to) = (Point::new(0.0, 1.0), Point::new(value, 1.0));
        let measure = Measure::Length { from, to };
        Size { wall: Wall::Outside, role, measure, tip: to, datum: None, places: Vec::new() }
    }

    fn written(role: Role, value: f64, allowed: Allowed, units: Units) -> String {
        let words = words(&size(role, value), allowed.into(), units);
        let number = format!("{:.*}", words.decimals, value * units.factor());
        words.pattern.replace("<>", &number)
    }

    /// ISO 129-1 (from memory): value and limits have as many decimals; no sign before a zero.
    #[test]
    fn limits_have_as_many_decimals_as_the_value() {
        let mm = Units::Millimetres;
        let own = |below, above| Allowed::Own([below, above]);
        assert_eq!(written(Role::Length, 12.5, Allowed::General, mm), "12.5");
        assert_eq!(written(Role::Length, 12.5, own(0.05, 0.05), mm), "12.50 ±0.05");
        assert_eq!(written(Role::Diameter, 8.0, own(0.0, 0.1), mm), "Ø8.0 +0.1/0");
        assert_eq!(written(Role::Diameter, 7.9375, own(0.02, 0.05), mm), "Ø7.938 +0.050/-0.020");
        assert_eq!(written(Role::Chamfer(45.0), 0.5, Allowed::General, mm), "0.5 × 45°");
        let angle = own(0.5, 0.5);
        let both = Allowances { value: own(0.02, 0.0), angle };
        let chamfer = words(&size(Role::Chamfer(30.0), 0.5), both, mm);
        assert_eq!(chamfer.pattern, "<> 0/-0.02 × 30° ±0.5°");
        assert_eq!(written(Role::Length, 25.4, own(0.127, 0.127), Units::Inches), "1.0000 ±0.0050");
    }
}
