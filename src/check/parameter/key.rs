//! The sizes that are made at the lathe, each by the key that people write: a feature's name, and
//! which of its sizes.
//!
//! Diameters are what a caliper reads. Lengths of the grip, and of holes from the front, are from
//! the finished front face; those of the tenon from the shoulder; those of holes from the back from
//! the back face: as a design writes them.

use super::{Parameter, coincide};
use crate::section::{Depth, Facet, Feature, Item, RingForm, Section};

impl Parameter {
    /// The key that sets it: `clearance-bore.depth`; none of what has none: angles, ends that
    /// another tool makes, and what is not the section's own.
    pub fn key(self) -> Option<String> {
        let of = |item: Item, what: &str| Some(Feature::new(item, Facet::Side).to_string() + what);
        let behind = |runs: u8, what: &str| match runs {
            0 => Some(format!("grip{what}")),
            n => of(Item::Grip(n), what),
        };
        match self {
            Self::FrontDiameter => behind(0, ".front"),
            Self::GripDiameter(n) => behind(n, ".diameter"),
            Self::RunEnd(n) => behind(n, ".to"),
            Self::GripLength => behind(0, ".length"),
            Self::ArcRadius(n) => behind(n, ".radius"),
            Self::CornerRadius(n) => behind(n, ".fillet"),
            Self::CornerChamfer(n) => behind(n, ".chamfer"),
            Self::RingStart(item) | Self::ReliefStart(item) => of(item, ".from"),
            Self::RingEnd(item) | Self::BoreDepth(item @ Item::BoreRelief(_)) => of(item, ".to"),
            Self::RingRadius(item @ Item::Bead(_)) => of(item, ".radius"),
            Self::GrooveDepth(n) => of(Item::Groove(n), ".depth"),
            Self::GripThreadSize => of(Item::CapThread, ".pitch-diameter"),
            Self::BoreDiameter(item @ Item::Countersink(_)) => of(item, ".mouth"),
            Self::BoreDiameter(item) => of(item, ".diameter"),
            Self::BoreDepth(item) => of(item, ".depth"),
            Self::CentrePilotDiameter => of(Item::CentrePilot, ".diameter"),
            Self::CentrePilotLength => of(Item::CentrePilot, ".length"),
            Self::UnitThreadEnd => of(Item::UnitThread, ".to"),
            Self::UnitThreadSize => of(Item::UnitThread, ".pitch-diameter"),
            Self::TenonLength => of(Item::Tenon, ".length"),
            Self::TenonDiameter => of(Item::Tenon, ".diameter"),
            Self::TenonChamfer => of(Item::Tenon, ".chamfer"),
            Self::ReliefDiameter => of(Item::Relief, ".diameter"),
            Self::ReliefWidth => of(Item::Relief, ".width"),
            Self::PilotDiameter => of(Item::Pilot, ".diameter"),
            Self::PilotLength => of(Item::Pilot, ".length"),
            Self::TenonThreadStart => of(Item::TenonThread, ".from"),
            Self::TenonThreadSize => of(Item::TenonThread, ".pitch-diameter"),
            _ => None,
        }
    }

    /// The value that its key has where the size has this one: of a thread that a tap with a lead
    /// cuts, `to` is where the full thread ends, and the lead goes on behind it.
    pub fn as_written(self, section: &Section, value: f64) -> f64 {
        value - self.lead(section)
    }

    /// The value that the size has where its key has this one: [`Self::as_written`] the other way.
    pub fn from_written(self, section: &Section, written: f64) -> f64 {
        written + self.lead(section)
    }

    fn lead(self, section: &Section) -> f64 {
        if self == Self::UnitThreadEnd {
            section.unit_thread.run_out_lengths()[1].as_mm()
        } else {
            0.0
        }
    }

    /// The size of a section that a key sets; none where it has no such size.
    pub fn read(key: &str, section: &Section) -> Option<Self> {
        let is = |size: &Self| size.key().is_some_and(|own| own == key);
        Self::with_keys(section).into_iter().find(is)
    }

    /// Every size of a section that has a key, in the order in which they can be set: what goes
    /// with another size comes behind it.
    pub fn with_keys(section: &Section) -> Vec<Self> {
        let grip = &section.grip;
        let carries = grip.thread.as_ref().map(|cap| cap.run);
        let runs = || (1..=u8::MAX).zip(&grip.runs);
        let mut all = vec![Self::FrontDiameter];
        // A run that carries a thread is as wide as the thread.
        let free = runs().filter(|(n, _)| Some(usize::from(*n) - 1) != carries);
        all.extend(free.map(|(n, _)| Self::GripDiameter(n)));
        // Ends at one z are one size: the first one's; at the shoulder the grip's length.
        let first = |n: u8, at| !runs().take(usize::from(n) - 1).any(|(_, r)| coincide(r.to.z, at));
        let inner = runs().filter(|(_, run)| !coincide(run.to.z, grip.length()));
        all.extend(inner.filter(|(n, r)| first(*n, r.to.z)).map(|(n, _)| Self::RunEnd(n)));
        all.push(Self::GripLength);
        all.extend(runs().map(|(n, _)| Self::ArcRadius(n)));
        let corners = || (0..=u8::MAX).take(grip.runs.len() + 1);
        all.extend(corners().map(Self::CornerRadius));
        all.extend(corners().map(Self::CornerChamfer));
        for ring in &grip.rings {
            all.extend([Self::RingStart(ring.item), Self::RingEnd(ring.item)]);
            match (ring.form, ring.item) {
                (RingForm::Bead, item) => all.push(Self::RingRadius(item)),
                (_, Item::Groove(n)) => all.push(Self::GrooveDepth(n)),
                _ => {}
            }
        }
        all.push(Self::GripThreadSize);
        for bore in &section.bores {
            all.push(Self::BoreDiameter(bore.item));
            if matches!(bore.depth, Depth::Between(..)) {
                all.push(Self::ReliefStart(bore.item));
            }
            if !matches!(bore.item, Item::Countersink(_)) {
                all.push(Self::BoreDepth(bore.item));
            }
        }
        all.extend([
            Self::CentrePilotDiameter,
            Self::CentrePilotLength,
            Self::UnitThreadEnd,
            Self::UnitThreadSize,
            Self::TenonLength,
            Self::TenonDiameter,
            Self::TenonChamfer,
            Self::ReliefDiameter,
            Self::ReliefWidth,
            Self::PilotDiameter,
            Self::PilotLength,
            Self::TenonThreadStart,
            Self::TenonThreadSize,
        ]);
        // A thread that begins at the shoulder begins nowhere else; no size is none.
        all.retain(|size| size.get(section).is_some_and(|value| value > 0.0));
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};

    fn section(path: &str) -> Section {
        load(&Library::default(), path).unwrap().section
    }

    fn fixtures() -> Vec<Section> {
        let names = ["r1", "capped", "outside", "both-ends", "reliefs", "threads"];
        let more = ["blind", "blind-flat"];
        let paths = names.iter().chain(&more).map(|name| format!("tests/fixtures/{name}.toml"));
        paths.chain(["demo".to_owned()]).map(|path| section(&path)).collect()
    }

    /// Every key leads back to its size, no two sizes have one key, and every size that advice may
    /// change in the section itself has one.
    #[test]
    fn keys_and_sizes_are_each_others() {
        for section in fixtures() {
            let sizes = Parameter::with_keys(&section);
            let mut keys: Vec<String> = sizes.iter().map(|size| size.key().unwrap()).collect();
            for (size, key) in sizes.iter().zip(&keys) {
                assert_eq!(Parameter::read(key, &section), Some(*size), "{key}");
            }
            keys.sort();
            keys.dedup();
            assert_eq!(keys.len(), sizes.len(), "{keys:?}");
            let advised = Parameter::of(&section).into_iter().filter(|size| size.is_sections());
            for size in advised {
                assert!(sizes.contains(&size), "{}: {size}", section.name);
            }
        }
    }

    /// Set to what they are, all one after the other, they leave the section as it is.
    #[test]
    fn sizes_set_to_what_they_are_change_nothing() {
        for section in fixtures() {
            let sizes = Parameter::with_keys(&section);
            let mut changed = section.clone();
            for size in &sizes {
                changed = size.set(&changed, size.get(&section).unwrap()).unwrap();
            }
            for size in &sizes {
                let by = size.get(&changed).unwrap() - size.get(&section).unwrap();
                assert!(by.abs() < 1e-9, "{}: {size} {by}", section.name);
            }
        }
    }

    /// Each takes its value whatever was set before it.
    #[test]
    fn sizes_set_one_after_the_other_keep_their_values() {
        for section in fixtures() {
            let sizes = Parameter::with_keys(&section);
            let wanted = |size: &Parameter| size.get(&section).unwrap() + 0.01;
            let mut changed = section.clone();
            for size in &sizes {
                changed = size.set(&changed, wanted(size)).unwrap();
            }
            for size in &sizes {
                let by = size.get(&changed).unwrap() - wanted(size);
                assert!(by.abs() < 1e-9, "{}: {size} {by}", section.name);
            }
        }
    }

    #[test]
    fn keys_read_as_people_say_them() {
        let demo = section("demo");
        let keys: Vec<_> = Parameter::with_keys(&demo).iter().filter_map(|s| s.key()).collect();
        for key in ["clearance-bore.depth", "recess.diameter", "grip.front", "grip-2.to"] {
            assert!(keys.iter().any(|own| own == key), "{key} {keys:?}");
        }
        assert_eq!(Parameter::read("barrel.depth", &demo), None);
        let reliefs = section("tests/fixtures/reliefs.toml");
        for key in ["countersink-back.mouth", "bore-relief-2.from", "bore-relief-2.to"] {
            assert!(Parameter::read(key, &reliefs).is_some(), "{key}");
        }
    }

    /// A thread cut deeper is thinner at its root, and the rod is as it was.
    #[test]
    fn a_thread_is_thinned_where_its_tool_cuts() {
        let demo = section("demo");
        let thinner = Parameter::TenonThreadSize.set(&demo, 9.3).unwrap();
        let (before, after) = (&demo.tenon.thread, &thinner.tenon.thread);
        let by = after.form.pitch_diameter - before.form.pitch_diameter;
        assert_eq!(after.form.crest, before.form.crest);
        assert!((after.form.root - before.form.root - by).abs().as_mm() < 1e-12);
        assert!((after.limits.minor.max() - before.limits.minor.max() - by).abs().as_mm() < 1e-12);
    }
}
