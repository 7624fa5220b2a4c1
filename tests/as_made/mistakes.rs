//! Random single mistakes: verdicts are those of a fresh check of the same geometry, and every
//! advised rescue holds when it is carried out.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use sectionwright::check::{Finding, Verdict};
use sectionwright::design::{Library, load};
use sectionwright::quantity::Length;
use sectionwright::scene::{Examination, verdicts};
use sectionwright::section::{
    Cut, Depth, Item, Mouth, Part, Run, Section, SectionError, Stage, Thread, Workpiece, faults,
};
use sectionwright::shop::as_made::{AsMade, Measured, Remedy, Rescue};
use sectionwright::size::SizeId;

use super::common::random::Dice;
use super::common::section::all;
use super::written::{can_say, written};
use super::{made_with, section};

/// How many mistakes every run makes. `SECTIONWRIGHT_PARTS` asks for more.
const MISTAKES: u64 = 200;

/// What two measures of one geometry may differ by: the rounding of sums of decimals.
const SAME: f64 = 1e-9;

/// A design, and the file it is from, if it is from one.
struct Base {
    section: Section,
    file: Option<String>,
}

fn root(path: &str) -> String {
    format!("{}/{path}", env!("CARGO_MANIFEST_DIR"))
}

/// Every fixture, the demo, and sections made by hand.
fn bases() -> Vec<Base> {
    let mut files = vec!["demo".to_owned()];
    for folder in ["tests/fixtures", "tests/fixtures/coincidence"] {
        let entries = fs::read_dir(root(folder)).unwrap().map(|entry| entry.unwrap().path());
        let mut names: Vec<_> =
            entries.filter(|p| p.extension().is_some_and(|e| e == "toml")).collect();
        names.sort();
        files.extend(names.into_iter().map(|path| path.to_str().unwrap().to_owned()));
    }
    files.retain(|path| !path.ends_with("unit.toml"));
    let of_file = |file: &String| {
        let section = load(&Library::default(), file).ok()?.section;
        Some(Base { section, file: Some(file.clone()) })
    };
    let mut bases: Vec<Base> = files.iter().filter_map(of_file).collect();
    assert!(bases.len() > 12, "{}", bases.len());
    bases.extend(all().into_iter().map(|section| Base { section, file: None }));
    bases.retain(|base| faults(&base.section).is_empty() && verdicts(&base.section).is_ok());
    bases
}

/// A design with some of its sizes at random, as somebody else would have drawn it.
fn varied(base: &Section, dice: &mut Dice) -> Section {
    let mut section = base.clone();
    for _ in 0..4 {
        let sizes = SizeId::cut(&section);
        let size = dice.one_of(&sizes);
        let by = dice.within(-0.25, 0.25);
        let changed = size.set(&section, size.get(&section).unwrap() + by);
        let sound = changed.filter(|s| faults(s).is_empty() && verdicts(s).is_ok());
        section = sound.unwrap_or(section);
    }
    section
}

fn fresh(section: &Section) -> Result<Examination, BTreeSet<&'static str>> {
    let faults: BTreeSet<_> = faults(section).iter().map(SectionError::code).collect();
    if !faults.is_empty() {
        return Err(faults);
    }
    verdicts(section).map_err(|error| [error.code()].into())
}

/// The same findings, verdicts and numbers.
fn is_same(what: &str, measured: &Measured, expected: Result<Examination, BTreeSet<&str>>) {
    match (measured, expected) {
        (Measured::Impossible(faults), Err(codes)) => {
            let own: BTreeSet<_> = faults.iter().map(|fault| fault.code).collect();
            assert_eq!(own, codes, "{what}");
        }
        (Measured::Verdicts(found), Ok(expected)) => {
            let line = |f: &Finding| (f.code, f.verdict());
            let lines = |e: &Examination| e.findings.iter().map(line).collect::<Vec<_>>();
            assert_eq!(lines(found), lines(&expected), "{what}");
            for (a, b) in found.findings.iter().zip(&expected.findings) {
                let worst = |f: &Finding| f.judgement.as_ref().map_or(0.0, |j| j.worst);
                let by = [(a.measured - b.measured).abs(), (worst(a) - worst(b)).abs()];
                assert!(by.iter().all(|by| *by < SAME), "{what}: {} {by:?}", a.code);
            }
        }
        (found, expected) => {
            let found = found.examination().map(Examination::verdict);
            panic!("{what}: {found:?}, fresh {:?}", expected.map(|found| found.verdict()));
        }
    }
}

/// By a design file that says every size.
fn by_file(base: &Base, mistake: (SizeId, f64)) -> Result<Examination, BTreeSet<&'static str>> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("made.toml");
    let file = base.file.as_ref().unwrap();
    fs::write(&path, written(file, &base.section, mistake)).unwrap();
    match load(&Library::default(), path.to_str().unwrap()) {
        Ok(resolved) => verdicts(&resolved.section).map_err(|error| [error.code()].into()),
        Err(failure) => {
            let errors = failure
                .diagnostics
                .iter()
                .filter(|d| d.severity == sectionwright::diagnostic::Severity::Error);
            Err(errors.map(|d| d.code).collect())
        }
    }
}

/// What a rescue makes of the section, by the bench's own reckoning: no function of the tool's.
fn carried_out(made: &AsMade, rescue: &Rescue) -> Section {
    match rescue.remedy {
        Remedy::Change(change) => change.parameter.set(&made.section, change.to).unwrap(),
        Remedy::FaceBack { off } => {
            let mut section = made.section.clone();
            let is_done = |item| made.done.contains(&Stage::Bored(item));
            let shoulder = section.grip.length();
            section.grip.runs.last_mut().unwrap().to.z -= off;
            section.tenon.thread.from -= off;
            section.tenon.thread.to -= off;
            if let Some(cap) = section.cap.as_mut().filter(|cap| cap.stops_at == shoulder) {
                cap.stops_at -= off;
            }
            for bore in &mut section.bores {
                if bore.mouth == Mouth::Front && is_done(bore.item) {
                    bore.depth = match bore.depth {
                        Depth::To(z) if z > Length::ZERO => Depth::To(z - off),
                        Depth::Between(from, to) => Depth::Between(from - off, to - off),
                        other => other,
                    };
                }
            }
            if is_done(Item::ClearanceBore) {
                section.unit_thread.from -= off;
            }
            if made.done.contains(&Stage::Tapped) {
                section.unit_thread.to -= off;
            }
            section
        }
    }
}

fn holds_when_checked(what: &str, made: &AsMade, rescue: &Rescue) {
    let section = carried_out(made, rescue);
    assert_eq!(faults(&section), [], "{what}");
    let after = verdicts(&section).unwrap();
    for finding in &after.findings {
        let before = made.drawn.finding(finding.code).and_then(Finding::verdict);
        let before = before.unwrap_or(Verdict::Holds);
        assert!(finding.verdict().is_none_or(|now| now <= before), "{what}: {}", finding.code);
    }
    is_same(what, &Measured::Verdicts(rescue.examination.clone()), Ok(after));
}

/// What was done, then what is said to remain, leaves the section that is meant.
fn work_leads_there(what: &str, drawn: &Section, made: &AsMade, to: (&Section, &[Cut])) {
    let (wanted, remaining) = to;
    assert!(
        remaining
            .iter()
            .all(|cut| { matches!(cut, Cut::Face { .. }) || !made.done.contains(&cut.stage()) })
    );
    let mut piece = Workpiece::rod(wanted);
    piece.take(&Cut::Square { length: drawn.squared_length() });
    for cut in made.section.cuts() {
        let done = made.done.contains(&cut.stage());
        // Places of these count from the finished face, which lies where the section has it.
        match cut {
            Cut::Square { .. } => {}
            Cut::TenonThread(_) if done => {
                piece.take(&Cut::TenonThread(wanted.tenon.thread.clone()));
            }
            Cut::CapThread(_) if done => {
                let cap = wanted.grip.thread.as_ref().unwrap();
                piece.take(&Cut::CapThread(cap.thread.clone()));
            }
            // A front that was faced is where it was measured.
            Cut::Face { .. } if done => {
                let rest = drawn.squared_length() - made.section.length();
                piece.take(&Cut::Face { off: rest - made.section.allowance.sanding });
            }
            cut if done => piece.take(&cut),
            _ => {}
        }
    }
    for cut in remaining {
        piece.take(cut);
    }
    let (left, part) = (piece.part(), wanted.part());
    let runs = |part: &Part| {
        let ends = |run: &Run| format!("{} to {:?}", run.feature, run.to);
        part.runs.iter().map(ends).collect::<Vec<_>>().join("\n")
    };
    let unlike = || format!("{what}:\n{}\nmeant:\n{}", runs(&left), runs(&part));
    assert_eq!(left.runs.len(), part.runs.len(), "{}", unlike());
    for (a, b) in left.runs.iter().zip(&part.runs) {
        let by = [(a.from.z - b.from.z), (a.to.z - b.to.z), (a.from.diameter - b.from.diameter)];
        assert!(by.iter().all(|by| by.abs().as_mm() < SAME), "{}", unlike());
    }
    let threads = |part: &Part| {
        let places = |t: &Thread| [t.from, t.to].map(|z| (z.as_mm() * 1e8).round());
        part.threads.iter().map(|t| (t.item, places(t))).collect::<BTreeMap<_, _>>()
    };
    assert_eq!(threads(&left), threads(&part), "{what}");
}

#[test]
fn verdicts_are_those_of_a_fresh_check_and_rescues_hold() {
    let count = std::env::var("SECTIONWRIGHT_PARTS").ok().and_then(|n| n.parse().ok());
    let bases = bases();
    let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
    for seed in 0..count.unwrap_or(MISTAKES) {
        let mut dice = Dice(seed.wrapping_mul(0x9E6C_63D0_876A_68EE));
        let numbers: Vec<usize> = (0..bases.len()).collect();
        let base = &bases[dice.one_of(&numbers)];
        // Every other one is of a design that nobody wrote into a file.
        let base = if dice.percent(40) {
            Base { section: varied(&base.section, &mut dice), file: None }
        } else {
            Base { section: base.section.clone(), file: base.file.clone() }
        };
        let drawn = &base.section;
        let sizes = SizeId::cut(drawn);
        let size = dice.one_of(&sizes);
        let to = size.get(drawn).unwrap() + dice.within(-0.5, 0.5);
        if to <= 0.0 {
            continue;
        }
        let what = format!("seed {seed}, {}: {} = {to}", drawn.name, size.name());
        let made = made_with(drawn, size, to, None);
        let expected = if base.file.is_some() && can_say(drawn, size) {
            *seen.entry("by a file").or_default() += 1;
            by_file(&base, (size, to))
        } else {
            *seen.entry("by setting it").or_default() += 1;
            size.set(drawn, to).map_or_else(|| fresh(drawn), |section| fresh(&section))
        };
        is_same(&what, &made.made, expected);
        let worse = made.made.is_worse_than(&made.drawn);
        let kind = match (worse, made.rescues.first().map(|rescue| rescue.remedy)) {
            (false, none) => {
                assert!(none.is_none(), "{what}");
                "nothing worse"
            }
            (true, None) => "not saved",
            (true, Some(_)) => "saved",
        };
        *seen.entry(kind).or_default() += 1;
        *seen.entry("impossible").or_default() +=
            u32::from(matches!(made.made, Measured::Impossible(_)));
        for rescue in &made.rescues {
            *seen.entry("rescues").or_default() += 1;
            let back = matches!(rescue.remedy, Remedy::FaceBack { .. });
            *seen.entry("faced back").or_default() += u32::from(back);
            holds_when_checked(&what, &made, rescue);
            if made.rod_leaves.is_none() {
                work_leads_there(&what, drawn, &made, (&rescue.section, &rescue.remaining));
            }
        }
        if made.rod_leaves.is_none() && made.made.examination().is_some() {
            work_leads_there(&what, drawn, &made, (&made.section, &made.remaining));
        }
    }
    println!("{seen:?}");
    let all = ["by a file", "by setting it", "nothing worse", "not saved", "saved", "impossible"];
    for kind in all {
        assert!(seen.get(kind).is_some_and(|n| *n >= 5), "{kind}: {seen:?}");
    }
}

/// A step that is said to be done is left alone, whatever was cut.
#[test]
fn what_is_done_is_not_advised() {
    let demo = section("demo");
    let size = SizeId::read("bores.recess.diameter", &demo).unwrap();
    let early = made_with(&demo, size, 9.3, None);
    assert!(early.rescues.iter().any(|rescue| matches!(
        rescue.remedy,
        Remedy::Change(change) if change.parameter == SizeId::FrontDiameter
    )));
    let late = made_with(&demo, size, 9.3, Some(Stage::OutsideTurned));
    assert!(late.rescues.is_empty(), "{:?}", late.rescues);
    let steps: Vec<Stage> = late.remaining.iter().map(Cut::stage).collect();
    assert_eq!(steps, [Stage::Sanded]);
}
