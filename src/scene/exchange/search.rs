//! The fewest steps that make a section go into another's barrel and cap.

use super::fit::{Fit, fit};
use super::same_outside;
use super::step::Step;
use crate::check::{Finding, Verdict};
use crate::scene::verdicts;
use crate::section::{Section, faults};

/// Steps that were set, built and measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// What to set; nothing where it fits as it is.
    pub steps: Vec<Step>,
    /// The section with all of them.
    pub section: Section,
    /// What was measured then.
    pub fit: Fit,
}

/// What to set of a section so that it goes into another's barrel and cap and nothing of its own
/// gets worse: one size if one does, else the fewest of what differs that do. None where not even
/// all of it does.
pub fn adjust_section(section: &Section, other: &Section) -> Option<Adjusted> {
    let steps = Step::of_section(section, other);
    fewest(section, &steps, |changed| goes_in(section, changed, other))
}

/// What is found of a changed section in another's barrel and cap; none where a check of those
/// breaks or one of its own is worse than it was.
fn goes_in(was: &Section, changed: &Section, other: &Section) -> Option<Fit> {
    let own = verdicts(was).ok()?.findings;
    let found = fit(changed, other).ok()?;
    let worse = found.own.iter().any(|now| is_worse(&own, now));
    (found.verdict() != Verdict::Breaks && !worse).then_some(found)
}

/// What to set of a pen's barrel and cap so that another's section goes into them, and its own
/// still does. None where not even all that differs does.
pub fn adjust_mates(section: &Section, other: &Section) -> Option<Adjusted> {
    let measured = |changed: &Section| {
        let own = fit(section, changed).ok()?;
        let found = fit(other, changed).ok()?;
        let fits = [&own, &found].iter().all(|fit| fit.verdict() != Verdict::Breaks);
        fits.then_some(found)
    };
    fewest(section, &Step::of_mates(section, other), measured)
}

/// What to set of a section so that it looks as another does from front face to shoulder, still
/// goes into the other's barrel and cap, and nothing of its own gets worse. None where it does not.
pub fn adjust_outside(section: &Section, other: &Section) -> Option<Adjusted> {
    let steps = Step::of_section(section, other);
    let grip: Vec<&Step> = steps.iter().filter(|step| step.is_outside()).collect();
    let found = set(section, &grip, |changed| goes_in(section, changed, other))?;
    same_outside(&found.section, other).then_some(found)
}

/// Whether a finding is worse than it was.
fn is_worse(before: &[Finding], now: &Finding) -> bool {
    let was = before.iter().find(|was| was.code == now.code).and_then(Finding::verdict);
    now.verdict() > was
}

fn fewest(
    section: &Section,
    steps: &[Step],
    measured: impl Fn(&Section) -> Option<Fit>,
) -> Option<Adjusted> {
    let try_all = |steps: &[&Step]| set(section, steps, &measured);
    if let Some(as_it_is) = try_all(&[]) {
        return Some(as_it_is);
    }
    let mut single: Vec<&Step> = steps.iter().collect();
    single.sort_by_key(|step| rank(step));
    if let Some(one) = single.iter().find_map(|step| try_all(&[step])) {
        return Some(one);
    }
    // All of them; then one after the other is left out, as long as it fits without.
    let mut kept: Vec<&Step> = steps.iter().collect();
    let mut best = try_all(&kept)?;
    let mut n = 0;
    while n < kept.len() {
        let without = [&kept[..n], &kept[n + 1..]].concat();
        match try_all(&without) {
            Some(found) => (kept, best) = (without, found),
            None => n += 1,
        }
    }
    Some(best)
}

/// A section with some steps, as long as it is one and what is measured of it will do.
fn set(
    section: &Section,
    steps: &[&Step],
    measured: impl Fn(&Section) -> Option<Fit>,
) -> Option<Adjusted> {
    let mut changed = section.clone();
    for step in steps {
        changed = step.on(&changed)?;
    }
    let sound = faults(&changed).len() <= faults(section).len();
    let fit = sound.then(|| measured(&changed)).flatten()?;
    let steps = steps.iter().map(|step| (*step).clone()).collect();
    Some(Adjusted { steps, section: changed, fit })
}

/// What is set first: a size before a thread, and sizes by their own rank.
fn rank(step: &Step) -> (u8, u8) {
    match step {
        Step::Size { parameter, .. } => (0, parameter.rank()),
        Step::Thread { .. } => (1, 0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};
    use crate::section::Item;
    use crate::size::SizeId;

    fn demo() -> Section {
        load(&Library::default(), "demo").unwrap().section
    }

    fn keys(adjusted: &Adjusted) -> Vec<String> {
        adjusted.steps.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn what_fits_needs_nothing() {
        let demo = demo();
        let inner = SizeId::BoreDepth(Item::ClearanceBore);
        let other = inner.set(&demo, inner.get(&demo).unwrap() + 0.1).unwrap();
        assert_eq!(adjust_section(&other, &demo).unwrap().steps, []);
        assert_eq!(adjust_mates(&other, &demo).unwrap().steps, []);
    }

    /// Many sizes differ, one of them is in the way.
    #[test]
    fn one_size_is_found_among_many() {
        let demo = demo();
        let mut other = SizeId::GripDiameter(3).set(&demo, 13.4).unwrap();
        for (size, by) in [(SizeId::TenonChamfer, 0.05), (SizeId::GripDiameter(1), -0.05)] {
            other = size.set(&other, size.get(&other).unwrap() + by).unwrap();
        }
        let found = adjust_section(&other, &demo).unwrap();
        let named = "diameter of the grip at the end of run 3";
        assert_eq!(found.steps.len(), 1, "{:?}", keys(&found));
        assert!(
            matches!(found.steps[0], Step::Size { parameter: SizeId::GripDiameter(3), .. }),
            "{named}"
        );
        assert_ne!(found.fit.verdict(), Verdict::Breaks);
    }

    /// Two sizes are in the way, and neither alone helps.
    #[test]
    fn the_fewest_of_several_are_found() {
        let demo = demo();
        let wide = SizeId::GripDiameter(3).set(&demo, 13.4).unwrap();
        let long = SizeId::TenonLength.set(&wide, 15.0).unwrap();
        let other = SizeId::TenonChamfer.set(&long, 0.45).unwrap();
        let found = adjust_section(&other, &demo).unwrap();
        let sizes: Vec<_> = found
            .steps
            .iter()
            .filter_map(|step| match step {
                Step::Size { parameter, .. } => Some(*parameter),
                Step::Thread { .. } => None,
            })
            .collect();
        assert_eq!(sizes, [SizeId::GripDiameter(3), SizeId::TenonLength]);
    }

    /// Two runs differ; with both set the pens look alike, and only those are named.
    #[test]
    fn what_makes_them_look_alike_is_found() {
        let demo = demo();
        let wide = SizeId::GripDiameter(2).set(&demo, 12.3).unwrap();
        let wider = SizeId::GripDiameter(3).set(&wide, 12.45).unwrap();
        let other = SizeId::TenonChamfer.set(&wider, 0.45).unwrap();
        assert!(!same_outside(&other, &demo));
        let found = adjust_outside(&other, &demo).unwrap();
        assert_eq!(found.steps.len(), 2, "{:?}", keys(&found));
        assert!(same_outside(&found.section, &demo));
    }

    /// A barrel that is too shallow for another's tenon is drilled deeper.
    #[test]
    fn a_barrel_is_made_to_take_both() {
        let demo = demo();
        let sizes = [
            (SizeId::BarrelThreadEnd, 7.0),
            (SizeId::BarrelDepth, 9.3),
            (SizeId::TenonLength, 8.0),
        ];
        let short = demo.with(&sizes).unwrap();
        assert_eq!(fit(&demo, &short).unwrap().verdict(), Verdict::Breaks);
        let found = adjust_mates(&short, &demo).unwrap();
        assert!(!found.steps.is_empty());
        assert_ne!(fit(&demo, &found.section).unwrap().verdict(), Verdict::Breaks);
    }
}
