//! What is found of two pens.

use crate::check::{Fact, FactValue, Finding, Verdict, facts};
use crate::drawing::half_section::PairRow;
use crate::scene::{
    Adjusted, Examination, Fit, Unfit, adjust_mates, adjust_outside, adjust_section, fit,
    same_outside,
};
use crate::section::Section;

/// Two numbers this near are shown as the same: a hundredth of what a caliper shows. Larger, and a
/// difference that somebody wrote is lost; smaller, and the rounding of a sum is listed.
const SHOWN: f64 = 1e-4;

/// Two pens side by side.
pub struct Comparison {
    sections: [Section; 2],
    examinations: [Examination; 2],
    /// The second's section in the first's barrel and cap, and the other way round.
    pub fits: [Result<Fit, Unfit>; 2],
    /// What to set of the second's section; looked for where it does not fit.
    pub section_change: Option<Adjusted>,
    /// What to set of the second's barrel and cap so that both sections, the second's with its own
    /// change, go into them; looked for where the first's does not.
    pub mates_change: Option<Adjusted>,
    /// Whether both are the same outside.
    pub same_outside: bool,
    /// What to set of the second's section so that they are, and it fits; looked for where they
    /// are not.
    pub outside_change: Option<Adjusted>,
}

/// A fact that differs; one of the two may not have it.
pub struct Difference {
    /// By what it is known.
    pub name: String,
    /// What differs.
    pub what: String,
    /// The unit of its numbers.
    pub unit: &'static str,
    /// The first's and the second's.
    pub sides: [Option<FactValue>; 2],
    /// Whether it is a size that can be set.
    pub is_size: bool,
    /// The name of the one that it goes with, which says why it differs if it does too.
    with: Option<String>,
}

impl Comparison {
    /// Measures each of two, with its verdicts, in the other's barrel and cap.
    pub fn new([a, b]: [Section; 2], examinations: [Examination; 2]) -> Self {
        let fits = [fit(&b, &a), fit(&a, &b)];
        let section_change = if goes(&fits[0]) { None } else { adjust_section(&b, &a) };
        let changed = section_change.as_ref().map_or(&b, |adjusted| &adjusted.section);
        let mates_change = if goes(&fits[1]) { None } else { adjust_mates(changed, &a) };
        let same_outside = same_outside(&a, &b);
        let outside_change = if same_outside { None } else { adjust_outside(&b, &a) };
        let sections = [a, b];
        Self {
            sections,
            examinations,
            fits,
            section_change,
            mates_change,
            same_outside,
            outside_change,
        }
    }

    /// The first's section, and the second's.
    pub fn sections(&self) -> [&Section; 2] {
        self.sections.each_ref()
    }

    /// Whether each goes into the other's barrel and cap.
    pub fn interchange(&self) -> bool {
        self.fits.iter().all(goes)
    }

    /// Every fact that differs, in the order of the first's, then what only the second has.
    pub fn differences(&self) -> Vec<Difference> {
        let [a, b] = self.sections.each_ref().map(facts);
        let find = |list: &[Fact], name: &str| list.iter().find(|it| it.name == name).cloned();
        let both = a.iter().map(|fact| (Some(fact.clone()), find(&b, &fact.name)));
        let new = b.iter().filter(|fact| find(&a, &fact.name).is_none());
        let all = both.chain(new.map(|fact| (None, Some(fact.clone()))));
        all.filter_map(|(a, b)| difference(a, b)).collect()
    }

    /// What differs and follows from nothing else that does.
    pub fn causes(&self) -> Vec<Difference> {
        let all = self.differences();
        let names: Vec<String> = all.iter().map(|it| it.name.clone()).collect();
        let follows = |it: &Difference| it.with.as_ref().is_some_and(|with| names.contains(with));
        all.into_iter().filter(|it| !follows(it)).collect()
    }

    /// The sizes that differ, as the picture has them.
    pub fn rows(&self) -> Vec<PairRow> {
        let sizes = self.differences().into_iter().filter(|it| it.is_size);
        sizes.map(|it| it.row()).collect()
    }

    /// The findings of which the verdicts differ, the first's and the second's.
    pub fn verdicts(&self) -> Vec<[Option<&Finding>; 2]> {
        let [a, b] = self.examinations.each_ref();
        let judged = |it: &&Finding| it.judgement.is_some();
        let both = a.findings.iter().filter(judged).map(|it| [Some(it), b.finding(it.code)]);
        let new = b.findings.iter().filter(judged).filter(|it| a.finding(it.code).is_none());
        let all = both.chain(new.map(|it| [None, Some(it)]));
        let verdict = |it: Option<&Finding>| it.and_then(Finding::verdict);
        all.filter(|[a, b]| verdict(*a) != verdict(*b)).collect()
    }
}

/// Whether a section goes in without a check that breaks.
pub fn goes(fit: &Result<Fit, Unfit>) -> bool {
    fit.as_ref().is_ok_and(|fit| fit.verdict() != Verdict::Breaks)
}

fn difference(a: Option<Fact>, b: Option<Fact>) -> Option<Difference> {
    let some = a.as_ref().or(b.as_ref())?;
    let Fact { name, what, unit, parameter, with, .. } = some.clone();
    let is_size = parameter.is_some();
    let sides = [a, b].map(|fact| Some(fact?.value));
    let same = match &sides {
        [Some(FactValue::Number(a)), Some(FactValue::Number(b))] => (a - b).abs() < SHOWN,
        [a, b] => a == b,
    };
    (!same).then_some(Difference { name, what, unit, sides, is_size, with })
}

impl Difference {
    /// Its words: what, both sides, by how much the second is more.
    pub fn row(&self) -> PairRow {
        let side = |value: &Option<FactValue>| match value {
            None => "none".to_owned(),
            Some(FactValue::Words(words)) => words.clone(),
            Some(FactValue::One(choice)) => choice.to_string(),
            Some(FactValue::Number(number)) => shown(*number, self.unit),
        };
        let by = match &self.sides {
            [Some(FactValue::Number(a)), Some(FactValue::Number(b))] => {
                let more = if b > a { "+" } else { "" };
                format!("{more}{}", shown(b - a, self.unit))
            }
            _ => String::new(),
        };
        [self.what.clone(), side(&self.sides[0]), side(&self.sides[1]), by]
    }
}

/// A number with the digits that it has, three after the point at most.
fn shown(number: f64, unit: &str) -> String {
    let text = if unit == "mm" { format!("{number:.3}") } else { format!("{number:.2}") };
    let cut = text.trim_end_matches('0');
    let cut = cut.strip_suffix('.').map_or_else(|| cut.to_owned(), |whole| format!("{whole}.0"));
    if unit == "deg" { format!("{cut}°") } else { cut }
}
