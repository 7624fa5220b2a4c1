//! What a sheet warns of. The usual cautions of shops and handbooks, in our own words; nothing for
//! which no source was found is put as a fact.

use crate::drawing::CAUTION;
use crate::section::ToolKind;
use crate::shop::Plan;
use crate::shop::choose::Taken;

/// The three that stand on top.
pub fn first() -> [String; 3] {
    [
        "Eye and face protection always. No gloves, loose sleeves, rings or watch; hair tied back.",
        "Chuck key out. Stop the lathe before you measure, clear ribbons, or bring a tool by hand.",
        "Tap by hand only, spindle locked and power off. Never force a thread.",
    ]
    .map(str::to_owned)
}

/// All others.
pub fn rest(plan: &Plan) -> Vec<String> {
    let mut all = vec![
        "A drill that opens a hole by tenths, or breaks through, grabs and pulls itself in: ease its \
         lips, lock or hold the quill, feed by hand."
            .to_owned(),
        "Work that stands out more than 3 x its diameter wants support. Brush chips away, never by \
         hand."
            .to_owned(),
        "Dust of resin, filler and ebonite: extraction and a respirator; sand wet. Hot ebonite chips \
         smell of sulphur: ventilate."
            .to_owned(),
        "Acrylic: no alcohol or solvent on it, it crazes; water with a little soap. Cellulose \
         nitrate: its swarf burns fiercely; know what the rod is, no sparks, clear chips at once."
            .to_owned(),
        "Uncured resin: nitrile gloves and ventilation, away from machines. Solvents and sprays: \
         ventilation, no flame."
            .to_owned(),
    ];
    let cutting = &plan.workshop.cutting;
    let lathe = &plan.workshop.lathe;
    all.push(format!(
        "Speeds: drilling at {:.0} m/min ({}), turning at {:.0} m/min ({}); a drill in the tailstock no \
         faster than {:.0} rpm ({}), turned work {:.0} rpm ({}); the lathe's next slower one is set. \
         Drills are cleared every {} x their diameter ({}). A trial comes before any figure.",
        cutting.drilling.value,
        own(&cutting.drilling.source),
        cutting.turning.value,
        own(&cutting.turning.source),
        lathe.tailstock_drill.value,
        own(&lathe.tailstock_drill.source),
        lathe.turning.value,
        own(&lathe.turning.source),
        cutting.peck.value,
        own(&cutting.peck.source)
    ));
    let notes = cutting.coolant.iter().chain(&cutting.notes);
    all.extend(
        notes.map(|note| {
            format!("{}: {} ({})", plan.section.material, note.value, own(&note.source))
        }),
    );
    let reamed = plan
        .choices
        .iter()
        .any(|choice| matches!(&choice.taken, Taken::Tool(tool) if tool.kind == ToolKind::Reamer));
    if reamed {
        all.push("A reamer follows a hole a little too small; it is no drill.".to_owned());
    }
    all.push(CAUTION.to_owned());
    all
}

/// A source without the profile's own name before it.
fn own(source: &str) -> &str {
    source.split_once(": ").map_or(source, |(_, said)| said)
}
