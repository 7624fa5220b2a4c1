//! Operations and what they leave.
use sectionwright::design::{Library, load};
use sectionwright::quantity::Length;
use sectionwright::section::*;
use sectionwright::shop::plan;
use sectionwright::standard::Series;

fn limit<T>(value: T) -> Limit<T> {
    Limit { value, source: "a test".to_owned() }
}

#[test]
fn look() {
    let section = load(&Library::default(), "demo").unwrap().section;
    let tools = Series::Metric
        .sizes()
        .into_iter()
        .map(|size| Tool {
            kind: ToolKind::Drill,
            size,
            measured: None,
            point: Point::Cone(sectionwright::quantity::Angle::deg(118.0)),
            hole: None,
            cuts_over: None,
            reach: None,
        })
        .collect();
    let workshop = Workshop {
        name: "x".into(),
        tools,
        taps: vec![],
        lathe: Lathe {
            speeds: vec![120.0, 300.0, 520.0, 900.0],
            quill: Some(Quill { per_turn: Length::mm(2.0), divisions: Some(40) }),
            tailstock_drill: limit(600.0),
            turning: limit(1200.0),
        },
        holdings: Holdings { collets: vec![], closes: Length::mm(0.5), chuck: "three-jaw".into() },
        cutting: Cutting {
            drilling: limit(12.0),
            turning: limit(40.0),
            peck: limit(1.0),
            coolant: None,
            notes: vec![],
        },
    };
    let now = std::time::Instant::now();
    let plan = plan(&section, &workshop, None).unwrap();
    println!("{:?}", now.elapsed());
    let content = sectionwright::export::lathe_sheet::Content::of(
        &section,
        &plan,
        sectionwright::export::part_drawing::Units::Millimetres,
    );
    let (pages, size) = sectionwright::export::lathe_sheet::pages(&content).unwrap();
    println!("{size} {}", pages.len());
    std::fs::write("/tmp/sheet.pdf", sectionwright::export::pdf::write_pages(&pages).unwrap())
        .unwrap();
    std::fs::write("/tmp/sheet.html", sectionwright::export::lathe_sheet::html(&content, size))
        .unwrap();
}
