//! Everything that two sections may differ in, each under a name of its own: sizes, threads, what
//! the unit and the converter were measured to be, materials.
//!
//! A fact that is a size has the size's name ([`SizeId::name`]); every other name is in this file.
//! Files know a fact by its name alone, so that its words may change freely. A name that is in an
//! archive on somebody's shelf never does.
//!
//! What [`SizeId`] can set comes first; what nobody sets one by one (a bought unit's lengths, a
//! thread's pitch) follows. Sizes of holes and ends are as they are modelled.

use std::fmt;

use crate::quantity::Length;
use crate::section::{Bore, Cap, CapMouth, Facet, Feature, Flank, Item, Section, Thread};
use crate::size::SizeId;
use crate::size::words;
use crate::standard::designation::Hand;

/// What is known of one thing.
#[derive(Clone, Debug, PartialEq)]
pub enum FactValue {
    /// A number, in the fact's unit.
    Number(f64),
    /// Words of the maker's, or of a standard, such as a thread's designation.
    Words(String),
    /// One of a few.
    One(Choice),
}

/// One of the things that a fact can be, where it is no number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// A thread that turns clockwise.
    Right,
    /// One that turns the other way.
    Left,
    /// A cap with a thread for the grip.
    Thread,
    /// A cap with a hole for the barrel's thread.
    Hole,
}

impl Choice {
    /// Its name, by which files know it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Left => "left",
            Self::Thread => "thread",
            Self::Hole => "hole",
        }
    }
}

/// In words.
impl fmt::Display for Choice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Right => "right",
            Self::Left => "left",
            Self::Thread => "a thread for the grip",
            Self::Hole => "a hole for the barrel's thread",
        })
    }
}

/// One thing that is known of a section.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// Its name, which no other fact of the section has.
    pub name: String,
    /// What it is, for people, in words that no other fact of the section has.
    pub what: String,
    /// What is known.
    pub value: FactValue,
    /// `mm`, `deg`; nothing for counts and words.
    pub unit: &'static str,
    /// The size of the section, barrel or cap that can be set, if it is one.
    pub parameter: Option<SizeId>,
    /// The name of the fact that this one goes with: where that differs, it says why this does.
    pub with: Option<String>,
}

impl fmt::Display for Fact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.value, self.unit) {
            (FactValue::Words(words), _) => f.write_str(words),
            (FactValue::One(choice), _) => choice.fmt(f),
            (FactValue::Number(value), "mm") => write!(f, "{value:.3}"),
            (FactValue::Number(value), "deg") => write!(f, "{value:.2}"),
            (FactValue::Number(value), _) => write!(f, "{value}"),
        }
    }
}

/// The threads of a section: what the names of their facts begin with, and their words.
const THREADS: [(&str, &str); 6] = [
    ("thread.tenon", "tenon's thread"),
    ("thread.bores", "thread for the unit"),
    ("thread.grip", "thread for the cap"),
    ("thread.unit", "unit's own thread"),
    ("thread.barrel", "barrel's thread"),
    ("thread.cap", "cap's own thread"),
];

/// Every fact of a section, always in the same order.
pub fn facts(section: &Section) -> Vec<Fact> {
    let mut list = List(Vec::new());
    list.words("unit.name", "name of the nib unit", &section.unit.name);
    list.words("material", "material", &section.material);
    list.threads(section);
    for parameter in parameters(section) {
        list.size(parameter, section, name(parameter, section), Some(parameter));
    }
    list.beside(section);
    list.mates(section);
    list.0
}

/// Every size that can be set, each once.
fn parameters(section: &Section) -> Vec<SizeId> {
    let grip = &section.grip;
    let mut all = SizeId::cut(section);
    all.extend(SizeId::of(section));
    all.extend((0..=u8::MAX).take(grip.runs.len() + 1).map(SizeId::CornerAngle));
    all.extend(
        grip.rings
            .iter()
            .map(|ring| ring.item)
            .flat_map(|item| [SizeId::RingFloor(item), SizeId::RingRadius(item)]),
    );
    all.extend(section.bores.iter().map(|bore| SizeId::PointAngle(bore.item)));
    all.extend([
        SizeId::PointAngle(Item::CentrePilot),
        SizeId::TenonChamferAngle,
        SizeId::TenonThreadStart,
        SizeId::TenonThreadEnd,
        SizeId::GripThreadStart,
        SizeId::GripThreadEnd,
        SizeId::UnitThreadStart,
        SizeId::HoldingOffset,
        SizeId::LongHoleOffset,
    ]);
    let mut seen = Vec::new();
    all.retain(|parameter| {
        let new = !seen.contains(parameter);
        seen.push(*parameter);
        new
    });
    all
}

/// A size in words that no other size of the section has: of several bore steps, the words say
/// which.
fn name(parameter: SizeId, section: &Section) -> String {
    let feature = |item| Feature::new(item, Facet::Side).to_string();
    let numbered = match parameter {
        SizeId::BoreDiameter(item)
        | SizeId::BoreDepth(item)
        | SizeId::ReliefStart(item)
        | SizeId::PointAngle(item) => {
            let alike = |bore: &&Bore| words::item(bore.item) == words::item(item);
            (section.bores.iter().filter(alike).count() > 1).then(|| feature(item))
        }
        _ => None,
    };
    numbered.map_or_else(|| parameter.to_string(), |which| format!("{parameter} ({which})"))
}

/// Facts on their way.
struct List(Vec<Fact>);

impl List {
    fn add(&mut self, [name, what]: [String; 2], value: FactValue, unit: &'static str) {
        self.0.push(Fact { name, what, value, unit, parameter: None, with: None });
    }

    fn words(&mut self, name: &str, what: &str, words: &str) {
        self.add([name, what].map(str::to_owned), FactValue::Words(words.to_owned()), "");
    }

    /// A size by its own name; nothing where the section has none.
    fn size(&mut self, one: SizeId, section: &Section, what: String, parameter: Option<SizeId>) {
        let Some(value) = one.get(section) else { return };
        let (name, unit) = (one.name(), one.definition().dimension.unit());
        let value = FactValue::Number(value);
        self.0.push(Fact { name, what, value, unit, parameter, with: None });
    }

    /// The facts noted since there were so many go with another.
    fn go_with(&mut self, since: usize, with: &str) {
        for fact in &mut self.0[since..] {
            fact.with = Some(with.to_owned());
        }
    }

    fn mm(&mut self, names: [String; 2], length: Length) {
        self.add(names, FactValue::Number(length.as_mm()), "mm");
    }

    /// What can't be set of the section's own shape.
    fn beside(&mut self, section: &Section) {
        for one in [SizeId::Facing, SizeId::Sanding] {
            self.size(one, section, one.to_string(), None);
        }
        for bore in &section.bores {
            let (since, diameter) = (self.0.len(), SizeId::BoreDiameter(bore.item).name());
            let side = Feature::new(bore.item, Facet::Side);
            for (end, length) in [("least", bore.limits.min()), ("most", bore.limits.max())] {
                let what = format!("{end} that the {side} comes out");
                self.mm([format!("{diameter}.{end}"), what], length);
            }
            self.go_with(since, &diameter);
        }
        let counterbore = SizeId::CounterboreDiameter;
        self.size(counterbore, section, counterbore.to_string(), None);
    }

    fn threads(&mut self, section: &Section) {
        let inside = section.cap.as_ref().and_then(Cap::thread);
        let on_grip = section.grip.thread.as_ref().map(|cap| &cap.thread);
        let threads = [
            Some(&section.tenon.thread),
            Some(&section.unit_thread),
            on_grip,
            Some(&section.unit.thread),
            Some(&section.barrel.thread),
            inside,
        ];
        for (names, thread) in THREADS.into_iter().zip(threads) {
            if let Some(thread) = thread {
                self.thread(names, thread);
            }
        }
    }

    fn thread(&mut self, (key, words): (&str, &str), thread: &Thread) {
        let Thread { designation, form, from, to, run_outs, limits, phase, .. } = thread;
        let of = |name: &str, what: &str| [format!("{key}.{name}"), format!("{words}: {what}")];
        let [designated, what] = of("designation", "designation");
        self.words(&designated, &what, &designation.to_string());
        let since = self.0.len();
        let hand = if form.hand == Hand::Left { Choice::Left } else { Choice::Right };
        self.add(of("hand", "hand"), FactValue::One(hand), "");
        self.add(of("starts", "starts"), FactValue::Number(f64::from(form.starts)), "");
        let angle = FactValue::Number(form.half_angle.as_deg());
        self.add(of("half_angle", "half angle"), angle, "deg");
        for (name, what, length) in [
            ("pitch", "pitch", form.pitch),
            ("crest", "diameter of the crest", form.crest),
            ("root", "diameter of the root", form.root),
            ("pitch_diameter", "pitch diameter", form.pitch_diameter),
            ("crest_radius", "radius of the crest", form.crest_radius),
            ("root_radius", "radius of the root", form.root_radius),
            ("from", "beginning", *from),
            ("to", "end", *to),
            ("phase", "phase", *phase),
            ("major.least", "least major diameter", limits.major.min()),
            ("major.most", "greatest major diameter", limits.major.max()),
            ("pitch_diameter.least", "least pitch diameter", limits.pitch.min()),
            ("pitch_diameter.most", "greatest pitch diameter", limits.pitch.max()),
            ("minor.least", "least minor diameter", limits.minor.min()),
            ("minor.most", "greatest minor diameter", limits.minor.max()),
        ] {
            self.mm(of(name, what), length);
        }
        let ends = [("run_out.from", "beginning"), ("run_out.to", "end")];
        for ((name, end), run_out) in ends.into_iter().zip(run_outs) {
            let length = run_out.length(form.lead());
            self.mm(of(name, &format!("run-out at its {end}")), length);
        }
        if let Flank::Points(points) = &form.flank {
            for (n, point) in (1..).zip(points) {
                let depth = format!("depth of flank point {n}");
                self.mm(of(&format!("flank.{n}.depth"), &depth), point.depth);
                let width = format!("width at flank point {n}");
                self.mm(of(&format!("flank.{n}.width"), &width), point.ridge);
            }
        }
        self.go_with(since, &designated);
    }

    /// What the section meets, and the rod.
    fn mates(&mut self, section: &Section) {
        let steps = section.unit.steps.iter().map(|step| step.item);
        let steps =
            steps.flat_map(|item| [SizeId::UnitStepDiameter(item), SizeId::UnitStepEnd(item)]);
        let bores = section.cap.iter().flat_map(|cap| (1..).zip(&cap.bores));
        let sizes = [SizeId::CollarDiameter, SizeId::CollarThickness].into_iter().chain(steps);
        let sizes = sizes.chain([
            SizeId::UnitChamfer,
            SizeId::NibReach,
            SizeId::NibWidth,
            SizeId::ConverterDiameter,
            SizeId::ConverterLength,
            SizeId::ConverterOntoNipple,
            SizeId::ConverterMouthDiameter,
            SizeId::ConverterMouthLength,
            SizeId::CapCounterboreDiameter,
            SizeId::CapCounterboreDepth,
        ]);
        for one in sizes.chain(bores.map(|(n, _)| SizeId::CapBoreEnd(n))) {
            self.size(one, section, one.to_string(), None);
        }
        if let Some(cap) = &section.cap {
            let mouth = match cap.mouth {
                CapMouth::Thread(_) => Choice::Thread,
                CapMouth::Minor { .. } => Choice::Hole,
            };
            let names = ["cap.mouth", "mouth of the cap"].map(str::to_owned);
            self.add(names, FactValue::One(mouth), "");
        }
        for one in [SizeId::BlankDiameter, SizeId::BlankLength] {
            self.size(one, section, one.to_string(), None);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};

    fn fixtures() -> Vec<Section> {
        let names = ["r1", "capped", "outside", "both-ends", "reliefs", "threads", "blind"];
        let paths = names.iter().map(|name| format!("tests/fixtures/{name}.toml"));
        let load = |path: String| load(&Library::default(), &path).unwrap().section;
        paths.chain(["demo".to_owned()]).map(load).collect()
    }

    #[test]
    fn no_two_facts_have_one_name() {
        for section in fixtures() {
            let all = facts(&section);
            let once = |mut names: Vec<String>| {
                names.sort();
                names.dedup();
                assert_eq!(names.len(), all.len(), "{}: {names:?}", section.name);
            };
            once(all.iter().map(|fact| fact.name.clone()).collect());
            once(all.iter().map(|fact| fact.what.clone()).collect());
        }
    }

    /// Whatever can be set shows.
    #[test]
    fn every_size_that_changes_is_seen() {
        for section in fixtures() {
            for parameter in parameters(&section) {
                let Some(value) = parameter.get(&section) else { continue };
                let Some(changed) = parameter.set(&section, value + 0.25) else { continue };
                let find =
                    |section| facts(section).into_iter().find(|f| f.parameter == Some(parameter));
                let (before, after) = (find(&section).unwrap(), find(&changed).unwrap());
                assert_ne!(before, after, "{}: {parameter}", section.name);
            }
        }
    }
}
