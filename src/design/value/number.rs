//! Numbers that are no lengths and can't be zero: speeds, counts, pitches.

use super::super::reader::Read;
use super::super::tree::Node;
use super::Amount;
use crate::diagnostic::{Diagnostic, Place};

/// A number above zero: pitches, diameters of a drill.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct Positive(pub(in crate::design) f64);

impl Read for Positive {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Amount(number) = Amount::read(node, key, log)?;
        if number > 0.0 {
            return Some(Self(number));
        }
        log.push(
            Diagnostic::error("value.negative", format!("`{key}` can't be {number}"))
                .at(node.at)
                .hint("a number above 0, such as 3"),
        );
        None
    }
}

/// Turns a minute.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct Speed(pub(in crate::design) f64);

impl Read for Speed {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// Turns a minute that no lathe reaches: less, and a watchmaker's would be refused, more,
        /// and a digit too many would pass.
        const FASTEST: f64 = 20_000.0;
        let Positive(speed) = Positive::read(node, key, log)?;
        not_over(speed, FASTEST, "turns a minute, such as 600", key, node.at, log).map(Self)
    }
}

impl From<Speed> for f64 {
    fn from(speed: Speed) -> Self {
        speed.0
    }
}

/// A cutting speed, in m/min.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct CuttingSpeed(pub(in crate::design) f64);

impl Read for CuttingSpeed {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// m/min that no material of a pen is cut at by hand: less, and brass under carbide would
        /// be refused, more, and a speed in mm/min would pass.
        const FASTEST: f64 = 1000.0;
        let Positive(speed) = Positive::read(node, key, log)?;
        not_over(speed, FASTEST, "m/min, such as 12", key, node.at, log).map(Self)
    }
}

fn not_over(
    value: f64,
    most: f64,
    works: &str,
    key: &str,
    at: Place,
    log: &mut Vec<Diagnostic>,
) -> Option<f64> {
    if value <= most {
        return Some(value);
    }
    log.push(
        Diagnostic::error("value.huge", format!("`{key}` of {value} is more than {most}"))
            .at(at)
            .hint(works),
    );
    None
}

/// A whole number from one on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(in crate::design) struct Count(pub(in crate::design) u32);

impl Read for Count {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// No scale has more divisions: they could not be told apart.
        const MOST: u32 = 1000;
        let Positive(number) = Positive::read(node, key, log)?;
        if number.fract() == 0.0 && number <= f64::from(MOST) {
            return Some(Self(number as u32));
        }
        log.push(
            Diagnostic::error("value.count", format!("`{key}` can't be {number}"))
                .at(node.at)
                .hint(format!("a whole number from 1 to {MOST}, such as 40")),
        );
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;

    #[test]
    fn none_of_them_is_zero_or_without_end() {
        assert_eq!(read::<Positive>("1.5").0, Some(Positive(1.5)));
        assert_eq!(read::<Speed>("20000").0, Some(Speed(20_000.0)));
        assert_eq!(read::<CuttingSpeed>("61").0, Some(CuttingSpeed(61.0)));
        assert_eq!(read::<Count>("40").0, Some(Count(40)));
        for (value, code) in [
            ("0", "value.negative"),
            ("-5", "value.negative"),
            ("20001", "value.huge"),
            ("inf", "value.not-finite"),
            ("\"600\"", "value.type"),
        ] {
            let (none, said) = read::<Speed>(value);
            assert_eq!((none, said[0].code), (None, code), "{value}");
        }
        assert_eq!(read::<CuttingSpeed>("12000").1[0].code, "value.huge");
        for bad in ["2.5", "1001", "nan", "0"] {
            assert_eq!(read::<Count>(bad).0, None, "{bad}");
        }
    }
}
