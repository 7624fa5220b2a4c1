//! The section with the most material removed that its tolerances and tools allow.

use super::{Bore, Item, Section};
use crate::quantity::Length;

impl Section {
    /// Every hole at its tool's greatest, the unit thread at its class's greatest, the threads of
    /// tenon and cap at their class's least (root at d3 min). Lengths stay as drawn.
    #[must_use]
    pub fn at_least_material(&self) -> Self {
        let mut worst = self.clone();
        worst.tenon.thread = self.tenon.thread.at_least_material();
        worst.unit_thread = self.unit_thread.at_least_material();
        if let Some(cap) = &mut worst.grip.thread {
            cap.thread = cap.thread.at_least_material();
        }
        for bore in &mut worst.bores {
            bore.diameter = bore.limits.max();
        }
        // The tap drill's hole is the unit thread's crest, unless the through bore, which passes
        // it, has cut wider.
        let passes = |bore: &&Bore| matches!(bore.item, Item::TapDrill | Item::ThroughBore);
        let holes = worst.bores.iter().filter(passes).map(|bore| bore.diameter);
        if let Some(widest) = holes.reduce(Length::max) {
            worst.unit_thread.form.crest = widest;
        }
        worst
    }
}
