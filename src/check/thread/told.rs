//! What is told of a pair of threads beside the verdicts: interference and shear.

use super::overlap::Overlap;
use super::pair::{Pair, States};
use super::strip::Strip;
use crate::check::bodies::Built;
use crate::check::finding::{detail, finding};
use crate::check::judge::ROUNDING;
use crate::check::{Finding, Place, Spot};
use crate::section::{Facet, Feature};

use super::mating::Mating;

impl Pair<'_> {
    /// What is told beside the verdicts: interference and shear.
    pub fn told(&self) -> Vec<Finding> {
        let Some(states) = self.states() else { return Vec::new() };
        [self.interference(&states), self.strip(&states)].into_iter().flatten().collect()
    }

    /// The volume in common; none where the leads have not even hand and starts in common.
    fn interference(&self, states: &States) -> Option<Finding> {
        let Self { inner, outer, .. } = self;
        let between = |inner: &Built, outer: &Built, mating: &Mating| {
            let [internal, external] = self.threads(inner, outer)?;
            Overlap::of(internal, external, mating.run)
        };
        let drawn = between(&inner.drawn, &outer.drawn, &states.drawn)?;
        let tight = if self.inner_was_read { &inner.drawn } else { &inner.most };
        let tight = between(tight, &outer.most, &states.tight)?;
        let read = between(&inner.most, &outer.most, &states.tight_read)?;
        // A crest beyond the other's root meets it before any flank does.
        let in_crest =
            self.threads(&inner.drawn, &outer.drawn).is_some_and(|[internal, external]| {
                drawn.radius >= internal.root || drawn.radius <= external.root
            });
        let facet = if in_crest { Facet::Crest } else { Facet::FlankFront };
        let spot = |item, z: f64| Spot {
            feature: Feature::new(item, facet),
            r: drawn.radius,
            z: z + self.origin,
        };
        let place = (drawn.volume > 0.0).then(|| Place {
            inner: spot(self.inner_thread, drawn.z),
            outer: spot(self.outer_thread, drawn.z),
        });
        let details = vec![
            detail("at the tightest", tight.volume, "mm3"),
            detail("at the tightest, readings at their limits", read.volume, "mm3"),
            detail("width along the axis", drawn.width, "mm"),
            detail("width along the axis at the tightest", tight.width, "mm"),
            detail("widest at z, at the tightest", tight.z + self.origin, "mm"),
            detail("widest at a diameter of, at the tightest", 2.0 * tight.radius, "mm"),
        ];
        let checks = &self.checks.interference;
        Some(Finding { place, details, ..finding(checks, drawn.volume, "mm3", drawn.error) })
    }

    /// The area that shears in the section's own thread, and in the other one.
    fn strip(&self, states: &States) -> Option<Finding> {
        let Self { inner, outer, .. } = self;
        let of = |inner: &Built, outer: &Built, mating: &Mating| {
            let [internal, external] = self.threads(inner, outer)?;
            Some(Strip::of(internal, external, mating.turns))
        };
        let drawn = of(&inner.drawn, &outer.drawn, &states.drawn)?;
        let loose = if self.inner_was_read { &inner.drawn } else { &inner.least };
        let loose = of(loose, &outer.least, &states.loose)?;
        let own = |strip: &Strip| {
            if self.own == self.outer_thread {
                (strip.internal, strip.external)
            } else {
                (strip.external, strip.internal)
            }
        };
        let mut details = vec![
            detail("at the loosest", own(&loose).0, "mm2"),
            detail("of the other thread", own(&drawn).1, "mm2"),
            detail("of the other thread, at the loosest", own(&loose).1, "mm2"),
            detail("bearing area along the axis", states.drawn.bearing_area, "mm2"),
        ];
        if let Some(shear) = self.shear {
            details.push(detail("shear strength", shear.value, "N/mm2"));
            details.push(detail(
                "force that strips it, at the loosest",
                shear.value * own(&loose).0,
                "N",
            ));
        }
        let note = self.shear.map(|shear| format!("shear strength: {}", shear.source));
        let error = ROUNDING * own(&drawn).0.max(1.0);
        Some(Finding { note, details, ..finding(&self.checks.strip, own(&drawn).0, "mm2", error) })
    }
}
