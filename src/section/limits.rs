//! What a part is judged by: least walls, thread percent, offsets of holdings.

use std::fmt;

use crate::quantity::{Length, Limits};

/// A place in the wall that has a limit of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Zone {
    /// Round the collar, from the front face to the seat.
    Lip,
    /// At the seat's corner.
    Recess,
    /// Round the clearance bore.
    Clearance,
    /// Outside the unit thread's major diameter.
    UnitThread,
    /// Round the tap drill's hole, behind the thread.
    TapDrill,
    /// Round the through bore, under the grip.
    Through,
    /// Under the cap thread's root.
    CapThread,
    /// At the inner corner of the shoulder.
    ShoulderCorner,
    /// Under the relief groove.
    Relief,
    /// Under the tenon thread's root.
    Tenon,
    /// At the tenon's chamfered end, or its pilot.
    TenonTip,
}

impl Zone {
    /// All zones, from the front to the back.
    pub const ALL: [Self; 11] = [
        Self::Lip,
        Self::Recess,
        Self::Clearance,
        Self::UnitThread,
        Self::TapDrill,
        Self::Through,
        Self::CapThread,
        Self::ShoulderCorner,
        Self::Relief,
        Self::Tenon,
        Self::TenonTip,
    ];
}

impl fmt::Display for Zone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Lip => "lip",
            Self::Recess => "recess",
            Self::Clearance => "clearance",
            Self::UnitThread => "unit-thread",
            Self::TapDrill => "tap-drill",
            Self::Through => "through",
            Self::CapThread => "cap-thread",
            Self::ShoulderCorner => "shoulder-corner",
            Self::Relief => "relief",
            Self::Tenon => "tenon",
            Self::TenonTip => "tenon-tip",
        })
    }
}

/// A limit, and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit<T> {
    /// The limit itself.
    pub value: T,
    /// "cast-resin: common practice", "this design".
    pub source: String,
}

/// A least wall for each zone.
#[derive(Clone, Debug, PartialEq)]
pub struct WallLimits(Vec<Limit<Length>>);

impl WallLimits {
    /// One limit a zone, in the order of [`Zone::ALL`].
    pub fn new(of: impl FnMut(Zone) -> Limit<Length>) -> Self {
        Self(Zone::ALL.into_iter().map(of).collect())
    }

    /// The limit of a zone.
    pub fn of(&self, zone: Zone) -> &Limit<Length> {
        &self.0[zone as usize]
    }
}

/// Percent of thread (base A: 5H/8) between which an engagement is accepted.
#[derive(Clone, Debug, PartialEq)]
pub struct PercentLimits {
    /// Less holds too little.
    pub low: Limit<f64>,
    /// More is too hard to tap in this material.
    pub high: Limit<f64>,
}

/// What is asked of the parts round the section; makers differ, and so each has a start.
#[derive(Clone, Debug, PartialEq)]
pub struct FitLimits {
    /// How far outside diameters may differ at the joint.
    pub joint_step: Limit<Length>,
    /// From the nib's tip to the closed end of the cap.
    pub nib_room: Limit<Length>,
    /// Between the grip, the nib, and the cap's bores, per side.
    pub cap_clearance: Limit<Length>,
    /// Between the converter and the bores that it passes, per side.
    pub converter_clearance: Limit<Length>,
    /// The fewest turns of full thread that hold the cap.
    pub cap_turns: Limit<f64>,
    /// The most turns that may close the cap; none: they are told and not judged.
    pub closing_turns: Option<Limit<f64>>,
}

impl FitLimits {
    /// Where a limit that no file gives comes from.
    pub const BUILT_IN: &str = "built in: common practice";

    /// The starts (common practice, no source). A joint's step of 0.1 is felt by a nail; a nib
    /// with less than 1 mm touches when the cap is screwed past its mark; 0.1 per side lets a grip
    /// with wax or a little ink on it through, and a converter that is not quite round; less than
    /// a turn of thread, and a cap works loose in the pocket.
    pub fn built_in() -> Self {
        fn of<T>(value: T) -> Limit<T> {
            Limit { value, source: FitLimits::BUILT_IN.to_owned() }
        }
        Self {
            joint_step: of(Length::mm(0.1)),
            nib_room: of(Length::mm(1.0)),
            cap_clearance: of(Length::mm(0.1)),
            converter_clearance: of(Length::mm(0.1)),
            cap_turns: of(1.0),
            closing_turns: None,
        }
    }
}

/// How far features may lie off the axis of those they share a wall with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offsets {
    /// A change of holding, between the bores and the outside.
    pub holding: Length,
    /// A long drilled hole's wander.
    pub long_hole: Length,
}

/// Everything that a verdict needs beside the measured value.
#[derive(Clone, Debug, PartialEq)]
pub struct Criteria {
    /// Least walls.
    pub walls: WallLimits,
    /// Percent of thread in the section.
    pub unit_thread: PercentLimits,
    /// Percent of thread between tenon and barrel.
    pub tenon_thread: PercentLimits,
    /// Turns of full thread that an engagement needs.
    pub least_turns: Limit<f64>,
    /// Turns of the unit's full thread that may find no full thread in the section.
    pub lost_turns: Limit<f64>,
    /// Pitches of a tap's lead, where a thread's run-out does not say it.
    pub tap_lead: Limit<f64>,
    /// How much smaller a tapped thread comes out than its tap, on the diameter: the material
    /// springs back.
    pub spring_back: Limit<Limits>,
    /// Shear strength of the material in N/mm2, for information.
    pub shear: Option<Limit<f64>>,
    /// Room between the unit and a bore that it passes, per side.
    pub least_clearance: Limit<Length>,
    /// Percent of thread between the section and its cap.
    pub cap_thread: PercentLimits,
    /// What is asked of barrel, cap, nib and converter.
    pub fits: FitLimits,
    /// A margin under this is `close`: what a maker can hold at the lathe.
    pub band: Length,
    /// Offsets of holdings.
    pub offsets: Offsets,
}
