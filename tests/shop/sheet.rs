//! The sheet: every number of the plan stands on it, on two pages, and nothing lies over anything.

use sectionwright::design::{Library, Resolved, load};
use sectionwright::drawing::part::Units;
use sectionwright::drawing::{Point, Shape};
use sectionwright::export::lathe_sheet::{Content, Paged, files, html, pages};
use sectionwright::scene::Scene;
use sectionwright::shop::{Plan, plan};

use super::random;

fn planned(resolved: &Resolved) -> Plan {
    plan(&Scene::of_design(resolved).unwrap(), &resolved.workshop).unwrap()
}

fn designs() -> Vec<Resolved> {
    let fixture = |name: &str| format!("{}/tests/fixtures/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let names = ["r1", "both-ends", "blind", "reliefs", "capped", "outside"];
    let paths = ["demo".to_owned()].into_iter().chain(names.map(fixture));
    let written = paths.map(|path| load(&Library::default(), &path).unwrap());
    written.chain((1..).filter_map(random::resolved).take(12)).collect()
}

fn words(page: &sectionwright::drawing::Sheet) -> Vec<String> {
    let words = page.drawing.entities.iter().filter_map(|entity| match &entity.shape {
        Shape::Text(text) => Some(text.words.clone()),
        _ => None,
    });
    words.collect()
}

fn texts(page: &sectionwright::drawing::Sheet) -> Vec<[Point; 2]> {
    let words = page.drawing.entities.iter().filter_map(|entity| match &entity.shape {
        Shape::Text(text) => Some(text.corners()),
        _ => None,
    });
    words.collect()
}

/// Two pages of A4, all words within their margins.
#[test]
fn it_takes_two_pages_and_stays_within_them() {
    for resolved in designs() {
        let plan = planned(&resolved);
        for units in Units::ALL {
            let content = Content::of(&resolved.section, &plan, units);
            let Paged { pages, size, .. } = pages(&content);
            assert!(pages.len() <= 2 && size >= 0.6, "{} {size}", pages.len());
            for page in &pages {
                assert_eq!(page.area, [Point::new(0.0, 0.0), Point::new(210.0, 297.0)]);
                // Estimated widths are too wide by up to a sixth: the page's own font is the judge
                // of what is near the edge, in the outside tests.
                for [low, high] in texts(page) {
                    assert!(low.x > 5.0 && low.y > 5.0 && high.y < 292.0, "{low:?} {high:?}");
                }
            }
        }
    }
}

/// Every step, every depth and reading, every box of the plan stands in both.
#[test]
fn every_number_of_the_plan_stands_on_it() {
    let resolved = load(&Library::default(), "demo").unwrap();
    let plan = planned(&resolved);
    let content = Content::of(&resolved.section, &plan, Units::Millimetres);
    let page = html(&content, 1.0);
    let Paged { pages: sheets, .. } = pages(&content);
    let words: Vec<String> = sheets
        .iter()
        .flat_map(|sheet| &sheet.drawing.entities)
        .filter_map(|entity| match &entity.shape {
            Shape::Text(text) => Some(text.words.clone()),
            _ => None,
        })
        .collect();
    let all = words.join(" ");
    let mut numbers = Vec::new();
    for work in plan.operations.iter().filter_map(|step| step.bore()) {
        numbers.push(work.bore.diameter);
        if work.has_depth() {
            numbers.extend([work.depths.full, work.depths.mark]);
            numbers.extend(work.depths.travel);
        }
        numbers.extend(work.pin.iter().flat_map(|pin| [pin.diameter, pin.reading]));
    }
    for [at, wide] in &plan.outside.places {
        numbers.extend([*at, *wide]);
    }
    assert!(numbers.len() > 40);
    for number in numbers {
        let shown = format!("{:.2}", number.as_mm());
        assert!(page.contains(&shown), "{shown} is not in the page");
        assert!(all.contains(&shown), "{shown} is not on the pages");
    }
    let steps = page.matches("<tbody class=\"step\">").count();
    assert_eq!(steps, plan.operations.len());
    for said in ["Eye and face protection", "no approval", "local rules", "Never force"] {
        assert!(page.contains(said) && all.contains(said), "{said}");
    }
}

/// It stands alone: no script, no address, no file beside it.
#[test]
fn the_page_stands_alone() {
    for resolved in designs().iter().take(4) {
        let content = Content::of(&resolved.section, &planned(resolved), Units::Millimetres);
        let page = html(&content, 1.0);
        let lower = page.to_lowercase();
        for bad in ["<script", "javascript:", "src=", "<link", "@import", "url("] {
            assert!(!lower.contains(bad), "{bad}");
        }
        // Names of namespaces are no addresses that are opened.
        let addresses = lower.matches("http").count();
        assert_eq!(addresses, lower.matches("http://www.w3.org/").count());
    }
}

#[test]
fn names_are_words_and_no_tags() {
    let mut resolved = load(&Library::default(), "demo").unwrap();
    resolved.section.name = "<b>Pen & \"ink\"</b>".to_owned();
    let content = Content::of(&resolved.section, &planned(&resolved), Units::Millimetres);
    let page = html(&content, 1.0);
    assert!(!page.contains("<b>Pen"));
    assert!(page.contains("&lt;b&gt;Pen &amp; &quot;ink&quot;&lt;/b&gt;"));
}

/// In inches every length is one; tools keep their names.
#[test]
fn in_inches() {
    let resolved = load(&Library::default(), "demo").unwrap();
    let content = Content::of(&resolved.section, &planned(&resolved), Units::Inches);
    let page = html(&content, 1.0);
    // 13.35 mm deep, and the drill's own name.
    assert!(page.contains("0.526 deep") && page.contains("drill 7.3 mm"));
    assert!(!page.contains("13.35"));
}

#[test]
fn the_same_bytes_twice() {
    let resolved = load(&Library::default(), "demo").unwrap();
    let plan = planned(&resolved);
    let made = || files(&resolved.section, &plan, Units::Millimetres).unwrap();
    assert_eq!(made(), made());
}

/// A long grip: fewer places, the template under the table; a longer one than the page: none. Still
/// two pages.
#[test]
fn a_long_section_has_its_sheet_too() {
    for (length, has_template) in [(120.0, true), (230.0, false)] {
        let text = format!(
            "cap = \"none\"\nconverter = \"none\"\n[grip]\nlength = {length}\nfront = 10.2\n\
             [[grip.run]]\nto = {length}\ndiameter = 12.4\n"
        );
        let resolved = super::bench::with_rack(&text, "sets = [\"metric-tenths\"]");
        let plan = planned(&resolved);
        assert!(plan.outside.places.len() < 40, "{}", plan.outside.places.len());
        let content = Content::of(&resolved.section, &plan, Units::Millimetres);
        let Paged { pages, .. } = pages(&content);
        let words: String = pages.iter().flat_map(words).collect::<Vec<_>>().join(" ");
        assert_eq!(words.contains("Template 1:1"), has_template, "{length}");
        for [low, high] in pages.iter().flat_map(texts) {
            assert!(low.x > 5.0 && low.y > 5.0 && high.y < 292.0, "{low:?} {high:?}");
        }
    }
}

/// With many holes the remarks go first, then the type shrinks; with more holes than two pages hold
/// there are more pages, and every step is on them.
#[test]
fn a_sheet_of_many_steps() {
    let steps = |count: usize| {
        let step = |n: usize| {
            let (wide, deep) = (8.4 - 0.08 * n as f64, 1.5 + 0.25 * n as f64);
            format!("[[bores.step]]\nfrom = \"back\"\ndiameter = {wide:.2}\ndepth = {deep:.2}\n")
        };
        let text: String = (0..count).map(step).collect::<Vec<_>>().concat();
        let resolved = super::bench::with_rack(&text, "sets = [\"metric-tenths\"]");
        let plan = planned(&resolved);
        let content = Content::of(&resolved.section, &plan, Units::Millimetres);
        let paged = pages(&content);
        assert_eq!(paged.content.steps(), plan.operations.len());
        let said: String = paged.pages.iter().flat_map(words).collect::<Vec<_>>().join(" ");
        for n in 1..=count {
            assert!(said.contains(&format!("back bore {n}")), "{n}");
        }
        paged.pages.len()
    };
    assert_eq!(steps(3), 2);
    assert!((3..=5).contains(&steps(22)));
}
