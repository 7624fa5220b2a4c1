//! Reading a designation.

use std::str::FromStr;

use super::{DesignationError, Hand, MAX_STARTS, System, ThreadDesignation};
use crate::quantity::Length;
use crate::standard::iso261;

/// How far from a whole number lead / pitch may be: decimals as written divide to within 1e-12,
/// while a lead wrong in its last written digit is off by 1e-3 and more.
const WHOLE_STARTS: f64 = 1e-6;

impl FromStr for ThreadDesignation {
    type Err = DesignationError;

    fn from_str(text: &str) -> Result<Self, DesignationError> {
        let text = text.trim();
        if text.contains(',') {
            return Err(DesignationError::Comma(text.replace(',', ".")));
        }
        let mut parts = text.split('-').map(str::trim);
        let size = parts.next().unwrap_or_default();
        let (system, size) = match size.strip_prefix("Tr") {
            Some(size) => (System::Trapezoidal, size.trim_start()),
            None => (System::Metric, size),
        };
        let (diameter, pitch, starts) = match system {
            System::Metric => read_size(size)?,
            System::Trapezoidal => read_trapezoidal(size)?,
        };
        let (mut hand, mut class) = (Hand::Right, None);
        for part in parts {
            if hand == Hand::Left || (class.is_some() && part != "LH") {
                return Err(DesignationError::UnknownPart(part.to_owned()));
            } else if part == "LH" {
                hand = Hand::Left;
            } else if system == System::Trapezoidal {
                return Err(DesignationError::ClassOfTrapezoidal(part.to_owned()));
            } else {
                class = Some(part.parse()?);
            }
        }
        Ok(Self { system, ..Self::new(diameter, pitch, starts, hand, class)? })
    }
}

/// Diameter, pitch and starts of the part before the first hyphen.
fn read_size(size: &str) -> Result<(Length, Length, u32), DesignationError> {
    let not_metric = || DesignationError::NotMetric(size.to_owned());
    let behind_m = size.strip_prefix(['M', 'm']).ok_or_else(not_metric)?.trim_start();
    if !behind_m.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return Err(not_metric());
    }
    let Some((diameter, pitch)) = behind_m.split_once(['x', 'X', '×']) else {
        let diameter = number(behind_m)?;
        if diameter == Length::ZERO {
            return Err(DesignationError::DiameterNotPositive(diameter));
        }
        let coarse = iso261::coarse_pitch(diameter);
        return Ok((diameter, coarse.ok_or(DesignationError::NoCoarsePitch(diameter))?, 1));
    };
    let (diameter, pitch) = (number(diameter)?, pitch.trim());
    let Some(lead) = pitch.strip_prefix("Ph") else {
        return Ok((diameter, number(pitch)?, 1));
    };
    let Some((lead, pitch)) = lead.split_once('P') else {
        return Err(DesignationError::LeadWithoutPitch(number(lead)?));
    };
    let (pitch, starts) = multiple(number(lead)?, number(pitch)?)?;
    Ok((diameter, pitch, starts))
}

/// Diameter, pitch and starts behind `Tr`: `10x2`, `12x4P2`.
fn read_trapezoidal(size: &str) -> Result<(Length, Length, u32), DesignationError> {
    let Some((diameter, pitch)) = size.split_once(['x', 'X', '×']) else {
        return Err(DesignationError::NoTrapezoidalPitch(number(size)?));
    };
    let diameter = number(diameter)?;
    match pitch.split_once('P') {
        None => Ok((diameter, number(pitch)?, 1)),
        Some((lead, pitch)) => {
            let (pitch, starts) = multiple(number(lead)?, number(pitch)?)?;
            Ok((diameter, pitch, starts))
        }
    }
}

/// The pitch, and how many starts make the lead.
fn multiple(lead: Length, pitch: Length) -> Result<(Length, u32), DesignationError> {
    if pitch == Length::ZERO {
        return Err(DesignationError::PitchNotPositive(pitch));
    }
    let starts = lead / pitch;
    if (starts - starts.round()).abs() > WHOLE_STARTS {
        return Err(DesignationError::LeadNotMultiple { lead, pitch });
    }
    if !(1.0..=f64::from(MAX_STARTS)).contains(&starts.round()) {
        return Err(DesignationError::Starts(starts.round()));
    }
    Ok((pitch, starts.round() as u32))
}

/// Plain decimals in mm.
fn number(text: &str) -> Result<Length, DesignationError> {
    let text = text.trim();
    let plain = text.chars().all(|c| c.is_ascii_digit() || c == '.');
    let value = text.parse::<f64>().ok().filter(|value| plain && value.is_finite());
    value.map(Length::mm).ok_or_else(|| DesignationError::NotANumber(text.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::standard::ToleranceClass;
    use crate::standard::iso965::ClassError;

    fn thread(text: &str) -> ThreadDesignation {
        text.parse().unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    #[test]
    fn reads_what_the_trade_writes() {
        let fine = thread("M10x0.75-6g");
        assert_eq!((fine.diameter(), fine.pitch()), (Length::mm(10.0), Length::mm(0.75)));
        assert_eq!(fine.class(), Some(ToleranceClass::MEDIUM_EXTERNAL));
        assert!(fine.is_standard() && fine.hand() == Hand::Right);
        assert_eq!(thread("M10").pitch(), Length::mm(1.5));
        assert!(!thread("M8.05x0.55").is_standard());
        let cap = thread("M13xPh2.4P0.8");
        assert_eq!((cap.starts(), cap.pitch()), (3, Length::mm(0.8)));
        assert!((cap.lead() - Length::mm(2.4)).abs() < Length::mm(1e-12));
        assert_eq!(thread("M8 × 1 - LH").hand(), Hand::Left);
        assert_eq!(thread("m6x0.5-4H5H-LH").to_string(), "M6x0.5-4H5H-LH");
        assert_eq!(thread("M13xPh0.8P0.8").to_string(), "M13x0.8");
    }

    #[test]
    fn reads_trapezoidal_threads() {
        let cap = thread("Tr12x4P2-LH");
        assert_eq!((cap.system(), cap.starts()), (System::Trapezoidal, 2));
        assert_eq!((cap.pitch(), cap.hand()), (Length::mm(2.0), Hand::Left));
        assert_eq!(cap.to_string(), "Tr12x4P2-LH");
        assert_eq!(thread("Tr 10 x 1.5").to_string(), "Tr10x1.5");
        assert!(!cap.is_standard());
        for (text, hint) in [
            ("Tr10", "write the pitch: Tr10x2"),
            ("Tr10x2-7e", "leave out the class 7e; limits follow from ISO 965-1's grade 6"),
        ] {
            assert_eq!(text.parse::<ThreadDesignation>().unwrap_err().hint(), hint);
        }
    }

    #[test]
    fn refuses_with_a_hint() {
        use DesignationError as E;
        let mm = Length::mm;
        let cases = [
            ("", E::NotMetric(String::new())),
            ("G1/4", E::NotMetric("G1/4".into())),
            ("M", E::NotMetric("M".into())),
            ("M10x", E::NotANumber(String::new())),
            ("M10x1.0.0", E::NotANumber("1.0.0".into())),
            ("M10x1x20", E::NotANumber("1x20".into())),
            ("M8,05x0,55", E::Comma("M8.05x0.55".into())),
            ("M0x1", E::DiameterNotPositive(mm(0.0))),
            ("M0", E::DiameterNotPositive(mm(0.0))),
            ("M10x0", E::PitchNotPositive(mm(0.0))),
            ("M10xPh1P0", E::PitchNotPositive(mm(0.0))),
            ("M13", E::NoCoarsePitch(mm(13.0))),
            ("M13xPh2.4", E::LeadWithoutPitch(mm(2.4))),
            ("M13xPh2.5P0.8", E::LeadNotMultiple { lead: mm(2.5), pitch: mm(0.8) }),
            ("M13xPh5.6P0.8", E::Starts(7.0)),
            ("M13xPh0P0.8", E::Starts(0.0)),
            ("M1x0.9", E::PitchTooCoarse { diameter: mm(1.0), pitch: mm(0.9) }),
            ("M10x1-6x", E::Class(ClassError::UnknownPosition('x'))),
            ("M10x1-6g-S", E::UnknownPart("S".into())),
            ("M10x1-LH-6g", E::UnknownPart("6g".into())),
        ];
        for (text, expected) in cases {
            let error = text.parse::<ThreadDesignation>().expect_err(text);
            assert_eq!(error, expected, "{text}");
            assert!(!error.hint().is_empty() && !error.to_string().is_empty());
        }
    }
}
