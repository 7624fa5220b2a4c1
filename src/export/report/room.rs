//! How far each size may be off, as the report has it.

use serde::Serialize;

use crate::scene::{Room, SideRoom, Worse};

/// A size with its room.
#[derive(Serialize)]
pub(super) struct RoomPart {
    size: String,
    dimension: String,
    value_mm: f64,
    less: Option<SidePart>,
    more: SidePart,
    made: String,
    held_mm: [f64; 2],
    held_source: String,
    critical: bool,
}

/// Room to one side; `then` is none where nothing gets worse within the search.
#[derive(Serialize)]
struct SidePart {
    room_mm: f64,
    then: Option<Then>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Then {
    Check { code: &'static str, from: String, to: String },
    Impossible { impossible: String },
}

impl From<&Room> for RoomPart {
    fn from(room: &Room) -> Self {
        Self {
            size: room.parameter.name(),
            dimension: room.parameter.to_string(),
            value_mm: room.value,
            less: room.less.as_ref().map(side),
            more: side(&room.more),
            made: room.means.to_string(),
            held_mm: room.held,
            held_source: room.held_source.clone(),
            critical: room.critical,
        }
    }
}

fn side(side: &SideRoom) -> SidePart {
    let then = side.then.as_ref().map(|worse| match worse {
        Worse::Verdict { code, from, to } => {
            Then::Check { code, from: from.to_string(), to: to.to_string() }
        }
        Worse::Impossible(why) => Then::Impossible { impossible: why.clone() },
    });
    SidePart { room_mm: side.room, then }
}
