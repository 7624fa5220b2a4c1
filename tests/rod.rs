//! The rod plan: against brute force, on its sheet, and as a person meets it.

use std::fs;
use std::path::Path;

use proptest::prelude::*;
use sectionwright::drawing::part::{crosses, overlap};
use sectionwright::drawing::rod_plan;
use sectionwright::drawing::{Drawing, Point, Shape, Sheet, Text};
use sectionwright::export::{pdf, svg};
use sectionwright::quantity::Length;
use sectionwright::shop::rod::{RodError, RodPlan, RodRequest, Shown, Wanted, plan};
use snapbox::cmd::{Command, OutputAssert};

fn wanted(name: &str, squared: f64) -> Wanted {
    Wanted {
        name: name.to_owned(),
        count: 1,
        squared: Length::mm(squared),
        diameter: Length::mm(13.0),
        deepest: Length::mm(11.0),
    }
}

/// Lengths in hundredths, so that a rod is full now and then.
fn hundredths(range: std::ops::Range<u32>) -> impl Strategy<Value = f64> {
    range.prop_map(|n| f64::from(n) / 100.0)
}

prop_compose! {
    fn requests()(
        lengths in prop::collection::vec(hundredths(1500..6000), 1..3),
        length in hundredths(5000..40000),
        kerf in hundredths(30..400),
        squaring in hundredths(0..150),
        holding in prop_oneof![Just(0.0), hundredths(500..3000)],
        sets in prop::option::of(1_u32..4),
        spares in 0_u32..4,
    ) -> RodRequest {
        let designs = lengths.iter().zip(["a", "b"]).map(|(l, name)| wanted(name, *l)).collect();
        RodRequest {
            squaring: Length::mm(squaring),
            holding: Length::mm(holding),
            sets,
            spares,
            ..RodRequest::new(designs, Length::mm(length), Length::mm(kerf))
        }
    }
}

/// Whether pieces fit, by walking along the rod and cutting: independent of the plan's own sums.
fn walks(request: &RodRequest, pieces: &[usize]) -> bool {
    let end = request.length.as_mm() - request.holding.as_mm() + 1e-9;
    let mut at = 0.0;
    for (n, design) in pieces.iter().enumerate() {
        at += request.designs[*design].squared.as_mm() + 2.0 * request.squaring.as_mm();
        if n + 1 < pieces.len() || request.holding > Length::ZERO {
            at += request.kerf.as_mm();
        }
    }
    at <= end
}

/// Every number of each design: the most whole sets, then the most spares, then the longest.
fn best(request: &RodRequest) -> (usize, Vec<usize>) {
    let set: Vec<usize> = (0..request.designs.len()).collect();
    let mut sets = 0;
    while request.sets.is_none_or(|asked| sets < asked as usize)
        && walks(request, &set.repeat(sets + 1))
    {
        sets += 1;
    }
    if set.len() == 1 && request.sets.is_none() && sets > 0 {
        sets = sets.saturating_sub(request.spares as usize).max(1);
    }
    let asked = request.spares as usize;
    let mut found: Vec<usize> = Vec::new();
    for a in 0..=asked {
        for b in 0..=(if set.len() > 1 { asked - a } else { 0 }) {
            let spares = [vec![0; a], vec![1; b]].concat();
            let length = |spares: &[usize]| -> f64 {
                spares.iter().map(|d| request.designs[*d].squared.as_mm()).sum()
            };
            let better = spares.len() > found.len()
                || (spares.len() == found.len() && length(&spares) > length(&found) + 1e-9);
            if better && walks(request, &[set.repeat(sets), spares.clone()].concat()) {
                found = spares;
            }
        }
    }
    (sets, found)
}

fn adds_up(plan: &RodPlan) {
    let request = &plan.request;
    let mut sum = plan.left_over.as_mm() + request.holding.as_mm();
    let mut at = 0.0;
    for piece in &plan.pieces {
        let (from, to) = (piece.from.as_mm(), piece.to.as_mm());
        assert!((from - at).abs() < 1e-9 && to > from, "{piece:?} at {at}");
        let own = request.designs[piece.design].squared.as_mm() + 2.0 * request.squaring.as_mm();
        assert!((to - from - own).abs() < 1e-9);
        at = to + piece.kerf.as_mm();
        sum += to - from + piece.kerf.as_mm();
    }
    assert!((sum - request.length.as_mm()).abs() < 1e-9, "{sum} of {}", request.length);
    assert!(at <= request.length.as_mm() - request.holding.as_mm() + 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..Default::default() })]

    #[test]
    fn a_plan_is_the_best_there_is_and_adds_up(request in requests()) {
        let (sets, spares) = best(&request);
        match plan(&request) {
            Ok(plan) => {
                adds_up(&plan);
                prop_assert_eq!(plan.sets, sets);
                let length = |designs: &[usize]| -> f64 {
                    designs.iter().map(|d| request.designs[*d].squared.as_mm()).sum()
                };
                let own: Vec<usize> = plan.spares().map(|piece| piece.design).collect();
                prop_assert_eq!(own.len(), spares.len());
                prop_assert!((length(&own) - length(&spares)).abs() < 1e-9);
                prop_assert_eq!(own.len(), plan.pieces.len() - sets * request.designs.len());
            }
            Err(errors) => {
                prop_assert!(sets < request.sets.unwrap_or(1) as usize, "{:?}", errors);
                let codes: Vec<_> = errors.iter().map(RodError::code).collect();
                prop_assert_eq!(codes, ["rod.too-short"]);
                prop_assert!(works(&request, &errors[0]));
            }
        }
    }
}

/// Follows what an error says works, as it would be typed.
fn works(request: &RodRequest, error: &RodError) -> bool {
    let asked = request.sets.unwrap_or(1) as usize;
    let RodError::TooShort { works, missing, .. } = error else { return false };
    let longer = RodRequest { length: request.length + *missing, ..request.clone() };
    let number = |words: &str, after: &str| -> Option<f64> {
        words.split_once(after)?.1.split(' ').next()?.parse().ok()
    };
    let all = works.iter().all(|words| {
        let mut changed = request.clone();
        let mut goal = asked;
        if words.ends_with("rods like this") {
            return true;
        }
        if let Some(kerf) = number(words, "--kerf ") {
            changed.kerf = Length::mm(kerf);
        }
        if words.contains("--holding 0") {
            changed.holding = Length::ZERO;
        }
        if let Some(length) = number(words, "a rod of ") {
            changed.length = Length::mm(length);
        }
        if let Some(sets) = number(words, "--sets ") {
            goal = sets as usize;
            changed.sets = Some(goal as u32);
        }
        changed != *request && best(&changed).0 >= goal
    });
    all && !works.is_empty() && best(&longer).0 >= asked
}

fn texts(drawing: &Drawing) -> Vec<&Text> {
    let words = drawing.entities.iter().filter_map(|entity| match &entity.shape {
        Shape::Text(text) => Some(text),
        _ => None,
    });
    words.collect()
}

/// What is wrong with a sheet, in words.
fn faults(sheet: &Sheet) -> Vec<String> {
    let mut lines: Vec<[Point; 2]> = Vec::new();
    for entity in &sheet.drawing.entities {
        match &entity.shape {
            Shape::Line(ends) => lines.push(*ends),
            Shape::Polyline(chain) => lines.extend(chain.segments().map(|s| [s.from, s.to])),
            Shape::Triangle([a, b, c]) => lines.extend([[*a, *b], [*b, *c], [*c, *a]]),
            Shape::Text(_) => {}
            other => panic!("no {other:?} on a rod plan"),
        }
    }
    let texts = texts(&sheet.drawing);
    let mut found = Vec::new();
    for (n, text) in texts.iter().enumerate() {
        let over = texts[..n].iter().filter(|other| overlap(text.corners(), other.corners()));
        found.extend(over.map(|other| format!("{:?} over {:?}", text.words, other.words)));
        if lines.iter().any(|line| crosses(*line, text.corners())) {
            found.push(format!("{:?} over a line", text.words));
        }
        if text.height < 1.8 {
            found.push(format!("{:?} is too small", text.words));
        }
    }
    let [low, high] = sheet.drawing.extents().unwrap();
    let [least, most] = sheet.area;
    if low.x < least.x + 10.0 || low.y < least.y + 9.0 || high.x > most.x || high.y > most.y {
        found.push("something lies beyond the frame".to_owned());
    }
    found
}

fn sheets() -> Vec<(RodRequest, Shown)> {
    let long = "a name as long as names are of pens that were called after some river far away";
    let one = |squared, length, kerf| {
        RodRequest::new(vec![wanted("demo", squared)], Length::mm(length), Length::mm(kerf))
    };
    let pair = |length| {
        let designs = vec![wanted(long, 31.35), wanted("WWWWWWWWWW", 28.0)];
        RodRequest::new(designs, Length::mm(length), Length::mm(2.5))
    };
    let twelve = RodRequest { sets: Some(11), ..one(76.0, 1000.0, 2.0) };
    let free = RodRequest { holding: Length::ZERO, ..one(31.0, 100.0, 2.0) };
    let bare = RodRequest { squaring: Length::ZERO, spares: 0, ..one(31.0, 230.0, 0.5) };
    let many: Vec<Wanted> = ('a'..='h').map(|c| wanted(&format!("{c} {long}"), 31.0)).collect();
    let many = RodRequest::new(many, Length::mm(1000.0), Length::mm(2.0));
    let thick = RodRequest { diameter: Some(Length::mm(60.0)), ..one(31.0, 230.0, 2.0) };
    let requests = [
        one(31.0, 230.0, 2.0),
        one(31.0, 55.0, 2.0),
        one(31.0, 3000.0, 1.0),
        twelve,
        free,
        bare,
        many,
        thick,
        pair(230.0),
        pair(1000.0),
    ];
    let both =
        |request: RodRequest| [false, true].map(|inches| (request.clone(), Shown { inches }));
    requests.into_iter().flat_map(both).collect()
}

#[test]
fn no_word_meets_a_line_or_another_word() {
    for (request, shown) in sheets() {
        let plan = plan(&request).unwrap();
        let sheet = rod_plan::sheet(&plan, shown).unwrap();
        assert_eq!(faults(&sheet), Vec::<String>::new(), "{request:?} {shown:?}");
        let words: Vec<&str> = texts(&sheet.drawing).iter().map(|t| t.words.as_str()).collect();
        let all = words.join(" ");
        for piece in &plan.pieces {
            let (number, end) = (piece.number.to_string(), shown.cell(piece.to));
            assert!(words.iter().filter(|w| **w == number).count() >= 2, "{number}\n{all}");
            assert!(words.contains(&end.as_str()), "{end}\n{all}");
        }
        for say in ["Rod plan:", "Order of the work", "Care", "no approval", "dust"] {
            assert!(all.contains(say), "{say}\n{all}");
        }
    }
}

/// Kerfs, and nothing else, are black: their area is theirs on paper.
#[test]
fn cuts_are_drawn_where_they_are() {
    let request = RodRequest::new(vec![wanted("a", 31.0)], Length::mm(230.0), Length::mm(2.0));
    let plan = plan(&request).unwrap();
    let sheet = rod_plan::sheet(&plan, Shown::default()).unwrap();
    let black = sheet.drawing.entities.iter().filter_map(|entity| match &entity.shape {
        Shape::Triangle([a, b, _]) if b.y == a.y => Some([a.x, b.x]),
        _ => None,
    });
    let strips: Vec<[f64; 2]> = black.collect();
    // The last one is the key's sample; 230 mm are drawn 1:1 on A4.
    assert_eq!(strips.len(), plan.pieces.len() + 1);
    let zero = strips[0][0] - plan.pieces[0].to.as_mm();
    for (strip, piece) in strips.iter().zip(&plan.pieces) {
        assert!((strip[0] - zero - piece.to.as_mm()).abs() < 1e-9);
        assert!((strip[1] - strip[0] - 2.0).abs() < 1e-9);
    }
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let bytes = |(request, shown): &(RodRequest, Shown)| {
        let sheet = rod_plan::sheet(&plan(request).unwrap(), *shown).unwrap();
        (svg::write(&sheet), pdf::write(&sheet).unwrap())
    };
    for each in &sheets()[..4] {
        assert!(bytes(each) == bytes(each));
    }
}

fn run(folder: &Path, arguments: &[&str]) -> OutputAssert {
    Command::new(snapbox::cmd::cargo_bin!("sectionwright"))
        .current_dir(folder)
        .arg("rod")
        .args(arguments)
        .assert()
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name());
    let mut names: Vec<String> = entries.map(|name| name.into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn a_rod_is_planned_and_drawn() {
    let home = tempfile::tempdir().unwrap();
    fs::create_dir_all(home.path().join("out/rod")).unwrap();
    fs::write(home.path().join("out/rod/mine.txt"), "mine").unwrap();
    let all = ["demo", "--length", "9 in", "--diameter", "15", "--kerf", "2", "--units", "inch"];
    let said = run(home.path(), &all).success().stderr_eq("");
    let said = String::from_utf8(said.get_output().stdout.clone()).unwrap();
    for words in ["5 sections and 1 spare", "228.60 (9.000)", "rod.pdf", "no approval", "dust"] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    let folder = home.path().join("out/rod");
    assert_eq!(names(&folder), ["mine.txt", "rod.pdf", "rod.svg"]);
    let svg = fs::read(folder.join("rod.svg")).unwrap();
    run(home.path(), &all).success();
    assert!(fs::read(folder.join("rod.svg")).unwrap() == svg);
    run(home.path(), &["demo", "--length", "230", "--kerf", "2", "-q"]).success().stdout_eq("");
}

#[test]
fn what_is_wrong_is_said_at_once_and_nothing_is_written() {
    let home = tempfile::tempdir().unwrap();
    let wrong = |arguments: &[&str], codes: &[&str]| {
        let said = run(home.path(), arguments).code(2).stdout_eq("");
        let said = String::from_utf8(said.get_output().stderr.clone()).unwrap();
        for code in codes {
            assert!(said.contains(&format!("error[{code}]")), "{code}\n{said}");
        }
        assert_eq!(said.matches("error[").count(), codes.len(), "{said}");
        assert_eq!(said.matches("= help: ").count(), codes.len(), "{said}");
        assert_eq!(names(home.path()), Vec::<String>::new());
    };
    wrong(
        &["demo", "--length", "40", "--diameter", "10", "--kerf", "2"],
        &["rod.too-thin", "rod.too-short"],
    );
    wrong(&["demo", "--length", "230", "--kerf", "0"], &["rod.no-kerf"]);
    wrong(
        &["demo", "nothing", "--length", "1,5", "--kerf", "x", "--units", "ell"],
        &["profile.missing", "rod.units", "rod.length", "rod.kerf"],
    );
    wrong(
        &["demo", "--length", "-1", "--kerf", "-2", "--squaring", "99", "--holding", "-3"],
        &["rod.length", "rod.kerf", "rod.squaring", "rod.holding"],
    );
    wrong(&["demo", "--length", "3000", "--kerf", "1", "--sets", "0"], &["rod.no-sets"]);
}

#[test]
fn a_place_that_cant_be_written_to_is_the_machines_fault() {
    let home = tempfile::tempdir().unwrap();
    fs::write(home.path().join("out"), "a file").unwrap();
    run(home.path(), &["demo", "--length", "230", "--kerf", "2"]).code(3);
    assert_eq!(fs::read_to_string(home.path().join("out")).unwrap(), "a file");
}
