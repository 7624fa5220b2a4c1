//! Racks: those that are shipped, those that take others, and what is made of their tools.

use std::fs;

use sectionwright::design::{Asked, Failure, Kind, Library, Resolved, load, load_asked};
use sectionwright::diagnostic::{Severity, Style, render};
use sectionwright::quantity::{Angle, Length, Limits};
use sectionwright::section::{CentrePilot, Lathe, Point, TapLead, Tool, ToolKind, Workshop};

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn said(failure: &Failure) -> String {
    render(&failure.diagnostics, &failure.sources, Style::Plain)
}

/// A folder with files in it.
fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("made");
        fs::write(path, text).expect("written");
    }
    folder
}

/// The demo with another rack, which is named as on the command line.
fn asked(library: &Library, rack: &str) -> Result<Resolved, Failure> {
    load_asked(library, "demo", Asked { rack: Some(rack), ..Asked::default() })
}

fn workshop(library: &Library, rack: &str) -> Workshop {
    asked(library, rack).unwrap_or_else(|failure| panic!("{rack}:\n{}", said(&failure))).workshop
}

/// A rack of this text, beside the demo's other files.
fn made(text: &str) -> Result<Workshop, Failure> {
    let files = folder(&[("r.toml", &format!("format = 1\nname = \"r\"\n{text}"))]);
    let path = files.path().join("r.toml");
    asked(&Library::default(), path.to_str().expect("ASCII")).map(|resolved| resolved.workshop)
}

fn sound(text: &str) -> Workshop {
    made(text).unwrap_or_else(|failure| panic!("{text}:\n{}", said(&failure)))
}

fn codes(text: &str) -> Vec<&'static str> {
    let failure = made(text).expect_err(text);
    let errors = failure.diagnostics.iter().filter(|d| d.severity == Severity::Error);
    errors.map(|error| error.code).collect()
}

fn diameters(workshop: &Workshop) -> Vec<f64> {
    workshop.tools.iter().map(|tool| tool.diameter().as_mm()).collect()
}

#[test]
fn every_shipped_rack_can_be_worked_with() {
    let library = Library::default();
    let racks: Vec<String> = library.list(Kind::Rack).into_iter().map(|rack| rack.name).collect();
    assert_eq!(racks, ["bench", "inch-fractions", "metric-tenths", "numbers-letters"]);
    for rack in racks {
        let workshop = workshop(&library, &rack);
        assert_eq!(workshop.name, rack);
        assert!(workshop.tools.iter().all(|tool| tool.diameter() > Length::ZERO));
        let points = workshop.tools.iter().filter(|tool| tool.kind == ToolKind::Drill);
        assert!(points.map(|t| t.point).all(|point| point == Point::Cone(Angle::deg(118.0))));
    }
}

/// Counts follow from the ends: 1.0 to 13.0 in tenths, 1/16 to 1/2 in in 64ths, #60 to #1, A to Z.
/// Source of the sizes: the definition of the inch; #60 is 0.040 in and Z 0.413 in (tables of twist
/// drill gauge sizes, which tests/standard/drills.rs holds the whole series to).
#[test]
fn series_have_all_their_drills() {
    let library = Library::default();
    let metric = workshop(&library, "metric-tenths");
    let ends = |found: &[f64]| (found.len(), found[0], found[found.len() - 1]);
    assert_eq!(ends(&diameters(&metric)), (121, 1.0, 13.0));
    let inch = workshop(&library, "inch-fractions");
    assert_eq!(ends(&diameters(&inch)), (29, 1.5875, 12.7));
    let named = inch.tools.iter().find(|tool| tool.to_string().contains("21/64")).expect("there");
    assert_eq!(named.to_string(), "drill 21/64 in (8.334 mm)");
    let others = workshop(&library, "numbers-letters");
    let (count, thinnest, widest) = ends(&diameters(&others));
    assert_eq!(count, 60 + 26);
    assert!((thinnest - 1.016).abs() < 1e-9 && (widest - 10.4902).abs() < 1e-9);
}

/// What nobody says is the usual rack, and a section does not depend on it.
#[test]
fn the_usual_rack_is_the_bench() {
    let library = Library::default();
    let resolved = load(&library, "demo").expect("the demo");
    assert_eq!(resolved.workshop, workshop(&library, "bench"));
    assert!(resolved.derived.iter().all(|derived| derived.key != "rack"));
    let Workshop { lathe, holdings, taps, .. } = &resolved.workshop;
    assert_eq!(lathe.speeds, [120.0, 200.0, 350.0, 600.0, 1000.0, 1700.0]);
    let quill = lathe.quill.expect("it has a scale");
    assert_eq!((quill.per_turn, quill.divisions), (mm(2.0), Some(40)));
    assert_eq!(lathe.tailstock_drill.source, "bench: common practice");
    assert_eq!(holdings.collets.len(), 15);
    assert!(taps.iter().all(|tap| tap.lead == TapLead::Pitches(4.0)));
    let other = asked(&library, "numbers-letters").expect("sound");
    assert_eq!(other.section, resolved.section);
    // The other one says nothing of lathe and holdings.
    assert!(other.workshop.lathe.speeds.is_empty() && other.workshop.lathe.quill.is_none());
    assert_eq!(other.workshop.lathe.tailstock_drill.value, Lathe::TAILSTOCK_DRILL);
    assert_eq!(other.workshop.lathe.turning.source, "built in: common practice");
    assert_eq!(other.workshop.holdings.chuck, "chuck");
}

/// The design names its rack from where it lies, the command line from the working folder, before
/// the design.
#[test]
fn a_design_names_a_rack_and_the_command_line_another() {
    let design = "format = 1\nlike = \"demo\"\nrack = \"r.toml\"\n";
    let own = "format = 1\nname = \"own\"\n[[reamer]]\nsize = 6.5\ncuts_over = [0, 0.02]\n";
    let files = folder(&[("d.toml", design), ("r.toml", own)]);
    let design = files.path().join("d.toml").display().to_string();
    let resolved = load(&Library::default(), &design).expect("sound");
    assert_eq!(resolved.workshop.name, "own");
    let [reamer] = &resolved.workshop.tools[..] else { panic!("one tool") };
    assert_eq!(reamer.kind, ToolKind::Reamer);
    assert_eq!(reamer.cuts_over, Limits::new(mm(0.0), mm(0.02)));
    let asked = Asked { rack: Some("bench"), limits: &["walls.lip=0.35".to_owned()] };
    let resolved = load_asked(&Library::default(), &design, asked).expect("sound");
    assert_eq!(resolved.workshop.name, "bench");
    let lip = resolved.section.criteria.walls.of(sectionwright::section::Zone::Lip);
    assert_eq!(lip.source, "command line");
}

/// A folder's rack goes before the built-in one of its name, and may be like it: what it says goes
/// over, key by key, and lists whole.
#[test]
fn a_folders_rack_may_be_like_the_built_in() {
    let own = "format = 1\nlike = \"bench\"\nname = \"mine\"\n[lathe]\nspeeds = [500, 900]\n\
               [[boring_bar]]\nleast = 6\n[holdings]\ncollets = [\"1/8 in\", 6]\n";
    let files = folder(&[("racks/bench.toml", own)]);
    let library = Library::new(vec![files.path().to_owned()]);
    let resolved = load(&library, "demo").unwrap_or_else(|failure| panic!("{}", said(&failure)));
    let built_in = workshop(&Library::default(), "bench");
    let Workshop { name, tools, lathe, holdings, taps, .. } = &resolved.workshop;
    assert_eq!((name.as_str(), tools.len()), ("mine", built_in.tools.len()));
    assert_eq!((&lathe.speeds[..], lathe.quill), (&[500.0, 900.0][..], built_in.lathe.quill));
    assert_eq!(lathe.turning.source, "mine: common practice");
    assert_eq!(holdings.collets, [mm(3.175), mm(6.0)]);
    assert_eq!(taps, &built_in.taps);
    let bars: Vec<&Tool> = tools.iter().filter(|tool| tool.kind == ToolKind::BoringBar).collect();
    assert_eq!((bars.len(), bars[0].diameter(), bars[0].reach), (1, mm(6.0), None));
}

/// Sets bring tools and taps, theirs behind one's own, each rack once; not the lathe, and not what
/// holds the work.
#[test]
fn sets_are_joined() {
    let rack = |name: &str, sets: &str, more: &str| {
        format!("format = 1\nname = \"{name}\"\nsets = [{sets}]\n{more}")
    };
    let files = folder(&[
        ("a.toml", &rack("a", "\"b.toml\", \"in/c.toml\"", "[[drill]]\nsize = 1\n")),
        ("b.toml", &rack("b", "\"in/c.toml\"", "[[drill]]\nsize = 2\n[lathe]\nspeeds = [9]\n")),
        ("in/c.toml", &rack("c", "\"d.toml\"", "[[tap]]\nthread = \"M8x0.75\"\n")),
        ("in/d.toml", &rack("d", "", "[[drill]]\nsize = 2\n[holdings]\nchuck = \"d's\"\n")),
    ]);
    let path = files.path().join("a.toml").display().to_string();
    let joined = workshop(&Library::default(), &path);
    assert_eq!(joined.name, "a");
    assert_eq!(diameters(&joined), [1.0, 2.0, 2.0]);
    assert_eq!(joined.taps.len(), 1);
    assert!(joined.lathe.speeds.is_empty());
    assert_eq!(joined.holdings.chuck, "chuck");
}

/// Four deep is deep enough, and fifty names are enough names.
#[test]
fn sets_have_an_end() {
    let text = |n: usize| format!("format = 1\nname = \"{n}\"\nsets = [\"{}.toml\"]\n", n + 1);
    let chain = |depth: usize| -> Vec<(String, String)> {
        let last = "format = 1\nname = \"last\"\n[[drill]]\nsize = 3\n".to_owned();
        let names = (0..=depth).map(|n| format!("{n}.toml"));
        names.zip((0..depth).map(text).chain([last])).collect()
    };
    let found = |files: Vec<(String, String)>| {
        let files: Vec<_> = files.iter().map(|(n, t)| (n.as_str(), t.as_str())).collect();
        let files = folder(&files);
        asked(&Library::default(), &files.path().join("0.toml").display().to_string())
    };
    assert_eq!(found(chain(4)).expect("four deep").workshop.tools.len(), 1);
    let failure = found(chain(5)).expect_err("too deep");
    assert_eq!(failure.diagnostics[0].code, "rack.too-deep", "{}", said(&failure));
    assert!(failure.diagnostics[0].at.is_some());
    let many = |count: usize| format!("sets = [{}]", "\"metric-tenths\", ".repeat(count));
    assert_eq!(sound(&many(50)).tools.len(), 121);
    assert_eq!(codes(&many(51)), ["rack.too-many-sets"]);
}

/// A hole that a tool left counts in its own material alone: its reading, less and more what it may
/// be off by.
#[test]
fn holes_are_known_by_material() {
    let text = "[[drill]]\nsize = 8.2\nmeasured = 8.17\ncuts = [{ material = \"cast-resin\", \
                hole = 8.25, uncertainty = 0.01 }, { material = \"ebonite\", hole = 8.21 }]\n";
    let files = folder(&[("r.toml", &format!("format = 1\nname = \"r\"\n{text}"))]);
    let rack = files.path().join("r.toml").display().to_string();
    let hole = |material: &str| {
        let design = format!("format = 1\nlike = \"demo\"\nmaterial = \"{material}\"\n");
        let design_file = files.path().join("d.toml");
        fs::write(&design_file, design).expect("written");
        let asked = Asked { rack: Some(&rack), ..Asked::default() };
        let design = design_file.display().to_string();
        let resolved = load_asked(&Library::default(), &design, asked).expect("sound");
        let [drill] = &resolved.workshop.tools[..] else { panic!("one drill") };
        assert_eq!((drill.diameter(), drill.size.diameter()), (mm(8.17), mm(8.2)));
        drill.hole
    };
    assert_eq!(hole("cast-resin"), Limits::new(mm(8.25) - mm(0.01), mm(8.25) + mm(0.01)));
    assert_eq!(hole("ebonite"), Limits::new(mm(8.21) - mm(0.02), mm(8.21) + mm(0.02)));
    assert_eq!(hole("acetal"), None);
}

/// Step drills and centre drills keep what is thinner in front of them.
#[test]
fn thinner_ends_are_kept() {
    let rack = sound(
        "[[step_drill]]\nsize = \"23/64 in\"\npoint = 135\npilot = 7.3\npilot_length = 6\n\
         [[centre_drill]]\nbody = 8\npilot = 2.5\npilot_length = 3\n\
         [[centre_drill]]\nbody = 8\nangle = 90\npilot = 2.5\npilot_length = 3\npilot_point = 120\n",
    );
    let centre = |cone, diameter, length, point| {
        let pilot =
            CentrePilot { diameter: mm(diameter), length: mm(length), point: Angle::deg(point) };
        Point::Centre(Angle::deg(cone), pilot)
    };
    let points: Vec<Point> = rack.tools.iter().map(|tool| tool.point).collect();
    let expected = [
        centre(135.0, 7.3, 6.0, 135.0),
        centre(60.0, 2.5, 3.0, 118.0),
        centre(90.0, 2.5, 3.0, 120.0),
    ];
    assert_eq!(points, expected);
    assert_eq!(rack.tools[0].to_string(), "step drill 23/64 in (9.128 mm)");
}

/// A tap's readings are limits; what was not measured is none.
#[test]
fn taps_are_as_measured() {
    let rack = sound(
        "[[tap]]\nthread = \"M8x0.75-6H\"\nmajor = 8.01\npitch_diameter = 7.54\n\
         uncertainty = 0.01\nlead = 4\nlength = 20\n[[tap]]\nthread = \"M10x1\"\n",
    );
    let [known, bare] = &rack.taps[..] else { panic!("two taps") };
    assert_eq!(known.major, Limits::around(mm(8.01), mm(0.01)));
    assert_eq!(known.pitch_diameter, Limits::around(mm(7.54), mm(0.01)));
    assert_eq!((known.lead, known.length), (TapLead::Pitches(4.0), Some(mm(20.0))));
    assert_eq!((bare.major, bare.lead, bare.length), (None, TapLead::Unknown, None));
    assert_eq!(bare.to_string(), "tap M10x1");
}

/// How a material is cut, from its file, from what a design says over it, else built in.
#[test]
fn a_material_says_how_it_is_cut() {
    let library = Library::default();
    let cutting = |text: &str| {
        let files = folder(&[("d.toml", &format!("format = 1\nlike = \"demo\"\n{text}"))]);
        let path = files.path().join("d.toml").display().to_string();
        load(&library, &path).unwrap_or_else(|f| panic!("{}", said(&f))).workshop.cutting
    };
    for material in library.list(Kind::Material) {
        let cutting = cutting(&format!("material = \"{}\"\n", material.name));
        assert!(cutting.drilling.source.starts_with(&material.name), "{}", material.name);
        assert!(cutting.notes.iter().all(|note| !note.source.contains("no source")));
    }
    // 13 mm at 1500 turns a minute: pi * 13 * 1500 / 1000 = 61.26 m/min.
    let acetal = cutting("material = \"acetal\"\n").drilling;
    assert_eq!(acetal.value, (std::f64::consts::PI * 13.0 * 1500.0 / 1000.0).round());
    assert_eq!(acetal.source, "acetal: General Design Principles p. 126: 13 mm at 1500 rpm");
    let own = cutting("[limits.cutting]\ndrilling = 20\n");
    assert_eq!((own.drilling.value, own.drilling.source.as_str()), (20.0, "this design"));
    assert_eq!((own.turning.value, own.peck.value), (40.0, 1.0));
    // The reference design's material says nothing.
    let bare = "format = 1\nname = \"bare\"\nlike = \"cast-resin\"\ncutting = \"none\"\n";
    let files = folder(&[("materials/bare.toml", bare)]);
    let library = Library::new(vec![files.path().to_owned()]);
    let files = folder(&[("d.toml", "format = 1\nlike = \"demo\"\nmaterial = \"bare\"\n")]);
    let path = files.path().join("d.toml").display().to_string();
    let bare = load(&library, &path).unwrap_or_else(|f| panic!("{}", said(&f))).workshop.cutting;
    assert_eq!((bare.drilling.value, bare.turning.value, bare.peck.value), (12.0, 40.0, 1.0));
    assert_eq!(bare.drilling.source, "built in: common practice");
    assert!(bare.coolant.is_none() && bare.notes.is_empty());
}

/// A thousand tools, and a thousand taps, are the most; one error says so.
#[test]
fn a_rack_has_an_end() {
    let series = "[[series]]\nof = \"metric\"\nfrom = 1\nto = 25\n";
    assert_eq!(sound(&series.repeat(4)).tools.len(), 4 * 241);
    assert_eq!(codes(&series.repeat(5)), ["rack.too-many-tools"]);
    let tap = "[[tap]]\nthread=\"M8\"\n";
    assert_eq!(sound(&tap.repeat(1000)).taps.len(), 1000);
    assert_eq!(codes(&tap.repeat(1002)), ["rack.too-many-taps"]);
}

/// Whatever stands behind a key, the answer is a workshop or an error with its text.
#[test]
fn any_value_of_any_key_gets_an_answer() {
    let guide = include_str!("../profiles/README.md");
    let text = guide.split("## A rack").nth(1).expect("there").split("```").nth(1).expect("there");
    let text = text.strip_prefix("toml\n").expect("a file");
    let values = [
        "0",
        "-1",
        "1",
        "7",
        "2.5",
        "1e9",
        "1e-9",
        "nan",
        "inf",
        "\"\"",
        "\"x\"",
        "\"#7\"",
        "\"letter F\"",
        "\"flat\"",
        "\"none\"",
        "\"bench\"",
        "true",
        "[]",
        "[1, 2]",
        "[2, 1]",
        "{}",
        "[{}]",
        "{ value = 3 }",
        "{ from = 1, to = 2, step = 1e-8 }",
    ];
    let lines: Vec<&str> = text.lines().collect();
    let (mut sound, mut wrong) = (0, 0);
    let files = folder(&[]);
    let path = files.path().join("r.toml");
    for (at, line) in lines.iter().enumerate() {
        let Some((key, _)) = line.split_once(" = ") else { continue };
        if key.starts_with([' ', '#']) {
            continue;
        }
        for value in values {
            let mut changed = lines.clone();
            let line = format!("{key} = {value}");
            changed[at] = &line;
            fs::write(&path, changed.join("\n")).expect("written");
            match asked(&Library::default(), path.to_str().expect("ASCII")) {
                Ok(resolved) => {
                    let tools = &resolved.workshop.tools;
                    assert!(tools.iter().all(|tool| tool.diameter() > Length::ZERO), "{line}");
                    sound += 1;
                }
                Err(failure) => {
                    let errors = failure.diagnostics.iter();
                    let mut errors = errors.filter(|d| d.severity == Severity::Error).peekable();
                    assert!(errors.peek().is_some(), "{line}");
                    assert!(errors.all(|d| d.hint.is_some()), "{line}\n{}", said(&failure));
                    wrong += 1;
                }
            }
        }
    }
    // Both happen, or the values were no trial.
    assert!(sound > 50 && wrong > 300, "{sound} sound, {wrong} wrong");
}
