//! Holes.

use super::super::content::{Line, Row};
use super::super::numbers;
use super::super::tables::name;
use super::{Step, plain, set, warning};
use crate::drawing::half_section::letter;
use crate::quantity::Length;
use crate::section::{Depth, Mouth, Point, ToolKind};
use crate::shop::BoreWork;
use crate::shop::choose::Taken;

pub(super) fn spot(step: Step, mouth: Mouth, within: Length) -> Row {
    let end = if mouth == Mouth::Back { "back face" } else { "front face" };
    Row {
        title: format!("Spot the {end}"),
        tool: vec![plain("centre drill, in the tailstock")],
        face: step.face(),
        set: vec![plain(format!(
            "so deep that the next drill starts true, no wider than {}",
            step.diameter(within)
        ))],
        check: vec![plain("the spot runs true")],
        ..Row::default()
    }
}

pub(super) fn bore(step: Step, work: &BoreWork) -> Row {
    let bore = &work.bore;
    let letter = letter(bore.item).map_or(String::new(), |letter| format!("{letter}: "));
    let verb = match (&work.choice.taken, bore.depth) {
        (_, Depth::Between(..)) => "turn the",
        (_, Depth::To(Length::ZERO)) => "sink the",
        (Taken::Tool(tool), _) => match tool.kind {
            ToolKind::Reamer => "ream the",
            ToolKind::BoringBar => "bore the",
            ToolKind::EndMill => "mill the",
            _ => "drill the",
        },
        _ => "make the",
    };

    Row {
        title: format!("{letter}{verb} {}, {}", name(bore.item), step.diameter(bore.diameter)),
        tool: tool(step, work),
        face: step.face(),
        set: depths(step, work),
        check: check(step, work),
        boxes: boxes(step, work),
        notes: notes(step, work),
        ..Row::default()
    }
}

fn tool(step: Step, work: &BoreWork) -> Vec<Line> {
    let bore = &work.bore;
    let point = match bore.point {
        Point::Flat => "flat".to_owned(),
        Point::Cone(angle) => format!("{} point", numbers::angle(angle)),
        Point::Centre(angle, pilot) => {
            format!("{} cone, pilot {}", numbers::angle(angle), step.diameter(pilot.diameter))
        }
    };
    let size = step.diameter(bore.diameter);
    match &work.choice.taken {
        Taken::Tool(tool) if tool.kind == ToolKind::BoringBar => {
            vec![set("boring bar"), plain(format!("to {size}, flat floor"))]
        }
        Taken::Tool(tool) => {
            let through = bore.depth == Depth::Through;
            let point = if through { String::new() } else { format!(", {point}") };
            let measured = tool
                .measured
                .map_or(String::new(), |own| format!(" (measures {})", step.length(own)));
            vec![set(tool.to_string()), plain(format!("leaves {size}{point}{measured}"))]
        }
        Taken::ByHand(what) => vec![set(*what), plain(point)],
        Taken::Buy(drill) => {
            let buy = drill.map_or("nothing at hand serves".to_owned(), |drill| {
                format!("not at hand: buy a drill {drill}, {point}")
            });
            vec![warning(buy), plain(format!("or a single point, or a reamer, to {size}"))]
        }
    }
}

fn depths(step: Step, work: &BoreWork) -> Vec<Line> {
    let (depths, bore) = (&work.depths, &work.bore);
    let mut lines = Vec::new();
    match bore.depth {
        Depth::To(depth) if depth == Length::ZERO => {
            lines.push(set(format!("to {} at the face", step.diameter(bore.diameter))));
        }
        Depth::Between(from, to) => {
            lines.push(set(format!("from {} to {} deep", step.length(from), step.length(to))));
        }
        Depth::Through => {
            lines.push(set("right through"));
            lines.push(plain(format!("out when the tip has gone {}", step.length(depths.mark))));
        }
        Depth::To(_) => {
            lines.push(set(format!("{} deep, full diameter", step.length(depths.full))));
            if depths.mark > depths.full {
                lines.push(plain(format!("mark: {} from the tip", step.length(depths.mark))));
            }
        }
    }
    if let Some(travel) = depths.travel.filter(|_| work.has_depth() && depths.full > Length::ZERO) {
        let wheel = depths
            .handwheel
            .map_or(String::new(), |wheel| format!(" = {}", numbers::handwheel(wheel)));
        let at = if depths.touches_deep > INSIDE {
            format!("inside, {} deep", step.length(depths.touches_deep))
        } else if depths.touches_at > Length::ZERO {
            "the hole's edge".to_owned()
        } else {
            "the face".to_owned()
        };
        lines.push(plain(format!("from touching {at}: {}{wheel}", step.length(travel))));
    }
    lines
}

/// What is touched so far behind the face is told by how deep it lies.
const INSIDE: Length = Length::mm(0.01);

fn check(step: Step, work: &BoreWork) -> Vec<Line> {
    let mut lines = Vec::new();
    match work.pin {
        Some(pin) => {
            let cone = if pin.on_cone { ", on the cone" } else { "" };
            lines.push(set(format!(
                "pin {} reads {}{cone}",
                step.diameter(pin.diameter),
                step.length(pin.reading)
            )));
        }
        None if work.bore.depth == Depth::Through => {
            let far = if step.operation.measured.face == Mouth::Back { "front" } else { "back" };
            let wander = step.plan.section.criteria.offsets.long_hole;
            lines.push(plain(format!(
                "open at the {far} end, off the middle there by {} at most",
                step.length(wander)
            )));
        }
        None if work.depths.full == Length::ZERO => lines.push(plain("measure across the mouth")),
        None => lines.push(plain("a rod with a bent end in the groove, or by the slide's dial")),
    }
    lines
}

fn boxes(step: Step, work: &BoreWork) -> Vec<String> {
    let mut boxes = vec![format!("Ø ({})", step.length(work.bore.diameter))];
    boxes.extend(work.pin.map(|pin| format!("pin ({})", step.length(pin.reading))));
    boxes
}

fn notes(step: Step, work: &BoreWork) -> Vec<Line> {
    let mut notes = Vec::new();
    if let Some(there) = work.opens {
        notes.push(warning(format!(
            "Opens {} by {}: it grabs and pulls itself in. {}uill lock half tight.",
            step.diameter(there),
            step.length(work.bore.diameter - there),
            if work.is_drilled() { "Lips eased, q" } else { "Feed gently, q" }
        )));
    }
    if work.breaks_through {
        let out = step.length(work.depths.mark - work.depths.full);
        notes.push(warning(format!(
            "Breaking through it grabs: ease off before. Its point comes out {out} behind the rod: \
             keep what holds it clear."
        )));
    }
    if matches!(&work.choice.taken, Taken::Tool(tool) if tool.kind == ToolKind::Reamer) {
        notes.push(warning(match &work.choice.first {
            Some(first) => format!("First {first}, as deep; the reamer follows that hole, slowly."),
            None => "First a drill one to three tenths smaller, as deep; the reamer follows it."
                .to_owned(),
        }));
    }
    let drilled = !matches!(work.choice.taken, Taken::ByHand(_)) && !work.is_turned();
    if drilled && work.depths.full > work.peck {
        notes.push(plain(format!(
            "Clear the drill every {}; stop the lathe to take ribbons off.",
            step.length(work.peck)
        )));
    }
    let choice = &work.choice;
    if choice.other_point {
        notes.push(warning(
            "Its end is another than the design's; everything was measured with it.",
        ));
    }
    let asked = (choice.becomes - choice.wanted).abs() > Length::mm(0.005);
    if asked {
        let at_hand = format!("The design asks for {}.", step.diameter(choice.wanted));
        notes.push(plain(at_hand));
    }
    let in_unit = |length| format!("{} {}", step.length(length), step.numbers.unit());
    // What the neighbours would cost is told where the choice is not the design's own.
    let told: Vec<String> =
        choice.runners_up.iter().filter_map(|other| other.said(in_unit)).collect();
    if !told.is_empty() && (asked || matches!(choice.taken, Taken::Buy(_))) {
        notes.push(plain(format!("Not {}.", told.join("; not "))));
    }
    if let [first, rest @ ..] = choice.mistaken.as_slice() {
        let others: Vec<String> =
            [first].into_iter().chain(rest).map(|other| other.is_not.to_string()).collect();
        notes.push(warning(format!("{} is not {}.", first.size, others.join(", nor "))));
    }
    notes
}
