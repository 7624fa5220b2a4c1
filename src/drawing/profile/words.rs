//! What a profile says in words: its origins, and the threads that its paths leave out.

use crate::drawing::CAUTION;
use crate::drawing::view::chain::Chain;
use crate::drawing::{Anchor, Drawing, Layer, Point, Text, wrap};
use crate::quantity::{Length, Limits};
use crate::section::{COINCIDENT, Item, Section, Side, Thread};
use crate::standard::designation::Hand;

/// Height of a capital, in mm of the part, for there is no paper: at true size a line of words is
/// then two to three parts long. Greater, and the words dwarf the part; smaller, and they are not
/// read where the whole is shown.
const HEIGHT: f64 = 1.0;
/// From one line to the next, in mm. Less, and a g touches the next line's M.
const LINE: f64 = 1.8;
/// From the axis to the first line's feet, in mm. Less, and the words stand on the paths.
const BELOW: f64 = 4.0;
/// A line of words is at most this long, in mm. Longer, and the view on opening shows the part
/// small; shorter, and the words stand higher than the part is long.
const WIDEST: f64 = 80.0;

/// Draws the words below the part.
pub fn draw(drawing: &mut Drawing, section: &Section, chains: [&Chain; 2], bores: &[Layer]) {
    let mut paragraphs = about(section, bores);
    let mut threads: Vec<&Thread> = section.threads().collect();
    threads.sort_by(|a, b| a.from.as_mm().total_cmp(&b.from.as_mm()));
    let length = section.length();
    for thread in threads {
        paragraphs.extend(data(thread, full(thread, chains), length));
    }
    paragraphs.push(CAUTION.to_owned());
    let lines = paragraphs.iter().flat_map(|words| wrap(words, HEIGHT, WIDEST));
    let mut y = -BELOW;
    for words in lines {
        let at = Point::new(0.0, y);
        drawing.text(Layer::ThreadData, Text::new(at, HEIGHT, Anchor::Start, words));
        y -= LINE;
    }
}

/// Where zero is, and what the paths are.
fn about(section: &Section, bores: &[Layer]) -> Vec<String> {
    let back = mm(section.length());
    let holes: Vec<&str> = bores.iter().map(|layer| layer.name()).collect();
    vec![
        format!("{}: profile for turning, true size, in millimetres.", section.name),
        "y is the radius; x runs along the axis from the finished front face to the back face."
            .to_owned(),
        format!(
            "Origins: {} at x 0, the finished front face; {} at x {back}, the back face.",
            Layer::OriginFront.name(),
            Layer::OriginBack.name()
        ),
        format!(
            "Paths: {}, the part as if it were solid; {}, what is bored out of it.",
            Layer::Outline.name(),
            holes.join(" and ")
        ),
        "Not in the paths: threads, their run-outs, a chamfer on a first turn that no path shows."
            .to_owned(),
    ]
}

/// What is said of a thread.
fn data(thread: &Thread, full: Option<[f64; 2]>, length: Length) -> Vec<String> {
    let form = &thread.form;
    let (what, follows) = match thread.side {
        Side::External if thread.item == Item::TenonThread => {
            ("External thread at the back", "nominal major")
        }
        Side::External => ("External thread before the shoulder", "nominal major"),
        Side::Internal => ("Internal thread from the front", "minor, the tap drill's,"),
    };
    let hand = match form.hand {
        Hand::Right => "right hand",
        Hand::Left => "left hand",
    };
    let starts = match form.starts {
        1 => "1 start".to_owned(),
        starts => format!("{starts} starts"),
    };
    let class = thread.designation.class().map_or_else(
        || "no tolerance class".to_owned(),
        |class| format!("tolerance class {class}"),
    );
    let size = |limits: Limits| format!("Ø{} to Ø{}", mm(limits.min()), mm(limits.max()));
    let limits = thread.limits;
    let reference = match thread.side {
        Side::External => "Limits",
        Side::Internal => "Limits, for reference; the mating thread decides",
    };
    vec![
        format!("{what}: {}, {class}, {hand}, {starts}.", thread.designation),
        format!("Pitch {}, lead {}.", mm(form.pitch), mm(form.lead())),
        format!("The path follows its {follows} diameter: Ø{}.", mm(form.crest)),
        extent(thread, full, length),
        format!(
            "{reference}: major {}, pitch {}, minor {}.",
            size(limits.major),
            size(limits.pitch),
            size(limits.minor)
        ),
    ]
}

/// Where the thread is full, from the face that its end of the part is set by.
fn extent(thread: &Thread, full: Option<[f64; 2]>, length: Length) -> String {
    let partial = if thread.run_out_lengths() == [Length::ZERO; 2] {
        String::new()
    } else {
        format!("; with its run-out from x {} to x {}", mm(thread.from), mm(thread.to))
    };
    let Some(ends) = full else { return format!("No full thread{partial}.") };
    let [from, to] = ends.map(Length::mm);
    let place = if thread.item == Item::TenonThread {
        format!("{} to {} from the back face", mm(length - to), mm(length - from))
    } else {
        format!("{} to {} from the finished front face", mm(from), mm(to))
    };
    format!("Full thread {place} (x {} to {}){partial}.", mm(from), mm(to))
}

/// The span of x in which the thread is as deep as it is wanted and its crest's cylinder stands;
/// none where there is no such place.
fn full(thread: &Thread, [outside, bore]: [&Chain; 2]) -> Option<[f64; 2]> {
    let [from, to] = thread.full().map(Length::as_mm);
    // The cylinder lies at the crest: a level beside it is passed where the cylinder ends.
    let beside = COINCIDENT / 2.0;
    let stands = match thread.side {
        Side::External => outside.above((thread.form.crest - beside).as_mm() / 2.0, from, to),
        Side::Internal => bore.below((thread.form.crest + beside).as_mm() / 2.0, from, to),
    };
    Some([stands.first()?[0], stands.last()?[1]])
}

/// To a micrometre, as ISO 965-1 tabulates limits.
fn mm(length: Length) -> String {
    format!("{:.3}", length.as_mm())
}
