//! The section with the most material removed that its tolerances and tools allow.

use super::{Item, Section};

impl Section {
    /// Every hole at its tool's greatest, the unit thread at its class's greatest, the tenon
    /// thread at its class's least (root at d3 min). Lengths stay as drawn.
    #[must_use]
    pub fn at_least_material(&self) -> Self {
        let mut worst = self.clone();
        worst.tenon.thread = self.tenon.thread.at_least_material();
        worst.unit_thread = self.unit_thread.at_least_material();
        for bore in &mut worst.bores {
            bore.diameter = bore.limits.max();
            if bore.item == Item::TapDrill {
                // The tap drill's hole is the unit thread's crest.
                worst.unit_thread.form.crest = bore.diameter;
            }
        }
        worst
    }
}
