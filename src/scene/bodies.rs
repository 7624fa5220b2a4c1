//! The bodies of a section and of what it meets; what a change leaves as it was is shared.

use std::sync::Arc;

use crate::check::{CapBodies, ConverterBodies, Extremes, Group, Model, Seen};
use crate::section::{Criteria, Part, Section, Side, Skin};
use crate::solid::BuildError;

/// Everything that is measured.
#[derive(Clone, Debug)]
pub(super) struct Bodies {
    /// What the section's body is made of: as modelled, with the least material, with the most.
    parts: Arc<[Part; 3]>,
    part: Arc<Extremes>,
    unit: Arc<Extremes>,
    barrel: Arc<Extremes>,
    cap: Option<Arc<CapBodies>>,
    converter: Option<Arc<ConverterBodies>>,
}

impl Bodies {
    /// All of them, built.
    pub fn of(section: &Section) -> Result<Self, BuildError> {
        let parts = Extremes::parts_of(section);
        Ok(Self {
            part: Arc::new(Extremes::new(&parts)?),
            parts: Arc::new(parts),
            unit: Arc::new(Extremes::of_unit(&section.unit)?),
            barrel: Arc::new(Extremes::of_barrel(&section.barrel)?),
            cap: CapBodies::of(section)?.map(Arc::new),
            converter: ConverterBodies::of(section)?.map(Arc::new),
        })
    }

    /// Those of a section that was changed from `was`, whose bodies these are.
    pub fn with(&self, was: &Section, section: &Section) -> Result<Self, BuildError> {
        let mut bodies = self.clone();
        let parts = Extremes::parts_of(section);
        if parts != *self.parts {
            bodies.part = Arc::new(self.part.like(&parts)?);
            bodies.parts = Arc::new(parts);
        }
        let (unit, barrel) = (section.unit != was.unit, section.barrel != was.barrel);
        if unit {
            bodies.unit = Arc::new(Extremes::of_unit(&section.unit)?);
        }
        if barrel {
            bodies.barrel = Arc::new(Extremes::of_barrel(&section.barrel)?);
        }
        // Nib and feed stand in the cap; the converter sits on the unit's nipple, in the barrel.
        if unit || section.cap != was.cap {
            bodies.cap = CapBodies::of(section)?.map(Arc::new);
        }
        if unit || barrel || section.converter != was.converter {
            bodies.converter = ConverterBodies::of(section)?.map(Arc::new);
        }
        Ok(bodies)
    }

    /// The section's.
    pub fn part(&self) -> &Extremes {
        &self.part
    }

    /// The bodies with what they are judged by.
    pub fn model<'a>(&'a self, section: &'a Section) -> Model<'a> {
        let bodies = [&*self.part, &*self.unit, &*self.barrel];
        Model::new(section, bodies, self.cap.as_deref(), self.converter.as_deref())
    }

    /// What is otherwise in another section and its bodies.
    pub fn moved(&self, was: &Section, (now, section): (&Self, &Section)) -> Moved {
        // Every field of both, so that none is forgotten.
        let Section {
            name: _,
            grip,
            tenon,
            bores,
            unit_thread,
            unit,
            barrel,
            cap,
            converter,
            material: _,
            blank: _,
            allowance: _,
            criteria,
            maker: _,
        } = section;
        let offsets = was.criteria.offsets;
        let limits =
            *criteria != was.criteria && Criteria { offsets, ..criteria.clone() } != was.criteria;
        let unit = *unit != was.unit;
        let same = Arc::ptr_eq(&self.part, &now.part);
        let other = |skin, side| !same && self.part.differs(&now.part, skin, side);
        Moved {
            limits,
            bore: *bores != was.bores
                || *unit_thread != was.unit_thread
                || other(Skin::Bore, Side::Internal),
            outside: *grip != was.grip
                || *tenon != was.tenon
                || other(Skin::Outside, Side::External),
            offsets: criteria.offsets != offsets,
            unit,
            barrel: *barrel != was.barrel,
            cap: unit || *cap != was.cap,
            converter: unit || *barrel != was.barrel || *converter != was.converter,
        }
    }
}

/// What is otherwise in a changed section.
#[expect(clippy::struct_excessive_bools, reason = "each is a thing of its own that checks look at")]
pub(super) struct Moved {
    /// What everything is judged by.
    limits: bool,
    bore: bool,
    outside: bool,
    offsets: bool,
    unit: bool,
    barrel: bool,
    cap: bool,
    converter: bool,
}

impl Moved {
    /// Whether some checks look at something that moved.
    pub fn concerns(&self, group: &Group) -> bool {
        let moved = |seen: &Seen| match seen {
            Seen::Bore => self.bore,
            Seen::Outside => self.outside,
            Seen::Offsets => self.offsets,
            Seen::Unit => self.unit,
            Seen::Barrel => self.barrel,
            Seen::Cap => self.cap,
            Seen::Converter => self.converter,
        };
        self.limits || group.sees.iter().any(moved)
    }
}
