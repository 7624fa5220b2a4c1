//! Everything that two sections may differ in, each under a name of its own: sizes, threads, what
//! the unit and the converter were measured to be, materials.
//!
//! What [`SizeId`] can set comes first, in its words; what nobody sets one by one (a bought
//! unit's lengths, a thread's pitch) follows. Sizes of holes and ends are as they are modelled.

use std::fmt;

use crate::quantity::Length;
use crate::section::{
    Bore, Cap, CapMouth, Converter, Facet, Feature, Flank, Item, Section, Thread, Unit,
};
use crate::size::SizeId;
use crate::size::words;
use crate::standard::designation::Hand;

/// What is known of one thing.
#[derive(Clone, Debug, PartialEq)]
pub enum FactValue {
    /// A number, in the fact's unit.
    Number(f64),
    /// Words, such as a thread's designation.
    Words(String),
}

/// One thing that is known of a section.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// What it is, in words that no other fact of the section has.
    pub what: String,
    /// What is known.
    pub value: FactValue,
    /// `mm`, `deg`; nothing for counts and words.
    pub unit: &'static str,
    /// The size of the section, barrel or cap that can be set, if it is one.
    pub parameter: Option<SizeId>,
    /// The fact that this one goes with: where that differs, it says why this does.
    pub with: Option<String>,
}

impl fmt::Display for Fact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.value, self.unit) {
            (FactValue::Words(words), _) => f.write_str(words),
            (FactValue::Number(value), "mm") => write!(f, "{value:.3}"),
            (FactValue::Number(value), "deg") => write!(f, "{value:.2}"),
            (FactValue::Number(value), _) => write!(f, "{value}"),
        }
    }
}

/// Every fact of a section, always in the same order.
pub fn facts(section: &Section) -> Vec<Fact> {
    let mut list = List(Vec::new());
    list.words("name of the nib unit", &section.unit.name);
    list.words("material", &section.material);
    list.threads(section);
    for parameter in parameters(section) {
        let Some(value) = parameter.get(section) else { continue };
        let unit = if parameter.is_angle() { "deg" } else { "mm" };
        let fact = Fact {
            what: name(parameter, section),
            value: FactValue::Number(value),
            unit,
            parameter: Some(parameter),
            with: None,
        };
        list.0.push(fact);
    }
    list.beside(section);
    list.unit(&section.unit);
    list.converter(section.converter.as_ref());
    list.cap(section.cap.as_ref());
    list.mm("diameter of the rod", section.blank.diameter);
    list.mm("length of the rod", section.blank.length);
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
    fn words(&mut self, what: impl Into<String>, words: &str) {
        let value = FactValue::Words(words.to_owned());
        self.0.push(Fact { what: what.into(), value, unit: "", parameter: None, with: None });
    }

    fn number(&mut self, what: impl Into<String>, value: f64, unit: &'static str) {
        let value = FactValue::Number(value);
        self.0.push(Fact { what: what.into(), value, unit, parameter: None, with: None });
    }

    /// The facts noted since there were so many go with another.
    fn go_with(&mut self, since: usize, with: &str) {
        for fact in &mut self.0[since..] {
            fact.with = Some(with.to_owned());
        }
    }

    fn mm(&mut self, what: impl Into<String>, length: Length) {
        self.number(what, length.as_mm(), "mm");
    }

    /// What can't be set of the section's own shape.
    fn beside(&mut self, section: &Section) {
        self.mm("allowance for facing", section.allowance.facing);
        self.mm("allowance for sanding", section.allowance.sanding);
        for bore in &section.bores {
            let name = Feature::new(bore.item, Facet::Side);
            let since = self.0.len();
            self.mm(format!("least that the {name} comes out"), bore.limits.min());
            self.mm(format!("most that the {name} comes out"), bore.limits.max());
            self.go_with(since, &self::name(SizeId::BoreDiameter(bore.item), section));
        }
        if let Some(counterbore) = section.barrel.counterbore {
            self.mm("diameter of the barrel's counterbore", counterbore.diameter);
        }
    }

    fn threads(&mut self, section: &Section) {
        let inside = section.cap.as_ref().and_then(Cap::thread);
        let on_grip = section.grip.thread.as_ref().map(|cap| &cap.thread);
        let named = [
            ("tenon's thread", Some(&section.tenon.thread)),
            ("thread for the unit", Some(&section.unit_thread)),
            ("thread for the cap", on_grip),
            ("unit's own thread", Some(&section.unit.thread)),
            ("barrel's thread", Some(&section.barrel.thread)),
            ("cap's own thread", inside),
        ];
        for (name, thread) in named {
            if let Some(thread) = thread {
                self.thread(name, thread);
            }
        }
    }

    fn thread(&mut self, name: &str, thread: &Thread) {
        let Thread { designation, form, from, to, run_outs, limits, phase, .. } = thread;
        let designated = format!("{name}: designation");
        self.words(&designated, &designation.to_string());
        let since = self.0.len();
        let hand = if form.hand == Hand::Left { "left" } else { "right" };
        self.words(format!("{name}: hand"), hand);
        self.number(format!("{name}: starts"), f64::from(form.starts), "");
        self.number(format!("{name}: half angle"), form.half_angle.as_deg(), "deg");
        for (what, length) in [
            ("pitch", form.pitch),
            ("diameter of the crest", form.crest),
            ("diameter of the root", form.root),
            ("pitch diameter", form.pitch_diameter),
            ("radius of the crest", form.crest_radius),
            ("radius of the root", form.root_radius),
            ("beginning", *from),
            ("end", *to),
            ("phase", *phase),
            ("least major diameter", limits.major.min()),
            ("greatest major diameter", limits.major.max()),
            ("least pitch diameter", limits.pitch.min()),
            ("greatest pitch diameter", limits.pitch.max()),
            ("least minor diameter", limits.minor.min()),
            ("greatest minor diameter", limits.minor.max()),
        ] {
            self.mm(format!("{name}: {what}"), length);
        }
        let lead = form.lead();
        for (end, run_out) in ["beginning", "end"].into_iter().zip(run_outs) {
            self.mm(format!("{name}: run-out at its {end}"), run_out.length(lead));
        }
        if let Flank::Points(points) = &form.flank {
            for (n, point) in (1..).zip(points) {
                self.mm(format!("{name}: depth of flank point {n}"), point.depth);
                self.mm(format!("{name}: width at flank point {n}"), point.ridge);
            }
        }
        self.go_with(since, &designated);
    }

    fn unit(&mut self, unit: &Unit) {
        self.mm("diameter of the unit's collar", unit.collar.value);
        self.mm("thickness of the unit's collar", unit.thickness.value);
        for step in &unit.steps {
            let name = words::item(step.item);
            self.mm(format!("diameter of the {name}"), step.diameter.value);
            self.mm(format!("end of the {name}"), step.to.value);
        }
        self.mm("chamfer of the unit's thread", unit.chamfer);
        self.mm("reach of the nib", unit.nib_reach.value);
        self.mm("width of the nib", unit.nib_width.value);
    }

    fn converter(&mut self, converter: Option<&Converter>) {
        let Some(Converter { diameter, length, onto_nipple, mouth }) = converter else { return };
        self.mm("diameter of the converter", diameter.value);
        self.mm("length of the converter", length.value);
        self.mm("how far the converter goes onto the nipple", onto_nipple.value);
        if let Some(mouth) = mouth {
            self.mm("diameter of the converter's mouth", mouth.diameter.value);
            self.mm("length of the converter's mouth", mouth.length.value);
        }
    }

    fn cap(&mut self, cap: Option<&Cap>) {
        let Some(cap) = cap else { return };
        if let Some(counterbore) = cap.counterbore {
            self.mm("diameter of the cap's counterbore", counterbore.diameter);
            self.mm("depth of the cap's counterbore", counterbore.depth);
        }
        for (n, bore) in (1..).zip(&cap.bores) {
            self.mm(format!("end of the cap's bore {n}"), bore.to);
        }
        let mouth = match cap.mouth {
            CapMouth::Thread(_) => "a thread for the grip",
            CapMouth::Minor { .. } => "a hole for the barrel's thread",
        };
        self.words("mouth of the cap", mouth);
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
            let mut names: Vec<String> =
                facts(&section).into_iter().map(|fact| fact.what).collect();
            let count = names.len();
            names.sort();
            names.dedup();
            assert_eq!(names.len(), count, "{}: {names:?}", section.name);
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
