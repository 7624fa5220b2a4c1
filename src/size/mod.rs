//! Every size that a person may set, cut or read, each defined once.
//!
//! ```text
//!   id          which one: SizeId, a value that is small and can be compared
//!   definition  what is known of each: name, words, unit, datum, surfaces, means, rank
//!   grip, bores, tenon, barrel, cap, bought, stock
//!               the definitions, one file an owner, and beside each how it is read off a section
//!               and put into it
//!   place       at which end of which surface it is
//!   link        what goes with it: ends that are one place
//!   list        which sizes a section has: to be advised, to be cut, all
//!   older       what files that were kept before called them
//! ```
//! A size has one name, the key of the design's file where there is one (`bores.clearance.depth`,
//! of lists with the number from 1: `grip.run.2.diameter`), and files know it by that alone. Its
//! words may change freely.
//!
//! Diameters are what a caliper reads. Lengths are counted from the face that
//! [`Definition::datum`] says, in millimetres; angles are in degrees.

mod barrel;
mod bores;
mod bought;
mod cap;
pub(crate) mod chamfer;
mod definition;
mod grip;
mod id;
mod link;
mod list;
mod older;
mod place;
pub(crate) mod ring;
mod stock;
mod tenon;
pub(crate) mod thread;
pub(crate) mod words;

pub use definition::{Datum, Definition, Dimension, Made, Owner};
pub use id::SizeId;
pub use place::{End, Place};

use std::fmt;

use crate::quantity::Length;
use crate::section::{COINCIDENT, Cap, Depth, Means, Point, Section, Thread};

/// Where the sizes of one owner are defined.
struct Group {
    define: fn(SizeId) -> Option<Definition>,
    get: fn(SizeId, &Section) -> Option<f64>,
    put: fn(SizeId, &mut Section, f64) -> Option<()>,
}

impl Group {
    fn get(&self, size: SizeId, section: &Section) -> Option<f64> {
        (self.get)(size, section)
    }

    fn put(&self, size: SizeId, section: &mut Section, value: f64) -> Option<()> {
        (self.put)(size, section, value)
    }
}

static GRIP: Group = Group { define: grip::define, get: grip::get, put: grip::put };
static BORES: Group = Group { define: bores::define, get: bores::get, put: bores::put };
static TENON: Group = Group { define: tenon::define, get: tenon::get, put: tenon::put };
static BARREL: Group = Group { define: barrel::define, get: barrel::get, put: barrel::put };
static CAP: Group = Group { define: cap::define, get: cap::get, put: cap::put };
static BOUGHT: Group = Group { define: bought::define, get: bought::get, put: bought::put };
static STOCK: Group = Group { define: stock::define, get: stock::get, put: stock::put };

/// The group that a size belongs to.
fn owner_of(size: SizeId) -> &'static Group {
    match size.owner() {
        Owner::Grip => &GRIP,
        Owner::Bores => &BORES,
        Owner::Tenon => &TENON,
        Owner::Barrel => &BARREL,
        Owner::Cap => &CAP,
        Owner::Unit | Owner::Converter => &BOUGHT,
        Owner::Rod | Owner::Axis => &STOCK,
    }
}

impl SizeId {
    /// Whose size it is.
    pub const fn owner(self) -> Owner {
        use SizeId as S;
        match self {
            S::FrontDiameter
            | S::GripDiameter(_)
            | S::GrooveDepth(_)
            | S::GripLength
            | S::RunEnd(_)
            | S::ArcRadius(_)
            | S::CornerRadius(_)
            | S::CornerChamfer(_)
            | S::CornerAngle(_)
            | S::RingStart(_)
            | S::RingEnd(_)
            | S::RingFloor(_)
            | S::RingRadius(_)
            | S::GripThreadStart
            | S::GripThreadEnd
            | S::GripThreadSize => Owner::Grip,
            S::BoreDiameter(_)
            | S::BoreDepth(_)
            | S::ReliefStart(_)
            | S::PointAngle(_)
            | S::CentrePilotDiameter
            | S::CentrePilotLength
            | S::UnitThreadStart
            | S::UnitThreadEnd
            | S::UnitThreadSize => Owner::Bores,
            S::TenonLength
            | S::TenonDiameter
            | S::TenonChamfer
            | S::TenonChamferAngle
            | S::TenonThreadStart
            | S::TenonThreadEnd
            | S::TenonThreadSize
            | S::PilotDiameter
            | S::PilotLength
            | S::ReliefDiameter
            | S::ReliefWidth => Owner::Tenon,
            S::BarrelThreadSize
            | S::BarrelHole
            | S::BarrelDepth
            | S::BarrelThreadEnd
            | S::CounterboreDiameter
            | S::CounterboreDepth
            | S::BarrelBoreDiameter
            | S::BarrelBoreDepth
            | S::BarrelOutside => Owner::Barrel,
            S::CapStop
            | S::CapHole
            | S::CapThreadSize
            | S::CapThreadEnd
            | S::CapCounterboreDiameter
            | S::CapCounterboreDepth
            | S::CapBoreDiameter(_)
            | S::CapBoreEnd(_)
            | S::CapLength
            | S::SealDepth
            | S::SealDiameter => Owner::Cap,
            S::CollarDiameter
            | S::CollarThickness
            | S::UnitStepDiameter(_)
            | S::UnitStepEnd(_)
            | S::OwnThreadStart
            | S::UnitChamfer
            | S::NibReach
            | S::NibWidth => Owner::Unit,
            S::ConverterDiameter
            | S::ConverterLength
            | S::ConverterOntoNipple
            | S::ConverterMouthDiameter
            | S::ConverterMouthLength => Owner::Converter,
            S::BlankDiameter | S::BlankLength | S::Facing | S::Sanding => Owner::Rod,
            S::HoldingOffset | S::LongHoleOffset => Owner::Axis,
        }
    }

    /// Everything that is known of it whatever section it is of.
    ///
    /// # Panics
    /// Never: every size is defined by its owner, and a test says so of each.
    pub fn definition(self) -> Definition {
        (owner_of(self).define)(self).expect("every size is defined by its owner")
    }

    /// Its name, by which every file knows it.
    pub fn name(self) -> String {
        self.definition().name
    }

    /// Which of two changes of one size to make first, the lower.
    pub fn rank(self) -> u8 {
        self.definition().rank
    }

    /// Whether it is an angle, in degrees.
    pub fn is_angle(self) -> bool {
        matches!(self, Self::CornerAngle(_) | Self::TenonChamferAngle | Self::PointAngle(_))
    }

    /// Whether it is how far off the axis things lie, and no size.
    pub fn is_offset(self) -> bool {
        self.owner() == Owner::Axis
    }

    /// Whether the section's solid changes with it.
    pub fn is_sections(self) -> bool {
        matches!(self.owner(), Owner::Grip | Owner::Bores | Owner::Tenon)
    }

    /// How it is made; none for what a tap or die makes, and for what is bought.
    pub fn means(self, section: &Section) -> Option<Means> {
        match self.definition().made {
            Made::By(means) => Some(means),
            Made::Hole => {
                let Self::BoreDiameter(item) = self else { return None };
                let bore = section.bore(item)?;
                let turned = bore.point == Point::Flat || matches!(bore.depth, Depth::Between(..));
                Some(if turned { Means::Bored } else { Means::Drilled })
            }
            Made::Tool | Made::Bought | Made::Stock => None,
        }
    }

    /// The value that a person writes or reads where the size has this one: of a thread that a tap
    /// with a lead cuts, its end is where the full thread ends, and the lead goes on behind it.
    pub fn as_written(self, section: &Section, value: f64) -> f64 {
        value - self.lead(section)
    }

    /// The value that the size has where a person wrote this one: [`Self::as_written`] the other
    /// way.
    pub fn from_written(self, section: &Section, written: f64) -> f64 {
        written + self.lead(section)
    }

    fn lead(self, section: &Section) -> f64 {
        let thread = match self {
            Self::UnitThreadEnd => Some(&section.unit_thread),
            Self::BarrelThreadEnd => Some(&section.barrel.thread),
            Self::CapThreadEnd => section.cap.as_ref().and_then(Cap::thread),
            _ => None,
        };
        thread.map_or(0.0, |thread| thread.run_out_lengths()[1].as_mm())
    }
}

/// In words.
impl fmt::Display for SizeId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.definition().words)
    }
}

/// Whether two ends are one, but for the rounding of a sum: then they are set together.
pub(crate) fn coincide(a: Length, b: Length) -> bool {
    (a - b).abs() <= COINCIDENT
}

fn shift(thread: &mut Thread, by: Length) {
    thread.from += by;
    thread.to += by;
}
