//! What differs between two records of one section.

use serde::Serialize;

use super::record::{KeptFact, KeptOutline, KeptRun, KeptVerdict, Record};

/// Two numbers this near are the same size: a millionth of a millimetre or degree is the noise of
/// another order of sums. Larger, and a real change could be called none; smaller, and a compiler's
/// rounding would be called a change.
const SAME: f64 = 1e-6;

/// Something that is not as it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RecordChange {
    /// The name of the fact or outline, or the code of the check.
    pub name: String,
    /// What it is, in the words of this version where it has any.
    pub what: String,
    /// As it was; none where there was none.
    pub was: Option<String>,
    /// As it is; none where there is none.
    pub is: Option<String>,
    /// By how much, where both are numbers.
    pub by: Option<String>,
}

/// Every fact that differs, then every outline: a change of shape is seen there even where no fact
/// says what it is.
pub fn geometry_changes(was: &Record, is: &Record) -> Vec<RecordChange> {
    let mut found = paired(&was.facts, &is.facts, |fact| fact.name.clone(), fact_change);
    let outlines =
        paired(&was.outlines, &is.outlines, |outline| outline.of.clone(), outline_change);
    found.extend(outlines);
    found
}

/// Every verdict that differs.
pub fn verdict_changes(was: &Record, is: &Record) -> Vec<RecordChange> {
    paired(&was.verdicts, &is.verdicts, |it| it.code.clone(), verdict_change)
}

/// Whether a verdict is worse than it was, or can no longer be given.
pub fn is_worse(was: &Record, is: &Record) -> bool {
    let rank = |verdict: &str| ["holds", "close", "breaks"].iter().position(|it| *it == verdict);
    was.verdicts.iter().any(|before| {
        let now = is.verdicts.iter().find(|now| now.code == before.code);
        now.is_none_or(|now| rank(&now.verdict) > rank(&before.verdict))
    })
}

/// Holds what has one name against each other, in the order of the first list, then what only the
/// second has.
fn paired<T>(
    was: &[T],
    is: &[T],
    name: impl Fn(&T) -> String,
    change: impl Fn(Option<&T>, Option<&T>) -> Option<RecordChange>,
) -> Vec<RecordChange> {
    let find = |list: &'_ [T], wanted: &str| list.iter().position(|it| name(it) == wanted);
    let both = was.iter().filter_map(|before| {
        let now = find(is, &name(before)).map(|n| &is[n]);
        change(Some(before), now)
    });
    let new = is.iter().filter(|now| find(was, &name(now)).is_none());
    both.chain(new.filter_map(|now| change(None, Some(now)))).collect()
}

fn fact_change(was: Option<&KeptFact>, is: Option<&KeptFact>) -> Option<RecordChange> {
    let numbers = was.and_then(|it| it.number).zip(is.and_then(|it| it.number));
    let same = match numbers {
        Some((a, b)) => (a - b).abs() <= SAME,
        None => was.map(|it| (&it.text, it.number)) == is.map(|it| (&it.text, it.number)),
    };
    let unit = was.or(is)?.unit.clone();
    let shown = |fact: &KeptFact| match fact.number {
        Some(number) => format!("{number} {unit}").trim_end().to_owned(),
        None => fact.text.clone().unwrap_or_default(),
    };
    let by = numbers.map(|(a, b)| format!("{:+.6} {unit}", b - a).trim_end().to_owned());
    let KeptFact { name, what, .. } = is.or(was)?.clone();
    (!same).then(|| RecordChange { name, what, was: was.map(shown), is: is.map(shown), by })
}

fn outline_change(was: Option<&KeptOutline>, is: Option<&KeptOutline>) -> Option<RecordChange> {
    let name = was.or(is)?.of.clone();
    let what = format!("outline of the {name}");
    let shape =
        |it: &KeptOutline| it.runs.iter().map(|run| run.feature.clone()).collect::<Vec<_>>();
    let (Some(before), Some(now)) = (was, is) else {
        let count = |it: &KeptOutline| format!("{} lines and arcs", it.runs.len());
        let (was, is) = (was.map(count), is.map(count));
        return Some(RecordChange { name, what, was, is, by: None });
    };
    if shape(before) != shape(now) {
        let [was, is] = [before, now].map(|it| Some(shape(it).join(" ")));
        return Some(RecordChange { name, what, was, is, by: None });
    }
    let off = |(a, b): (&KeptRun, &KeptRun)| {
        let by = [a.to[0] - b.to[0], a.to[1] - b.to[1], a.bulge - b.bulge];
        by.into_iter().fold(0.0, |most: f64, by| most.max(by.abs()))
    };
    let (n, most) = before
        .runs
        .iter()
        .zip(&now.runs)
        .map(off)
        .enumerate()
        .fold((0, 0.0), |(n, most), (m, by)| if by > most { (m, by) } else { (n, most) });
    let at = |run: &KeptRun| {
        Some(format!("{} to Ø{} at z {}, bulge {}", run.feature, run.to[0], run.to[1], run.bulge))
    };
    (most > SAME).then(|| RecordChange {
        name,
        what,
        was: at(&before.runs[n]),
        is: at(&now.runs[n]),
        by: Some(format!("{most:.6} mm at most")),
    })
}

fn verdict_change(was: Option<&KeptVerdict>, is: Option<&KeptVerdict>) -> Option<RecordChange> {
    let same = was.map(|it| &it.verdict) == is.map(|it| &it.verdict);
    let shown = |it: &KeptVerdict| format!("{}, {:.3} {} at worst", it.verdict, it.worst, it.unit);
    let KeptVerdict { code: name, title: what, .. } = is.or(was)?.clone();
    (!same).then(|| RecordChange { name, what, was: was.map(shown), is: is.map(shown), by: None })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};
    use crate::scene::verdicts;
    use crate::section::{Item, Section};
    use crate::size::SizeId;

    fn record(section: &Section) -> Record {
        Record::new(section, &verdicts(section).unwrap())
    }

    #[test]
    fn a_size_is_named_with_how_much_it_moved() {
        let section = load(&Library::default(), "demo").unwrap().section;
        let was = record(&section);
        assert!(geometry_changes(&was, &was).is_empty() && verdict_changes(&was, &was).is_empty());
        let depth = SizeId::BoreDepth(Item::Recess);
        let deeper = depth.set(&section, depth.get(&section).unwrap() + 0.125).unwrap();
        let found = geometry_changes(&was, &record(&deeper));
        let size = found.iter().find(|it| it.what == depth.to_string()).unwrap();
        assert_eq!(size.by.as_deref(), Some("+0.125000 mm"));
        assert!(found.iter().any(|it| it.what == "outline of the section"));
    }

    /// Whatever a later version calls things: names, codes and numbers are compared.
    #[test]
    fn other_words_are_no_change() {
        for design in ["demo", "tests/fixtures/capped.toml", "tests/fixtures/outside.toml"] {
            let section = load(&Library::default(), design).unwrap().section;
            let was = record(&section);
            let mut is = was.clone();
            for (n, fact) in is.facts.iter_mut().enumerate() {
                assert!(
                    !fact.name.contains(' ') && fact.name != fact.what || fact.what == "material"
                );
                fact.what = format!("other words {n}");
            }
            for verdict in &mut is.verdicts {
                verdict.title = "other words".to_owned();
            }
            assert_eq!(geometry_changes(&was, &is), []);
            assert_eq!(verdict_changes(&was, &is), []);
            assert!(!is_worse(&was, &is));
            is.facts[0].name = "other.name".to_owned();
            assert_eq!(geometry_changes(&was, &is).len(), 2, "one gone, one new");
        }
    }

    /// Rounding is no change; what is a change, however small, is.
    #[test]
    fn noise_is_no_change() {
        let section = load(&Library::default(), "demo").unwrap().section;
        let was = record(&section);
        let front = SizeId::FrontDiameter;
        let moved =
            |by: f64| record(&front.set(&section, front.get(&section).unwrap() + by).unwrap());
        assert!(geometry_changes(&was, &moved(1e-9)).is_empty());
        assert!(!geometry_changes(&was, &moved(1e-5)).is_empty());
    }

    #[test]
    fn a_verdict_that_turns_is_told() {
        let section = load(&Library::default(), "demo").unwrap().section;
        let front = SizeId::FrontDiameter;
        let thin = front.set(&section, 9.5).unwrap();
        let (was, is) = (record(&section), record(&thin));
        let found = verdict_changes(&was, &is);
        assert!(found.iter().any(|it| it.is.as_ref().unwrap().starts_with("breaks")), "{found:?}");
        assert!(is_worse(&was, &is) && !is_worse(&is, &was) && !is_worse(&was, &was));
    }
}
