//! What is added to a printed surface, and what a printer can build.

use super::super::reader::{Read, wrong_type};
use super::super::tree::{Node, Value};
use super::length::any_length;
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::Length;

/// How far a surface or a diameter is moved, of either sign.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct Shift(pub(in crate::design) Length);

impl Read for Shift {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// A printer that is farther off is broken: less, and one with a wide nozzle would be
        /// refused, more, and a slip of the decimal point would eat a wall.
        const MOST: Length = Length::mm(1.0);
        let length = any_length(node, key, log)?;
        if length.abs() <= MOST {
            return Some(Self(length));
        }
        let message = format!("`{key}` can't be {length}: {MOST} at most, to either side");
        let hint = "in mm, a few tenths at most, such as 0.1";
        log.push(Diagnostic::error("value.shift", message).at(node.at).hint(hint));
        None
    }
}

/// A share of a diameter, of either sign: 0.003 is 0.3 %.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct Share(pub(in crate::design) f64);

impl Read for Share {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// No material of a printer shrinks by more: less, and a filament that shrinks by 3 %
        /// would be refused, more, and a percentage (0.3) would pass for a share.
        const MOST: f64 = 0.05;
        const HINT: &str = "a share and no percentage, -0.05 to 0.05: 0.3 % is 0.003";
        match node.value {
            Value::Number(share) if share.abs() <= MOST => Some(Self(share)),
            Value::Number(share) => {
                let message = format!("`{key}` of {share} is no share of a diameter");
                log.push(Diagnostic::error("value.share", message).at(node.at).hint(HINT));
                None
            }
            ref other => {
                log.push(wrong_type(key, "a number", other.kind(), node.at).hint(HINT));
                None
            }
        }
    }
}

/// Width, depth and height of what a printer can build.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::design) struct Build(pub(in crate::design) [Length; 3]);

impl Read for Build {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        const HINT: &str = "write width, depth and height in mm, such as [120, 68, 150]";
        let Value::List(list) = &node.value else {
            let wanted = "three lengths";
            log.push(wrong_type(key, wanted, node.value.kind(), node.at).hint(HINT));
            return None;
        };
        let [width, depth, height] = list.as_slice() else {
            let message = format!("`{key}` takes three lengths, not {}", list.len());
            log.push(Diagnostic::error("value.type", message).at(node.at).hint(HINT));
            return None;
        };
        // All three are looked at before any of them is found wanting.
        let [width, depth, height] = [width, depth, height].map(|node| {
            let length = any_length(node, key, log)?;
            within(length, key, node.at, log)
        });
        Some(Self([width?, depth?, height?]))
    }
}

/// A side of a printer's build, if a section fits in it and a workshop round it.
fn within(length: Length, key: &str, at: Place, log: &mut Vec<Diagnostic>) -> Option<Length> {
    /// A section is about 12 mm wide, and stands with room round it: less, and nothing of a pen
    /// could be printed.
    const LEAST: Length = Length::mm(20.0);
    /// A side of no printer in a workshop: more, and a build in micrometres would pass.
    const MOST: Length = Length::mm(2000.0);
    if (LEAST..=MOST).contains(&length) {
        return Some(length);
    }
    let (code, message, hint) = if length < LEAST {
        let message = format!("`{key}` of {length}: no section fits in it");
        ("printer.build-too-small", message, format!("mm, {} at least", LEAST.as_mm()))
    } else {
        let message = format!("`{key}` of {length} is no printer's");
        ("printer.build-too-large", message, format!("mm, {} at most", MOST.as_mm()))
    };
    log.push(Diagnostic::error(code, message).at(at).hint(hint));
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;

    #[test]
    fn slips_are_no_shifts_and_percentages_no_shares() {
        assert_eq!(read::<Shift>("-0.06").0, Some(Shift(Length::mm(-0.06))));
        assert_eq!(read::<Shift>("\"0.004 in\"").0, Some(Shift(Length::inch(0.004))));
        assert_eq!(read::<Share>("0.003").0, Some(Share(0.003)));
        for bad in ["1.1", "-1.1", "nan", "inf"] {
            assert_eq!(read::<Shift>(bad).1[0].code, "value.shift", "{bad}");
        }
        for bad in ["0.3", "-0.06", "nan"] {
            assert_eq!(read::<Share>(bad).1[0].code, "value.share", "{bad}");
        }
        assert_eq!(read::<Share>("\"0.3 %\"").1[0].code, "value.type");
    }

    #[test]
    fn every_side_of_a_build_is_looked_at() {
        let sides = [120.0, 68.0, 400.0].map(Length::mm);
        assert_eq!(read::<Build>("[120, 68, 400]").0, Some(Build(sides)));
        let (none, said) = read::<Build>("[12, \"x\", 9000]");
        let codes: Vec<_> = said.iter().map(|d| d.code).collect();
        let all = ["printer.build-too-small", "value.length", "printer.build-too-large"];
        assert_eq!((none, codes), (None, all.to_vec()));
        for bad in ["120", "[120, 68]", "[]", "[1, 2, 3, 4]"] {
            assert_eq!(read::<Build>(bad).1[0].code, "value.type", "{bad}");
        }
        assert_eq!(read::<Build>("[120, nan, 150]").0, None);
    }
}
