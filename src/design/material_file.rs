//! A material as people write it: what a part of it is judged by, each limit with its source.

use super::reader::{Placed, Reader};
use super::value::{Amount, CutsOver, CuttingSpeed, Distance, List, Positive, Sourced};
use crate::section::Zone;

/// Percent of thread, on base A (5H/8).
#[derive(Clone, Debug, Default)]
pub(super) struct PercentFile {
    pub(super) low: Placed<Sourced<Amount>>,
    pub(super) high: Placed<Sourced<Amount>>,
}

/// What is asked of the parts round the section; each has a start.
#[derive(Clone, Debug, Default)]
pub(super) struct FitsFile {
    pub(super) joint_step: Option<Placed<Sourced<Distance>>>,
    pub(super) nib_room: Option<Placed<Sourced<Distance>>>,
    pub(super) cap_clearance: Option<Placed<Sourced<Distance>>>,
    pub(super) converter_clearance: Option<Placed<Sourced<Distance>>>,
    pub(super) cap_turns: Option<Placed<Sourced<Amount>>>,
    pub(super) closing_turns: Option<Placed<Sourced<Amount>>>,
}

fn fits(reader: &mut Reader<'_>) -> FitsFile {
    FitsFile {
        joint_step: reader.maybe("joint_step"),
        nib_room: reader.maybe("nib_room"),
        cap_clearance: reader.maybe("cap_clearance"),
        converter_clearance: reader.maybe("converter_clearance"),
        cap_turns: reader.maybe("cap_turns"),
        closing_turns: reader.maybe("closing_turns"),
    }
}

/// How it is cut; each number has a start.
#[derive(Clone, Debug, Default)]
pub(super) struct CuttingFile {
    /// m/min.
    pub(super) drilling: Option<Placed<Sourced<CuttingSpeed>>>,
    /// m/min.
    pub(super) turning: Option<Placed<Sourced<CuttingSpeed>>>,
    /// Diameters of the drill between clearings.
    pub(super) peck: Option<Placed<Sourced<Positive>>>,
    pub(super) coolant: Option<Placed<Sourced<String>>>,
    pub(super) notes: Vec<Placed<Sourced<String>>>,
}

fn cutting(reader: &mut Reader<'_>) -> CuttingFile {
    let notes: Option<Placed<List<Sourced<String>>>> = reader.maybe("notes");
    CuttingFile {
        drilling: reader.maybe("drilling"),
        turning: reader.maybe("turning"),
        peck: reader.maybe("peck"),
        coolant: reader.maybe("coolant"),
        notes: notes.map(|notes| notes.value.0).unwrap_or_default(),
    }
}

/// A material.
#[derive(Clone, Debug)]
pub(super) struct MaterialFile {
    pub(super) name: Placed<String>,
    /// In the order of [`Zone::ALL`].
    pub(super) walls: Vec<Placed<Sourced<Distance>>>,
    pub(super) unit_thread: PercentFile,
    pub(super) tenon_thread: PercentFile,
    /// As the tenon's where it is left out.
    pub(super) cap_thread: Option<PercentFile>,
    pub(super) fits: FitsFile,
    pub(super) least_turns: Placed<Sourced<Amount>>,
    pub(super) clearance: Placed<Sourced<Distance>>,
    pub(super) band: Placed<Sourced<Distance>>,
    /// How much smaller a tapped thread comes out than its tap.
    pub(super) spring_back: Option<Placed<Sourced<CutsOver>>>,
    pub(super) lost_turns: Option<Placed<Sourced<Amount>>>,
    pub(super) tap_lead: Option<Placed<Sourced<Amount>>>,
    /// N/mm2.
    pub(super) shear: Option<Placed<Sourced<Amount>>>,
    pub(super) cutting: CuttingFile,
}

/// The key of a zone.
fn key(zone: Zone) -> &'static str {
    match zone {
        Zone::Lip => "lip",
        Zone::Recess => "recess",
        Zone::Clearance => "clearance",
        Zone::UnitThread => "unit_thread",
        Zone::TapDrill => "tap_drill",
        Zone::Through => "through",
        Zone::CapThread => "cap_thread",
        Zone::ShoulderCorner => "shoulder_corner",
        Zone::Relief => "relief",
        Zone::Tenon => "tenon",
        Zone::TenonTip => "tenon_tip",
    }
}

fn percent(reader: &mut Reader<'_>) -> PercentFile {
    PercentFile {
        low: reader.need("low", "low = { value = 60, source = \"common practice\" }"),
        high: reader.need("high", "high = { value = 95, source = \"common practice\" }"),
    }
}

impl MaterialFile {
    pub(super) fn read(reader: &mut Reader<'_>) -> Self {
        let name = reader.need("name", "name = \"Cast resin\"");
        let walls = reader.need_table("walls", "[walls] with a least wall for each zone", |r| {
            let example =
                |zone| format!("{} = {{ value = 0.6, source = \"common practice\" }}", key(zone));
            let walls = Zone::ALL.map(|zone| match zone {
                Zone::CapThread | Zone::ShoulderCorner => r.maybe(key(zone)),
                other => Some(r.need(key(other), &example(other))),
            });
            // A thread on the outside asks for what a thread inside does, unless it is said, and
            // the shoulder's corner for what the tenon does.
            let of = |zone: Zone| walls[zone as usize].clone().unwrap_or_default();
            let other = |zone| match zone {
                Zone::CapThread => of(Zone::UnitThread),
                Zone::ShoulderCorner => of(Zone::Tenon),
                own => of(own),
            };
            let zones = Zone::ALL.into_iter();
            zones.map(|zone| walls[zone as usize].clone().unwrap_or_else(|| other(zone))).collect()
        });
        let example = "[thread_percent] with unit and tenon";
        let percent = reader.need_table("thread_percent", example, |r| {
            let example = "unit = { low = 60, high = 90 }";
            let unit = r.need_table("unit", example, percent).unwrap_or_default();
            let example = "tenon = { low = 50, high = 110 }";
            let tenon = r.need_table("tenon", example, percent).unwrap_or_default();
            (unit, tenon, r.table("cap", percent))
        });
        let mut optional = (None, None);
        let mut round = FitsFile::default();
        let example = "[fit] with least_turns = 4, clearance = 0.05 and band = 0.02";
        let fit = reader.need_table("fit", example, |r| {
            let least_turns = r.need("least_turns", "least_turns = 4");
            let clearance = r.need("clearance", "clearance = 0.05");
            let band = r.need("band", "band = 0.02");
            optional = (r.maybe("lost_turns"), r.maybe("tap_lead"));
            round = fits(r);
            (least_turns, clearance, band)
        });
        let (lost_turns, tap_lead) = optional;
        let (unit_thread, tenon_thread, cap_thread) = percent.unwrap_or_default();
        let (least_turns, clearance, band) = fit.unwrap_or_default();
        let spring_back = reader.table("tapping", |r| r.maybe("springs_back")).flatten();
        let shear = reader.table("strength", |r| r.maybe("shear")).flatten();
        let cutting = reader.table("cutting", cutting).unwrap_or_default();
        Self {
            name,
            walls: walls.unwrap_or_default(),
            unit_thread,
            tenon_thread,
            cap_thread,
            fits: round,
            least_turns,
            clearance,
            band,
            spring_back,
            lost_turns,
            tap_lead,
            shear,
            cutting,
        }
    }
}
