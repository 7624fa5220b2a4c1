//! Which archives are looked for.

use crate::archive::shelf::Row;
use crate::design::is_day;
use crate::diagnostic::Diagnostic;
use crate::quantity::{Length, LengthError, parse_length};
use crate::standard::designation::ThreadDesignation;

/// What of an archive is asked for. All of it has to be so.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Looked {
    /// Words in the design's name, whatever the case.
    pub name: Option<String>,
    /// Words in the nib unit's name.
    pub unit: Option<String>,
    /// The thread for the unit: `M7.9x0.6`.
    pub thread: Option<String>,
    /// The tenon's thread, with its class or without.
    pub tenon: Option<String>,
    /// Length of the grip, to half a tenth.
    pub grip: Option<String>,
    /// Diameter at the shoulder, to half a tenth.
    pub shoulder: Option<String>,
    /// Words in the material's name.
    pub material: Option<String>,
    /// The worst verdict: holds, close, breaks.
    pub verdict: Option<String>,
    /// The day of keeping, its month or its year.
    pub date: Option<String>,
}

/// Lengths this near are the same to who measures with a caliper: half a tenth. Less, and a pen that
/// is measured is not found; more, and others are.
const NEAR: Length = Length::mm(0.05);

/// What is asked for, understood.
#[derive(Debug, Default)]
pub(super) struct Filter {
    /// Words in a name: of the design, the unit, the material.
    words: [Option<String>; 3],
    threads: [Option<ThreadDesignation>; 2],
    /// Length of the grip, diameter at the shoulder.
    lengths: [Option<Length>; 2],
    verdict: Option<String>,
    date: Option<String>,
}

impl Filter {
    /// Reads what is asked for; notes all that is wrong with it.
    pub fn read(looked: &Looked, wrong: &mut Vec<Diagnostic>) -> Self {
        let words = [&looked.name, &looked.unit, &looked.material];
        let words = words.map(|words| words.as_ref().map(|words| words.to_lowercase()));
        let mut thread = |option: &str, typed: &Option<String>| {
            let designation = typed.as_ref()?.parse::<ThreadDesignation>();
            let told = |why| {
                Diagnostic::error("shelf.thread", format!("--{option}: {why}"))
                    .hint(format!("--{option} M10x0.75"))
            };
            designation.map_err(|why| wrong.push(told(why))).ok()
        };
        let threads = [thread("thread", &looked.thread), thread("tenon", &looked.tenon)];
        let mut length = |option: &str, typed: &Option<String>| {
            let told = |why: LengthError| {
                Diagnostic::error("shelf.length", format!("--{option}: {why}")).hint(why.hint())
            };
            parse_length(typed.as_ref()?).map_err(|why| wrong.push(told(why))).ok()
        };
        let lengths = [length("grip", &looked.grip), length("shoulder", &looked.shoulder)];
        let verdicts = ["holds", "close", "breaks"];
        if let Some(other) = looked.verdict.as_ref().filter(|it| !verdicts.contains(&it.as_str())) {
            let message = format!("{other:?} is no verdict; there are {}", verdicts.join(", "));
            wrong.push(Diagnostic::error("shelf.verdict", message).hint("--verdict holds"));
        }
        if let Some(other) = looked.date.as_ref().filter(|date| !is_start_of_a_day(date)) {
            let message = format!("{other:?} is no year, month or day as ISO 8601 writes it");
            wrong.push(Diagnostic::error("shelf.date", message).hint("--date 2031-05"));
        }
        Self { words, threads, lengths, verdict: looked.verdict.clone(), date: looked.date.clone() }
    }

    /// Whether an archive is asked for.
    pub fn passes(&self, row: &Row) -> bool {
        let names = [&row.name, &row.unit, &row.material];
        let words = self.words.iter().zip(names);
        let mut words = words.filter_map(|(words, name)| Some((words.as_ref()?, name)));
        let threads = self.threads.iter().zip([&row.thread, &row.tenon]);
        let mut threads = threads.filter_map(|(wanted, has)| Some((wanted.as_ref()?, has)));
        let [length, _, shoulder] = row.grip_mm;
        let lengths = self.lengths.iter().zip([length, shoulder].map(Length::mm));
        let mut lengths = lengths.filter_map(|(wanted, has)| Some(((*wanted)?, has)));
        words.all(|(words, name)| name.to_lowercase().contains(words.as_str()))
            && threads.all(|(wanted, has)| is_thread(wanted, has))
            && lengths.all(|(wanted, has)| (wanted - has).abs() <= NEAR)
            && self.verdict.as_ref().is_none_or(|verdict| *verdict == row.verdict)
            && self.date.as_ref().is_none_or(|wanted| {
                row.date.as_ref().is_some_and(|date| date.starts_with(wanted.as_str()))
            })
    }
}

/// A year, a month, a day: the digits of a day as far as they go.
fn is_start_of_a_day(date: &str) -> bool {
    let rest = match date.len() {
        4 => "-01-01",
        7 => "-01",
        _ => "",
    };
    is_day(&format!("{date}{rest}"))
}

/// Whether a designation is the thread that is looked for; its class counts where one is asked for.
fn is_thread(wanted: &ThreadDesignation, has: &str) -> bool {
    let Ok(has) = has.parse::<ThreadDesignation>() else { return false };
    let class = wanted.class().is_none() || wanted.class() == has.class();
    class && wanted.diameter() == has.diameter() && turns_alike(wanted, &has)
}

/// Whether a thread may go into another: pitch, starts and hand are the same, and the diameters
/// near enough for the checker to look at.
pub(super) fn same_thread(has: &str, other: &ThreadDesignation) -> bool {
    let Ok(has) = has.parse::<ThreadDesignation>() else { return false };
    turns_alike(&has, other)
}

fn turns_alike(a: &ThreadDesignation, b: &ThreadDesignation) -> bool {
    a.pitch() == b.pitch() && a.starts() == b.starts() && a.hand() == b.hand()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is looked for, in pairs of name and value.
    fn filter(words: &[&str]) -> (Filter, Vec<&'static str>) {
        let mut looked = Looked::default();
        for pair in words.chunks(2) {
            let value = match pair[0] {
                "name" => &mut looked.name,
                "unit" => &mut looked.unit,
                "thread" => &mut looked.thread,
                "tenon" => &mut looked.tenon,
                "grip" => &mut looked.grip,
                "shoulder" => &mut looked.shoulder,
                "material" => &mut looked.material,
                "verdict" => &mut looked.verdict,
                _ => &mut looked.date,
            };
            *value = Some(pair[1].to_owned());
        }
        let mut wrong = Vec::new();
        let filter = Filter::read(&looked, &mut wrong);
        (filter, wrong.iter().map(|fault| fault.code).collect())
    }

    fn row() -> Row {
        Row {
            name: "Pen 7".into(),
            unit: "Demo unit".into(),
            thread: "M7.9x0.6-6H".into(),
            tenon: "M10x0.75-6g".into(),
            grip_mm: [22.0, 10.2, 12.4],
            material: "cast-resin".into(),
            verdict: "close".into(),
            date: Some("2031-05-01".into()),
            tool: "0.1.0".into(),
        }
    }

    #[test]
    fn each_filter_finds_and_leaves() {
        let pairs = [
            ("name", "pen", "ink"),
            ("unit", "DEMO", "other"),
            ("thread", "M7.9x0.6", "M8x0.6"),
            ("tenon", "M10x0.75", "M10x1"),
            ("tenon", "M10x0.75-6g", "M10x0.75-6h"),
            ("tenon", "M10x0.75", "M10x0.75-LH"),
            ("grip", "22.04", "22.1"),
            ("shoulder", "12.4 mm", "12.3"),
            ("material", "resin", "ebonite"),
            ("verdict", "close", "holds"),
            ("date", "2031", "2032"),
            ("date", "2031-05", "2031-06"),
        ];
        for (option, finds, leaves) in pairs {
            assert!(filter(&[option, finds]).0.passes(&row()), "{option} {finds}");
            assert!(!filter(&[option, leaves]).0.passes(&row()), "{option} {leaves}");
        }
        let all = filter(&["name", "pen", "verdict", "holds"]);
        assert!(!all.0.passes(&row()), "all of it has to be so");
    }

    #[test]
    fn everything_that_is_wrong_is_said() {
        let (_, codes) = filter(&[
            "thread", "M", "tenon", "10", "grip", "long", "verdict", "good", "date", "2031-13",
        ]);
        let expected =
            ["shelf.thread", "shelf.thread", "shelf.length", "shelf.verdict", "shelf.date"];
        assert_eq!(codes, expected);
    }
}
