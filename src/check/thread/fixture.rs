//! Threads for the tests beside the measures.

use crate::section::{Item, Side};
use crate::solid::CutThread;
use crate::standard::designation::Hand;

/// A right-hand thread of one start with flanks at 30 degrees, ten pitches long, by its diameters
/// at crest, pitch line and root.
pub fn thread(side: Side, [crest, pitch_diameter, root]: [f64; 3], pitch: f64) -> CutThread {
    CutThread {
        item: Item::UnitThread,
        side,
        pitch,
        starts: 1,
        hand: Hand::Right,
        half_angle: 30.0,
        crest: crest / 2.0,
        root: root / 2.0,
        pitch_radius: pitch_diameter / 2.0,
        flank: Vec::new(),
        ridge_z: 0.0,
        full: [0.0, 10.0 * pitch],
        extent: [0.0, 10.0 * pitch],
    }
}

/// A basic profile of ISO 68-1, every diameter larger by `over`.
pub fn basic(side: Side, major: f64, pitch: f64, over: f64) -> CutThread {
    let height = pitch * 3.0_f64.sqrt() / 2.0;
    let [top, middle, bottom] = [0.0, 0.75, 1.25].map(|down| major + over - down * height);
    let diameters = match side {
        Side::External => [top, middle, bottom],
        Side::Internal => [bottom, middle, top],
    };
    thread(side, diameters, pitch)
}
