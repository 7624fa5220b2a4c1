//! What is measured of a solid and of its mesh, as the report has it; read again from an earlier
//! report where files of its set still stand.

use serde::{Deserialize, Serialize};

use crate::check::Chord;
use crate::export::{MadePart, Meshed};
use crate::solid::Body;

/// What is said of a solid.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub(in crate::export) struct SolidPart {
    volume_mm3: f64,
    area_mm2: f64,
    centroid_mm: [f64; 3],
    bounds_mm: BoundsPart,
}

#[derive(Clone, Debug, Deserialize, Serialize)]
struct BoundsPart {
    min: [f64; 3],
    max: [f64; 3],
}

/// What is said of a mesh.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub(in crate::export) struct MeshPart {
    triangles: usize,
    volume_mm3: f64,
    /// As a second library finds it; not in a report of an earlier program.
    weighed_mm3: Option<f64>,
    chord_error_mm: f64,
    chord: ChordPart,
    closed: bool,
    genus: i64,
}

#[derive(Clone, Debug, Deserialize, Serialize)]
struct ChordPart {
    asked_mm: f64,
    in_force_mm: f64,
    tightened_by: Option<ThinnestPart>,
}

#[derive(Clone, Debug, Deserialize, Serialize)]
struct ThinnestPart {
    feature: String,
    size_mm: f64,
}

/// What is said of a part beside the section.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub(in crate::export) struct OtherPart {
    /// Its name.
    pub name: String,
    solid: SolidPart,
    /// Of its STL, where the set has one.
    pub mesh: Option<MeshPart>,
}

impl From<&Body> for SolidPart {
    fn from(body: &Body) -> Self {
        let exact = body.measures();
        Self {
            volume_mm3: exact.volume,
            area_mm2: exact.area,
            centroid_mm: exact.centroid,
            bounds_mm: BoundsPart { min: exact.bounds.min, max: exact.bounds.max },
        }
    }
}

impl From<&Meshed> for MeshPart {
    fn from(meshed: &Meshed) -> Self {
        let Meshed { mesh, audit, weighed, chord } = meshed;
        Self {
            triangles: mesh.triangles.len(),
            volume_mm3: audit.volume,
            weighed_mm3: Some(*weighed),
            chord_error_mm: mesh.chord_error,
            chord: chord.into(),
            // A mesh that is not closed is never handed out.
            closed: true,
            genus: audit.genus,
        }
    }
}

impl From<&Chord> for ChordPart {
    fn from(chord: &Chord) -> Self {
        let by = chord.tightened_by.as_ref();
        Self {
            asked_mm: chord.asked,
            in_force_mm: chord.in_force,
            tightened_by: by
                .map(|thin| ThinnestPart { feature: thin.feature.clone(), size_mm: thin.size }),
        }
    }
}

impl From<&MadePart> for OtherPart {
    fn from(part: &MadePart) -> Self {
        Self {
            name: part.name.clone(),
            solid: (&part.body).into(),
            mesh: part.mesh.as_ref().map(MeshPart::from),
        }
    }
}
