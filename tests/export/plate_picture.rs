//! `plate.svg`: each piece where it is printed, as large as it is, and no word in another's way.

use sectionwright::design::{Library, load, load_printer};
use sectionwright::drawing::part::{crosses, overlap};
use sectionwright::drawing::plate_picture;
use sectionwright::drawing::{Drawing, Entity, Layer, Point, Polyline, Shape, Sheet, Text};
use sectionwright::export::svg;
use sectionwright::print::specimen::{Ladder, Mated, SpecimenKind};
use sectionwright::print::{Layout, Piece, calibration_pieces, layout, pieces};
use sectionwright::section::{Plate, Printer};
use sectionwright::solid::Meridian;

use crate::common::mm;

/// Straight pieces of an arc.
const PIECES: u32 = 32;

fn printer(name: &str) -> Printer {
    load_printer(&Library::new(vec![]), name).unwrap().printer
}

fn specimens(printer: &Printer, kinds: &[SpecimenKind], rungs: u8) -> Vec<Piece> {
    let section = load(&Library::new(vec![]), "demo").unwrap().section;
    let ladder = Ladder { rungs, ..Ladder::usual(printer, Mated::Unit) };
    pieces(&section, kinds, printer, &ladder, mm(0.005)).unwrap()
}

/// A plate, by the name that its picture is kept under.
struct Case {
    name: &'static str,
    printer: Printer,
    pieces: Vec<Piece>,
    layout: Layout,
}

impl Case {
    fn new(name: &'static str, printer: &Printer, pieces: Vec<Piece>) -> Self {
        let layout = layout(&pieces, printer).unwrap();
        Self { name, printer: printer.clone(), pieces, layout }
    }

    fn sheet(&self) -> Sheet {
        let title = format!("Test print: {}", self.name);
        plate_picture::sheet(&title, &self.printer, &self.pieces, &self.layout).unwrap()
    }
}

/// Twenty pieces with long names, none like another.
fn twenty(printer: &Printer) -> Vec<Piece> {
    let kinds = [SpecimenKind::Ladder, SpecimenKind::StandIn, SpecimenKind::Coupon];
    let mut all = specimens(printer, &kinds, 9);
    all.extend(specimens(printer, &[SpecimenKind::Section, SpecimenKind::Ladder], 7));
    for (n, piece) in all.iter_mut().enumerate() {
        piece.name = format!("{}-of-the-second-trial-{}", piece.name, n + 1);
    }
    assert_eq!(all.len(), 20);
    all
}

fn cases() -> Vec<Case> {
    use SpecimenKind::{CapProbe, Coupon, Ladder, Plug, Ring, Section, StandIn};
    let [resin, filament] = ["resin", "filament"].map(printer);
    let sized = |build: [f64; 3]| Printer { build: build.map(mm), ..resin.clone() };
    let big = sized([250.0, 210.0, 220.0]);
    let long = Printer { build: [300.0, 40.0, 200.0].map(mm), ..resin.clone() };
    let calibration = |printer: &Printer| calibration_pieces(&Plate::new(printer));
    let everything = [Section, Coupon, Ladder, StandIn, Ring, Plug, CapProbe];
    vec![
        Case::new("resin-ladder", &resin, specimens(&resin, &[Ladder, StandIn], 5)),
        Case::new("filament-coupon", &filament, specimens(&filament, &[Section, Coupon], 5)),
        Case::new("filament-smooth", &filament, specimens(&filament, &[StandIn, Ring], 5)),
        Case::new("resin-calibration", &resin, calibration(&resin)),
        Case::new("filament-calibration", &filament, calibration(&filament)),
        Case::new("one-ring", &resin, specimens(&resin, &[Ring], 5)),
        Case::new("everything", &big, specimens(&big, &everything, 9)),
        Case::new("twenty-big", &big, twenty(&resin)),
        // As many of them as a small plate holds.
        Case::new("full-small", &resin, twenty(&resin)[..18].to_vec()),
        Case::new("long-plate", &long, specimens(&resin, &[Section, StandIn], 5)),
        Case::new("calibration-big", &big, calibration(&big)),
    ]
}

fn texts(drawing: &Drawing) -> Vec<&Text> {
    let words = drawing.entities.iter().filter_map(|entity| match &entity.shape {
        Shape::Text(text) => Some(text),
        _ => None,
    });
    words.collect()
}

fn lines(drawing: &Drawing) -> Vec<[Point; 2]> {
    let straight = |entity: &Entity| -> Vec<[Point; 2]> {
        match &entity.shape {
            Shape::Line(ends) => vec![*ends],
            Shape::Triangle([a, b, c]) => vec![[*a, *b], [*b, *c], [*c, *a]],
            Shape::Polyline(chain) => {
                let parts = chain.segments().flat_map(|s| {
                    let at = move |n: u32| s.at(f64::from(n) / f64::from(PIECES));
                    (0..PIECES).map(move |n| [at(n), at(n + 1)])
                });
                parts.collect()
            }
            Shape::Text(_) => vec![],
            other => panic!("no {other:?} on a plate's picture"),
        }
    };
    drawing.entities.iter().flat_map(straight).collect()
}

/// What is wrong with a sheet, in words.
fn faults(sheet: &Sheet) -> Vec<String> {
    let (lines, texts) = (lines(&sheet.drawing), texts(&sheet.drawing));
    let [least, most] = sheet.area;
    // The long side of A4 (ISO 216): printed on it, letters are not under 1.8 (ISO 3098-1, from
    // memory).
    let on_a4 = 297.0 / (most.x - least.x).max(most.y - least.y);
    let mut found = Vec::new();
    for (n, text) in texts.iter().enumerate() {
        let over = texts[..n].iter().filter(|other| overlap(text.corners(), other.corners()));
        found.extend(over.map(|other| format!("{:?} over {:?}", text.words, other.words)));
        if lines.iter().any(|line| crosses(*line, text.corners())) {
            found.push(format!("{:?} over a line", text.words));
        }
        if text.height * on_a4 < 1.8 - 1e-9 {
            found.push(format!("{:?} is too small", text.words));
        }
    }
    // The frame (ISO 5457, from memory): 20 from the left edge, 10 from the others.
    let [low, high] = sheet.drawing.extents().unwrap();
    if low.x < 20.0 || low.y < 10.0 || high.x > most.x - 10.0 || high.y > most.y - 10.0 {
        found.push("something lies beyond the frame".to_owned());
    }
    found
}

#[test]
fn no_word_meets_a_line_or_another_word() {
    let folder = format!("{}/plate", env!("CARGO_TARGET_TMPDIR"));
    std::fs::create_dir_all(&folder).unwrap();
    for case in cases() {
        let sheet = case.sheet();
        std::fs::write(format!("{folder}/{}.svg", case.name), svg::write(&sheet)).unwrap();
        assert_eq!(faults(&sheet), Vec::<String>::new(), "{}", case.name);
        assert_eq!(svg::write(&sheet), svg::write(&case.sheet()), "{}", case.name);
        let words: Vec<&str> = texts(&sheet.drawing).iter().map(|t| t.words.as_str()).collect();
        // A long name goes on in a further line.
        let (all, whole) = (words.join(" "), words.concat());
        for piece in &case.pieces {
            assert!(whole.contains(&piece.name), "{}: {}\n{all}", case.name, piece.name);
            let sizes = format!("Ø{:.2} × {:.2}", widest(piece), piece.height().as_mm());
            assert!(all.contains(&sizes), "{}: {sizes}\n{all}", case.name);
            let what = match &piece.rung {
                Some(_) if !piece.smooth.is_empty() => "without thread".to_owned(),
                Some(rung) => format!("{:.2} mm between flanks", rung.clearance.as_mm()),
                None => piece.what.clone(),
            };
            assert!(all.contains(&what), "{}: {what}\n{all}", case.name);
        }
        for say in [&case.printer.name, "front", "no approval", "From above, ", "From the side"] {
            assert!(all.contains(say), "{}: {say}\n{all}", case.name);
        }
    }
}

/// The drawn chains of a layer.
fn chains(drawing: &Drawing, layer: Layer) -> Vec<&Polyline> {
    let found = drawing.entities.iter().filter(|entity| entity.layer == layer);
    let chain = |entity: &'_ Entity| match &entity.shape {
        Shape::Polyline(_) => true,
        other => panic!("{other:?} on {layer:?}"),
    };
    let found = found.filter(|entity| chain(entity));
    found.filter_map(|e| if let Shape::Polyline(c) = &e.shape { Some(c) } else { None }).collect()
}

fn span(points: &[Point]) -> [Point; 2] {
    let first = [points[0]; 2];
    points.iter().fold(first, |[low, high], p| {
        [Point::new(low.x.min(p.x), low.y.min(p.y)), Point::new(high.x.max(p.x), high.y.max(p.y))]
    })
}

/// The scale behind some words: `From above, 1:2`.
fn scale(drawing: &Drawing, after: &str) -> f64 {
    let all: Vec<&str> = texts(drawing).iter().map(|text| text.words.as_str()).collect();
    let all = all.join(" ");
    let said = all.split_once(after).unwrap().1.split([' ', ';']).next().unwrap().to_owned();
    let (paper, part) = said.split_once(':').unwrap();
    paper.parse::<f64>().unwrap() / part.parse::<f64>().unwrap()
}

/// The greatest diameter of a part.
fn widest(piece: &Piece) -> f64 {
    let radii = piece.part.runs.iter().map(|run| Meridian::of(run).widest());
    radii.fold(0.0, f64::max) * 2.0
}

/// A circle's centre and radius.
fn circle(chain: &Polyline) -> ([f64; 2], f64) {
    let [low, high] = span(&chain.extremes());
    assert!((high.x - low.x - (high.y - low.y)).abs() < 1e-9);
    let centre = [f64::midpoint(low.x, high.x), f64::midpoint(low.y, high.y)];
    (centre, (high.x - low.x) / 2.0)
}

/// The plate is the first outline, circles follow in the pieces' order, then the pieces from the
/// side: two outlines each, which meet on the axis.
#[test]
fn circles_lie_where_the_pieces_are_printed() {
    for case in cases() {
        let drawing = case.sheet().drawing;
        let factor = scale(&drawing, "From above, ");
        let outlines = chains(&drawing, Layer::Outline);
        let [low, high] = span(outlines[0].points());
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{}: {a} {b}", case.name);
        near(high.x - low.x, case.layout.size[0] * factor);
        near(high.y - low.y, case.layout.size[1] * factor);
        let circles: Vec<_> = outlines.iter().filter(|chain| chain.is_closed()).collect();
        assert_eq!(circles.len(), case.pieces.len(), "{}", case.name);
        for ((chain, place), piece) in circles.iter().zip(&case.layout.places).zip(&case.pieces) {
            let (centre, radius) = circle(chain);
            near(centre[0] - low.x, place.at[0] * factor);
            near(centre[1] - low.y, place.at[1] * factor);
            near(radius, widest(piece) / 2.0 * factor);
        }
        let mouths = chains(&drawing, Layer::Bore).into_iter().filter(|chain| chain.is_closed());
        for chain in mouths {
            let (centre, radius) = circle(chain);
            let around = circles.iter().map(|chain| circle(chain)).filter(|(at, greater)| {
                (at[0] - centre[0]).abs() < 1e-9
                    && (at[1] - centre[1]).abs() < 1e-9
                    && radius < *greater
            });
            assert_eq!(around.count(), 1, "{}", case.name);
        }
    }
}

/// Grooves of a silhouette: corners nearer to the axis than both their neighbours, which are as far
/// from it as each other.
fn grooves(chain: &Polyline, axis: f64) -> usize {
    let radii: Vec<f64> = chain.points().iter().map(|p| (p.x - axis).abs()).collect();
    let notch = |r: &&[f64]| (r[0] - r[2]).abs() < 1e-6 && r[1] < r[0] - 1e-3;
    radii.windows(3).filter(notch).count()
}

#[test]
fn pieces_are_seen_as_large_as_they_are_with_their_grooves() {
    for case in cases() {
        let drawing = case.sheet().drawing;
        let factor = scale(&drawing, "right half cut, ");
        let outlines = chains(&drawing, Layer::Outline);
        let sides: Vec<_> =
            outlines.into_iter().skip(1).filter(|chain| !chain.is_closed()).collect();
        assert_eq!(sides.len(), 2 * case.pieces.len(), "{}", case.name);
        for (halves, piece) in sides.chunks(2).zip(&case.pieces) {
            let points: Vec<Point> = halves.iter().flat_map(|chain| chain.extremes()).collect();
            let [low, high] = span(&points);
            let near = |a: f64, b: f64| {
                assert!((a - b).abs() < 1e-9, "{} {}: {a} {b}", case.name, piece.name);
            };
            near(high.x - low.x, widest(piece) * factor);
            near(high.y - low.y, piece.height().as_mm() * factor);
            let marks = match (&piece.rung, piece.kind) {
                (Some(rung), _) => usize::from(rung.number),
                // `ring-3`
                (None, None) => piece.name.rsplit('-').next().unwrap().parse().unwrap(),
                _ => continue,
            };
            let axis = f64::midpoint(low.x, high.x);
            for half in halves {
                assert_eq!(grooves(half, axis), marks, "{} {}", case.name, piece.name);
            }
        }
    }
}

/// Every specimen of designs that are blind, have steps, corners, rings, or threads that a coupon's
/// plane cuts: nothing of them lies under the line on which they stand.
#[test]
fn any_design_is_drawn() {
    let printer = Printer { build: [250.0, 210.0, 220.0].map(mm), ..printer("resin") };
    for name in
        ["blind", "blind-flat", "both-ends", "capped", "outside", "reliefs", "threads", "r1"]
    {
        let path = format!("tests/fixtures/{name}.toml");
        let section = load(&Library::new(vec![]), &path).unwrap().section;
        let ladder = Ladder::usual(&printer, Mated::Tenon);
        let made = |kind| pieces(&section, &[kind], &printer, &ladder, mm(0.005));
        let all: Vec<Piece> =
            SpecimenKind::ALL.into_iter().filter_map(|k| made(k).ok()).flatten().collect();
        assert!(all.len() > 9, "{name}: {}", all.len());
        let sheet = Case::new("any", &printer, all).sheet();
        assert_eq!(faults(&sheet), Vec::<String>::new(), "{name}");
        assert!(!svg::write(&sheet).contains("NaN"), "{name}");
    }
}

/// Two that are alike are printed twice, and seen from the side once, with both names.
#[test]
fn what_is_alike_is_seen_once() {
    let printer = printer("resin");
    let mut twice = specimens(&printer, &[SpecimenKind::StandIn, SpecimenKind::StandIn], 5);
    twice[1].name = "another".to_owned();
    let case = Case::new("alike", &printer, twice);
    let drawing = case.sheet().drawing;
    let outlines = chains(&drawing, Layer::Outline);
    assert_eq!(outlines.iter().filter(|chain| chain.is_closed()).count(), 2);
    assert_eq!(outlines.iter().filter(|chain| !chain.is_closed()).count(), 1 + 2);
    let words: Vec<&str> = texts(&drawing).iter().map(|text| text.words.as_str()).collect();
    assert!(words.join(" ").contains(" stand-in, another "), "{words:?}");
}

/// A thousand pieces are more than a sheet shows; it is said.
#[test]
fn what_no_sheet_holds_is_an_error() {
    let big = Printer { build: [5000.0, 5000.0, 200.0].map(mm), ..printer("resin") };
    let one = specimens(&big, &[SpecimenKind::StandIn], 5).remove(0);
    let many: Vec<Piece> = (0..1000)
        .map(|n| Piece { name: format!("stand-in-{n}"), what: n.to_string(), ..one.clone() })
        .collect();
    let layout = layout(&many, &big).unwrap();
    let error = plate_picture::sheet("many", &big, &many, &layout).unwrap_err();
    assert_eq!(error.code(), "print.no-picture");
    assert!(error.to_string().contains("1000 pieces") && error.hint().contains("--what"));
}
