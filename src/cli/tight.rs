//! The sizes that are to be held tight, and the room of all of them, as a maker reads them.

use crate::check::{self, Verdict};
use crate::diagnostic::{Style, Tone, paint};
use crate::scene::{Room, SideRoom, Worse};

/// Those with less room than can be held; nothing where there are none.
pub(super) fn tight(rooms: &[Room], style: Style) -> String {
    let critical: Vec<&Room> = rooms.iter().filter(|room| room.critical).collect();
    if rooms.is_empty() {
        return String::new();
    }
    if critical.is_empty() {
        let text = "Every size may be off by as much as can be held.";
        return format!("\n{}\n", paint(text, Tone::Good, style));
    }
    let title = paint("Hold these tight (`check --room` has all sizes)", Tone::Strong, style);
    let rows: String = critical.into_iter().map(|room| row(room, style)).collect();
    format!("\n{title}\n{rows}")
}

/// All sizes, in the order of the part.
pub(super) fn all(rooms: &[Room], style: Style) -> String {
    let title = "How far each size may be off before a verdict gets worse";
    let rows: String = rooms.iter().map(|room| row(room, style)).collect();
    format!("\n{}\n{rows}", paint(title, Tone::Strong, style))
}

fn row(room: &Room, style: Style) -> String {
    let Room { parameter, value, less, more, means, held, .. } = room;
    let sides = [("-", less.as_ref(), held[0]), ("+", Some(more), held[1])];
    let room_of = |(sign, side, _): &(&str, Option<&SideRoom>, f64)| {
        side.map_or(String::new(), |side| match side.then {
            Some(_) => format!("{sign}{}", down(side.room)),
            None => format!("{sign}2 or more"),
        })
    };
    let [less, more] = sides.each_ref().map(room_of);
    let numbers = format!("{value:>8.2} {less:>11} {more:>11}  ");
    let name = format!("  {:<46}", parameter.to_string());
    let name = if room.critical { paint(&name, Tone::Watch, style) } else { name };
    // What bites on a side that is too tight, else on the tighter one.
    let ends = sides.iter().filter_map(|(sign, side, held)| {
        let side = side.filter(|side| side.then.is_some())?;
        Some((side.room - held, *sign, side))
    });
    let tightest = ends.reduce(|a, b| if b.0 < a.0 { b } else { a });
    let why = tightest.map_or(String::new(), |(_, sign, side)| format!("{sign} {}", then(side)));
    format!("{name}{numbers}{means}; {why}\n").replace("; \n", "\n")
}

/// Rounded down to hundredths, so that nobody is promised more than there is.
fn down(room: f64) -> String {
    format!("{:.2}", (room * 100.0 + 1e-9).floor() / 100.0)
}

fn then(side: &SideRoom) -> String {
    match &side.then {
        Some(Worse::Verdict { code, to, .. }) => {
            let title = check::info(code).map_or(*code, |check| check.title);
            let to = if *to == Verdict::Close { "is close" } else { "breaks" };
            format!("{to}: {}", title.to_lowercase())
        }
        Some(Worse::Impossible(why)) => why.clone(),
        None => String::new(),
    }
}
