//! How fast the work turns.

use std::f64::consts::PI;

use crate::quantity::Length;
use crate::section::{Lathe, Limit};

/// What holds a speed down.
#[derive(Clone, Debug, PartialEq)]
pub enum SpeedCap {
    /// The material's cutting speed.
    Material(String),
    /// The greatest speed for such work on this lathe.
    Lathe(String),
}

/// A speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Speed {
    /// What is to be set: one of the lathe's own, in turns a minute.
    pub set: f64,
    /// What was asked for, in turns a minute.
    pub wanted: f64,
    /// The cutting speed that it is at the set speed, in m/min.
    pub cutting: f64,
    /// Where what was asked for comes from.
    pub cap: SpeedCap,
    /// Whether the lathe's slowest speed is faster than what was asked for.
    pub too_fast: bool,
}

/// Turns a minute at which a diameter moves at a cutting speed in m/min: n = 1000 V / (pi D).
pub fn rpm(cutting: f64, diameter: Length) -> f64 {
    1000.0 * cutting / (PI * diameter.as_mm())
}

/// The same the other way round, in m/min.
fn cutting_speed(rpm: f64, diameter: Length) -> f64 {
    rpm * PI * diameter.as_mm() / 1000.0
}

impl Speed {
    /// A speed for the largest diameter that is cut: that of a drill, or of the work.
    pub fn of(
        lathe: &Lathe,
        cutting: &Limit<f64>,
        greatest: &Limit<f64>,
        diameter: Length,
    ) -> Self {
        let by_material = rpm(cutting.value, diameter);
        let (wanted, cap) = if by_material <= greatest.value {
            (by_material, SpeedCap::Material(cutting.source.clone()))
        } else {
            (greatest.value, SpeedCap::Lathe(greatest.source.clone()))
        };
        let set = lathe.nearest(wanted);
        let cutting = cutting_speed(set, diameter);
        Self { set, wanted, cutting, cap, too_fast: set > wanted }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(found: f64, published: f64, off: f64) {
        assert!((found - published).abs() < off, "{found} {published}");
    }

    /// Published: 60 ft/min on work of 5 in, "46 revolutions per minute" (Machinery's Handbook, its
    /// example on cutting speeds; which book, from memory).
    /// Published: acetal drilled 13 mm at 1500 rpm, nylon 10 mm at 1000 rpm (Du Pont, General
    /// Design Principles, p. 126 and 129); the speeds are the formula turned round, as 1500 x pi x
    /// 13 / 1000. The last three: n = 1000 V / (pi D), computed apart from this code.
    #[test]
    fn turns_a_minute_as_published() {
        near(rpm(60.0 * 0.3048, Length::inch(5.0)), 46.0, 0.5);
        near(cutting_speed(1500.0, Length::mm(13.0)), 61.26, 0.005);
        near(cutting_speed(1000.0, Length::mm(10.0)), 31.42, 0.005);
        near(rpm(30.0, Length::mm(8.8)), 1085.15, 0.005);
        near(rpm(30.0, Length::mm(10.0)), 954.93, 0.005);
        near(rpm(60.0, Length::mm(9.2)), 2075.93, 0.005);
    }

    fn limit(value: f64) -> Limit<f64> {
        Limit { value, source: format!("{value}") }
    }

    /// A lathe's own speeds, never above what is asked for but where its slowest is.
    #[test]
    fn a_speed_is_one_of_the_lathes() {
        let speeds = vec![120.0, 300.0, 520.0, 900.0];
        let lathe = Lathe {
            speeds,
            quill: None,
            tailstock_drill: limit(Lathe::TAILSTOCK_DRILL),
            turning: limit(Lathe::TURNING),
        };
        let of = |cutting: f64, diameter: f64| {
            Speed::of(&lathe, &limit(cutting), &lathe.tailstock_drill, Length::mm(diameter))
        };
        // 12 m/min on 7.3 mm: 523 turns a minute.
        let drill = of(12.0, 7.3);
        assert_eq!((drill.set, drill.too_fast), (520.0, false));
        assert_eq!(drill.cap, SpeedCap::Material("12".into()));
        // Acetal at its published 61 m/min is held down by the tailstock's limit.
        let acetal = of(61.0, 13.0);
        assert_eq!(acetal.cap, SpeedCap::Lathe("600".into()));
        assert_eq!(acetal.set, 520.0);
        let slow = of(2.0, 10.0);
        assert!(slow.too_fast && slow.set == 120.0);
        let any = Lathe { speeds: vec![], ..lathe };
        assert_eq!(any.nearest(523.2), 523.2);
    }
}
