//! What holds of every section that can be made: numbers, verdicts, advice.

use proptest::prelude::*;
use sectionwright::check::{Advice, Finding, Verdict};
use sectionwright::scene::{Examination, examine, verdicts};
use sectionwright::section::{Section, faults};
use sectionwright::size::SizeId;

use crate::fixtures::sound;

/// The sound section with some of its sizes changed by up to a millimetre and a half; none where
/// that can't be made.
fn mistuned(changes: &[(usize, i32)]) -> Option<Section> {
    let changed = changes.iter().try_fold(sound(), |section, (which, steps)| {
        let parameters = SizeId::of(&section);
        let parameter = parameters[which % parameters.len()];
        let value = parameter.get(&section)? + f64::from(*steps) * 0.03;
        parameter.set(&section, value)
    })?;
    faults(&changed).is_empty().then_some(changed)
}

/// Failing cases are printed, not kept in files beside the tests.
fn config(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, failure_persistence: None, ..ProptestConfig::default() }
}

fn changes() -> impl Strategy<Value = Vec<(usize, i32)>> {
    prop::collection::vec((0_usize..30, -50..50), 1..4)
}

fn all_numbers(examination: &Examination) -> bool {
    examination.findings.iter().all(|finding| {
        let judged = finding.judgement.iter();
        let judged = judged.flat_map(|j| [j.worst, j.uncertainty, j.band, j.limit, j.margin]);
        let details = finding.details.iter().map(|detail| detail.value);
        let places = finding.place.iter();
        let places = places.flat_map(|p| [p.inner.r, p.inner.z, p.outer.r, p.outer.z]);
        let mut numbers = judged.chain(details).chain(places).chain([finding.measured]);
        numbers.all(f64::is_finite)
    })
}

proptest! {
    #![proptest_config(config(200))]

    /// Every number is one, no margin is hidden: holds, close and breaks follow from the margin.
    #[test]
    fn every_number_is_one(changes in changes()) {
        let Some(section) = mistuned(&changes) else { return Ok(()) };
        let Ok(examination) = verdicts(&section) else { return Ok(()) };
        prop_assert!(all_numbers(&examination), "{examination:?}");
        for finding in &examination.findings {
            let Some(j) = &finding.judgement else { continue };
            prop_assert_eq!(j.verdict == Verdict::Breaks, j.margin < -finding.error);
            let spare = j.margin - finding.error - j.uncertainty - j.band;
            prop_assert_eq!(j.verdict == Verdict::Holds, spare > 0.0, "{:?}", finding);
        }
    }
}

proptest! {
    #![proptest_config(config(24))]

    /// Advice, once followed, makes its finding hold and no other verdict worse.
    #[test]
    fn advice_works(changes in changes()) {
        let Some(section) = mistuned(&changes) else { return Ok(()) };
        let Ok(before) = examine(&section) else { return Ok(()) };
        for finding in &before.findings {
            let held = finding.verdict().is_none_or(|v| v == Verdict::Holds);
            prop_assert_eq!(finding.advice().is_none(), held);
            let Some(Advice::Change(change)) = finding.advice() else { continue };
            let changed = change.parameter.set(&section, change.to).unwrap();
            prop_assert_eq!(faults(&changed), vec![]);
            let after = verdicts(&changed).unwrap();
            let now = after.finding(finding.code).and_then(Finding::verdict);
            prop_assert_eq!(now, Some(Verdict::Holds), "{:?}", change);
            for then in &before.findings {
                let now = after.finding(then.code).and_then(Finding::verdict);
                prop_assert!(now <= then.verdict(), "{} after {:?}", then.code, change);
            }
        }
    }
}
