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
        worst.with_holes(|bore| bore.limits.max())
    }

    /// The same section with every hole at another diameter that its tool may leave.
    ///
    /// The unit thread's crest is what the widest tool in it leaves: the tap drill's hole, unless
    /// another tool that goes through it, or into it, has cut wider; then the whole of the tap
    /// drill's hole counts as that wide, which errs to the safe side.
    #[must_use]
    pub fn with_holes(mut self, of: impl Fn(&Bore) -> Length) -> Self {
        let (length, thread) = (self.length(), &self.unit_thread);
        let in_thread = |bore: &Bore| {
            let [from, to] = bore.full(length);
            bore.diameter < thread.form.root && from < thread.to && to > thread.from
        };
        let crests: Vec<Item> =
            self.bores.iter().filter(|bore| in_thread(bore)).map(|bore| bore.item).collect();
        for bore in &mut self.bores {
            *bore = bore.cutting(of(bore));
        }
        let cut = self.bores.iter().filter(|bore| crests.contains(&bore.item));
        let holes = cut.map(|bore| bore.diameter);
        if let Some(widest) = holes.reduce(Length::max) {
            self.unit_thread.form.crest = widest;
            if let Some(own) = self.bores.iter_mut().find(|bore| bore.item == Item::TapDrill) {
                own.diameter = widest;
            }
        }
        self
    }
}
