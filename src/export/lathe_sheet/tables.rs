//! The tables of the sheet: what the letters are, the outside's diameters, and what to do when the
//! unit binds.

use super::content::Table;
use super::numbers::{self, Numbers};
use crate::drawing::half_section::letter;
use crate::quantity::{Angle, Length};
use crate::section::{Bore, Corner, Depth, Item, Mouth, RingForm};
use crate::shop::{Plan, Taper};

/// A table from its parts.
fn table(title: &str, heads: &[&str], rows: Vec<Vec<String>>) -> Table {
    let heads = heads.iter().map(|head| (*head).to_owned()).collect();
    Table { title: title.to_owned(), heads, rows }
}

/// What the holes are, by their letters, as they will be when everything is done.
pub fn letters(plan: &Plan, numbers: Numbers) -> Table {
    let section = &plan.section;
    let mut rows: Vec<Vec<String>> = Vec::new();
    for bore in &section.bores {
        let letter = letter(bore.item).map(String::from).unwrap_or_default();
        let choice = plan.choice(bore.item);
        let asked = choice.filter(|choice| (choice.becomes - choice.wanted).abs() > HUNDREDTH);
        let asked = asked.map_or(String::new(), |choice| {
            format!(" (design: {})", numbers.length(choice.wanted))
        });
        let size = format!("{}{asked}", numbers.diameter(bore.diameter));
        rows.push(vec![letter, name(bore.item), size, reach(bore, numbers)]);
    }
    let thread = &section.unit_thread;
    let [from, to] = thread.full().map(|z| numbers.length(z));
    let letter = letter(thread.item).map(String::from).unwrap_or_default();
    let words = format!("full {from} to {to}");
    rows.push(vec![letter, name(thread.item), thread.designation.to_string(), words]);
    // Lettered ones first, in their order.
    rows.sort_by_key(|row| (row[0].is_empty(), row[0].clone()));
    table(
        "Finished sizes, depths from the finished front face",
        &["", "hole", "size", "depth"],
        rows,
    )
}

/// A difference of two sizes that is shown.
const HUNDREDTH: Length = Length::mm(0.005);

/// What a hole is called at the lathe.
pub fn name(item: Item) -> String {
    match item {
        Item::Recess => "collar recess".to_owned(),
        Item::ClearanceBore => "clearance bore".to_owned(),
        Item::UnitThread => "unit thread".to_owned(),
        Item::TapDrill => "tap-drill bore".to_owned(),
        Item::ThroughBore => "through bore".to_owned(),
        Item::BoreStep(Mouth::Front, n) => format!("front bore {n}"),
        Item::BoreStep(Mouth::Back, n) => format!("back bore {n}"),
        Item::Countersink(Mouth::Front) => "countersink, front".to_owned(),
        Item::Countersink(Mouth::Back) => "countersink, back".to_owned(),
        Item::BoreRelief(n) => format!("relief {n} inside"),
        other => other.to_string(),
    }
}

fn reach(bore: &Bore, numbers: Numbers) -> String {
    let face = if bore.mouth == Mouth::Back { " from the back" } else { "" };
    match bore.depth {
        Depth::To(depth) if depth == Length::ZERO => {
            bore.point.cone().map_or(String::new(), |cone| format!("{} cone", numbers::angle(cone)))
        }
        Depth::To(depth) => format!("{}{face}", numbers.length(depth)),
        Depth::Between(from, to) => format!("{} to {}", numbers.length(from), numbers.length(to)),
        Depth::Through => "through".to_owned(),
    }
}

/// The outside's diameter every two millimetres.
pub fn outside(plan: &Plan, numbers: Numbers) -> Table {
    let to_come = plan.section.allowance.sanding;
    let rows = plan.outside.places.iter();
    let rows = rows.map(|place| place.map(|length| numbers.length(length)).to_vec()).collect();
    let title = if to_come > Length::ZERO {
        format!("Outside, from the front face with {} still to be sanded", numbers.length(to_come))
    } else {
        "Outside, from the finished front face".to_owned()
    };
    table(&title, &["from front", "Ø"], rows)
}

/// Slopes, corners and rings of the outside.
pub fn slopes(plan: &Plan, numbers: Numbers) -> Vec<String> {
    let outside = &plan.outside;
    let mut lines: Vec<String> = outside
        .tapers
        .iter()
        .map(|taper| {
            let [from, narrow] = taper.from.map(|length| numbers.length(length));
            let [to, wide] = taper.to.map(|length| numbers.length(length));
            format!("{from} to {to}: Ø{narrow} to Ø{wide}, compound slide {}", slope(taper))
        })
        .collect();
    lines.extend(outside.curved.then(|| "Curves: by the diameters and the template.".to_owned()));
    lines.extend(outside.corners.iter().filter_map(|(at, corner)| {
        let at = numbers.length(*at);
        match corner {
            Corner::Sharp => None,
            Corner::Fillet(radius) => Some(format!("corner at {at}: R{}", numbers.length(*radius))),
            Corner::Chamfer { before, after } => {
                let [before, after] = [before, after].map(|leg| numbers.length(*leg));
                Some(format!("corner at {at}: chamfer {before} before, {after} behind"))
            }
        }
    }));
    let to_come = plan.section.allowance.sanding;
    lines.extend(outside.rings.iter().map(|ring| {
        let what = match ring.form {
            RingForm::Bead => "bead, round",
            RingForm::RoundGroove => "groove, round",
            RingForm::SquareGroove => "groove, square",
            RingForm::VeeGroove => "groove, vee",
        };
        let [at, width, height] =
            [ring.at + to_come, ring.width, ring.height].map(|length| numbers.length(length));
        format!("{what}, its middle at {at}: {width} wide, {height} high or deep")
    }));
    lines
}

/// A taper's angle, and which way where it is the unusual one.
pub fn slope(taper: &Taper) -> String {
    let angle = numbers::angle(Angle::deg(taper.angle.as_deg().abs()));
    let way = if taper.angle.as_deg() < 0.0 { ", narrower to the back" } else { "" };
    format!("{angle}{way}")
}

/// The kinds of binding, with this design's numbers.
pub fn binding(plan: &Plan, numbers: Numbers) -> Table {
    let found = &plan.binding;
    let length = |length: Option<Length>| length.map(|it| numbers.length(it));
    let unit = numbers.unit();
    let mut rows = Vec::new();
    let mut row =
        |sign: String, cause: String, cure: &str| rows.push(vec![sign, cause, cure.to_owned()]);
    let after = found.cut_small_stops_after.map_or_else(
        || "in the first turn".to_owned(),
        |turns| format!("in the first turn (about {} turn in)", numbers::turns(turns)),
    );
    let room = length(found.pitch_diameter_room);
    let room = room.map_or(String::new(), |room| {
        format!(" At its tightest the pitch diameter has {room} {unit} of room.")
    });
    let crests = length(found.crest_room.filter(|room| *room > Length::ZERO));
    let crests =
        crests.map_or(String::new(), |room| format!(" Crests clear by {room} {unit} a side."));
    row(
        format!("Stops {after}"),
        format!(
            "Thread cut small (the material springs back, a worn tap), crests that rub, or \
             cross-started.{room}{crests}"
        ),
        "Back out, start again straight. Clean the thread, run the tap through once more; then the \
         sizing tap. Ink on the unit's crests shows where it rubs.",
    );
    let pitch = found.turns.zip(found.pitch_error.map(|error| numbers.fine(error)));
    let pitch = pitch.map_or(String::new(), |(turns, error)| {
        format!(
            " Over the {} turns that engage, {error} {unit} a turn takes all the room.",
            numbers::turns(turns)
        )
    });
    row(
        "Turns tighter and tighter".to_owned(),
        format!("The pitches differ.{pitch}"),
        "Hold a thread gauge against the unit. No sizing tap cures a wrong pitch: cut the right one, \
         or engage fewer turns.",
    );
    let per_turn = numbers.length(found.per_turn);
    row(
        "Stops always at the same depth".to_owned(),
        format!(
            "Tapped too shallow, chips at the bottom, or the unit touches the end. Each turn that is \
             missing leaves it {per_turn} {unit} proud; to spare behind it: {}.",
            spare(found.spare_turns)
        ),
        "Clear the chips. Tap on by the turns that are missing, no farther than the tap-drill bore \
         allows.",
    );
    let seat = length(found.behind_seat).map_or(String::new(), |room| {
        format!(" Seated, it could go {room} {unit} farther before anything else touches.")
    });
    let collar = length(found.round_collar)
        .map_or(String::new(), |room| format!(" Round the collar {room} {unit} a side."));
    row(
        "Turns freely but stands proud".to_owned(),
        format!("The recess is too shallow or too narrow for the collar, or a burr.{seat}{collar}"),
        "Measure recess and collar. Deepen or open the recess; mind the lip.",
    );
    table("When the unit binds: never force it", &["what it does", "why", "what to do"], rows)
}

/// Turns with their word.
fn spare(turns: f64) -> String {
    let words = numbers::turns(turns);
    let word = if turns.round() <= 1.0 { "turn" } else { "turns" };
    format!("{words} {word}")
}
