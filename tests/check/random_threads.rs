//! Sections with random threads of every kind, from the solid's own generator: no check panics,
//! every number is one, verdicts follow from numbers, and threads are as slices find them.

use sectionwright::check::{Bound, Verdict};
use sectionwright::quantity::{Length, Limits};
use sectionwright::scene::{Examination, verdicts};
use sectionwright::section::{Item, Section, Side, Thread, ThreadForm, ThreadLimits, faults};

use crate::common::random::form::form;
use crate::common::random::{Dice, Traits};
use crate::common::{basic_thread, mm};
use crate::fixtures::{as_read, r1, set_diameter, sound};
use crate::threads::Scene;

/// How many are examined, and how many of them are sliced as well, which takes a hundred times as
/// long.
const SECTIONS: u64 = 300;
const SLICED: u64 = 6;

/// A thread that runs in another one, smaller by `less` on every diameter: the same ridges and
/// grooves with their sides changed.
fn counterpart(own: &ThreadForm, less: f64) -> ThreadForm {
    let less = mm(less);
    ThreadForm {
        crest: own.root - less,
        pitch_diameter: own.pitch_diameter - less,
        root: own.crest - less,
        flank: own.flank.mating(own.pitch),
        crest_radius: mm(0.0),
        root_radius: mm(0.0),
        ..own.clone()
    }
}

/// R1's or the sound section's bore and outside, a random thread in it, and a unit for it.
fn section(seed: u64, base: Section) -> (Section, Traits) {
    let mut dice = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    let mut traits = Traits::new();
    let mut section = base;
    section.name = format!("random {seed}");
    let crest = dice.within(7.0, 7.5);
    let own = form(&mut dice, Side::Internal, crest, &mut traits);
    let less = dice.within(-0.08, 0.16);
    let mut other = counterpart(&own, less);
    if dice.percent(30) {
        other.root_radius = other.radius_that_fits()[1] * 0.6;
        traits.push("unit-root-radius");
    }
    let depth = dice.within(3.0, 7.0);
    let thread = |item, side, form: ThreadForm, from: f64, to: f64| {
        let form = form.clone();
        Thread { form, ..basic_thread(item, side, "M8.05x0.55", from, to) }
    };
    let mut internal = thread(Item::UnitThread, Side::Internal, own, 4.6, 4.6 + depth);
    let exactly = |size: Length| Limits::exactly(size);
    internal.limits = ThreadLimits {
        major: exactly(internal.form.root),
        pitch: exactly(internal.form.pitch_diameter),
        minor: exactly(internal.form.crest),
    };
    // From the section's first turn; both end together.
    let external = thread(Item::UnitBody, Side::External, other, 3.4, 3.4 + depth);
    let external = as_read(external, 0.0, 0.01);
    let (root, unit_crest) = (internal.form.root.as_mm(), external.form.crest);
    set_diameter(&mut section, Item::TapDrill, crest);
    set_diameter(&mut section, Item::ClearanceBore, root + 0.2);
    set_diameter(&mut section, Item::ThroughBore, 6.4);
    set_diameter(&mut section, Item::Recess, root + 0.9);
    section.unit.collar.value = mm(root + 0.6);
    section.unit.steps[0].diameter.value = external.form.root - mm(0.2);
    section.unit.steps[0].to.value = external.from;
    section.unit.steps[1].diameter.value = unit_crest;
    section.unit.steps[1].to.value = external.to;
    section.unit.steps[2].diameter.value = mm(5.8);
    section.unit.chamfer = mm(0.0);
    section.grip.front = mm(root + 2.4);
    (section.unit_thread, section.unit.thread) = (internal, external);
    (section, traits)
}

/// What follows from a finding's numbers, by the three clauses of the rule in the design notes.
fn rederive(examination: &Examination) {
    for finding in &examination.findings {
        let mut numbers = vec![finding.measured, finding.error];
        numbers.extend(finding.details.iter().map(|detail| detail.value));
        numbers.extend(finding.series.iter().flat_map(|series| series.points.iter().flatten()));
        let places = finding.place.iter().chain(&finding.worst_place);
        numbers.extend(places.flat_map(|p| [p.inner.r, p.inner.z, p.outer.r, p.outer.z]));
        let Some(j) = &finding.judgement else {
            assert!(numbers.into_iter().all(f64::is_finite), "{finding:?}");
            continue;
        };
        numbers.extend([j.worst, j.uncertainty, j.band, j.limit, j.margin]);
        assert!(numbers.into_iter().all(f64::is_finite), "{finding:?}");
        assert!(finding.error >= 0.0 && j.uncertainty >= 0.0 && j.band >= 0.0, "{finding:?}");
        let margin = match j.bound {
            Bound::AtLeast => j.worst - j.limit,
            Bound::AtMost => j.limit - j.worst,
        };
        assert_eq!(margin, j.margin, "{finding:?}");
        let verdict = if margin > finding.error + j.uncertainty + j.band {
            Verdict::Holds
        } else if margin < -finding.error {
            Verdict::Breaks
        } else {
            Verdict::Close
        };
        assert_eq!(verdict, j.verdict, "{finding:?}");
    }
}

#[test]
fn numbers_and_verdicts_of_random_sections() {
    let (mut examined, mut kinds) = (0, Traits::new());
    let mut seen = [false; 3];
    for seed in 0..SECTIONS {
        let base = if seed % 2 == 0 { r1() } else { sound() };
        let (section, traits) = section(seed, base);
        if !faults(&section).is_empty() {
            continue;
        }
        let Ok(examination) = verdicts(&section) else { continue };
        rederive(&examination);
        examined += 1;
        kinds.extend(traits);
        for finding in &examination.findings {
            if let Some(verdict) = finding.verdict() {
                seen[verdict as usize] = true;
            }
        }
    }
    println!("{examined} examined");
    assert!(examined > SECTIONS / 2, "{examined}");
    assert_eq!(seen, [true; 3]);
    for kind in ["trapezoidal", "free-profile", "multi-start", "left-hand", "root-all-round"] {
        assert!(kinds.contains(&kind), "{kind}");
    }
}

#[test]
fn random_threads_are_as_slices_find_them() {
    let mut sliced = [0, 0];
    for seed in 0.. {
        let (section, traits) = section(seed, r1());
        if !faults(&section).is_empty() || verdicts(&section).is_err() {
            continue;
        }
        println!("{seed}: {traits:?}");
        let scene = Scene::new(section);
        scene.heights_agree();
        let play = verdicts(&scene.section).unwrap();
        let (play, crests) = ["play", "crests"]
            .map(|c| play.finding(&format!("thread.unit.{c}")).unwrap().measured)
            .into();
        if play > 0.01 && crests > 0.01 {
            scene.play_agrees();
            sliced[0] += 1;
        } else {
            scene.interference();
            sliced[1] += 1;
        }
        if sliced[0] + sliced[1] == SLICED {
            break;
        }
    }
    assert!(sliced.iter().all(|n| *n > 1), "{sliced:?}");
}
