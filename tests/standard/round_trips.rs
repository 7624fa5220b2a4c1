//! What is written reads back as what it was.

use proptest::prelude::*;
use sectionwright::quantity::{Length, parse_length};
use sectionwright::standard::iso965::{Position, external, internal};
use sectionwright::standard::{
    DrillName, DrillSize, Hand, ThreadDesignation, ToleranceClass, parse_size,
};

fn any_class() -> impl Strategy<Value = ToleranceClass> {
    let positions = [
        Position::ExternalE,
        Position::ExternalF,
        Position::ExternalG,
        Position::ExternalH,
        Position::InternalG,
        Position::InternalH,
    ];
    (prop::sample::select(positions.to_vec()), 3..=9_u8, 4..=8_u8)
        .prop_filter_map("grades that exist", |(position, pitch, crest)| {
            ToleranceClass::new(position, pitch, crest).ok()
        })
}

proptest! {
    #[test]
    fn lengths(tenth_micrometres in -1_000_000_i32..1_000_000) {
        let length = Length::mm(f64::from(tenth_micrometres) / 10_000.0);
        prop_assert_eq!(parse_length(&length.to_string()), Ok(length));
    }

    #[test]
    fn no_text_makes_the_readers_panic(text in ".{0,24}") {
        let _ = parse_length(&text);
        let _ = parse_size(&text);
        let _ = text.parse::<ThreadDesignation>();
        let _ = text.parse::<ToleranceClass>();
    }

    #[test]
    fn classes(class in any_class()) {
        prop_assert_eq!(class.to_string().parse(), Ok(class));
    }

    #[test]
    fn designations(
        diameter in 100_u32..3000,
        pitch in 20_u32..80,
        starts in 1_u32..=6,
        left in any::<bool>(),
        class in prop::option::of(any_class()),
    ) {
        let size = |hundredths: u32| Length::mm(f64::from(hundredths) / 100.0);
        let hand = if left { Hand::Left } else { Hand::Right };
        let thread = ThreadDesignation::new(size(diameter), size(pitch), starts, hand, class);
        let thread = thread.expect("the root is off the axis");
        prop_assert_eq!(thread.to_string().parse(), Ok(thread));
    }

    #[test]
    fn drill_names(number in 1_u32..=80, letter in proptest::char::range('A', 'Z'), count in 1_u16..=256) {
        let names = [
            DrillName::number(number),
            DrillName::letter(letter),
            DrillName::sixty_fourths(count),
        ];
        for name in names.into_iter().flatten() {
            prop_assert_eq!(parse_size(&name.to_string()), Ok(DrillSize::from(name)));
        }
    }

    /// Any thread of the standard's range, listed or not: limits in order, and the screw of h and
    /// the nut of H touch but do not overlap at any of their limits.
    #[test]
    fn limits_of_any_thread(diameter in 1.0_f64..300.0, pitch in 0.2_f64..8.0) {
        let (diameter, pitch) = (Length::mm(diameter), Length::mm(pitch));
        let class = |text: &str| text.parse::<ToleranceClass>().expect("a class");
        let (Ok(screw), Ok(nut)) =
            (external(diameter, pitch, class("6h")), internal(diameter, pitch, class("6H")))
        else {
            prop_assert!(pitch > diameter / 2.0, "only a coarse pitch is refused");
            return Ok(());
        };
        prop_assert!(screw.root_min < screw.minor_flat_max);
        prop_assert!(screw.minor_flat_max < screw.pitch.min());
        prop_assert!(screw.pitch.max() < screw.major.min());
        prop_assert!(nut.minor.max() < nut.pitch.min() + pitch);
        prop_assert!(screw.pitch.max() <= nut.pitch.min());
        prop_assert!(screw.major.max() <= nut.major_min && nut.major_min < nut.major_max);
        // Position g lies lower, and may put a root that h just kept off the axis on it.
        match external(diameter, pitch, class("6g")) {
            Ok(loose) => prop_assert!(loose.major.max() < screw.major.max()),
            Err(_) => prop_assert!(pitch > diameter / 2.0, "only a coarse pitch is refused"),
        }
    }
}
