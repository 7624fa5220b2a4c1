//! A chord too coarse for the thinnest feature is tightened, and it is said which.

use super::common::section::r1;
use sectionwright::check::chord;
use sectionwright::mesh::LEAST_CHORD;
use sectionwright::solid::build;

/// Closed forms on R1's numbers: its lip is 0.4 thick, its threads 0.541266 P = 0.298 and 0.406
/// deep, but the floor behind the tap drill is (8.05 - 1.082532 x 0.55 - 6.9) / 2 = 0.2773 wide.
#[test]
fn r1_is_bound_by_its_narrowest_step() {
    let part = r1().part();
    let body = build(&part).unwrap();
    let tightened = chord(&part, &body, 0.5);
    let thin = tightened.tightened_by.clone().unwrap();
    assert_eq!(thin.feature, "step tap-drill.floor");
    let expected = (8.05 - 2.0 * 0.541_265_877 * 0.55 - 6.9) / 2.0;
    assert!((thin.size - expected).abs() < 1e-9, "{}", thin.size);
    assert!((tightened.in_force - thin.size / 4.0).abs() < 1e-15);
    let fine = chord(&part, &body, 0.005);
    assert_eq!((fine.in_force, fine.tightened_by), (0.005, None));
}

#[test]
fn a_thin_wall_binds_and_the_least_chord_stays() {
    let mut section = r1();
    section.grip.front = super::common::mm(9.1);
    let part = section.part();
    let thin = chord(&part, &build(&part).unwrap(), 0.5);
    let by = thin.tightened_by.unwrap();
    assert_eq!(by.feature, "wall between recess and grip-1");
    // (9.1 - 8.9) / 2 at the rim, closed form; square to the cone a little less.
    assert!(by.size <= 0.1 && by.size > 0.099, "{}", by.size);
    section.grip.front = super::common::mm(8.9004);
    let part = section.part();
    let least = chord(&part, &build(&part).unwrap(), 0.5);
    assert_eq!(least.in_force, LEAST_CHORD);
    // What can't be made is left to be refused.
    for asked in [0.0, -1.0, 1e-9, 50.0, f64::NAN, f64::INFINITY] {
        let left = chord(&part, &build(&part).unwrap(), asked);
        assert!(left.in_force.to_bits() == asked.to_bits() && left.tightened_by.is_none());
    }
}
