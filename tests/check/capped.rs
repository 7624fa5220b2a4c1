//! The capped pen: closed forms by hand, and for each check a section in which it holds and one in
//! which it breaks, with advice that works. All numbers are invented.

use sectionwright::check::{Advice, Finding, Verdict};
use sectionwright::quantity::Limits;
use sectionwright::scene::{examine, verdicts};
use sectionwright::section::{
    Cap, CapBore, CapMouth, CapThread, Counterbore, GripRun, InnerCap, Item, Limit, Ring, RingForm,
    Section, Side, Station, faults,
};
use sectionwright::size::SizeId;

use crate::common::{basic_thread, mm};
use crate::fixtures::{as_read, read, sound};

/// The sound section, straight from 10.6 to 12.0 over 21, in a cap for the barrel's thread.
pub fn capped() -> Section {
    let mut section = sound();
    section.cap = Some(Cap {
        stops_at: mm(21.0),
        counterbore: None,
        mouth: CapMouth::Minor { diameter: read(12.5, 0.02), to: mm(6.0) },
        bores: vec![
            CapBore { diameter: read(12.6, 0.02), to: mm(14.0) },
            CapBore { diameter: read(11.5, 0.02), to: mm(43.0) },
        ],
        inner_length: read(43.0, 0.05),
        seal: Some(InnerCap { depth: read(21.5, 0.05), diameter: read(10.0, 0.02) }),
    });
    section
}

/// The sound section with a thread of its own for the cap: a grip of 10.6 to 11.2, a thread of
/// three starts on 12.94 from 15 to 18, behind it 11.8 to 12.0.
pub fn threaded() -> Section {
    let mut section = sound();
    let run = |d: f64, z: f64| GripRun::straight(Station::new(mm(d), mm(z)));
    section.grip.runs =
        vec![run(11.2, 15.0), run(12.94, 15.0), run(12.94, 18.0), run(11.8, 18.0), run(12.0, 21.0)];
    let own = basic_thread(Item::CapThread, Side::External, "M13xPh2.4P0.8", 15.0, 18.0);
    let thread = as_read(own, -0.06, 0.02);
    section.grip.thread = Some(CapThread { run: 2, thread });
    let inside = basic_thread(Item::CapInsideThread, Side::Internal, "M13xPh2.4P0.8", 0.0, 5.9);
    section.cap = Some(Cap {
        stops_at: mm(18.5),
        counterbore: None,
        mouth: CapMouth::Thread(Box::new(inside)),
        bores: vec![
            CapBore { diameter: read(13.2, 0.02), to: mm(12.0) },
            CapBore { diameter: read(11.9, 0.02), to: mm(43.0) },
        ],
        inner_length: read(43.0, 0.05),
        seal: None,
    });
    section
}

pub fn cap(section: &mut Section) -> &mut Cap {
    section.cap.as_mut().unwrap()
}

fn found(section: &Section, code: &str) -> Finding {
    assert_eq!(faults(section), []);
    verdicts(section).unwrap().finding(code).unwrap_or_else(|| panic!("no {code}")).clone()
}

fn near(finding: &Finding, expected: f64) {
    let measured = finding.measured;
    assert!((measured - expected).abs() < 1e-9, "{}: {measured} {expected}", finding.code);
}

fn detail_near(finding: &Finding, name: &str, expected: f64) {
    let value = finding.detail(name).unwrap_or_else(|| panic!("no {name}: {finding:?}"));
    assert!((value - expected).abs() < 1e-9, "{name}: {value} {expected}");
}

/// What breaks is advised a change that makes it hold and worsens nothing.
pub fn helped(code: &str, sound: &Section, section: &Section) -> SizeId {
    assert_eq!(found(sound, code).verdict(), Some(Verdict::Holds), "{:?}", found(sound, code));
    assert_eq!(faults(section), []);
    let before = examine(section).unwrap();
    let finding = before.finding(code).unwrap();
    assert_eq!(finding.verdict(), Some(Verdict::Breaks), "{finding:?}");
    let Some(Advice::Change(change)) = finding.advice() else {
        panic!("{code}: {:?}", finding.advice());
    };
    println!("{code}: {:.4}: {:?}", finding.measured, finding.advice());
    let after = verdicts(&change.parameter.set(section, change.to).unwrap()).unwrap();
    assert_eq!(after.finding(code).and_then(Finding::verdict), Some(Verdict::Holds));
    for then in &before.findings {
        let now = after.finding(then.code).and_then(Finding::verdict);
        assert!(now <= then.verdict(), "{} after {change:?}", then.code);
    }
    change.parameter
}

fn with(mut section: Section, change: impl FnOnce(&mut Section)) -> Section {
    change(&mut section);
    section
}

#[test]
fn everything_holds_in_both() {
    for section in [capped(), threaded()] {
        assert_eq!(faults(&section), []);
        let examination = examine(&section).unwrap();
        let bad: Vec<_> =
            examination.findings.iter().filter(|f| f.verdict() > Some(Verdict::Holds)).collect();
        assert!(bad.is_empty(), "{bad:#?}");
    }
    let without = verdicts(&sound()).unwrap();
    let cap = |f: &Finding| f.code.starts_with("clear.cap") || f.code.starts_with("thread.cap");
    assert!(!without.findings.iter().any(cap));
}

/// By hand. At the mouth the grip is 12.0 in 12.5; where the bore of 11.5 begins, 14 inside, it is
/// at z 7, 10.6 + 1.4 / 3 wide. That bore's step meets the taper where it is 11.5 wide, at z 13.5,
/// when the mouth stands at 27.5. The collar's underside rests at 1.2: the tip is at
/// 1.2 - 1 - 20 = -19.8, 40.8 inside the cap of 43.
#[test]
fn a_taper_in_a_stepped_cap() {
    let section = capped();
    let grip = found(&section, "clear.cap");
    near(&grip, (11.5 - (10.6 + 1.4 / 3.0)) / 2.0);
    detail_near(&grip, "in the thread", 0.25);
    let place = grip.place.unwrap();
    assert!((place.inner.z - 7.0).abs() < 1e-9 && (place.outer.z - 7.0).abs() < 1e-9);
    assert_eq!(place.outer.feature.to_string(), "cap-bore-2");
    // Read 0.02 narrower on the diameter.
    let judgement = grip.judgement.unwrap();
    assert!((judgement.uncertainty - 0.01).abs() < 1e-9);
    assert_eq!(judgement.limit_source, "built in: common practice");
    near(&found(&section, "clear.cap-stop"), 6.5);
    near(&found(&section, "clear.nib"), 2.2);
    detail_near(&found(&section, "clear.nib"), "the tip lies at z", -19.8);
    let seal = found(&section, "clear.seal");
    near(&seal, 0.5);
    assert_eq!(
        seal.note.as_deref(),
        Some("the rim is 0.50 mm from sealing (read to within 0.05 mm)")
    );
    near(&found(&section, "clear.nib-side"), 1.5);
}

/// By hand, ISO 68-1: H = P sqrt(3) / 2; the basic profiles overlap by 5H/8, of which the section's
/// crest, 0.03 per side under its basic size, leaves 0.03 less; its flanks, as far apart square to
/// the axis, leave 2 x 0.03 tan 30 along it. The thread lies 0.5 to 3.5 inside the cap, within the
/// cap's 5.9: 3 of a lead of 2.4.
#[test]
fn a_thread_of_three_starts_closes_the_cap() {
    let section = threaded();
    let depth = 0.8 * 3.0_f64.sqrt() / 2.0 * 5.0 / 8.0;
    near(&found(&section, "thread.cap.percent"), (depth - 0.03) / depth * 100.0);
    let turns = found(&section, "thread.cap.turns");
    near(&turns, 1.25);
    detail_near(&turns, "from z", 15.0);
    detail_near(&turns, "to z", 18.0);
    near(&found(&section, "thread.cap.play"), 2.0 * 0.03 / 3.0_f64.sqrt());
    near(&found(&section, "thread.cap.crests"), 0.03);
    let closing = found(&section, "thread.cap.closing");
    near(&closing, 1.25);
    assert_eq!(closing.verdict(), None);
    detail_near(&closing, "engaged length", 3.0);
    let told = examine(&section).unwrap();
    assert_eq!(told.finding("thread.cap.interference").map(|f| f.measured), Some(0.0));
    assert!(told.finding("thread.cap.strip").unwrap().measured > 0.0);
}

/// By hand. In the cap's minor diameter, 13 - 10H/8, goes what lies behind the thread, 11.8 to
/// 12.0 over 3: at the mouth, 0.5 behind it, 11.8 + 0.1 / 3. Engaged threads do not count. Where the
/// bore of 11.9 begins, at z 6.5, the grip is 10.6 + 0.6 x 6.5 / 15; that step meets the thread's
/// front, at z 15, when the mouth stands at 27.
#[test]
fn a_grip_with_its_own_thread_in_the_cap() {
    let section = threaded();
    let minor = 13.0 - 0.8 * 3.0_f64.sqrt() / 2.0 * 10.0 / 8.0;
    let grip = found(&section, "clear.cap");
    near(&grip, (minor - (11.8 + 0.1 / 3.0)) / 2.0);
    detail_near(&grip, "inside", (11.9 - (10.6 + 0.6 * 6.5 / 15.0)) / 2.0);
    near(&found(&section, "clear.cap-stop"), 27.0 - 18.5);
    near(&found(&section, "clear.nib"), 43.0 - 18.5 - 19.8);
    near(&found(&section, "clear.nib-side"), (11.9 - 7.0) / 2.0);
}

/// By hand: a bead of 0.3 on the taper, at z 10.5 where the grip is 11.3 wide; square to a taper of
/// 1.9 degrees its top is within a thousandth of 5.65 + 0.3 off the axis. Where a bore of 12 begins
/// 8 inside, at z 13, the bead has gone into it.
#[test]
fn a_bead_counts() {
    let section = with(capped(), |s| {
        let (item, form) = (Item::Bead(1), RingForm::Bead);
        let (at, width, height) = (mm(10.5), mm(1.0), mm(0.3));
        s.grip.rings.push(Ring { item, form, at, width, height });
    });
    let plain = with(section.clone(), |s| cap(s).bores[1].diameter = read(12.0, 0.02));
    let finding = found(&plain, "clear.cap");
    // The bore of 12 begins 14 inside, at z 7: the bead stays in front of it, in the one of 12.6.
    let inside = finding.detail("inside").unwrap();
    assert!((inside - 0.35).abs() < 1e-3, "{inside}");
    detail_near(&finding, "in the thread", 0.25);
    let deeper = with(plain, |s| {
        cap(s).bores[0].to = mm(8.0);
        cap(s).seal = None;
    });
    let finding = found(&deeper, "clear.cap");
    assert!((finding.measured - 0.05).abs() < 1e-3, "{}", finding.measured);
    assert_eq!(finding.place.unwrap().inner.feature.item, Item::Bead(1));
}

/// A front narrower than the inner cap closes nothing, which is told and not judged.
#[test]
fn an_inner_cap_wider_than_the_front() {
    let wide = with(capped(), |s| cap(s).seal.as_mut().unwrap().diameter = read(10.8, 0.02));
    let finding = found(&wide, "clear.seal");
    // The taper is 10.8 wide at z 3: that is what meets the rim, 3 farther in.
    near(&finding, 3.5);
    let wider = with(wide, |s| cap(s).bores[1].diameter = read(12.3, 0.02));
    let wider = with(wider, |s| cap(s).seal.as_mut().unwrap().diameter = read(12.2, 0.02));
    let finding = found(&wider, "clear.seal");
    assert_eq!(finding.verdict(), None, "{finding:?}");
    near(&finding, 0.5);
}

#[test]
fn what_breaks_in_the_cap_is_helped() {
    let of = |change: &dyn Fn(&mut Section)| with(capped(), change);
    let narrow = of(&|s| cap(s).bores[1].diameter = read(11.1, 0.02));
    helped("clear.cap", &capped(), &narrow);
    let stepped = of(&|s| cap(s).bores[1].diameter = read(10.9, 0.02));
    helped("clear.cap-stop", &capped(), &stepped);
    let short = of(&|s| {
        cap(s).inner_length = read(41.5, 0.05);
        cap(s).bores[1].to = mm(41.5);
    });
    helped("clear.nib", &capped(), &short);
    let tight = of(&|s| cap(s).seal.as_mut().unwrap().diameter = read(7.1, 0.02));
    assert_eq!(helped("clear.nib-side", &capped(), &tight), SizeId::SealDiameter);
    let long = of(&|s| cap(s).seal.as_mut().unwrap().depth = read(20.8, 0.05));
    let notes = found(&long, "clear.seal").note;
    assert_eq!(notes.as_deref(), Some("the inner cap's rim holds the cap open by 0.20 mm"));
    helped("clear.seal", &capped(), &long);
    let hole = of(&|s| {
        cap(s).mouth = CapMouth::Minor { diameter: read(12.1, 0.02), to: mm(6.0) };
    });
    helped("clear.cap", &capped(), &hole);
}

#[test]
fn what_breaks_between_the_threads_is_helped() {
    let of = |change: &dyn Fn(&mut Section)| with(threaded(), change);
    let inside = |s: &mut Section, change: &dyn Fn(&mut sectionwright::section::Thread)| {
        let CapMouth::Thread(thread) = &mut cap(s).mouth else { panic!("it has a thread") };
        change(thread);
    };
    let drilled_wide = of(&|s| {
        inside(s, &|thread| {
            thread.form.crest = mm(12.7);
            thread.limits.minor = Limits::exactly(mm(12.7));
        });
    });
    helped("thread.cap.percent", &threaded(), &drilled_wide);
    // The section's root is 13 - 10H/8 - 0.06 wide: a crest of 12.0 rubs on it.
    let drilled_narrow = of(&|s| {
        inside(s, &|thread| {
            thread.form.crest = mm(12.0);
            thread.limits.minor = Limits::exactly(mm(12.0));
        });
    });
    assert_eq!(helped("thread.cap.crests", &threaded(), &drilled_narrow), SizeId::CapHole);
    let stops_early = of(&|s| cap(s).stops_at = mm(16.5));
    helped("thread.cap.turns", &threaded(), &stops_early);
    let small_tap = of(&|s| {
        inside(s, &|thread| {
            thread.form.pitch_diameter += mm(-0.1);
            thread.limits.pitch = Limits::exactly(thread.form.pitch_diameter);
        });
    });
    assert_eq!(helped("thread.cap.play", &threaded(), &small_tap), SizeId::CapThreadSize);
    let liked = |section: Section, most: f64| {
        with(section, |s| {
            let limit = Limit { value: most, source: "a maker's taste".to_owned() };
            s.criteria.fits.closing_turns = Some(limit);
        })
    };
    // The mouth at the thread's end: stopping any earlier takes from the engaged run.
    let at_end = of(&|s| cap(s).stops_at = mm(18.0));
    helped("thread.cap.closing", &liked(at_end.clone(), 2.0), &liked(at_end, 1.2));
    let wrong_hand = of(&|s| {
        let designation = "M13xPh2.4P0.8-LH";
        let own = basic_thread(Item::CapInsideThread, Side::Internal, designation, 0.0, 5.9);
        cap(s).mouth = CapMouth::Thread(Box::new(own));
    });
    let play = found(&wrong_hand, "thread.cap.play");
    assert_eq!(play.verdict(), Some(Verdict::Breaks));
    assert!(play.note.unwrap().contains("opposite hands"));
}

/// The mouth may be wider in front of its thread, and the thread narrower than what is behind it.
#[test]
fn mouths_of_all_kinds_are_built() {
    let counterbored = with(threaded(), |s| {
        cap(s).counterbore = Some(Counterbore { diameter: mm(13.4), depth: mm(0.4) });
        let inside = basic_thread(Item::CapInsideThread, Side::Internal, "M13xPh2.4P0.8", 0.4, 5.9);
        cap(s).mouth = CapMouth::Thread(Box::new(inside));
    });
    near(&found(&counterbored, "thread.cap.turns"), 1.25);
    let narrow_behind = with(threaded(), |s| cap(s).bores[0].diameter = read(12.0, 0.02));
    // The thread's groove ends in a wall at 5.9, which the section's thread meets with its front.
    near(&found(&narrow_behind, "clear.cap-stop"), 5.9 - 3.5);
    let plain = with(threaded(), |s| cap(s).bores.clear());
    near(&found(&plain, "clear.cap-stop"), 5.9 - 3.5);
}

/// A joint's step, to either side.
#[test]
fn the_joint_has_a_limit() {
    for (outside, verdict) in
        [(12.0, Verdict::Holds), (12.09, Verdict::Close), (11.8, Verdict::Breaks)]
    {
        let section = with(sound(), |s| s.barrel.outside = mm(outside));
        let finding = found(&section, "joint.flush");
        near(&finding, 12.0 - outside);
        assert_eq!(finding.verdict(), Some(verdict), "{outside}");
    }
    let apart = with(sound(), |s| s.barrel.outside = mm(12.4));
    helped("joint.flush", &sound(), &apart);
}

/// A leading chamfer deeper than the thread is part of the thread's beginning: what it is in front
/// of the cap's thread passes as before, and in it it finds the room of a root over a crest.
#[test]
fn a_chamfer_deeper_than_the_thread_passes_with_it() {
    use sectionwright::section::Corner;
    let with_chamfer = |depth: f64| {
        with(threaded(), |s| {
            s.grip.runs[1].corner = Corner::Chamfer { before: mm(depth), after: mm(depth) };
        })
    };
    let depth = threaded().grip.thread.unwrap().thread.form.depth().as_mm();
    let [shallow, deep] = [depth - 0.1, depth + 0.1].map(|d| found(&with_chamfer(d), "clear.cap"));
    assert_eq!(shallow.verdict(), Some(Verdict::Holds), "{shallow:?}");
    assert_eq!(deep.verdict(), Some(Verdict::Holds), "{deep:?}");
    near(&deep, shallow.measured);
}
