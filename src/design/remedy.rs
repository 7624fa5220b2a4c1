//! Faults that are found below the design, said of its files: where, and with which value it works.
//!
//! ```text
//!   fault: code, words, the items that it is about
//!     -> the sizes that place those items        (size)
//!     -> where each is written, or what it follows from (values)
//!     -> the least change of one value with which the same work succeeds: found by doing it
//! ```

use super::resolved::Resolved;
use super::values::Values;
use super::write::{InFile, Write};
use crate::diagnostic::{Diagnostic, Place};
use crate::section::{Item, Section};
use crate::size::SizeId;

/// A reason why something can't be made of a sound section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// A stable code.
    pub code: &'static str,
    /// What is the matter, in one sentence without a full stop.
    pub message: String,
    /// What it is about; nothing where that is not known.
    pub about: Vec<Item>,
    /// What helps where no value of the design does.
    pub hint: String,
}

/// What is said to do where no one value helps.
const TAKE_BACK: &str = "no one value of the design mends it: take back what was changed last";

impl Fault {
    /// A fault that is about nothing in particular.
    pub fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, message: message.into(), about: Vec::new(), hint: TAKE_BACK.to_owned() }
    }

    /// With what it is about.
    #[must_use]
    pub fn about(mut self, items: impl IntoIterator<Item = Item>) -> Self {
        self.about.extend(items);
        self
    }

    /// With what helps where no value of the design does.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = hint.into();
        self
    }

    /// With words in front that say of what it is a fault.
    #[must_use]
    pub fn of(mut self, what: &str) -> Self {
        self.message = format!("{what}: {}", self.message);
        self
    }
}

/// By which share of itself a value is changed, the least first. Larger changes would make another
/// pen; finer steps between are found by halving.
const SHARES: [f64; 7] = [0.01, 0.03, 0.1, 0.2, 0.4, 0.7, 1.5];

/// A value below this changes by shares of this, in millimetres or degrees: shares of nothing are
/// nothing.
const LEAST_BASE: f64 = 1.0;

/// How often the way between a value that fails and one that works is halved: more, and it is finer
/// than a caliper shows.
const HALVINGS: usize = 7;

/// Values that are tried at most: more, and a fault whose work takes a while takes minutes to be
/// said.
const MOST_TRIALS: usize = 1500;

/// A value that may be changed.
struct Candidate {
    value: f64,
    at: Place,
    by: By,
}

/// How it is written.
enum By {
    Size(SizeId),
    Key(InFile, String),
}

impl Resolved {
    /// Does something with the section.
    ///
    /// # Errors
    /// What prevents it, with the place of the value to change and one with which it works.
    pub fn attempt<T, E: Into<Fault>>(
        &self,
        work: impl Fn(&Section) -> Result<T, E>,
    ) -> Result<T, Box<Diagnostic>> {
        let failed = |error: E| Box::new(self.told(error.into(), &|section| work(section).is_ok()));
        work(&self.section).map_err(failed)
    }

    /// A fault with the place of what it is about, or else of the design, and what helps.
    pub fn placed(&self, fault: Fault) -> Diagnostic {
        self.told(fault, &|_| false)
    }

    /// A fault with its places, and the least change of one value with which it is none: `works`
    /// says so of a section.
    pub fn told(&self, fault: Fault, works: &dyn Fn(&Section) -> bool) -> Diagnostic {
        let Fault { code, message, about, hint } = fault;
        let values = &self.values;
        let concerned = SizeId::placing(&about, &self.section);
        let first = concerned.first().map(|size| values.place(&self.section, *size));
        let said = Diagnostic::error(code, message);
        let Some(Found { candidate, writes }) = self.remedy(&concerned, works) else {
            return said.at(first.unwrap_or_else(|| values.start())).hint(hint);
        };
        let said = said.at(candidate.at).hint(in_words(&writes));
        // Where something else is changed, what it is about is shown too; the start of a file is no
        // place to show beside another.
        let is_about = |size: &SizeId| !matches!(candidate.by, By::Size(by) if by == *size);
        let others = concerned.iter().all(is_about);
        match (first, concerned.first()) {
            (Some(first), Some(size))
                if others && first != candidate.at && first.start < first.end =>
            {
                said.also(first, size.to_string())
            }
            _ => said,
        }
    }

    fn remedy(&self, concerned: &[SizeId], works: &dyn Fn(&Section) -> bool) -> Option<Found> {
        let (values, section) = (&self.values, &self.section);
        let of_size = |size: &SizeId| {
            let value = size.get(section)?;
            values.writes(section, *size, value)?;
            let at = values.place(section, *size);
            Some(Candidate { value, at, by: By::Size(*size) })
        };
        let mut others = SizeId::all(section);
        others.retain(|size| !concerned.contains(size));
        others.sort_by_key(|size| size.change_order());
        let written = values.numbers().into_iter().map(|number| Candidate {
            value: number.value,
            at: number.at,
            by: By::Key(number.file, number.key),
        });
        let groups: [Vec<Candidate>; 3] = [
            concerned.iter().filter_map(of_size).collect(),
            others.iter().filter_map(of_size).collect(),
            written.collect(),
        ];
        let mut search = Search { values, section, works, left: MOST_TRIALS };
        groups.into_iter().find_map(|group| search.least(group))
    }
}

/// A change with which it works.
struct Found {
    candidate: Candidate,
    writes: Vec<Write>,
}

struct Search<'a> {
    values: &'a Values,
    section: &'a Section,
    works: &'a dyn Fn(&Section) -> bool,
    left: usize,
}

impl Search<'_> {
    /// The least change of one of some values.
    fn least(&mut self, mut group: Vec<Candidate>) -> Option<Found> {
        let mut before = 0.0;
        for share in SHARES {
            for n in 0..group.len() {
                for sign in [1.0, -1.0] {
                    let (good, bad) = (sign * share, sign * before);
                    if self.tried(&group[n], good).is_some() {
                        let candidate = group.swap_remove(n);
                        return self.refined(candidate, good, bad);
                    }
                }
            }
            before = share;
        }
        None
    }

    /// The least of the changes between one that works and one that does not.
    fn refined(&mut self, candidate: Candidate, mut good: f64, mut bad: f64) -> Option<Found> {
        self.left = self.left.max(HALVINGS + 1);
        let mut writes = self.tried(&candidate, good)?;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(good, bad);
            match self.tried(&candidate, middle) {
                Some(nearer) => (good, writes) = (middle, nearer),
                None => bad = middle,
            }
        }
        Some(Found { candidate, writes })
    }

    /// What to write so that a value changes by a share, if it works then.
    fn tried(&mut self, candidate: &Candidate, share: f64) -> Option<Vec<Write>> {
        self.left = self.left.checked_sub(1)?;
        let Candidate { value, by, .. } = candidate;
        let to = rounded(value + share * value.abs().max(LEAST_BASE));
        if to == *value || (to < 0.0 && *value >= 0.0) {
            return None;
        }
        let mut writes = match by {
            By::Size(size) => self.values.writes(self.section, *size, to)?,
            By::Key(file, key) => vec![self.values.write_in(*file, key.clone(), to)],
        };
        for write in &mut writes {
            write.value = rounded(write.value);
        }
        let changed = self.values.with_writes(&writes).ok()?;
        (self.works)(&changed).then_some(writes)
    }
}

/// As a caliper shows it.
fn rounded(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

/// What to write, key by key.
fn in_words(writes: &[Write]) -> String {
    let one = |Write { file, key, value, inherited }: &Write| {
        let file = match (file, inherited) {
            (InFile::Unit, _) => " in the nib unit's file",
            (InFile::Design, true) => " in the file that this one is like",
            (InFile::Design, false) => "",
        };
        format!("`{key} = {value}`{file}")
    };
    let list: Vec<String> = writes.iter().map(one).collect();
    format!("write {}", list.join(" and "))
}
