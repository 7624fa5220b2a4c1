//! For each check a section in which it holds and one in which it breaks; and the advised change,
//! applied, makes the second hold without making any other verdict worse.

use sectionwright::check::{Advice, Finding, Verdict};
use sectionwright::quantity::Limits;
use sectionwright::scene::{Examination, examine, verdicts};
use sectionwright::section::{
    CapThread, Counterbore, Curve, Grip, GripRun, Item, LeadChamfer, Ring, RingForm, Section, Side,
    Station,
};
use sectionwright::size::SizeId;

use crate::common::{basic_thread, mm};
use crate::fixtures::{as_read, hole, read, set_diameter, sound, to};

fn verdict(examination: &Examination, code: &str) -> Verdict {
    examination.finding(code).and_then(Finding::verdict).unwrap_or_else(|| panic!("no {code}"))
}

fn of(section: &Section, code: &str) -> Verdict {
    verdict(&verdicts(section).unwrap(), code)
}

fn changed(change: impl FnOnce(&mut Section)) -> Section {
    let mut section = sound();
    change(&mut section);
    section
}

/// The check breaks; what is advised, if anything, is applied and holds.
fn breaks(code: &str, section: &Section) -> Advice {
    assert_eq!(of(&sound(), code), Verdict::Holds, "{code} in the sound section");
    does_not_hold(code, section, Verdict::Breaks)
}

fn does_not_hold(code: &str, section: &Section, expected: Verdict) -> Advice {
    let before = examine(section).unwrap();
    let finding = before.finding(code).unwrap();
    assert_eq!(finding.verdict(), Some(expected), "{finding:?}");
    let advice = finding.advice().expect("advice");
    println!("{code}: {:.4} {}: {advice}", finding.measured, finding.unit);
    if let Advice::Change(change) = advice {
        assert_eq!(change.parameter.get(section), Some(change.from));
        // 0.05, or 0.01 where that finds none.
        let hundredths = change.to * 100.0;
        assert!((hundredths - hundredths.round()).abs() < 1e-9, "on the grid: {change:?}");
        let after = verdicts(&change.parameter.set(section, change.to).unwrap()).unwrap();
        assert_eq!(verdict(&after, code), Verdict::Holds, "{code} after {change:?}");
        for then in &before.findings {
            let now = after.finding(then.code).and_then(Finding::verdict);
            assert!(now <= then.verdict(), "{} after {change:?}", then.code);
        }
    }
    advice
}

fn helped(code: &str, section: &Section) {
    let advice = breaks(code, section);
    assert!(matches!(advice, Advice::Change(_)), "{code}: {advice}");
}

/// Runs of the grip through corners (diameter, z).
fn waist(corners: &[(f64, f64)]) -> Section {
    changed(|s| {
        let run = |(d, z): &(f64, f64)| GripRun::straight(Station::new(mm(*d), mm(*z)));
        s.grip.runs = corners.iter().map(run).collect();
    })
}

#[test]
fn in_the_sound_section_everything_holds() {
    let examination = examine(&sound()).unwrap();
    let held = |f: &&Finding| f.verdict() != Some(Verdict::Holds) && f.verdict().is_some();
    assert_eq!(examination.findings.iter().find(held), None);
    assert!(examination.findings.iter().all(|f| f.advice().is_none()));
}

#[test]
fn walls_of_the_bores() {
    helped("wall.lip", &changed(|s| s.grip.front = mm(9.8)));
    helped("wall.recess", &waist(&[(9.8, 1.4), (12.0, 21.0)]));
    helped("wall.clearance", &waist(&[(9.44, 4.0), (12.0, 21.0)]));
    helped("wall.unit-thread", &waist(&[(9.6, 8.0), (12.0, 21.0)]));
    helped("wall.tap-drill", &waist(&[(10.8, 11.9), (9.0, 13.0), (12.0, 21.0)]));
    helped("wall.through", &waist(&[(8.6, 17.0), (12.0, 21.0)]));
}

#[test]
fn walls_of_the_tenon() {
    let relief = changed(|s| s.tenon.relief.as_mut().unwrap().diameter = mm(8.4));
    helped("wall.relief", &relief);
    helped("wall.shoulder-corner", &relief);
    helped("wall.tenon", &changed(|s| set_diameter(s, Item::ThroughBore, 7.4)));
    helped("wall.tenon-tip", &changed(|s| s.tenon.chamfer = LeadChamfer::at_45(mm(0.7))));
}

/// Offsets add up: what holds on one axis breaks off it.
#[test]
fn a_wandering_drill_takes_its_share_of_the_wall() {
    let near = |long_hole: f64| {
        changed(|s| {
            s.tenon.relief.as_mut().unwrap().diameter = mm(8.7);
            s.criteria.offsets.long_hole = mm(long_hole);
        })
    };
    assert_eq!(of(&near(0.10), "wall.relief"), Verdict::Holds);
    assert_eq!(of(&near(0.12), "wall.relief"), Verdict::Close);
    assert_eq!(of(&near(0.15), "wall.relief"), Verdict::Breaks);
}

#[test]
fn depth_of_thread_has_two_limits() {
    helped("thread.unit.percent", &changed(|s| set_diameter(s, Item::TapDrill, 7.45)));
    helped("thread.unit.percent", &changed(|s| set_diameter(s, Item::TapDrill, 7.8)));
    let wide = changed(|s| {
        s.barrel.thread.form.crest = mm(9.6);
        s.barrel.thread.limits.minor = Limits::new(mm(9.6), mm(9.79)).unwrap();
    });
    helped("thread.tenon.percent", &wide);
}

/// Trap: threads that do not reach each other hold nothing, however long.
#[test]
fn threads_may_miss_each_other() {
    let loose = changed(|s| set_diameter(s, Item::TapDrill, 8.02));
    let examination = verdicts(&loose).unwrap();
    let finding = examination.finding("thread.unit.percent").unwrap();
    assert_eq!(finding.verdict(), Some(Verdict::Breaks));
    assert!(finding.measured < 0.0);
    assert_eq!(finding.note.as_deref(), Some("the threads do not reach each other"));
}

#[test]
fn turns() {
    // Trap: a clearance bore too deep eats thread.
    let deep = changed(|s| {
        hole(s, Item::ClearanceBore).depth = to(9.5);
        s.unit_thread.from = mm(9.5);
    });
    helped("thread.unit.turns", &deep);
    let short = changed(|s| {
        s.tenon.length = mm(4.0);
        s.tenon.thread.to = mm(25.0);
    });
    helped("thread.tenon.turns", &short);
}

/// Source: reference formulas 5. A pitch that differs by 0.01 uses up the play p0 in
/// p0 / 0.01 turns.
#[test]
fn the_unit_binds() {
    let other_pitch = changed(|s| {
        let own = basic_thread(Item::UnitBody, Side::External, "M8.05x0.5", 2.5, 10.0);
        s.unit.thread = as_read(own, -0.05, 0.02);
    });
    assert_eq!(breaks("thread.unit.play", &other_pitch), Advice::NoSingleChange);
    let note = verdicts(&other_pitch).unwrap().finding("thread.unit.play").unwrap().note.clone();
    assert!(note.unwrap().contains("the pitches differ, 0.5000 mm"));

    // A pitch that is nearer, and turns until it binds.
    let nearer = changed(|s| {
        let own = basic_thread(Item::UnitBody, Side::External, "M8.05x0.54", 2.5, 10.0);
        s.unit.thread = as_read(own, -0.05, 0.02);
    });
    let examination = verdicts(&nearer).unwrap();
    let finding = examination.finding("thread.unit.play").unwrap();
    // Each ridge keeps half of its own pitch at its pitch radius, 3/8 H under its crest, and grows
    // by 2 tan 30 a millimetre of depth. What is left is least where a flank ends.
    let pitch_radius = |major: f64, p: f64| major / 2.0 - p * 3.0_f64.sqrt() / 2.0 * 3.0 / 8.0;
    let share = |r: f64| {
        let below = (r - pitch_radius(8.0, 0.54)) / 0.54 - (r - pitch_radius(8.05, 0.55)) / 0.55;
        2.0 * libm::tan(std::f64::consts::PI / 6.0) * below
    };
    let play = 0.55 * share(7.5 / 2.0).min(share(8.0 / 2.0));
    let turns = finding.detail("binds after").unwrap();
    assert!(turns > 1.0 && (turns - play / 0.01).abs() < 1e-9, "{turns}");

    let other_hand = changed(|s| {
        let own = basic_thread(Item::UnitBody, Side::External, "M8.05x0.55-LH", 2.5, 10.0);
        s.unit.thread = as_read(own, -0.05, 0.02);
    });
    breaks("thread.unit.play", &other_hand);
    let note = verdicts(&other_hand).unwrap().finding("thread.unit.play").unwrap().note.clone();
    assert_eq!(
        note.as_deref(),
        Some("the unit's thread and the section's thread are of opposite hands")
    );

    let two_starts = changed(|s| {
        let own = basic_thread(Item::UnitBody, Side::External, "M8.05xPh1.1P0.55", 2.5, 10.0);
        s.unit.thread = as_read(own, -0.05, 0.02);
    });
    breaks("thread.unit.play", &two_starts);

    let too_large = changed(|s| {
        let own = basic_thread(Item::UnitBody, Side::External, "M8.05x0.55", 2.5, 10.0);
        s.unit.thread = as_read(own, 0.08, 0.02);
        s.unit.steps[1].diameter = read(8.13, 0.02);
    });
    breaks("thread.unit.play", &too_large);
    breaks("thread.unit.crests", &too_large);
    // Read as the section is cut, to within an uncertainty: it may bind, or not.
    let as_cut = changed(|s| {
        let own = basic_thread(Item::UnitBody, Side::External, "M8.05x0.55", 2.5, 10.0);
        s.unit.thread = as_read(own, 0.0, 0.02);
        s.unit.steps[1].diameter = read(8.05, 0.02);
    });
    assert_eq!(of(&as_cut, "thread.unit.play"), Verdict::Close);
}

/// A thread of two starts on both sides, and left-hand on both: half the turns for the length.
#[test]
fn threads_of_two_starts() {
    let coarse_lead = changed(|s| {
        for thread in [&mut s.tenon.thread, &mut s.barrel.thread] {
            thread.form.starts = 2;
            thread.form.hand = sectionwright::standard::Hand::Left;
        }
    });
    let turns =
        |section: &Section, code: &str| verdicts(section).unwrap().finding(code).unwrap().measured;
    let (one, two) = (sound(), coarse_lead.clone());
    let code = "thread.tenon.turns";
    assert!((turns(&two, code) * 2.0 - turns(&one, code)).abs() < 1e-9);
    let area = |s: &Section| {
        let examination = verdicts(s).unwrap();
        examination.finding(code).unwrap().detail("bearing area along the axis").unwrap()
    };
    assert!((area(&one) - area(&two)).abs() < 1e-9, "as many ridges over the same length");
    assert_eq!(of(&coarse_lead, "thread.tenon.play"), Verdict::Holds);
}

/// Of changes of one size the one that nobody sees or feels: tapping deeper, not a shallower
/// recess that lets the collar stand proud.
#[test]
fn hidden_sizes_are_advised_first() {
    let bottoms = changed(|s| {
        s.unit.thread.to = mm(10.55);
        s.unit.steps[1].to = read(10.55, 0.05);
    });
    let advice = does_not_hold("clear.seat", &bottoms, Verdict::Close);
    let Advice::Change(change) = advice else { panic!("{advice}") };
    assert_eq!(change.parameter, SizeId::UnitThreadEnd);
}

#[test]
fn the_tenon_binds() {
    let tight = changed(|s| {
        s.barrel.thread.limits.pitch = Limits::new(mm(9.45), mm(9.645)).unwrap();
    });
    let advice = breaks("thread.tenon.play", &tight);
    let Advice::Change(change) = advice else { panic!("{advice}") };
    assert_eq!(change.parameter, SizeId::BarrelThreadSize);
    let small_hole = changed(|s| {
        s.barrel.thread.limits.minor = Limits::new(mm(9.12), mm(9.27)).unwrap();
    });
    helped("thread.tenon.crests", &small_hole);
}

#[test]
fn the_collar_rests_first() {
    let long_thread = changed(|s| {
        s.unit.thread.to = mm(10.8);
        s.unit.steps[1].to = read(10.8, 0.05);
    });
    helped("clear.seat", &long_thread);
    let examination = verdicts(&long_thread).unwrap();
    let finding = examination.finding("clear.seat").unwrap();
    assert!((finding.measured + 0.25).abs() < 1e-9, "{}", finding.measured);
    let note = finding.note.as_deref().unwrap();
    assert_eq!(
        note,
        "the end of the unit's thread meets the run-out of the section's thread 0.25 mm before \
         the collar rests"
    );

    // Trap: a clearance bore too shallow, and plain wall of the unit meets the thread.
    let shallow = changed(|s| {
        hole(s, Item::ClearanceBore).depth = to(3.5);
        s.unit_thread.from = mm(3.5);
    });
    helped("clear.seat", &shallow);

    // A tail wider than the hole behind the thread.
    let wide_tail = changed(|s| s.unit.steps[2].diameter = read(7.2, 0.02));
    helped("clear.seat", &wide_tail);

    // A clearance bore narrower than the unit's thread stops it at its mouth, where the chamfer
    // has the bore's radius: 0.1 behind the thread's end at 10, so 9.9 before the collar rests.
    let narrow = changed(|s| set_diameter(s, Item::ClearanceBore, 7.8));
    let examination = verdicts(&narrow).unwrap();
    let stopped = examination.finding("clear.seat").unwrap();
    assert!((stopped.measured + 9.9).abs() < 1e-9, "{}", stopped.measured);
    let passes = examination.finding("clear.unit").unwrap();
    assert!((passes.measured + 0.1).abs() < 1e-9, "{}", passes.measured);

    let no_seat = changed(|s| s.unit.collar = read(8.2, 0.02));
    let examination = verdicts(&no_seat).unwrap();
    let finding = examination.finding("clear.seat").unwrap();
    assert_eq!(finding.verdict(), Some(Verdict::Breaks));
    assert_eq!(finding.note.as_deref(), Some("the collar finds no seat to rest on"));
}

/// A seat that a 60 degree centre drill left: the collar's edge touches the cone where its
/// diameter is the collar's.
#[test]
fn a_collar_rests_on_a_cone() {
    use sectionwright::quantity::Angle;
    use sectionwright::section::Point;
    let section = changed(|s| {
        hole(s, Item::Recess).point = Point::Cone(Angle::deg(60.0));
    });
    let examination = verdicts(&section).unwrap();
    let rests = examination.finding("clear.seat").unwrap().detail("the collar rests at z").unwrap();
    let expected = 1.2 + (4.5 - 4.35) / libm::tan(std::f64::consts::PI / 6.0);
    assert!((rests - expected).abs() < 1e-9, "{rests}");
}

#[test]
fn the_unit_passes_its_bores() {
    helped("clear.unit", &changed(|s| set_diameter(s, Item::ClearanceBore, 8.06)));
}

/// Common practice, no source: a clearance bore that lets a thread of 7.9 pass works at 8.2, and
/// is tight at 8.0; a collar of 8.7 wants a recess of 9.0.
#[test]
fn usual_room_round_a_unit() {
    let with_clearance = |clearance: f64| {
        changed(|s| {
            let own = basic_thread(Item::UnitBody, Side::External, "M7.9x0.55", 2.5, 10.0);
            s.unit.thread = as_read(own, 0.0, 0.02);
            s.unit.steps[1].diameter = read(7.9, 0.02);
            s.unit_thread =
                basic_thread(Item::UnitThread, Side::Internal, "M7.95x0.55", 4.6, 11.75);
            set_diameter(s, Item::TapDrill, 7.4);
            set_diameter(s, Item::ClearanceBore, clearance);
        })
    };
    assert_eq!(of(&with_clearance(8.2), "clear.unit"), Verdict::Holds);
    let advice = does_not_hold("clear.unit", &with_clearance(8.0), Verdict::Close);
    assert!(matches!(advice, Advice::Change(_)));
    let with_recess = |recess: f64| changed(|s| set_diameter(s, Item::Recess, recess));
    assert_eq!(of(&with_recess(9.0), "clear.unit"), Verdict::Holds);
    assert_ne!(of(&with_recess(8.8), "clear.unit"), Verdict::Holds);
}

/// Common practice, no source: holes of 6.8 to 7.1 all serve as a through bore of 7.0.
#[test]
fn usual_through_bores() {
    for diameter in [6.8, 6.9, 7.0, 7.1] {
        let section = changed(|s| set_diameter(s, Item::ThroughBore, diameter));
        let examination = verdicts(&section).unwrap();
        assert_eq!(examination.verdict(), Verdict::Holds, "{diameter}");
    }
}

#[test]
fn the_shoulder_closes() {
    let short_thread = changed(|s| s.barrel.thread.to = mm(9.0));
    helped("joint.shoulder", &short_thread);
    let note = verdicts(&short_thread).unwrap().finding("joint.shoulder").unwrap().note.clone();
    assert!(note.unwrap().contains("the run-out of the barrel's thread"));
    let shallow = changed(|s| {
        s.barrel.depth = mm(9.9);
        s.barrel.thread.to = mm(9.9);
    });
    helped("joint.shoulder", &shallow);

    // What a die leaves at the shoulder jams in the barrel's first turn, unless it fits inside
    // the counterbore.
    let run_out = |counterbore: Option<f64>| {
        changed(|s| {
            s.tenon.relief = None;
            s.tenon.thread.from = mm(22.0);
            if let Some(depth) = counterbore {
                s.barrel.thread.from = mm(depth);
                s.barrel.counterbore = Some(Counterbore { diameter: mm(10.4), depth: mm(depth) });
            }
        })
    };
    breaks("joint.shoulder", &run_out(None));
    let jam = verdicts(&run_out(None)).unwrap().finding("joint.shoulder").unwrap().measured;
    assert!((jam + 1.0).abs() < 1e-9, "{jam}");
    assert_eq!(of(&run_out(Some(1.2)), "joint.shoulder"), Verdict::Holds);
    helped("joint.shoulder", &run_out(Some(0.8)));
}

/// A round groove over the unit's thread: shallow it holds, deep it breaks, and its depth is what
/// helps. The wall at its bottom by hand: (outside there - depth) less the thread's root.
#[test]
fn a_groove_over_the_unit_thread() {
    let grooved = |depth: f64| {
        changed(|s| {
            s.grip.runs = vec![GripRun::straight(Station::new(mm(11.4), mm(21.0)))];
            s.grip.front = mm(11.4);
            let (item, form) = (Item::Groove(1), RingForm::RoundGroove);
            let (at, width, height) = (mm(8.0), mm(2.0), mm(depth));
            s.grip.rings = vec![Ring { item, form, at, width, height }];
        })
    };
    assert_eq!(of(&grooved(0.2), "wall.unit-thread"), Verdict::Holds);
    let deep = grooved(0.9);
    let found = verdicts(&deep).unwrap();
    let wall = found.finding("wall.unit-thread").unwrap();
    assert!((wall.measured - (5.7 - 0.9 - 4.025)).abs() < 1e-9, "{}", wall.measured);
    assert_eq!(wall.place.unwrap().outer.feature.to_string(), "groove-1");
    helped("wall.unit-thread", &deep);
}

/// The hollow's deepest place is no corner of it: sagitta R - sqrt(R^2 - c^2 / 4).
#[test]
fn a_hollow_grip_is_thinnest_at_its_bottom() {
    let hollow = |radius: f64| {
        changed(|s| {
            let to = Station::new(mm(12.0), mm(21.0));
            let curve = Curve::Concave(mm(radius));
            s.grip = Grip::plain(mm(12.0), vec![GripRun { curve, ..GripRun::straight(to) }]);
        })
    };
    let found = verdicts(&hollow(100.0)).unwrap();
    let wall = found.finding("wall.unit-thread").unwrap();
    let sagitta = 100.0 - (100.0_f64 * 100.0 - 10.5 * 10.5).sqrt();
    assert!((wall.measured - (6.0 - sagitta - 4.025)).abs() < 1e-9, "{}", wall.measured);
    assert!((wall.place.unwrap().outer.z - 10.5).abs() < 1e-9);
    assert_eq!(wall.verdict(), Some(Verdict::Holds));
    helped("wall.unit-thread", &hollow(40.0));
}

/// A cap thread of M12x1 holds, one of M9.5x1 over the through bore breaks. By hand: the root
/// lies 5/8 H under the major radius (ISO 68-1).
#[test]
fn a_cap_thread_over_the_through_bore() {
    let capped = |designation: &str| {
        let thread = basic_thread(Item::CapThread, Side::External, designation, 14.5, 18.5);
        changed(|s| {
            let major = thread.form.crest;
            let run = |d, z| GripRun::straight(Station::new(d, mm(z)));
            let runs = [
                (mm(10.6), 14.5),
                (major, 14.5),
                (major, 18.5),
                (mm(12.2), 18.5),
                (mm(12.0), 21.0),
            ];
            s.grip = Grip::plain(mm(10.6), runs.into_iter().map(|(d, z)| run(d, z)).collect());
            s.grip.thread = Some(CapThread { run: 2, thread });
        })
    };
    let found = verdicts(&capped("M12x1")).unwrap();
    let wall = found.finding("wall.cap-thread").unwrap();
    let root = 6.0 - 0.625 * 3.0_f64.sqrt() / 2.0;
    assert!((wall.measured - (root - 3.5)).abs() < 1e-9, "{}", wall.measured);
    assert_eq!(wall.verdict(), Some(Verdict::Holds));
    does_not_hold("wall.cap-thread", &capped("M9.5x1"), Verdict::Breaks);
    assert!(verdicts(&sound()).unwrap().finding("wall.cap-thread").is_none());
}

/// By hand: the unit's full thread begins at 1.2 + 2.5 = 3.7. A clearance bore to 4.6 leaves 0.9 of
/// it, 1.6 turns of 0.55, without a counterpart; one to 4.9 1.2, 2.2 turns of 2.
#[test]
fn full_thread_is_where_the_unit_needs_it() {
    let examination = verdicts(&sound()).unwrap();
    let lost = examination.finding("made.reach").unwrap().measured;
    assert!((lost - 0.9 / 0.55).abs() < 1e-9);
    let deep = changed(|s| {
        hole(s, Item::ClearanceBore).depth = to(4.9);
        s.unit_thread.from = mm(4.9);
    });
    helped("made.reach", &deep);
}

/// By hand: behind a full thread that ends at 11.75 the hole is as wide as the crest to 13.5 and
/// no farther: 1.75, which is 3.2 pitches of 0.55.
#[test]
fn a_tap_has_room_for_its_lead() {
    let with_lead = |pitches: f64| changed(|s| s.criteria.tap_lead.value = pitches);
    let examination = verdicts(&with_lead(3.0)).unwrap();
    let room = examination.finding("made.tap-lead").unwrap();
    assert!((room.measured - 1.75).abs() < 1e-9);
    assert_eq!(room.verdict(), Some(Verdict::Holds));
    helped("made.tap-lead", &with_lead(5.0));
    // 0.5 of hole behind the barrel's thread, and 0.75 of pitch.
    helped("made.barrel-lead", &with_lead(1.0));
}

/// By hand: a die's lead of 1.5 leaves thread incomplete from the relief's end at 1.0 to 2.5; a
/// counterbore of 2 takes 0.5 too little of it, one of 3 all of it.
#[test]
fn incomplete_thread_fits_into_the_counterbore() {
    use sectionwright::section::{Counterbore, RunOut};
    assert!(verdicts(&sound()).unwrap().finding("made.die-lead").is_none());
    let with = |depth: f64| {
        changed(|s| {
            s.tenon.thread.run_outs[0] = RunOut::Lead(mm(1.5));
            s.barrel.counterbore = Some(Counterbore { diameter: mm(10.4), depth: mm(depth) });
            s.barrel.thread.from = mm(depth);
        })
    };
    let examination = verdicts(&with(2.0)).unwrap();
    let room = examination.finding("made.die-lead").unwrap();
    assert!((room.measured + 0.5).abs() < 1e-6, "{}", room.measured);
    assert_eq!(of(&with(3.0), "made.die-lead"), Verdict::Holds);
    let advice = does_not_hold("made.die-lead", &with(2.0), Verdict::Breaks);
    assert!(matches!(advice, Advice::Change(_)), "{advice}");
}

/// By hand: the unit is 0.05 under the basic size, read to 0.02. A material that closes in by 0.08
/// leaves the flanks 0.03 short of pitch diameter, 0.05 at the readings' limits.
#[test]
fn a_thread_cut_small_binds_and_is_opened() {
    let closed = changed(|s| {
        let limits = &mut s.unit_thread.limits;
        let by = mm(0.08);
        s.criteria.spring_back.value = Limits::new(mm(0.0), by).unwrap();
        limits.pitch = Limits::new(limits.pitch.min() - by, limits.pitch.max()).unwrap();
        limits.major = Limits::new(limits.major.min() - by, limits.major.max()).unwrap();
    });
    let examination = examine(&closed).unwrap();
    let play = examination.finding("thread.unit.play").unwrap();
    let judged = play.judgement.as_ref().unwrap();
    assert_eq!(judged.verdict, Verdict::Breaks);
    let lacking = play.detail("too small on the pitch diameter").unwrap();
    // M8.05x0.55-6H: the fixture's least pitch diameter of 7.6928 is rounded.
    assert!((lacking - 0.03).abs() < 1e-4, "{lacking}");
    let Some(Advice::Change(change)) = judged.advice else { panic!("{play:?}") };
    assert_eq!(change.parameter, SizeId::UnitThreadSize);
    assert!(change.to - change.from > 0.05);
    assert!(judged.means.as_ref().unwrap().contains("sizing tap"), "{:?}", judged.means);
    helped("thread.unit.play", &closed);
    helped("thread.unit.crests", &closed);
}

/// The collar's place is a sum that rounding may carry over the face it rests on: 1.05 and the
/// like, which no binary number is.
#[test]
fn a_collar_on_its_seat_does_not_pass_the_bore_behind_it() {
    for n in 0..40 {
        let depth = 0.7 + f64::from(n) * 0.0173;
        let section = changed(|s| hole(s, Item::Recess).depth = to(depth));
        let examination = verdicts(&section).unwrap();
        let clear = examination.finding("clear.unit").unwrap();
        assert_eq!(clear.detail("collar in clearance bore"), None, "{depth}");
    }
}
/// A cap thread that begins a little in front of the end of the unit's: wide enough it holds,
/// else the roots lie too near, and a unit's thread that ends sooner helps. By hand: from root to
/// root, 8.15 being the greatest of the unit's thread, less the offset.
#[test]
fn a_cap_thread_over_the_unit_thread() {
    let capped = |designation: &str| {
        let thread = basic_thread(Item::CapThread, Side::External, designation, 11.72, 16.0);
        changed(|s| {
            let (major, z) = (thread.form.crest, |z| Station::new(thread.form.crest, mm(z)));
            let plain = |at: f64| Station::new(mm(12.0), mm(at));
            let runs = [plain(11.0), z(11.72), z(16.0), plain(16.0), plain(21.0)];
            s.grip = Grip::plain(mm(12.0), runs.into_iter().map(GripRun::straight).collect());
            assert!(major > mm(10.0));
            s.grip.thread = Some(CapThread { run: 2, thread: thread.clone() });
        })
    };
    let code = "wall.thread-over-thread";
    assert_eq!(of(&capped("M12x1"), code), Verdict::Holds);
    let near = capped("M10.6x0.75");
    let found = verdicts(&near).unwrap();
    let worst = found.finding(code).and_then(|f| f.detail("at the worst")).unwrap();
    let root = (10.6 - 0.625 * 3.0_f64.sqrt() * 0.75) / 2.0;
    assert!((worst - (root - 8.15 / 2.0 - 0.05)).abs() < 1e-9, "{worst}");
    let advice = does_not_hold(code, &near, Verdict::Breaks);
    assert!(matches!(advice, Advice::Change(_)), "{advice}");
}
