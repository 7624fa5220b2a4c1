//! Which sizes a section has.

use super::{Owner, SizeId, bought, cap, coincide};
use crate::section::{Depth, Item, RingForm, Section};

impl SizeId {
    /// The size of a name, or of the name that it had before; none where the section has none.
    pub fn read(name: &str, section: &Section) -> Option<Self> {
        let all = Self::all(section);
        let own = all.iter().copied().find(|size| size.name() == name);
        own.or_else(|| all.into_iter().find(|it| it.older_name().as_deref() == Some(name)))
    }

    /// Every size that its maker may change one at a time, in the order of the part from front to
    /// back, then of barrel and cap: what advice may say.
    pub fn of(section: &Section) -> Vec<Self> {
        let mut all = vec![Self::FrontDiameter];
        // A run that carries a thread is as wide as the thread.
        let carries = section.grip.thread.as_ref().map(|cap| cap.run);
        let free = (0..section.grip.runs.len()).filter(|run| Some(*run) != carries);
        all.extend(free.filter_map(|run| u8::try_from(run + 1).ok()).map(Self::GripDiameter));
        all.extend(section.grip.rings.iter().filter_map(|ring| match ring.item {
            Item::Groove(n) => Some(Self::GrooveDepth(n)),
            _ => None,
        }));
        all.push(Self::GripLength);
        all.extend(section.bores.iter().map(|bore| Self::BoreDiameter(bore.item)));
        let countersink = |item| matches!(item, Item::Countersink(_));
        for bore in section.bores.iter().filter(|bore| !countersink(bore.item)) {
            match bore.depth {
                Depth::To(_) => all.push(Self::BoreDepth(bore.item)),
                Depth::Between(..) => {
                    all.extend([Self::BoreDepth(bore.item), Self::ReliefStart(bore.item)]);
                }
                Depth::Through => {}
            }
        }
        all.extend([
            Self::UnitThreadEnd,
            Self::UnitThreadSize,
            Self::TenonLength,
            Self::TenonChamfer,
        ]);
        all.extend(section.tenon.pilot.map(|_| Self::PilotDiameter));
        if section.tenon.relief.is_some() {
            all.extend([Self::ReliefDiameter, Self::ReliefWidth]);
        }
        all.extend([Self::BarrelThreadSize, Self::BarrelHole]);
        all.extend([Self::BarrelDepth, Self::BarrelThreadEnd]);
        all.extend(section.barrel.counterbore.map(|_| Self::CounterboreDepth));
        if section.barrel.bore.is_some() {
            all.extend([Self::BarrelBoreDiameter, Self::BarrelBoreDepth]);
        }
        all.push(Self::BarrelOutside);
        all.extend(section.cap.iter().flat_map(cap::of));
        all
    }

    /// Every size that is made at the lathe, and what lies off the axis: all that may come out
    /// otherwise than drawn. What a tap or die makes lies within the limits of its class, at which
    /// everything is judged.
    pub fn made(section: &Section) -> Vec<Self> {
        let mut all = Self::of(section);
        all.retain(|size| size.means(section).is_some());
        all.extend([Self::HoldingOffset, Self::LongHoleOffset]);
        all
    }

    /// Every size that is cut at the lathe, in the order in which they can be set: what goes with
    /// another size comes behind it.
    pub fn cut(section: &Section) -> Vec<Self> {
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

    /// The sizes that place a surface of some items, those to change first at the front
    /// ([`Self::change_order`]).
    pub fn placing(items: &[Item], section: &Section) -> Vec<Self> {
        let mut all = Self::all(section);
        all.retain(|size| size.definition().shapes.iter().any(|it| items.contains(&it.item)));
        all.sort_by_key(|size| size.change_order());
        all
    }

    /// Which of two sizes to change first, the lower: what is made before what was bought and
    /// measured, then by rank.
    pub fn change_order(self) -> (bool, u8) {
        (matches!(self.owner(), Owner::Unit | Owner::Converter), self.rank())
    }

    /// Every size there is of a section and of all that it meets, each once.
    pub fn all(section: &Section) -> Vec<Self> {
        let grip = &section.grip;
        let mut all = Self::cut(section);
        all.extend(Self::of(section));
        all.extend((0..=u8::MAX).take(grip.runs.len() + 1).map(Self::CornerAngle));
        let rings = grip.rings.iter().map(|ring| ring.item);
        all.extend(rings.flat_map(|item| [Self::RingFloor(item), Self::RingRadius(item)]));
        all.extend(section.bores.iter().map(|bore| Self::PointAngle(bore.item)));
        all.extend([
            Self::PointAngle(Item::CentrePilot),
            Self::TenonChamferAngle,
            Self::TenonThreadStart,
            Self::TenonThreadEnd,
            Self::GripThreadStart,
            Self::GripThreadEnd,
            Self::UnitThreadStart,
            Self::HoldingOffset,
            Self::LongHoleOffset,
            Self::CounterboreDiameter,
            Self::CapCounterboreDiameter,
            Self::CapCounterboreDepth,
        ]);
        let bores = section.cap.as_ref().map_or(0, |cap| cap.bores.len());
        all.extend((1..=u8::MAX).take(bores).map(Self::CapBoreEnd));
        all.extend(bought::of(section));
        all.extend([Self::BlankDiameter, Self::BlankLength, Self::Facing, Self::Sanding]);
        let mut seen = std::collections::BTreeSet::new();
        all.retain(|size| size.get(section).is_some() && seen.insert(*size));
        all
    }
}
