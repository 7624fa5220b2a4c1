//! Sheets without views: no word meets a line or another word, nothing leaves the paper, and what
//! is given is there.

use sectionwright::drawing::Sheet;
use sectionwright::drawing::part::{Units, crosses, overlap};
use sectionwright::drawing::sheet_frame::{
    Area, PaperSize, Scale, Table, TitleBlock, frame, table,
};
use sectionwright::drawing::{Anchor, Drawing, Point, Shape, Text};
use sectionwright::export::svg;

/// Straight pieces of an arc.
const PIECES: u32 = 32;

fn lines(drawing: &Drawing) -> Vec<[Point; 2]> {
    let mut lines = Vec::new();
    for entity in &drawing.entities {
        match &entity.shape {
            Shape::Line(ends) => lines.push(*ends),
            Shape::Polyline(chain) => {
                for s in chain.segments() {
                    let at = |n: u32| s.at(f64::from(n) / f64::from(PIECES));
                    lines.extend((0..PIECES).map(|n| [at(n), at(n + 1)]));
                }
            }
            Shape::Text(_) => {}
            other => panic!("no {other:?} on a bare sheet"),
        }
    }
    lines
}

fn texts(drawing: &Drawing) -> Vec<&Text> {
    let texts = drawing.entities.iter().filter_map(|entity| match &entity.shape {
        Shape::Text(text) => Some(text),
        _ => None,
    });
    texts.collect()
}

/// What is wrong with a sheet, in words.
fn faults(drawing: &Drawing, size: PaperSize) -> Vec<String> {
    let mut found = Vec::new();
    let (lines, texts) = (lines(drawing), texts(drawing));
    for (n, text) in texts.iter().enumerate() {
        for other in &texts[..n] {
            if overlap(text.corners(), other.corners()) {
                found.push(format!("{:?} lies over {:?}", text.words, other.words));
            }
        }
        if lines.iter().any(|line| crosses(*line, text.corners())) {
            found.push(format!("{:?} lies over a line", text.words));
        }
        // The smallest letters of ISO 3098-1 (from memory).
        if text.height < 1.8 {
            found.push(format!("{:?} is too small to read", text.words));
        }
    }
    let (sheet, [low, high]) = (size.sheet(), drawing.extents().unwrap());
    if low.x < 0.0 || low.y < 0.0 || high.x > sheet.high.x || high.y > sheet.high.y {
        found.push("something lies beyond the sheet".to_owned());
    }
    found
}

fn full(words: &str) -> TitleBlock {
    let given = || Some(words.to_owned());
    TitleBlock {
        title: words.to_owned(),
        supplement: given(),
        number: words.to_owned(),
        document: words.to_owned(),
        material: given(),
        tolerances: given(),
        units: Units::Inches,
        scale: Some(Scale::FULL_SIZE),
        sheet: "1/1".to_owned(),
        owner: given(),
        creator: given(),
        date: given(),
    }
}

/// A scenario of our own.
fn scenario(size: PaperSize) -> TitleBlock {
    TitleBlock {
        title: "Grip section".into(),
        supplement: Some("for a lever filler, one off".into()),
        number: "demo".into(),
        document: "Component drawing".into(),
        material: Some("Ebonite".into()),
        tolerances: Some("ISO 2768-m".into()),
        units: Units::Millimetres,
        scale: Scale::ALL.get(if size == PaperSize::A3 { 2 } else { 3 }).copied(),
        sheet: "1/1".into(),
        owner: None,
        creator: Some("R. Turner".into()),
        date: Some("2026-03-14".into()),
    }
}

const NOTES: [&str; 9] = [
    "Material: ebonite (hard rubber), rod.",
    "General tolerances ISO 2768-m; tighter ones stand at the dimension.",
    "Run-out of grip and front bores to datum A-B (axis of the thread at A, shoulder face B) 0.05.",
    "Thread of the front bore to accept the mating unit by hand, its collar seated, with no \
     perceptible shake; limits for reference. The mating unit is supplied.",
    "Break edges 0.1 to 0.2; the rim of the front face R0.3.",
    "Cones of drill points 118°.",
    "Take the finish to 600 grit before the thread is cut.",
    "Dust of this material is not to be breathed: keep it wet or draw it off.",
    "Keep to the instructions of the machine and of the material, to local rules and licensed \
     practice.",
];

fn lettered() -> Vec<String> {
    NOTES.map(str::to_owned).to_vec()
}

const NAMES: [&str; 9] = [
    "",
    "Section",
    "Ebonite section with a stepped tenon for the second barrel",
    "aVeryLongNameWithoutAnySpaceThatMightHaveComeFromAFileSystem-2026-03-14-revision-b-final",
    "Grüße aus Österreich: Ärmelschoner für Ångström, ÉÈÊ, Łódź, Ÿ",
    "万年筆の首軸、黒檀色のエボナイト製、一本だけのためのもの、二本目の胴軸用",
    "Секция захвата перьевой ручки из эбонита",
    "e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}e\u{301}",
    "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
];

#[test]
fn no_words_meet_whatever_they_are() {
    for size in PaperSize::ALL {
        for words in NAMES {
            let notes: Vec<String> = lettered().into_iter().chain([words.to_owned()]).collect();
            for words in [words.to_owned(), [words; 12].join(" ")] {
                let mut drawing = Drawing::default();
                let left = frame(&mut drawing, size, &full(&words), &notes).unwrap();
                assert_eq!(faults(&drawing, size), Vec::<String>::new(), "{size}: {words}");
                let drawn = texts(&drawing);
                let is_clear = |text: &&Text| !overlap(text.corners(), [left.low, left.high]);
                assert!(drawn.iter().all(is_clear), "{size}: {words}");
                assert!(lines(&drawing).iter().all(|l| !crosses(*l, [left.low, left.high])));
                assert!(left.height() > 0.4 * size.sheet().height(), "{size}: {words}");
            }
        }
    }
}

/// Only grid references stand outside the frame.
#[test]
fn words_stand_inside_the_frame() {
    for size in PaperSize::ALL {
        let space = size.drawing_space();
        let mut drawing = Drawing::default();
        frame(&mut drawing, size, &full(NAMES[3]), &lettered()).unwrap();
        let outside = texts(&drawing).into_iter().filter(|text| {
            let [low, high] = text.corners();
            low.x < space.low.x
                || low.y < space.low.y
                || high.x > space.high.x
                || high.y > space.high.y
        });
        let words: Vec<&str> = outside.map(|text| text.words.as_str()).collect();
        // ISO 5457:1999, table 2 (from memory): 16 and 12 fields on A1, 12 and 8 on A2, 8 and 6 on
        // A3, 6 and 4 on A4, there only on two sides; no I and no O.
        let (columns, rows) = match size {
            PaperSize::A1 => (16, 12),
            PaperSize::A2 => (12, 8),
            PaperSize::A3 => (8, 6),
            PaperSize::A4 => (6, 4),
        };
        let across = (1..=columns).map(|n: u32| n.to_string());
        let down = "ABCDEFGHJKLM".chars().take(rows).map(String::from);
        let once: Vec<String> = across.chain(down).collect();
        let sides = if size == PaperSize::A4 { 1 } else { 2 };
        let all = std::iter::repeat_n(once, sides).flatten().collect::<Vec<_>>();
        let expected: Vec<&str> = all.iter().map(String::as_str).collect();
        let sorted = |mut words: Vec<&str>| {
            words.sort_unstable();
            words.join("")
        };
        assert_eq!(sorted(words), sorted(expected), "{size}");
    }
}

/// A is at the top, 1 on the left (ISO 5457:1999, from memory).
#[test]
fn grid_references_begin_at_the_top_left() {
    let mut drawing = Drawing::default();
    frame(&mut drawing, PaperSize::A3, &scenario(PaperSize::A3), &[]).unwrap();
    let find = |words: &str| {
        let found = texts(&drawing)
            .into_iter()
            .find(|text| text.words == words && text.anchor == Anchor::Middle);
        found.unwrap().at
    };
    assert!(find("A").y > find("F").y);
    assert!(find("1").x < find("8").x);
}

/// All that is given is on the sheet, with no letter lost, where the words are not too long.
#[test]
fn what_is_given_is_there() {
    for size in PaperSize::ALL {
        let mut drawing = Drawing::default();
        let block = scenario(size);
        frame(&mut drawing, size, &block, &lettered()).unwrap();
        let all: Vec<&str> = texts(&drawing).iter().map(|text| text.words.as_str()).collect();
        let all = all.join(" ");
        let scale = block.scale.unwrap().to_string();
        let words = ["millimetres", "Grip section", "demo", "Ebonite", "ISO 2768-m", &scale, "1/1"];
        for words in words.into_iter().chain(["R. Turner", "2026-03-14", size.name()]).chain(NOTES)
        {
            assert!(all.contains(words), "{size}: {words}");
        }
        assert!(!all.contains('…') && !all.contains("Legal owner"));
    }
}

#[test]
fn notes_without_end_are_an_error_and_draw_nothing() {
    let mut drawing = Drawing::default();
    let notes = vec![NOTES[3].to_owned(); 200];
    let error = frame(&mut drawing, PaperSize::A4, &full("x"), &notes).unwrap_err();
    assert_eq!(
        (error.code(), error.to_string().as_str()),
        (
            "export.notes-too-long",
            "the notes leave no room for the views on an A4 sheet: take A3, or shorter notes"
        )
    );
    assert_eq!(drawing, Drawing::default());
}

fn thread_table(drawing: &mut Drawing, at: Point, height: f64) -> Area {
    let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
    let data = Table {
        columns: vec![50.0, 40.0, 30.0],
        heading: row(["Thread A, M9×0.75-6g", "greatest", "least"]),
        rows: vec![
            row(["major diameter", "8.978", "8.838"]),
            row(["pitch diameter", "8.491", "8.391"]),
            row(["minor diameter at the root, with a flat or a radius", "8.058", "7.918"]),
            row(["pitch; hand", "0.75", "right"]),
        ],
    };
    table(drawing, at, height, &data)
}

/// Sheets to look at, in `target/tmp`; none of their words meet in the part's own measure either.
#[test]
fn bare_sheets_are_drawn() {
    for size in PaperSize::ALL {
        let mut drawing = Drawing::default();
        let block = scenario(size);
        let left = frame(&mut drawing, size, &block, &lettered()).unwrap();
        let corner = Point::new(left.low.x, left.high.y);
        let area = thread_table(&mut drawing, corner, size.lettering().text);
        assert!(area.low.y > left.low.y && area.high.x < left.high.x);
        assert_eq!(faults(&drawing, size), Vec::<String>::new());
        let scale = block.scale.unwrap().factor();
        let origin = left.centre();
        let corners = [size.sheet().low, size.sheet().high];
        let placed = drawing.placed(scale, origin);
        let sheet = Sheet {
            area: corners.map(|p| Point::new((p.x - origin.x) / scale, (p.y - origin.y) / scale)),
            drawing: placed,
            scale,
            title: block.title.clone(),
            description: "a sheet without views".to_owned(),
        };
        let picture = svg::write(&sheet);
        let width = format!("width=\"{}mm\"", size.sheet().width());
        assert!(picture.contains(&width), "{size}");
        let file = format!("{}/sheet-{size}.svg", env!("CARGO_TARGET_TMPDIR"));
        std::fs::write(file, picture).unwrap();
    }
}
