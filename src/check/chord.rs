//! The chord error with which a part's thinnest feature is still shown.

use super::wall::least_wall;
use crate::mesh::{LEAST_CHORD, check_chord};
use crate::section::{Part, Skin};
use crate::solid::{Body, Meridian};

/// Chord errors to a feature's size: a mesh that strays by a quarter of a wall from either skin
/// still shows half of it; with a coarser one, skins of two parts could touch.
const SHARE: f64 = 4.0;

/// The thinnest thing of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Thinnest {
    /// "wall between recess and grip-1", "step recess.floor", "depth of the unit-thread".
    pub feature: String,
    /// Its size in millimetres.
    pub size: f64,
}

/// The chord error that a part is meshed with.
#[derive(Clone, Debug, PartialEq)]
pub struct Chord {
    /// As it was asked for, in millimetres.
    pub asked: f64,
    /// As it is in force: less where a thin feature asks for it.
    pub in_force: f64,
    /// The feature that asks for it; none where what was asked for is fine enough.
    pub tightened_by: Option<Thinnest>,
}

/// The chord in force: at most a quarter of the least wall, step or thread depth of the part,
/// and never finer than [`LEAST_CHORD`]. A chord that can't be made is left as it is, to be
/// refused.
pub fn chord(part: &Part, body: &Body, asked: f64) -> Chord {
    let as_asked = Chord { asked, in_force: asked, tightened_by: None };
    if check_chord(asked).is_err() {
        return as_asked;
    }
    match thinnest(part, body) {
        Some(thin) if asked > thin.size / SHARE => {
            let in_force = (thin.size / SHARE).max(LEAST_CHORD);
            Chord { in_force, tightened_by: Some(thin), ..as_asked }
        }
        _ => as_asked,
    }
}

/// The least of walls (from a bore to the outside), steps (a line of the half-section, along
/// itself) and thread depths.
fn thinnest(part: &Part, body: &Body) -> Option<Thinnest> {
    let wall = least_wall(&body.swept()).map(|(size, inner, outer)| Thinnest {
        feature: format!("wall between {inner} and {outer}"),
        size,
    });
    let steps = part.runs.iter().map(|run| {
        let kind = if run.skin == Skin::End { "face" } else { "step" };
        Thinnest { feature: format!("{kind} {}", run.feature), size: Meridian::of(run).length() }
    });
    let depths = body.threads().iter().map(|thread| Thinnest {
        feature: format!("depth of the {}", thread.item),
        size: (thread.crest - thread.root).abs(),
    });
    wall.into_iter().chain(steps).chain(depths).reduce(|a, b| if b.size < a.size { b } else { a })
}
